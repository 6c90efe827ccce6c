"""The farm's day hour by hour: its load on animals, and the cool hours for meals.

Drawn from the weather of that day and the classes that live here.
"""

from __future__ import annotations

from binder.figures.day.asked_day import ENTRIES
from binder.figures.day.day_load import DayLoad, LoadLevel
from binder.figures.day.farm_day import Day, DayFigures, for_farm
from binder.figures.day.feeding_hours import Meals

__all__ = [
    "ENTRIES",
    "Day",
    "DayFigures",
    "DayLoad",
    "LoadLevel",
    "Meals",
    "for_farm",
]
