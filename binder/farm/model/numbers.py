"""Reads one number of a farm file: amounts with their unit, whole numbers, wires."""

from __future__ import annotations

import re
from functools import lru_cache

from pydantic import BeforeValidator, WithJsonSchema

from binder import units
from binder.farm import tables
from binder.farm.model.readers import quoted, refuse, schema
from binder.kinds import KINDS

DECIMAL = re.compile(r"-?[0-9]{1,6}(\.[0-9]{1,12})?")
_WHOLE = re.compile(r"[0-9]{1,6}")


def quantity(field: str) -> BeforeValidator:
    """Return the reader of a quantity: a number and a unit, within the field's limits."""
    limit = tables.by("field_limits", "field")[field]
    kind, least, most = limit["kind"], limit["least"], limit["most"]

    def read(value: object) -> float:
        if not isinstance(value, str):
            wanted = KINDS[kind].examples
            refuse(f"is a list or mapping, but one value belongs here, like {wanted}")
        number = units.parse(value, kind)
        low, high = _limits(kind, least, most)
        two = units.two_things(value, kind)
        if two and all(low <= units.parse(one, kind) <= high for one in _asked(value, two)):
            refuse(f"{quoted(value)} could be two things; write {two[0]} or {two[1]}")
        if not low <= number <= high:
            first, last = least, most
            if units.is_metric(value, kind):  # said in the measures of whoever wrote it
                first = units.limit(least, kind, up=True)
                last = units.limit(most, kind, up=False)
            refuse(
                f"{quoted(value)} is out of range; write {first} or more, and {last} at most"
            )
        return number

    return BeforeValidator(read)


def _asked(value: str, two: tuple[str, str]) -> tuple[str, ...]:
    """Return what must be possible for the owner to be asked which of two was meant.

    A comma before three digits mostly parts thousands; a point is asked about once that may be.
    """
    return two if "," in value else two[1:]


@lru_cache(maxsize=64)
def _limits(kind: str, least: str, most: str) -> tuple[float, float]:
    """Return the limits in the unit that is kept."""
    return units.parse(least, kind), units.parse(most, kind)


def quantity_schema(field: str) -> WithJsonSchema:
    """Return what an editor is told of a field that holds a quantity."""
    limit = tables.by("field_limits", "field")[field]
    return written(limit["kind"], limit["example"] or None)


def written(kind: str, example: str | None = None) -> WithJsonSchema:
    """Return the schema of a quantity: text that ends in one of its units."""
    wanted = KINDS[kind]
    shown = example or re.split(r", | or ", wanted.examples)[0]
    ending = "|".join("".join(map(_letter, name)) for name in sorted(wanted.written))
    return schema("string", shown, pattern=rf"^{_FEET}{_NUMBER}({ending})\.?\s*$")


_MINUS = "\N{MINUS SIGN}\N{EN DASH}-"
_FEET = r"(\s*[0-9]+\s*([fF][tT]|[fF][eE][eE][tT]|[fF][oO][oO][tT]|'))?"
_NUMBER = rf"\s*[{_MINUS}]?\s*[0-9.½¼¾⅓⅔⅛⅜⅝⅞][-0-9.,/ ½¼¾⅓⅔⅛⅜⅝⅞]*\s*"


def _letter(letter: str) -> str:
    """Return the pattern of one letter of a unit, small or large, as people write it."""
    if letter.isalpha():
        return f"[{letter}{letter.upper()}]"
    return {"/": r"\.?\s*(/|[pP][eE][rR]|[aA][nN]?)\s*", " ": r"\.?\s+"}.get(letter, letter)


def whole(low: int, high: int) -> BeforeValidator:
    """Return the reader of a whole number from `low` to `high`."""

    def read(value: object) -> int:
        if not (isinstance(value, str) and _WHOLE.fullmatch(value)):
            refuse(f"{quoted(value)} is not a whole number; write it like 8")
        number = int(value)
        if not low <= number <= high:
            refuse(f"{quoted(value)} is out of range; it must be from {low:,} to {high:,}")
        return number

    return BeforeValidator(read)


_SECTION = re.compile(
    r"(\d{1,2}(?:[.,]\d{1,2})?)\s*(?:mm2|mm\^2|mm\u00b2|sq ?mm)", re.IGNORECASE
)


def wire(low: int, high: int) -> BeforeValidator:
    """Return the reader of a wire: its gauge from `low` to `high`, or its section in mm2."""

    def read(value: object) -> int:
        section = _SECTION.fullmatch(value.strip()) if isinstance(value, str) else None
        if section is None:
            gauge = value.upper().removesuffix("AWG").strip() if isinstance(value, str) else ""
            if not _WHOLE.fullmatch(gauge):
                refuse(f"{quoted(value)} is no wire; write it like 12 or 2.5 mm2")
            number = int(gauge)
            if not low <= number <= high:
                refuse(
                    f"{quoted(value)} is out of range; it must be from {low} to {high},"
                    " or a section like 2.5 mm2"
                )
            return number
        try:
            return units.gauge_of(float(section[1].replace(",", ".")))
        except ValueError:
            refuse(f"{quoted(value)} is no wire of a cord; write it like 12 or 2.5 mm2")

    return BeforeValidator(read)


def decimal(low: float, high: float, what: str, example: str) -> BeforeValidator:
    """Return the reader of a plain number without a unit, from `low` to `high`."""

    def read(value: object) -> float:
        if not (isinstance(value, str) and DECIMAL.fullmatch(value)):
            refuse(f"{quoted(value)} is not {what}; write it like {example}")
        number = float(value)
        if not low <= number <= high:
            refuse(f"{quoted(value)} is out of range; it must be from {low:g} to {high:g}")
        return number

    return BeforeValidator(read)
