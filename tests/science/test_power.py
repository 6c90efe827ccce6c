"""Circuits, cords, motors and fans against published figures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.power import (
    breaker_needed_a,
    continuous_limit_w,
    fuel_hours,
    starting_w,
    volts_lost,
)

# Published rows -----------------------------------------------------------------------------


@pytest.mark.parametrize(("breaker_a", "watts"), [(15.0, 1440.0), (20.0, 1920.0)])
def test_a_household_circuit_carries_80_pct(breaker_a: float, watts: float) -> None:
    """120 V, NEC 210.20(A) [husbandry-45]."""
    assert continuous_limit_w(breaker_a, 120.0) == pytest.approx(watts, abs=1e-9)


@pytest.mark.parametrize(
    ("continuous_a", "other_a", "rating_a"), [(9.0, 3.0, 14.25), (16.0, 0.0, 20.0)]
)
def test_the_breaker_covers_125_pct_of_the_steady_load(
    continuous_a: float, other_a: float, rating_a: float
) -> None:
    """NEC 210.20(A) [husbandry-45]."""
    assert breaker_needed_a(continuous_a, other_a) == rating_a


@pytest.mark.parametrize(("ohm_per_1000ft", "volts"), [(4.0, 8.0), (1.56, 3.1)])
def test_a_hundred_feet_of_cord_lose_the_published_volts(
    ohm_per_1000ft: float, volts: float
) -> None:
    """10 A over 100 ft of 16 and of 12 AWG [husbandry-46], one decimal."""
    assert volts_lost(10.0, 100.0, ohm_per_1000ft) == pytest.approx(volts, abs=0.05)


@pytest.mark.parametrize(("running", "starting"), [(450.0, 1350.0), (600.0, 1800.0)])
def test_capacitor_motors_start_at_three_times(running: float, starting: float) -> None:
    """1/3 and 1/2 hp [husbandry-46]."""
    assert starting_w(running, 3.0) == starting


def test_a_5_kw_set_runs_a_day_on_60_litres() -> None:
    """2.5 L/h at half load [husbandry-39]."""
    assert fuel_hours(60.0, 2.5) == 24.0


# Worked by hand -----------------------------------------------------------------------------


def test_each_by_hand() -> None:
    """One plain sum each."""
    assert continuous_limit_w(30.0, 240.0) == pytest.approx(5760.0)  # 0.8 x 30 x 240
    assert breaker_needed_a(4.0, 2.5) == 7.5  # 1.25 x 4 + 2.5
    assert volts_lost(7.0, 150.0, 2.5) == pytest.approx(5.25)  # 2 x 150 x 7 x 2.5 / 1000
    assert starting_w(200.0, 2.5) == 500.0
    assert fuel_hours(20.0, 1.6) == 12.5


# Our own edges ------------------------------------------------------------------------------


@given(breaker_a=st.floats(1.0, 200.0))
def test_limit_and_breaker_undo_each_other(breaker_a: float) -> None:
    """80 % and 125 % are one rule."""
    steady_a = continuous_limit_w(breaker_a, 120.0) / 120.0
    assert breaker_needed_a(steady_a, 0.0) == pytest.approx(breaker_a)


def test_nothing_running_needs_nothing() -> None:
    """Zero loads are allowed."""
    assert breaker_needed_a(0.0, 0.0) == 0.0
    assert volts_lost(0.0, 100.0, 4.0) == 0.0
    assert volts_lost(10.0, 0.0, 4.0) == 0.0
    assert starting_w(0.0, 1.0) == 0.0
    assert fuel_hours(0.0, 2.5) == 0.0


@pytest.mark.parametrize("factor", [0.99, 6.01])
def test_the_starting_factor_has_its_range(factor: float) -> None:
    """1 to 6 [husbandry-46]."""
    with pytest.raises(ValueError, match=r"starting factor .* 1 to 6"):
        starting_w(100.0, factor)
    assert starting_w(100.0, 6.0) == 600.0


def test_loads_that_cannot_be_are_refused() -> None:
    """Each message names what is wrong."""
    with pytest.raises(ValueError, match="breaker 0 A"):
        continuous_limit_w(0.0, 120.0)
    with pytest.raises(ValueError, match="voltage 0 V"):
        continuous_limit_w(15.0, 0.0)
    with pytest.raises(ValueError, match="continuous load -1 A"):
        breaker_needed_a(-1.0, 0.0)
    with pytest.raises(ValueError, match="other load -1 A"):
        breaker_needed_a(1.0, -1.0)
    with pytest.raises(ValueError, match="current -1 A"):
        volts_lost(-1.0, 100.0, 4.0)
    with pytest.raises(ValueError, match="length -1 ft"):
        volts_lost(1.0, -1.0, 4.0)
    with pytest.raises(ValueError, match="resistance 0 ohm per 1,000 ft"):
        volts_lost(1.0, 100.0, 0.0)
    with pytest.raises(ValueError, match="running load -1 W"):
        starting_w(-1.0, 3.0)
    with pytest.raises(ValueError, match="fuel -1 L"):
        fuel_hours(-1.0, 2.5)
    with pytest.raises(ValueError, match="fuel use 0 L/h"):
        fuel_hours(60.0, 0.0)
