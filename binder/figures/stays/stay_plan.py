"""Stays: what each visit of a sitter asks, and how its days are expected to be (step 3).

Amounts are those of the stay's last day, when young animals eat and drink most, so that one
card for each visit holds for the whole stay; what differs by the day stands in `StayDay`.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY, MINUTES_IN_HOUR
from binder.farm.model import Stay
from binder.figures.bleach.cleaning_plan import bleach_to_buy
from binder.figures.bleach.mixes import BLEACH
from binder.figures.day.feeding_hours import Meals, meal_times
from binder.figures.feed import farm_feed
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.herd import groups as herds
from binder.figures.nested import restated
from binder.figures.noise import NOISE, TRACE
from binder.figures.rounds import farm_rounds
from binder.figures.rounds.farm_rounds import Share
from binder.figures.rounds.visits import RULES, gaps, on_step, step_min
from binder.figures.rules import rule
from binder.figures.stays import stay_load
from binder.figures.stays.basis import Basis
from binder.figures.stays.plan import ORDINARY, Plan
from binder.figures.stays.plan_jobs import births_of, fed_with_young, jobs_of, numbers_of
from binder.figures.stays.plan_parts import Birth
from binder.figures.stays.plan_watch import buys, calls_of, watches
from binder.figures.stays.stay_days import days_of, length
from binder.figures.stays.stay_load import HOT
from binder.figures.stays.visits.fed_when import fed_more_before
from binder.figures.stays.visits.visit_card import visits_of
from binder.figures.stays.visits.visit_gap import longest_gap
from binder.figures.wallows import wallow_plan
from binder.figures.water import drinking_water
from binder.figures.weather.hot_days import hours
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm
    from binder.figures.day import DayFigures
    from binder.figures.feed.farm_feed import FarmFeed, GroupFeed
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.stays.stay_load import StayLoad
    from binder.figures.wallows.wallow_plan import WallowSheet
    from binder.figures.water.drinking_water import WaterFigures
    from binder.figures.weather.hot_days import DayWeather, Hour


def for_farm(
    farm: Farm,
    on: dt.date,
    days: Mapping[str, DayWeather],
    rows: Sequence[Hour],
    hoses: Mapping[str, HoseSheet],
    known: Mapping[str, Figure],
) -> Mapping[str, Plan]:
    """Return the plan of each stay that is not over on the day `on`, by its id.

    Args:
        farm: the farm.
        on: the binder's date.
        days: the farm's `hot` and `extreme` day.
        rows: its weather record, empty where it has none.
        hoses: of `hose_plan.for_farm`.
        known: the figures of the binder's day, by key.
    """
    return {
        stay.id: _plan(farm, stay, days, rows, hoses, known)
        for stay in farm.stays
        if stay.last >= on
    }


def inside(
    plans: Mapping[str, Plan], on: dt.date, day: DayFigures, feed: FarmFeed
) -> tuple[DayFigures, FarmFeed]:
    """Return the hours and the amounts of feed as the cards give them, inside a stay.

    A binder printed inside a stay lies beside its cards, so both say the same. Who has another
    pen or class on the stay's last day keeps the amounts of the day `on`.
    """
    plan = next((one for one in plans.values() if one.stay.first <= on <= one.stay.last), None)
    if plan is None:
        return day, feed
    planned = {_fed_as(one): one for one in plan.feed.groups}
    groups = tuple(_as_planned(one, planned.get(_fed_as(one))) for one in feed.groups)
    meals = plan.meals or day.meals
    return replace(day, meals=meals), replace(feed, groups=groups)


def _fed_as(one: GroupFeed) -> tuple[str, str, str | None]:
    return one.group.animal.called, str(one.group.cls), one.group.pen


def _as_planned(one: GroupFeed, planned: GroupFeed | None) -> GroupFeed:
    return one if planned is None else replace(planned, group=one.group)


def ordinary(
    farm: Farm,
    on: dt.date,
    days: Mapping[str, DayWeather],
    rows: Sequence[Hour],
    hoses: Mapping[str, HoseSheet],
    known: Mapping[str, Figure],
) -> Plan:
    """Return the plan of a farm without a sitter: an ordinary hot day on the day `on`.

    Its visits are the two meals of the hot day, or morning and evening where it is not known;
    the owner, who lives there, takes the short looks.
    """
    owner = next((one.name for one in farm.contacts if one.role == "owner"), farm.about.name)
    bare = Stay.model_construct(id=ORDINARY, first=on, last=on, sitter=owner, sleeps_here=True)
    hot = _load_of_day(farm, on, days, rows, hoses)
    visits = _usual_visits(_meals(farm, hot))
    stay = bare.model_copy(update={"visits": visits})
    return _plan(farm, stay, days, rows, hoses, known)


def _load_of_day(
    farm: Farm,
    on: dt.date,
    days: Mapping[str, DayWeather],
    rows: Sequence[Hour],
    hoses: Mapping[str, HoseSheet],
) -> StayLoad | None:
    stay = Stay.model_construct(id=ORDINARY, first=on, last=on, sitter="")
    herd = herds.for_farm(farm, on)
    walked = farm_rounds.for_farm(farm, herd, hoses, wallow_plan.for_farm(farm, herd))
    return stay_load.for_stay(farm, stay, herd, days, rows, walked).get(HOT)


def _usual_visits(meals: Meals | None) -> tuple[dt.time, ...]:
    """Return when an owner goes round: so that the meals of the hot day suit. Our choice."""
    usual = [rule(RULES, f"usual {which} round", "time").value for which in ("first", "last")]
    first, last = usual if meals is None else (meals.morning_by_h, meals.evening_from_h)
    later = on_step(last + step_min() / MINUTES_IN_HOUR - TRACE)
    return tuple(_time(hour) for hour in (on_step(first), later))


def _time(hour: float) -> dt.time:
    whole = round(hour * MINUTES_IN_HOUR)
    return dt.time(whole // MINUTES_IN_HOUR % HOURS_IN_DAY, whole % MINUTES_IN_HOUR)


def _plan(
    farm: Farm,
    stay: Stay,
    weathers: Mapping[str, DayWeather],
    rows: Sequence[Hour],
    hoses: Mapping[str, HoseSheet],
    known: Mapping[str, Figure],
) -> Plan:
    last = herds.for_farm(farm, stay.last)
    # The herd's own figures of that day are shown nowhere, so they are left behind.
    herd = replace(last, groups=tuple(replace(group, figures=()) for group in last.groups))
    wallows = wallow_plan.for_farm(farm, herd)
    spans = gaps(hours(time) for time in stay.visits)
    water = restated(drinking_water.for_farm(farm, herd, weathers[HOT]), known, stay.id)
    share = _share(wallows, water, len(spans), known, stay)
    walked = farm_rounds.for_farm(farm, herd, hoses, wallows, share)
    loads = stay_load.for_stay(farm, stay, herd, weathers, rows, walked)
    days = days_of(farm, stay)
    young = fed_with_young(farm, days)
    basis = Basis(
        farm=farm,
        stay=stay,
        days=days,
        herd=herd,
        loads=loads,
        meals=restated(_meals(farm, loads.get(HOT)), known, stay.id),
        gaps=spans,
        rounds=restated(walked, known, stay.id),
        feed=restated(farm_feed.for_farm(farm, herd, length(stay), young), known, stay.id),
    )
    births = _births(basis, weathers[HOT], known)
    visits = visits_of(basis, births)
    watched = watches(basis, visits)
    lows = {key: sheet.low for key, sheet in wallows.items() if sheet.low is not None}
    return Plan(
        stay=stay,
        days=basis.days,
        herd=herd,
        loads=loads,
        meals=basis.meals,
        visits=visits,
        gaps=spans,
        gap=longest_gap([gap.start_h for gap in spans], stay.id) if spans else None,
        rounds=basis.rounds,
        water=water,
        feed=basis.feed,
        top_ups=share.top_ups if spans else {},
        wallow_low_l={
            key: low.amount.value for key, low in lows.items() if key in share.top_ups
        },
        bleach=restated(_bleach(farm, stay), known, stay.id),
        numbers=numbers_of(basis),
        watches=watched,
        calls=calls_of(basis, watched),
        buys=buys(basis),
        jobs=jobs_of(basis),
        births=births,
        pens=basis.pens,
        fed_more_before=fed_more_before(basis),
        basis=basis,
    )


def _share(
    wallows: Mapping[str, WallowSheet],
    water: WaterFigures,
    visits: int,
    known: Mapping[str, Figure],
    stay: Stay,
) -> Share:
    """Return what one visit does of a day's water: for wallows, and for open water."""
    if not visits:
        return Share({}, {})
    top_ups = {
        wallow_id: _top_up(sheet.top_up, visits)
        for wallow_id, sheet in wallows.items()
        if sheet.top_up
    }
    drunk = {pen: need.amount.value / visits for pen, need in water.pens.items()}
    return Share(restated(top_ups, known, stay.id), drunk)


def _births(basis: Basis, hot: DayWeather, known: Mapping[str, Figure]) -> tuple[Birth, ...]:
    found = births_of(basis, hot)
    return tuple(
        replace(
            one,
            before=restated(one.before, known, f"{basis.stay.id} before"),
            after=restated(one.after, known, f"{basis.stay.id} after"),
            fed=restated(one.fed, known, f"{basis.stay.id} after"),
        )
        for one in found
    )


def _meals(farm: Farm, hot: StayLoad | None) -> Meals | None:
    if hot is None or hot.day is None:
        return None
    return meal_times(hot.day.air, hot.day.bands, farm.about.all_hands_index)


def _top_up(daily: Figure, visits: int) -> Figure:
    """Return a visit's share of a wallow's top-up, rounded up to what can be measured [L].

    Nobody knows a wallow's loss to a tenth of a gallon, and a card that stays the same when one
    sow gains a few pounds need not be printed again.
    """
    whole = rule(RULES, "top-up of a visit in steps of", "volume")
    share = daily.amount.value / visits
    value = Amount(math.ceil(share / whole.value * (1 - NOISE)) * whole.value, "L")
    working = (
        step("share", daily=daily.amount, visits=visits, water=Amount(share, "L")),
        step("whole", step=Amount(whole.value, "L"), water=value),
    )
    sources = merge_sources(daily.sources, whole.sources)
    return Figure("wallow-visit", value, working, sources, (), daily.subject)


def _bleach(farm: Farm, stay: Stay) -> dict[str, Figure]:
    places = sum(drinker.count for pen in farm.pens for drinker in pen.drinkers)
    return {
        product.id: bleach_to_buy(product.id, length(stay), places)
        for product in farm.equipment.products
        if product.kind == BLEACH
    }
