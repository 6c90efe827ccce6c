"""Stays: what each visit of a sitter asks, and how its days are expected to be (step 3).

Amounts are those of the stay's last day, when young animals eat and drink most, so that one
card for each visit holds for the whole stay; what differs by the day stands in `StayDay`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from binder.figures.bleach.cleaning_plan import BLEACH, bleach_to_buy
from binder.figures.day.farm_day import Meals
from binder.figures.day.feeding_hours import evening_from_h, morning_by_h
from binder.figures.entry import Argument, Entry, read_time_of_day
from binder.figures.feed import farm_feed
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.herd import groups as herds
from binder.figures.nested import restated
from binder.figures.rounds import farm_rounds
from binder.figures.rounds.visits import RULES, Gap, gaps, longest
from binder.figures.rules import SAME, rule
from binder.figures.stays import stay_load
from binder.figures.stays.stay_days import StayDay, days_of, length
from binder.figures.stays.stay_load import HOT, StayLoad
from binder.figures.stays.visit_card import Visit, with_visits
from binder.figures.wallows import wallow_plan
from binder.figures.water import drinking_water
from binder.figures.weather.hot_days import hours
from binder.figures.weather.sun_times import clock
from binder.units import Amount

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm, Stay
    from binder.figures.feed.farm_feed import FarmFeed
    from binder.figures.herd.groups import Herd
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.rounds.farm_rounds import RoundFigures
    from binder.figures.water.drinking_water import WaterFigures
    from binder.figures.weather.hot_days import DayWeather, HourRow


@dataclass(frozen=True, slots=True)
class StayPlan:
    """What a stay asks. Figures that differ from the binder's day carry the stay's id.

    Attributes:
        stay: as the owner wrote it.
        days: first to last.
        herd: the herd of the last day, without its figures.
        loads: by key, those that are known; mildest first.
        meals: feeding hours of the hot day that suit every class; None without a position.
        visits: in the order of the day; empty where the owner gave no times.
        gaps: the gaps between them, the night last.
        gap: `longest-gap` [h]; None without visits.
        rounds: tasks by pen on the last day.
        water: drinking water on a hot last day.
        feed: feed on the last day, with the stock to lay in for the stay.
        top_ups: `wallow-visit` [L] by wallow id: its share of a day's top-up at each visit.
        wallow_low_l: the low estimate of each such wallow's volume [L].
        bleach: `bleach-to-buy` [mL] by product id.
        fed_more_before: who is fed more on an earlier day than on the last.
    """

    stay: Stay
    days: tuple[StayDay, ...]
    herd: Herd
    loads: Mapping[str, StayLoad]
    meals: Meals | None
    visits: tuple[Visit, ...]
    gaps: tuple[Gap, ...]
    gap: Figure | None
    rounds: RoundFigures
    water: WaterFigures
    feed: FarmFeed
    top_ups: Mapping[str, Figure]
    wallow_low_l: Mapping[str, float]
    bleach: Mapping[str, Figure]
    fed_more_before: tuple[str, ...] = ()

    @property
    def pens(self) -> tuple[str, ...]:
        """Return the ids of the pens with animals, in the order of the round."""
        used = {group.pen for group in self.herd.groups}
        walked = sorted(
            (each.pen for each in self.rounds.pens.values() if each.pen.id in used),
            key=lambda pen: (pen.route is None, pen.route or 0, pen.name),
        )
        return tuple(pen.id for pen in walked)


def for_farm(
    farm: Farm,
    on: dt.date,
    days: Mapping[str, DayWeather],
    rows: Sequence[HourRow],
    hoses: Mapping[str, HoseSheet],
    known: Mapping[str, Figure],
) -> Mapping[str, StayPlan]:
    """Return the plan of each stay that is not over on the day `on`, by its id.

    Args:
        farm: the farm.
        on: the binder's date.
        days: the farm's `hot` and `severe` day.
        rows: its weather record, empty where it has none.
        hoses: of `hose_plan.for_farm`.
        known: the figures of the binder's day, by key.
    """
    return {
        stay.id: _plan(farm, stay, days, rows, hoses, known)
        for stay in farm.stays
        if stay.last >= on
    }


def _plan(
    farm: Farm,
    stay: Stay,
    weathers: Mapping[str, DayWeather],
    rows: Sequence[HourRow],
    hoses: Mapping[str, HoseSheet],
    known: Mapping[str, Figure],
) -> StayPlan:
    last = herds.for_farm(farm, stay.last)
    # The herd's own figures of that day are shown nowhere, so they are left behind.
    herd = replace(last, groups=tuple(replace(group, figures=()) for group in last.groups))
    wallows = wallow_plan.for_farm(farm, herd)
    walked = farm_rounds.for_farm(farm, herd, hoses, wallows)
    meals_fed = farm_feed.for_farm(farm, herd, length(stay))
    loads = stay_load.for_stay(farm, stay, weathers, rows, walked)
    meals = _meals(farm, loads.get(HOT))
    spans = gaps(hours(time) for time in stay.visits)
    top_ups = {
        wallow_id: _top_up(sheet.top_up, len(spans))
        for wallow_id, sheet in wallows.items()
        if sheet.top_up and spans
    }
    lows = {key: sheet.low for key, sheet in wallows.items() if sheet.low is not None}
    plan = StayPlan(
        stay=stay,
        days=days_of(farm, stay),
        herd=herd,
        loads=loads,
        meals=meals,
        visits=(),
        gaps=spans,
        gap=longest_gap([gap.start_h for gap in spans], stay.id) if spans else None,
        rounds=restated(walked, known, stay.id),
        water=restated(drinking_water.for_farm(farm, herd, weathers[HOT]), known, stay.id),
        feed=restated(meals_fed, known, stay.id),
        top_ups=restated(top_ups, known, stay.id),
        wallow_low_l={key: low.amount.value for key, low in lows.items() if key in top_ups},
        bleach=restated(_bleach(farm, stay), known, stay.id),
    )
    return with_visits(farm, plan)


def _meals(farm: Farm, hot: StayLoad | None) -> Meals | None:
    if hot is None or hot.day is None or not hot.day.bands:
        return None
    own, air = farm.about.all_hands_index, hot.day.air
    return Meals(
        min(morning_by_h(air, cls, own)[0] for cls in hot.day.bands),
        max(evening_from_h(air, cls, own)[0] for cls in hot.day.bands),
    )


def longest_gap(visits: Sequence[float], subject: str = "") -> Figure:
    """Return the longest time between two visits of a day, the night counted [h].

    Args:
        visits: when each begins [h since midnight], at least one.
        subject: the stay.

    Raises:
        ValueError: no visit at all.

    References:
        Arithmetic.
    """
    if not visits:
        message = "there is no visit; write times like 06:30 13:00 19:00"
        raise ValueError(message)
    gap = longest(gaps(visits))
    value = Amount(gap.hours, "h")
    line = step("gap", start=clock(gap.start_h), end=clock(gap.end_h), time=value)
    return Figure("longest-gap", value, (line,), (), (), subject)


def _top_up(daily: Figure, visits: int) -> Figure:
    """Return a visit's share of a wallow's top-up, rounded up to what can be measured [L].

    Nobody knows a wallow's loss to a tenth of a gallon, and a card that stays the same when one
    sow gains a few pounds need not be printed again.
    """
    whole = rule(RULES, "top-up of a visit in steps of", "volume")
    share = daily.amount.value / visits
    value = Amount(math.ceil(share / whole.value * (1 - SAME)) * whole.value, "L")
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


def _asked_gap(visits: str) -> Figure:
    return longest_gap([read_time_of_day(time) for time in visits.replace(",", " ").split()])


ENTRIES: tuple[Entry, ...] = (Entry("longest-gap", (Argument("visits", "text"),), _asked_gap),)
