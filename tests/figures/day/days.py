"""Days and places that the tests of a day and of its weather share."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from binder.farm.model import Farm
from binder.figures.day import asked_day as days
from binder.figures.day.asked_day import Position
from binder.figures.entry import read_arguments
from binder.figures.weather.hot_days import (
    DayWeather,
    Hour,
)
from tests.figures.written import celsius, written_farm

if TYPE_CHECKING:
    from binder.figures.figure import Figure


TEXAS = Position(31.0, -97.7, "America/Chicago")

GEORGIA = Position(31.6, -81.9, "America/New_York")

JULY = dt.date(2026, 7, 15)

PLACE = {"latitude": "31", "longitude": "-97.7", "timezone": "America/Chicago"}

WHERE = {**PLACE, "date": "2026-07-15"}

HOT = {**WHERE, "high": "98F", "low": "75F", "dew_point": "70F"}


def weather(
    high: float, low: float, dew: float, hottest_at_h: float | None = None
) -> DayWeather:
    """Return a day's weather from degrees Fahrenheit."""
    return DayWeather(
        celsius(high), celsius(low), celsius(dew), hottest_at_h, assumed=False, origin="hot_day"
    )


def asked(name: str, **given: str) -> Figure:
    """Return the figure as `binder figure` would, arguments as typed."""
    entry = next(entry for entry in days.ENTRIES if entry.name == name)
    return entry.compute(**read_arguments(entry, given))


def minutes(text: str) -> int:
    """Return minutes since midnight of a time such as 06:42."""
    hours, _, minute = text.partition(":")
    return int(hours) * 60 + int(minute)


def moment(date: str, hour: int = 0, minute: int = 0) -> dt.datetime:
    """Return a date and time of the farm's own clock."""
    return dt.datetime.combine(dt.date.fromisoformat(date), dt.time(hour, minute))


def farm(animals: tuple[dict[str, str], ...] = (), **about: Any) -> Farm:
    """Return a farm as the owner would write it."""
    return written_farm(animals=animals, **about)


MAY = {"high": "85 F", "low": "62 F", "dew_point": "60 F"}

AUGUST = {"high": "93 F", "low": "74 F", "dew_point": "73 F", "hottest_at": "16:30"}


def record(days_of_hours: dict[dt.date, tuple[float, float]], count: int = 24) -> list[Hour]:
    """Return a record of days, each of one air (temperature and dew point [C])."""
    return [
        Hour(dt.datetime.combine(date, dt.time(hour)), temp_c, dew_c)
        for date, (temp_c, dew_c) in days_of_hours.items()
        for hour in range(count)
    ]
