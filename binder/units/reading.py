"""What people write, "150 ft", "3/4 in", "7.5 %", as a number in the unit that is kept."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from binder.conversion import line
from binder.display import PINT_NAMES
from binder.kinds import KINDS, Kind
from binder.problems import nearest, quotable
from binder.units.amounts import tidy


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
OF_THE_US = re.compile(
    "inch|foot|yard|mile|acre|gallon|quart|pint|cup|ounce|spoon|pound|ton|degF|horsepower|psi"
)
_PER = re.compile(r"\s*/\s*|\s+(?:per|an?)\s+")
_SLIP = 0.75  # share of letters that a misspelt unit has in common with a unit: our choice
_LONGEST = 40  # characters; nobody writes a longer quantity, and messages quote what was read


@lru_cache(maxsize=4096)  # the words name the same few hundred amounts again and again
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
        return tidy(parse(both["feet"], kind) + parse(both["inches"], kind))
    match = _NUMBER.fullmatch(typed)
    value = _number(match) if match else None
    unit = _unit(match["unit"]) if match else ""
    if match and OF_THE_US.search(wanted.written.get(unit, "")) and _odd_comma(match["whole"]):
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
    return tidy(factor * value + offset)


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
    unit = written_in(text, kind)
    return bool(unit) and not OF_THE_US.search(unit)


def written_in(text: str, kind: str) -> str:
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
