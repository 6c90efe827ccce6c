"""The farm's day hour by hour: its load on animals, and the cool hours for meals.

Drawn from the weather of that day and the classes that live here.
"""

from __future__ import annotations

from binder.figures.day.asked_day import ENTRIES
from binder.figures.day.day_load import DayLoad, Load
from binder.figures.day.farm_day import Day, DayFigures, Meals, for_farm

__all__ = ["ENTRIES", "Day", "DayFigures", "DayLoad", "Load", "Meals", "for_farm"]
