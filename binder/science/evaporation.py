"""Water lost from a surface to the air."""

from binder.science.ranges import require_not_negative


def surface_loss_l_per_day(area_m2: float, rate_mm_per_day: float) -> float:
    """Return the water a surface loses in a day [L/day].

    A millimetre off a square metre is a litre.

    Args:
        area_m2: Open water [m2], 0 or more.
        rate_mm_per_day: Loss [mm/day], 0 or more; 6.35 to 12.7 in hot, dry, windy spells.

    Returns:
        Loss [L/day], not rounded.

    Raises:
        ValueError: A number is negative.

    References:
        Arithmetic; rates water-114. An 8 ft tank at 0.5 in loses 15.7 gal
        (derived).

    Example:
        >>> round(surface_loss_l_per_day(4.6698, 12.7) / 3.785411784, 1)
        15.7
    """
    require_not_negative(area_m2, "area", "m2")
    require_not_negative(rate_mm_per_day, "loss", "mm/day")
    return area_m2 * rate_mm_per_day
