"""A number with its unit, in the unit of a system of measures; gauges of wire."""

from __future__ import annotations

import math
from dataclasses import dataclass

from binder.conversion import line
from binder.display import DISPLAY, PINT_NAMES, SECTIONS, System


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with its unit: a key of `DISPLAY`, always the metric unit it is kept in."""

    value: float
    unit: str


def convert(amount: Amount, system: System) -> float:
    """Return the unrounded value of `amount` in the unit the system prints it in."""
    shown = DISPLAY[amount.unit][system]
    if amount.unit == "AWG" and system == "metric":
        return _section(round(amount.value))
    if not shown.pint_unit:
        return amount.value
    factor, offset = line(PINT_NAMES[amount.unit], shown.pint_unit)
    return tidy(factor * amount.value + offset)


def copper_mm2(gauge: int) -> float:
    """Return the cross-section of a wire [mm2] by its American gauge, 1 to 24.

    ASTM B258, from memory: 0.127 mm across at gauge 36, 92 times that 39 gauges on.
    """
    across_mm = 0.127 * math.pow(92.0, (36 - gauge) / 39)
    return math.pi / 4 * across_mm**2


def _section(gauge: int) -> float:
    """Return the thinnest cross-section sold that is no thinner than a gauge [mm2]."""
    return next(section for section in SECTIONS if section >= copper_mm2(gauge))


def gauge_of(section_mm2: float) -> int:
    """Return the thickest American gauge that is no thicker than a cross-section [AWG].

    Raises:
        ValueError: a wire thinner than gauge 24 or thicker than gauge 1.
    """
    if not copper_mm2(24) <= section_mm2 <= SECTIONS[-1]:
        message = f"{section_mm2:g} mm2 is no wire of a cord"
        raise ValueError(message)
    return next(gauge for gauge in range(1, 25) if copper_mm2(gauge) <= section_mm2)


def difference_c(degrees: float, system: System) -> float:
    """Return a temperature difference in degrees of `system` in Celsius degrees [C]."""
    factor, _ = line(DISPLAY["delta_degC"][system].pint_unit, "delta_degC")
    return tidy(factor * degrees)


def tidy(value: float) -> float:
    """Return `value` to 12 digits: 95 F is 35 C and not a hair over the edge of a band."""
    return float(f"{value:.12g}")


def symbol(amount: Amount, system: System) -> str:
    """Return the printed unit of `amount`, empty for plain numbers."""
    return DISPLAY[amount.unit][system].symbol
