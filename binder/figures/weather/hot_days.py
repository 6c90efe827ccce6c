"""The days a farm is worked out for: hot, severe, and typical of a month (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import fmean
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures.figure import OUR_CHOICE
from binder.figures.rules import rule
from binder.science.heat import COLDEST_C, HOTTEST_C
from binder.units import difference_c
from binder.weather.hours import parse_hours
from binder.weather.record import Hour

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping

    from binder.farm.model import Farm, Month, Weather

__all__ = [
    "DayWeather",
    "Hour",
    "extreme_day",
    "hot_day",
    "hours",
    "parse_hours",
    "typical_days",
]

MONTHS: tuple[Month, ...] = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
RULES = "default_weather"
HOT_DAY, EXTREME_DAY = "hot_day", "extreme_day"


@dataclass(frozen=True, slots=True)
class DayWeather:
    """A day's air in three numbers.

    Attributes:
        high_c: highest air temperature [C].
        low_c: lowest air temperature [C].
        dew_point_c: dew point, taken the same all day [C].
        hottest_at_h: hour of the highest temperature on the local clock [h]; None where the
            owner did not say.
        assumed: True where any of it is our choice, not the owner's record.
        origin: `hot_day`, `extreme_day`, a month such as `july`, or `our-choice`.
    """

    high_c: float
    low_c: float
    dew_point_c: float
    hottest_at_h: float | None
    assumed: bool
    origin: str


def hours(clock: dt.time) -> float:
    """Return a time of day as hours since midnight [h]."""
    return clock.hour + clock.minute / MINUTES_IN_HOUR


def _day(weather: Weather, origin: str) -> DayWeather:
    at = weather.hottest_at
    return DayWeather(
        weather.high_c, weather.low_c, weather.dew_point_c,
        None if at is None else hours(at), assumed=False, origin=origin,
    )  # fmt: skip


def typical_days(farm: Farm, rows: Iterable[Hour] = ()) -> Mapping[Month, DayWeather]:
    """Return the farm's typical day of each month that is known, January first.

    The owner's climate wins; other months come from the weather record: the means of the days'
    highest, lowest and dew point.

    Args:
        farm: the farm.
        rows: its weather record (`parse_hours`), empty where it has none.
    """
    recorded = _recorded(rows)
    found: dict[Month, DayWeather] = {}
    for number, month in enumerate(MONTHS, start=1):
        if month in farm.about.climate:
            found[month] = _day(farm.about.climate[month], month)
        elif number in recorded:
            high_c, low_c, dew_c = recorded[number]
            found[month] = DayWeather(high_c, low_c, dew_c, None, assumed=False, origin=month)
    return found


def _recorded(rows: Iterable[Hour]) -> dict[int, tuple[float, float, float]]:
    """Return the mean high, low and dew point [C] of each month on record."""
    days: dict[dt.date, list[Hour]] = {}
    for row in rows:
        days.setdefault(row.when.date(), []).append(row)
    months: dict[int, list[tuple[float, float, float]]] = {}
    for date, readings in days.items():
        temps = [row.temp_c for row in readings]
        dew_c = fmean(row.dew_point_c for row in readings)
        months.setdefault(date.month, []).append((max(temps), min(temps), dew_c))
    return {
        month: (fmean(day[0] for day in kept), fmean(day[1] for day in kept),
                fmean(day[2] for day in kept))
        for month, kept in months.items()
    }  # fmt: skip


def hot_day(farm: Farm, rows: Iterable[Hour] = ()) -> DayWeather:
    """Return the farm's typical hot day: its own, else its hottest month, else our choice.

    A month colder than the livestock index goes is no hot day, even where no other is known.
    """
    if farm.about.hot_day is not None:
        return _day(farm.about.hot_day, HOT_DAY)
    months = typical_days(farm, rows).values()
    warm = [day for day in months if day.high_c >= COLDEST_C]
    if warm:
        return max(warm, key=lambda day: day.high_c)
    high, low, dew = (
        rule(RULES, f"hot day {name}", "temperature").value
        for name in ("high", "low", "dew point")
    )
    return DayWeather(high, low, dew, None, assumed=True, origin=OUR_CHOICE)


def extreme_day(farm: Farm, rows: Iterable[Hour] = ()) -> DayWeather:
    """Return the worst day the owner plans for, else the hot day made hotter (our choice).

    It is made no hotter than the livestock index goes.
    """
    if farm.about.extreme_day is not None:
        return _day(farm.about.extreme_day, EXTREME_DAY)
    hot = hot_day(farm, rows)
    more_c = difference_c(rule(RULES, "extreme day hotter by", "number").value, "us")
    high_c = min(hot.high_c + more_c, HOTTEST_C)
    return DayWeather(
        high_c, min(hot.low_c + more_c, high_c), hot.dew_point_c, hot.hottest_at_h,
        assumed=True, origin=OUR_CHOICE,
    )  # fmt: skip
