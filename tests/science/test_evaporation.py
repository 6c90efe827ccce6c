"""Evaporation against worked tanks and the published pan coefficient."""

from math import pi

import pytest

from binder.science.evaporation import surface_loss_l_per_day

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
