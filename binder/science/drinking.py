"""Drinkers and stored water: flows, hours of reserve, trips with a tank."""

import math

from binder.clock import HOURS_IN_DAY, SECONDS_IN_MINUTE
from binder.science.ranges import require_not_negative, require_positive

# Nipple flow for broilers [water-44].
NIPPLE_ML_MIN_PER_WEEK = 7.0
NIPPLE_ML_MIN_AT_HATCH = 20.0


def flow_l_min(caught_l: float, seconds: float) -> float:
    """Return the flow of a drinker from what was caught in a cup [L/min].

    Args:
        caught_l: Water caught [L], 0 or more.
        seconds: Time it ran [s], more than 0.

    Returns:
        Flow [L/min], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        water-14: open the drinker for 30 s into a cup and double it.

    Example:
        >>> flow_l_min(0.25, 30.0)
        0.5
    """
    require_not_negative(caught_l, "water caught", "L")
    require_positive(seconds, "time", "s")
    return caught_l / seconds * SECONDS_IN_MINUTE


def nipple_flow_ml_min(age_weeks: float) -> float:
    """Return the least flow of a nipple for broilers [mL/min].

    Args:
        age_weeks: Age of the birds [weeks], 0 or more.

    Returns:
        Flow [mL/min], not rounded.

    Raises:
        ValueError: The age is negative.

    References:
        water-44: 7 x age in weeks + 20.

    Example:
        >>> nipple_flow_ml_min(8.0)
        76.0
    """
    require_not_negative(age_weeks, "age", "weeks")
    return NIPPLE_ML_MIN_PER_WEEK * age_weeks + NIPPLE_ML_MIN_AT_HATCH


def reserve_h(stored_l: float, demand_l_per_day: float) -> float:
    """Return how long stored water lasts [h].

    Args:
        stored_l: Water stored [L], 0 or more.
        demand_l_per_day: Use [L/day], more than 0.

    Returns:
        Time [h], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        Arithmetic.

    Example:
        Half a day's need lasts 12 h

        >>> reserve_h(50.0, 100.0)
        12.0
    """
    require_not_negative(stored_l, "stored water", "L")
    require_positive(demand_l_per_day, "demand", "L/day")
    return stored_l / demand_l_per_day * HOURS_IN_DAY


def trips(needed_l: float, holds_l: float) -> int:
    """Return how often a tank is driven to bring so much water [trips].

    Args:
        needed_l: Water needed [L], 0 or more.
        holds_l: What the tank holds [L], more than 0.

    Returns:
        Trips, rounded up.

    Raises:
        ValueError: A number is outside its range.

    References:
        Arithmetic.

    Example:
        >>> trips(1000.0, 300.0)
        4
    """
    require_not_negative(needed_l, "water needed", "L")
    require_positive(holds_l, "tank", "L")
    return math.ceil(needed_l / holds_l)
