"""Bleach and peroxide: strengths, doses and dilutions.

Every result is a dose before the water takes its share, so what stays is always lower; a strip
decides, never this arithmetic. The product label is the law on use.
"""

from binder.science.ranges import require_not_negative, require_positive, require_within

NAOCL_PER_CL2 = 1.05  # weight of NaOCl for the same available chlorine [wallow-10]
MG_L_PER_PCT = 10_000.0  # 1 % weight in volume is 10 g in a litre, by definition
FULL_PCT = 100.0

# Labels: 12.5 % by weight is the strongest sold [wallow-8]; it is 14.2 trade % (142 g/L).
STRONGEST_WT_PCT = 12.5
STRONGEST_TRADE_PCT = 15.0  # our choice, just above that
HEAVIEST_BLEACH_SG = 1.2  # just above the 1.196 of that product [wallow-8]
STRONGEST_PEROXIDE_PCT = 70.0  # industrial [wallow-43]
HEAVIEST_PEROXIDE_SG = 1.3  # about the density at that strength, from memory
WATER_SG = 1.0


def _require_trade(trade_pct: float) -> None:
    require_positive(trade_pct, "trade strength", "%")
    require_within(trade_pct, 0.0, STRONGEST_TRADE_PCT, "trade strength", "%")


def _require_weight_pct(wt_pct: float) -> None:
    require_positive(wt_pct, "strength by weight", "%")
    require_within(wt_pct, 0.0, STRONGEST_WT_PCT, "strength by weight", "%")


def _require_dilution(strength_pct: float, wanted_pct: float) -> None:
    require_positive(wanted_pct, "wanted strength", "%")
    require_within(strength_pct, wanted_pct, FULL_PCT, "product strength", "%")


def available_chlorine_wt_pct(wt_pct: float) -> float:
    """Return the available chlorine of a bleach by weight [%].

    Args:
        wt_pct: Sodium hypochlorite by weight, as household labels print it [%], above 0 to
            12.5.

    Returns:
        Available chlorine by weight [%], not rounded.

    Raises:
        ValueError: The strength is outside its range.

    References:
        wallow-8, wallow-10: weight % NaOCl / 1.05.

    Example:
        >>> round(available_chlorine_wt_pct(6.0), 2)
        5.71
    """
    _require_weight_pct(wt_pct)
    return wt_pct / NAOCL_PER_CL2


def trade_pct(wt_pct: float, specific_gravity: float) -> float:
    """Return the trade strength of a bleach: available chlorine, weight in volume [%].

    Args:
        wt_pct: Sodium hypochlorite by weight [%], above 0 to 12.5.
        specific_gravity: Weight of the product over that of as much water, 1.0 to 1.2.

    Returns:
        Trade strength [%]; ten times that is g/L. Not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        wallow-8: available chlorine by weight x specific gravity.

    Example:
        >>> round(trade_pct(6.0, 1.08), 2)
        6.17
    """
    require_within(specific_gravity, WATER_SG, HEAVIEST_BLEACH_SG, "specific gravity")
    return available_chlorine_wt_pct(wt_pct) * specific_gravity


def free_chlorine_mg_l(trade_pct: float, bleach_l: float, water_l: float) -> float:
    """Return the free chlorine in water just after bleach is mixed in [mg/L].

    Args:
        trade_pct: Trade strength of the bleach [%], above 0 to 15.
        bleach_l: Bleach poured in [L], 0 or more.
        water_l: Water before the bleach [L], more than 0.

    Returns:
        Free chlorine before any demand [mg/L, the same as ppm], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        wallow-8, wallow-10: definition of trade strength, mixed volume (derived).

    Example:
        10000 x 6 x 1 / (1 + 99) = 600

        >>> free_chlorine_mg_l(6.0, 1.0, 99.0)
        600.0
    """
    _require_trade(trade_pct)
    require_not_negative(bleach_l, "bleach", "L")
    require_positive(water_l, "water", "L")
    return MG_L_PER_PCT * trade_pct * bleach_l / (bleach_l + water_l)


def bleach_for_target_l(trade_pct: float, target_mg_l: float, water_l: float) -> float:
    """Return the bleach that brings clean water to a target [L].

    Args:
        trade_pct: Trade strength of the bleach [%], above 0 to 15.
        target_mg_l: Wanted free chlorine before any demand [mg/L], 0 up to less than the
            bleach itself holds.
        water_l: Water before the bleach [L], more than 0.

    Returns:
        Bleach [L], not rounded.

    Raises:
        ValueError: A number is outside its range, or the target is stronger than the bleach.

    References:
        Inverse of `free_chlorine_mg_l` (derived from wallow-8, wallow-10).

    Example:
        600 x 99 / (10000 x 6 - 600) = 1

        >>> bleach_for_target_l(6.0, 600.0, 99.0)
        1.0
    """
    _require_trade(trade_pct)
    require_not_negative(target_mg_l, "target", "mg/L")
    require_positive(water_l, "water", "L")
    held_mg_l = MG_L_PER_PCT * trade_pct
    if target_mg_l >= held_mg_l:
        msg = (
            f"target {target_mg_l:g} mg/L is outside the range 0 to less than "
            f"{held_mg_l:g} mg/L, the strength of the bleach itself"
        )
        raise ValueError(msg)
    return water_l * target_mg_l / (held_mg_l - target_mg_l)


def parts_water(strength_pct: float, wanted_pct: float) -> float:
    """Return the parts of water to one part of bleach.

    Args:
        strength_pct: Strength of the bleach [%], from the wanted strength to 100.
        wanted_pct: Strength wanted [%], more than 0.

    Returns:
        Parts of water to one part of bleach, not rounded.

    Raises:
        ValueError: A strength is outside its range.

    References:
        wallow-1 (CDC): strength / wanted - 1.

    Example:
        >>> parts_water(3.5, 0.5)
        6.0
    """
    _require_dilution(strength_pct, wanted_pct)
    return strength_pct / wanted_pct - 1


def peroxide_mg_l(
    pct: float, specific_gravity: float, product_l: float, water_l: float
) -> float:
    """Return the hydrogen peroxide in water just after it is mixed in [mg/L].

    Args:
        pct: Hydrogen peroxide by weight [%], above 0 to 70; household is about 3.
        specific_gravity: Weight of the product over that of as much water, 1.0 to 1.3.
        product_l: Product poured in [L], 0 or more.
        water_l: Water before the product [L], more than 0.

    Returns:
        Hydrogen peroxide [mg/L], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        Derived; strengths wallow-43.

    Example:
        10000 x 3 x 1.01 x 1 / (1 + 99) = 303

        >>> round(peroxide_mg_l(3.0, 1.01, 1.0, 99.0), 6)
        303.0
    """
    require_positive(pct, "peroxide strength", "%")
    require_within(pct, 0.0, STRONGEST_PEROXIDE_PCT, "peroxide strength", "%")
    require_within(specific_gravity, WATER_SG, HEAVIEST_PEROXIDE_SG, "specific gravity")
    require_not_negative(product_l, "product", "L")
    require_positive(water_l, "water", "L")
    return MG_L_PER_PCT * pct * specific_gravity * product_l / (product_l + water_l)
