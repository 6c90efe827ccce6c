"""Evaporation against worked tanks and the published pan coefficient."""

from math import exp, pi, sqrt

import pytest

from binder.science.evaporation import (
    open_water_mm_per_h,
    reference_mm_per_h,
    surface_loss_l_per_day,
    wind_at_2_m,
)

L_PER_US_GAL = 3.785411784


@pytest.mark.parametrize(
    ("across_ft", "inches", "gallons"),
    [
        (2.0, 0.25, 0.5),
        (4.0, 0.5, 3.9),
        (6.0, 0.25, 4.4),
        (8.0, 0.5, 15.7),
        (10.0, 0.25, 12.2),
        (10.0, 0.5, 24.5),
    ],
)
def test_round_tanks_lose_what_others_worked(
    across_ft: float, inches: float, gallons: float
) -> None:
    """Gallons a day to one decimal (derived); the loss rates are [water-114]."""
    area_m2 = pi / 4 * (across_ft * 0.3048) ** 2
    found = surface_loss_l_per_day(area_m2, inches * 25.4) / L_PER_US_GAL
    assert found == pytest.approx(gallons, abs=0.06)


def test_a_millimetre_off_a_square_metre_is_a_litre() -> None:
    """3 m2 x 6 mm = 18 L."""
    assert surface_loss_l_per_day(3.0, 6.0) == 18.0


def test_a_still_day_loses_nothing() -> None:
    """Zero is allowed."""
    assert surface_loss_l_per_day(0.0, 6.0) == 0.0
    assert surface_loss_l_per_day(3.0, 0.0) == 0.0


def test_losses_that_cannot_be_are_refused() -> None:
    """Each message names what is wrong."""
    with pytest.raises(ValueError, match="area -1 m2"):
        surface_loss_l_per_day(-1.0, 6.0)
    with pytest.raises(ValueError, match="loss -1 mm/day"):
        surface_loss_l_per_day(3.0, -1.0)


# Open water by the hour ----------------------------------------------------------------------


def test_the_worked_hours_of_fao_56() -> None:
    """Example 19, N'Diaye in Senegal on 1 October: 0.63 mm from 14 to 15 h, 0.00 from 2 to 3 h.

    From memory, not read: 38 C, 52 %, 3.3 m/s, 2.450 MJ/m2, sky 0.922; then 28 C, 90 %,
    1.9 m/s, no sun, sky 0.8.
    """
    by_day = reference_mm_per_h(38.0, 52.0, 3.3, 2.450 / 0.0036, 0.922)
    by_night = reference_mm_per_h(28.0, 90.0, 1.9, 0.0, 0.8)
    assert by_day == pytest.approx(0.63, abs=0.005)
    assert by_night == pytest.approx(0.0, abs=0.005)
    assert open_water_mm_per_h(38.0, 52.0, 3.3, 2.450 / 0.0036, 0.922) / by_day == 1.05


def test_the_hour_agrees_with_the_equation_written_out() -> None:
    """The same hour by hand: the constants of the method in the order of its page."""
    full = 0.6108 * exp(17.27 * 30 / (30 + 237.3))  # 4.243 kPa
    slope = 4098 * full / (30 + 237.3) ** 2  # 0.2434
    gamma = 0.000665 * 101.3  # 0.0674
    vapour = full * 0.5
    net = 0.77 * 1.8 - 2.043e-10 * 303.16**4 * (0.34 - 0.14 * sqrt(vapour)) * (
        1.35 * 0.8 - 0.35
    )
    by_hand = (0.408 * slope * net * 0.9 + gamma * 37 / 303 * 2 * (full - vapour)) / (
        slope + gamma * (1 + 0.34 * 2)
    )
    assert reference_mm_per_h(30.0, 50.0, 2.0, 500.0, 0.8) == pytest.approx(by_hand, rel=1e-9)


def test_more_sun_wind_and_drought_take_more() -> None:
    """Each alone raises the loss; air full of water on a still night takes nothing."""
    middle = open_water_mm_per_h(30.0, 50.0, 2.0, 500.0, 0.8)
    assert open_water_mm_per_h(30.0, 50.0, 2.0, 700.0, 0.8) > middle
    assert open_water_mm_per_h(30.0, 50.0, 4.0, 500.0, 0.8) > middle
    assert open_water_mm_per_h(30.0, 30.0, 2.0, 500.0, 0.8) > middle
    assert open_water_mm_per_h(15.0, 100.0, 0.0, 0.0, 1.0) == 0.0


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ((61.0, 50.0, 2.0, 500.0, 0.8), "air temperature 61 C"),
        ((30.0, 101.0, 2.0, 500.0, 0.8), "relative humidity 101 %"),
        ((30.0, 50.0, -1.0, 500.0, 0.8), "wind -1 m/s"),
        ((30.0, 50.0, 2.0, 1500.0, 0.8), "sun 1500 W/m2"),
        ((30.0, 50.0, 2.0, 500.0, 0.1), "sun over that of a clear sky 0.1"),
    ],
)
def test_hours_that_cannot_be_are_refused(given: tuple[float, ...], said: str) -> None:
    """Each message names what is wrong."""
    with pytest.raises(ValueError, match=said):
        open_water_mm_per_h(*given)


def test_wind_at_two_meters() -> None:
    """3.2 m/s at 10 m are 2.4 at 2 m: FAO 56, example 14, from memory; at 2 m it stays."""
    assert wind_at_2_m(3.2, 10.0) == pytest.approx(2.4, abs=0.01)
    assert wind_at_2_m(3.0, 2.0) == pytest.approx(3.0, rel=0.001)
    with pytest.raises(ValueError, match=r"height of the wind gauge 0\.1 m"):
        wind_at_2_m(3.0, 0.1)
