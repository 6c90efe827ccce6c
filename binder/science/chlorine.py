"""Bleach and peroxide: strengths, doses, dilutions, decay and demand.

Every result is a dose before the water takes its share, so what stays is always lower; a strip
decides, never this arithmetic. The product label is the law on use.
"""

import math

from binder.science.ranges import require_not_negative, require_positive, require_within

NAOCL_PER_CL2 = 1.05  # weight of NaOCl for the same available chlorine [wallow-10]
MG_L_PER_PCT = 10_000.0  # 1 % weight in volume is 10 g in a litre, by definition
G_PER_L = 1000.0  # a litre of water weighs 1000 g, as the recipes take it [wallow-1]
FULL_PCT = 100.0

# Labels: 12.5 % by weight is the strongest sold [wallow-8]; it is 14.2 trade % (142 g/L).
STRONGEST_WT_PCT = 12.5
STRONGEST_TRADE_PCT = 15.0  # our choice, just above that
HEAVIEST_BLEACH_SG = 1.2  # just above the 1.196 of that product [wallow-8]
STRONGEST_PEROXIDE_PCT = 70.0  # industrial [wallow-43]
HEAVIEST_PEROXIDE_SG = 1.3  # about the density at that strength, from memory
WATER_SG = 1.0

# Sunlight on clear water at the surface, summer noon at 47 N [wallow-27].
HOCL_PER_S = 2e-4
OCL_PER_S = 1.2e-3
LOWEST_SUN_PH, HIGHEST_SUN_PH = 5.0, 8.0  # the two ends that were measured
HOCL_PKA = 7.5  # from memory, but it reproduces the 12 min at pH 8 [wallow-27]
LOWEST_PKA, HIGHEST_PKA = 7.4, 7.6  # our choice: the spread met in handbooks, from memory
S_PER_MIN = 60.0

# Breakpoint, chlorine to ammonia nitrogen by weight: theory to the top of practice [wallow-30].
LOWEST_DEMAND_RATIO, HIGHEST_DEMAND_RATIO = 7.6, 15.0


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


def free_chlorine_shortcut_mg_l(label_pct: float, bleach: float, water: float) -> float:
    """Return the free chlorine as most public tables work it out [mg/L].

    It takes the label for weight in volume and the mix for the water alone. For household
    bleach it reads 2 to 6 % low. It also serves for powder, with kg of powder for `bleach`
    and litres for `water`.

    Args:
        label_pct: Strength on the label [%], above 0 to 100.
        bleach: Product, in the unit of `water`, 0 or more.
        water: Water, in any unit of volume, more than 0.

    Returns:
        Free chlorine before any demand [mg/L, the same as ppm], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        Label taken as weight in volume; wallow-22: 1 gal of 5.25 % in 17,500 gal is 3 ppm.

    Example:
        >>> free_chlorine_shortcut_mg_l(5.25, 1.0, 17500.0)
        3.0
    """
    require_positive(label_pct, "label strength", "%")
    require_within(label_pct, 0.0, FULL_PCT, "label strength", "%")
    require_not_negative(bleach, "product")
    require_positive(water, "water")
    return MG_L_PER_PCT * label_pct * bleach / water


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


def powder_g_per_l(strength_pct: float, wanted_pct: float) -> float:
    """Return the chlorine powder for a litre of water [g/L].

    Args:
        strength_pct: Available chlorine of the powder [%], from the wanted strength to 100.
        wanted_pct: Strength wanted [%], more than 0.

    Returns:
        Powder [g] for each litre of water, not rounded.

    Raises:
        ValueError: A strength is outside its range.

    References:
        wallow-1 (CDC): wanted / strength x 1000.

    Example:
        >>> round(powder_g_per_l(35.0, 0.5), 1)
        14.3
    """
    _require_dilution(strength_pct, wanted_pct)
    return wanted_pct / strength_pct * G_PER_L


def half_life_remaining(start_mg_l: float, elapsed_min: float, half_life_min: float) -> float:
    """Return what is left after a time of steady decay [mg/L].

    Args:
        start_mg_l: Concentration at the start [mg/L], 0 or more.
        elapsed_min: Time gone by [min], 0 or more.
        half_life_min: Half-life [min], more than 0.

    Returns:
        Concentration left [mg/L], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        Arithmetic of decay; half-lives wallow-27.

    Example:
        10 mg/L after two half-lives

        >>> half_life_remaining(10.0, 24.0, 12.0)
        2.5
    """
    require_not_negative(start_mg_l, "concentration", "mg/L")
    require_not_negative(elapsed_min, "time", "min")
    require_positive(half_life_min, "half-life", "min")
    return float(start_mg_l * 2 ** (-elapsed_min / half_life_min))


def minutes_to_reach(start_mg_l: float, target_mg_l: float, half_life_min: float) -> float:
    """Return how long steady decay takes down to a target [min].

    Args:
        start_mg_l: Concentration at the start [mg/L], more than 0.
        target_mg_l: Concentration to reach [mg/L], more than 0.
        half_life_min: Half-life [min], more than 0.

    Returns:
        Time [min], not rounded; 0 when the start is at or below the target.

    Raises:
        ValueError: A number is outside its range.

    References:
        Arithmetic of decay; 10 to 1 ppm at a half-life of 12 min [wallow-27] takes 40 min
        (derived).

    Example:
        >>> round(minutes_to_reach(10.0, 1.0, 12.0))
        40
    """
    require_positive(start_mg_l, "concentration", "mg/L")
    require_positive(target_mg_l, "target", "mg/L")
    require_positive(half_life_min, "half-life", "min")
    return max(0.0, half_life_min * math.log2(start_mg_l / target_mg_l))


def mixed_photolysis_half_life_min(ph: float, pka: float = HOCL_PKA) -> float:
    """Return the half-life of free chlorine in full summer sun [min].

    Clear water at the surface, summer noon: mud and depth shield chlorine, so the true time is
    longer. Never a reason to let animals in without a strip.

    Args:
        ph: pH of the water, 5 to 8, the two ends that were measured.
        pka: pH at which half of the chlorine is hypochlorite, 7.4 to 7.6.

    Returns:
        Half-life [min], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        wallow-27, Nowell and Hoigne 1992: 12 min at pH 8, 60 min at pH 5.

    Example:
        >>> round(mixed_photolysis_half_life_min(8.0))
        12
    """
    require_within(ph, LOWEST_SUN_PH, HIGHEST_SUN_PH, "pH")
    require_within(pka, LOWEST_PKA, HIGHEST_PKA, "pKa")
    hypochlorite = 1 / (1 + 10 ** (pka - ph))
    per_s = HOCL_PER_S * (1 - hypochlorite) + OCL_PER_S * hypochlorite
    return float(math.log(2) / per_s / S_PER_MIN)


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


def demand_mg_l(ammonia_n_mg_l: float, ratio: float) -> float:
    """Return the chlorine that ammonia uses up before any stays free [mg/L].

    Args:
        ammonia_n_mg_l: Ammonia nitrogen [mg/L], 0 or more.
        ratio: Chlorine to ammonia nitrogen by weight, 7.6 (theory) to 15 (top of practice).

    Returns:
        Chlorine demand [mg/L], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        wallow-30, breakpoint.

    Example:
        1 g of ammonia nitrogen in 100 gal (379 L) is 2.64 mg/L

        >>> round(demand_mg_l(2.64, 7.6)), round(demand_mg_l(2.64, 15.0))
        (20, 40)
    """
    require_not_negative(ammonia_n_mg_l, "ammonia nitrogen", "mg/L")
    require_within(ratio, LOWEST_DEMAND_RATIO, HIGHEST_DEMAND_RATIO, "demand ratio")
    return ammonia_n_mg_l * ratio
