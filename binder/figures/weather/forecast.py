"""A day's air known by the hour, as from a forecast, in place of a curve (step 3)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.figure import NotPublishedError
from binder.figures.weather.daylight import DayAir, HourAir, day_of
from binder.figures.weather.hot_days import DayWeather
from binder.figures.weather.sun_times import day_times
from binder.science.humidity import relative_humidity_pct

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from binder.figures.weather.sun_times import Position
    from binder.weather.record import Hour

ORIGIN = "forecast"


@dataclass(frozen=True, slots=True)
class KnownAir(DayAir):
    """A day whose hours are known; between two of them the air changes evenly."""

    def air_at(self, hour: float) -> HourAir:
        """Return the air at an hour of the day, 0 to 24 [h]."""
        whole = min(math.floor(hour), HOURS_IN_DAY - 1)
        now = self.hours[whole]
        after = self.hours[min(whole + 1, HOURS_IN_DAY - 1)]
        share = hour - whole
        return HourAir(
            hour,
            now.temp_c + share * (after.temp_c - now.temp_c),
            now.rh_pct + share * (after.rh_pct - now.rh_pct),
        )


def day_air(position: Position, on: dt.date, rows: Sequence[Hour]) -> KnownAir:
    """Return a day's air from readings; hours without one are drawn from its high and low.

    Each hour counts with its hottest reading. The dew point is the day's highest, the safer.

    Args:
        position: of the farm.
        on: the day.
        rows: readings, of other days too.

    Raises:
        NotPublishedError: there is no reading of that day.
        ValueError: a place for which no day can be drawn.
    """
    hottest: dict[int, Hour] = {}
    for row in rows:
        here = hottest.get(row.when.hour)
        if row.when.date() == on and (here is None or row.temp_c > here.temp_c):
            hottest[row.when.hour] = row
    if not hottest:
        days = sorted({row.when.date() for row in rows})
        covered = f"; it covers {days[0]} to {days[-1]}" if days else ""
        message = f"the forecast has no hour of {on}{covered}"
        raise NotPublishedError(message)
    drawn = day_of(position, on, _weather(position, on, hottest))
    hours = tuple(
        _air(hottest[hour]) if hour in hottest else drawn.hours[hour]
        for hour in range(HOURS_IN_DAY)
    )
    return KnownAir(
        on, drawn.weather, drawn.sunrise_h, drawn.sunset_h, drawn.low_h, drawn.peak_h,
        drawn.peak_lag_h, hours,
    )  # fmt: skip


def _weather(position: Position, on: dt.date, hottest: dict[int, Hour]) -> DayWeather:
    """Return the day in three numbers, and its hottest hour where that is an afternoon's."""
    warmest = max(hottest.values(), key=lambda row: row.temp_c)
    times = day_times(position, on)
    peak_h = float(warmest.when.hour)
    return DayWeather(
        high_c=warmest.temp_c,
        low_c=min(row.temp_c for row in hottest.values()),
        dew_point_c=max(row.dew_point_c for row in hottest.values()),
        hottest_at_h=peak_h if times.noon_h < peak_h < times.sunset_h else None,
        assumed=False,
        origin=ORIGIN,
    )


def _air(row: Hour) -> HourAir:
    rh_pct = relative_humidity_pct(row.temp_c, row.dew_point_c)
    return HourAir(float(row.when.hour), row.temp_c, rh_pct)
