"""Bleach and peroxide against published recipes and against hand arithmetic."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.chlorine import (
    available_chlorine_wt_pct,
    bleach_for_target_l,
    free_chlorine_mg_l,
    parts_water,
    peroxide_mg_l,
    trade_pct,
)

L_PER_US_GAL = 3.785411784
L_PER_IMP_GAL = 4.54609
ML_PER_FL_OZ = 29.5735295625

# Published rows -----------------------------------------------------------------------------


@pytest.mark.parametrize(("strength", "wanted", "parts"), [(3.5, 0.5, 6.0), (5.0, 0.1, 49.0)])
def test_parts_of_water_are_the_published_ones(
    strength: float, wanted: float, parts: float
) -> None:
    """CDC examples [wallow-1]."""
    assert parts_water(strength, wanted) == pytest.approx(parts, abs=1e-9)


def test_household_bleach_has_its_published_strengths() -> None:
    """6 % by weight, gravity 1.08: 6.17 trade %, 5.71 % available [wallow-10]."""
    assert trade_pct(6.0, 1.08) == pytest.approx(6.17, abs=0.005)
    assert available_chlorine_wt_pct(6.0) == pytest.approx(5.71, abs=0.005)


def test_industrial_bleach_has_its_published_strengths() -> None:
    """12.5 % by weight, gravity 1.196: 142 g/L and 11.9 % available [wallow-8]."""
    assert trade_pct(12.5, 1.196) * 10 == pytest.approx(142.0, abs=0.5)
    assert available_chlorine_wt_pct(12.5) == pytest.approx(11.9, abs=0.05)


def test_one_to_a_hundred_of_5_pct_is_500_ppm() -> None:
    """WHO [wallow-2]: 1 + 99 of a 5 % solution, 0.05 %."""
    assert free_chlorine_mg_l(5.0, 1.0, 99.0) == pytest.approx(500.0, abs=1e-9)


def test_a_tenth_part_of_525_pct_is_5250_ppm() -> None:
    """100 mL and 900 mL of water."""
    assert free_chlorine_mg_l(5.25, 0.1, 0.9) == pytest.approx(5250.0, abs=1e-6)


def test_eleven_ounces_of_pool_chlorine_make_1_ppm_in_ten_thousand_gallons() -> None:
    """12.5 trade % [wallow-61]: about 1 ppm; exactly 1.07."""
    found = free_chlorine_mg_l(12.5, 11 * ML_PER_FL_OZ / 1000, 10_000 * L_PER_US_GAL)
    assert found == pytest.approx(1.07, abs=0.005)


def test_the_poultry_peroxide_stock_gives_its_residual() -> None:
    """59.14 mL of 35 % (gravity 1.13) in 3,780 mL, then 1 in 128: about 48 mg/L [wallow-42]."""
    stock = peroxide_mg_l(35.0, 1.13, 0.05914, 3.780)
    assert stock / 128 == pytest.approx(48.0, abs=0.6)


# Worked by hand -----------------------------------------------------------------------------


def test_strengths_by_hand() -> None:
    """8.4 / 1.05 = 8 % available; 8 x 1.1 = 8.8 trade %."""
    assert available_chlorine_wt_pct(8.4) == pytest.approx(8.0, abs=1e-9)
    assert trade_pct(8.4, 1.1) == pytest.approx(8.8, abs=1e-9)


def test_free_chlorine_by_hand() -> None:
    """10000 x 8 x 0.5 / (0.5 + 199.5) = 200 mg/L."""
    assert free_chlorine_mg_l(8.0, 0.5, 199.5) == pytest.approx(200.0, abs=1e-9)


def test_bleach_for_a_target_by_hand() -> None:
    """199.5 x 200 / (10000 x 8 - 200) = 39900 / 79800 = 0.5 L."""
    assert bleach_for_target_l(8.0, 200.0, 199.5) == pytest.approx(0.5, abs=1e-12)


def test_peroxide_by_hand() -> None:
    """10000 x 3 x 1.1 x 0.5 / (0.5 + 99.5) = 165 mg/L."""
    assert peroxide_mg_l(3.0, 1.1, 0.5, 99.5) == pytest.approx(165.0, abs=1e-9)


# Our own edges ------------------------------------------------------------------------------


@given(
    trade=st.floats(1.0, 15.0), target=st.floats(0.1, 5000.0), water_l=st.floats(1.0, 20_000.0)
)
def test_the_dose_gives_the_target(trade: float, target: float, water_l: float) -> None:
    """Dose and strength undo each other."""
    bleach_l = bleach_for_target_l(trade, target, water_l)
    assert free_chlorine_mg_l(trade, bleach_l, water_l) == pytest.approx(target, rel=1e-9)


def test_no_product_no_chlorine() -> None:
    """Nothing in, nothing there."""
    assert free_chlorine_mg_l(6.0, 0.0, 100.0) == 0.0
    assert bleach_for_target_l(6.0, 0.0, 100.0) == 0.0
    assert peroxide_mg_l(3.0, 1.0, 0.0, 100.0) == 0.0


def test_bleach_at_the_wanted_strength_needs_no_water() -> None:
    """1 / 1 - 1 = 0, and pure powder in its own strength is a kilogram a litre."""
    assert parts_water(5.0, 5.0) == 0.0
    assert parts_water(100.0, 50.0) == 1.0


@pytest.mark.parametrize(
    ("strength", "wanted", "named"),
    [
        (5.0, 0.0, "wanted strength 0 % is outside its range"),
        (5.0, 6.0, "product strength 5 % is outside the range 6 to 100 %"),
        (100.1, 6.0, "product strength 100.1 % is outside the range 6 to 100 %"),
    ],
)
def test_a_dilution_cannot_strengthen(strength: float, wanted: float, named: str) -> None:
    """The message names the range."""
    with pytest.raises(ValueError, match=named):
        parts_water(strength, wanted)


@pytest.mark.parametrize(
    ("wt_pct", "named"),
    [
        (0.0, "strength by weight 0 % is outside its range"),
        (12.51, "strength by weight 12.51 % is outside the range 0 to 12.5 %"),
    ],
)
def test_bleach_by_weight_ends_where_products_do(wt_pct: float, named: str) -> None:
    """The strongest sold is 12.5 % [wallow-8]."""
    with pytest.raises(ValueError, match=named):
        available_chlorine_wt_pct(wt_pct)
    with pytest.raises(ValueError, match=named):
        trade_pct(wt_pct, 1.1)


@pytest.mark.parametrize("gravity", [0.99, 1.21])
def test_bleach_is_heavier_than_water_but_not_much(gravity: float) -> None:
    """1 to 1.2."""
    with pytest.raises(ValueError, match=r"specific gravity .* 1 to 1.2"):
        trade_pct(6.0, gravity)
    assert trade_pct(10.5, 1.0) == pytest.approx(10.0)
    assert trade_pct(10.5, 1.2) == pytest.approx(12.0)


@pytest.mark.parametrize(
    ("trade", "named"),
    [
        (0.0, "trade strength 0 % is outside its range"),
        (15.01, "trade strength 15.01 % is outside the range 0 to 15 %"),
    ],
)
def test_trade_strength_has_its_range(trade: float, named: str) -> None:
    """Above 0 to 15 % (our choice)."""
    with pytest.raises(ValueError, match=named):
        free_chlorine_mg_l(trade, 1.0, 100.0)
    with pytest.raises(ValueError, match=named):
        bleach_for_target_l(trade, 1.0, 100.0)
    assert free_chlorine_mg_l(15.0, 1.0, 99.0) == pytest.approx(1500.0)


def test_a_target_as_strong_as_the_bleach_is_refused() -> None:
    """6 trade % holds 60,000 mg/L."""
    said = "target 60000 mg/L is outside the range 0 to less than 60000 mg/L"
    with pytest.raises(ValueError, match=said):
        bleach_for_target_l(6.0, 60_000.0, 100.0)
    assert bleach_for_target_l(6.0, 59_999.0, 1.0) == pytest.approx(59_999.0)


@pytest.mark.parametrize(
    ("pct", "gravity", "named"),
    [
        (0.0, 1.0, "peroxide strength 0 % is outside its range"),
        (70.01, 1.0, "peroxide strength 70.01 % is outside the range 0 to 70 %"),
        (3.0, 0.99, "specific gravity 0.99 is outside the range 1 to 1.3"),
        (3.0, 1.31, "specific gravity 1.31 is outside the range 1 to 1.3"),
    ],
)
def test_peroxide_has_its_range(pct: float, gravity: float, named: str) -> None:
    """Industrial peroxide ends at 70 % [wallow-43]."""
    with pytest.raises(ValueError, match=named):
        peroxide_mg_l(pct, gravity, 1.0, 100.0)
    assert peroxide_mg_l(70.0, 1.3, 1.0, 99.0) == pytest.approx(9100.0)


def test_amounts_that_cannot_be_are_refused() -> None:
    """Each message names what is wrong."""
    with pytest.raises(ValueError, match="bleach -1 L"):
        free_chlorine_mg_l(6.0, -1.0, 100.0)
    with pytest.raises(ValueError, match="water 0 L"):
        free_chlorine_mg_l(6.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="target -1 mg/L"):
        bleach_for_target_l(6.0, -1.0, 100.0)
    with pytest.raises(ValueError, match="water 0 L"):
        bleach_for_target_l(6.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="product -1 L"):
        peroxide_mg_l(3.0, 1.0, -1.0, 100.0)
    with pytest.raises(ValueError, match="water 0 L"):
        peroxide_mg_l(3.0, 1.0, 1.0, 0.0)
