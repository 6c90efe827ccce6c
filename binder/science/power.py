"""Electric loads, cords and generators.

Planning figures only: the label, the local code and a licensed electrician decide.
"""

from binder.science.ranges import require_not_negative, require_positive, require_within

CONTINUOUS_SHARE = 0.80  # of the breaker, for loads of 3 h and more [husbandry-45]
CONTINUOUS_MARGIN = 1.25  # breaker over continuous load [husbandry-45]
THERE_AND_BACK = 2.0  # current runs out on one wire and home on the other
CORD_TABLE_FT = 1000.0  # wire tables give ohms per 1,000 ft [husbandry-46]
# 1 for a load without a motor; induction motors can draw six times [husbandry-46].
LOWEST_STARTING_FACTOR, HIGHEST_STARTING_FACTOR = 1.0, 6.0


def continuous_limit_w(breaker_a: float, volts: float) -> float:
    """Return the load a circuit may carry for three hours or more [W].

    Args:
        breaker_a: Rating of the breaker [A], more than 0.
        volts: Voltage [V], more than 0.

    Returns:
        Load [W], not rounded.

    Raises:
        ValueError: A number is not above 0.

    References:
        husbandry-45 (NEC 210.20(A)): 80 % of the breaker.

    Example:
        >>> continuous_limit_w(15.0, 120.0), continuous_limit_w(20.0, 120.0)
        (1440.0, 1920.0)
    """
    require_positive(breaker_a, "breaker", "A")
    require_positive(volts, "voltage", "V")
    return CONTINUOUS_SHARE * breaker_a * volts


def breaker_needed_a(continuous_a: float, other_a: float) -> float:
    """Return the least rating of the breaker for a set of loads [A].

    Args:
        continuous_a: Loads of three hours or more [A], 0 or more.
        other_a: All other loads at once [A], 0 or more.

    Returns:
        Least rating [A], not rounded up to a size that is sold.

    Raises:
        ValueError: A number is negative.

    References:
        husbandry-45 (NEC 210.20(A)): other load + 125 % of continuous load.

    Example:
        >>> breaker_needed_a(9.0, 3.0)
        14.25
    """
    require_not_negative(continuous_a, "continuous load", "A")
    require_not_negative(other_a, "other load", "A")
    return CONTINUOUS_MARGIN * continuous_a + other_a


def volts_lost(current_a: float, length_ft: float, ohm_per_1000ft: float) -> float:
    """Return the voltage lost along a cord [V].

    Args:
        current_a: Current [A], 0 or more.
        length_ft: Length of the cord [ft], 0 or more.
        ohm_per_1000ft: Resistance of one wire [ohm per 1,000 ft], more than 0: 16 AWG 4.0,
            12 AWG 1.56.

    Returns:
        Voltage lost, out and back [V], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        husbandry-46, voltage-drop table: 10 A over 100 ft of 16 AWG loses 8.0 V.

    Example:
        >>> volts_lost(10.0, 100.0, 4.0)
        8.0
    """
    require_not_negative(current_a, "current", "A")
    require_not_negative(length_ft, "length", "ft")
    require_positive(ohm_per_1000ft, "resistance", "ohm per 1,000 ft")
    return THERE_AND_BACK * length_ft * current_a * ohm_per_1000ft / CORD_TABLE_FT


def starting_w(running_w: float, factor: float) -> float:
    """Return the load while a motor starts [W].

    Args:
        running_w: Running load [W], 0 or more.
        factor: Starting over running load, 1 (no motor) to 6; 3 when the plate does not say.

    Returns:
        Starting load [W], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        husbandry-46: 1/3 hp capacitor motor 450 W running, 1,350 W starting.

    Example:
        >>> starting_w(450.0, 3.0)
        1350.0
    """
    require_not_negative(running_w, "running load", "W")
    require_within(factor, LOWEST_STARTING_FACTOR, HIGHEST_STARTING_FACTOR, "starting factor")
    return running_w * factor


def fuel_hours(fuel_l: float, rate_l_per_h: float) -> float:
    """Return how long the fuel lasts [h].

    Args:
        fuel_l: Fuel in hand [L], 0 or more.
        rate_l_per_h: Use [L/h], more than 0; the owner's manual or own timing.

    Returns:
        Time [h], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        Arithmetic; husbandry-39 gives 2.5 L/h for a 5 kW set at half load, 60 L a day.

    Example:
        >>> fuel_hours(60.0, 2.5)
        24.0
    """
    require_not_negative(fuel_l, "fuel", "L")
    require_positive(rate_l_per_h, "fuel use", "L/h")
    return fuel_l / rate_l_per_h
