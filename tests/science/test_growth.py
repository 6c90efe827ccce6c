"""Weights and what follows from them, against published values and hand arithmetic."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.growth import (
    interpolate,
    lying_area_m2,
    resting_energy_kcal,
    weight_kg,
)

KG_PER_LB = 0.45359237

# Published rows -----------------------------------------------------------------------------


def test_a_market_pig_reaches_its_published_weight() -> None:
    """50 lb and 106 days at 1.6 lb: 219.6 lb, printed 220 [husbandry-70]."""
    found = weight_kg(50 * KG_PER_LB, 106.0, 1.6 * KG_PER_LB) / KG_PER_LB
    assert found == pytest.approx(219.6, abs=1e-6)


@pytest.mark.parametrize(
    ("kg", "m2"),
    [(25.0, 0.37), (50.0, 0.59), (75.0, 0.77), (100.0, 0.93), (125.0, 1.08), (150.0, 1.22)],
)
def test_a_pig_lying_clear_takes_its_published_room(kg: float, m2: float) -> None:
    """100 kg was read [husbandry-15], the others were worked from the power law (derived)."""
    assert lying_area_m2(kg) == pytest.approx(m2, abs=0.006)


def test_a_20_kg_dog_rests_on_662_kcal() -> None:
    """70 x 20^0.75 [husbandry-76]."""
    assert resting_energy_kcal(20.0) == pytest.approx(662.0, abs=0.5)


# Worked by hand -----------------------------------------------------------------------------


def test_room_to_lie_by_hand() -> None:
    """0.0432 x 64^(2/3) = 0.0432 x 16 = 0.6912; x 125^(2/3) = x 25 = 1.08."""
    assert lying_area_m2(64.0) == pytest.approx(0.6912, abs=1e-9)
    assert lying_area_m2(125.0) == pytest.approx(1.08, abs=1e-9)


def test_resting_energy_by_hand() -> None:
    """70 x 16^0.75 = 70 x 8 = 560; x 81^0.75 = x 27 = 1890."""
    assert resting_energy_kcal(16.0) == pytest.approx(560.0, abs=1e-9)
    assert resting_energy_kcal(81.0) == pytest.approx(1890.0, abs=1e-9)


def test_weight_by_hand() -> None:
    """20 + 10 x 0.7 = 27; 200 - 21 x 2 = 158 for a sow that milks off her back."""
    assert weight_kg(20.0, 10.0, 0.7) == pytest.approx(27.0)
    assert weight_kg(200.0, 21.0, -2.0) == pytest.approx(158.0)


@pytest.mark.parametrize(
    ("x", "expected"),
    [
        (10.0, 1.0),
        (15.0, 2.0),  # halfway from 1 to 3
        (20.0, 3.0),
        (22.5, 2.25),  # a quarter of the way from 3 down to 0
        (30.0, 0.0),
    ],
)
def test_between_rows_the_line_is_straight(x: float, expected: float) -> None:
    """10, 20, 30 stand for 1, 3, 0."""
    assert interpolate(x, (10.0, 20.0, 30.0), (1.0, 3.0, 0.0)) == pytest.approx(expected)


def test_a_table_of_one_row_has_one_value() -> None:
    """And no other."""
    assert interpolate(5.0, [5.0], [8.0]) == 8.0
    with pytest.raises(ValueError, match="is outside the range 5 to 5"):
        interpolate(5.1, [5.0], [8.0])


# Our own edges ------------------------------------------------------------------------------


@given(x=st.floats(0.0, 10.0))
def test_a_straight_table_gives_a_straight_line(x: float) -> None:
    """Rows on y = 3 x + 2 give that line everywhere."""
    xs = (0.0, 1.0, 4.0, 10.0)
    found = interpolate(x, xs, [3 * each + 2 for each in xs])
    assert found == pytest.approx(3 * x + 2)


@pytest.mark.parametrize("x", [9.99, 30.01])
def test_outside_the_table_nothing_is_given(x: float) -> None:
    """The message names both ends."""
    said = f"value looked up in the table {x:g} is outside the range 10 to 30"
    with pytest.raises(ValueError, match=said):
        interpolate(x, (10.0, 20.0, 30.0), (1.0, 3.0, 0.0))


def test_a_table_that_is_none_is_refused() -> None:
    """Empty, uneven, or not rising."""
    with pytest.raises(ValueError, match="as many values as steps, at least one; got 0 and 0"):
        interpolate(1.0, (), ())
    with pytest.raises(ValueError, match="as many values as steps, at least one; got 1 and 2"):
        interpolate(1.0, (1.0, 2.0), (1.0,))
    for steps in ((1.0, 1.0), (2.0, 1.0)):
        with pytest.raises(ValueError, match="the steps of a table must rise from row to row"):
            interpolate(1.0, steps, (1.0, 2.0))


@pytest.mark.parametrize("kg", [24.89, 150.01])
def test_room_to_lie_ends_where_its_table_does(kg: float) -> None:
    """55 to 330 lb."""
    with pytest.raises(ValueError, match=r"weight of the pig .* 24\.9 to 150 kg"):
        lying_area_m2(kg)
    assert lying_area_m2(24.9) == pytest.approx(0.368, abs=0.001)
    assert lying_area_m2(150.0) == pytest.approx(1.22, abs=0.005)


@pytest.mark.parametrize("kg", [0.99, 100.01])
def test_resting_energy_has_its_range(kg: float) -> None:
    """1 to 100 kg (our choice)."""
    with pytest.raises(ValueError, match=r"weight of the dog .* 1 to 100 kg"):
        resting_energy_kcal(kg)
    assert resting_energy_kcal(1.0) == 70.0
    assert resting_energy_kcal(100.0) == pytest.approx(2213.594, abs=0.001)  # 70 x 31.6228


def test_weights_that_cannot_be_are_refused() -> None:
    """Each message names what is wrong."""
    with pytest.raises(ValueError, match=r"^weight 0 kg"):
        weight_kg(0.0, 10.0, 0.7)
    with pytest.raises(ValueError, match="time since weighing -1 days"):
        weight_kg(20.0, -1.0, 0.7)
    with pytest.raises(
        ValueError, match=r"gain 3.01 kg/day is outside the range -3 to 3 kg/day"
    ):
        weight_kg(20.0, 10.0, 3.01)
    with pytest.raises(
        ValueError, match=r"gain -3.01 kg/day is outside the range -3 to 3 kg/day"
    ):
        weight_kg(20.0, 10.0, -3.01)
    with pytest.raises(ValueError, match="weight after the loss 0 kg"):
        weight_kg(20.0, 10.0, -2.0)
    assert weight_kg(20.0, 0.0, 3.0) == weight_kg(20.0, 0.0, -3.0) == 20.0
