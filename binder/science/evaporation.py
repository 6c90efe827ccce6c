"""Water lost from a surface to the air."""

import math

from binder.science.ranges import require_not_negative, require_within

# The reference evaporation of FAO 56 for an hour [extra-190], equation 53 and its parts,
# named by what they are.
SATURATION_KPA, SATURATION_SLOPE, SATURATION_OFFSET_C = 0.6108, 17.27, 237.3
SLOPE_NUMERATOR = 4098.0
PSYCHROMETRIC_PER_KPA = 0.000665  # psychrometric constant over air pressure [1/C]
HOURLY_WIND, DRAG_WIND = 37.0, 0.34
MM_PER_MJ_M2 = 0.408  # 1 over the latent heat of 2.45 MJ/kg
GRASS_ABSORBS = 0.77  # 1 less the albedo of the reference surface
BOLTZMANN_MJ_M2_K4_H = 2.043e-10
KELVIN_AT_0_C = 273.16
CLEAR_CONSTANT, CLEAR_PER_ROOT_KPA = 0.34, 0.14
CLOUD_SLOPE, CLOUD_OFFSET = 1.35, 0.35
GROUND_BY_DAY, GROUND_BY_NIGHT = 0.1, 0.5  # shares of the net radiation that go into the ground
MJ_PER_WH = 0.0036
CLOUDIEST, CLEAREST = 0.3, 1.0  # span of sun over clear-sky sun in that method
AIR_AT_SEA_KPA = 101.3
OPEN_WATER = 1.05  # shallow open water over the reference: from memory, FAO 56 table 12
# How wind grows with height over short grass [extra-191].
WIND_CONSTANT, WIND_PER_M, WIND_OFFSET = 4.87, 67.8, 5.42
LOWEST_WIND_M = 0.5  # our choice: below it the form is for no weather station
COLDEST_C, HOTTEST_C = -40.0, 60.0
FULL_RH_PCT, SUNNIEST_W_M2, WINDIEST_M_S = 100.0, 1400.0, 75.0


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


def wind_at_2_m(wind_m_s: float, height_m: float) -> float:
    """Return the wind at 2 m from one measured higher or lower [m/s].

    Args:
        wind_m_s: Wind as measured [m/s], 0 or more.
        height_m: Where it was measured [m], 0.5 or more; airfields measure at 10.

    Returns:
        Wind [m/s], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        extra-191 (FAO 56, equation 47).

    Example:
        FAO 56, example 14, from memory: 3.2 m/s at 10 m are 2.4 at 2 m.

        >>> round(wind_at_2_m(3.2, 10.0), 1)
        2.4
    """
    require_not_negative(wind_m_s, "wind", "m/s")
    require_within(height_m, LOWEST_WIND_M, math.inf, "height of the wind gauge", "m")
    return wind_m_s * WIND_CONSTANT / math.log(WIND_PER_M * height_m - WIND_OFFSET)


def reference_mm_per_h(
    temp_c: float, rh_pct: float, wind_m_s: float, sun_w_m2: float, sky: float
) -> float:
    """Return the reference evaporation of an hour, as FAO 56 works it out [mm/h].

    Args:
        temp_c: Air temperature [C], -40 to 60.
        rh_pct: Relative humidity [%], 0 to 100.
        wind_m_s: Wind at 2 m [m/s], 0 to 75.
        sun_w_m2: Sun on a level surface [W/m2], 0 to 1400.
        sky: Sun over that of a clear sky, 0.3 (overcast) to 1 (clear); at night that of the
            afternoon before.

    Returns:
        Water [mm/h], not rounded; 0 where dew would fall.

    Raises:
        ValueError: A number is outside its range.

    References:
        extra-190 (hourly form), extra-191 (its parts).

    Example:
        The worked example 19 of FAO 56, from memory: 38 C, 52 %, 3.3 m/s, 2.450 MJ/m2 in the
        hour under a sky of 0.92 give 0.63 mm.

        >>> round(reference_mm_per_h(38.0, 52.0, 3.3, 2.450 / 0.0036, 0.922), 2)
        0.63
    """
    require_within(temp_c, COLDEST_C, HOTTEST_C, "air temperature", "C")
    require_within(rh_pct, 0.0, FULL_RH_PCT, "relative humidity", "%")
    require_within(wind_m_s, 0.0, WINDIEST_M_S, "wind", "m/s")
    require_within(sun_w_m2, 0.0, SUNNIEST_W_M2, "sun", "W/m2")
    require_within(sky, CLOUDIEST, CLEAREST, "sun over that of a clear sky")
    over = temp_c + SATURATION_OFFSET_C
    full_kpa = SATURATION_KPA * math.exp(SATURATION_SLOPE * temp_c / over)
    vapour_kpa = full_kpa * rh_pct / FULL_RH_PCT
    slope = SLOPE_NUMERATOR * full_kpa / over**2
    gamma = PSYCHROMETRIC_PER_KPA * AIR_AT_SEA_KPA
    shed = BOLTZMANN_MJ_M2_K4_H * (temp_c + KELVIN_AT_0_C) ** 4
    shed *= CLEAR_CONSTANT - CLEAR_PER_ROOT_KPA * math.sqrt(vapour_kpa)
    shed *= CLOUD_SLOPE * sky - CLOUD_OFFSET
    net = GRASS_ABSORBS * sun_w_m2 * MJ_PER_WH - shed
    into_ground = GROUND_BY_DAY if sun_w_m2 > 0 else GROUND_BY_NIGHT
    heat = MM_PER_MJ_M2 * slope * net * (1 - into_ground)
    kelvin = temp_c + round(KELVIN_AT_0_C)
    wind = gamma * HOURLY_WIND / kelvin * wind_m_s * (full_kpa - vapour_kpa)
    return max(0.0, (heat + wind) / (slope + gamma * (1 + DRAG_WIND * wind_m_s)))


def open_water_mm_per_h(
    temp_c: float, rh_pct: float, wind_m_s: float, sun_w_m2: float, sky: float
) -> float:
    """Return what shallow open water loses to the air in an hour [mm/h].

    Args:
        temp_c: Air temperature [C], -40 to 60.
        rh_pct: Relative humidity [%], 0 to 100.
        wind_m_s: Wind at 2 m [m/s], 0 to 75.
        sun_w_m2: Sun on a level surface [W/m2], 0 to 1400.
        sky: Sun over that of a clear sky, 0.3 to 1.

    Returns:
        Water [mm/h], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        As `reference_mm_per_h`; the factor for open water is from memory (FAO 56, table 12).

    Example:
        1.05 x 0.63 mm

        >>> round(open_water_mm_per_h(38.0, 52.0, 3.3, 2.450 / 0.0036, 0.922), 2)
        0.66
    """
    return OPEN_WATER * reference_mm_per_h(temp_c, rh_pct, wind_m_s, sun_w_m2, sky)
