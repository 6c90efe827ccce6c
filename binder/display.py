"""Kept units: what pint calls them, and how each prints in either system."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Mapping

System = Literal["us", "metric"]


@dataclass(frozen=True, slots=True)
class Marks:
    """How amounts are written in a place: the decimal mark, what parts thousands, unit words.

    `units` says what a language calls the units below that are no symbols of the SI.
    """

    decimal: str = "."
    group: str = ","
    units: Mapping[str, str] = field(default_factory=dict)

    def put(self, written: str) -> str:
        """Return a number written with point and comma as it is written there."""
        return written.translate({ord("."): self.decimal, ord(","): self.group})

    def unit(self, name: str) -> str:
        """Return what a unit of this module, `cups/min`, is called, with no-break spaces."""
        parts = (self.units.get(part, part) for part in name.split("/"))
        return "/".join(parts).replace(" ", "\N{NO-BREAK SPACE}")


MARKS = Marks()


@dataclass(frozen=True, slots=True)
class Shown:
    """How a kept unit prints in one system: pint's unit, symbol, decimals (None: by size)."""

    pint_unit: str
    symbol: str
    decimals: int | None = None


# kept unit -> how it prints in each system. One place, so that no page can differ from another.
DISPLAY: dict[str, dict[System, Shown]] = {
    "degC": {"us": Shown("degF", "°F", 0), "metric": Shown("degC", "°C", 0)},
    "delta_degC": {"us": Shown("delta_degF", "°F", 0), "metric": Shown("delta_degC", "°C", 1)},
    "degF": {"us": Shown("degF", "°F", 0), "metric": Shown("degC", "°C", 0)},
    "L": {"us": Shown("gallon", "gal"), "metric": Shown("liter", "L")},
    "mL": {"us": Shown("fluid_ounce", "fl oz"), "metric": Shown("milliliter", "mL", 0)},
    "L/day": {"us": Shown("gallon/day", "gal a day"), "metric": Shown("liter/day", "L a day")},
    "L/h": {"us": Shown("gallon/hour", "gal/h"), "metric": Shown("liter/hour", "L/h")},
    "L/min": {
        "us": Shown("gallon/minute", "gal/min"),
        "metric": Shown("liter/minute", "L/min"),
    },
    "mL/min": {
        "us": Shown("cup/minute", "cups/min"),
        "metric": Shown("milliliter/minute", "mL/min", 0),
    },
    "m": {"us": Shown("foot", "ft"), "metric": Shown("meter", "m")},
    "km": {"us": Shown("mile", "miles", 0), "metric": Shown("kilometer", "km", 0)},
    "mm": {"us": Shown("inch", "in"), "metric": Shown("millimeter", "mm", 0)},
    "m2": {"us": Shown("foot**2", "sq ft"), "metric": Shown("meter**2", "m²")},
    "m3": {"us": Shown("foot**3", "cu ft"), "metric": Shown("meter**3", "m³")},
    "kg": {"us": Shown("pound", "lb"), "metric": Shown("kilogram", "kg")},
    "kg/day": {
        "us": Shown("pound/day", "lb a day"),
        "metric": Shown("kilogram/day", "kg a day"),
    },
    "kPa": {"us": Shown("psi", "psi"), "metric": Shown("kilopascal", "kPa")},
    "m3/h": {
        "us": Shown("foot**3/minute", "cfm", 0),
        "metric": Shown("meter**3/hour", "m³/h", 0),
    },
    "m/s": {"us": Shown("foot/minute", "ft/min", 0), "metric": Shown("meter/second", "m/s", 1)},
    "mm/day": {
        "us": Shown("inch/day", "in a day", 2),
        "metric": Shown("millimeter/day", "mm a day", 1),
    },
    "W": {"us": Shown("watt", "W", 0), "metric": Shown("watt", "W", 0)},
    "W/m2": {
        "us": Shown("watt/meter**2", "W/m²", 0),
        "metric": Shown("watt/meter**2", "W/m²", 0),
    },
    "A": {"us": Shown("ampere", "A", 1), "metric": Shown("ampere", "A", 1)},
    "V": {"us": Shown("volt", "V", 0), "metric": Shown("volt", "V", 0)},
    "h": {"us": Shown("hour", "h"), "metric": Shown("hour", "h")},
    "min": {"us": Shown("minute", "min", 0), "metric": Shown("minute", "min", 0)},
    "s": {"us": Shown("second", "s", 0), "metric": Shown("second", "s", 0)},
    "day": {"us": Shown("day", "days", 0), "metric": Shown("day", "days", 0)},
    "%": {"us": Shown("percent", "%"), "metric": Shown("percent", "%")},
    "mg/L": {"us": Shown("ppm", "ppm"), "metric": Shown("ppm", "ppm")},
    "kcal": {"us": Shown("kilocalorie", "kcal", 0), "metric": Shown("kilocalorie", "kcal", 0)},
    "count": {"us": Shown("", "", 0), "metric": Shown("", "", 0)},
    "index": {"us": Shown("", "", 1), "metric": Shown("", "", 1)},
    "ratio": {"us": Shown("", ""), "metric": Shown("", "")},
    "AWG": {"us": Shown("", "AWG", 0), "metric": Shown("", "mm²")},
}  # fmt: skip

# Cross-sections that cords are sold in where wires have no gauge numbers [mm2]: IEC 60228,
# from memory.
SECTIONS = (0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0)

# kept unit -> what pint calls it
PINT_NAMES = {
    "km": "kilometer",
    "degC": "degC", "degF": "degF", "delta_degC": "delta_degC", "L": "liter",
    "mL": "milliliter",
    "L/day": "liter/day", "L/h": "liter/hour", "L/min": "liter/minute",
    "mL/min": "milliliter/minute", "m": "meter", "mm": "millimeter", "m2": "meter**2",
    "m3": "meter**3", "kg": "kilogram", "kg/day": "kilogram/day", "kPa": "kilopascal",
    "m3/h": "meter**3/hour", "m/s": "meter/second", "mm/day": "millimeter/day", "W": "watt",
    "W/m2": "watt/meter**2", "A": "ampere", "V": "volt", "h": "hour", "min": "minute",
    "s": "second", "day": "day", "%": "percent", "mg/L": "ppm", "kcal": "kilocalorie",
    "ppm": "ppm",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Said:
    """Another measure for amounts of some size: 3/4 cup rather than 0.05 gal.

    Attributes:
        least: in the unit of `Shown`, from here on.
        below: in the same unit, up to here.
        pint_unit: the measure to use.
        one: how it is called up to one, `many` from there.
        many: its plural.
        parts: it is marked in halves (2), quarters (4) or eighths (8).
        systems: whose readers use it.
        slack: share of the amount by which a fraction may miss it; else decimals are used.
        whole: used only where a fraction is as near as that, never with decimals.
    """

    least: float
    below: float
    pint_unit: str
    one: str
    many: str
    parts: int
    systems: tuple[System, ...] = ("us", "metric")
    slack: float = 0.02  # our choice
    whole: bool = False


_US: tuple[System, ...] = ("us",)
_NEVER = float("inf")
SAID: dict[str, tuple[Said, ...]] = {
    "mL": (Said(0, 0.5, "teaspoon", "tsp", "tsp", 4, _US),
           Said(0.5, 2, "tablespoon", "Tbsp", "Tbsp", 4, _US),
           Said(8, 128, "cup", "cup", "cups", 1, _US, 0.001, whole=True)),
    "L": (Said(0, 0.01, "teaspoon", "tsp", "tsp", 4, _US),
          Said(0.01, 0.5, "cup", "cup", "cups", 4, _US)),
    "mm": (Said(0, 12, "inch", "in", "in", 8, _US, 0.002),),
    "h": (Said(0, 1, "minute", "min", "min", 1), Said(48, _NEVER, "day", "days", "days", 2)),
    "min": (Said(0, 4, "minute", "min", "min", 2),),
    "mL/min": (Said(0, 1.02, "cup/minute", "cup/min", "cup/min", 4, _US),),
    "s": (Said(90, _NEVER, "minute", "min", "min", 4),),
}  # fmt: skip
# On sheets a volume is one that a measuring jug or a marked bucket shows; workings keep digits.
MEASURED: dict[str, tuple[Said, ...]] = {
    "L": (Said(0.5, 1, "quart", "qt", "qt", 4, _US, 0.07),
          Said(1, 4, "gallon", "gal", "gal", 4, _US, 0.13),
          Said(4, 10, "gallon", "gal", "gal", 2, _US, 0.07)),
    "L/day": (Said(0.06, 0.5, "cup/day", "cup a day", "cups a day", 4, _US, 0.13),),
}  # fmt: skip

# Where metric measures lead and stand alone, an amount is said in the unit of its size: never
# 1,500 mL. In the kept unit, from and below.
ALONE: dict[str, tuple[Said, ...]] = {
    "mL": (Said(1000, _NEVER, "liter", "L", "L", 1),),
    "L": (Said(1e-6, 1, "milliliter", "mL", "mL", 1),),
    "mL/min": (Said(1000, _NEVER, "liter/minute", "L/min", "L/min", 1),),
    "L/day": (Said(1e-6, 1, "milliliter/day", "mL a day", "mL a day", 1),),
    "mm": (Said(100, 2000, "centimeter", "cm", "cm", 1),
           Said(2000, _NEVER, "meter", "m", "m", 1)),
    "m": (Said(1e-6, 0.02, "millimeter", "mm", "mm", 1),
          Said(0.02, 1, "centimeter", "cm", "cm", 1),
          Said(2000, _NEVER, "kilometer", "km", "km", 1)),
    "kg": (Said(1e-6, 1, "gram", "g", "g", 1),),
    "kg/day": (Said(1e-6, 1, "gram/day", "g a day", "g a day", 1),),
    "kPa": (Said(1e-6, _NEVER, "bar", "bar", "bar", 1),),
}  # fmt: skip
# Steps that a jug, a can or a marked bucket shows, in the kept unit: below this, in steps of
# that. Our choice; from 20 mL on what is said is off by an eighth of it at most, half a step.
_STEPS = (
    (0.1, 0.005), (0.25, 0.025), (1.0, 0.05), (2.0, 0.25), (5.0, 0.5), (20.0, 1.0),
    (50.0, 5.0), (_NEVER, 10.0),
)  # fmt: skip
# Doses: digits where drops count, then as above; a cup is a quarter of a litre.
_DOSES = (
    (2.0, 0.01), (4.0, 0.1), (20.0, 1.0), (100.0, 5.0), (230.0, 25.0), (1000.0, 50.0),
    *((1000 * below, 1000 * step) for below, step in _STEPS[3:]),
)  # fmt: skip
ALONE_STEPS: dict[str, tuple[tuple[float, float], ...]] = {
    "L": _STEPS, "L/day": _STEPS, "mL": _DOSES,
}  # fmt: skip
