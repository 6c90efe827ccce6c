"""One day's sun and air, hour by hour, on the farm's own clock (step 3)."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.figure import (
    OUR_CHOICE,
    Figure,
    NotPublishedError,
    merge_sources,
    step,
)
from binder.figures.published import formula
from binder.figures.rules import rule
from binder.figures.weather.sun_times import Position, clock, day_times, sun_times
from binder.science import day_curve
from binder.science.humidity import relative_humidity_pct
from binder.units import Amount, show_both

if TYPE_CHECKING:
    from binder.figures.weather.hot_days import DayWeather

RULES = "day_rules"
FORMULAS = "weather_formulas"


@dataclass(frozen=True, slots=True)
class HourAir:
    """The air at a moment: hour of the day [h], temperature [C], relative humidity [%]."""

    hour: float
    temp_c: float
    rh_pct: float


@dataclass(frozen=True, slots=True)
class DayAir:
    """A day's sun and air.

    Attributes:
        on: the date.
        weather: the high, low and dew point it was drawn from.
        sunrise_h: sunrise on the local clock [h].
        sunset_h: sunset on the local clock [h].
        low_h: hour of the coolest air, near sunrise [h].
        peak_h: hour of the hottest air [h].
        peak_lag_h: how long after solar noon that is [h].
        hours: the air at 0:00, 1:00 ... 23:00.
    """

    on: dt.date
    weather: DayWeather
    sunrise_h: float
    sunset_h: float
    low_h: float
    peak_h: float
    peak_lag_h: float
    hours: tuple[HourAir, ...] = ()

    @property
    def peak_is_own(self) -> bool:
        """Return whether the air is hottest when the owner says."""
        own_h = self.weather.hottest_at_h
        return own_h is not None and math.isclose(own_h, self.peak_h)

    def air_at(self, hour: float) -> HourAir:
        """Return the air at an hour of the day, 0 to 24 [h]."""
        air, lags = self.weather, _lags()
        temp_c = day_curve.temperature_c(
            hour, air.high_c, air.low_c, self.sunrise_h, self.sunset_h, self.peak_lag_h, *lags
        )
        # Air cooler than the dew point has dropped its dew: it is full, never above 100 %.
        rh_pct = relative_humidity_pct(temp_c, min(air.dew_point_c, temp_c))
        return HourAir(hour, temp_c, rh_pct)


def _lags() -> tuple[float, float]:
    """Return the published minimum lag [h] and night decay."""
    return rule(RULES, "minimum lag", "time").value, rule(RULES, "night decay", "number").value


def day_of(position: Position, on: dt.date, weather: DayWeather) -> DayAir:
    """Return the day's sun and its air hour by hour.

    The hottest hour is the farm's own where it is known and lies between solar noon and
    sunset of that date (17:30 is after a winter's sunset), else the published lag after solar
    noon. The dew point is taken the same all day, so the humidity falls as the air warms.

    Raises:
        NotPublishedError: a dew point above the day's high.
        NoDayError: the sun does not rise and, 4 h later or more, set on that date.
        ValueError: a low above the high, or a number outside its range.

    References:
        heat-65, heat-66 (curve), heat-64 (dew point held constant).
    """
    if weather.dew_point_c > weather.high_c:
        dew, high = (
            show_both(Amount(c, "degC"), "us") for c in (weather.dew_point_c, weather.high_c)
        )
        message = f"a dew point of {dew} is above the day's high of {high}, which cannot be"
        raise NotPublishedError(message)
    times = day_times(position, on)
    rise, fall = times.sunrise_h, times.sunset_h
    own_h = weather.hottest_at_h
    if own_h is not None and (rise + fall) / 2 <= own_h < fall:
        lag_h = day_curve.peak_lag_for(own_h, rise, fall)
    else:
        lag_h = rule(RULES, "peak lag", "time").value
    peak_h = day_curve.peak_hour(rise, fall, lag_h)
    bare = DayAir(on, weather, rise, fall, rise + _lags()[0], peak_h, lag_h)
    hours = tuple(bare.air_at(float(hour)) for hour in range(HOURS_IN_DAY))
    return DayAir(on, weather, rise, fall, bare.low_h, peak_h, lag_h, hours)


def _sun_figure(name: str, value: str, position: Position, on: dt.date, subject: str) -> Figure:
    times = sun_times(position, on)
    working = (
        step(
            "place",
            date=on.isoformat(),
            latitude=f"{position.latitude:g}",
            longitude=f"{position.longitude:g}",
            timezone=position.timezone,
        ),
        step(
            "times",
            sunrise=clock(times.sunrise_h),
            noon=clock(times.noon_h),
            sunset=clock(times.sunset_h),
        ),
    )
    sources = formula(FORMULAS, "sun-times")
    return Figure(name, value, working, sources, ("hills",), subject)


def sunrise(
    latitude: float, longitude: float, timezone: str, date: dt.date, subject: str = ""
) -> Figure:
    """Return sunrise on the local clock, `06:31`; good to about two minutes.

    Args:
        latitude: north positive [degrees].
        longitude: east positive [degrees].
        timezone: such as America/New_York.
        date: local date.
        subject: what on the farm it is about.

    Raises:
        ValueError: a coordinate out of range, an unknown time zone, or a day without sunrise.

    References:
        heat-69 (NOAA solar position).
    """
    position = Position(latitude, longitude, timezone)
    value = clock(sun_times(position, date).sunrise_h)
    return _sun_figure("sunrise", value, position, date, subject)


def sunset(
    latitude: float, longitude: float, timezone: str, date: dt.date, subject: str = ""
) -> Figure:
    """Return sunset on the local clock, `20:33`; good to about two minutes.

    Args:
        latitude: north positive [degrees].
        longitude: east positive [degrees].
        timezone: such as America/New_York.
        date: local date.
        subject: what on the farm it is about.

    Raises:
        ValueError: a coordinate out of range, an unknown time zone, or a day without sunset.

    References:
        heat-69 (NOAA solar position).
    """
    position = Position(latitude, longitude, timezone)
    value = clock(sun_times(position, date).sunset_h)
    return _sun_figure("sunset", value, position, date, subject)


def curve(day: DayAir, subject: str = "") -> Figure:
    """Return the air temperature at 0:00, 1:00 ... 23:00 as a figure [C].

    References:
        heat-65, heat-66 (curve), heat-64 (dew point held constant), heat-69 (sun).
    """
    air = day.weather
    peak, low = (day.air_at(hour) for hour in (day.peak_h, max(day.low_h, 0.0)))
    working = (
        step(
            "given",
            high=Amount(air.high_c, "degC"),
            low=Amount(air.low_c, "degC"),
            dew_point=Amount(air.dew_point_c, "degC"),
        ),
        step("sun", sunrise=clock(day.sunrise_h), sunset=clock(day.sunset_h)),
        step(
            "peak_own" if day.peak_is_own else "peak_published",
            peak=clock(day.peak_h),
            lag=Amount(day.peak_lag_h, "h"),
        ),
        step("coolest", coolest=clock(day.low_h)),
        step("humidity", dry=Amount(peak.rh_pct, "%"), damp=Amount(low.rh_pct, "%")),
    )
    sources = merge_sources(
        rule(RULES, "peak lag", "time").sources, formula(FORMULAS, "air-by-hour"),
        (OUR_CHOICE,) if air.assumed else (),
    )  # fmt: skip
    cautions = (("assumed",) if air.assumed else ()) + ("curve",)
    value = tuple(Amount(hour.temp_c, "degC") for hour in day.hours)
    return Figure("day-curve", value, working, sources, cautions, subject)
