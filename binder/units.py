"""Quantities at the two borders: farm text in, page text out (the only module that knows pint).

Inside the program every number is a plain metric float whose name ends in its unit. `parse`
turns what people write ("150 ft", "3/4 in", "7.5 %") into such a float; `convert` and `show`
turn an `Amount` back into the reader's own measures.
"""

from __future__ import annotations

import math
import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

import pint

from binder.problems import nearest, quotable

System = Literal["us", "metric"]


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with its unit: a key of `DISPLAY`, always the metric unit it is kept in."""

    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Kind:
    """A sort of quantity: the unit it is kept in, and the units it may be written in."""

    name: str
    unit: str
    written: dict[str, str]
    examples: str


@dataclass(frozen=True, slots=True)
class Shown:
    """How a kept unit prints in one system: pint's unit, symbol, decimals (None: by size)."""

    pint_unit: str
    symbol: str
    decimals: int | None = None


class UnitError(ValueError):
    """What was written is not a quantity of the kind needed; the message says what would do."""


_LENGTH = {
    "in": "inch", "inch": "inch", "inches": "inch", '"': "inch", "ft": "foot", "foot": "foot",
    "feet": "foot", "'": "foot", "yd": "yard", "yds": "yard", "yard": "yard", "yards": "yard",
    "mile": "mile", "miles": "mile", "mm": "millimeter", "cm": "centimeter", "m": "meter",
    "metre": "meter", "metres": "meter", "meter": "meter", "meters": "meter", "km": "kilometer",
}  # fmt: skip
_AREA = {
    "sqft": "foot**2", "sq ft": "foot**2", "ft2": "foot**2", "square feet": "foot**2",
    "sqm": "meter**2", "sq m": "meter**2", "m2": "meter**2", "square metres": "meter**2",
    "square meters": "meter**2", "acre": "acre", "acres": "acre", "ha": "hectare",
    "hectare": "hectare", "hectares": "hectare", "sq yd": "yard**2",
}  # fmt: skip
_VOLUME = {
    "gal": "gallon", "gallon": "gallon", "gallons": "gallon", "qt": "quart", "qts": "quart",
    "quart": "quart", "quarts": "quart", "pt": "pint", "pts": "pint", "pint": "pint",
    "pints": "pint", "cup": "cup", "cups": "cup", "fl oz": "fluid_ounce", "floz": "fluid_ounce",
    "tbsp": "tablespoon", "tsp": "teaspoon", "l": "liter", "litre": "liter", "litres": "liter",
    "liter": "liter", "liters": "liter", "ml": "milliliter", "m3": "meter**3",
    "cu ft": "foot**3", "ft3": "foot**3", "gals": "gallon",
}  # fmt: skip
_WEIGHT = {
    "lb": "pound", "lbs": "pound", "pound": "pound", "pounds": "pound", "oz": "ounce",
    "kg": "kilogram", "g": "gram", "ton": "short_ton", "tons": "short_ton",
}  # fmt: skip
_TEMPERATURE = {
    "f": "degF", "°f": "degF", "degf": "degF", "deg f": "degF", "c": "degC", "°c": "degC",
    "degc": "degC", "deg c": "degC", "degrees f": "degF", "degrees c": "degC",
}  # fmt: skip
_TIME = {
    "s": "second", "sec": "second", "second": "second", "seconds": "second", "min": "minute",
    "minute": "minute", "minutes": "minute", "h": "hour", "hr": "hour", "hour": "hour",
    "hours": "hour", "hrs": "hour", "mins": "minute", "secs": "second", "day": "day",
    "days": "day", "d": "day", "week": "week", "weeks": "week", "wk": "week", "wks": "week",
    "mo": "month", "mos": "month", "yr": "year", "yrs": "year", "month": "month",
    "months": "month", "year": "year", "years": "year",
}  # fmt: skip
_FLOW = {
    "gal/min": "gallon/minute", "gpm": "gallon/minute", "l/min": "liter/minute",
    "cup/min": "cup/minute", "cups/min": "cup/minute", "ml/min": "milliliter/minute",
    "gal/h": "gallon/hour", "gph": "gallon/hour", "l/h": "liter/hour", "qt/min": "quart/minute",
    "gal/day": "gallon/day", "l/day": "liter/day", "gallons/min": "gallon/minute",
    "gal/minute": "gallon/minute", "gallons/minute": "gallon/minute",
    "cups/minute": "cup/minute", "gallons/hour": "gallon/hour", "gal/hour": "gallon/hour",
}  # fmt: skip
_STRENGTH = {"%": "percent", "percent": "percent", "ppm": "ppm", "mg/l": "ppm"}
_POWER = {
    "w": "watt", "watt": "watt", "watts": "watt", "kw": "kilowatt", "hp": "horsepower",
}  # fmt: skip
_GAIN = {
    "lb/day": "pound/day", "lbs/day": "pound/day", "pounds/day": "pound/day",
    "lb/d": "pound/day", "oz/day": "ounce/day", "kg/day": "kilogram/day",
    "kg/d": "kilogram/day", "g/day": "gram/day",
}  # fmt: skip
_SPEED = {
    "mph": "mile/hour", "m/s": "meter/second", "ft/min": "foot/minute", "fpm": "foot/minute",
    "km/h": "kilometer/hour",
}  # fmt: skip
_FUEL_RATE = {
    "gal/h": "gallon/hour", "gph": "gallon/hour", "gal/hour": "gallon/hour",
    "gallons/hour": "gallon/hour", "l/h": "liter/hour",
}  # fmt: skip
_DAILY_VOLUME = {
    "gal/day": "gallon/day", "l/day": "liter/day", "gal/d": "gallon/day", "l/d": "liter/day",
    "gallons/day": "gallon/day",
}  # fmt: skip

KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("length", "m", _LENGTH, "10 in, 0.8 ft or 25 cm"),
        Kind("area", "m2", _AREA, "240 sqft or 22 m2"),
        Kind("volume", "L", _VOLUME, "5 gal, 3 cups or 20 L"),
        Kind("weight", "kg", _WEIGHT, "420 lb or 190 kg"),
        Kind("temperature", "degC", _TEMPERATURE, "96 F or 35 C"),
        Kind("time", "h", _TIME, "2 weeks, 3 h or 40 min"),
        Kind("flow", "L/min", _FLOW, "5 gal/min, 3 cup/min or 2 L/min"),
        Kind("air flow", "m3/h", {"cfm": "foot**3/minute", "m3/h": "meter**3/hour"},
             "2400 cfm or 4000 m3/h"),
        Kind("share", "%", {"%": "percent", "percent": "percent"}, "80 %"),
        Kind("strength", "%", _STRENGTH, "8.25 % or 500 ppm"),
        Kind("power", "W", _POWER, "750 W, 3.5 kW or 1/2 hp"),
        Kind("current", "A", {"a": "ampere", "amp": "ampere", "amps": "ampere"}, "15 A"),
        Kind("voltage", "V", {"v": "volt", "volt": "volt", "volts": "volt"}, "120 V"),
        Kind("pressure", "kPa", {"psi": "psi", "kpa": "kilopascal", "bar": "bar"},
             "40 psi or 275 kPa"),
        Kind("gain", "kg/day", _GAIN, "1.6 lb/day or 0.7 kg/day"),
        Kind("depth rate", "mm/day", {"in/day": "inch/day", "mm/day": "millimeter/day",
                                      "in/d": "inch/day", "mm/d": "millimeter/day"},
             "0.25 in/day or 6 mm/day"),
        Kind("speed", "m/s", _SPEED, "400 ft/min or 2 m/s"),
        Kind("sunlight", "W/m2", {"w/m2": "watt/meter**2"}, "1000 W/m2"),
        Kind("fuel rate", "L/h", _FUEL_RATE, "0.6 gal/h or 2.3 L/h"),
        Kind("daily volume", "L/day", _DAILY_VOLUME, "120 gal/day or 450 L/day"),
    )
}  # fmt: skip

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
    "AWG": {"us": Shown("", "AWG", 0), "metric": Shown("", "AWG", 0)},
}  # fmt: skip

_PINT_KEPT = {
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

_NUMBER = re.compile(
    r"""\s*(?P<sign>-?)\s*
    (?:(?P<whole>\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|\.\d+)
       (?![\d,]|\s*/\s*\d)\s*(?:-(?=\d+\s*/))?)?
    (?:(?P<top>\d+)\s*/\s*(?P<bottom>\d+))?
    \s*(?P<unit>[^\s\d,.\-].*?)?\s*""",
    re.DOTALL | re.VERBOSE | re.ASCII,
)
_FEET_AND_INCHES = re.compile(
    r"\s*(?P<feet>\d+\s*(?:ft\.?|feet|foot|'))"
    r"\s*(?P<inches>\d[\d./ -]*\s*(?:in\.?|inch|inches|\"))\s*",
    re.IGNORECASE | re.ASCII,
)
_PER = re.compile(r"\s*/\s*|\s+(?:per|an?)\s+")
_SLIP = 0.75  # share of letters that a misspelt unit has in common with a unit: our choice
_LONGEST = 40  # characters; nobody writes a longer quantity, and messages quote what was read


@lru_cache(maxsize=1)
def _registry() -> pint.UnitRegistry[float]:
    """Return the one registry, made at first use: a command without units starts faster."""
    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@lru_cache(maxsize=512)
def _line(source: str, target: str) -> tuple[float, float]:
    """Return factor and offset of `target = factor * source + offset`: ours are all linear."""
    if source == target:
        return 1.0, 0.0
    registry = _registry()
    zero = float(registry.Quantity(0.0, source).to(target).magnitude)
    thousand = float(registry.Quantity(1000.0, source).to(target).magnitude)
    return (thousand - zero) / 1000.0, zero


def parse(text: str, kind: str) -> float:
    """Return what `text` says, as a float in the kept unit of `kind`.

    Args:
        text: a number, perhaps with a fraction ("1 1/2"), and a unit.
        kind: a key of `KINDS`.

    Raises:
        UnitError: text that is not such a quantity; the message says what would do.
    """
    wanted = KINDS[kind]
    typed = _typed(text) if len(text) <= _LONGEST else ""
    both = _FEET_AND_INCHES.fullmatch(typed) if kind == "length" else None
    if both:
        return _tidy(parse(both["feet"], kind) + parse(both["inches"], kind))
    match = _NUMBER.fullmatch(typed)
    value = _number(match) if match else None
    unit = _unit(match["unit"]) if match else ""
    if value is None or (unit and unit not in wanted.written):
        article = "an" if wanted.name[0] in "aeiou" else "a"
        near = None if value is None else _nearest_unit(unit, wanted)
        message = f'"{quotable(text)}" is not {article} {wanted.name}'
        message += f"; the nearest unit is {near}" if near else ""
        message += f"; write it like {wanted.examples}"
        raise UnitError(message)
    if not unit:
        message = f'"{quotable(text)}" has no unit; write it like {wanted.examples}'
        raise UnitError(message)
    factor, offset = _line(wanted.written[unit], _PINT_KEPT[wanted.unit])
    return _tidy(factor * value + offset)


def _nearest_unit(unit: str, wanted: Kind) -> str | None:
    """Return the unit that was meant; a unit of another kind is no slip of the pen."""
    if any(unit in kind.written for kind in KINDS.values()):
        return None
    return nearest(unit, wanted.written, _SLIP)


def _typed(text: str) -> str:
    """Return the text with the signs that word processors put in typed out: a half, a minus."""
    if text.isascii():
        return text
    return "".join(
        f" {unicodedata.normalize('NFKC', sign)}"
        if unicodedata.category(sign) == "No"
        else sign
        for sign in text
    ).translate(_SIGNS)


_SIGNS = str.maketrans({"\u2044": "/", "\u2212": "-", "\u2013": "-", "\xa0": " ", "\u2032": "'",
                        "\u2033": '"', "\u2019": "'", "\u201d": '"'})  # fmt: skip


def _unit(written: str | None) -> str:
    """Return a unit as `KINDS` spells it: small letters, no full stops, `/` for per."""
    return _PER.sub("/", " ".join((written or "").lower().replace(".", "").split()))


def _number(match: re.Match[str]) -> float | None:
    """Return the number of a match, None where there is none or it divides by nothing."""
    whole, top, bottom = match["whole"], match["top"], match["bottom"]
    if (whole is None and top is None) or (whole and top and "." in whole):
        return None
    value = float(whole.replace(",", "")) if whole else 0.0
    if top is not None:
        if int(bottom) == 0:
            return None
        value += int(top) / int(bottom)
    return -value if match["sign"] else value


def convert(amount: Amount, system: System) -> float:
    """Return the unrounded value of `amount` in the unit the system prints it in."""
    shown = DISPLAY[amount.unit][system]
    if not shown.pint_unit:
        return amount.value
    factor, offset = _line(_PINT_KEPT[amount.unit], shown.pint_unit)
    return _tidy(factor * amount.value + offset)


def difference_c(degrees: float, system: System) -> float:
    """Return a temperature difference in degrees of `system` in Celsius degrees [C]."""
    factor, _ = _line(DISPLAY["delta_degC"][system].pint_unit, "delta_degC")
    return _tidy(factor * degrees)


def _tidy(value: float) -> float:
    """Return `value` to 12 digits: 95 F is 35 C and not a hair over the edge of a band."""
    return float(f"{value:.12g}")


def symbol(amount: Amount, system: System) -> str:
    """Return the printed unit of `amount`, empty for plain numbers."""
    return DISPLAY[amount.unit][system].symbol


def _decimals(value: float) -> int:
    """Return decimals that leave two or three honest digits: no amount here is known better."""
    size = abs(value)
    if size >= 10:
        return 0
    return 1 if size >= 1 else 2


def show_number(value: float, decimals: int | None = None) -> str:
    """Return `value` rounded for reading, thousands parted by commas, no trailing zeros."""
    places = _decimals(value) if decimals is None else decimals
    text = f"{value:,.{places}f}"
    if decimals is None and "." in text:
        text = text.rstrip("0").rstrip(".")
    if value >= _LEAST and not text.strip("0.,"):
        return f"{value:.{-math.floor(math.log10(value))}f}"  # a dose is never nothing
    return "0" if text in {"-0", ""} else text


_LEAST = 1e-6  # below this a number is what arithmetic left over, and prints as 0
_FIXED = "\N{NO-BREAK SPACE}"
_A_DAY = f" a{_FIXED}day"
_RATES = (_A_DAY, "/min", "/h")


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
_SAID: dict[str, tuple[Said, ...]] = {
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
_MEASURED: dict[str, tuple[Said, ...]] = {
    "L": (Said(0.5, 1, "quart", "qt", "qt", 4, _US, 0.07),
          Said(1, 4, "gallon", "gal", "gal", 4, _US, 0.13),
          Said(4, 10, "gallon", "gal", "gal", 2, _US, 0.07)),
}  # fmt: skip


def show_parts(value: float, parts: int, slack: float) -> str | None:
    """Return `2 1/4` for 2.25: in halves, quarters or eighths, None where none is near."""
    steps = round(value * parts)
    if steps <= 0 or abs(steps / parts - value) > slack * value:
        return None
    whole, top = divmod(steps, parts)
    fraction = Fraction(top, parts)
    said = (str(whole) if whole else "", str(fraction) if top else "")
    return _FIXED.join(part for part in said if part)


def _said(
    amount: Amount, system: System, table: dict[str, tuple[Said, ...]] = _SAID
) -> str | None:
    """Return an amount in the measure that fits its size, None where the usual one does."""
    size = convert(amount, system)
    for said in table.get(amount.unit, ()):
        if system in said.systems and said.least <= size < said.below and size > 0:
            factor, _ = _line(_PINT_KEPT[amount.unit], said.pint_unit)
            value = factor * amount.value
            parts = show_parts(value, said.parts, said.slack)
            if parts is None and said.whole:
                continue
            number = parts or show_number(value)
            unit = said.one if value <= 1 + said.slack else said.many
            return f"{number}{_FIXED}{unit}"
    return None


def show(amount: Amount, system: System) -> str:
    """Return `15 gal`: value and unit as the reader says them, a no-break space between."""
    said = _said(amount, system)
    return said if said is not None else _show(amount, system, exact=amount.unit != "mg/L")


def measure(amount: Amount, system: System) -> str:
    """Return an amount as one measures it out: `3 qt` where `show` says `0.78 gal`.

    For what a reader pours or fills, never for a working: it may be off by the slack of
    `_MEASURED`.
    """
    return _said(amount, system, _MEASURED) or show(amount, system)


def _show(amount: Amount, system: System, *, exact: bool) -> str:
    """Return an amount in its usual measure; thousands to three digits unless `exact`."""
    shown = DISPLAY[amount.unit][system]
    value = convert(amount, system)
    if not exact and abs(value) >= 1000:
        value = float(f"{value:.3g}")
    return _with_unit(show_number(value, shown.decimals), shown.symbol)


def _with_unit(number: str, said: str) -> str:
    if not said:
        return number
    joint = "" if said[0] in "°%" else _FIXED
    measure, rate, _ = said.partition(" a day")
    return f"{number}{joint}{measure.replace(' ', _FIXED)}{_A_DAY if rate else ''}"


def show_both(amount: Amount, system: System) -> str:
    """Return `15 gal (57 L)`: the reader's measure with the other system's beside it.

    A rate says its time once: `15 gal (57 L) a day`. What was converted, and every strength in
    water, keeps three digits: more would claim more than is known.
    """
    return _both(amount, system, show(amount, system))


def measure_both(amount: Amount, system: System) -> str:
    """Return `3 qt (2.9 L)`: as one measures it out, with the other system's beside it."""
    return _both(amount, system, measure(amount, system))


def _both(amount: Amount, system: System, first: str) -> str:
    other: System = "metric" if system == "us" else "us"
    second = _said(amount, other) or _show(amount, other, exact=False)
    if first == show(amount, other):
        return first
    for rate in _RATES:
        if first.endswith(rate) and second.endswith(rate):
            return f"{first.removesuffix(rate)} ({second.removesuffix(rate)}){rate}"
    return f"{first} ({second})"
