"""Tanks and wallows against published gallons and against geometry."""

from collections.abc import Callable
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.volume import (
    box_l,
    cone_l,
    elliptical_depression_l,
    oval_box_l,
    pyramid_l,
    round_tank_l,
)

L_PER_US_GAL = 3.785411784
L_PER_IMP_GAL = 4.54609
M_PER_FT = 0.3048
Shape = Callable[[float, float, float], float]
SHAPES: list[Shape] = [
    box_l,
    oval_box_l,
    elliptical_depression_l,
    cone_l,
    pyramid_l,
]

# Published rows -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("inches", "gal_per_ft"),
    [(2.0, 0.16), (4.0, 0.65), (6.0, 1.47), (12.0, 5.88), (48.0, 94.0)],
)
def test_a_foot_of_well_casing_holds_the_published_gallons(
    inches: float, gal_per_ft: float
) -> None:
    """Mesa County casing table [wallow-14]."""
    found = round_tank_l(inches * 0.0254, M_PER_FT) / L_PER_US_GAL
    assert found == pytest.approx(gal_per_ft, abs=0.01)


def test_a_four_foot_tank_holds_the_published_imperial_gallons() -> None:
    """4 ft across, 3 ft deep: 235 Imp gal [wallow-60]."""
    found = round_tank_l(4 * M_PER_FT, 3 * M_PER_FT) / L_PER_IMP_GAL
    assert found == pytest.approx(235.0, abs=0.5)


def test_a_round_pond_holds_the_published_gallons() -> None:
    """22 ft across, 10 ft deep: a page prints 28,397 with 7.47 gal/ft3 [wallow-60]."""
    found = round_tank_l(22 * M_PER_FT, 10 * M_PER_FT) / L_PER_US_GAL
    assert found == pytest.approx(28397.0, rel=0.002)


@pytest.mark.parametrize(
    ("shape", "gallons"),
    [
        (oval_box_l, 470.0),
        (elliptical_depression_l, 209.0),
        (cone_l, 157.0),
    ],
)
def test_the_same_oval_holds_what_others_worked_for_each_shape(
    shape: Shape, gallons: float
) -> None:
    """10 x 8 ft, 1 ft at the centre, whole gallons (derived)."""
    found = shape(10 * M_PER_FT, 8 * M_PER_FT, M_PER_FT) / L_PER_US_GAL
    assert found == pytest.approx(gallons, abs=0.55)


def test_a_farm_box_holds_180_gallons_not_the_misprinted_184() -> None:
    """6 x 2 x 2 ft at 7.5 gal [wallow-17] is 180; exactly 24 ft3 x 7.4805 = 179.53."""
    found = box_l(6 * M_PER_FT, 2 * M_PER_FT, 2 * M_PER_FT) / L_PER_US_GAL
    assert found == pytest.approx(179.53, abs=0.01)


# Worked by hand -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("shape", "expected_l"),
    [
        (box_l, 4000.0),  # 4 x 2 x 0.5 m3
        (oval_box_l, 3140.0),  # 0.785 x 4
        (elliptical_depression_l, 1396.263),  # 4/9 x pi x 2 x 1 x 0.5
        (cone_l, 1047.198),  # 1/3 x pi
        (pyramid_l, 1333.333),  # 4 / 3
    ],
)
def test_each_shape_by_hand(shape: Shape, expected_l: float) -> None:
    """4 m long, 2 m wide, 0.5 m deep: half-axes 2 and 1, pi a b d = pi m3."""
    assert shape(4.0, 2.0, 0.5) == pytest.approx(expected_l, abs=0.001)


def test_a_round_tank_by_hand() -> None:
    """Pi x 1.5^2 x 0.4 = 2.827433 m3."""
    assert round_tank_l(3.0, 0.4) == pytest.approx(2827.433, abs=0.001)


# Our own edges ------------------------------------------------------------------------------


@given(length=st.floats(0.1, 30.0), width=st.floats(0.1, 30.0), depth=st.floats(0.01, 3.0))
def test_the_shapes_keep_their_order(length: float, width: float, depth: float) -> None:
    """Dosing shapes hold least, filling shapes most, none more than the box around it."""
    volumes = [
        shape(length, width, depth)
        for shape in (cone_l, elliptical_depression_l, oval_box_l, box_l)
    ]
    assert volumes == sorted(volumes)


def test_a_round_oval_is_a_round_tank() -> None:
    """0.785 stands for pi / 4 and is 0.05 % short of it."""
    assert oval_box_l(2.0, 2.0, 1.0) / round_tank_l(2.0, 1.0) == pytest.approx(3.14 / pi)


@pytest.mark.parametrize("shape", SHAPES)
def test_an_empty_hollow_holds_nothing(shape: Shape) -> None:
    """Depth 0 is allowed."""
    assert shape(4.0, 2.0, 0.0) == 0.0


@pytest.mark.parametrize("shape", SHAPES)
def test_sizes_that_cannot_be_are_refused(shape: Shape) -> None:
    """Each message names the size."""
    with pytest.raises(ValueError, match="length 0 m"):
        shape(0.0, 2.0, 0.5)
    with pytest.raises(ValueError, match="width 0 m"):
        shape(4.0, 0.0, 0.5)
    with pytest.raises(ValueError, match="depth -1 m"):
        shape(4.0, 2.0, -1.0)


def test_sizes_of_a_round_tank_that_cannot_be_are_refused() -> None:
    """Each message names the size."""
    assert round_tank_l(2.0, 0.0) == 0.0
    with pytest.raises(ValueError, match="diameter 0 m"):
        round_tank_l(0.0, 1.0)
    with pytest.raises(ValueError, match="depth -1 m"):
        round_tank_l(2.0, -1.0)
