"""Rounds: how soon to be back at each pen in each band, and what to do there (step 3)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.bands.band_rule import Band
from binder.figures.entry import Argument, Entry
from binder.figures.figure import OWNER_RECORD, Figure, step
from binder.figures.rounds.visits import RULES as STAY_RULES
from binder.figures.rules import quantity, rule
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.farm.model import Drinker, Farm, Pen
    from binder.figures.herd.groups import Herd
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.wallows.wallow_plan import WallowSheet

INTERVALS, TASKS = "round_intervals", "round_tasks"
BELL = "bell"
ON_HAND = ("nipple", "bowl", BELL)  # drinkers that are pressed or looked into one by one
SECONDS = 60.0
HALF = 0.5  # of a step: from here on it is the next one
EXPOSED = "exposed"


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do at a pen on each visit.

    Attributes:
        key: which task; its words stand under `task: KEY:`.
        minutes: how long it takes [min], in steps that a card can show.
        amount: how much, None where there is nothing to measure.
        count: how many things or head; 0 where it does not apply.
        young: how many of those head are young at the side.
        text: the owner's own words, for `own`.
        hose: id of the hose it is about, else empty.
    """

    key: str
    minutes: float
    amount: Figure | None = None
    count: int = 0
    young: int = 0
    text: str = ""
    hose: str = ""


@dataclass(frozen=True, slots=True)
class PenRound:
    """A pen on the round.

    Attributes:
        pen: the pen.
        intervals: `round-interval` by band key [h].
        tasks: in the order they are done.
        minutes: `visit-minutes`, all tasks together [min].
    """

    pen: Pen
    intervals: Mapping[str, Figure]
    tasks: tuple[Task, ...]
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


def round_interval(farm: Farm, pen: Pen | None, band: Band, *, exposed: bool) -> Figure:
    """Return how long a pen may go unseen in a band [h].

    Args:
        farm: whose own intervals win over ours.
        pen: whose own interval wins over the farm's; None for the farm at large.
        band: the band.
        exposed: whether the pen lacks a wallow or shade that its animals need.

    References:
        Our choice (round_intervals.csv); the owner may set it in farm.yaml and pens.yaml.
    """
    row = published.row(INTERVALS, band=band.key)
    subject = f"{pen.id} {band.key}" if pen else band.key
    own = pen.round_intervals_h.get(band.key) if pen else None  # type: ignore[call-overload]
    farms = farm.about.round_intervals_h.get(band.key)  # type: ignore[call-overload]
    ours = quantity(row, EXPOSED if exposed else "interval", "time")
    if own is not None:
        return _interval("pen", own, (OWNER_RECORD,), subject, band)
    if farms is not None and not (exposed and ours < farms):
        return _interval("farm", farms, (OWNER_RECORD,), subject, band)
    return _interval(EXPOSED if exposed else "ours", ours, row.sources, subject, band)


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


def is_filled(drinker: Drinker) -> bool:
    """Return whether a drinker is emptied and filled on a round: open water, a bell by hand."""
    return drinker.kind not in ON_HAND or (drinker.kind == BELL and drinker.fed_by is None)


def task_minutes(key: str, count: int = 0) -> float:
    """Return how long a task takes, for so many things or head [min]: our choice."""
    row = published.row(TASKS, task=key)
    once = row.number("minutes") if row.has("minutes") else 0.0
    each = row.number("each") if row.has("each") else 0.0
    return in_steps(once + each * count)


def in_steps(minutes: float) -> float:
    """Return minutes to the nearest step that a card shows, at least one step [min].

    Rows that are rounded one by one add up only where nothing else was counted.
    """
    steps = round(rule(STAY_RULES, "steps of a minute on a card", "number").value)
    return max(1, math.floor(minutes * steps + HALF)) / steps


def tasks(
    pen: Pen, herd: Herd, hoses: Mapping[str, HoseSheet], wallows: Mapping[str, WallowSheet]
) -> tuple[Task, ...]:
    """Return what is done at a pen on every visit, in order."""
    young = sum(group.litter for group in herd.in_pen(pen.id))
    head = young + sum(group.count for group in herd.in_pen(pen.id))
    found: list[Task] = []
    if head:
        found.append(Task("see", task_minutes("see", head), count=head, young=young))
    feeding = [sheet for sheet in hoses.values() if pen.id in sheet.pens and sheet.interval]
    for sheet in feeding:
        run = sheet.flush.amount.value / SECONDS if sheet.flush else 0.0
        minutes = in_steps(task_minutes("flush") + run)
        found.append(Task("flush", minutes, sheet.volume, hose=sheet.hose.id))
    on_hand = sum(drinker.count for drinker in pen.drinkers if not is_filled(drinker))
    if on_hand:
        found.append(Task("drinkers", task_minutes("drinkers", on_hand), count=on_hand))
    open_water = sum(drinker.count for drinker in pen.drinkers if is_filled(drinker))
    if open_water:
        found.append(Task("fill", task_minutes("fill", open_water), count=open_water))
    if pen.wallow is not None:
        top_up = wallows[pen.wallow.id].top_up
        found.append(Task("wallow", task_minutes("wallow"), top_up))
    cloths = sum(shade.kind == "cloth" for shade in pen.shade)
    if cloths:
        found.append(Task("cloth", task_minutes("cloth", cloths), count=cloths))
    if pen.fans:
        found.append(Task("fans", task_minutes("fans", len(pen.fans)), count=len(pen.fans)))
    found += [Task("own", task_minutes("own"), text=text) for text in pen.tasks]
    return tuple(found)


def for_farm(
    farm: Farm, herd: Herd, hoses: Mapping[str, HoseSheet], wallows: Mapping[str, WallowSheet]
) -> RoundFigures:
    """Return the round of every pen: intervals, tasks and minutes."""
    pens: dict[str, PenRound] = {}
    for pen in farm.pens:
        exposed = is_exposed(pen, herd)
        todo = tasks(pen, herd, hoses, wallows)
        total = Amount(sum(task.minutes for task in todo), "min")
        minutes = Figure(
            "visit-minutes", total, (step("sum", tasks=len(todo), total=total),),
            ("our-choice",), (), pen.id,
        )  # fmt: skip
        intervals = {
            band.key: round_interval(farm, pen, band, exposed=exposed) for band in Band
        }
        pens[pen.id] = PenRound(pen, intervals, todo, minutes)
    farm_wide = {
        band.key: round_interval(farm, None, band, exposed=False).amount.value for band in Band
    }
    return RoundFigures(pens, farm_wide)


def _asked_interval(band: str, exposed: str) -> Figure:
    """Return our own interval for a band, for a pen with wallow and shade or without."""
    row = published.row(INTERVALS, band=band)
    column = EXPOSED if exposed == "yes" else "interval"
    key = EXPOSED if exposed == "yes" else "ours"
    return _interval(key, quantity(row, column, "time"), row.sources, "", Band[band.upper()])


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "round-interval",
        (
            Argument("band", "text", choices=tuple(band.key for band in Band)),
            Argument("exposed", "text", choices=("no", "yes"), default="no"),
        ),
        _asked_interval,
    ),
)
