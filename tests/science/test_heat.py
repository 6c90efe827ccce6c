"""Animal indices against their published values and against arithmetic by hand."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.heat import (
    cattle_adjusted_index,
    hen_index,
    horse_sum,
    livestock_index,
    pig_index_thip,
    recovery_hours,
    sheep_index,
    turkey_index,
)
from binder.science.humidity import wet_bulb_c


def _c(temp_f: float) -> float:
    return (temp_f - 32) / 1.8


# Published rows -----------------------------------------------------------------------------


def test_the_livestock_index_reproduces_its_worked_value() -> None:
    """23 C and 65 % give 70.4355 [heat-12]."""
    assert livestock_index(23.0, 65.0) == pytest.approx(70.4355, abs=1e-6)


@pytest.mark.parametrize(
    ("temp_f", "rh_pct", "printed", "tolerance"),
    [
        (86.0, 60.0, 80.0, 0.5),  # heat-17
        (72.0, 100.0, 72.0, 0.7),  # heat-15
        (77.0, 50.0, 72.0, 0.7),  # heat-15
        (82.0, 20.0, 72.0, 0.7),  # heat-15
        (75.0, 100.0, 75.0, 0.6),  # heat-73
        (78.0, 60.0, 74.0, 0.6),  # heat-73
        (80.0, 50.0, 74.0, 0.6),  # heat-73
        (82.0, 10.0, 70.0, 0.6),  # heat-73
        (95.0, 75.0, 90.0, 0.6),  # heat-73
    ],
)
def test_the_livestock_index_agrees_with_printed_tables(
    temp_f: float, rh_pct: float, printed: float, tolerance: float
) -> None:
    """Tables print whole numbers and round in their own ways."""
    assert livestock_index(_c(temp_f), rh_pct) == pytest.approx(printed, abs=tolerance)


def test_the_pig_index_reproduces_its_worked_value() -> None:
    """30.25 C with a wet bulb of 25.5 C: 80.74 and 83.4575 [heat-14]."""
    assert pig_index_thip(30.25, 25.5) == pytest.approx(83.4575, abs=1e-9)


@pytest.mark.parametrize(
    ("temp_c", "rh_pct", "printed"), [(36.0, 45.0, 32.1), (27.0, 56.0, 24.2)]
)
def test_the_hen_index_reproduces_both_measured_values(
    temp_c: float, rh_pct: float, printed: float
) -> None:
    """Kang et al. 2020 [heat-39]; wet bulb by Stull, hence 0.4."""
    assert hen_index(temp_c, wet_bulb_c(temp_c, rh_pct)) == pytest.approx(printed, abs=0.4)


# Worked by hand from the printed equations --------------------------------------------------


def test_the_livestock_index_in_dry_air() -> None:
    """95 F (35 C) at 20 %: 95 - (0.55 - 0.11) x (63 - 26) = 95 - 0.44 x 37 = 78.72."""
    assert livestock_index(35.0, 20.0) == pytest.approx(78.72, abs=1e-9)


def test_the_livestock_index_of_saturated_air_is_the_air() -> None:
    """At 100 % the second bracket is 0.55 - 0.55 = 0: 35 C reads 95."""
    assert livestock_index(35.0, 100.0) == pytest.approx(95.0, abs=1e-9)


def test_the_pig_index_by_hand() -> None:
    """0.72 x (40 + 20) + 40.6 = 83.8; 1.17 x 40 + 0.63 x 20 + 32 = 91.4."""
    assert pig_index_thip(40.0, 20.0) == pytest.approx(91.4, abs=1e-9)


def test_the_pig_index_is_065_dry_and_035_wet_in_fahrenheit() -> None:
    """Its form in [heat-77]: 0.65 x 104 F + 0.35 x 68 F = 91.4."""
    assert pig_index_thip(40.0, 20.0) == pytest.approx(0.65 * 104 + 0.35 * 68, abs=1e-9)


def test_bird_indices_by_hand() -> None:
    """0.6 x 40 + 0.4 x 20 = 32 (hen); 0.74 x 40 + 0.26 x 20 = 34.8 (turkey)."""
    assert hen_index(40.0, 20.0) == pytest.approx(32.0, abs=1e-9)
    assert turkey_index(40.0, 20.0) == pytest.approx(34.8, abs=1e-9)


def test_the_sheep_index_by_hand() -> None:
    """34.4 - (0.31 - 0.0031 x 40) x (34.4 - 14.4) = 34.4 - 0.186 x 20 = 30.68."""
    assert sheep_index(34.4, 40.0) == pytest.approx(30.68, abs=1e-9)


def test_the_horse_sum_by_hand() -> None:
    """95 F and 70 % make 165."""
    assert horse_sum(95.0, 70.0) == 165.0


def test_wind_and_sun_for_cattle_by_hand() -> None:
    """80 + 4.51 - 1.992 x 2 + 0.0068 x 800 = 85.966, printed 85.97 [heat-76]."""
    assert cattle_adjusted_index(80.0, 2.0, 800.0) == pytest.approx(85.966, abs=1e-9)


def test_recovery_hours_are_those_below_72() -> None:
    """An hour at 72 is no recovery [heat-91]; 71.99 is."""
    assert recovery_hours([72.0, 71.99, 60.0, 72.01, 90.0]) == 2


def test_a_looser_recovery_line_may_be_asked_for() -> None:
    """74 counts the hour at 73 too [heat-21]."""
    assert recovery_hours([73.0, 74.0], threshold=74.0) == 1


def test_no_hours_no_recovery() -> None:
    """Nothing recorded is nothing recovered."""
    assert recovery_hours([]) == 0


# Our own edges ------------------------------------------------------------------------------


@given(
    temp_c=st.floats(26 / 1.8, 49.0), rh_pct=st.floats(0.0, 100.0), step_c=st.floats(0.01, 1.0)
)
def test_hotter_air_never_lowers_the_livestock_and_sheep_index(
    temp_c: float, rh_pct: float, step_c: float
) -> None:
    """At one humidity both rise with the temperature."""
    assert livestock_index(temp_c + step_c, rh_pct) > livestock_index(temp_c, rh_pct)
    assert sheep_index(temp_c + step_c, rh_pct) > sheep_index(temp_c, rh_pct)


@given(rh_pct=st.floats(0.0, 99.0), step_pct=st.floats(0.1, 1.0))
def test_damper_air_never_lowers_the_livestock_and_sheep_index(
    rh_pct: float, step_pct: float
) -> None:
    """At 35 C both rise with the humidity."""
    assert livestock_index(35.0, rh_pct + step_pct) > livestock_index(35.0, rh_pct)
    assert sheep_index(35.0, rh_pct + step_pct) > sheep_index(35.0, rh_pct)


@pytest.mark.parametrize(
    ("temp_c", "rh_pct", "named"),
    [
        (-20.01, 50.0, "-20 to 50 C"),
        (50.01, 50.0, "-20 to 50 C"),
        (30.0, -0.01, "0 to 100 %"),
        (30.0, 100.01, "0 to 100 %"),
    ],
)
def test_outside_the_air_of_a_farm_nothing_is_given(
    temp_c: float, rh_pct: float, named: str
) -> None:
    """The message names the range."""
    for index in (livestock_index, sheep_index):
        with pytest.raises(ValueError, match=named):
            index(temp_c, rh_pct)


@pytest.mark.parametrize(("temp_c", "rh_pct"), [(-20.0, 0.0), (50.0, 100.0)])
def test_the_ends_of_the_air_are_inside(temp_c: float, rh_pct: float) -> None:
    """-20 and 50 C, 0 and 100 % are answered."""
    assert livestock_index(temp_c, rh_pct) <= 122.0
    assert sheep_index(temp_c, rh_pct) <= 50.0


@pytest.mark.parametrize("index", [pig_index_thip, hen_index, turkey_index])
def test_a_wet_bulb_index_refuses_what_cannot_be(
    index: Callable[[float, float], float],
) -> None:
    """Both bulbs stay in range and the wet one is never the warmer."""
    assert index(50.0, 50.0) > index(-20.0, -20.0)
    with pytest.raises(ValueError, match=r"wet bulb 30\.1 C is above the air temperature 30 C"):
        index(30.0, 30.1)
    with pytest.raises(ValueError, match=r"^air temperature .*-20 to 50 C"):
        index(50.1, 20.0)
    with pytest.raises(ValueError, match=r"^wet bulb temperature .*-20 to 50 C"):
        index(10.0, -20.1)


@pytest.mark.parametrize(
    ("temp_f", "rh_pct", "named"),
    [
        (-4.01, 50.0, "-4 to 122 F"),
        (122.01, 50.0, "-4 to 122 F"),
        (90.0, -0.01, "0 to 100 %"),
        (90.0, 100.01, "0 to 100 %"),
    ],
)
def test_the_horse_sum_has_its_range(temp_f: float, rh_pct: float, named: str) -> None:
    """The message names the range."""
    with pytest.raises(ValueError, match=named):
        horse_sum(temp_f, rh_pct)


def test_the_ends_of_the_horse_sum_are_inside() -> None:
    """-4 F and 0 %, 122 F and 100 %."""
    assert horse_sum(-4.0, 0.0) == -4.0
    assert horse_sum(122.0, 100.0) == 222.0


@pytest.mark.parametrize(
    ("thi", "wind_m_s", "sun_w_m2", "named"),
    [
        (-0.01, 1.0, 1.0, "livestock index -0.01 is outside the range 0 to 122$"),
        (122.01, 1.0, 1.0, "0 to 122$"),
        (80.0, -0.01, 1.0, "wind -0.01 m/s is outside the range 0 to 15 m/s"),
        (80.0, 15.01, 1.0, "0 to 15 m/s"),
        (80.0, 1.0, -0.01, "sun -0.01 W/m2 is outside the range 0 to 1400 W/m2"),
        (80.0, 1.0, 1400.1, "0 to 1400 W/m2"),
    ],
)
def test_the_cattle_index_has_its_range(
    thi: float, wind_m_s: float, sun_w_m2: float, named: str
) -> None:
    """The message names the range."""
    with pytest.raises(ValueError, match=named):
        cattle_adjusted_index(thi, wind_m_s, sun_w_m2)


@pytest.mark.parametrize(
    ("thi", "wind_m_s", "sun_w_m2"), [(0.0, 0.0, 0.0), (122.0, 15.0, 1400.0)]
)
def test_the_ends_for_cattle_are_inside(thi: float, wind_m_s: float, sun_w_m2: float) -> None:
    """The corners are answered."""
    assert cattle_adjusted_index(thi, wind_m_s, sun_w_m2) > 4.0


@pytest.mark.parametrize("index", [-0.01, 122.01, float("nan")])
def test_an_hour_that_is_no_index_is_refused(index: float) -> None:
    """One bad hour spoils the day, rather than counting as cool or hot."""
    with pytest.raises(ValueError, match="0 to 122"):
        recovery_hours([70.0, index])
