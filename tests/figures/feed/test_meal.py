"""Soaking and scoops: common practice, no source, or arithmetic worked beside the check."""

from __future__ import annotations

import pytest

from binder.figures.feed.feed_stock import feed_stock
from binder.figures.feed.meal import scoops, soak, soak_batches
from binder.figures.feed.ration import treats_cap
from tests.figures.feed.fed import (
    GAL,
    LB,
)
from tests.figures.written import us


def test_a_pound_of_feed_at_three_to_one_carries_036_gal() -> None:
    """Water sourcebook, table 8 (derived there): 1 lb at 3:1 is 0.36 gal."""
    assert us(soak(1 * LB, 3)) == pytest.approx(0.36, abs=0.002)


def test_soaked_feed_carries_its_own_weight_of_water() -> None:
    """Common practice, no source: 1 kg takes 1 L at least; less is said."""
    assert soak(1.0, 1).amount.value == pytest.approx(1.0)
    assert "own-weight" not in soak(1.0, 1).cautions
    assert soak(1.0, 0.99).cautions[0] == "own-weight"


@pytest.mark.parametrize(
    ("pounds", "expected", "way"),
    [
        (4.5, "1 1/2", "even"), (2.5, "3/4", "down"), (2.7, "1", "up"), (3.0, "1", "even"),
        (0.01, "1/4", "up"), (6.5, "2 1/4", "up"), (3.375, "1 1/4", "up"),
    ],
)  # fmt: skip
def test_a_meal_is_given_in_quarter_scoops(pounds: float, expected: str, way: str) -> None:
    """To the nearest quarter of a 3 lb scoop, half a quarter up, at least one (our choice)."""
    found = scoops(pounds * LB, 3 * LB)
    assert (found.value, found.working[1].key) == (expected, way)


@pytest.mark.parametrize(
    ("pounds", "gallons", "expected"),
    [
        # 40 lb a cubic foot (extra-60, ground maize 0.64): 20 lb lie in half a cubic foot,
        # which is 3.74 gal; the water comes on top.
        (20, 2.4, "2"),  # 6.1 gal do not go into one bucket of 5, though the water would
        (20, 1.2, "1"),  # 4.94 gal do
        (2.5, 0.3, "1"),
        (53.5, 6.4, "4"),  # 10 + 6.4 = 16.4 gal
    ],
)
def test_a_bucket_holds_the_feed_and_its_water(
    pounds: float, gallons: float, expected: str
) -> None:
    """Batches in a bucket of 5 gallons, always whole ones."""
    assert soak_batches(pounds * LB, gallons * GAL, 5 * GAL).value == expected


def test_stock_is_ration_by_head_by_days() -> None:
    """8 pigs x 5 lb x 10 days = 400 lb."""
    found = feed_stock(5 * LB, 8, 10)
    assert us(found) == pytest.approx(400)
    assert [line.key for line in found.working] == ["head", "sum"]


@pytest.mark.parametrize(
    ("compute", "arguments"),
    [
        (soak, (-1.0, 1.0)), (soak, (1.0, 0.0)), (scoops, (-1.0, 1.0)), (scoops, (1.0, 0.0)),
        (soak_batches, (-1.0, 1.0, 1.0)), (soak_batches, (1.0, 1.0, 0.0)),
        (treats_cap, (-1.0, 1)), (feed_stock, (-1.0, 1, 1)),
    ],
)  # fmt: skip
def test_an_impossible_amount_is_refused(compute: type, arguments: tuple[float, ...]) -> None:
    """Nothing is fed backwards or measured in nothing."""
    with pytest.raises(ValueError, match="outside its range"):
        compute(*arguments)
