"""Bleach and peroxide against published recipes and against hand arithmetic."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.chlorine import (
    available_chlorine_wt_pct,
    bleach_for_target_l,
    demand_mg_l,
    free_chlorine_mg_l,
    free_chlorine_shortcut_mg_l,
    half_life_remaining,
    minutes_to_reach,
    mixed_photolysis_half_life_min,
    parts_water,
    peroxide_mg_l,
    powder_g_per_l,
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


def test_powder_for_a_litre_is_the_published_weight() -> None:
    """35 % powder for 0.5 %: 14.3 g [wallow-1]; 0.5 / 35 x 1000 = 14.285714."""
    assert powder_g_per_l(35.0, 0.5) == pytest.approx(14.285714, abs=1e-6)


def test_household_bleach_has_its_published_strengths() -> None:
    """6 % by weight, gravity 1.08: 6.17 trade %, 5.71 % available [wallow-10]."""
    assert trade_pct(6.0, 1.08) == pytest.approx(6.17, abs=0.005)
    assert available_chlorine_wt_pct(6.0) == pytest.approx(5.71, abs=0.005)


def test_industrial_bleach_has_its_published_strengths() -> None:
    """12.5 % by weight, gravity 1.196: 142 g/L and 11.9 % available [wallow-8]."""
    assert trade_pct(12.5, 1.196) * 10 == pytest.approx(142.0, abs=0.5)
    assert available_chlorine_wt_pct(12.5) == pytest.approx(11.9, abs=0.05)


@pytest.mark.parametrize(
    ("label_pct", "bleach", "water", "printed", "tolerance"),
    [
        (5.25, 1.0, 17500.0, 3.0, 0.05),  # gal, wallow-22
        (5.25, 0.4, 3785.4, 5.55, 0.02),  # mL in a gallon, wallow-7
        (5.25, 0.625, 3785.4, 8.67, 0.02),  # wallow-7
        (8.25, 1.0, 14000.0, 5.9, 0.05),  # wallow-10
        (8.25, 121 / 128, 14000.0, 5.6, 0.05),  # a 121 fl oz jug, wallow-10
        (5.25, 0.042, 2.4 * L_PER_IMP_GAL, 202.0, 0.5),  # wallow-13, called 200
        (12.0, 0.018, 2.4 * L_PER_IMP_GAL, 198.0, 0.5),  # wallow-13
        (70.0, 0.00312, 2.4 * L_PER_IMP_GAL, 200.0, 0.5),  # kg of powder, wallow-13
        (70.0, 0.012, 1000.0, 8.4, 0.001),  # kg of powder
        (5.25, 2.0, 12800.0, 8.2, 0.05),  # 2 fl oz in 100 gal, wallow-16
    ],
)
def test_the_shortcut_reproduces_public_tables(
    label_pct: float, bleach: float, water: float, printed: float, tolerance: float
) -> None:
    """One unit for product and water in each row, whatever it is."""
    found = free_chlorine_shortcut_mg_l(label_pct, bleach, water)
    assert found == pytest.approx(printed, abs=tolerance)


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


@pytest.mark.parametrize(("ph", "printed", "tolerance"), [(8.0, 12.0, 0.3), (5.0, 60.0, 3.5)])
def test_sunlight_halves_chlorine_in_the_measured_times(
    ph: float, printed: float, tolerance: float
) -> None:
    """Nowell and Hoigne [wallow-27]: 12 min at pH 8, 60 min at pH 5."""
    assert mixed_photolysis_half_life_min(ph) == pytest.approx(printed, abs=tolerance)


def test_nine_tenths_are_gone_in_two_hours_at_the_pool_trades_half_life() -> None:
    """36.1 min over 120 min leaves 10 %, to half a point (derived)."""
    assert half_life_remaining(100.0, 120.0, 36.1) == pytest.approx(10.0, abs=0.5)


@pytest.mark.parametrize(
    ("start", "half_life", "minutes"),
    [
        (5.0, 12.0, 28.0),
        (10.0, 12.0, 40.0),
        (25.0, 12.0, 56.0),
        (5.0, 36.0, 84.0),
        (10.0, 36.0, 120.0),
        (25.0, 36.0, 168.0),
        (10.0, 60.0, 198.0),
        (25.0, 60.0, 276.0),
    ],
)
def test_times_down_to_1_ppm_agree_with_the_derived_table(
    start: float, half_life: float, minutes: float
) -> None:
    """Whole minutes, or hours to one decimal (derived)."""
    assert minutes_to_reach(start, 1.0, half_life) == pytest.approx(minutes, abs=3.0)


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


def test_decay_by_hand() -> None:
    """16 mg/L after 90 min at 30 min: 16 / 2^3 = 2, and it takes 90 min from 16 to 2."""
    assert half_life_remaining(16.0, 90.0, 30.0) == pytest.approx(2.0, abs=1e-12)
    assert minutes_to_reach(16.0, 2.0, 30.0) == pytest.approx(90.0, abs=1e-9)


@pytest.mark.parametrize(
    ("ph", "pka", "expected"),
    [
        # share OCl- 1 / (1 + 10^-0.5) = 0.759747; k = 2e-4 + 1e-3 x 0.759747 = 9.597469e-4 /s
        (8.0, 7.5, 12.036978),
        # share 1 / (1 + 10^2.5) = 0.00315231; k = 2.0315231e-4; 0.693147 / k / 60
        (5.0, 7.5, 56.865969),
        # at its pKa half of it is OCl-: k = 7e-4; 0.6931472 / 0.042
        (7.6, 7.6, 16.503505),
        (7.4, 7.4, 16.503505),
    ],
)
def test_photolysis_by_hand(ph: float, pka: float, expected: float) -> None:
    """Ln 2 over the mixed rate, worked beside each row."""
    assert mixed_photolysis_half_life_min(ph, pka) == pytest.approx(expected, abs=1e-5)


def test_photolysis_takes_a_pka_of_75_when_none_is_given() -> None:
    """The default is the value the published time was checked with."""
    expected = mixed_photolysis_half_life_min(7.5, 7.5)
    assert mixed_photolysis_half_life_min(7.5) == expected


def test_peroxide_by_hand() -> None:
    """10000 x 3 x 1.1 x 0.5 / (0.5 + 99.5) = 165 mg/L."""
    assert peroxide_mg_l(3.0, 1.1, 0.5, 99.5) == pytest.approx(165.0, abs=1e-9)


def test_demand_by_hand() -> None:
    """2 mg/L of ammonia nitrogen at 10 to 1 use up 20 mg/L [wallow-30]."""
    assert demand_mg_l(2.0, 10.0) == pytest.approx(20.0, abs=1e-12)


# Our own edges ------------------------------------------------------------------------------


@given(
    trade=st.floats(1.0, 15.0), target=st.floats(0.1, 5000.0), water_l=st.floats(1.0, 20_000.0)
)
def test_the_dose_gives_the_target(trade: float, target: float, water_l: float) -> None:
    """Dose and strength undo each other."""
    bleach_l = bleach_for_target_l(trade, target, water_l)
    assert free_chlorine_mg_l(trade, bleach_l, water_l) == pytest.approx(target, rel=1e-9)


@given(start=st.floats(1.0, 100.0), share=st.floats(0.01, 1.0), half_life=st.floats(1.0, 200.0))
def test_after_the_time_to_a_target_the_target_is_left(
    start: float, share: float, half_life: float
) -> None:
    """Time and decay undo each other."""
    target = start * share
    minutes = minutes_to_reach(start, target, half_life)
    assert half_life_remaining(start, minutes, half_life) == pytest.approx(target, rel=1e-9)


def test_water_already_below_the_target_needs_no_time() -> None:
    """Not a negative one."""
    assert minutes_to_reach(0.5, 1.0, 12.0) == 0.0
    assert minutes_to_reach(1.0, 1.0, 12.0) == 0.0


def test_no_product_no_chlorine() -> None:
    """Nothing in, nothing there."""
    assert free_chlorine_mg_l(6.0, 0.0, 100.0) == 0.0
    assert free_chlorine_shortcut_mg_l(6.0, 0.0, 100.0) == 0.0
    assert bleach_for_target_l(6.0, 0.0, 100.0) == 0.0
    assert peroxide_mg_l(3.0, 1.0, 0.0, 100.0) == 0.0
    assert half_life_remaining(0.0, 0.0, 12.0) == 0.0
    assert demand_mg_l(0.0, 7.6) == 0.0


def test_bleach_at_the_wanted_strength_needs_no_water() -> None:
    """1 / 1 - 1 = 0, and pure powder in its own strength is a kilogram a litre."""
    assert parts_water(5.0, 5.0) == 0.0
    assert parts_water(100.0, 50.0) == 1.0
    assert powder_g_per_l(100.0, 100.0) == 1000.0


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
    with pytest.raises(ValueError, match=named):
        powder_g_per_l(strength, wanted)


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
    ("label_pct", "named"),
    [
        (0.0, "label strength 0 % is outside its range"),
        (100.1, "label strength 100.1 % is outside the range 0 to 100 %"),
    ],
)
def test_a_label_has_its_range(label_pct: float, named: str) -> None:
    """Above 0 to 100 %."""
    with pytest.raises(ValueError, match=named):
        free_chlorine_shortcut_mg_l(label_pct, 1.0, 100.0)
    assert free_chlorine_shortcut_mg_l(100.0, 1.0, 100.0) == 10_000.0


@pytest.mark.parametrize(
    ("ph", "pka", "named"),
    [
        (4.99, 7.5, "pH 4.99 is outside the range 5 to 8"),
        (8.01, 7.5, "pH 8.01 is outside the range 5 to 8"),
        (7.0, 7.39, "pKa 7.39 is outside the range 7.4 to 7.6"),
        (7.0, 7.61, "pKa 7.61 is outside the range 7.4 to 7.6"),
    ],
)
def test_photolysis_stays_between_the_two_measured_ph(
    ph: float, pka: float, named: str
) -> None:
    """PH 5 to 8 [wallow-27]."""
    with pytest.raises(ValueError, match=named):
        mixed_photolysis_half_life_min(ph, pka)


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


@pytest.mark.parametrize("ratio", [7.59, 15.01])
def test_the_demand_ratio_has_its_range(ratio: float) -> None:
    """7.6 to 15 [wallow-30]."""
    with pytest.raises(ValueError, match=r"demand ratio .* 7.6 to 15"):
        demand_mg_l(1.0, ratio)
    assert demand_mg_l(1.0, 15.0) == 15.0


def test_amounts_that_cannot_be_are_refused() -> None:
    """Each message names what is wrong."""
    with pytest.raises(ValueError, match="bleach -1 L"):
        free_chlorine_mg_l(6.0, -1.0, 100.0)
    with pytest.raises(ValueError, match="water 0 L"):
        free_chlorine_mg_l(6.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="product -1 is"):
        free_chlorine_shortcut_mg_l(6.0, -1.0, 100.0)
    with pytest.raises(ValueError, match="water 0 is"):
        free_chlorine_shortcut_mg_l(6.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="target -1 mg/L"):
        bleach_for_target_l(6.0, -1.0, 100.0)
    with pytest.raises(ValueError, match="water 0 L"):
        bleach_for_target_l(6.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="concentration -1 mg/L"):
        half_life_remaining(-1.0, 1.0, 12.0)
    with pytest.raises(ValueError, match="time -1 min"):
        half_life_remaining(1.0, -1.0, 12.0)
    with pytest.raises(ValueError, match="half-life 0 min"):
        half_life_remaining(1.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="concentration 0 mg/L"):
        minutes_to_reach(0.0, 1.0, 12.0)
    with pytest.raises(ValueError, match="target 0 mg/L"):
        minutes_to_reach(1.0, 0.0, 12.0)
    with pytest.raises(ValueError, match="half-life 0 min"):
        minutes_to_reach(1.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="product -1 L"):
        peroxide_mg_l(3.0, 1.0, -1.0, 100.0)
    with pytest.raises(ValueError, match="water 0 L"):
        peroxide_mg_l(3.0, 1.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="ammonia nitrogen -1 mg/L"):
        demand_mg_l(-1.0, 10.0)
