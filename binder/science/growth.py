"""Weight over time and what goes with body weight."""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise

from binder.science.ranges import require_not_negative, require_positive, require_within

# Room for a pig lying on its side clear of others [husbandry-15]: only the value at 100 kg was
# read, the power law around it is derived; its table runs from 55 to 330 lb.
LYING_M2 = 0.0432
LYING_POWER = 2 / 3
LIGHTEST_LYING_KG, HEAVIEST_LYING_KG = 24.9, 150.0

# Resting energy of a dog [husbandry-76]; the span is our choice, pup to the largest guardian.
RESTING_KCAL = 70.0
RESTING_POWER = 0.75
LIGHTEST_DOG_KG, HEAVIEST_DOG_KG = 1.0, 100.0


HEAVIEST_GAIN_KG_DAY = 3.0  # our choice: above any farm animal's steady gain or loss


def weight_kg(start_kg: float, days: float, gain_kg_per_day: float) -> float:
    """Return the weight after a time of steady gain [kg].

    Args:
        start_kg: Weight at the last weighing [kg], more than 0.
        days: Days since [days], 0 or more.
        gain_kg_per_day: Gain [kg/day], -3 to 3; negative for a loss.

    Returns:
        Weight [kg], not rounded.

    Raises:
        ValueError: A number is outside its range, or the loss leaves no weight.

    References:
        husbandry-70: 50 lb and 106 days at 1.6 lb make 220 lb.

    Example:
        >>> round(weight_kg(22.6796, 106.0, 0.725748) / 0.45359237)
        220
    """
    require_positive(start_kg, "weight", "kg")
    require_not_negative(days, "time since weighing", "days")
    require_within(
        gain_kg_per_day, -HEAVIEST_GAIN_KG_DAY, HEAVIEST_GAIN_KG_DAY, "gain", "kg/day"
    )
    weight = start_kg + days * gain_kg_per_day
    require_positive(weight, "weight after the loss", "kg")
    return weight


def interpolate(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """Return a value between the rows of a table, along straight lines.

    Args:
        x: Where to read, from the first to the last of `xs`.
        xs: Left column, rising.
        ys: Right column, one for each of `xs`.

    Returns:
        The value, in the unit of `ys`, not rounded.

    Raises:
        ValueError: `x` is outside the table, the columns differ in length or hold nothing, or
            the left column does not rise.

    References:
        Arithmetic.

    Example:
        >>> interpolate(25.0, (20.0, 30.0), (1.0, 2.0))
        1.5
    """
    if not xs or len(xs) != len(ys):
        msg = (
            f"a table needs as many values as steps, at least one; got {len(ys)} and {len(xs)}"
        )
        raise ValueError(msg)
    if any(after <= before for before, after in pairwise(xs)):
        msg = "the steps of a table must rise from row to row"
        raise ValueError(msg)
    require_within(x, xs[0], xs[-1], "value looked up in the table")
    after = bisect_right(xs, x)
    if after == len(xs):
        return ys[-1]
    before = after - 1
    share = (x - xs[before]) / (xs[after] - xs[before])
    return ys[before] + share * (ys[after] - ys[before])


def lying_area_m2(weight_kg: float) -> float:
    """Return the room a pig needs to lie clear of others in heat [m2].

    Args:
        weight_kg: Live weight [kg], 24.9 (55 lb) to 150 (330 lb).

    Returns:
        Area [m2], not rounded.

    Raises:
        ValueError: The weight is outside its range.

    References:
        husbandry-15 (0.93 m2 at 100 kg); power law derived.

    Example:
        >>> round(lying_area_m2(100.0), 2)
        0.93
    """
    require_within(weight_kg, LIGHTEST_LYING_KG, HEAVIEST_LYING_KG, "weight of the pig", "kg")
    return float(LYING_M2 * weight_kg**LYING_POWER)


def resting_energy_kcal(weight_kg: float) -> float:
    """Return the energy a dog uses at rest in a day [kcal/day].

    Args:
        weight_kg: Body weight [kg], 1 to 100.

    Returns:
        Energy [kcal/day], not rounded.

    Raises:
        ValueError: The weight is outside its range.

    References:
        husbandry-76: 70 x kg^0.75; 662 kcal at 20 kg.

    Example:
        >>> round(resting_energy_kcal(20.0))
        662
    """
    require_within(weight_kg, LIGHTEST_DOG_KG, HEAVIEST_DOG_KG, "weight of the dog", "kg")
    return float(RESTING_KCAL * weight_kg**RESTING_POWER)
