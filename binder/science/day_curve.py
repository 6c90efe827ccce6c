"""The day's temperature hour by hour, from its high, its low and the sun.

A sine by day and an exponential fall by night, after Parton and Logan, in the form that
reproduces the published test value of heat-66. Published sets of peak lag, minimum lag
and night decay: 1.86 h, -0.17 h, 2.20 (150 cm air, Denver); 1.52 h, -0.18 h, 2.00 (10 cm air);
2.59 h, 1.55 h, 2.20 (five sites in North Carolina) [heat-66]; 1.5 h, 1 h, 4 [heat-67].
"""

import math

from binder.clock import HOURS_IN_DAY
from binder.science.ranges import require_not_negative, require_within

SHORTEST_DAY_H = 4.0  # our choice: keeps the morning's low before solar noon
# The span of the published sets above. A farm's own hottest hour may ask for a longer peak lag,
# so that one is bounded by sunset instead.
EARLIEST_MINIMUM_LAG_H, LATEST_MINIMUM_LAG_H = -0.18, 1.55
SLOWEST_NIGHT_DECAY, FASTEST_NIGHT_DECAY = 2.0, 4.0


def _require_sun(sunrise_h: float, sunset_h: float) -> None:
    require_within(sunrise_h, 0.0, HOURS_IN_DAY, "sunrise", "h")
    require_within(sunset_h, 0.0, HOURS_IN_DAY, "sunset", "h")
    require_within(
        sunset_h - sunrise_h, SHORTEST_DAY_H, HOURS_IN_DAY, "time from sunrise to sunset", "h"
    )


def _require_peak_lag(peak_lag_h: float, sunrise_h: float, sunset_h: float) -> None:
    longest_h = (sunset_h - sunrise_h) / 2
    require_not_negative(peak_lag_h, "peak lag", "h")
    if peak_lag_h >= longest_h:
        msg = (
            f"peak lag {peak_lag_h:g} h is outside the range 0 to {longest_h:g} h: "
            "the day is hottest between solar noon and sunset"
        )
        raise ValueError(msg)


def peak_hour(sunrise_h: float, sunset_h: float, peak_lag_h: float) -> float:
    """Return the hour of the day's highest temperature [h].

    Args:
        sunrise_h: Sunrise on the local clock [h], 0 to 24.
        sunset_h: Sunset on the local clock [h], at least 4 h after sunrise, to 24.
        peak_lag_h: Time from solar noon to the highest temperature [h], 0 to less than half
            the day's length.

    Returns:
        Hour on the local clock [h], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        heat-66, heat-67: the peak falls the lag after solar noon.

    Example:
        (6.5 + 20.5) / 2 + 1.86 = 15.36

        >>> round(peak_hour(6.5, 20.5, 1.86), 2)
        15.36
    """
    _require_sun(sunrise_h, sunset_h)
    _require_peak_lag(peak_lag_h, sunrise_h, sunset_h)
    return (sunrise_h + sunset_h) / 2 + peak_lag_h


def peak_lag_for(hottest_at_h: float, sunrise_h: float, sunset_h: float) -> float:
    """Return the peak lag that puts the day's highest temperature at a farm's own hour [h].

    Args:
        hottest_at_h: Hour at which this farm is hottest [h], from solar noon until before
            sunset.
        sunrise_h: Sunrise on the local clock [h], 0 to 24.
        sunset_h: Sunset on the local clock [h], at least 4 h after sunrise, to 24.

    Returns:
        Peak lag [h], not rounded.

    Raises:
        ValueError: A number is outside its range, or the hour is not between solar noon and
            sunset.

    References:
        heat-66, solved for the lag.

    Example:
        17.5 - (6.5 + 20.5) / 2 = 4

        >>> peak_lag_for(17.5, 6.5, 20.5)
        4.0
    """
    _require_sun(sunrise_h, sunset_h)
    noon_h = (sunrise_h + sunset_h) / 2
    if not noon_h <= hottest_at_h < sunset_h:
        msg = (
            f"hottest hour {hottest_at_h:g} h is outside the range {noon_h:g} h (solar noon) "
            f"to {sunset_h:g} h (sunset)"
        )
        raise ValueError(msg)
    return hottest_at_h - noon_h


def temperature_c(
    hour: float,
    high_c: float,
    low_c: float,
    sunrise_h: float,
    sunset_h: float,
    peak_lag_h: float,
    minimum_lag_h: float,
    night_decay: float,
) -> float:
    """Return the air temperature at an hour of the day [C].

    Hours before the morning's low are the tail of the night before, worked out as if that day
    had the same values. The night curve does not quite reach the low, so a small step down
    at the low is normal.

    Args:
        hour: Hour on the local clock [h], 0 to 24.
        high_c: Highest temperature of the day [C].
        low_c: Lowest temperature of the day [C], not above the high.
        sunrise_h: Sunrise on the local clock [h], 0 to 24.
        sunset_h: Sunset on the local clock [h], at least 4 h after sunrise, to 24.
        peak_lag_h: Time from solar noon to the highest temperature [h], 0 to less than half
            the day's length.
        minimum_lag_h: Time from sunrise to the lowest temperature [h], -0.18 to 1.55
            and not above twice the peak lag; negative before sunrise.
        night_decay: How fast the night cools, without unit, 2 to 4.

    Returns:
        Temperature [C], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        heat-65 (Parton and Logan 1981), heat-66 (form, parameters and test value).

    Example:
        >>> round(temperature_c(11.0, 30.0, 10.0, 6.0, 18.0, 2.59, 1.55, 2.2), 5)
        23.91954
    """
    require_within(hour, 0.0, HOURS_IN_DAY, "hour", "h")
    _require_sun(sunrise_h, sunset_h)
    _require_peak_lag(peak_lag_h, sunrise_h, sunset_h)
    day_h = sunset_h - sunrise_h
    require_within(
        minimum_lag_h, EARLIEST_MINIMUM_LAG_H, LATEST_MINIMUM_LAG_H, "minimum lag", "h"
    )
    if minimum_lag_h > 2 * peak_lag_h:
        msg = (
            f"minimum lag {minimum_lag_h:g} h is outside the range up to {2 * peak_lag_h:g} h, "
            "twice the peak lag: the evening would fall below the low"
        )
        raise ValueError(msg)
    require_within(night_decay, SLOWEST_NIGHT_DECAY, FASTEST_NIGHT_DECAY, "night decay")
    if not low_c <= high_c:
        msg = f"low {low_c:g} C is outside its range: not above the high of {high_c:g} C"
        raise ValueError(msg)

    def by_day_c(at_h: float) -> float:
        since_low_h = at_h - sunrise_h - minimum_lag_h
        half_wave_h = day_h + 2 * (peak_lag_h - minimum_lag_h)
        return low_c + (high_c - low_c) * math.sin(math.pi * since_low_h / half_wave_h)

    if sunrise_h + minimum_lag_h <= hour <= sunset_h:
        return by_day_c(hour)
    since_sunset_h = (hour - sunset_h) % HOURS_IN_DAY
    night_h = HOURS_IN_DAY - day_h + minimum_lag_h
    fallen = math.exp(-night_decay * since_sunset_h / night_h)
    return low_c + (by_day_c(sunset_h) - low_c) * fallen
