"""What every formula asks first: does this number lie where the formula was published?

Two kinds of limit are asked for here. A fitted formula stops where its data stop. A formula
that is exact arithmetic (a volume, a rate times a time) stops only where the physical world
does: a length is not negative, a flow that is divided by is more than nothing.
"""

import math


def require_within(
    value: float, low: float, high: float, quantity: str, unit: str = ""
) -> None:
    """Refuse a number outside its range, the ends included as good.

    Args:
        value: The number to judge.
        low: Smallest number allowed.
        high: Largest number allowed.
        quantity: What the number is, in words for the message.
        unit: Unit of all three numbers, as printed.

    Raises:
        ValueError: `value` is below `low`, above `high` or not a number.

    Example:
        >>> require_within(120.0, 0.0, 100.0, "relative humidity", "%")
        Traceback (most recent call last):
        ValueError: relative humidity 120 % is outside the range 0 to 100 %
    """
    if not low <= value <= high:  # written so that "not a number" fails too
        of = f" {unit}" if unit else ""
        msg = f"{quantity} {value:g}{of} is outside the range {low:g} to {high:g}{of}"
        raise ValueError(msg)


def require_positive(value: float, quantity: str, unit: str = "") -> None:
    """Refuse anything that is not a finite number above zero.

    Args:
        value: The number to judge.
        quantity: What the number is, in words for the message.
        unit: Unit of the number, as printed.

    Raises:
        ValueError: `value` is zero, negative, infinite or not a number.

    Example:
        >>> require_positive(0.0, "flow", "L/min")
        Traceback (most recent call last):
        ValueError: flow 0 L/min is outside its range: it must be more than 0
    """
    if not (math.isfinite(value) and value > 0):
        of = f" {unit}" if unit else ""
        msg = f"{quantity} {value:g}{of} is outside its range: it must be more than 0"
        raise ValueError(msg)


def require_not_negative(value: float, quantity: str, unit: str = "") -> None:
    """Refuse anything that is not a finite number of zero or more.

    Args:
        value: The number to judge.
        quantity: What the number is, in words for the message.
        unit: Unit of the number, as printed.

    Raises:
        ValueError: `value` is negative, infinite or not a number.

    Example:
        >>> require_not_negative(-2.0, "depth", "m")
        Traceback (most recent call last):
        ValueError: depth -2 m is outside its range: it must be 0 or more
    """
    if not (math.isfinite(value) and value >= 0):
        of = f" {unit}" if unit else ""
        msg = f"{quantity} {value:g}{of} is outside its range: it must be 0 or more"
        raise ValueError(msg)
