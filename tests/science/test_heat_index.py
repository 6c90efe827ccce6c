"""The heat index against the weather service's chart and against its own printed pieces."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.heat_index import (
    heat_index_adjustment_f,
    heat_index_average_f,
    heat_index_f,
    heat_index_regression_f,
    heat_index_simple_f,
)

# Published rows -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("temp_f", "rh_pct", "chart_f"),
    [
        (96.0, 65.0, 121.0),
        (90.0, 70.0, 106.0),
        (100.0, 50.0, 118.0),
        (88.0, 60.0, 95.0),
        (110.0, 40.0, 136.0),
        (80.0, 40.0, 80.0),
        (82.0, 60.0, 84.0),
    ],
)
def test_the_index_is_within_06_f_of_the_chart(
    temp_f: float, rh_pct: float, chart_f: float
) -> None:
    """Cells of the weather service's chart [heat-2]; it prints whole degrees."""
    assert heat_index_f(temp_f, rh_pct) == pytest.approx(chart_f, abs=0.6)


def test_the_humid_correction_is_what_parts_method_and_chart_at_80_f() -> None:
    """80 F at 100 %: the chart says 87 [heat-2], method and correction 89.3 [heat-1]."""
    assert heat_index_regression_f(80.0, 100.0) == pytest.approx(87.0, abs=0.6)
    assert heat_index_f(80.0, 100.0) == pytest.approx(89.3, abs=0.05)


# Worked by hand from the printed equations --------------------------------------------------


def test_the_simple_index_is_half_of_four_terms() -> None:
    """0.5 x (75 + 61 + (75 - 68) x 1.2 + 0.094 x 80) = 0.5 x (75 + 61 + 8.4 + 7.52) = 75.96."""
    assert heat_index_simple_f(75.0, 80.0) == pytest.approx(75.96, abs=1e-9)


def test_the_simple_index_turns_at_68_f() -> None:
    """0.5 x (58 + 61 - 10 x 1.2 + 0) = 53.5."""
    assert heat_index_simple_f(58.0, 0.0) == pytest.approx(53.5, abs=1e-9)


def test_the_average_is_halfway_to_the_air() -> None:
    """(75.96 + 75) / 2 = 75.48."""
    assert heat_index_average_f(75.0, 80.0) == pytest.approx(75.48, abs=1e-9)


def test_the_regression_is_the_sum_of_its_nine_terms() -> None:
    """Each term of [heat-1] worked at 100 F and 50 %; the powers of ten make it exact."""
    terms = (
        -42.379,
        204.901523,  # 2.04901523 x 100
        507.1665635,  # 10.14333127 x 50
        -1123.77705,  # 0.22475541 x 5000
        -68.3783,  # 0.00683783 x 10000
        -137.042925,  # 0.05481717 x 2500
        614.37,  # 0.00122874 x 500000
        213.205,  # 0.00085282 x 250000
        -49.75,  # 0.00000199 x 25000000
    )
    assert heat_index_regression_f(100.0, 50.0) == pytest.approx(sum(terms), abs=1e-7)


def test_the_regression_keeps_its_powers_apart() -> None:
    """At 80 F and 90 % the nine terms are other numbers: their sum is 86.395."""
    terms = (
        -42.379,
        163.9212184,  # 2.04901523 x 80
        912.8998143,  # 10.14333127 x 90
        -1618.238952,  # 0.22475541 x 7200
        -43.762112,  # 0.00683783 x 6400
        -444.019077,  # 0.05481717 x 8100
        707.75424,  # 0.00122874 x 576000
        552.62736,  # 0.00085282 x 648000
        -103.1616,  # 0.00000199 x 51840000
    )
    assert heat_index_regression_f(80.0, 90.0) == pytest.approx(sum(terms), abs=1e-7)


@pytest.mark.parametrize(
    ("temp_f", "rh_pct", "expected_f"),
    [
        (100.0, 5.0, -1.680336),  # (13 - 5)/4 x sqrt((17 - 5)/17) = 2 x 0.840168
        (85.0, 5.0, -1.283378),  # 2 x sqrt((17 - 10)/17) = 2 x 0.641689
        (80.0, 5.0, -0.685994),  # 2 x sqrt((17 - 15)/17) = 2 x 0.342997; first degree it holds
        (95.0, 11.0, -0.5),  # (13 - 11)/4 x 1
        (111.5, 5.0, -0.342997),  # 2 x sqrt((17 - 16.5)/17) = 2 x 0.171499
        (112.0, 5.0, 0.0),  # 17 - 17 = 0: it fades out at its last degree
        (79.99, 5.0, 0.0),  # too cool for it
        (95.0, 13.0, 0.0),  # not dry enough
        (95.0, 50.0, 0.0),
        (80.0, 95.0, 1.4),  # (95 - 85)/10 x (87 - 80)/5; first degree it holds
        (84.0, 91.0, 0.36),  # 0.6 x 0.6
        (87.0, 95.0, 0.0),  # it fades out at its last degree
        (87.01, 95.0, 0.0),  # too warm for it
        (79.99, 95.0, 0.0),  # too cool for it
        (84.0, 85.0, 0.0),  # not humid enough
    ],
)
def test_the_correction_holds_in_two_corners_only(
    temp_f: float, rh_pct: float, expected_f: float
) -> None:
    """The two adjustments of [heat-1], worked beside each row."""
    assert heat_index_adjustment_f(temp_f, rh_pct) == pytest.approx(expected_f, abs=1e-6)


@pytest.mark.parametrize(("temp_f", "rh_pct"), [(100.0, 8.0), (81.0, 95.0), (95.0, 50.0)])
def test_hot_air_gets_regression_and_correction(temp_f: float, rh_pct: float) -> None:
    """The index is the sum of its two pieces, in dry, humid and ordinary air."""
    pieces = heat_index_regression_f(temp_f, rh_pct) + heat_index_adjustment_f(temp_f, rh_pct)
    assert heat_index_f(temp_f, rh_pct) == pieces


def test_below_80_the_average_is_the_answer() -> None:
    """75 F at 80 %: 75.48, by the simple pieces."""
    assert heat_index_f(75.0, 80.0) == pytest.approx(75.48, abs=1e-9)
    # 79.6 F at 50 %: 0.5 x (79.6 + 61 + 13.92 + 4.7) = 79.61; averaged 79.605, just below 80
    assert heat_index_f(79.6, 50.0) == pytest.approx(79.605, abs=1e-9)


def test_at_an_average_of_exactly_80_the_regression_starts() -> None:
    """80.2 F at 40 %: 0.5 x (80.2 + 61 + 14.64 + 3.76) = 79.8; averaged 80.0."""
    assert heat_index_average_f(80.2, 40.0) == 80.0
    assert heat_index_f(80.2, 40.0) == heat_index_regression_f(80.2, 40.0) != 80.0


def test_at_40_f_and_below_the_index_is_the_air() -> None:
    """As the service's calculator does; just above, the average comes in."""
    assert heat_index_f(40.0, 50.0) == 40.0
    assert heat_index_f(-4.0, 50.0) == -4.0
    # 0.5 x (40.01 + 61 - 27.99 x 1.2 + 4.7) = 36.061; averaged with 40.01 = 38.0355
    assert heat_index_f(40.01, 50.0) == pytest.approx(38.0355, abs=1e-9)


# Our own edges ------------------------------------------------------------------------------


@given(temp_f=st.floats(80.0, 104.0), rh_pct=st.floats(40.0, 55.0), step_f=st.floats(0.1, 5.0))
def test_hotter_never_scores_lower_on_the_chart(
    temp_f: float, rh_pct: float, step_f: float
) -> None:
    """At one humidity the index rises with the temperature, wherever the chart is filled."""
    hotter_f = temp_f + step_f
    try:
        hotter = heat_index_f(hotter_f, rh_pct)
    except ValueError:  # off the chart is hotter still
        return
    assert hotter >= heat_index_f(temp_f, rh_pct)


def test_past_the_chart_the_answer_is_refused_as_extreme_danger() -> None:
    """The chart ends at 137 F [heat-2]; its cell at 110 F and 45 % is blank."""
    with pytest.raises(ValueError, match=r"110 F and 45 % is outside .* 137 F: extreme danger"):
        heat_index_f(110.0, 45.0)


@pytest.mark.parametrize(
    ("temp_f", "rh_pct"), [(108.0, 45.0), (106.0, 50.0), (104.0, 55.0), (102.0, 60.0)]
)
def test_the_highest_charted_cells_are_still_given(temp_f: float, rh_pct: float) -> None:
    """All four cells that the chart prints as 137 [heat-2]."""
    assert heat_index_f(temp_f, rh_pct) == pytest.approx(137.0, abs=0.6)


def test_the_answer_ends_where_137_would_round_to_138() -> None:
    """At 104 F the regression passes 137.5 between 55.097 and 55.099 %."""
    assert heat_index_f(104.0, 55.097) == pytest.approx(137.5, abs=0.002)
    with pytest.raises(ValueError, match="whose highest value is 137 F"):
        heat_index_f(104.0, 55.099)


@pytest.mark.parametrize(
    ("temp_f", "rh_pct", "named"),
    [
        (-4.01, 50.0, "-4 to 112 F"),
        (112.01, 20.0, "-4 to 112 F"),
        (90.0, -0.01, "0 to 100 %"),
        (90.0, 100.01, "0 to 100 %"),
    ],
)
def test_outside_the_range_every_piece_refuses(
    temp_f: float, rh_pct: float, named: str
) -> None:
    """The message names the range."""
    for piece in (
        heat_index_simple_f,
        heat_index_average_f,
        heat_index_adjustment_f,
        heat_index_f,
    ):
        with pytest.raises(ValueError, match=named):
            piece(temp_f, rh_pct)


@pytest.mark.parametrize(("temp_f", "rh_pct"), [(-4.0, 100.0), (112.0, 0.0)])
def test_the_ends_of_the_range_are_inside(temp_f: float, rh_pct: float) -> None:
    """-4 and 112 F, 0 and 100 % are answered."""
    assert heat_index_simple_f(temp_f, rh_pct) < 140.0
    assert heat_index_f(temp_f, rh_pct) < 137.0


@pytest.mark.parametrize("temp_f", [77.99, 112.01])
def test_the_regression_is_given_from_78_to_112_f_only(temp_f: float) -> None:
    """The coolest air it can be asked for is 78.9 F, at 100 %."""
    with pytest.raises(ValueError, match="78 to 112 F"):
        heat_index_regression_f(temp_f, 10.0)
    assert heat_index_regression_f(78.0, 60.0) == pytest.approx(79.0, abs=1.0)
