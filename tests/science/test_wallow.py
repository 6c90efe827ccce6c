"""The room of a lying pig and the ramp into a wallow, worked by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.wallow import lying_area_m2, ramp_length_m

M_PER_FT = 0.3048


@pytest.mark.parametrize(
    ("weight_kg", "area_m2"),
    [
        (1.0, 0.047),  # the coefficient alone
        (50.0, 0.047 * 13.58893),  # 50^0.667 = e^(0.667 x 3.912023)
        (100.0, 0.047 * 21.57744),  # 100^0.667 = 10^1.334
        (200.0, 0.047 * 34.25984),  # 10^(0.667 x 2.301030)
    ],
)
def test_lying_area(weight_kg: float, area_m2: float) -> None:
    """0.047 x weight^0.667 (extra-11); powers worked from logarithms."""
    assert lying_area_m2(weight_kg) == pytest.approx(area_m2, rel=2e-4)


@pytest.mark.parametrize("weight_kg", [0.0, -1.0, float("inf")])
def test_no_weight_no_area(weight_kg: float) -> None:
    """A pig weighs more than nothing."""
    with pytest.raises(ValueError, match="weight"):
        lying_area_m2(weight_kg)


@pytest.mark.parametrize(("run", "feet"), [(4.0, 4.0), (6.0, 6.0), (10.0, 10.0)])
def test_ramp_to_a_foot(run: float, feet: float) -> None:
    """Down to 12 in: 4 ft at 1 in 4, 6 ft at 1 in 6 (wallow-71)."""
    assert ramp_length_m(M_PER_FT, run) == pytest.approx(feet * M_PER_FT)


@given(depth_m=st.floats(0, 3), run=st.floats(1, 20))
def test_deeper_and_gentler_is_longer(depth_m: float, run: float) -> None:
    """Twice the depth takes twice the ramp."""
    assert ramp_length_m(2 * depth_m, run) == pytest.approx(2 * ramp_length_m(depth_m, run))


def test_ramp_refuses() -> None:
    """Neither a negative depth nor a ramp without length."""
    assert ramp_length_m(0.0, 4.0) == 0.0
    with pytest.raises(ValueError, match="depth"):
        ramp_length_m(-0.1, 4.0)
    with pytest.raises(ValueError, match="run of the ramp"):
        ramp_length_m(0.3, 0.0)
