"""Sunrise, noon and sunset on the farm's own clock, and where a day has none (step 3)."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from binder.clock import HOURS_IN_DAY, MINUTES_IN_HOUR
from binder.problems import Place, Problem, ProblemsError
from binder.science import day_curve, sun

# Our choice, on the safe side: up to here the sun rises and sets on one date all year round.
FARTHEST_LATITUDE_DEG = 60
# Our choice: by a farm's own clock the sun stands highest between these hours [h].
EARLIEST_NOON_H, LATEST_NOON_H = 9, 16


@dataclass(frozen=True, slots=True)
class Position:
    """Where the farm lies: degrees, north and east positive, and the name of its time zone."""

    latitude: float
    longitude: float
    timezone: str

    def on(self, date: dt.date) -> tuple[float, float, dt.date, str]:
        """Return what the functions of `science.sun` ask for."""
        return self.latitude, self.longitude, date, self.timezone


@dataclass(frozen=True, slots=True)
class SunTimes:
    """Sunrise, solar noon and sunset as hours since midnight on the local clock [h]."""

    sunrise_h: float
    noon_h: float
    sunset_h: float


class NoDayError(ProblemsError, ValueError):
    """A place where a date has no day to draw: a problem of the farm wherever it is met.

    Attributes:
        field: what to look at, `latitude` or `timezone`.
        read: what stands there.
    """

    def __init__(self, message: str, field: str, read: str) -> None:
        """Keep what was read apart from what is wrong with it; a later step adds the line."""
        self.message = message
        self.field = field
        self.read = read
        path = f"place > {field}"
        super().__init__([Problem(Place("farm.yaml"), path, f'"{read}": {message}')])

    def __str__(self) -> str:
        """Return it for somebody who typed the place, and has no farm file."""
        return f"{self.field} {self.read}: {self.message}"


def clock(hour: float) -> str:
    """Return hours since midnight as `06:42`, to the nearest minute."""
    minutes = round(hour * MINUTES_IN_HOUR) % (HOURS_IN_DAY * MINUTES_IN_HOUR)
    return f"{minutes // MINUTES_IN_HOUR:02d}:{minutes % MINUTES_IN_HOUR:02d}"


def sun_times(position: Position, on: dt.date) -> SunTimes:
    """Return sunrise, solar noon and sunset on the local clock.

    Raises:
        ValueError: a coordinate out of range, an unknown time zone, or a day without sunrise.

    References:
        heat-69 (NOAA solar position).
    """
    where = position.on(on)
    midnight = dt.datetime.combine(on, dt.time())
    rise, noon, fall = (
        (moment.replace(tzinfo=None) - midnight) / dt.timedelta(hours=1)
        for moment in (sun.sunrise(*where), sun.solar_noon(*where), sun.sunset(*where))
    )
    return SunTimes(rise, noon, fall)


def day_times(position: Position, on: dt.date) -> SunTimes:
    """Return the sun's times where a day can be drawn between them.

    Raises:
        NoDayError: there is no sunrise or no sunset, or they are not in order on that date.
        ValueError: a coordinate out of range or an unknown time zone.
    """
    try:
        times = sun_times(position, on)
    except ValueError as error:
        noon = sun.solar_noon(*position.on(on))  # raises itself where the place is at fault
        raise _no_day(position, noon.hour, str(error)) from error
    if times.sunset_h - times.sunrise_h < day_curve.SHORTEST_DAY_H:
        up, down = clock(times.sunrise_h), clock(times.sunset_h)
        said = f"on {on} the sun rises at {up} and sets at {down}"
        raise _no_day(position, times.noon_h, said)
    return times


def _no_day(position: Position, noon_h: float, said: str) -> NoDayError:
    """Return what is wrong: the time zone where noon is at an odd hour, else the latitude."""
    if not EARLIEST_NOON_H <= noon_h <= LATEST_NOON_H:
        message = f"{said}; expected a time zone by whose clock that is a day"
        return NoDayError(message, "timezone", position.timezone)
    hours, far = f"{day_curve.SHORTEST_DAY_H:g} h", FARTHEST_LATITUDE_DEG
    message = (
        f"{said}; expected a latitude from -{far} to {far}, where it rises and, {hours} later "
        "or more, sets on one date; without latitude and longitude no day is drawn by the hour"
    )
    return NoDayError(message, "latitude", f"{position.latitude:g}")
