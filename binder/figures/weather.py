"""The days a farm is worked out for: hot, severe, and typical of a month (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.rules import rule

if TYPE_CHECKING:
    import datetime as dt

    from binder.farm.model import Farm, Month, Weather

RULES = "default_weather"
HOT_DAY, SEVERE_DAY, OUR_CHOICE = "hot_day", "severe_day", "our-choice"
MINUTES_IN_HOUR = 60
F_PER_C = 1.8  # definition of the Fahrenheit scale


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
        origin: `hot_day`, `severe_day`, a month such as `july`, or `our-choice`.
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


def typical_day(farm: Farm, month: Month) -> DayWeather | None:
    """Return the farm's typical day of a month, None where the owner gave none."""
    weather = farm.about.climate.get(month)
    return None if weather is None else _day(weather, month)


def hot_day(farm: Farm) -> DayWeather:
    """Return the farm's typical hot day: its own, else its hottest month, else our choice."""
    if farm.about.hot_day is not None:
        return _day(farm.about.hot_day, HOT_DAY)
    if farm.about.climate:
        climate = farm.about.climate
        hottest = max(climate, key=lambda month: climate[month].high_c)
        return _day(climate[hottest], hottest)
    high, low, dew = (
        rule(RULES, f"hot day {name}", "temperature").value
        for name in ("high", "low", "dew point")
    )
    return DayWeather(high, low, dew, None, assumed=True, origin=OUR_CHOICE)


def severe_day(farm: Farm) -> DayWeather:
    """Return the worst day the owner plans for, else the hot day made hotter (our choice)."""
    if farm.about.severe_day is not None:
        return _day(farm.about.severe_day, SEVERE_DAY)
    hot = hot_day(farm)
    more_c = rule(RULES, "severe day hotter by", "number").value / F_PER_C
    return DayWeather(
        hot.high_c + more_c, hot.low_c + more_c, hot.dew_point_c, hot.hottest_at_h,
        assumed=True, origin=OUR_CHOICE,
    )  # fmt: skip
