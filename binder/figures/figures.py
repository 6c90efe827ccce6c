"""Step 3, figure: everything that is worked out for a farm on a day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from typing import TYPE_CHECKING

from binder.figures import (
    air,
    bands,
    cleaning_plan,
    drinkers,
    farm_day,
    feed,
    finder,
    herd,
    hose_plan,
    people,
    power,
    rounds,
    shade,
    supply,
    wallow_plan,
    water,
    weather,
    weather_file,
)
from binder.figures.figure import Figure

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

    from binder.farm.model import Farm
    from binder.figures.weather import DayWeather


@dataclass(frozen=True, slots=True)
class Figures:
    """The result of step 3. Each field is described where its class is.

    Attributes:
        farm: the farm it is about.
        on: the day.
        hot: the farm's typical hot day; `severe` the worst to plan for.
    """

    farm: Farm
    on: dt.date
    hot: DayWeather
    severe: DayWeather
    herd: herd.Herd
    bands: bands.BandFigures
    day: farm_day.DayFigures
    people: people.PeopleFigures
    water: water.WaterFigures
    drinkers: drinkers.DrinkerFigures
    hoses: Mapping[str, hose_plan.HoseSheet]
    wallows: Mapping[str, wallow_plan.WallowSheet]
    supply: supply.SupplyFigures
    cleaning: cleaning_plan.CleaningFigures
    shade: shade.FarmShade
    air: air.FarmAir
    feed: feed.FarmFeed
    power: power.FarmPower
    rounds: rounds.RoundFigures
    finder_minutes: Mapping[str, object]


def work_out(farm: Farm, on: dt.date, weather_text: str | None = None) -> Figures:
    """Return all figures of `farm` on the day `on`.

    Args:
        farm: the checked farm.
        on: the day of the binder.
        weather_text: the farm's own weather record (`weather.csv`), None without one.

    Raises:
        ProblemsError: the weather record cannot be read.
    """
    rows = weather_file.parse_hours(weather_text, "weather.csv") if weather_text else ()
    hot, severe = weather.hot_day(farm, rows), weather.severe_day(farm, rows)
    animals = herd.herd(farm, on)
    banded = bands.for_farm(farm, animals, hot)
    drinking = water.for_farm(farm, animals, hot)
    hoses = hose_plan.for_farm(farm, drinking, hot)
    dug = wallow_plan.for_farm(farm, animals)
    meals = feed.for_farm(farm, animals)
    return Figures(
        farm=farm,
        on=on,
        hot=hot,
        severe=severe,
        herd=animals,
        bands=banded,
        day=farm_day.for_farm(farm, animals, hot, rows),
        people=people.for_farm(farm, hot),
        water=drinking,
        drinkers=drinkers.for_farm(farm, animals),
        hoses=hoses,
        wallows=dug,
        supply=supply.for_farm(farm, animals, hot, drinking, hoses, dug, _soaking_l_day(meals)),
        cleaning=cleaning_plan.for_farm(farm, animals, hot, dug),
        shade=shade.for_farm(farm, animals),
        air=air.for_farm(farm, animals),
        feed=meals,
        power=power.for_farm(farm, animals),
        rounds=rounds.for_farm(farm, animals, hoses, dug),
        finder_minutes=finder.minutes(banded.finder),
    )


def _soaking_l_day(meals: feed.FarmFeed) -> float | None:
    """Return the water that soaks feed in a day [L], None where none is soaked."""
    soaked = [
        meal.water.amount.value
        for one in meals.groups
        for meal in (one.morning, one.evening)
        if meal is not None and meal.water is not None
    ]
    return sum(soaked) if soaked else None


def every(thing: object) -> Iterator[Figure]:
    """Yield every figure inside a result, however deep, in its order."""
    if isinstance(thing, Figure):
        yield thing
    elif is_dataclass(thing) and not isinstance(thing, type):
        for each in fields(thing):
            yield from every(getattr(thing, each.name))
    elif isinstance(thing, Mapping):
        for value in thing.values():
            yield from every(value)
    elif isinstance(thing, tuple | list):
        for value in thing:
            yield from every(value)
