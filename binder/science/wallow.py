"""Wallows: the room a lying pig takes, and the ramp down into the water."""

from binder.science.ranges import require_not_negative, require_positive

LYING_M2 = 0.047  # times weight^0.667 [extra-11, printed there as 0.67]
LYING_POWER = 0.667


def lying_area_m2(weight_kg: float) -> float:
    """Return the ground a pig covers lying on its side [m2].

    The largest of the published areas; the safe wording is "room for all to lie at once".

    Args:
        weight_kg: Weight of the pig [kg], more than 0.

    Returns:
        Area [m2], not rounded.

    Raises:
        ValueError: The weight is not above 0.

    References:
        extra-11 (Petherick and Baxter 1981, in Pastorelli et al. 2006); 200 kg gives 1.6 m2.

    Example:
        >>> round(lying_area_m2(200.0), 1)
        1.6
    """
    require_positive(weight_kg, "weight", "kg")
    return float(LYING_M2 * weight_kg**LYING_POWER)


def ramp_length_m(depth_m: float, run_per_rise: float) -> float:
    """Return how long a ramp runs down to a depth [m].

    Args:
        depth_m: Depth of the water [m], 0 or more.
        run_per_rise: Length for one of depth, more than 0: 4 is the steepest published for
            cattle, 6 to 10 ideal.

    Returns:
        Length along the ground [m], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        wallow-71, slopes of 1 in 4 and 1 in 6 to 1 in 10.

    Example:
        1 ft deep at 1 in 4 takes 4 ft

        >>> round(ramp_length_m(0.3048, 4.0) / 0.3048, 6)
        4.0
    """
    require_not_negative(depth_m, "depth", "m")
    require_positive(run_per_rise, "run of the ramp")
    return depth_m * run_per_rise
