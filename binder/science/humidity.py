"""Moist air: wet bulb, dew point, relative humidity, saturation pressure.

The one module that speaks to psychrolib, always in SI units.
"""

import math

import psychrolib

from binder.science.ranges import require_within

psychrolib.SetUnitSystem(psychrolib.SI)

# Magnus constants as Lawrence prints them [heat-63].
MAGNUS_HPA = 6.1094
MAGNUS_SLOPE = 17.625
MAGNUS_OFFSET_C = 243.04
MAGNUS_LOWEST_C = -40.0  # the span over which [heat-63] states an error of about 0.35 C
MAGNUS_HIGHEST_C = 60.0

# Stull's fit [heat-61], in the order of his equation 1, and the span he gives for it.
STULL_SLOPE = 0.151977
STULL_RH_SHIFT = 8.313659
STULL_RH_TURN = 1.676331
STULL_POWER_SCALE = 0.00391838
STULL_POWER = 1.5
STULL_RH_SCALE = 0.023101
STULL_OFFSET_C = 4.686035
STULL_LOWEST_C = -20.0
STULL_HIGHEST_C = 50.0
STULL_LOWEST_RH_PCT = 5.0
STULL_HIGHEST_RH_PCT = 99.0
# Stull excludes air that is both cold and dry [heat-61, abstract] without giving the line.
# Our choice: RH = 15 - 1.3 T, along which the fit runs 0.65 C above psychrolib, his own limit.
COLD_DRY_RH_PCT_AT_0_C = 15.0
COLD_DRY_RH_PCT_PER_C = 1.3

# Humidity runs from dry to saturated by definition; a dew point needs some moisture, and 1 %
# is as dry as we ask about (our choice).
FULL_RH_PCT = 100.0
DRIEST_FOR_DEW_POINT_PCT = 1.0

SEA_LEVEL_PA = 101325.0  # standard atmosphere, the pressure of [heat-61] and [heat-62]
# Our choice: from about 4,800 m up to below the sea. psychrolib itself goes further.
LOWEST_PRESSURE_PA = 55_000.0
LOWEST_ALTITUDE_M, HIGHEST_ALTITUDE_M = -500.0, 4800.0
HIGHEST_PRESSURE_PA = 110_000.0


def saturation_pressure_hpa(temp_c: float) -> float:
    """Return the vapour pressure of saturated air over water [hPa].

    Args:
        temp_c: Air temperature [C], -40 to 60.

    Returns:
        Saturation vapour pressure [hPa], not rounded.

    Raises:
        ValueError: The temperature is outside -40 to 60 C.

    References:
        heat-63, Lawrence 2005, equation 6 (Magnus form).

    Example:
        ASHRAE prints 0.45973 psi (31.70 hPa) at 77 F [heat-62]; the Magnus form gives

        >>> round(saturation_pressure_hpa(25.0), 2)
        31.62
    """
    require_within(temp_c, MAGNUS_LOWEST_C, MAGNUS_HIGHEST_C, "air temperature", "C")
    return MAGNUS_HPA * math.exp(MAGNUS_SLOPE * temp_c / (MAGNUS_OFFSET_C + temp_c))


def dew_point_c(temp_c: float, rh_pct: float) -> float:
    """Return the temperature at which this air starts to drop dew [C].

    Args:
        temp_c: Air temperature [C], -40 to 60.
        rh_pct: Relative humidity [%], 1 to 100.

    Returns:
        Dew point [C], not rounded; the formula is good to about 0.35 C.

    Raises:
        ValueError: The temperature or the humidity is outside its range.

    References:
        heat-63, Lawrence 2005, equation 8.

    Example:
        >>> round(dew_point_c(35.0, 40.0), 1)
        19.4
    """
    require_within(temp_c, MAGNUS_LOWEST_C, MAGNUS_HIGHEST_C, "air temperature", "C")
    require_within(
        rh_pct, DRIEST_FOR_DEW_POINT_PCT, FULL_RH_PCT, "relative humidity for a dew point", "%"
    )
    gamma = math.log(rh_pct / FULL_RH_PCT) + MAGNUS_SLOPE * temp_c / (MAGNUS_OFFSET_C + temp_c)
    return MAGNUS_OFFSET_C * gamma / (MAGNUS_SLOPE - gamma)


def relative_humidity_pct(temp_c: float, dew_point_c: float) -> float:
    """Return the relative humidity of air with this dew point [%].

    Args:
        temp_c: Air temperature [C], -40 to 60.
        dew_point_c: Dew point [C], -40 up to the air temperature.

    Returns:
        Relative humidity [%], not rounded.

    Raises:
        ValueError: A temperature is outside -40 to 60 C, or the dew point is above the air
            temperature, which cannot be.

    References:
        heat-63, Lawrence 2005 (ratio of saturation pressures).

    Example:
        Dew point 70 F in air of 90 F is 52 % (derived from heat-63).

        >>> round(relative_humidity_pct(32.2222, 21.1111))
        52
    """
    require_within(temp_c, MAGNUS_LOWEST_C, MAGNUS_HIGHEST_C, "air temperature", "C")
    require_within(dew_point_c, MAGNUS_LOWEST_C, MAGNUS_HIGHEST_C, "dew point", "C")
    if dew_point_c > temp_c:
        msg = (
            f"dew point {dew_point_c:g} C is above the air temperature {temp_c:g} C: "
            "air cannot hold that much water"
        )
        raise ValueError(msg)
    share = saturation_pressure_hpa(dew_point_c) / saturation_pressure_hpa(temp_c)
    return FULL_RH_PCT * share


def wet_bulb_c(temp_c: float, rh_pct: float) -> float:
    """Return the wet bulb temperature at sea level by Stull's fit [C].

    Air that is cold and dry at once is refused, as the fit is not valid there. Where the fit
    would end a few hundredths above the air temperature (45 C and up at 99 %), the air
    temperature is returned: water cannot evaporate itself warmer than the air.

    Args:
        temp_c: Air temperature [C], -20 to 50.
        rh_pct: Relative humidity [%], 5 to 99, and at least 15 - 1.3 times the temperature.

    Returns:
        Wet bulb temperature [C], not rounded; good to -1.0 to +0.65 C.

    Raises:
        ValueError: The temperature or the humidity is outside its range.

    References:
        heat-61, Stull 2011, equation 1.

    Example:
        >>> round(wet_bulb_c(20.0, 50.0), 5)
        13.69934
    """
    require_within(temp_c, STULL_LOWEST_C, STULL_HIGHEST_C, "air temperature", "C")
    require_within(
        rh_pct, STULL_LOWEST_RH_PCT, STULL_HIGHEST_RH_PCT, "relative humidity for wet bulb", "%"
    )
    driest_pct = COLD_DRY_RH_PCT_AT_0_C - COLD_DRY_RH_PCT_PER_C * temp_c
    if rh_pct < driest_pct:
        msg = (
            f"relative humidity {rh_pct:g} % at {temp_c:g} C is outside the range of the wet "
            f"bulb fit, {driest_pct:g} to {STULL_HIGHEST_RH_PCT:g} % at that temperature: "
            "the air is cold and dry at once"
        )
        raise ValueError(msg)
    fitted = (
        temp_c * math.atan(STULL_SLOPE * math.sqrt(rh_pct + STULL_RH_SHIFT))
        + math.atan(temp_c + rh_pct)
        - math.atan(rh_pct - STULL_RH_TURN)
        + STULL_POWER_SCALE * rh_pct**STULL_POWER * math.atan(STULL_RH_SCALE * rh_pct)
        - STULL_OFFSET_C
    )
    return float(min(fitted, temp_c))


def air_pressure_pa(altitude_m: float) -> float:
    """Return the standard air pressure at an altitude [Pa].

    Args:
        altitude_m: Height above the sea [m], -500 to 4,800.

    Returns:
        Pressure [Pa], not rounded.

    Raises:
        ValueError: The altitude is outside its range.

    References:
        heat-62, ASHRAE Fundamentals 2017, chapter 1, equation 3 (psychrolib).

    Example:
        The handbook's table 1 prints 84.556 kPa at 1,500 m.

        >>> round(air_pressure_pa(1500.0) / 1000, 2)
        84.56
    """
    require_within(altitude_m, LOWEST_ALTITUDE_M, HIGHEST_ALTITUDE_M, "altitude", "m")
    return float(psychrolib.GetStandardAtmPressure(altitude_m))


def wet_bulb_exact_c(temp_c: float, rh_pct: float, pressure_pa: float = SEA_LEVEL_PA) -> float:
    """Return the thermodynamic wet bulb temperature at any farm's air pressure [C].

    Args:
        temp_c: Air temperature [C], -40 to 60.
        rh_pct: Relative humidity [%], 0 to 100.
        pressure_pa: Air pressure where the farm is, not reduced to sea level [Pa],
            55,000 to 110,000.

    Returns:
        Wet bulb temperature [C], not rounded, solved to 0.001 C.

    Raises:
        ValueError: A number is outside its range.

    References:
        heat-62, ASHRAE Fundamentals 2017, chapter 1, equations 33 and 35 (psychrolib).

    Example:
        The handbook's own example: 100 F and wet bulb 65 F go with 13 % [heat-62].

        >>> round(wet_bulb_exact_c(37.7778, 13.0) * 1.8 + 32)
        65
    """
    require_within(temp_c, MAGNUS_LOWEST_C, MAGNUS_HIGHEST_C, "air temperature", "C")
    require_within(rh_pct, 0.0, FULL_RH_PCT, "relative humidity", "%")
    require_within(pressure_pa, LOWEST_PRESSURE_PA, HIGHEST_PRESSURE_PA, "air pressure", "Pa")
    fraction = rh_pct / FULL_RH_PCT
    return float(psychrolib.GetTWetBulbFromRelHum(temp_c, fraction, pressure_pa))
