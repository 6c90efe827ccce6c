"""Rations of one head: published ones, the source beside each."""

from __future__ import annotations

import pytest

from binder import units
from binder.figures.feed.ration import (
    dog_energy,
    is_dog_weight,
    ration,
    treats_cap,
)
from binder.figures.figure import NotPublishedError
from tests.figures.feed.fed import LB
from tests.figures.written import us


@pytest.mark.parametrize(
    ("cls", "pounds"),
    [
        ("gestating sow", 4), ("late-gestation sow", 4), ("dry sow", 4),  # husbandry-50
        ("gilt", 6), ("boar", 5.5),  # husbandry-50
        ("goat", 4), ("sheep", 4),  # husbandry-76, hay, the higher end
        ("weaned pig", 1),  # husbandry-70, grade C
    ],
)  # fmt: skip
def test_a_class_is_fed_as_published(cls: str, pounds: float) -> None:
    """Pounds a head a day as printed."""
    assert us(ration(cls)) == pytest.approx(pounds)


def test_a_sow_with_ten_pigs_eats_13_lb() -> None:
    """3 lb + 1 lb a pig (husbandry-51)."""
    assert us(ration("lactating sow", litter=10)) == pytest.approx(13)


def test_layers_eat_up_to_150_g() -> None:
    """100-150 g (husbandry-77); the working prints both ends."""
    found = ration("laying hen")
    assert units.convert(found.amount, "metric") == pytest.approx(0.150)
    low = dict(found.working[-1].values)["low"]
    assert isinstance(low, units.Amount)
    assert low.value == pytest.approx(0.100)


@pytest.mark.parametrize(
    ("kg", "expected"),
    [(46.7, 1.62), (64.6, 2.03), (83.5, 2.32), (102.5, 2.50)],
)
def test_a_growing_pig_eats_by_weight(kg: float, expected: float) -> None:
    """Daily feed by live weight (husbandry-73, table 3)."""
    assert ration("finisher", kg).amount.value == pytest.approx(expected)


@pytest.mark.parametrize(
    ("cls", "pounds", "expected"),
    [
        ("grower", 38, 2.2),  # husbandry-73, old station averages
        ("finisher", 450, 10),
        ("weaned pig", 38, 2.2),
        ("weaned pig", 37.9, 1),  # below the table: husbandry-70
    ],
)
def test_the_ends_of_the_table_by_weight(cls: str, pounds: float, expected: float) -> None:
    """38 lb 2.2 lb, 450 lb 10 lb (husbandry-73)."""
    assert us(ration(cls, pounds * LB)) == pytest.approx(expected)


def test_between_two_rows_lies_a_straight_line() -> None:
    """Halfway from 46.7 to 64.6 kg: halfway from 1.62 to 2.03 kg (derived)."""
    found = ration("grower", 55.65)
    assert found.amount.value == pytest.approx(1.825)
    said = {
        name: amount.value
        for name, amount in found.working[0].values
        if isinstance(amount, units.Amount)
    }
    assert (said["low_weight"], said["low"]) == pytest.approx((46.7, 1.62))
    assert (said["high_weight"], said["high"]) == pytest.approx((64.6, 2.03))


@pytest.mark.parametrize(("pounds"), [37.9, 450.1])
def test_no_ration_outside_the_table(pounds: float) -> None:
    """The message names the range."""
    with pytest.raises(NotPublishedError, match="from 17 to 204 kg only"):
        ration("grower", pounds * LB)


def test_a_doe_eats_two_per_cent_of_her_weight() -> None:
    """1.5-2 % of body weight (husbandry-76): 130 lb x 2 % = 2.6 lb."""
    assert us(ration("goat", 130 * LB)) == pytest.approx(2.6)


@pytest.mark.parametrize(
    ("cls", "weight", "litter", "expected"),
    [
        ("grower", None, None, "by weight only; give its weight"),
        ("lactating sow", None, None, "by her litter; give the litter"),
        ("broiler", None, None, "no ration is published here for a broiler"),
        ("broiler", 2.0, 3, "no ration is published here for a broiler"),
        ("hippo", None, None, 'nothing is published in ration for class "hippo"'),
    ],
)
def test_no_ration_is_made_up(
    cls: str, weight: float | None, litter: int | None, expected: str
) -> None:
    """What was not read is refused with the reason."""
    with pytest.raises(NotPublishedError, match=expected):
        ration(cls, weight, litter)


def test_a_dog_of_20_kg_rests_on_662_kcal() -> None:
    """70 x 20^0.75 (husbandry-76)."""
    assert dog_energy(20.0).amount.value == pytest.approx(662, abs=0.5)


@pytest.mark.parametrize(("kg", "known"), [(100.0, True), (100.1, False), (None, False)])
def test_a_dogs_energy_is_for_known_weights(kg: float | None, *, known: bool) -> None:
    """Up to 100 kg, that included: our choice of the range."""
    assert is_dog_weight(kg) is known


def test_treats_are_one_part_in_twenty() -> None:
    """5 % of the daily feed (husbandry-64): 45 x 150 g x 5 % = 337.5 g."""
    assert treats_cap(0.150, 45).amount.value == pytest.approx(0.3375)
