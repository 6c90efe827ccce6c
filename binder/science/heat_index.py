"""The heat index for people, as the weather service works it out, piece by piece.

The pieces are separate so that the working can be printed with a farm's own numbers in it.
Shade and light wind are meant; full sun adds up to 15 F [heat-3].
"""

import math

from binder.science.ranges import require_within

# The simple formula [heat-1].
SIMPLE_SHARE = 0.5
SIMPLE_OFFSET_F = 61.0
SIMPLE_TURN_F = 68.0
SIMPLE_SLOPE = 1.2
SIMPLE_PER_RH_PCT = 0.094

# The regression [heat-1] (Rothfusz 1990), named by the powers of T and RH that follow each.
REGRESSION_CONSTANT = -42.379
REGRESSION_T = 2.04901523
REGRESSION_RH = 10.14333127
REGRESSION_T_RH = -0.22475541
REGRESSION_T2 = -0.00683783
REGRESSION_RH2 = -0.05481717
REGRESSION_T2_RH = 0.00122874
REGRESSION_T_RH2 = 0.00085282
REGRESSION_T2_RH2 = -0.00000199
REGRESSION_FROM_INDEX_F = 80.0  # the averaged simple index from which the regression is used

# The correction for dry air [heat-1].
DRY_BELOW_RH_PCT = 13.0
DRY_RH_SCALE_PCT = 4.0
DRY_FROM_F = 80.0
DRY_TO_F = 112.0
DRY_CENTRE_F = 95.0
DRY_HALF_SPAN_F = 17.0

# The correction for humid air [heat-1].
HUMID_ABOVE_RH_PCT = 85.0
HUMID_RH_SCALE_PCT = 10.0
HUMID_FROM_F = 80.0
HUMID_TO_F = 87.0
HUMID_SPAN_F = 5.0

# At 40 F and below the weather service's calculator returns the air temperature. heat-1 does
# not say so; the rule was read in MetPy's heat_index (Unidata/MetPy, calc/basic.py).
NO_INDEX_TO_F = 40.0

# Where the answer stops. 112 F is the highest temperature named in [heat-1]; 137 F the highest
# value on the published chart [heat-2]. The cold end is our choice: -20 C, where the other air
# formulas stop too.
COLDEST_F = -4.0
HOTTEST_F = DRY_TO_F
HIGHEST_CHARTED_F = 137.0
CHART_ROUNDING_F = 0.5  # the chart prints whole degrees
# The coolest air whose averaged simple index can reach 80 F is 78.9 F, at 100 % (derived).
REGRESSION_COOLEST_F = 78.0
FULL_RH_PCT = 100.0


def _require_air(temp_f: float, rh_pct: float, coolest_f: float = COLDEST_F) -> None:
    require_within(temp_f, coolest_f, HOTTEST_F, "air temperature for the heat index", "F")
    require_within(rh_pct, 0.0, FULL_RH_PCT, "relative humidity", "%")


def heat_index_simple_f(temp_f: float, rh_pct: float) -> float:
    """Return the simple heat index, before it is averaged with the temperature [F].

    Args:
        temp_f: Air temperature in the shade [F], -4 to 112.
        rh_pct: Relative humidity [%], 0 to 100.

    Returns:
        Simple index [F], not rounded.

    Raises:
        ValueError: The temperature or the humidity is outside its range.

    References:
        heat-1, step 1 of the order of work.

    Example:
        0.5 x (70 + 61 + 2 x 1.2 + 50 x 0.094) = 69.05

        >>> round(heat_index_simple_f(70.0, 50.0), 2)
        69.05
    """
    _require_air(temp_f, rh_pct)
    return SIMPLE_SHARE * (
        temp_f
        + SIMPLE_OFFSET_F
        + (temp_f - SIMPLE_TURN_F) * SIMPLE_SLOPE
        + SIMPLE_PER_RH_PCT * rh_pct
    )


def heat_index_average_f(temp_f: float, rh_pct: float) -> float:
    """Return the mean of the simple heat index and the temperature [F].

    Args:
        temp_f: Air temperature in the shade [F], -4 to 112.
        rh_pct: Relative humidity [%], 0 to 100.

    Returns:
        Averaged index [F], not rounded. Below 80 it is the answer.

    Raises:
        ValueError: The temperature or the humidity is outside its range.

    References:
        heat-1, step 2 of the order of work.

    Example:
        (69.05 + 70) / 2 = 69.525

        >>> round(heat_index_average_f(70.0, 50.0), 3)
        69.525
    """
    return (heat_index_simple_f(temp_f, rh_pct) + temp_f) / 2


def heat_index_regression_f(temp_f: float, rh_pct: float) -> float:
    """Return the heat index by regression, before any correction [F].

    Args:
        temp_f: Air temperature in the shade [F], 78 to 112.
        rh_pct: Relative humidity [%], 0 to 100.

    Returns:
        Regression value [F], not rounded. Above 137 it is off the published chart.

    Raises:
        ValueError: The temperature or the humidity is outside its range.

    References:
        heat-1, Rothfusz 1990 (SR 90-23); fit error 1.3 F.

    Example:
        >>> round(heat_index_regression_f(96.0, 65.0))
        121
    """
    _require_air(temp_f, rh_pct, REGRESSION_COOLEST_F)
    return (
        REGRESSION_CONSTANT
        + REGRESSION_T * temp_f
        + REGRESSION_RH * rh_pct
        + REGRESSION_T_RH * temp_f * rh_pct
        + REGRESSION_T2 * temp_f**2
        + REGRESSION_RH2 * rh_pct**2
        + REGRESSION_T2_RH * temp_f**2 * rh_pct
        + REGRESSION_T_RH2 * temp_f * rh_pct**2
        + REGRESSION_T2_RH2 * temp_f**2 * rh_pct**2
    )


def heat_index_adjustment_f(temp_f: float, rh_pct: float) -> float:
    """Return what dry or very humid air adds to the regression [F].

    Args:
        temp_f: Air temperature in the shade [F], -4 to 112.
        rh_pct: Relative humidity [%], 0 to 100.

    Returns:
        Correction [F]: negative in dry air, positive in humid air, otherwise 0.

    Raises:
        ValueError: The temperature or the humidity is outside its range.

    References:
        heat-1, the two adjustments: RH below 13 % at 80 to 112 F, above 85 % at 80 to 87 F.

    Example:
        At 80 F and 100 %: (15 / 10) x (7 / 5) = 2.1

        >>> round(heat_index_adjustment_f(80.0, 100.0), 1)
        2.1
    """
    _require_air(temp_f, rh_pct)
    if rh_pct < DRY_BELOW_RH_PCT and temp_f >= DRY_FROM_F:  # to 112 F, the end of the range
        off_centre_f = abs(temp_f - DRY_CENTRE_F)
        return -((DRY_BELOW_RH_PCT - rh_pct) / DRY_RH_SCALE_PCT) * math.sqrt(
            (DRY_HALF_SPAN_F - off_centre_f) / DRY_HALF_SPAN_F
        )
    if rh_pct > HUMID_ABOVE_RH_PCT and HUMID_FROM_F <= temp_f <= HUMID_TO_F:
        return ((rh_pct - HUMID_ABOVE_RH_PCT) / HUMID_RH_SCALE_PCT) * (
            (HUMID_TO_F - temp_f) / HUMID_SPAN_F
        )
    return 0.0


def heat_index_f(temp_f: float, rh_pct: float) -> float:
    """Return the heat index for people in the shade [F].

    The order of work of the weather service: the simple index averaged with the temperature;
    from 80 up, the regression with its correction instead; at 40 F and below, the air
    temperature itself. It drops by up to about 3 F where
    the one gives way to the other in dry air; that is the published method.

    Args:
        temp_f: Air temperature in the shade [F], -4 to 112.
        rh_pct: Relative humidity [%], 0 to 100.

    Returns:
        Heat index [F], not rounded.

    Raises:
        ValueError: The temperature or the humidity is outside its range, or the result is
            past 137 F rounded, where the published chart is blank.

    References:
        heat-1 (method), heat-2 (chart; agrees within 0.6 F, except at 80 to 84 F with 90 to
        100 %, where the humid correction reads up to 2.3 F higher).

    Example:
        >>> round(heat_index_f(96.0, 65.0))
        121
    """
    average_f = heat_index_average_f(temp_f, rh_pct)
    if temp_f <= NO_INDEX_TO_F:
        return temp_f
    if average_f < REGRESSION_FROM_INDEX_F:
        return average_f
    index_f = heat_index_regression_f(temp_f, rh_pct) + heat_index_adjustment_f(temp_f, rh_pct)
    if index_f > HIGHEST_CHARTED_F + CHART_ROUNDING_F:
        msg = (
            f"the heat index for {temp_f:g} F and {rh_pct:g} % is outside the published chart, "
            f"whose highest value is {HIGHEST_CHARTED_F:g} F: extreme danger"
        )
        raise ValueError(msg)
    return index_f
