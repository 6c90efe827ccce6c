"""Shortfalls of water, hoses, wallows and bleach, told from their figures (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.finding import Finding, finding
from binder.figures.hoses.hose_heat import DRINK_LESS, NO_WATER, RULES
from binder.figures.rounds.farm_rounds import is_exposed
from binder.figures.rounds.visits import RULES as STAY_RULES
from binder.figures.rules import at_least, rule
from binder.figures.supply.water_store import shortest_first
from binder.figures.wallows.wallow_plan import MOVE
from binder.figures.water.drinkers import FAIL, FLOWING
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.model import Pen
    from binder.figures.results import Results
    from binder.figures.wallows.wallow_plan import WallowSheet

AREA = "ready"
PIG = "pig"
STALL = "stall"
SECOND = 2  # water sources that are more than one


def of_water(figures: Results) -> Iterator[Finding]:
    """Yield what is wrong with drinkers, stores and sources."""
    lived_in = [pen for pen in figures.farm.pens if figures.herd.in_pen(pen.id)]
    for pen in lived_in:
        if not pen.drinkers:
            yield finding(AREA, "no-drinkers", pen.id, pens=pen.id)
        elif pen.id in figures.drinkers.short:
            needs = [
                need for (where, _), need in figures.drinkers.need.items() if where == pen.id
            ]
            most = max(need.amount.value for need in needs)
            yield finding(
                AREA, "drinkers-short", pen.id, *needs, pens=pen.id, need=round(most),
                there=figures.drinkers.there[pen.id],
            )  # fmt: skip
    yield from _slow(figures, lived_in)
    yield from _flow_tests(figures, lived_in)
    yield from _stores(figures)
    gear = figures.farm.equipment
    if len(gear.water_sources) < SECOND:
        yield finding(AREA, "no-second-source", "", count=len(gear.water_sources))


def _slow(figures: Results, pens: list[Pen]) -> Iterator[Finding]:
    """Yield the pens with drinkers that failed their flow test."""
    tests = figures.drinkers.tests
    for pen in pens:
        slow = [each.id for each in pen.drinkers if each.id in tests]
        failed = [tests[each] for each in slow if tests[each].value == FAIL]
        if failed:
            yield finding(AREA, "drinkers-slow", pen.id, *failed, pens=pen.id)


def _flow_tests(figures: Results, pens: list[Pen]) -> Iterator[Finding]:
    unknown = [
        pen.id
        for pen in pens
        if any(each.kind in FLOWING and each.flow_l_min is None for each in pen.drinkers)
    ]
    if unknown:
        yield finding(AREA, "flow-unknown", " ".join(unknown), pens=" ".join(unknown))
    every_h = rule(STAY_RULES, "flow test every", "time").value
    last = figures.farm.about.last_flow_test
    flowing = any(each.kind in FLOWING for pen in pens for each in pen.drinkers)
    every = Amount(every_h / HOURS_IN_DAY, "day")
    if flowing and last is None:
        yield finding(AREA, "flow-test-never", "", every=every)
    elif flowing and last is not None and (figures.on - last).days > every.value:
        yield finding(AREA, "flow-test-old", "", last_date=last.isoformat(), every=every)


def _stores(figures: Results) -> Iterator[Finding]:
    supply = figures.supply
    least_h = rule("water_rules", "on site at least", "time").value
    if supply.demand is None:
        return
    without = ", ".join(figures.water.unknown)
    if supply.reserve is None:
        tank = [supply.tank] if supply.tank else []
        yield finding(
            AREA, "no-store", "", *tank, tank=tank[0].amount if tank else "",
            least=Amount(least_h, "h"), without=without,
        )  # fmt: skip
        return
    for store in shortest_first(figures.stores.values()):
        lasts = store.lasts.amount
        if lasts.value > 0 and not at_least(lasts.value, least_h):
            yield finding(
                AREA, "reserve-short", store.pen.id, store.lasts, pens=store.pen.id,
                lasts=lasts, tank=Amount(store.need_l_day, "L"), least=Amount(least_h, "h"),
            )  # fmt: skip
    none = [store for store in figures.stores.values() if store.lasts.amount.value == 0]
    if none:
        names = " ".join(store.pen.id for store in none)
        need_l = sum(store.need_l_day for store in none)
        yield finding(
            AREA, "pens-without-store", names, *(store.lasts for store in none), pens=names,
            need=Amount(need_l, "L/day"),
        )  # fmt: skip


def of_hoses(figures: Results) -> Iterator[Finding]:
    """Yield the hoses whose water gets too warm, and those whose flow nobody measured."""
    warm, none = (rule(RULES, name, "temperature").value for name in (DRINK_LESS, NO_WATER))
    for sheet in figures.hoses.values():
        if sheet.heat is None or not sheet.pens:
            continue
        ends = sheet.heat.amount
        if at_least(ends.value, warm):
            key = "hose-no-water" if at_least(ends.value, none) else "hose-warm"
            fixed = [one for one in (sheet.if_buried, sheet.in_shade) if one is not None]
            yield finding(
                AREA, key, sheet.hose.id, sheet.heat, *fixed, hoses=sheet.hose.id, ends=ends,
                every=sheet.interval.amount if sheet.interval else "",
                buried=sheet.if_buried.amount if sheet.if_buried else "",
            )  # fmt: skip
        if sheet.hose.flow_l_min is None:
            yield finding(AREA, "hose-unmeasured", sheet.hose.id, hoses=sheet.hose.id)


def of_wallows(figures: Results) -> Iterator[Finding]:
    """Yield what is wrong with each wallow, and pigs outdoors that have none."""
    for sheet in figures.wallows.values():
        if figures.herd.in_pen(sheet.pen):
            yield from _wallow(sheet)
    for pen in figures.farm.pens:
        pigs = any(group.animal.species == PIG for group in figures.herd.in_pen(pen.id))
        outdoors = pen.kind != STALL and pen.wallow is None
        if pigs and outdoors and is_exposed(pen, figures.herd):
            yield finding(AREA, "no-wallow", pen.id, pens=pen.id)


def _wallow(sheet: WallowSheet) -> Iterator[Finding]:
    pen = sheet.pen
    if sheet.depth.value == FAIL:
        depth = Amount(sheet.wallow.depth_m * 1000, "mm")
        yield finding(AREA, "wallow-deep", pen, sheet.depth, pens=pen, depth=depth)
    if sheet.enough is False and sheet.need is not None and sheet.surface is not None:
        yield finding(
            AREA, "wallow-small", pen, sheet.need, sheet.surface, pens=pen,
            need=sheet.need.amount, have=sheet.surface.amount,
        )  # fmt: skip
    if sheet.refresh is None:
        yield finding(AREA, "wallow-no-date", pen, pens=pen)
    elif sheet.overdue:
        due = str(sheet.refresh.value)
        yield finding(AREA, "wallow-overdue", pen, sheet.refresh, pens=pen, due_date=due)
    for key, distance in (("wallow-near-well", sheet.well), ("wallow-near-water", sheet.water)):
        if distance is not None and distance.value == FAIL:
            yield finding(AREA, key, pen, distance, pens=pen)
    if sheet.wallow.next_place is None:
        moved = [sheet.move] if sheet.move and sheet.move.value == MOVE else []
        yield finding(AREA, "wallow-no-next-place", pen, *moved, pens=pen)


def of_bleach(figures: Results) -> Iterator[Finding]:
    """Yield the bottles older or warmer than the table of ageing covers."""
    names = {each.id: each.name for each in figures.farm.equipment.products}
    for product in figures.cleaning.too_old:
        yield finding(AREA, "bleach-old", product, product=names[product])
