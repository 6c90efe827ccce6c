"""Reads one value of a farm file, which comes as text, or says what is wrong with it."""

from __future__ import annotations

import datetime as dt
import re
import zoneinfo
from functools import lru_cache
from typing import TYPE_CHECKING, NoReturn

from pydantic import BeforeValidator, WithJsonSchema

from binder import languages, places, units
from binder.farm import tables
from binder.kinds import KINDS
from binder.problems import nearest, quotable

if TYPE_CHECKING:
    from collections.abc import Callable

# Our choice: what lies outside is a slip of the pen, on any farm and in any year we print for.
FIRST_YEAR, LAST_YEAR = 1980, 2099
LONGEST_LINE, LONGEST_TEXT = 200, 4_000  # characters that a card and a sheet have room for

ID = re.compile(r"[a-z0-9][a-z0-9_-]{0,39}")
DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):[0-5][0-9]")
DECIMAL = re.compile(r"-?[0-9]{1,6}(\.[0-9]{1,12})?")
_WHOLE = re.compile(r"[0-9]{1,6}")
_COUNTRY = re.compile(r"[a-z]{2}")  # ISO 3166-1
_LANGUAGE = re.compile(r"[a-z]{2,3}")  # ISO 639
_SHORT_ZONE = re.compile(r"[A-Z]{2,5}")
_SEVERAL = re.compile(r"[a-z0-9_-]+(\s*[,;/&+]\s*|\s+and\s+)[a-z0-9_, ;/&+-]+")
# ITU-T E.164 (6.1): fifteen digits at most. The least is our choice: 911 and 112 have three.
LEAST_DIGITS, MOST_DIGITS = 3, 15
_NUMBER_ALONE = re.compile(r"\+?[0-9(][0-9 ().-]*")
_EXTENSION = re.compile(r"(?<![a-z])(ext|extension|x)\.?\s*\d", re.IGNORECASE)
_SEVERAL_NUMBERS = re.compile(r"\d\W*([,;/&|]|\bor\b|\band\b)\W*[+(]?\d", re.IGNORECASE)
_KEYED = re.compile(r"[0-9]{1,8}")
_LINK = re.compile(r"https?://[^\s<>\"]+", re.IGNORECASE)
_NOTHING = frozenset({"nan", "undefined", "#n/a", "#ref!", "#value!", "#name?", "#null!"})
_A_NAME_TOO = "Nan"  # a goat may be called so; programs write nan or NaN
_YES_NO = {"yes": True, "true": True, "no": False, "false": False}


def _quoted(value: object) -> str:
    """Return what was read as messages show it."""
    return f'"{quotable(value)}"' if isinstance(value, str) else "a list or mapping"


def _refuse(message: str) -> NoReturn:
    raise ValueError(message)


def schema(kind: str | list[str], example: str = "", **more: object) -> WithJsonSchema:
    """Return what an editor is told of a type, with an example where one fits every use."""
    shown = {"examples": [example]} if example else {}
    return WithJsonSchema({"type": kind, **more, **shown})


def quantity(field: str) -> BeforeValidator:
    """Return the reader of a quantity: a number and a unit, within the field's limits."""
    limit = tables.by("field_limits", "field")[field]
    kind, least, most = limit["kind"], limit["least"], limit["most"]

    def read(value: object) -> float:
        if not isinstance(value, str):
            wanted = KINDS[kind].examples
            _refuse(f"is a list or mapping, but one value belongs here, like {wanted}")
        number = units.parse(value, kind)
        low, high = _limits(kind, least, most)
        two = units.two_things(value, kind)
        if two and all(low <= units.parse(one, kind) <= high for one in _asked(value, two)):
            _refuse(f"{_quoted(value)} could be two things; write {two[0]} or {two[1]}")
        if not low <= number <= high:
            first, last = least, most
            if units.is_metric(value, kind):  # said in the measures of whoever wrote it
                first = units.limit(least, kind, up=True)
                last = units.limit(most, kind, up=False)
            _refuse(
                f"{_quoted(value)} is out of range; write {first} or more, and {last} at most"
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
            _refuse(f"{_quoted(value)} is not a whole number; write it like 8")
        number = int(value)
        if not low <= number <= high:
            _refuse(f"{_quoted(value)} is out of range; it must be from {low:,} to {high:,}")
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
                _refuse(f"{_quoted(value)} is no wire; write it like 12 or 2.5 mm2")
            number = int(gauge)
            if not low <= number <= high:
                _refuse(
                    f"{_quoted(value)} is out of range; it must be from {low} to {high},"
                    " or a section like 2.5 mm2"
                )
            return number
        try:
            return units.gauge_of(float(section[1].replace(",", ".")))
        except ValueError:
            _refuse(f"{_quoted(value)} is no wire of a cord; write it like 12 or 2.5 mm2")

    return BeforeValidator(read)


def decimal(low: float, high: float, what: str, example: str) -> BeforeValidator:
    """Return the reader of a plain number without a unit, from `low` to `high`."""

    def read(value: object) -> float:
        if not (isinstance(value, str) and DECIMAL.fullmatch(value)):
            _refuse(f"{_quoted(value)} is not {what}; write it like {example}")
        number = float(value)
        if not low <= number <= high:
            _refuse(f"{_quoted(value)} is out of range; it must be from {low:g} to {high:g}")
        return number

    return BeforeValidator(read)


def yes_or_no(value: object) -> bool:
    """Return whether yes or no is written."""
    if isinstance(value, str) and value.lower() in _YES_NO:
        return _YES_NO[value.lower()]
    _refuse(f"{_quoted(value)} is not yes or no")


def date(value: object) -> dt.date:
    """Return a date written year-month-day."""
    if not (isinstance(value, str) and DATE.fullmatch(value)):
        _refuse(f"{_quoted(value)} is not a date; write it like 2026-07-14 (year-month-day)")
    try:
        day = dt.date.fromisoformat(value)
    except ValueError:
        _refuse(f"{_quoted(value)} is a day that does not exist; check month and day")
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        _refuse(f"{_quoted(value)} lies outside {FIRST_YEAR} to {LAST_YEAR}; check the year")
    return day


def clock(value: object) -> dt.time:
    """Return a time of day written on 24 hours."""
    if isinstance(value, str) and CLOCK.fullmatch(value):
        hours, minutes = value.split(":")
        return dt.time(int(hours), int(minutes))
    _refuse(f"{_quoted(value)} is not a time of day; write it like 06:30 or 15:30")


def id_(value: object) -> str:
    """Return a short name, one and not several."""
    if isinstance(value, str) and ID.fullmatch(value):
        return value
    if isinstance(value, list) or (isinstance(value, str) and _SEVERAL.fullmatch(value)):
        what = "is a list" if isinstance(value, list) else f"{_quoted(value)} names several"
        _refuse(f"{what}, but one belongs here; write the one, or split the entry in two")
    message = (
        f"{_quoted(value)} is not an id; use small letters, digits and -, like creek or stall-1"
    )
    _refuse(message)


def words(longest: int, *, one_line: bool) -> Callable[[object], str]:
    """Return the reader of the owner's own words, up to so many characters."""

    def read(value: object) -> str:
        if not isinstance(value, str):
            _refuse("is a list or mapping, but plain text belongs here")
        text = value.strip()
        if not text:
            _refuse("is empty; write something, or take the key away")
        if text.lower() in _NOTHING and text != _A_NAME_TOO:
            _refuse(f"{_quoted(text)} is what a program writes for nothing; take the key away")
        if len(text) > longest:
            _refuse(f"is {len(text):,} characters long; there is room for {longest:,}")
        if one_line and "\n" in text:
            _refuse("goes over several lines; write it on one")
        return text

    return read


def phone(value: object) -> str:
    """Return one telephone number, with nothing in it that a phone would not dial."""
    line = words(LONGEST_LINE, one_line=True)(value)
    if _EXTENSION.search(line):
        _refuse(f"{_quoted(line)} has an extension in it; give that a key beside it: ext: 12")
    digits = sum(character.isdigit() for character in line)
    if digits > MOST_DIGITS or _SEVERAL_NUMBERS.search(line):
        _refuse(
            f"{_quoted(line)} is more than one number; write one here and the others "
            "as a list: more_phones: [912-555-0110]"
        )
    if not _NUMBER_ALONE.fullmatch(line) or digits < LEAST_DIGITS:
        _refuse(
            f"{_quoted(line)} is not a phone number; write it like 912-555-0110, "
            "with nothing else"
        )
    return line


def extension(value: object) -> str:
    """Return the extension that is keyed in once an office answers."""
    if isinstance(value, str) and _KEYED.fullmatch(value):
        return value
    _refuse(f"{_quoted(value)} is not an extension; write its digits, like 12")


def link(value: object) -> str:
    """Return a web address."""
    line = words(LONGEST_LINE, one_line=True)(value)
    if not _LINK.fullmatch(line):
        _refuse(f"{_quoted(line)} is not a web address; write it like https://example.org/map")
    return line


@lru_cache(maxsize=1)
def _time_zones() -> frozenset[str]:
    return frozenset(zoneinfo.available_timezones())


def time_zone(value: object) -> str:
    """Return a time zone by its name in the IANA database."""
    line = words(LONGEST_LINE, one_line=True)(value)
    if line not in _time_zones():
        if _SHORT_ZONE.fullmatch(line):
            _refuse(
                f"{_quoted(line)} is short for the time of many places; write region and town, "
                " like America/New_York or Europe/Madrid"
            )
        near = nearest(line, sorted(_time_zones()), likeness=0.85)
        hint = f"did you mean {near}?" if near else "write it like America/New_York"
        _refuse(f"{_quoted(line)} is not a time zone; {hint}")
    return line


def country(value: object) -> str:
    """Return the code of a country, in small letters; one without a pack is neutral."""
    line = words(LONGEST_LINE, one_line=True)(value).lower()
    if _COUNTRY.fullmatch(line):
        return "gb" if line == "uk" else line
    named = {one.name.lower().removeprefix("the "): one.code for one in places.packs().values()}
    near = nearest(line, named, likeness=0.75)
    hint = f"write {named[near]}" if near else "write its two letters, like us, es or au"
    _refuse(f"{_quoted(value)} is not the code of a country; {hint}")


def language(value: object) -> str:
    """Return a language in which a binder can be made, by its code."""
    line = words(LONGEST_LINE, one_line=True)(value).lower()
    if not _LANGUAGE.fullmatch(line):
        _refuse(f"{_quoted(value)} is not the code of a language; write it like en")
    if refused := languages.refusal(line):
        _refuse(f"{_quoted(value)} {refused}")
    return line
