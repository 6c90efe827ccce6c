"""How the sun heats the water in hoses and pipes.

The temperatures are a model, a heat balance with one film coefficient for convection and
long-wave radiation together (derived from water-77 and water-78); measured hoses agree within
about 3 C.
"""

import math

from binder.clock import SECONDS_IN_MINUTE
from binder.science.ranges import require_not_negative, require_positive, require_within

# Units, by definition.
MM_PER_M = 1000.0
L_PER_M3 = 1000.0

# Water, from memory: 1 kg a litre and 4186 J to warm a kilogram by 1 C, as in any handbook.
WATER_KG_L = 1.0
WATER_J_KG_K = 4186.0
WATER_J_M3_K = WATER_J_KG_K * WATER_KG_L * L_PER_M3

# Film coefficients: 12 in still air, 15, 20 in a breeze. Convection of 6 to 10 [water-78] and
# about 6 for long-wave radiation, from memory; the span is our choice.
STILLEST_FILM_W_M2K = 12.0
BREEZIEST_FILM_W_M2K = 20.0
SUNNIEST_W_M2 = 1400.0  # our choice: just above the sun outside the air
# Our choice: the air of any farm, frost too, where the balance says that nothing gets warm;
# water short of boiling.
COLDEST_C, HOTTEST_C = -60.0, 100.0


def _require_film(film_w_m2k: float) -> None:
    require_within(
        film_w_m2k, STILLEST_FILM_W_M2K, BREEZIEST_FILM_W_M2K, "film coefficient", "W/m2K"
    )


def _require_temperature(temp_c: float, quantity: str) -> None:
    require_within(temp_c, COLDEST_C, HOTTEST_C, quantity, "C")


def still_water_c(air_c: float, absorbed: float, sun_w_m2: float, film_w_m2k: float) -> float:
    """Return the temperature still water in a hose ends at in the sun [C].

    The sun strikes one diameter and the whole circumference sheds heat, hence sun over pi.

    Args:
        air_c: Air temperature [C], -60 to 100.
        absorbed: Share of the sun that the surface takes up, 0 to 1: 0.9 black, 0.85 green,
            blue, red or brown, 0.66 dirty white.
        sun_w_m2: Sun on the hose [W/m2], 0 to 1400; about 1000 at a clear summer noon.
        film_w_m2k: Film coefficient [W/m2K], 12 (still air) to 20 (breeze); 15 if unknown.

    Returns:
        Temperature [C], not rounded; a model, good to about 3 C.

    Raises:
        ValueError: A number is outside its range.

    References:
        water-77 (sol-air form), water-125 and water-126 (share absorbed), water-78 (film);
        water-71 measured above 120 F (49 C) at 90 F (32 C).

    Example:
        32 + 0.9 x 1000 / (3.14159 x 15) = 51.1

        >>> round(still_water_c(32.0, 0.9, 1000.0, 15.0), 1)
        51.1
    """
    _require_temperature(air_c, "air temperature")
    require_within(absorbed, 0.0, 1.0, "share of sun absorbed")
    require_within(sun_w_m2, 0.0, SUNNIEST_W_M2, "sun", "W/m2")
    _require_film(film_w_m2k)
    return air_c + absorbed * sun_w_m2 / (math.pi * film_w_m2k)


def time_constant_s(inside_mm: float, outside_mm: float, film_w_m2k: float) -> float:
    """Return the time in which still water makes 63 % of its way to its end temperature [s].

    Args:
        inside_mm: Inside diameter [mm], more than 0.
        outside_mm: Outside diameter [mm], at least the inside diameter.
        film_w_m2k: Film coefficient [W/m2K], 12 to 20.

    Returns:
        Time constant [s], not rounded; 95 % of the way takes three of them.

    Raises:
        ValueError: A number is outside its range.

    References:
        Derived: water's heat x inside^2 / (4 x film x outside).

    Example:
        4186000 x 0.015875^2 / (4 x 15 x 0.0215) = 817.8 s, about 14 min for 5/8 in

        >>> round(time_constant_s(15.875, 21.5, 15.0), 1)
        817.8
    """
    require_positive(inside_mm, "inside diameter", "mm")
    require_within(outside_mm, inside_mm, math.inf, "outside diameter", "mm")
    _require_film(film_w_m2k)
    bore_m, outside_m = inside_mm / MM_PER_M, outside_mm / MM_PER_M
    return WATER_J_M3_K * bore_m**2 / (4 * film_w_m2k * outside_m)


def water_after_c(
    start_c: float, equilibrium_c: float, elapsed_s: float, time_constant_s: float
) -> float:
    """Return the temperature of still water some time after a flush [C].

    Args:
        start_c: Temperature after the flush [C], -60 to 100.
        equilibrium_c: Temperature it ends at [C], -60 to 100.
        elapsed_s: Time since the flush [s], 0 or more.
        time_constant_s: Time constant of the hose [s], more than 0.

    Returns:
        Temperature [C], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        Derived: first-order approach, 95 % of the rise in three time constants.

    Example:
        50 - 30 / e = 38.96

        >>> round(water_after_c(20.0, 50.0, 600.0, 600.0), 2)
        38.96
    """
    _require_temperature(start_c, "start temperature")
    _require_temperature(equilibrium_c, "end temperature")
    require_not_negative(elapsed_s, "time since the flush", "s")
    require_positive(time_constant_s, "time constant", "s")
    return equilibrium_c + (start_c - equilibrium_c) * math.exp(-elapsed_s / time_constant_s)


def seconds_until_c(
    start_c: float, limit_c: float, equilibrium_c: float, time_constant_s: float
) -> float:
    """Return how long still water takes to warm up to a limit [s].

    Args:
        start_c: Temperature after the flush [C], -60 to 100.
        limit_c: Temperature at which it is too warm [C], -60 to 100.
        equilibrium_c: Temperature it ends at [C], -60 to 100.
        time_constant_s: Time constant of the hose [s], more than 0.

    Returns:
        Time [s], not rounded: 0 when it starts at or above the limit, infinity when it ends
        at or below it.

    Raises:
        ValueError: A number is outside its range.

    References:
        Derived: `water_after_c` solved for the time.

    Example:
        600 x ln(30 / 15) = 415.9

        >>> round(seconds_until_c(20.0, 35.0, 50.0, 600.0), 1)
        415.9
    """
    _require_temperature(start_c, "start temperature")
    _require_temperature(limit_c, "limit")
    _require_temperature(equilibrium_c, "end temperature")
    require_positive(time_constant_s, "time constant", "s")
    if start_c >= limit_c:
        return 0.0
    if equilibrium_c <= limit_c:
        return math.inf
    return time_constant_s * math.log((equilibrium_c - start_c) / (equilibrium_c - limit_c))


def outlet_c(
    source_c: float,
    equilibrium_c: float,
    flow_l_min: float,
    length_m: float,
    outside_mm: float,
    film_w_m2k: float,
) -> float:
    """Return the temperature of water that has run through a hose in the sun [C].

    Args:
        source_c: Temperature at the tap [C], -60 to 100.
        equilibrium_c: Temperature still water in the hose would end at [C], -60 to 100.
        flow_l_min: Flow [L/min], more than 0.
        length_m: Length [m], 0 or more.
        outside_mm: Outside diameter [mm], more than 0.
        film_w_m2k: Film coefficient [W/m2K], 12 to 20.

    Returns:
        Temperature at the end [C], not rounded; a model.

    Raises:
        ValueError: A number is outside its range.

    References:
        Derived: 100 ft of dark 5/8 in hose, tap 68 F, air 95 F, 1 L/min gives
        90 F.

    Example:
        >>> round(outlet_c(20.0, 54.0986, 1.0, 30.48, 21.5, 15.0) * 1.8 + 32)
        90
    """
    _require_temperature(source_c, "tap temperature")
    _require_temperature(equilibrium_c, "end temperature")
    require_positive(flow_l_min, "flow", "L/min")
    require_not_negative(length_m, "length", "m")
    require_positive(outside_mm, "outside diameter", "mm")
    _require_film(film_w_m2k)
    shed_w_k = film_w_m2k * math.pi * outside_mm / MM_PER_M * length_m
    carried_w_k = flow_l_min / SECONDS_IN_MINUTE * WATER_KG_L * WATER_J_KG_K
    return equilibrium_c + (source_c - equilibrium_c) * math.exp(-shed_w_k / carried_w_k)


def daily_wave_left(depth_m: float, damping_depth_m: float) -> float:
    """Return the share of the day's temperature swing that is left at a depth in soil.

    Args:
        depth_m: Depth of the pipe [m], 0 or more.
        damping_depth_m: Depth at which the swing is down to 37 % [m], more than 0; 0.127 is
            the hotter, safer of the two derived from water-79.

    Returns:
        Share of the surface swing, 0 to 1, not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        water-79, exp(-z/D).

    Example:
        8 in deep with 12.7 cm leaves 20 % (derived)

        >>> round(daily_wave_left(0.2032, 0.127), 2)
        0.2
    """
    require_not_negative(depth_m, "depth", "m")
    require_positive(damping_depth_m, "damping depth", "m")
    return math.exp(-depth_m / damping_depth_m)
