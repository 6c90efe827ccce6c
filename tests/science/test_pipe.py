"""Hoses against published volumes, losses and measured heat, and against hand arithmetic."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.pipe import (
    flush_time_s,
    held_volume_l,
    pressure_loss_kpa,
    pressure_loss_psi_100ft,
)
from binder.science.pipe_heat import (
    daily_wave_left,
    outlet_c,
    seconds_until_c,
    still_water_c,
    time_constant_s,
    water_after_c,
)

L_PER_GAL = 3.785411784
MM_PER_IN = 25.4
M_PER_FT = 0.3048

# Published rows -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("inside_in", "length_ft", "printed_gal", "tolerance_gal"),
    [(0.625, 50.0, 0.8, 0.02), (0.75, 50.0, 1.2, 0.06), (1.0, 100.0, 4.1, 0.05)],
)
def test_held_water_agrees_with_the_published_table(
    inside_in: float, length_ft: float, printed_gal: float, tolerance_gal: float
) -> None:
    """Water handling estimations, table 3.1 [water-75], one decimal."""
    held = held_volume_l(inside_in * MM_PER_IN, length_ft * M_PER_FT)
    assert held / L_PER_GAL == pytest.approx(printed_gal, abs=tolerance_gal)


def test_pressure_loss_agrees_with_the_published_chart() -> None:
    """2 gal/min in 1/2 in reads 5 psi per 100 ft [water-74]."""
    assert pressure_loss_psi_100ft(2.0, 0.5, 140.0) == pytest.approx(5.0, abs=0.1)


def test_a_dark_hose_gets_as_hot_as_one_was_measured() -> None:
    """Air 90 F: above 120 F by thermometer [water-71]; the model says 124 F."""
    found_f = still_water_c(32.2222, 0.9, 1000.0, 15.0) * 1.8 + 32
    assert found_f > 120.0
    assert found_f == pytest.approx(124.4, abs=0.1)


def test_a_desert_hose_gets_as_hot_as_the_fire_department_warns() -> None:
    """Las Vegas: 130 to 140 F [water-70]; the model at 106 F in still air to breeze."""
    for film in (15.0, 20.0):
        found_f = still_water_c((106 - 32) / 1.8, 0.9, 1000.0, film) * 1.8 + 32
        assert 130.0 <= found_f <= 141.0


# Worked by hand -----------------------------------------------------------------------------


def test_held_water_by_hand() -> None:
    """Pi / 4 x 0.02^2 m2 x 10 m = 0.00314159 m3 = 3.14159 L."""
    assert held_volume_l(20.0, 10.0) == pytest.approx(3.14159265, abs=1e-7)


def test_flush_time_by_hand() -> None:
    """1.59 gal, 1.5 times over, at 5 gal/min: 60 x 2.385 / 5 = 28.62 s."""
    held_l, flow = 1.59 * L_PER_GAL, 5.0 * L_PER_GAL
    assert flush_time_s(held_l, flow, 1.5) == pytest.approx(28.62, abs=1e-9)


@pytest.mark.parametrize(
    ("flow_gpm", "inside_in", "c", "expected"),
    [
        (2.0, 0.5, 140.0, 5.062138),  # the table's own row, to more places
        # log10: 452 = 2.655138; (5/130)^1.852 = -2.620531; 0.75^-4.871 = +0.608577; 10^0.643184
        (5.0, 0.75, 130.0, 4.397283),
        (1.0, 1.0, 150.0, 0.0421713),  # 452 x 150^-1.852 = 452 x 9.32994e-5
    ],
)
def test_pressure_loss_by_hand(
    flow_gpm: float, inside_in: float, c: float, expected: float
) -> None:
    """4.52 Q^1.852 / (C^1.852 d^4.871) psi per foot [water-76], times 100."""
    assert pressure_loss_psi_100ft(flow_gpm, inside_in, c) == pytest.approx(expected, rel=1e-5)


def test_pressure_loss_is_the_same_in_metric() -> None:
    """2 gal/min, 1/2 in, 50 ft: 5.062138 psi x 6.894757 kPa / 2 = 17.45110 kPa."""
    found = pressure_loss_kpa(2 * L_PER_GAL, 12.7, 50 * M_PER_FT, 140.0)
    assert found == pytest.approx(17.45110, rel=1e-5)


@pytest.mark.parametrize(
    ("air_f", "absorbed", "film", "printed_f"),
    [
        (81.0, 0.9, 12.0, 124.0),
        (90.0, 0.9, 20.0, 115.0),
        (95.0, 0.9, 15.0, 129.0),
        (100.0, 0.4, 15.0, 116.0),  # 37.78 + 400 / 47.12 = 46.27 C = 115.3: printed one high
        (106.0, 0.9, 12.0, 149.0),
        (90.0, 0.96, 15.0, 126.0),
        (90.0, 0.66, 15.0, 115.0),
        (90.0, 0.14, 15.0, 95.0),
    ],
)
def test_still_water_agrees_with_the_derived_table(
    air_f: float, absorbed: float, film: float, printed_f: float
) -> None:
    """Worked by others from the same balance, whole degrees F at 1000 W/m2 (derived)."""
    found_f = still_water_c((air_f - 32) / 1.8, absorbed, 1000.0, film) * 1.8 + 32
    assert found_f == pytest.approx(printed_f, abs=0.8)


def test_still_water_by_hand() -> None:
    """30 + 0.85 x 800 / (3.141593 x 16) = 30 + 680 / 50.26548 = 43.52817 C."""
    assert still_water_c(30.0, 0.85, 800.0, 16.0) == pytest.approx(43.528170, abs=1e-5)


def test_time_constant_by_hand() -> None:
    """4186000 x 0.02^2 / (4 x 16 x 0.025) = 1674.4 / 1.6 = 1046.5 s."""
    assert time_constant_s(20.0, 25.0, 16.0) == pytest.approx(1046.5, abs=1e-6)


@pytest.mark.parametrize(
    ("inside_in", "minutes"), [(0.5, 10.0), (0.625, 14.0), (0.75, 17.0), (1.0, 23.0)]
)
def test_time_constants_agree_with_the_derived_row(inside_in: float, minutes: float) -> None:
    """Common hose sizes with a wall of 1/8 in, film 15 (derived, whole minutes)."""
    found = time_constant_s(inside_in * MM_PER_IN, (inside_in + 0.25) * MM_PER_IN, 15.0)
    assert found / 60 == pytest.approx(minutes, abs=1.0)


def test_water_warms_by_63_pct_in_one_time_constant() -> None:
    """50 - 30 x exp(-1) = 38.96362; after three, 50 - 30 x exp(-3) = 48.50639."""
    assert water_after_c(20.0, 50.0, 600.0, 600.0) == pytest.approx(38.963617, abs=1e-5)
    assert water_after_c(20.0, 50.0, 1800.0, 600.0) == pytest.approx(48.506388, abs=1e-5)


def test_time_to_a_limit_by_hand() -> None:
    """600 x ln((50 - 20) / (50 - 30)) = 600 x 0.405465 = 243.2791 s."""
    assert seconds_until_c(20.0, 30.0, 50.0, 600.0) == pytest.approx(243.27906, abs=1e-4)


@pytest.mark.parametrize(
    ("flow_l_min", "printed_f"),
    [(0.5, 104.0), (1.0, 90.0), (2.0, 80.0), (5.0, 73.0), (10.0, 71.0)],
)
def test_outlet_agrees_with_the_derived_row(flow_l_min: float, printed_f: float) -> None:
    """100 ft of dark 5/8 in hose, tap 68 F, air 95 F, film 15 (derived, whole degrees F).

    The outside was not stated; 21.5 mm is a common 5/8 in hose.
    """
    equilibrium = still_water_c(35.0, 0.9, 1000.0, 15.0)
    found_f = outlet_c(20.0, equilibrium, flow_l_min, 30.48, 21.5, 15.0) * 1.8 + 32
    assert found_f == pytest.approx(printed_f, abs=0.5)


def test_outlet_by_hand() -> None:
    """Shed 15 x pi x 0.02 x 20 = 18.84956 W/K, carried 2/60 x 4186 = 139.53333 W/K.

    50 - 30 x exp(-18.84956 / 139.53333 = -0.135090) = 50 - 30 x 0.873637 = 23.79089 C.
    """
    assert outlet_c(20.0, 50.0, 2.0, 20.0, 20.0, 15.0) == pytest.approx(23.79089, abs=1e-4)


@pytest.mark.parametrize(
    ("depth_in", "damping_cm", "printed_pct"),
    [
        (4.0, 10.0, 37.0),  # derived: exp(-10.16 / 10) = 0.362
        (8.0, 10.0, 13.0),
        (12.0, 10.0, 5.0),
        (16.0, 10.0, 2.0),
        (4.0, 12.7, 45.0),
        (8.0, 12.7, 20.0),
        (12.0, 12.7, 9.0),
        (16.0, 12.7, 4.0),
    ],
)
def test_the_daily_wave_agrees_with_the_derived_rows(
    depth_in: float, damping_cm: float, printed_pct: float
) -> None:
    """exp(-z/D) [water-79]; the rows round inches to whole cm and print whole percent."""
    left = daily_wave_left(depth_in * 0.0254, damping_cm / 100)
    assert left * 100 == pytest.approx(printed_pct, abs=1.0)


def test_the_daily_wave_by_hand() -> None:
    """exp(-0.2 / 0.1) = 0.1353353."""
    assert daily_wave_left(0.2, 0.1) == pytest.approx(0.1353353, abs=1e-7)


# Our own edges ------------------------------------------------------------------------------


@given(
    start_c=st.floats(0.0, 30.0),
    limit_c=st.floats(31.0, 45.0),
    equilibrium_c=st.floats(46.0, 70.0),
    constant_s=st.floats(60.0, 3000.0),
)
def test_after_the_time_to_a_limit_the_water_is_at_the_limit(
    start_c: float, limit_c: float, equilibrium_c: float, constant_s: float
) -> None:
    """Time and temperature undo each other."""
    seconds = seconds_until_c(start_c, limit_c, equilibrium_c, constant_s)
    found = water_after_c(start_c, equilibrium_c, seconds, constant_s)
    assert found == pytest.approx(limit_c, abs=1e-6)


def test_water_too_warm_from_the_start_needs_no_time() -> None:
    """At the limit or past it, heading either way."""
    assert seconds_until_c(30.0, 30.0, 50.0, 600.0) == 0.0
    assert seconds_until_c(30.0, 30.0, 20.0, 600.0) == 0.0
    assert seconds_until_c(31.0, 30.0, 20.0, 600.0) == 0.0


def test_water_that_ends_at_the_limit_never_passes_it() -> None:
    """Also when it ends below, or cools."""
    assert seconds_until_c(20.0, 30.0, 30.0, 600.0) == math.inf
    assert seconds_until_c(20.0, 30.0, 25.0, 600.0) == math.inf
    assert seconds_until_c(20.0, 30.0, 10.0, 600.0) == math.inf


@given(flow=st.floats(0.1, 20.0), more=st.floats(0.1, 10.0))
def test_faster_water_arrives_cooler(flow: float, more: float) -> None:
    """More flow, less time in the sun."""
    slow = outlet_c(20.0, 54.0, flow, 30.0, 21.5, 15.0)
    fast = outlet_c(20.0, 54.0, flow + more, 30.0, 21.5, 15.0)
    assert 20.0 < fast < slow <= 54.0


def test_no_hose_no_change() -> None:
    """Nothing held, nothing lost, nothing warmed, no depth, no time."""
    assert held_volume_l(15.0, 0.0) == 0.0
    assert flush_time_s(0.0, 5.0, 1.5) == 0.0
    assert pressure_loss_psi_100ft(0.0, 0.5, 140.0) == 0.0
    assert pressure_loss_kpa(8.0, 12.7, 0.0, 140.0) == 0.0
    assert outlet_c(20.0, 54.0, 1.0, 0.0, 21.5, 15.0) == 20.0
    assert water_after_c(20.0, 54.0, 0.0, 600.0) == 20.0
    assert daily_wave_left(0.0, 0.1) == 1.0


@pytest.mark.parametrize("film", [12.0, 20.0])
def test_the_film_includes_its_ends(film: float) -> None:
    """Still air and breeze."""
    assert still_water_c(30.0, 0.0, 0.0, film) == 30.0
    assert time_constant_s(20.0, 20.0, film) > 0.0  # a wall without thickness is allowed
    assert outlet_c(20.0, 20.0, 1.0, 30.0, 21.5, film) == 20.0


@pytest.mark.parametrize("film", [11.99, 20.01])
def test_outside_the_film_nothing_is_given(film: float) -> None:
    """The message names the range."""
    said = "film coefficient .* 12 to 20 W/m2K"
    with pytest.raises(ValueError, match=said):
        still_water_c(30.0, 0.9, 1000.0, film)
    with pytest.raises(ValueError, match=said):
        time_constant_s(15.0, 20.0, film)
    with pytest.raises(ValueError, match=said):
        outlet_c(20.0, 54.0, 1.0, 30.0, 21.5, film)


@pytest.mark.parametrize("temp_c", [-60.01, 100.01])
def test_outside_the_temperatures_of_a_farm_nothing_is_given(temp_c: float) -> None:
    """Each temperature is named in its own message."""
    span = ".*-60 to 100 C"
    with pytest.raises(ValueError, match="^air temperature" + span):
        still_water_c(temp_c, 0.9, 1000.0, 15.0)
    with pytest.raises(ValueError, match="^start temperature" + span):
        water_after_c(temp_c, 50.0, 60.0, 600.0)
    with pytest.raises(ValueError, match="^end temperature" + span):
        water_after_c(20.0, temp_c, 60.0, 600.0)
    with pytest.raises(ValueError, match="^start temperature" + span):
        seconds_until_c(temp_c, 30.0, 50.0, 600.0)
    with pytest.raises(ValueError, match="^limit" + span):
        seconds_until_c(20.0, temp_c, 50.0, 600.0)
    with pytest.raises(ValueError, match="^end temperature" + span):
        seconds_until_c(20.0, 30.0, temp_c, 600.0)
    with pytest.raises(ValueError, match="^tap temperature" + span):
        outlet_c(temp_c, 54.0, 1.0, 30.0, 21.5, 15.0)
    with pytest.raises(ValueError, match="^end temperature" + span):
        outlet_c(20.0, temp_c, 1.0, 30.0, 21.5, 15.0)


@pytest.mark.parametrize("temp_c", [-60.0, 100.0])
def test_the_ends_of_the_temperatures_are_inside(temp_c: float) -> None:
    """-60 and 100 C are answered."""
    assert still_water_c(temp_c, 0.0, 0.0, 15.0) == temp_c


@pytest.mark.parametrize(
    ("absorbed", "sun", "named"),
    [
        (-0.01, 1000.0, "share of sun absorbed -0.01 is outside the range 0 to 1"),
        (1.01, 1000.0, "share of sun absorbed 1.01 is outside the range 0 to 1"),
        (0.9, -0.1, "sun -0.1 W/m2 is outside the range 0 to 1400 W/m2"),
        (0.9, 1400.1, "sun 1400.1 W/m2 is outside the range 0 to 1400 W/m2"),
    ],
)
def test_sun_and_colour_have_their_range(absorbed: float, sun: float, named: str) -> None:
    """The message names the range."""
    with pytest.raises(ValueError, match=named):
        still_water_c(30.0, absorbed, sun, 15.0)
    assert still_water_c(30.0, 1.0, 1400.0, 15.0) == pytest.approx(59.709, abs=0.001)


@pytest.mark.parametrize("c", [119.99, 150.01])
def test_the_coefficient_runs_from_old_steel_to_plastic(c: float) -> None:
    """120 to 150 [water-76]."""
    with pytest.raises(ValueError, match=r"Hazen-Williams coefficient .* 120 to 150"):
        pressure_loss_psi_100ft(2.0, 0.5, c)
    assert pressure_loss_psi_100ft(2.0, 0.5, 120.0) > pressure_loss_psi_100ft(2.0, 0.5, 150.0)


def test_a_hose_thinner_outside_than_inside_is_refused() -> None:
    """The message names the inside diameter as the least."""
    with pytest.raises(
        ValueError, match=r"outside diameter 14\.9 mm is outside the range 15 to"
    ):
        time_constant_s(15.0, 14.9, 15.0)


def test_sizes_and_flows_that_cannot_be_are_refused() -> None:
    """Each message names what is wrong."""
    with pytest.raises(ValueError, match="inside diameter 0 mm is outside its range"):
        held_volume_l(0.0, 10.0)
    with pytest.raises(ValueError, match="length -1 m is outside its range"):
        held_volume_l(15.0, -1.0)
    with pytest.raises(ValueError, match="held water -1 L"):
        flush_time_s(-1.0, 5.0, 1.0)
    with pytest.raises(ValueError, match="flow 0 L/min"):
        flush_time_s(5.0, 0.0, 1.0)
    with pytest.raises(ValueError, match="number of volumes 0"):
        flush_time_s(5.0, 5.0, 0.0)
    with pytest.raises(ValueError, match="flow -1 gal/min"):
        pressure_loss_psi_100ft(-1.0, 0.5, 140.0)
    with pytest.raises(ValueError, match="inside diameter 0 in"):
        pressure_loss_psi_100ft(1.0, 0.0, 140.0)
    with pytest.raises(ValueError, match="length -1 m"):
        pressure_loss_kpa(5.0, 12.7, -1.0, 140.0)
    with pytest.raises(ValueError, match="inside diameter 0 mm"):
        time_constant_s(0.0, 20.0, 15.0)
    with pytest.raises(ValueError, match="time since the flush -1 s"):
        water_after_c(20.0, 50.0, -1.0, 600.0)
    with pytest.raises(ValueError, match="time constant 0 s"):
        water_after_c(20.0, 50.0, 60.0, 0.0)
    with pytest.raises(ValueError, match="time constant 0 s"):
        seconds_until_c(20.0, 30.0, 50.0, 0.0)
    with pytest.raises(ValueError, match="flow 0 L/min"):
        outlet_c(20.0, 54.0, 0.0, 30.0, 21.5, 15.0)
    with pytest.raises(ValueError, match="length -1 m"):
        outlet_c(20.0, 54.0, 1.0, -1.0, 21.5, 15.0)
    with pytest.raises(ValueError, match="outside diameter 0 mm"):
        outlet_c(20.0, 54.0, 1.0, 30.0, 0.0, 15.0)
    with pytest.raises(ValueError, match="depth -1 m"):
        daily_wave_left(-1.0, 0.1)
    with pytest.raises(ValueError, match="damping depth 0 m"):
        daily_wave_left(0.1, 0.0)
