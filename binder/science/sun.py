"""Where the sun stands: rise, set, noon, height, and the strength of a clear sky.

The one module that speaks to astral.
"""

import math
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import astral
import astral.sun

from binder.science.ranges import require_within

MOST_LATITUDE_DEG = 90.0
MOST_LONGITUDE_DEG = 180.0
HORIZON_ZENITH_DEG = 90.0
MOST_ZENITH_DEG = 180.0

# Haurwitz's clear-sky fit [water-127].
CLEAR_SKY_W_M2 = 1098.0
CLEAR_SKY_DIMMING = 0.059


def _observer(latitude: float, longitude: float) -> astral.Observer:
    require_within(latitude, -MOST_LATITUDE_DEG, MOST_LATITUDE_DEG, "latitude", "degrees")
    require_within(longitude, -MOST_LONGITUDE_DEG, MOST_LONGITUDE_DEG, "longitude", "degrees")
    return astral.Observer(latitude, longitude)


def _zone(timezone_name: str) -> ZoneInfo:
    try:
        return ZoneInfo(timezone_name)
    except (KeyError, ValueError, OSError) as error:
        msg = f'"{timezone_name}" is not a time zone; write it like America/New_York'
        raise ValueError(msg) from error


def _stays(observer: astral.Observer, day: date) -> str:
    """Return where the sun is on a day on which it neither rises nor sets."""
    highest = astral.sun.zenith(observer, astral.sun.noon(observer, day))
    return f"it stays {'up' if highest < HORIZON_ZENITH_DEG else 'down'} all day"


def sunrise(latitude: float, longitude: float, day: date, timezone_name: str) -> datetime:
    """Return the moment the sun's upper edge comes up, on the farm's own clock.

    Args:
        latitude: Latitude, north positive [degrees], -90 to 90.
        longitude: Longitude, east positive [degrees], -180 to 180.
        day: The local date.
        timezone_name: IANA name of the farm's time zone, such as `America/New_York`.

    Returns:
        Local date and time, with its time zone; good to about 2 minutes.

    Raises:
        ValueError: A coordinate is outside its range, the time zone is unknown, or the sun
            does not rise on that day (polar day or night).

    References:
        heat-69, NOAA solar position, by way of astral; heat-70, row London.

    Example:
        >>> f"{sunrise(51.51, -0.126, date(2015, 1, 1), 'UTC'):%H:%M}"
        '08:06'
    """
    observer, zone = _observer(latitude, longitude), _zone(timezone_name)
    try:
        return astral.sun.sunrise(observer, day, tzinfo=zone)
    except ValueError as error:
        stays = _stays(observer, day)
        msg = f"the sun does not rise at latitude {latitude:g} on {day:%Y-%m-%d}: {stays}"
        raise ValueError(msg) from error


def sunset(latitude: float, longitude: float, day: date, timezone_name: str) -> datetime:
    """Return the moment the sun's upper edge goes down, on the farm's own clock.

    Args:
        latitude: Latitude, north positive [degrees], -90 to 90.
        longitude: Longitude, east positive [degrees], -180 to 180.
        day: The local date.
        timezone_name: IANA name of the farm's time zone, such as `America/New_York`.

    Returns:
        Local date and time, with its time zone; good to about 2 minutes.

    Raises:
        ValueError: A coordinate is outside its range, the time zone is unknown, or the sun
            does not set on that day (polar day or night).

    References:
        heat-69, NOAA solar position, by way of astral; heat-70, row London.

    Example:
        >>> f"{sunset(51.51, -0.126, date(2015, 1, 1), 'UTC'):%H:%M}"
        '16:01'
    """
    observer, zone = _observer(latitude, longitude), _zone(timezone_name)
    try:
        return astral.sun.sunset(observer, day, tzinfo=zone)
    except ValueError as error:
        stays = _stays(observer, day)
        msg = f"the sun does not set at latitude {latitude:g} on {day:%Y-%m-%d}: {stays}"
        raise ValueError(msg) from error


def solar_noon(latitude: float, longitude: float, day: date, timezone_name: str) -> datetime:
    """Return the moment the sun stands highest, on the farm's own clock.

    Args:
        latitude: Latitude, north positive [degrees], -90 to 90.
        longitude: Longitude, east positive [degrees], -180 to 180.
        day: The local date.
        timezone_name: IANA name of the farm's time zone, such as `America/New_York`.

    Returns:
        Local date and time, with its time zone; good to about 2 minutes.

    Raises:
        ValueError: A coordinate is outside its range or the time zone is unknown.

    References:
        heat-69, NOAA solar position, by way of astral; heat-70, row London.

    Example:
        >>> f"{solar_noon(51.51, -0.126, date(2015, 12, 1), 'UTC'):%H:%M}"
        '11:49'
    """
    observer, zone = _observer(latitude, longitude), _zone(timezone_name)
    # astral counts the day in UTC; near the date line that is the local day before or after.
    counted = astral.sun.noon(observer, day, tzinfo=zone)
    return astral.sun.noon(observer, day + (day - counted.date()), tzinfo=zone)


def zenith_deg(latitude: float, longitude: float, moment: datetime) -> float:
    """Return the angle of the sun from straight overhead [degrees].

    Args:
        latitude: Latitude, north positive [degrees], -90 to 90.
        longitude: Longitude, east positive [degrees], -180 to 180.
        moment: Date and time with its time zone.

    Returns:
        Apparent zenith angle, bending of light in the air included [degrees], 0 overhead,
        above 90 when the sun is down.

    Raises:
        ValueError: A coordinate is outside its range or the moment has no time zone.

    References:
        heat-69, NOAA solar position, by way of astral.

    Example:
        On the equator at an equinox the noon sun is overhead.

        >>> noon = solar_noon(0.0, 0.0, date(2024, 3, 20), "UTC")
        >>> round(zenith_deg(0.0, 0.0, noon))
        0
    """
    observer = _observer(latitude, longitude)
    if moment.tzinfo is None:
        msg = f"the moment {moment:%Y-%m-%d %H:%M} needs a time zone"
        raise ValueError(msg)
    return astral.sun.zenith(observer, moment.astimezone(UTC))


def clear_sky_w_m2(zenith_deg: float) -> float:
    """Return the sun on a level surface under a clear sky [W/m2].

    Args:
        zenith_deg: Angle of the sun from straight overhead [degrees], 0 to 180.

    Returns:
        Sun [W/m2], not rounded; 0 when the sun is at or below the horizon.

    Raises:
        ValueError: The angle is outside 0 to 180 degrees.

    References:
        water-127, Haurwitz 1945: 1098 cos z exp(-0.059 / cos z).

    Example:
        >>> round(clear_sky_w_m2(15.0)), round(clear_sky_w_m2(30.0))
        (998, 888)
    """
    require_within(zenith_deg, 0.0, MOST_ZENITH_DEG, "zenith angle", "degrees")
    if zenith_deg >= HORIZON_ZENITH_DEG:
        return 0.0
    height = math.cos(math.radians(zenith_deg))
    return CLEAR_SKY_W_M2 * height * math.exp(-CLEAR_SKY_DIMMING / height)
