"""Moist air against Stull, ASHRAE, Lawrence, and CoolProp as an independent reference."""

import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI
from hypothesis import given
from hypothesis import strategies as st

from binder.science.humidity import (
    dew_point_c,
    relative_humidity_pct,
    saturation_pressure_hpa,
    wet_bulb_c,
    wet_bulb_exact_c,
)

ZERO_C_K = 273.15
SEA_LEVEL_PA = 101325.0

# Published rows -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("temp_c", "psi"),
    [(25.0, 0.45973), (5.0, 0.12656), (50.0, 1.79140)],  # 77, 41 and 122 F
)
def test_saturation_pressure_is_within_03_pct_of_the_ashrae_table(
    temp_c: float, psi: float
) -> None:
    """ASHRAE Fundamentals 2017 chapter 1 table 3 [heat-62]; 1 psi = 68.9476 hPa."""
    assert saturation_pressure_hpa(temp_c) == pytest.approx(psi * 68.94757, rel=0.003)


def test_stull_reproduces_his_worked_value() -> None:
    """20 C and 50 % give 13.69934 C [heat-61, worked value]."""
    assert wet_bulb_c(20.0, 50.0) == pytest.approx(13.69934, abs=1e-5)


def test_the_handbook_example_runs_forward() -> None:
    """100 F at 13 % has a wet bulb of 65 F [heat-62, ASHRAE example 1] to half a degree F."""
    assert wet_bulb_exact_c(37.7778, 13.0) * 1.8 + 32 == pytest.approx(65.0, abs=0.5)


def test_the_handbook_example_has_its_dew_point() -> None:
    """100 F at 13 % has a dew point of 40 F [heat-62, ASHRAE example 1] to 1 F."""
    assert dew_point_c(37.7778, 13.0) * 1.8 + 32 == pytest.approx(40.0, abs=1.0)


# Worked by hand from the printed equations --------------------------------------------------


@pytest.mark.parametrize(
    ("temp_c", "expected_hpa"),
    [
        (5.0, 8.715595),  # 6.1094 x exp(17.625 x 5 / 248.04 = 0.355285)
        (35.0, 56.175693),  # 6.1094 x exp(17.625 x 35 / 278.04 = 2.218656)
    ],
)
def test_saturation_pressure_follows_the_magnus_form(
    temp_c: float, expected_hpa: float
) -> None:
    """The equation of [heat-63], exponent worked beside each row."""
    assert saturation_pressure_hpa(temp_c) == pytest.approx(expected_hpa, rel=1e-6)


def test_dew_point_follows_the_inverse_magnus_form() -> None:
    """Ln 0.4 = -0.916291; + 2.218656 = 1.302365; 243.04 x that / (17.625 - that) = 19.39189."""
    assert dew_point_c(35.0, 40.0) == pytest.approx(19.391891, abs=1e-6)


def test_relative_humidity_is_the_ratio_of_two_saturation_pressures() -> None:
    """100 x exp(17.625 x 20 / 263.04 - 17.625 x 30 / 273.04) = 55.07749 %."""
    assert relative_humidity_pct(30.0, 20.0) == pytest.approx(55.077490, abs=1e-5)


@pytest.mark.parametrize(
    ("temp_c", "rh_pct", "terms"),
    [
        (40.0, 5.0, (20.252639, 1.548578, -1.278539, 0.005038, -4.686035)),
        (30.0, 90.0, (29.547313, 1.562463, -1.559475, 3.755339, -4.686035)),
        (-10.0, 60.0, (-8.984371, 1.550799, -1.553652, 1.722406, -4.686035)),
    ],
)
def test_stull_is_the_sum_of_his_five_terms(
    temp_c: float, rh_pct: float, terms: tuple[float, ...]
) -> None:
    """Each term of [heat-61] equation 1 worked on its own; dry, humid and freezing air."""
    assert wet_bulb_c(temp_c, rh_pct) == pytest.approx(sum(terms), abs=5e-6)


# Against CoolProp, which solves the real gas -------------------------------------------------


@pytest.mark.parametrize("temp_c", [10.0, 20.0, 30.0, 40.0, 50.0])
@pytest.mark.parametrize("rh_pct", [20.0, 40.0, 60.0, 80.0, 100.0])
@pytest.mark.parametrize("pressure_pa", [SEA_LEVEL_PA, 85_000.0])
def test_exact_wet_bulb_agrees_with_coolprop(
    temp_c: float, rh_pct: float, pressure_pa: float
) -> None:
    """At sea level and at about 1,500 m, within 0.1 C."""
    inputs = ("T", temp_c + ZERO_C_K, "R", rh_pct / 100, "P", pressure_pa)
    expected = HAPropsSI("B", *inputs) - ZERO_C_K
    assert wet_bulb_exact_c(temp_c, rh_pct, pressure_pa) == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize("temp_c", [10.0, 20.0, 30.0, 40.0, 50.0])
@pytest.mark.parametrize("rh_pct", [20.0, 40.0, 60.0, 80.0, 100.0])
def test_dew_point_agrees_with_coolprop(temp_c: float, rh_pct: float) -> None:
    """Within the 0.35 C that Lawrence claims, where dew (not frost) forms."""
    inputs = ("T", temp_c + ZERO_C_K, "R", rh_pct / 100, "P", SEA_LEVEL_PA)
    expected = HAPropsSI("D", *inputs) - ZERO_C_K
    if expected > 0:
        assert dew_point_c(temp_c, rh_pct) == pytest.approx(expected, abs=0.35)


@pytest.mark.parametrize("temp_c", [1.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0])
def test_saturation_pressure_agrees_with_coolprop(temp_c: float) -> None:
    """Within 0.4 % of the vapour pressure of water."""
    expected_pa = PropsSI("P", "T", temp_c + ZERO_C_K, "Q", 0, "Water")
    assert saturation_pressure_hpa(temp_c) == pytest.approx(expected_pa / 100, rel=0.004)


@pytest.mark.parametrize(("temp_c", "rh_pct"), [(20.0, 20.0), (30.0, 40.0), (35.0, 70.0)])
def test_stull_agrees_with_coolprop_within_his_own_error(temp_c: float, rh_pct: float) -> None:
    """-1.0 to +0.65 C [heat-61, abstract]."""
    inputs = ("T", temp_c + ZERO_C_K, "R", rh_pct / 100, "P", SEA_LEVEL_PA)
    error = wet_bulb_c(temp_c, rh_pct) - (HAPropsSI("B", *inputs) - ZERO_C_K)
    assert -1.0 <= error <= 0.65


# Our own edges ------------------------------------------------------------------------------


def test_without_a_pressure_the_farm_is_at_sea_level() -> None:
    """The pressure left out is 101,325 Pa."""
    assert wet_bulb_exact_c(35.0, 30.0) == wet_bulb_exact_c(35.0, 30.0, SEA_LEVEL_PA)


def test_a_sea_level_default_is_told_from_one_a_hundredth_off() -> None:
    """1 % less pressure moves the wet bulb, so the default cannot have slipped unseen."""
    assert wet_bulb_exact_c(35.0, 30.0) - wet_bulb_exact_c(35.0, 30.0, 100_311.75) > 0.01


@given(rh_pct=st.floats(5.0, 99.0))
def test_stull_never_exceeds_the_air(rh_pct: float) -> None:
    """A wet bulb above the air temperature cannot be, even at 50 C where the fit says so."""
    assert wet_bulb_c(50.0, rh_pct) <= 50.0


def test_stull_is_held_at_the_air_temperature_in_the_hottest_wettest_corner() -> None:
    """The fit alone would say 50.02 C at 50 C and 99 %."""
    assert wet_bulb_c(50.0, 99.0) == 50.0


def test_stull_is_used_down_to_the_line_of_cold_dry_air() -> None:
    """15 - 1.3 x (-10) = 28 %: at it the fit stands, just below it is refused."""
    assert wet_bulb_c(-10.0, 28.0) == pytest.approx(wet_bulb_exact_c(-10.0, 28.0), abs=0.65)
    with pytest.raises(ValueError, match=r"27\.99 % at -10 C .* 28 to 99 % .* cold and dry"):
        wet_bulb_c(-10.0, 27.99)


def test_the_line_of_cold_dry_air_starts_from_15_pct_at_freezing() -> None:
    """15 - 1.3 x 0 = 15 %."""
    assert wet_bulb_c(0.0, 15.0) < 0.0
    with pytest.raises(ValueError, match="15 to 99 %"):
        wet_bulb_c(0.0, 14.99)


@given(temp_c=st.floats(-39.0, 60.0), rh_pct=st.floats(5.0, 100.0))
def test_dew_point_and_humidity_undo_each_other(temp_c: float, rh_pct: float) -> None:
    """Dew point and back gives the humidity again."""
    dew = dew_point_c(temp_c, rh_pct)
    if -40.0 <= dew <= temp_c:
        assert relative_humidity_pct(temp_c, dew) == pytest.approx(rh_pct, rel=1e-9)


def test_saturated_air_is_at_its_dew_point() -> None:
    """At 100 % dew point and air are one temperature, and the other way round."""
    assert dew_point_c(25.0, 100.0) == pytest.approx(25.0, abs=1e-12)
    assert relative_humidity_pct(25.0, 25.0) == 100.0


def test_a_dew_point_above_the_air_is_named_as_impossible() -> None:
    """Air cannot hold more than it can hold."""
    said = "dew point 26 C is above the air temperature 25 C: air cannot hold that much water"
    with pytest.raises(ValueError, match=said):
        relative_humidity_pct(25.0, 26.0)


@pytest.mark.parametrize("temp_c", [-40.0, 60.0])
def test_the_magnus_span_includes_its_ends(temp_c: float) -> None:
    """-40 and 60 C are good [heat-63]."""
    assert saturation_pressure_hpa(temp_c) > 0
    assert dew_point_c(temp_c, 100.0) == pytest.approx(temp_c, abs=1e-9)
    assert relative_humidity_pct(temp_c, temp_c) == 100.0
    assert wet_bulb_exact_c(temp_c, 100.0) == pytest.approx(temp_c, abs=0.01)


@pytest.mark.parametrize("temp_c", [-40.01, 60.01])
def test_outside_the_magnus_span_nothing_is_given(temp_c: float) -> None:
    """Past -40 or 60 C every function refuses and names the span."""
    span = "-40 to 60 C"
    with pytest.raises(ValueError, match=span):
        saturation_pressure_hpa(temp_c)
    with pytest.raises(ValueError, match=span):
        dew_point_c(temp_c, 50.0)
    with pytest.raises(ValueError, match=f"^air temperature .*{span}"):
        relative_humidity_pct(temp_c, 20.0)
    with pytest.raises(ValueError, match=f"^dew point .*{span}"):
        relative_humidity_pct(60.0, temp_c)
    with pytest.raises(ValueError, match=span):
        wet_bulb_exact_c(temp_c, 50.0)


@pytest.mark.parametrize(("temp_c", "rh_pct"), [(-20.0, 99.0), (50.0, 5.0)])
def test_the_stull_span_includes_its_ends(temp_c: float, rh_pct: float) -> None:
    """-20 to 50 C and 5 to 99 % [heat-61]."""
    assert wet_bulb_c(temp_c, rh_pct) <= temp_c


@pytest.mark.parametrize(
    ("temp_c", "rh_pct", "span"),
    [
        (-20.01, 60.0, "-20 to 50 C"),
        (50.01, 60.0, "-20 to 50 C"),
        (30.0, 4.99, "5 to 99 %"),
        (30.0, 99.01, "5 to 99 %"),
    ],
)
def test_outside_the_stull_span_nothing_is_given(
    temp_c: float, rh_pct: float, span: str
) -> None:
    """The message names the span of [heat-61]."""
    with pytest.raises(ValueError, match=span):
        wet_bulb_c(temp_c, rh_pct)


def test_a_dew_point_needs_between_1_and_100_pct() -> None:
    """1 % is the driest taken (our choice): ln 0.01 gives -28.98424 C at 35 C."""
    assert dew_point_c(35.0, 1.0) == pytest.approx(-28.984238, abs=1e-6)
    for rh_pct in (0.99, 100.01):
        with pytest.raises(ValueError, match="1 to 100 %"):
            dew_point_c(35.0, rh_pct)


@pytest.mark.parametrize("rh_pct", [-0.01, 100.01])
def test_humidity_runs_from_0_to_100_pct(rh_pct: float) -> None:
    """Outside 0 to 100 % there is no air."""
    with pytest.raises(ValueError, match="0 to 100 %"):
        wet_bulb_exact_c(30.0, rh_pct)


def test_perfectly_dry_air_has_a_wet_bulb() -> None:
    """0 % is inside the range."""
    assert wet_bulb_exact_c(30.0, 0.0) < 15.0


@pytest.mark.parametrize("pressure_pa", [55_000.0, 110_000.0])
def test_pressure_includes_its_ends(pressure_pa: float) -> None:
    """55,000 and 110,000 Pa are good (our choice)."""
    expected = HAPropsSI("B", "T", 303.15, "R", 0.5, "P", pressure_pa) - ZERO_C_K
    assert wet_bulb_exact_c(30.0, 50.0, pressure_pa) == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize("pressure_pa", [54_999.0, 110_001.0])
def test_outside_the_pressure_of_a_farm_nothing_is_given(pressure_pa: float) -> None:
    """The message names the span."""
    with pytest.raises(ValueError, match=r"55000 to 110000 Pa"):
        wet_bulb_exact_c(30.0, 50.0, pressure_pa)
