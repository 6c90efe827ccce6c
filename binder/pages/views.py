"""What templates and protocols may name: the farm's facts as finished text, nothing to compute.

A field that the owner left out holds the words "not recorded"; nothing prints as blank. Texts
are `Rich` where they may carry links (sheets, phone numbers, the working of a number).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder.pages.text.rich import Rich, Text
from binder.problems import did_you_mean, quotable

if TYPE_CHECKING:
    from collections.abc import Mapping

    from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class FarmView:
    """The farm: `farm.name` and so on."""

    name: str
    address: Text
    directions: Text
    owner_says: Text
    thermometer: Text
    hygrometer: Text
    eggs: Text
    phone_signal: str


@dataclass(frozen=True, slots=True)
class GroupView:
    """One animal or group on the day of the binder."""

    name: str
    count: int
    cls: str
    who: str
    mark: Text
    notes: str
    medicine: str
    due: Text
    weight: Text
    weighed: bool
    water: Text
    picture: str


@dataclass(frozen=True, slots=True)
class HoseView:
    """A hose with what it does to the water in it."""

    id: str
    name: str
    pens: str
    measure: Text
    bypass: Text
    holds: Text
    held: Text
    flush_time: Text
    flush_volume: Text
    interval: Text
    too_warm: Text
    still: Text
    outlet: Text
    shut_off: Text
    notes: str


@dataclass(frozen=True, slots=True)
class WallowView:
    """A wallow with its volumes and its care."""

    id: str
    name: str
    pen: str
    size: Text
    deep: Text
    volume_low: Text
    volume_high: Text
    top_up: Text
    area: Text
    refresh: Text
    next_place: Text
    notes: str


@dataclass(frozen=True, slots=True)
class FanView:
    """A fan: where it hangs, where it is switched, what feeds it."""

    pen: str
    switch: Text
    circuit: Text
    cleaned: Text
    notes: str


@dataclass(frozen=True, slots=True)
class FeedView:
    """What one group is fed on one day; `each` is plain text where no meal is known."""

    pen: str
    group: str
    feed: Text
    scoop: Text
    each: Text
    morning: Text
    evening: Text
    meal: Text
    when: str
    water: Text
    line: Text


@dataclass(frozen=True, slots=True)
class TaskView:
    """One thing to do in a pen at each visit."""

    task: str
    how: Text
    amount: Text
    minutes: Text


@dataclass(frozen=True, slots=True)
class AskView:
    """What one band asks in one pen; `above` is what milder ones ask and still holds."""

    band: int
    word: str
    at: Text
    back_in: str
    do: str
    above: str = ""


@dataclass(frozen=True, slots=True)
class PenView:
    """A pen and all that is in it."""

    id: str
    name: str
    slug: str
    sheet: Text
    kind: str
    who: str
    gate: Text
    feeder: Text
    notes: str
    water: Text
    drinkers: Text
    drinkers_enough: Text
    fed_by: str
    hose: HoseView | None
    hose_line: Text
    wallow: WallowView | None
    shade: Text
    shelter: Text
    air: Text
    phone_signal: str
    wet_with: str
    groups: tuple[GroupView, ...]
    fans: tuple[FanView, ...]
    feeds: tuple[FeedView, ...]
    tasks: tuple[TaskView, ...]
    asks: tuple[AskView, ...]
    intervals: Mapping[str, str] = field(default_factory=dict)
    picture: str = ""
    drawings: tuple[Markup, ...] = ()
    chart: Text = ""
    charts: tuple[str, ...] = ()

    def every(self, band: str) -> str:
        """Return the round interval of a band: `2 hours`.

        Raises:
            ValueError: there is no such band.
        """
        if band not in self.intervals:
            message = f'"{quotable(band)}" is no band{did_you_mean(band, self.intervals)}'
            raise ValueError(message)
        return self.intervals[band]


@dataclass(frozen=True, slots=True)
class PlainView:
    """A thing with a few texts, for lists of equipment.

    Attributes used: circuits (name where limit load), generators (name where connection fuel
    hours runs watts), tanks (name holds where), stores (name lasts), sources of water (name
    kind shut_off), shut-offs (what where), products (name strength kept), buckets (name holds),
    medicines (name text), due (name pen what window watch_from), boars (name pen notes),
    may_decide (name text).
    """

    texts: Mapping[str, Text]

    def __getattr__(self, name: str) -> Text:
        """Return the text of that name."""
        try:
            return self.texts[name]
        except KeyError:
            raise AttributeError(name) from None


@dataclass(frozen=True, slots=True)
class DayView:
    """The farm's hot day."""

    high: Text
    low: Text
    dew_point: Text
    assumed: bool
    hottest_at: str
    sunrise: str
    sunset: str


@dataclass(frozen=True, slots=True)
class MealsView:
    """When feed goes out on the hot day."""

    morning_by: str
    evening_from: str
    when: str = ""


@dataclass(frozen=True, slots=True)
class CallView:
    """Somebody to call, as listed in the contacts."""

    role: str
    name: str
    phone: Rich
    nights: Text
    hours: str
    can: str
    notes: str
