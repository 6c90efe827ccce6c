"""Flow, nipples, reserve and trips: small sums, worked by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.drinking import flow_l_min, nipple_flow_ml_min, reserve_h, trips


def test_flow_from_a_cup() -> None:
    """250 mL in 30 s is 500 mL a minute (water-14); 473 mL in 60 s is 473."""
    assert flow_l_min(0.25, 30.0) == 0.5
    assert flow_l_min(0.473, 60.0) == pytest.approx(0.473)
    assert flow_l_min(0.0, 30.0) == 0.0


@pytest.mark.parametrize(("caught_l", "seconds"), [(-0.1, 30.0), (0.1, 0.0)])
def test_flow_refuses(caught_l: float, seconds: float) -> None:
    """Neither less than nothing caught, nor in no time."""
    with pytest.raises(ValueError, match=r"outside|above"):
        flow_l_min(caught_l, seconds)


@pytest.mark.parametrize(("weeks", "ml_min"), [(0.0, 20.0), (1.0, 27.0), (8.0, 76.0)])
def test_nipple_flow(weeks: float, ml_min: float) -> None:
    """7 x age in weeks + 20 mL a minute; 76 at 8 weeks (water-44)."""
    assert nipple_flow_ml_min(weeks) == ml_min


def test_nipple_flow_refuses() -> None:
    """No bird is younger than hatched."""
    with pytest.raises(ValueError, match="age"):
        nipple_flow_ml_min(-1.0)


def test_reserve() -> None:
    """15 gal at 5 gal a day last 72 h (water-117); nothing stored lasts no time."""
    assert reserve_h(15.0, 5.0) == 72.0
    assert reserve_h(0.0, 5.0) == 0.0


@pytest.mark.parametrize(("stored_l", "demand"), [(-1.0, 5.0), (5.0, 0.0)])
def test_reserve_refuses(stored_l: float, demand: float) -> None:
    """Neither a negative store nor a demand of nothing."""
    with pytest.raises(ValueError, match=r"stored water|demand"):
        reserve_h(stored_l, demand)


@pytest.mark.parametrize(
    ("needed", "holds", "count"), [(0.0, 5.0, 0), (5.0, 5.0, 1), (5.01, 5.0, 2), (1000, 300, 4)]
)
def test_trips(needed: float, holds: float, count: int) -> None:
    """A part load is a trip."""
    assert trips(needed, holds) == count


@given(needed=st.floats(0, 1e5, allow_subnormal=False), holds=st.floats(1, 1e4))
def test_trips_bring_enough(needed: float, holds: float) -> None:
    """So many trips bring enough, one fewer does not."""
    count = trips(needed, holds)
    assert count * holds >= needed * (1 - 1e-12)
    assert needed == 0 or (count - 1) * holds < needed


@pytest.mark.parametrize(("needed", "holds"), [(-1.0, 5.0), (5.0, 0.0)])
def test_trips_refuse(needed: float, holds: float) -> None:
    """Neither a negative need nor a tank that holds nothing."""
    with pytest.raises(ValueError, match=r"water needed|tank"):
        trips(needed, holds)
