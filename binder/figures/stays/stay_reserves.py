"""A stay's gaps against what runs out in them: water, cool hoses, mud, fuel (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY, MINUTES_IN_HOUR
from binder.figures.finding import Finding, finding
from binder.figures.hoses.hose_heat import still_c, sun_on
from binder.figures.hoses.hose_plan import flush_every
from binder.figures.nested import restated
from binder.figures.noise import TRACE
from binder.figures.rounds.visits import RULES, longest
from binder.figures.rules import rule
from binder.figures.stays.stay_load import PLANNED_FOR
from binder.figures.supply.water_store import pen_stores
from binder.figures.water import drinkers
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Container, Iterator, Mapping

    from binder.farm.model import Farm
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.power.farm_power import FarmPower
    from binder.figures.rounds.visits import Gap
    from binder.figures.stays.plan import Plan
    from binder.figures.stays.stay_load import StayLoad

AREA = "stay"
FULL_PCT = 100.0


def any_day(farm: Farm, plan: Plan, power: FarmPower) -> Iterator[Finding]:
    """Yield what does not last from one visit to the next on any day."""
    yield from _drinkers(farm, plan)
    if not plan.gaps:
        return
    yield from _fuel(plan, power)
    yield from _soaked(plan)


def on_day(
    farm: Farm, plan: Plan, load: StayLoad, hoses: Mapping[str, HoseSheet]
) -> Iterator[Finding]:
    """Yield what does not last from one visit to the next on a day of that load."""
    if not plan.gaps:
        return
    yield from _hoses(plan, load, hoses)
    if load.key in PLANNED_FOR:
        yield from _water(farm, plan, load)
        yield from _wallows(farm, plan, load)


def _drinkers(farm: Farm, plan: Plan) -> Iterator[Finding]:
    """Yield pens with too few or too slow drinkers for the animals of the stay."""
    found = drinkers.for_farm(farm, plan.herd)
    found = restated(found, {}, plan.stay.id)
    for pen in plan.pens:
        figures = [need for (where, _), need in found.need.items() if where == pen]
        slow = [
            drinker.id
            for drinker in farm.pen(pen).drinkers
            if drinker.id in found.tests and found.tests[drinker.id].value == drinkers.FAIL
        ]
        if pen in found.short:
            need = max(figure.amount.value for figure in figures)
            yield finding(
                AREA, "drinkers", plan.stay.id, *figures, pens=pen, need=round(need),
                there=found.there[pen],
            )  # fmt: skip
        if slow:
            tests = [found.tests[each] for each in slow]
            yield finding(AREA, "slow", plan.stay.id, *tests, pens=pen)
    yield from _alone(farm, plan, found.short)


def _alone(farm: Farm, plan: Plan, short: Container[str]) -> Iterator[Finding]:
    """Yield the pens whose one drinker may stay blocked for too long."""
    if not plan.gaps:
        return
    gap = longest(plan.gaps)
    most_h = rule(RULES, "one drinker alone at most", "time").value
    single = [
        pen
        for pen in plan.pens
        if pen not in short and sum(drinker.count for drinker in farm.pen(pen).drinkers) == 1
    ]
    if single and gap.hours > most_h + TRACE:
        yield finding(
            AREA, "one-drinker", plan.stay.id, pens=" ".join(single),
            gap=Amount(gap.hours, "h"), most=Amount(most_h, "h"),
        )  # fmt: skip


def _fuel(plan: Plan, power: FarmPower) -> Iterator[Finding]:
    gap = longest(plan.gaps)
    for generator in power.generators.values():
        if generator.hours is not None and generator.hours.amount.value < gap.hours:
            yield finding(
                AREA, "fuel", plan.stay.id, generator.hours,
                generator=generator.generator.name, lasts=generator.hours.amount,
                gap=Amount(gap.hours, "h"), look_clock=gap.middle_h,
            )  # fmt: skip


def _soaked(plan: Plan) -> Iterator[Finding]:
    """Yield the meals of soaked feed after which nobody clears the trough in time."""
    most_h = rule(RULES, "leftovers cleared within", "time").value
    who = [
        one.group.animal.called
        for one in plan.feed.groups
        if one.morning is not None and one.morning.water is not None
    ]
    have = plan.stay.minutes
    stays_on = have is None or have >= most_h * MINUTES_IN_HOUR
    fed = {visit.hour for visit in plan.visits if visit.meal}
    late = [gap for gap in plan.gaps if gap.start_h in fed and gap.hours > most_h + TRACE]
    if who and late and not stays_on:
        yield finding(
            AREA, "soaked", plan.stay.id, who=", ".join(who), have=Amount(have or 0, "min"),
            within=Amount(most_h * MINUTES_IN_HOUR, "min"),
        )  # fmt: skip


def _sunny(gap: Gap, load: StayLoad) -> float:
    """Return the hours of a gap in the sun [h]; all of a day's gap where it is not known."""
    if load.day is None:
        return 0.0 if gap.at_night else gap.hours
    up, down = load.day.sunrise_h, load.day.sunset_h
    return gap.within(up, down) + gap.within(up + HOURS_IN_DAY, down + HOURS_IN_DAY)


def _hoses(plan: Plan, load: StayLoad, hoses: Mapping[str, HoseSheet]) -> Iterator[Finding]:
    """Yield the hoses that heat up for longer than a flush holds, all in one line."""
    gap = max(plan.gaps, key=lambda gap: _sunny(gap, load))
    sunny_h = _sunny(gap, load)
    hot = {}
    for key, sheet in hoses.items():
        if sheet.interval is None or not set(sheet.pens) & set(plan.pens):
            continue
        hose = sheet.hose
        ends_c = still_c(load.weather.high_c, sun_on(hose.sun, hose.colour))
        every_h = flush_every(ends_c).amount.value
        if sunny_h > every_h + TRACE:
            hot[key] = (every_h, ends_c)
    if hot:
        yield finding(
            AREA, "hose", plan.stay.id,
            *(figure for key in hot if (figure := hoses[key].heat) is not None),
            load=load.key, hoses=" ".join(hot), start_clock=gap.start_h, end_clock=gap.end_h,
            every=Amount(min(every for every, _ in hot.values()), "h"),
            ends=Amount(max(ends for _, ends in hot.values()), "degC"),
        )  # fmt: skip


def _water(farm: Farm, plan: Plan, load: StayLoad) -> Iterator[Finding]:
    """Yield pens filled by hand that run dry, and pens that do when the supply stops."""
    gap = longest(plan.gaps)
    stores = pen_stores(farm, plan.water.pens, plan.stay.id)
    dry = []
    for store in stores.values():
        lasts = store.lasts.amount
        if lasts.value >= gap.hours:
            continue
        if not store.by_hand:
            dry.append(store)
            continue
        more_l = store.need_l_day * gap.hours / HOURS_IN_DAY - store.own_l
        yield finding(
            AREA, "store", plan.stay.id, store.lasts, load=load.key, pens=store.pen.id,
            lasts=lasts, gap=Amount(gap.hours, "h"), more=Amount(more_l, "L"),
            look_clock=gap.middle_h,
        )  # fmt: skip
    if dry:
        need_l = sum(store.need_l_day for store in dry) * gap.hours / HOURS_IN_DAY
        yield finding(
            AREA, "supply", plan.stay.id, *(store.lasts for store in dry), load=load.key,
            pens=" ".join(store.pen.id for store in dry), gap=Amount(gap.hours, "h"),
            tank=Amount(need_l, "L"), look_clock=gap.middle_h,
        )  # fmt: skip


def _wallows(farm: Farm, plan: Plan, load: StayLoad) -> Iterator[Finding]:
    """Yield the wallows that lose too much of their water between two visits."""
    most_pct = rule(RULES, "wallow may lose", "share").value
    gap = longest(plan.gaps)
    for pen in farm.pens:
        if pen.wallow is None or pen.wallow.id not in plan.top_ups:
            continue
        share = plan.top_ups[pen.wallow.id]
        daily_l = share.amount.value * len(plan.gaps)
        low = plan.wallow_low_l[pen.wallow.id]
        lost_pct = daily_l * gap.hours / HOURS_IN_DAY / low * FULL_PCT
        if lost_pct > most_pct:
            yield finding(
                AREA, "wallow", plan.stay.id, share, load=load.key, pens=pen.id,
                lost=Amount(lost_pct, "%"), gap=Amount(gap.hours, "h"), look_clock=gap.middle_h,
            )  # fmt: skip
