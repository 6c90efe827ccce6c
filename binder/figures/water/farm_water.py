"""What the animals of a farm drink, and what they drink it from (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.water import drinkers, drinking_water

if TYPE_CHECKING:
    from binder.farm.model import Farm
    from binder.figures.herd.groups import Herd
    from binder.figures.weather.hot_days import DayWeather


@dataclass(frozen=True, slots=True)
class Watering:
    """The drinking water of each group and pen on the hot day, and its waterers."""

    need: drinking_water.WaterFigures
    drinkers: drinkers.DrinkerFigures


def for_farm(farm: Farm, herd: Herd, hot: DayWeather) -> Watering:
    """Return the watering of a farm's herd on a hot day."""
    return Watering(drinking_water.for_farm(farm, herd, hot), drinkers.for_farm(farm, herd))
