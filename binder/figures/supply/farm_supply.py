"""The farm's water: demand of a hot day, what is stored, pumping, hauling (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures.figure import DERIVED, Figure, merge_sources, step
from binder.figures.rules import at_least, rule
from binder.figures.supply.reserve import RULES, STEADY, UNSTEADY, hauling, reserve, tank_size
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from binder.farm.model import Drinker, Farm, Pen
    from binder.figures.herd.groups import Herd
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.wallows.wallow_plan import WallowSheet
    from binder.figures.water.drinking_water import WaterFigures
    from binder.figures.weather.hot_days import DayWeather

PIG = "pig"
STEADY_KINDS = ("well", "mains", "tap")
DRINKING, EVERYTHING = "drinking", "everything"


@dataclass(frozen=True, slots=True)
class SupplyFigures:
    """Water in and out of the farm on the hot day. None: not recorded, or nothing to do.

    Attributes:
        demand: `water-demand` [L/day]: drinking, wallows, flushing, soaking, wetting; None
            where no animal has a water figure.
        wetting: `wetting` [L/day], part of it.
        stored: `water-stored` [L]: tanks that need no power, troughs no animal can tip.
        reserve: `reserve` [h] for drinking alone; None without demand or store.
        reserve_all: `reserve` [h] for all of the demand; None likewise.
        pens: `reserve` [h] by pen id, from what its own troughs hold; only pens where
            something that holds water is recorded and the animals have a figure.
        pumping: `pump-hours` [h] a day to bring the demand; None where no flow is recorded.
        tank: `tank-size` [L] for drinking.
        days: `water-days` [L] of drinking water to hold.
        hauling: `hauling` [trips] of drinking water by tank id.
    """

    demand: Figure | None
    wetting: Figure
    stored: Figure
    reserve: Figure | None
    reserve_all: Figure | None
    pens: Mapping[str, Figure]
    pumping: Figure | None
    tank: Figure | None
    days: Figure | None
    hauling: Mapping[str, Figure]


def warm_hours(hourly_c: Iterable[float]) -> int:
    """Return how many hours of a day are warm enough to wet pigs [h].

    Args:
        hourly_c: its air temperatures, hour by hour [C]; the limit itself counts as warm.

    References:
        water-93.
    """
    from_c = rule(RULES, "wetting from", "temperature").value
    return sum(at_least(temp_c, from_c) for temp_c in hourly_c)


def wetting(pigs: int, hours: float, subject: str = "") -> Figure:
    """Return the water to wet pigs that have no wallow [L/day].

    Args:
        pigs: head.
        hours: of the day that are warm enough [h].
        subject: what it is about.

    References:
        water-90, water-93: 0.1 gal a pig an hour, 0.2 in dry heat; the upper is planned.
    """
    name = "wetting for a pig an hour in dry heat"
    rate = rule(RULES, name, "flow")
    each = Amount(rate.value * MINUTES_IN_HOUR, "L/h")
    value = Amount(each.value * hours * pigs, "L/day")
    line = step("wetting", pigs=pigs, hours=Amount(hours, "h"), each=each, water=value)
    return Figure("wetting", value, (line,), rate.sources, ("skin",), subject)


def for_farm(
    farm: Farm,
    herd: Herd,
    hot: DayWeather,
    water: WaterFigures,
    hoses: Mapping[str, HoseSheet],
    wallows: Mapping[str, WallowSheet],
    soak_l_day: float | None = None,
    wet_hours: float | None = None,
) -> SupplyFigures:
    """Return the farm's demand against its supply on a hot day.

    Args:
        farm: the farm.
        herd: its herd.
        hot: the hot day.
        water: of `water.for_farm`.
        hoses: of `hose_plan.for_farm`.
        wallows: of `wallow_plan.for_farm`.
        soak_l_day: water to soak feed [L/day], None where none is soaked.
        wet_hours: of `warm_hours` for the hot day [h]; None: our choice on a warm day.
    """
    damp = wetting(_dry_pigs(farm, herd), _hours(hot, wet_hours))
    top_ups = [sheet.top_up for sheet in wallows.values() if sheet.top_up]
    flushes = [sheet.flush_water for sheet in hoses.values() if sheet.flush_water]
    stored = _stored(farm)
    demand = drink = None
    if water.farm is not None:
        drink = water.farm.amount
        demand = _demand(water, top_ups, flushes, soak_l_day, damp)
    flow = sum(source.flow_l_min or 0.0 for source in farm.equipment.water_sources)
    held = bool(stored.amount.value)
    return SupplyFigures(
        demand=demand,
        wetting=damp,
        stored=stored,
        reserve=_lasts(stored, drink, DRINKING) if held else None,
        reserve_all=_lasts(stored, demand.amount if demand else None, EVERYTHING)
        if held
        else None,
        pens=_pens(farm.pens, water),
        pumping=_pumping(demand, flow) if demand and flow else None,
        tank=tank_size(drink.value, _steadiness(farm), DRINKING) if drink else None,
        days=_days(drink) if drink else None,
        hauling={
            tank.id: hauling(drink.value, tank.holds_l, tank.id)
            for tank in farm.equipment.tanks
            if drink
        },
    )


def _dry_pigs(farm: Farm, herd: Herd) -> int:
    """Return the pigs that live where there is no wallow."""
    wet = {pen.id for pen in farm.pens if pen.wallow}
    return sum(
        group.count
        for group in herd.groups
        if group.animal.species == PIG and group.pen not in wet
    )


def _hours(hot: DayWeather, wet_hours: float | None) -> float:
    if wet_hours is not None:
        return wet_hours
    if hot.high_c < rule(RULES, "wetting from", "temperature").value:
        return 0.0
    return rule(RULES, "hours of wetting where the day is not drawn", "time").value


def _demand(
    water: WaterFigures,
    top_ups: Iterable[Figure],
    flushes: Iterable[Figure],
    soak_l_day: float | None,
    damp: Figure,
) -> Figure:
    parts = {
        "drinking": [water.farm] if water.farm else [],
        "wallows": list(top_ups),
        "flushing": list(flushes),
        "wetting": [damp],
    }
    litres = {key: sum(part.amount.value for part in found) for key, found in parts.items()}
    litres["soaking"] = soak_l_day or 0.0
    value = Amount(sum(litres.values()), "L/day")
    lines = [step(key, water=Amount(each, "L/day")) for key, each in litres.items() if each]
    lines.append(step("sum", water=value))
    if water.unknown:
        lines.append(step("without", names=", ".join(water.unknown)))
    sources = merge_sources(*(part.sources for found in parts.values() for part in found))
    return Figure("water-demand", value, tuple(lines), sources, ("hot-day",))


def _holds_l(drinkers: Iterable[Drinker]) -> float:
    """Return what the drinkers hold that no animal is known to tip [L]."""
    return sum((each.holds_l or 0.0) * each.count for each in drinkers if not each.can_tip)


def _stored(farm: Farm) -> Figure:
    tanks = [tank for tank in farm.equipment.tanks if not tank.needs_power]
    troughs_l = sum(_holds_l(pen.drinkers) for pen in farm.pens)
    value = Amount(sum(tank.holds_l for tank in tanks) + troughs_l, "L")
    lines = [step("tank", name=tank.name, holds=Amount(tank.holds_l, "L")) for tank in tanks]
    lines.append(step("troughs", holds=Amount(troughs_l, "L")))
    return Figure(
        "water-stored", value, (*lines, step("sum", stored=value)), (DERIVED,), ("full",)
    )


def _lasts(stored: Figure, use: Amount | None, subject: str) -> Figure | None:
    return reserve(stored.amount.value, use.value, subject) if use else None


def _pens(pens: Iterable[Pen], water: WaterFigures) -> Mapping[str, Figure]:
    return {
        pen.id: reserve(_holds_l(pen.drinkers), water.pens[pen.id].amount.value, pen.id)
        for pen in pens
        if pen.id in water.pens and any(drinker.holds_l for drinker in pen.drinkers)
    }


def _pumping(demand: Figure, flow_l_min: float) -> Figure:
    """Return the hours a day the sources must run for the demand [h]."""
    value = Amount(demand.amount.value / (flow_l_min * MINUTES_IN_HOUR), "h")
    line = step("run", demand=demand.amount, flow=Amount(flow_l_min, "L/min"), time=value)
    return Figure("pump-hours", value, (line,), (DERIVED,), ("day",))


def _steadiness(farm: Farm) -> str:
    steady = any(source.kind in STEADY_KINDS for source in farm.equipment.water_sources)
    return STEADY if steady else UNSTEADY


def _days(drinking: Amount) -> Figure:
    """Return the drinking water to hold for the fewest published days [L]."""
    fewest, most = (rule(RULES, f"store {end} days", "number") for end in ("fewest", "most"))
    value = Amount(drinking.value * fewest.value, "L")
    line = step(
        "days",
        drinking=drinking,
        fewest=fewest.value,
        few=value,
        most=most.value,
        many=Amount(drinking.value * most.value, "L"),
    )
    return Figure("water-days", value, (line,), fewest.sources, ("days",))
