"""Heat indices: how hard the air is on each kind of animal.

The people's index stands in `heat_index`. Species-weighted indices are not on the cattle scale:
bands of one must not be read off another.
"""

from collections.abc import Sequence

from binder.science.ranges import require_within

# None of these indices is published with a temperature span. Our choice: the span of the wet
# bulb fit most of them are fed with [heat-61].
COLDEST_C = -20.0
HOTTEST_C = 50.0
COLDEST_F = -4.0
HOTTEST_F = 122.0
FULL_RH_PCT = 100.0

F_PER_C = 1.8  # definition of the Fahrenheit scale
F_AT_0_C = 32.0

# Livestock index [heat-12]: (1.8 T + 32) - (0.55 - 0.0055 RH)(1.8 T - 26).
LIVESTOCK_DRY = 0.55
LIVESTOCK_PER_RH_PCT = 0.0055
LIVESTOCK_TURN_F = 26.0

# Pig index [heat-77][heat-14].
THIP_DRY = 1.17
THIP_WET = 0.63
THIP_OFFSET = 32.0

# Weights of dry and wet bulb for birds. Hens: from memory, but they reproduce both values of
# [heat-39]; turkeys of 15 to 16 weeks [heat-38].
HEN_DRY, HEN_WET = 0.6, 0.4
TURKEY_DRY, TURKEY_WET = 0.74, 0.26

# Sheep and goats, C-scale form, read on a grade C page only; the bands are heat-78.
SHEEP_DRY = 0.31
SHEEP_PER_RH_PCT = 0.0031
SHEEP_TURN_C = 14.4

# Feedlot cattle with wind and sun [heat-76].
CATTLE_OFFSET = 4.51
CATTLE_PER_WIND_M_S = 1.992
CATTLE_PER_SUN_W_M2 = 0.0068
# The abstract gives no span. Our choice, about what a feedlot weather station meets.
LOWEST_THI, HIGHEST_THI = 0.0, 122.0
WINDIEST_M_S = 15.0
SUNNIEST_W_M2 = 1400.0

RECOVERY_BELOW_THI = 72.0  # [heat-91]; 74 in [heat-21] is the looser figure


def _require_air(temp_c: float, rh_pct: float) -> None:
    require_within(temp_c, COLDEST_C, HOTTEST_C, "air temperature", "C")
    require_within(rh_pct, 0.0, FULL_RH_PCT, "relative humidity", "%")


def _require_bulbs(temp_c: float, wet_bulb_c: float) -> None:
    require_within(temp_c, COLDEST_C, HOTTEST_C, "air temperature", "C")
    require_within(wet_bulb_c, COLDEST_C, HOTTEST_C, "wet bulb temperature", "C")
    if wet_bulb_c > temp_c:
        msg = (
            f"wet bulb {wet_bulb_c:g} C is above the air temperature {temp_c:g} C: "
            "evaporation cannot warm a thermometer"
        )
        raise ValueError(msg)


def livestock_index(temp_c: float, rh_pct: float) -> float:
    """Return the livestock temperature-humidity index on its Fahrenheit scale.

    Cattle, and the published livestock safety classes. It understates pigs and birds in dry
    heat, so their band is never taken from it alone.

    Args:
        temp_c: Air temperature [C], -20 to 50 (our choice; no span is published).
        rh_pct: Relative humidity [%], 0 to 100.

    Returns:
        Index [F scale], not rounded.

    Raises:
        ValueError: The temperature or the humidity is outside its range.

    References:
        heat-12 (formula and worked value); heat-73 (table it agrees with).

    Example:
        >>> round(livestock_index(23.0, 65.0), 4)
        70.4355
    """
    _require_air(temp_c, rh_pct)
    scaled_f = F_PER_C * temp_c
    dryness = LIVESTOCK_DRY - LIVESTOCK_PER_RH_PCT * rh_pct
    return (scaled_f + F_AT_0_C) - dryness * (scaled_f - LIVESTOCK_TURN_F)


def pig_index_thip(temp_c: float, wet_bulb_c: float) -> float:
    """Return the pig index THIP: 0.65 dry bulb and 0.35 wet bulb on a Fahrenheit scale.

    Args:
        temp_c: Air temperature [C], -20 to 50.
        wet_bulb_c: Wet bulb temperature [C], -20 up to the air temperature.

    Returns:
        Index [F scale], not rounded.

    Raises:
        ValueError: A temperature is outside its range, or the wet bulb is above the air.

    References:
        heat-77 (after Ingram 1965), heat-14 (worked value).

    Example:
        >>> round(pig_index_thip(30.25, 25.5), 4)
        83.4575
    """
    _require_bulbs(temp_c, wet_bulb_c)
    return THIP_DRY * temp_c + THIP_WET * wet_bulb_c + THIP_OFFSET


def hen_index(temp_c: float, wet_bulb_c: float) -> float:
    """Return the laying-hen index [C].

    The weights are from memory; they reproduce two measured values, but no band rests on them.

    Args:
        temp_c: Air temperature [C], -20 to 50.
        wet_bulb_c: Wet bulb temperature [C], -20 up to the air temperature.

    Returns:
        Index [C], not rounded.

    Raises:
        ValueError: A temperature is outside its range, or the wet bulb is above the air.

    References:
        heat-39, values 32.1 at 36 C / 45 % and 24.2 at 27 C / 56 %.

    Example:
        >>> round(hen_index(36.0, 26.2), 1)
        32.1
    """
    _require_bulbs(temp_c, wet_bulb_c)
    return HEN_DRY * temp_c + HEN_WET * wet_bulb_c


def turkey_index(temp_c: float, wet_bulb_c: float) -> float:
    """Return the turkey index, fitted to birds of 15 to 16 weeks [C].

    Args:
        temp_c: Air temperature [C], -20 to 50.
        wet_bulb_c: Wet bulb temperature [C], -20 up to the air temperature.

    Returns:
        Index [C], not rounded.

    Raises:
        ValueError: A temperature is outside its range, or the wet bulb is above the air.

    References:
        heat-38, Xin et al. 1992.

    Example:
        0.74 x 30 + 0.26 x 20 = 27.4

        >>> round(turkey_index(30.0, 20.0), 2)
        27.4
    """
    _require_bulbs(temp_c, wet_bulb_c)
    return TURKEY_DRY * temp_c + TURKEY_WET * wet_bulb_c


def sheep_index(temp_c: float, rh_pct: float) -> float:
    """Return the sheep and goat index on its Celsius scale [C].

    Args:
        temp_c: Air temperature [C], -20 to 50.
        rh_pct: Relative humidity [%], 0 to 100.

    Returns:
        Index [C], not rounded.

    Raises:
        ValueError: The temperature or the humidity is outside its range.

    References:
        Formula read on a grade C page only; bands heat-78.

    Example:
        24 - (0.31 - 0.0031 x 60) x (24 - 14.4) = 22.8096

        >>> round(sheep_index(24.0, 60.0), 4)
        22.8096
    """
    _require_air(temp_c, rh_pct)
    return temp_c - (SHEEP_DRY - SHEEP_PER_RH_PCT * rh_pct) * (temp_c - SHEEP_TURN_C)


def horse_sum(temp_f: float, rh_pct: float) -> float:
    """Return the horseman's sum of temperature and humidity.

    Args:
        temp_f: Air temperature [F], -4 to 122.
        rh_pct: Relative humidity [%], 0 to 100.

    Returns:
        The sum, a number without a unit. Wind is not subtracted, the safer form.

    Raises:
        ValueError: The temperature or the humidity is outside its range.

    References:
        heat-50.

    Example:
        >>> horse_sum(90.0, 61.0)
        151.0
    """
    require_within(temp_f, COLDEST_F, HOTTEST_F, "air temperature", "F")
    require_within(rh_pct, 0.0, FULL_RH_PCT, "relative humidity", "%")
    return temp_f + rh_pct


def _require_feedlot(thi: float, wind_m_s: float, sun_w_m2: float) -> None:
    require_within(thi, LOWEST_THI, HIGHEST_THI, "livestock index")
    require_within(wind_m_s, 0.0, WINDIEST_M_S, "wind", "m/s")
    require_within(sun_w_m2, 0.0, SUNNIEST_W_M2, "sun", "W/m2")


def cattle_adjusted_index(thi: float, wind_m_s: float, sun_w_m2: float) -> float:
    """Return the livestock index corrected for wind and sun, for cattle only.

    Args:
        thi: Livestock index [F scale], 0 to 122.
        wind_m_s: Wind [m/s], 0 to 15 (our choice).
        sun_w_m2: Sun on a level surface [W/m2], 0 to 1400 (our choice).

    Returns:
        Adjusted index [F scale], not rounded.

    Raises:
        ValueError: A number is outside its range.

    References:
        heat-76, Mader, Davis and Brown-Brandl 2006.

    Example:
        80 + 4.51 - 1.992 x 2 + 0.0068 x 800 = 85.966

        >>> round(cattle_adjusted_index(80.0, 2.0, 800.0), 3)
        85.966
    """
    _require_feedlot(thi, wind_m_s, sun_w_m2)
    return thi + CATTLE_OFFSET - CATTLE_PER_WIND_M_S * wind_m_s + CATTLE_PER_SUN_W_M2 * sun_w_m2


def recovery_hours(hourly_index: Sequence[float], threshold: float = RECOVERY_BELOW_THI) -> int:
    """Return the number of hours in which animals can shed the day's heat [h].

    Three days running with fewer than ten each make a farm-animal heat wave [heat-91].

    Args:
        hourly_index: Livestock index of each hour [F scale], each 0 to 122.
        threshold: Index below which an hour counts [F scale].

    Returns:
        Hours below the threshold [h]; an hour just at it does not count.

    Raises:
        ValueError: An index is outside its range.

    References:
        heat-91 (below 72, the safer figure); heat-21 gives 74 or less.

    Example:
        >>> recovery_hours([71.9, 72.0, 80.0])
        1
    """
    for index in hourly_index:
        require_within(index, LOWEST_THI, HIGHEST_THI, "livestock index")
    return sum(index < threshold for index in hourly_index)
