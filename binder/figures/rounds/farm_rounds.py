"""Rounds: how soon to be back at each pen in each band, and what to do there (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.bands.band_rule import Band
from binder.figures.entry import Argument, Entry
from binder.figures.figure import OUR_CHOICE, OWNER_RECORD, Figure, step
from binder.figures.rounds.pen_care import PROTECTED, Care, care_of
from binder.figures.rounds.round_tasks import (
    Needs,
    Task,
    asked_by_number,
    in_steps,
    owners,
    safe,
    task_minutes,
    tasks,
)
from binder.figures.rules import quantity
from binder.figures.water import drinkers
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Container, Mapping

    from binder.farm.model import Farm, Pen
    from binder.figures.herd.groups import Herd
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.wallows.wallow_plan import WallowSheet

__all__ = ["PenRound", "RoundFigures", "Share", "Task", "for_farm", "in_steps", "task_minutes"]

INTERVALS = "round_intervals"


@dataclass(frozen=True, slots=True)
class PenRound:
    """A pen on the round.

    Attributes:
        pen: the pen.
        care: what protects its animals, and who falls first.
        intervals: `round-interval` by band key [h].
        tasks: in the order they are done, as one person alone may do them.
        asked: what the number asks on top, each from its number on.
        owners: what is done inside and therefore left to the owner.
        minutes: `visit-minutes`, all tasks together [min].
    """

    pen: Pen
    care: Care
    intervals: Mapping[str, Figure]
    tasks: tuple[Task, ...]
    asked: tuple[Task, ...]
    owners: tuple[Task, ...]
    minutes: Figure

    @property
    def head(self) -> int:
        """Return how many animals there are to see, young at the side with them."""
        return sum(task.count for task in self.tasks if task.key == "see")


@dataclass(frozen=True, slots=True)
class RoundFigures:
    """The round of a farm.

    Attributes:
        pens: by pen id.
        farm_intervals_h: the farm-wide interval of each band [h], by band key.
    """

    pens: Mapping[str, PenRound]
    farm_intervals_h: Mapping[str, float]


def round_interval(farm: Farm, pen: Pen | None, band: Band, status: str = PROTECTED) -> Figure:
    """Return how long a pen may go unseen in a band [h].

    Args:
        farm: whose own intervals win over ours.
        pen: whose own interval wins over the farm's; None for the farm at large.
        band: the band.
        status: `protected`, `unprotected` or `at_risk`, as `Care.status`.

    References:
        Our choice (round_intervals.csv); the owner may set it in farm.yaml and pens.yaml.
    """
    row = published.row(INTERVALS, band=band.key)
    subject = f"{pen.id} {band.key}" if pen else band.key
    own = pen.round_intervals_h.get(band.key) if pen else None  # type: ignore[call-overload]
    farms = farm.about.round_intervals_h.get(band.key)  # type: ignore[call-overload]
    ours = quantity(row, status, "time")
    if own is not None:
        return _interval("pen", own, (OWNER_RECORD,), subject, band)
    sooner = ours < quantity(row, PROTECTED, "time")  # what is missing or at risk asks for it
    if farms is not None and not (sooner and ours < farms):
        return _interval("farm", farms, (OWNER_RECORD,), subject, band)
    return _interval(status, ours, row.sources, subject, band)


def _interval(
    key: str, hours: float, sources: tuple[str, ...], subject: str, band: Band
) -> Figure:
    value = Amount(hours, "h")
    line = step(key, band=band.word, every=value)
    return Figure("round-interval", value, (line,), sources, (), subject)


def is_exposed(pen: Pen, herd: Herd) -> bool:
    """Return whether a pen of pigs has no wallow, or any pen outdoors no recorded shade."""
    groups = herd.in_pen(pen.id)
    pigs = any(group.animal.species == "pig" for group in groups)
    no_wallow = pigs and pen.wallow is None and pen.kind != "stall"
    no_shade = not pen.shade and pen.shelter is None
    return bool(groups) and (no_wallow or no_shade)


@dataclass(frozen=True, slots=True)
class Share:
    """What one visit of several does of a day's work.

    Attributes:
        top_ups: water for each wallow at one visit [L], by wallow id.
        drunk_l: what each pen drinks between two visits [L], by pen id.
    """

    top_ups: Mapping[str, Figure]
    drunk_l: Mapping[str, float]


def for_farm(
    farm: Farm,
    herd: Herd,
    hoses: Mapping[str, HoseSheet],
    wallows: Mapping[str, WallowSheet],
    share: Share | None = None,
) -> RoundFigures:
    """Return the round of every pen: intervals, tasks and minutes.

    Args:
        farm: the farm.
        herd: its herd on that date.
        hoses: of `hose_plan.for_farm`.
        wallows: of `wallow_plan.for_farm`.
        share: what one visit does of a day's water; None for all of it at once.
    """
    whole = {key: sheet.top_up for key, sheet in wallows.items() if sheet.top_up}
    now = share or Share(whole, {})
    tests = drinkers.for_farm(farm, herd).tests
    slow = {key for key, test in tests.items() if test.value == drinkers.FAIL}
    pens = {pen.id: _pen_round(farm, pen, herd, hoses, now, slow) for pen in farm.pens}
    farm_wide = {band.key: round_interval(farm, None, band).amount.value for band in Band}
    return RoundFigures(pens, farm_wide)


def _pen_round(
    farm: Farm,
    pen: Pen,
    herd: Herd,
    hoses: Mapping[str, HoseSheet],
    share: Share,
    slow: Container[str],
) -> PenRound:
    care = care_of(farm, pen, herd)
    top_up = share.top_ups.get(pen.wallow.id) if pen.wallow else None
    needs = Needs(
        care.guarded,
        hoses,
        top_up,
        share.drunk_l.get(pen.id, 0.0),
        any(one.id in slow for one in pen.drinkers),
    )
    every = tasks(farm, pen, herd, needs)
    todo = safe(every, guarded=care.guarded)
    total = Amount(sum(task.minutes for task in todo), "min")
    minutes = Figure(
        "visit-minutes", total, (step("sum", tasks=len(todo), total=total),),
        (OUR_CHOICE,), (), pen.id,
    )  # fmt: skip
    intervals = {band.key: round_interval(farm, pen, band, care.status) for band in Band}
    asked = asked_by_number(pen, herd, guarded=care.guarded)
    left = owners(every, guarded=care.guarded)
    return PenRound(pen, care, intervals, todo, asked, left, minutes)


def _asked_interval(band: str, pen: str) -> Figure:
    """Return our own interval for a band, for a pen that is protected, or not, or at risk."""
    status = pen.replace(" ", "_")
    row = published.row(INTERVALS, band=band)
    return _interval(status, quantity(row, status, "time"), row.sources, "", Band[band.upper()])


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "round-interval",
        (
            Argument("band", "text", choices=tuple(band.key for band in Band)),
            Argument(
                "pen", "text", choices=("protected", "unprotected", "at risk"),
                default="protected",
            ),
        ),
        _asked_interval,
    ),
)  # fmt: skip
