"""When to feed on a hot day: done in the morning by, in the evening from (step 3)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures.bands.band_charts import chart_of
from binder.figures.bands.band_rule import Band
from binder.figures.day.day_load import bands_of
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.noise import TRACE
from binder.figures.rules import rule
from binder.figures.weather.daylight import RULES
from binder.figures.weather.sun_times import clock

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.figures.figure import Step
    from binder.figures.weather.daylight import DayAir

MORNING, EVENING = "morning-meal", "evening-meal"
STEP_MIN = 5  # how finely the heat line is looked for; meals are not timed closer than that
_BIRDS = "poultry"
_SUCKLING = "lactating sow"


def _time(name: str) -> float:
    return rule(RULES, name, "time").value


def _rests_on(name: str) -> tuple[str, ...]:
    return rule(RULES, name, "time").sources


@dataclass(frozen=True, slots=True)
class Meals:
    """The two feeding times of a day, the same for everybody on the farm.

    Attributes:
        morning: when the morning meal is eaten by, figure `morning-meal` of the class whose
            line comes first.
        evening: from when the evening meal goes out, figure `evening-meal` of the class that
            waits longest.
        morning_by_h, evening_from_h: the same on the local clock [h].
    """

    morning: Figure
    evening: Figure
    morning_by_h: float
    evening_from_h: float


def meal_times(
    day: DayAir, classes: Iterable[str], all_hands_index: int | None = None
) -> Meals | None:
    """Return the feeding times of a day that suit every class, None where nothing is banded.

    The one place that feeding times come from: sheets, cards and checks of one date agree.
    Birds are never kept waiting for feed, so they decide only where nobody else is fed.

    Args:
        day: its sun and air.
        classes: banded classes on the farm that day.
        all_hands_index: the owner's own start of All hands on the index; None for ours.

    Returns:
        Times rounded to five minutes, the morning down and the evening up: our choice.

    References:
        As `morning_by_h` and `evening_from_h`.
    """
    asked = who_waits(classes)
    if not asked:
        return None
    early = min(asked, key=lambda cls: morning_by_h(day, cls, all_hands_index)[0])
    late = max(asked, key=lambda cls: evening_from_h(day, cls, all_hands_index)[0])
    return Meals(
        morning_meal(day, early, all_hands_index, early),
        evening_meal(day, late, all_hands_index, late),
        morning_by_h(day, early, all_hands_index)[0],
        evening_from_h(day, late, all_hands_index)[0],
    )


def who_waits(classes: Iterable[str]) -> tuple[str, ...]:
    """Return the classes that feeding times go by: birds only where nobody else is fed."""
    every = tuple(classes)
    return tuple(cls for cls in every if chart_of(cls) != _BIRDS) or every


def eaten_by_h(passes_h: float | None, sunrise_h: float) -> tuple[float, bool]:
    """Return the hour by which a morning meal is eaten [h], and whether first light is late.

    Args:
        passes_h: when the air leaves number 0 [h]; None where it never does.
        sunrise_h: of the day [h].
    """
    light_h = sunrise_h - _time("first light before sunrise")
    latest_h = _time("no heavy meal from")
    wanted_h = latest_h if passes_h is None else passes_h - _time("meal before heat line")
    return min(max(wanted_h, light_h), latest_h), wanted_h < light_h


def turned_h(peak_h: float, sunset_h: float) -> float:
    """Return when the air has clearly turned and the heat of the day is over [h].

    Args:
        peak_h: the hottest hour [h].
        sunset_h: of the day [h]; never later than that.
    """
    turned = max(peak_h + _time("evening meal after hottest"), _time("no heavy meal until"))
    return min(turned, sunset_h)


def low_sun_h(from_h: float, sunset_h: float) -> float:
    """Return the later of an hour and the low sun, where it still is number 2 then [h]."""
    return max(from_h, sunset_h - _time("evening meal before sunset"))


def feed_up_to() -> int:
    """Return the worst number at which feed goes out between the two meals: our choice."""
    return round(rule(RULES, "feed up to number", "number").value)


def _whole_steps(hour: float, *, up: bool) -> float:
    """Return a time on the five minutes, before or after it [h]."""
    steps = hour * MINUTES_IN_HOUR / STEP_MIN
    whole = math.ceil(steps - TRACE) if up else math.floor(steps + TRACE)
    return whole * STEP_MIN / MINUTES_IN_HOUR


def _band_at(day: DayAir, cls: str, hour: float, all_hands_index: int | None) -> Band:
    return bands_of(cls, (day.air_at(hour),), all_hands_index)[0]


def heat_line_h(day: DayAir, cls: str, all_hands_index: int | None = None) -> float | None:
    """Return the hour of the morning at which the class's band leaves number 0 [h].

    Looked for every five minutes from the coolest air to the hottest; the coolest hour itself
    where the air never lets go; None where it stays at number 0 all day.
    """
    first = max(round(day.low_h * MINUTES_IN_HOUR), 0)
    for minute in range(first, round(day.peak_h * MINUTES_IN_HOUR) + 1, STEP_MIN):
        if _band_at(day, cls, minute / MINUTES_IN_HOUR, all_hands_index) > Band.FINE:
            return minute / MINUTES_IN_HOUR
    return None


def _cautions(cls: str) -> tuple[str, ...]:
    if chart_of(cls) == _BIRDS:
        return ("birds",)
    return ("suckling" if cls == _SUCKLING else "never_skip",)


def morning_by_h(
    day: DayAir, cls: str, all_hands_index: int | None = None
) -> tuple[float, tuple[Step, ...]]:
    """Return the hour by which the morning meal is finished [h], and how it came about.

    Two hours before the air passes the class's heat line; never before first light, as nobody
    feeds in the dark, and never inside the heat of the day.

    Args:
        day: its sun and air.
        cls: a name of `content/published/herd/classes.csv`.
        all_hands_index: the owner's own start of All hands on the index; None for ours.

    Returns:
        Hours since midnight [h], on the five minutes before, and the lines of working.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.

    References:
        husbandry-59, husbandry-60 (heat from a meal); first light is our choice.
    """
    passes_h = heat_line_h(day, cls, all_hands_index)
    before_h = _time("meal before heat line")
    latest_h = _time("no heavy meal from")
    by_h, dark = eaten_by_h(passes_h, day.sunrise_h)
    if passes_h is None:
        line = step("never", cls=cls, latest=clock(latest_h))
    else:
        line = step("passes", cls=cls, passes=clock(passes_h), before=round(before_h))
    working = [step("sun", sunrise=clock(day.sunrise_h)), line]
    if dark and passes_h is not None:
        working.append(step("dark", wanted=clock(passes_h - before_h), light=clock(by_h)))
    elif passes_h is not None and passes_h - before_h > latest_h:
        working.append(step("midday", latest=clock(latest_h)))
    return _whole_steps(by_h, up=False), tuple(working)


def morning_meal(
    day: DayAir, cls: str, all_hands_index: int | None = None, subject: str = ""
) -> Figure:
    """Return the time by which the morning meal is finished, `07:10`, as `morning_by_h`.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.

    References:
        husbandry-60 (heat from a meal); first light is our choice.
    """
    by_h, working = morning_by_h(day, cls, all_hands_index)
    sources = merge_sources(_rests_on("meal before heat line"), _rests_on("no heavy meal from"))
    sources = merge_sources(sources, _rests_on("first light before sunrise"))
    return Figure(MORNING, clock(by_h), working, sources, _cautions(cls), subject)


def evening_from_h(
    day: DayAir, cls: str, all_hands_index: int | None = None
) -> tuple[float, tuple[Step, ...]]:
    """Return the hour from which the evening meal may go out [h], and how it came about.

    Once the air has clearly turned, 1.5 h after the hottest hour, and after the heat of the
    day. Where it is still number 2 then, not before the sun is low, 1.5 h before it sets.
    It holds at any number: a meal is not skipped. Who pants then is fed at sunset, a little at
    a time.

    Args:
        day: its sun and air.
        cls: a name of `content/published/herd/classes.csv`.
        all_hands_index: the owner's own start of All hands on the index; None for ours.

    Returns:
        Hours since midnight [h], on the five minutes after, and the lines of working.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.

    References:
        husbandry-59, husbandry-60 (heat of the day); both spans of 1.5 h are our choice.
    """
    from_h = turned_h(day.peak_h, day.sunset_h)
    hottest = step("hottest", hottest=clock(day.peak_h), turned=clock(from_h))
    working = [hottest, step("sunset", sunset=clock(day.sunset_h))]
    if _band_at(day, cls, from_h, all_hands_index) >= Band.HOT:
        from_h = low_sun_h(from_h, day.sunset_h)
        working.append(step("low_sun", low_sun=clock(from_h)))
    return _whole_steps(from_h, up=True), tuple(working)


def evening_meal(
    day: DayAir, cls: str, all_hands_index: int | None = None, subject: str = ""
) -> Figure:
    """Return the time from which the evening meal may go out, `19:00`, as `evening_from_h`.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.

    References:
        common practice: hottest near 17:30, sunset 20:30, evening feed at 19:00; husbandry-60.
    """
    from_h, working = evening_from_h(day, cls, all_hands_index)
    then = _band_at(day, cls, from_h, all_hands_index)
    working = (*working, step("then", cls=cls, start=clock(from_h), band=then.word))
    sources = merge_sources(
        _rests_on("evening meal after hottest"), _rests_on("no heavy meal until")
    )
    wait = ("wait",) if then >= Band.HOT else ()
    return Figure(EVENING, clock(from_h), working, sources, wait + _cautions(cls), subject)
