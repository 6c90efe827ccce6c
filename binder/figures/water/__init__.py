"""What animals drink, and the waterers they drink from.

Per head, pen and farm, by class and temperature.
"""

from __future__ import annotations

from binder.figures.water import drinkers, drinking_water
from binder.figures.water.drinkers import DrinkerFigures
from binder.figures.water.drinking_water import WaterFigures
from binder.figures.water.farm_water import Watering, for_farm

__all__ = ["ENTRIES", "DrinkerFigures", "WaterFigures", "Watering", "for_farm"]

ENTRIES = (*drinking_water.ENTRIES, *drinkers.ENTRIES)
