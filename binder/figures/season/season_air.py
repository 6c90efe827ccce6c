"""The air of a weather file as a farm meets it: hour by hour, day by day (step 3)."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from typing import TYPE_CHECKING

from binder.figures.bands.band_lines import HALF, whole_of
from binder.figures.day.day_load import recovery_by_index
from binder.figures.rules import rule
from binder.figures.weather.daylight import RULES as DAY_RULES
from binder.figures.weather.sun_times import SunTimes, day_times
from binder.science import heat, sun
from binder.science.humidity import relative_humidity_pct

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.figures.weather.sun_times import Position
    from binder.weather.record import Record

EARTH_KM = 6371.0  # mean radius, any atlas


@dataclass(frozen=True, slots=True)
class SeasonDay:
    """A day of a record: its hours are those from `start` up to `end`.

    Attributes:
        on: the date on the farm's clock.
        start, end: of its hours in the lists of `SeasonAir`.
        is_whole: whether enough of its hours are on record to judge the day.
        high_c, low_c: its hottest and coolest hour [C].
        recovery_h: hours in which animals shed heat [h].
        sunrise_h, sunset_h: by the farm's clock [h].
    """

    on: dt.date
    start: int
    end: int
    is_whole: bool
    high_c: float
    low_c: float
    recovery_h: int
    sunrise_h: float
    sunset_h: float


@dataclass(frozen=True, slots=True)
class SeasonAir:
    """Every hour of a record, one value an hour in each list.

    Attributes:
        record: the file.
        days: in order.
        clock_h: hour of the day, 0 to 23, on the farm's clock.
        temp_c, rh_pct: the air.
        whole: the livestock index to the nearest whole number, None where it does not go.
        up: whether the sun is up for most of the hour.
        sun_w_m2: sun on level ground, of the file, else of a clear sky.
        follows: whether the hour before it is on record.
    """

    record: Record
    days: tuple[SeasonDay, ...]
    clock_h: tuple[int, ...]
    temp_c: tuple[float, ...]
    rh_pct: tuple[float, ...]
    whole: tuple[int | None, ...]
    up: tuple[bool, ...]
    sun_w_m2: tuple[float, ...]
    follows: tuple[bool, ...]

    @property
    def whole_days(self) -> tuple[SeasonDay, ...]:
        """Return the days that are judged."""
        return tuple(day for day in self.days if day.is_whole)


def air_of(record: Record, position: Position) -> SeasonAir:
    """Return the air of a record at a farm, with its sun.

    Raises:
        NoDayError: a place where the sun does not rise and set each day.
    """
    hours = record.hours
    temp_c = tuple(hour.temp_c for hour in hours)
    rh_pct = tuple(relative_humidity_pct(h.temp_c, h.dew_point_c) for h in hours)
    index = tuple(
        heat.livestock_index(t, rh) if t >= heat.COLDEST_C else None
        for t, rh in zip(temp_c, rh_pct, strict=True)
    )
    clock_h = tuple(hour.when.hour for hour in hours)
    days: list[SeasonDay] = []
    up: list[bool] = []
    whole_h = rule(DAY_RULES, "whole day", "time").value
    for on, group in groupby(range(len(hours)), key=lambda at: hours[at].when.date()):
        at = list(group)
        start, end = at[0], at[-1] + 1
        times = _times(position, on)
        middles = [clock_h[i] + HALF for i in at]
        up += [times.sunrise_h <= middle < times.sunset_h for middle in middles]
        days.append(
            SeasonDay(
                on, start, end, len(at) >= whole_h,
                max(temp_c[start:end]), min(temp_c[start:end]),
                recovery_by_index(index[start:end]), times.sunrise_h, times.sunset_h,
            )
        )  # fmt: skip
    return SeasonAir(
        record, tuple(days), clock_h, temp_c, rh_pct,
        tuple(None if each is None else whole_of(each) for each in index),
        tuple(up), _sun(record, position, up), _follows(record),
    )  # fmt: skip


@lru_cache(maxsize=8192)
def _times(position: Position, on: dt.date) -> SunTimes:
    return day_times(position, on)


def _follows(record: Record) -> tuple[bool, ...]:
    """Return for each hour whether the one before it is there."""
    first_after = {hole.first + dt.timedelta(hours=hole.hours) for hole in record.holes}
    return tuple(
        at > 0 and hour.when not in first_after for at, hour in enumerate(record.hours)
    )


def _sun(record: Record, position: Position, up: Sequence[bool]) -> tuple[float, ...]:
    """Return the sun of each hour [W/m2], as measured, else under a clear sky [water-127]."""
    return tuple(
        hour.sun_w_m2
        if hour.sun_w_m2 is not None
        else (_clear(position, hour.when) if is_up else 0.0)
        for hour, is_up in zip(record.hours, up, strict=True)
    )


@lru_cache(maxsize=16384)
def _clear(position: Position, when: dt.datetime) -> float:
    zone = sun.solar_noon(*position.on(when.date())).tzinfo
    moment = (when + dt.timedelta(minutes=30)).replace(tzinfo=zone)
    return sun.clear_sky_w_m2(sun.zenith_deg(position.latitude, position.longitude, moment))


def kilometres(position: Position, record: Record) -> float | None:
    """Return how far from the farm a file was measured [km], None where it does not say.

    References:
        Geometry of a ball (haversine form).
    """
    site = record.site
    if site is None:
        return None
    here, there = math.radians(position.latitude), math.radians(site.latitude)
    east = math.radians(site.longitude - position.longitude)
    half = math.sin((there - here) / 2) ** 2
    half += math.cos(here) * math.cos(there) * math.sin(east / 2) ** 2
    return 2 * EARTH_KM * math.asin(math.sqrt(half))
