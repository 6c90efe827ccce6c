"""Quantities at the two borders: farm text in, page text out.

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

from binder.conversion import line
from binder.display import (
    ALONE,
    ALONE_STEPS,
    DISPLAY,
    MARKS,
    MEASURED,
    PINT_NAMES,
    SAID,
    SECTIONS,
    Marks,
    Said,
    System,
)
from binder.kinds import KINDS, Kind
from binder.problems import nearest, quotable


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with its unit: a key of `DISPLAY`, always the metric unit it is kept in."""

    value: float
    unit: str


class UnitError(ValueError):
    """What was written is not a quantity of the kind needed; the message says what would do."""


_NUMBER = re.compile(
    r"""\s*(?P<sign>-?)\s*
    (?:(?P<whole>\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d{1,3}(?:[ ]\d{3})+(?:[.,]\d+)?
       |\d{1,3}(?:\.\d{3})+,\d+|\d+(?:[.,]\d+)?|\.\d+)
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
# Three digits after a point: thousands in some countries, thousandths in others. Not so where
# inches and gallons are at home.
_THOUSANDS = re.compile(r"\s*([1-9]\d{0,2})([.,])(\d{3})\s*([^\d\s].*)", re.ASCII)
_GROUPED = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?")
_US = re.compile(
    "inch|foot|yard|mile|acre|gallon|quart|pint|cup|ounce|spoon|pound|ton|degF|horsepower|psi"
)
_PER = re.compile(r"\s*/\s*|\s+(?:per|an?)\s+")
_SLIP = 0.75  # share of letters that a misspelt unit has in common with a unit: our choice
_LONGEST = 40  # characters; nobody writes a longer quantity, and messages quote what was read


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
    if match and _US.search(wanted.written.get(unit, "")) and _odd_comma(match["whole"]):
        value = None  # a comma is no decimal mark where feet and gallons are at home
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
    factor, offset = line(wanted.written[unit], PINT_NAMES[wanted.unit])
    return _tidy(factor * value + offset)


def two_things(text: str, kind: str) -> tuple[str, str] | None:
    """Return `1 L` and `1000 L` for `1.000 L` and for `1,000 L`; None where it can be but one.

    A point or a comma before three digits parts thousands in some countries, and is the decimal
    mark in others. Where inches and gallons are at home a comma parts thousands.
    """
    match = _THOUSANDS.fullmatch(text)
    if match is None or not is_metric(text, kind):
        return None
    whole, _, digits, unit = match.groups()
    small = f"{whole}.{digits}".rstrip("0").rstrip(".")
    return f"{small} {unit}", f"{whole}{digits} {unit}"


def is_metric(text: str, kind: str) -> bool:
    """Return whether a quantity is written in a unit that is not one of the US."""
    unit = _written_in(text, kind)
    return bool(unit) and not _US.search(unit)


def _written_in(text: str, kind: str) -> str:
    """Return the unit of a quantity as pint calls it, empty where there is none."""
    match = _NUMBER.fullmatch(_typed(text))
    return KINDS[kind].written.get(_unit(match["unit"]), "") if match else ""


def _nearest_unit(unit: str, wanted: Kind) -> str | None:
    """Return the unit that was meant; a unit of another kind is no slip of the pen."""
    if any(unit in kind.written for kind in KINDS.values()):
        return None
    return nearest(unit, wanted.written, _SLIP)


def _typed(text: str) -> str:
    """Return the text with the signs that word processors put in typed out: a half, a minus."""
    if text.isascii():
        return text
    text = text.translate(_POWERS)
    return "".join(
        f" {unicodedata.normalize('NFKC', sign)}"
        if unicodedata.category(sign) == "No"
        else sign
        for sign in text
    ).translate(_SIGNS)


_POWERS = str.maketrans({"\u00b2": "2", "\u00b3": "3"})  # m², m³
_SIGNS = str.maketrans({"\u2044": "/", "\u2212": "-", "\u2013": "-", "\xa0": " ", "\u2032": "'",
                        "\u2033": '"', "\u2019": "'", "\u201d": '"', "\u202f": " ",
                        "\u2009": " ", "\u00ba": "\u00b0"})  # fmt: skip


def _unit(written: str | None) -> str:
    """Return a unit as `KINDS` spells it: small letters, no full stops, `/` for per."""
    return _PER.sub("/", " ".join((written or "").lower().replace(".", "").split()))


def _number(match: re.Match[str]) -> float | None:
    """Return the number of a match, None where there is none or it divides by nothing."""
    whole, top, bottom = match["whole"], match["top"], match["bottom"]
    if (whole is None and top is None) or (whole and top and re.search("[.,]", whole)):
        return None
    value = _decimal(whole) if whole else 0.0
    if top is not None:
        if int(bottom) == 0:
            return None
        value += int(top) / int(bottom)
    return -value if match["sign"] else value


def _odd_comma(written: str | None) -> bool:
    return "," in (written or "") and _GROUPED.fullmatch(written or "") is None


def _decimal(written: str) -> float:
    """Return `1,5`, `1.500,5`, `12 345,5`, `12,345.5` and `1.5` as a number."""
    closed = written.replace(" ", "")
    if _GROUPED.fullmatch(closed):
        return float(closed.replace(",", ""))
    if "," in closed:
        return float(closed.replace(".", "").replace(",", "."))
    return float(closed)


def convert(amount: Amount, system: System) -> float:
    """Return the unrounded value of `amount` in the unit the system prints it in."""
    shown = DISPLAY[amount.unit][system]
    if amount.unit == "AWG" and system == "metric":
        return _section(round(amount.value))
    if not shown.pint_unit:
        return amount.value
    factor, offset = line(PINT_NAMES[amount.unit], shown.pint_unit)
    return _tidy(factor * amount.value + offset)


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
    return _tidy(factor * degrees)


def _tidy(value: float) -> float:
    """Return `value` to 12 digits: 95 F is 35 C and not a hair over the edge of a band."""
    return float(f"{value:.12g}")


def limit(written: str, kind: str, *, up: bool) -> str:
    """Return a limit that is written in US measures in metric ones, `3.2 mm`, else as it is.

    To two digits, `up` or down, so that it lies inside.
    """
    if not _US.search(_written_in(written, kind)):
        return written
    kept = parse(written, kind)
    step = 10.0 ** (math.floor(math.log10(abs(kept))) - 1) if kept else 1.0
    inside = (math.ceil if up else math.floor)(round(kept / step, 9)) * step
    said = show(Amount(_tidy(inside), KINDS[kind].unit), "metric")
    return said.replace(_FIXED, " ").replace(",", "").replace(" a day", "/day")


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
_DAILY = " a day"  # as `display` ends the name of a rate


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
    amount: Amount, system: System, marks: Marks, table: dict[str, tuple[Said, ...]] = SAID
) -> str | None:
    """Return an amount in the measure that fits its size, None where the usual one does."""
    size = convert(amount, system)
    for said in table.get(amount.unit, ()):
        if system in said.systems and said.least <= size < said.below and size > 0:
            factor, _ = line(PINT_NAMES[amount.unit], said.pint_unit)
            value = factor * amount.value
            parts = show_parts(value, said.parts, said.slack)
            if parts is None and said.whole:
                continue
            unit = said.one if value <= 1 + said.slack else said.many
            return _with_unit(parts or show_number(value), unit, marks)
    return None


def _alone(amount: Amount, marks: Marks, *, steps: bool) -> str:
    """Return an amount where metric measures stand alone: `1.5 L`, `30 cm`, `250 mL`.

    With `steps` a volume is one that a jug or a marked bucket shows.
    """
    size, stepped = amount.value, False
    if steps:
        for below, step in ALONE_STEPS.get(amount.unit, ()):
            if 0 < size < below:
                size, stepped = _tidy(max(round(size / step), 1) * step), True
                break
    for one in ALONE.get(amount.unit, ()):
        if one.least <= abs(size) < one.below:
            factor, _ = line(PINT_NAMES[amount.unit], one.pint_unit)
            return _with_unit(show_number(_tidy(factor * size)), one.many, marks)
    if stepped:  # a quarter of a litre has two decimals
        number = f"{size:,.2f}".rstrip("0").rstrip(".")
        return _with_unit(number, DISPLAY[amount.unit]["metric"].symbol, marks)
    shown = DISPLAY[amount.unit]["metric"]
    said = _said(Amount(size, amount.unit), "metric", marks)
    if said is not None:
        return said
    number = show_number(convert(Amount(size, amount.unit), "metric"), shown.decimals)
    return _with_unit(number, shown.symbol, marks)


def show(amount: Amount, system: System, marks: Marks = MARKS) -> str:
    """Return `15 gal`: value and unit as the reader says them, a no-break space between."""
    if system == "metric":
        return _alone(amount, marks, steps=False)
    return beside(amount, system, marks)


def beside(amount: Amount, system: System, marks: Marks = MARKS) -> str:
    """Return an amount as it stands beside the other system's: `0.5 L`, not `500 mL`."""
    said = _said(amount, system, marks)
    if said is not None:
        return said
    return _show(amount, system, marks, exact=amount.unit != "mg/L")


def measure(amount: Amount, system: System, marks: Marks = MARKS) -> str:
    """Return an amount as one measures it out: `3 qt` where `show` says `0.78 gal`.

    For what a reader pours or fills, never for a working: it may be off by the slack of
    `MEASURED`, where metric measures lead by half a step of `ALONE_STEPS`.
    """
    if system == "metric":
        return _alone(amount, marks, steps=True)
    return _said(amount, system, marks, MEASURED) or show(amount, system, marks)


def _show(amount: Amount, system: System, marks: Marks, *, exact: bool) -> str:
    """Return an amount in its usual measure; thousands to three digits unless `exact`."""
    shown = DISPLAY[amount.unit][system]
    value = convert(amount, system)
    if not exact and abs(value) >= 1000:
        value = float(f"{value:.3g}")
    return _with_unit(show_number(value, shown.decimals), shown.symbol, marks)


def _with_unit(number: str, unit: str, marks: Marks) -> str:
    """Return a number as it is written there, with its unit as it is called there."""
    if not unit:
        return marks.put(number)
    joint = "" if unit[0] in "°%" else _FIXED
    measure, rate, _ = unit.partition(_DAILY)
    return f"{marks.put(number)}{joint}{marks.unit(measure)}{_daily(marks) if rate else ''}"


def _daily(marks: Marks) -> str:
    return f" {marks.unit(_DAILY.strip())}"


def show_both(amount: Amount, system: System, marks: Marks = MARKS) -> str:
    """Return `15 gal (57 L)`: the reader's measure with the other system's beside it.

    Where metric measures lead they stand alone. A rate says its time once: `15 gal (57 L) a
    day`. What was converted, and every strength in water, keeps three digits: more would claim
    more than is known.
    """
    return _both(amount, system, show(amount, system, marks), marks)


def measure_both(amount: Amount, system: System, marks: Marks = MARKS) -> str:
    """Return `3 qt (2.9 L)`: as one measures it out, with the other system's beside it."""
    return _both(amount, system, measure(amount, system, marks), marks)


def _both(amount: Amount, system: System, first: str, marks: Marks) -> str:
    if system == "metric":
        return first
    second = _said(amount, "metric", marks) or _show(amount, "metric", marks, exact=False)
    if first == beside(amount, "metric", marks):
        return first
    for rate in (_daily(marks), "/min", "/h"):
        if first.endswith(rate) and second.endswith(rate):
            return f"{first.removesuffix(rate)} ({second.removesuffix(rate)}){rate}"
    return f"{first} ({second})"
