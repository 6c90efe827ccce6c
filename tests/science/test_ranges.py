"""Both ends of a range are good, anything past them is refused and the message names them."""

import math

import pytest

from binder.science.ranges import require_not_negative, require_positive, require_within


@pytest.mark.parametrize("value", [5.0, 7.0, 9.0])
def test_the_ends_of_a_range_are_inside(value: float) -> None:
    """5, 7 and 9 are all within 5 to 9."""
    require_within(value, 5.0, 9.0, "weight", "kg")


@pytest.mark.parametrize(
    ("value", "shown"), [(4.9, "4.9"), (9.1, "9.1"), (math.nan, "nan"), (math.inf, "inf")]
)
def test_outside_the_message_names_quantity_value_range_and_unit(
    value: float, shown: str
) -> None:
    """A number past an end, or no number at all, is refused in words."""
    with pytest.raises(ValueError, match=f"^weight {shown} kg is outside the range 5 to 9 kg$"):
        require_within(value, 5.0, 9.0, "weight", "kg")


def test_without_a_unit_none_is_printed() -> None:
    """A pure number is shown bare."""
    with pytest.raises(ValueError, match=r"^pH 9 is outside the range 5 to 8$"):
        require_within(9.0, 5.0, 8.0, "pH")


def test_any_finite_number_above_zero_is_positive() -> None:
    """The smallest number above zero will do."""
    require_positive(5e-324, "flow", "L/min")


@pytest.mark.parametrize(
    ("value", "shown"), [(0.0, "0"), (-1.0, "-1"), (math.nan, "nan"), (math.inf, "inf")]
)
def test_what_is_not_positive_is_refused(value: float, shown: str) -> None:
    """Zero, less than zero, infinity and no number are not a flow."""
    said = f"^flow {shown} L/min is outside its range: it must be more than 0$"
    with pytest.raises(ValueError, match=said):
        require_positive(value, "flow", "L/min")


def test_a_positive_pure_number_is_shown_bare() -> None:
    """Without a unit none is printed."""
    with pytest.raises(ValueError, match=r"^share 0 is outside its range: it must be more"):
        require_positive(0.0, "share")


@pytest.mark.parametrize("value", [0.0, 3.0])
def test_zero_is_not_negative(value: float) -> None:
    """Nothing is a fair amount of nothing."""
    require_not_negative(value, "depth", "m")


@pytest.mark.parametrize(
    ("value", "shown"), [(-0.1, "-0.1"), (math.nan, "nan"), (math.inf, "inf")]
)
def test_what_is_negative_is_refused(value: float, shown: str) -> None:
    """Less than zero, infinity and no number are not a depth."""
    said = f"^depth {shown} m is outside its range: it must be 0 or more$"
    with pytest.raises(ValueError, match=said):
        require_not_negative(value, "depth", "m")


def test_a_pure_number_that_is_negative_is_shown_bare() -> None:
    """Without a unit none is printed."""
    with pytest.raises(ValueError, match=r"^share -1 is outside its range: it must be 0"):
        require_not_negative(-1.0, "share")
