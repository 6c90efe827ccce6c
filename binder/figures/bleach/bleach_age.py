"""The strength that is left in a bottle of bleach after a time in store (step 3)."""

from __future__ import annotations

from itertools import pairwise

from binder import units
from binder.clock import HOURS_IN_DAY
from binder.figures import published
from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, NotPublishedError, step
from binder.figures.rules import quantity
from binder.science.ranges import require_not_negative, require_positive
from binder.units import Amount

FULL_PCT = 100.0


def bleach_strength(
    strength: float, stored_for: float, storage_temperature: float, subject: str = ""
) -> Figure:
    """Return the least strength left in a closed bottle of bleach [%].

    For planning disinfection. Plan the safety of animals with the full label strength.

    Args:
        strength: when bought [%], above 0 to 12.5.
        stored_for: time kept [h], 0 to 6 months.
        storage_temperature: of the place it is kept [C], up to 38 (100 F); cooler than 21
            (70 F) gives the 70 F figure, at most too low.
        subject: the product.

    Raises:
        NotPublishedError: stronger, longer or warmer than the table.
        ValueError: a strength that is not above 0, or a negative time.

    References:
        wallow-11, a model for 12.5 %; a weaker bleach loses a smaller share (wallow-9,
        wallow-12), so the same share gives the least that is left.
    """
    require_positive(strength, "strength", "%")
    require_not_negative(stored_for, "time kept", "h")
    ages = _ages()
    full_pct = ages[0][1][0][1]
    longest_h = ages[0][1][-1][0]
    warmest_c = ages[-1][0]
    if strength > full_pct or stored_for > longest_h or storage_temperature > warmest_c:
        warm = units.show_both(Amount(warmest_c, "degC"), "us")
        message = (
            f"the ageing of bleach is published up to {full_pct:g} %, 6 months and {warm}; "
            "for anything beyond, buy a fresh bottle"
        )
        raise NotPublishedError(message)
    temperature_c = max(storage_temperature, ages[0][0])
    left = _left_pct(ages, stored_for, temperature_c) / full_pct
    value = Amount(strength * left, "%")
    return Figure(
        name="bleach-strength",
        value=value,
        working=(
            step(
                "left",
                full=Amount(full_pct, "%"),
                time=Amount(stored_for / HOURS_IN_DAY, "day"),
                temperature=Amount(temperature_c, "degC"),
                left=Amount(left * FULL_PCT, "%"),
            ),
            step(
                "value",
                label=Amount(strength, "%"),
                left=Amount(left * FULL_PCT, "%"),
                value=value,
            ),
        ),
        sources=published.formula("bleach_formulas", "bleach-age"),
        cautions=("disinfect-only", "label-for-animals", "vent"),
        subject=subject,
    )


def _ages() -> list[tuple[float, list[tuple[float, float]]]]:
    """Return for each warmth [C] its (time [h], strength left [%]) points."""
    table: dict[float, list[tuple[float, float]]] = {}
    for row in published.rows("bleach_age"):
        points = table.setdefault(quantity(row, "stored_at", "temperature"), [])
        points.append((quantity(row, "stored_for", "time"), row.number("left")))
    return sorted(table.items())


def _left_pct(
    ages: list[tuple[float, list[tuple[float, float]]]], hours: float, temperature_c: float
) -> float:
    """Return the strength left: along 1/strength in time, along a straight line in warmth."""
    at_warmth = [(warm_c, _after(points, hours)) for warm_c, points in ages]
    left = at_warmth[0][1]
    for (low_c, low), (high_c, high) in pairwise(at_warmth):
        if low_c < temperature_c <= high_c:
            left = low + (temperature_c - low_c) / (high_c - low_c) * (high - low)
    return left


def _after(points: list[tuple[float, float]], hours: float) -> float:
    left = points[0][1]
    for (from_h, before), (to_h, after) in pairwise(points):
        if from_h < hours <= to_h:
            share = (hours - from_h) / (to_h - from_h)
            left = 1 / (1 / before + share * (1 / after - 1 / before))
    return left


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "bleach-strength",
        (
            Argument("strength", "strength"),
            Argument("stored_for", "time"),
            Argument("storage_temperature", "temperature"),
        ),
        bleach_strength,
    ),
)
