"""The farm's wallows: room, water a day, when to refresh, when to dig the next (step 3)."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder import units
from binder.clock import HOURS_IN_DAY
from binder.figures.entry import Argument, Entry
from binder.figures.figure import COMMON_PRACTICE, Figure, merge_sources, step
from binder.figures.published import formula
from binder.figures.rules import at_least, rule
from binder.figures.wallows.wallow_site import (
    DOWNHILL,
    WELL,
    wallow_depth,
    wallow_ramp,
    wallow_setback,
)
from binder.figures.wallows.wallow_size import (
    DOSING,
    FILLING,
    ROUND,
    RULES,
    evaporation,
    surface_m2,
    wallow_area,
    wallow_volume,
    width_m,
)
from binder.science.wallow import lying_area_m2
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from binder.farm.model import Farm, Wallow
    from binder.figures.herd.groups import Group, Herd

PIG, PIGLET = "pig", "suckling piglet"
MOVE, KEEP = "move", "keep"


def wallow_use(count: int, weight: float, subject: str = "") -> Figure:
    """Return the water pigs carry off and splash out of a wallow in a day [L/day].

    Args:
        count: pigs.
        weight: of one [kg], above 0.
        subject: the wallow.

    Raises:
        ValueError: a weight that is not above 0.

    References:
        wallow-50, 67 L a sow a day (grade C); other weights in the ratio of lying areas.
    """
    sow_l = rule(RULES, "top-up for a sow", "volume")
    sow = rule(RULES, "weight of that sow", "weight")
    each_l = sow_l.value * lying_area_m2(weight) / lying_area_m2(sow.value)
    value = Amount(each_l * count, "L/day")
    line = step(
        "use",
        count=count,
        weight=Amount(weight, "kg"),
        sow=Amount(sow_l.value, "L/day"),
        each=Amount(each_l, "L/day"),
        use=value,
    )
    sources = merge_sources(sow_l.sources, sow.sources)
    return Figure("wallow-use", value, (line,), sources, ("planning",), subject)


def wallow_refresh(last: dt.date, subject: str = "") -> Figure:
    """Return the day by which a wallow is drained and refilled [date, `2026-07-14`].

    Args:
        last: when it was last refreshed or dug.
        subject: the wallow.

    References:
        wallow-57: mosquitoes take 7 days from egg to adult; water changed every 5 to 7 days.
    """
    soonest, latest = (
        rule(RULES, f"refresh {when}", "number") for when in ("soonest", "latest")
    )
    due = last + dt.timedelta(days=soonest.value)
    line = step(
        "due",
        last=last.isoformat(),
        soonest=soonest.value,
        latest=latest.value,
        due=due.isoformat(),
    )
    return Figure(
        "wallow-refresh", due.isoformat(), (line,), soonest.sources, ("smell",), subject
    )


def wallow_move(dug: dt.date, on: dt.date, next_place: str | None, subject: str = "") -> Figure:
    """Return `move` or `keep`: is a wallow from an earlier year, so that a new one is due?

    Args:
        dug: when it was dug.
        on: the binder's date.
        next_place: where the owner will dig the next, None where not recorded.
        subject: the wallow.

    References:
        Common practice: dug anew a few feet over each year, the old one filled in; wallow-72
        for the rest of the old ground.
    """
    rest = rule(RULES, "rest of old ground longer than", "time")
    value = MOVE if dug.year < on.year else KEEP
    where = step("place", place=next_place) if next_place else step("place-unknown")
    line = step(value, dug=dug.isoformat())
    rested = step("rest", time=Amount(rest.value / HOURS_IN_DAY, "day"))
    sources = merge_sources((COMMON_PRACTICE,), rest.sources)
    return Figure("wallow-move", value, (line, where, rested), sources, ("fill-in",), subject)


@dataclass(frozen=True, slots=True)
class WallowSheet:
    """One wallow on the hot day. None: not recorded.

    Attributes:
        wallow: as the owner wrote it.
        pen: id of its pen.
        low: `wallow-volume` for dosing [L]; None where its width is not recorded.
        high: `wallow-volume` for filling [L]; None likewise.
        surface: `wallow-surface` [m2]; None likewise.
        need: `wallow-need` [m2] for the pen's pigs; None without pigs of known weight.
        enough: whether the surface is at least the need, to the digits that are printed; None
            where either is unknown.
        top_up: `wallow-top-up` [L/day]: lost to the air, carried off and splashed out.
        used_l_day: of that, what its pigs of known weight carry off and splash out [L/day].
        rate_assumed: whether the loss to the air is our figure, not the farm's.
        refresh: `wallow-refresh`, the day it is due; None where no date is recorded.
        overdue: whether that day has passed on the binder's date.
        depth: `wallow-depth`, pass or fail.
        ramp: `wallow-ramp` [m] at a gentle slope.
        well, water: `wallow-setback`, pass or fail; None where the distance is not recorded.
        move: `wallow-move`, move or keep; None where not recorded when it was dug.
    """

    wallow: Wallow
    pen: str
    low: Figure | None
    high: Figure | None
    surface: Figure | None
    need: Figure | None
    enough: bool | None
    top_up: Figure | None
    used_l_day: float
    rate_assumed: bool
    refresh: Figure | None
    overdue: bool
    depth: Figure
    ramp: Figure
    well: Figure | None
    water: Figure | None
    move: Figure | None


def for_farm(farm: Farm, herd: Herd) -> Mapping[str, WallowSheet]:
    """Return a sheet of figures for every wallow of the farm, by wallow id."""
    return {
        pen.wallow.id: _sheet(farm, herd, pen.id, pen.wallow)
        for pen in farm.pens
        if pen.wallow is not None
    }


def _reads_alike(farm: Farm, one: Figure, other: Figure) -> bool:
    """Return whether two areas are the same as the owner reads them, such as 50 and 50."""
    system = farm.about.units
    return units.show(one.amount, system) == units.show(other.amount, system)


def _pigs(herd: Herd, pen_id: str) -> list[Group]:
    """Return the groups that wallow."""
    return [
        group
        for group in herd.in_pen(pen_id)
        if group.animal.species == PIG and group.cls != PIGLET
    ]


def _sheet(farm: Farm, herd: Herd, pen_id: str, wallow: Wallow) -> WallowSheet:
    surface = _surface(wallow)
    pigs = [(g.count, g.weight_kg) for g in _pigs(herd, pen_id)]
    weighed = [(count, weight) for count, weight in pigs if weight is not None]
    all_weighed = bool(pigs) and len(weighed) == len(pigs)
    need = _need(weighed, wallow.id) if all_weighed else None
    used = [wallow_use(count, weight) for count, weight in weighed]
    rate_mm_day = farm.about.evaporation_mm_day
    last = wallow.last_refreshed or wallow.dug
    refresh = None if last is None else wallow_refresh(last, wallow.id)
    slope = rule(RULES, "gentle ramp", "number").value
    return WallowSheet(
        wallow=wallow,
        pen=pen_id,
        low=_volume(wallow, DOSING),
        high=_volume(wallow, FILLING),
        surface=surface,
        need=need,
        enough=None
        if need is None or surface is None
        else at_least(surface.amount.value, need.amount.value)
        or _reads_alike(farm, surface, need),
        top_up=None if surface is None else _top_up(surface, rate_mm_day, used),
        used_l_day=sum(part.amount.value for part in used),
        rate_assumed=rate_mm_day is None,
        refresh=refresh,
        overdue=refresh is not None and str(refresh.value) < herd.on.isoformat(),
        depth=wallow_depth(wallow.depth_m, wallow.id),
        ramp=wallow_ramp(wallow.depth_m, slope, wallow.id),
        well=_setback(wallow.well_distance_m, WELL, wallow.id),
        water=_setback(wallow.water_distance_m, DOWNHILL, wallow.id),
        move=None
        if wallow.dug is None
        else wallow_move(wallow.dug, herd.on, wallow.next_place, wallow.id),
    )


def _has_width(wallow: Wallow) -> bool:
    return wallow.shape == ROUND or wallow.width_m is not None


def _volume(wallow: Wallow, use: str) -> Figure | None:
    if not _has_width(wallow):
        return None
    return wallow_volume(
        wallow.shape, wallow.length_m, wallow.depth_m, wallow.width_m, use, f"{wallow.id} {use}"
    )


def _surface(wallow: Wallow) -> Figure | None:
    if not _has_width(wallow):
        return None
    width = width_m(wallow.shape, wallow.length_m, wallow.width_m)
    value = Amount(surface_m2(wallow.shape, wallow.length_m, width), "m2")
    line = step(
        "surface", length=Amount(wallow.length_m, "m"), width=Amount(width, "m"), area=value
    )
    return Figure(
        "wallow-surface",
        value,
        (line,),
        formula("wallow_formulas", "wallow-surface"),
        subject=wallow.id,
    )


def _need(pigs: Iterable[tuple[int, float]], subject: str) -> Figure:
    parts = [wallow_area(count, weight) for count, weight in pigs]
    value = Amount(sum(part.amount.value for part in parts), "m2")
    lines = tuple(line for part in parts for line in part.working)
    sources = merge_sources(*(part.sources for part in parts))
    return Figure(
        "wallow-need", value, (*lines, step("sum", area=value)), sources, ("lying",), subject
    )


def _top_up(surface: Figure, rate_mm_day: float | None, used: Sequence[Figure]) -> Figure:
    """Return what a wallow takes a day: lost to the air, carried off and splashed out."""
    usual = rule(RULES, "evaporation where not recorded", "depth rate")
    rate = usual.value if rate_mm_day is None else rate_mm_day
    air = evaporation(surface.amount.value, rate, surface.subject)
    value = Amount(sum(part.amount.value for part in (air, *used)), "L/day")
    key = "air-assumed" if rate_mm_day is None else "air"
    lines = (
        step(key, area=surface.amount, rate=Amount(rate, "mm/day"), loss=air.amount),
        *(line for part in used for line in part.working),
        step("sum", top_up=value),
    )
    sources = merge_sources(
        air.sources,
        usual.sources if rate_mm_day is None else (),
        *(part.sources for part in used),
    )
    return Figure("wallow-top-up", value, lines, sources, ("planning",), surface.subject)


def _setback(distance_m: float | None, source: str, subject: str) -> Figure | None:
    if distance_m is None:
        return None
    return wallow_setback(distance_m, source, f"{subject} {source}")


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "wallow-use",
        (Argument("count", "whole"), Argument("weight", "weight")),
        wallow_use,
    ),
    Entry("wallow-refresh", (Argument("last", "date"),), wallow_refresh),
)
