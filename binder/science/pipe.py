"""Hoses and pipes: what they hold and what pressure they lose."""

import math

from binder.clock import SECONDS_IN_MINUTE
from binder.science.ranges import require_not_negative, require_positive, require_within

# Units, by definition.
MM_PER_M = 1000.0
L_PER_M3 = 1000.0
L_PER_US_GAL = 3.785411784
MM_PER_IN = 25.4
M_PER_FT = 0.3048
KPA_PER_PSI = 6.894757293168
SHEET_LENGTH_FT = 100.0  # losses are tabled per 100 ft

# Hazen-Williams in psi per foot, US gallons a minute and inches [water-76].
HAZEN_WILLIAMS_PSI_FT = 4.52
HAZEN_WILLIAMS_FLOW_POWER = 1.852
HAZEN_WILLIAMS_BORE_POWER = 4.871
ROUGHEST_C = 120.0  # old steel [water-76]
SMOOTHEST_C = 150.0  # plastic [water-76]


def held_volume_l(inside_mm: float, length_m: float) -> float:
    """Return the water standing in a hose or pipe [L].

    Args:
        inside_mm: Inside diameter [mm], more than 0.
        length_m: Length [m], 0 or more.

    Returns:
        Volume [L], not rounded.

    Raises:
        ValueError: The diameter is not above 0, or the length is negative.

    References:
        Geometry; water-75 prints 0.8 gal (3.0 L) for 50 ft of 5/8 in.

    Example:
        >>> round(held_volume_l(15.875, 15.24), 1)
        3.0
    """
    require_positive(inside_mm, "inside diameter", "mm")
    require_not_negative(length_m, "length", "m")
    bore_m = inside_mm / MM_PER_M
    return math.pi / 4 * bore_m**2 * length_m * L_PER_M3


def flush_time_s(held_l: float, flow_l_min: float, volumes: float) -> float:
    """Return how long to run a hose so that its water is replaced [s].

    The hose wall and the ground are hot too: run to a thermometer reading, not to the clock.

    Args:
        held_l: Water standing in the hose [L], 0 or more.
        flow_l_min: Flow at the open end [L/min], more than 0.
        volumes: How many times the held water is run out, more than 0.

    Returns:
        Time [s], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        Arithmetic; 1.59 gal at 5 gal/min, 1.5 volumes, takes 29 s (derived).

    Example:
        60 x 6 L x 1.5 / 18 L/min = 30 s

        >>> flush_time_s(6.0, 18.0, 1.5)
        30.0
    """
    require_not_negative(held_l, "held water", "L")
    require_positive(flow_l_min, "flow", "L/min")
    require_positive(volumes, "number of volumes")
    return SECONDS_IN_MINUTE * held_l * volumes / flow_l_min


def pressure_loss_psi_100ft(flow_gpm: float, inside_in: float, c: float) -> float:
    """Return the pressure lost in 100 ft of hose [psi].

    Args:
        flow_gpm: Flow [US gal/min], 0 or more.
        inside_in: Inside diameter [in], more than 0.
        c: Hazen-Williams coefficient, without unit, 120 (old steel) to 150 (plastic); 140 for
            hose, to be careful.

    Returns:
        Loss [psi per 100 ft], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        water-76, Hazen-Williams: 4.52 Q^1.852 / (C^1.852 d^4.871) psi per foot; water-74 reads
        5 psi for 2 gal/min in 1/2 in.

    Example:
        >>> round(pressure_loss_psi_100ft(2.0, 0.5, 140.0), 2)
        5.06
    """
    require_not_negative(flow_gpm, "flow", "gal/min")
    require_positive(inside_in, "inside diameter", "in")
    require_within(c, ROUGHEST_C, SMOOTHEST_C, "Hazen-Williams coefficient")
    per_foot = (
        HAZEN_WILLIAMS_PSI_FT
        * (flow_gpm / c) ** HAZEN_WILLIAMS_FLOW_POWER
        / inside_in**HAZEN_WILLIAMS_BORE_POWER
    )
    return float(per_foot * SHEET_LENGTH_FT)


def pressure_loss_kpa(flow_l_min: float, inside_mm: float, length_m: float, c: float) -> float:
    """Return the pressure lost along a hose [kPa].

    Args:
        flow_l_min: Flow [L/min], 0 or more.
        inside_mm: Inside diameter [mm], more than 0.
        length_m: Length [m], 0 or more.
        c: Hazen-Williams coefficient, without unit, 120 to 150.

    Returns:
        Loss [kPa], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        water-76, as `pressure_loss_psi_100ft`.

    Example:
        2 gal/min, 1/2 in, 100 ft in metric units: 5.06 psi x 6.895 = 34.9 kPa

        >>> round(pressure_loss_kpa(7.5708, 12.7, 30.48, 140.0), 1)
        34.9
    """
    require_not_negative(length_m, "length", "m")
    psi_100ft = pressure_loss_psi_100ft(flow_l_min / L_PER_US_GAL, inside_mm / MM_PER_IN, c)
    return psi_100ft * KPA_PER_PSI * length_m / (SHEET_LENGTH_FT * M_PER_FT)
