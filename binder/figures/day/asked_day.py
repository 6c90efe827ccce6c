"""The farm's day: sun, air by the hour, day load, meals; and all of it for a farm (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from binder.figures import published
from binder.figures.day.day_load import (
    DayLoad,
    LoadLevel,
    MonthCount,
    count_loads,
    heat_waves,
    is_heat_wave,
    load_figure,
    load_of,
)
from binder.figures.day.farm_day import Day, DayFigures, farm_day, for_farm, position_of
from binder.figures.day.feeding_hours import EVENING, MORNING, evening_meal, morning_meal
from binder.figures.entry import Argument, Entry
from binder.figures.figure import NotPublishedError
from binder.figures.weather.daylight import DayAir, HourAir, curve, day_of, sunrise, sunset
from binder.figures.weather.hot_days import DayWeather
from binder.figures.weather.sun_times import Position, SunTimes, clock, sun_times

if TYPE_CHECKING:
    import datetime as dt

    from binder.figures.figure import Figure

__all__ = [
    "ENTRIES",
    "Day",
    "DayAir",
    "DayFigures",
    "DayLoad",
    "HourAir",
    "LoadLevel",
    "MonthCount",
    "Position",
    "SunTimes",
    "clock",
    "count_loads",
    "curve",
    "day_of",
    "evening_meal",
    "farm_day",
    "for_farm",
    "heat_waves",
    "is_heat_wave",
    "load_figure",
    "load_of",
    "morning_meal",
    "position_of",
    "sun_times",
    "sunrise",
    "sunset",
]

_ASKED = "asked"  # origin of a day typed at the command line


def _asked_day(
    date: dt.date,
    latitude: float,
    longitude: float,
    timezone: str,
    high: float,
    low: float,
    dew_point: float,
    hottest_at: float | None = None,
) -> DayAir:
    weather = DayWeather(high, low, dew_point, hottest_at, assumed=False, origin=_ASKED)
    day = day_of(Position(latitude, longitude, timezone), date, weather)
    if hottest_at is not None and not day.peak_is_own:
        noon, fall = clock((day.sunrise_h + day.sunset_h) / 2), clock(day.sunset_h)
        message = (
            f"hottest_at {clock(hottest_at)} is not between solar noon {noon} and sunset {fall}"
        )
        raise NotPublishedError(message)
    return day


def _asked_curve(**given: Any) -> Figure:
    return curve(_asked_day(**given))


def _asked_load(**given: Any) -> Figure:
    cls = given.pop("class")
    day = _asked_day(**given)
    return load_figure(cls, day.hours, day.weather.low_c)


def _asked_morning(**given: Any) -> Figure:
    cls = given.pop("class")
    return morning_meal(_asked_day(**given), cls)


def _asked_evening(**given: Any) -> Figure:
    cls = given.pop("class")
    return evening_meal(_asked_day(**given), cls)


_CLASS = Argument("class", "text", choices=tuple(
    row.text("class") for row in published.rows("classes")
))  # fmt: skip
_WHERE = (
    Argument("latitude", "degrees"),
    Argument("longitude", "degrees"),
    Argument("timezone", "text"),
    Argument("date", "date"),
)
_DAY = (
    *_WHERE,
    Argument("high", "temperature"),
    Argument("low", "temperature"),
    Argument("dew_point", "temperature"),
    Argument("hottest_at", "time of day", optional=True),
)

ENTRIES = (
    Entry("sunrise", _WHERE, sunrise),
    Entry("sunset", _WHERE, sunset),
    Entry("day-curve", _DAY, _asked_curve),
    Entry("day-load", (_CLASS, *_DAY), _asked_load),
    Entry(MORNING, (_CLASS, *_DAY), _asked_morning),
    Entry(EVENING, (_CLASS, *_DAY), _asked_evening),
)
