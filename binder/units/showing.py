"""An amount as the reader says it: in their measures, rounded to what is known."""

from __future__ import annotations

import math
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
    Marks,
    Said,
    System,
)
from binder.kinds import KINDS
from binder.units.amounts import Amount, convert, tidy
from binder.units.reading import OF_THE_US, parse, written_in


def limit(written: str, kind: str, *, up: bool) -> str:
    """Return a limit that is written in US measures in metric ones, `3.2 mm`, else as it is.

    To two digits, `up` or down, so that it lies inside.
    """
    if not OF_THE_US.search(written_in(written, kind)):
        return written
    kept = parse(written, kind)
    step = 10.0 ** (math.floor(math.log10(abs(kept))) - 1) if kept else 1.0
    inside = (math.ceil if up else math.floor)(round(kept / step, 9)) * step
    said = show(Amount(tidy(inside), KINDS[kind].unit), "metric")
    return said.replace(_FIXED, " ").replace(",", "").replace(" a day", "/day")


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
    if value >= _LEAST and not text.strip("0.,"):  # a dose is never nothing
        if value < _SMALLEST:
            return f"<{_FIXED}{_SMALLEST}"
        return f"{value:.{-math.floor(math.log10(value))}f}"
    return "0" if text in {"-0", ""} else text


_LEAST = 1e-6  # below this a number is what arithmetic left over, and prints as 0
_SMALLEST = 0.001  # below this nobody measures, and the noughts are not read: our choice
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
                size, stepped = tidy(max(round(size / step), 1) * step), True
                break
    for one in ALONE.get(amount.unit, ()):
        if one.least <= abs(size) < one.below:
            factor, _ = line(PINT_NAMES[amount.unit], one.pint_unit)
            return _with_unit(show_number(tidy(factor * size)), one.many, marks)
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
