"""What the areas before readiness work out for a farm on a day: what readiness judges."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder.figures.nested import APART

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from binder.farm.model import Farm
    from binder.figures import (
        bands,
        bleach,
        day,
        feed,
        herd,
        hoses,
        place,
        power,
        rounds,
        season,
        wallows,
    )
    from binder.figures.figure import Figure
    from binder.figures.housing import shade, stall_air
    from binder.figures.people import in_heat
    from binder.figures.stays import Plan, stay_check
    from binder.figures.supply import farm_supply, water_store
    from binder.figures.water import drinkers, drinking_water
    from binder.figures.weather.hot_days import DayWeather


@dataclass(frozen=True, slots=True)
class Results:
    """The results of the areas. Each field is described where its class is.

    Attributes:
        farm: the farm it is about.
        on: the day.
        hot: the farm's typical hot day; `extreme` the worst to plan for.
        stores: what each pen has if its supply stops, by pen id.
        boars: `boar-fertility` by boar, after a hot spell in the weather record.
        stays: the plan of each stay that is not over, by its id.
        stay_checks: where these plans do not hold.
        plan: the plan of the farm without a sitter, on an ordinary hot day.
        ground: where things stand on the map, None without one.
        season: the farm played through its weather files, None without any.
    """

    farm: Farm
    on: dt.date
    hot: DayWeather
    extreme: DayWeather
    herd: herd.Herd
    bands: bands.BandFigures
    day: day.DayFigures
    people: in_heat.PeopleFigures
    water: drinking_water.WaterFigures
    drinkers: drinkers.DrinkerFigures
    hoses: Mapping[str, hoses.HoseSheet]
    wallows: Mapping[str, wallows.WallowSheet]
    supply: farm_supply.SupplyFigures
    cleaning: bleach.CleaningFigures
    shade: shade.FarmShade
    air: stall_air.FarmAir
    feed: feed.FarmFeed
    power: power.FarmPower
    rounds: rounds.RoundFigures
    finder_minutes: Mapping[str, object]
    stores: Mapping[str, water_store.PenStore]
    boars: Mapping[str, Figure]
    stays: Mapping[str, Plan]
    stay_checks: Mapping[str, stay_check.StayCheck]
    plan: Plan
    ground: place.GroundMap | None
    # Thousands of hours, and no figure of its own among them.
    season: season.Season | None = field(metadata={APART: True})
