"""Sun and air by the hour: the days a farm is worked out for, its weather record, a forecast.

Everything that asks how hot it is when starts here.
"""

from __future__ import annotations

from binder.figures.weather.daylight import DayAir, HourAir
from binder.figures.weather.hot_days import DayWeather
from binder.figures.weather.sun_times import Position, SunTimes
from binder.weather.record import Hour

__all__ = ["DayAir", "DayWeather", "Hour", "HourAir", "Position", "SunTimes"]
