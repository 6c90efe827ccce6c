"""Reads one value of a farm file, which comes as text, or says what is wrong with it.

Numbers have a module of their own.
"""

from __future__ import annotations

import datetime as dt
import re
import zoneinfo
from functools import lru_cache
from typing import TYPE_CHECKING, NoReturn

from pydantic import WithJsonSchema

from binder import languages, places
from binder.problems import nearest, quotable

if TYPE_CHECKING:
    from collections.abc import Callable

# Our choice: what lies outside is a slip of the pen, on any farm and in any year we print for.
FIRST_YEAR, LAST_YEAR = 1980, 2099
LONGEST_LINE, LONGEST_TEXT = 200, 4_000  # characters that a card and a sheet have room for

ID = re.compile(r"[a-z0-9][a-z0-9_-]{0,39}")
DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):[0-5][0-9]")
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


def quoted(value: object) -> str:
    """Return what was read as messages show it."""
    return f'"{quotable(value)}"' if isinstance(value, str) else "a list or mapping"


def refuse(message: str) -> NoReturn:
    """Say what is wrong with a value.

    Raises:
        ValueError: with that message.
    """
    raise ValueError(message)


def schema(kind: str | list[str], example: str = "", **more: object) -> WithJsonSchema:
    """Return what an editor is told of a type, with an example where one fits every use."""
    shown = {"examples": [example]} if example else {}
    return WithJsonSchema({"type": kind, **more, **shown})


def yes_or_no(value: object) -> bool:
    """Return whether yes or no is written."""
    if isinstance(value, str) and value.lower() in _YES_NO:
        return _YES_NO[value.lower()]
    refuse(f"{quoted(value)} is not yes or no")


def date(value: object) -> dt.date:
    """Return a date written year-month-day."""
    if not (isinstance(value, str) and DATE.fullmatch(value)):
        refuse(f"{quoted(value)} is not a date; write it like 2026-07-14 (year-month-day)")
    try:
        day = dt.date.fromisoformat(value)
    except ValueError:
        refuse(f"{quoted(value)} is a day that does not exist; check month and day")
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        refuse(f"{quoted(value)} lies outside {FIRST_YEAR} to {LAST_YEAR}; check the year")
    return day


def clock(value: object) -> dt.time:
    """Return a time of day written on 24 hours."""
    if isinstance(value, str) and CLOCK.fullmatch(value):
        hours, minutes = value.split(":")
        return dt.time(int(hours), int(minutes))
    refuse(f"{quoted(value)} is not a time of day; write it like 06:30 or 15:30")


def id_(value: object) -> str:
    """Return a short name, one and not several."""
    if isinstance(value, str) and ID.fullmatch(value):
        return value
    if isinstance(value, list) or (isinstance(value, str) and _SEVERAL.fullmatch(value)):
        what = "is a list" if isinstance(value, list) else f"{quoted(value)} names several"
        refuse(f"{what}, but one belongs here; write the one, or split the entry in two")
    message = (
        f"{quoted(value)} is not an id; use small letters, digits and -, like creek or stall-1"
    )
    refuse(message)


def words(longest: int, *, one_line: bool) -> Callable[[object], str]:
    """Return the reader of the owner's own words, up to so many characters."""

    def read(value: object) -> str:
        if not isinstance(value, str):
            refuse("is a list or mapping, but plain text belongs here")
        text = value.strip()
        if not text:
            refuse("is empty; write something, or take the key away")
        if text.lower() in _NOTHING and text != _A_NAME_TOO:
            refuse(f"{quoted(text)} is what a program writes for nothing; take the key away")
        if len(text) > longest:
            refuse(f"is {len(text):,} characters long; there is room for {longest:,}")
        if one_line and "\n" in text:
            refuse("goes over several lines; write it on one")
        return text

    return read


def phone(value: object) -> str:
    """Return one telephone number, with nothing in it that a phone would not dial."""
    line = words(LONGEST_LINE, one_line=True)(value)
    if _EXTENSION.search(line):
        refuse(f"{quoted(line)} has an extension in it; give that a key beside it: ext: 12")
    digits = sum(character.isdigit() for character in line)
    if digits > MOST_DIGITS or _SEVERAL_NUMBERS.search(line):
        refuse(
            f"{quoted(line)} is more than one number; write one here and the others "
            "as a list: more_phones: [912-555-0110]"
        )
    if not _NUMBER_ALONE.fullmatch(line) or digits < LEAST_DIGITS:
        refuse(
            f"{quoted(line)} is not a phone number; write it like 912-555-0110, "
            "with nothing else"
        )
    return line


def extension(value: object) -> str:
    """Return the extension that is keyed in once an office answers."""
    if isinstance(value, str) and _KEYED.fullmatch(value):
        return value
    refuse(f"{quoted(value)} is not an extension; write its digits, like 12")


def link(value: object) -> str:
    """Return a web address."""
    line = words(LONGEST_LINE, one_line=True)(value)
    if not _LINK.fullmatch(line):
        refuse(f"{quoted(line)} is not a web address; write it like https://example.org/map")
    return line


@lru_cache(maxsize=1)
def _time_zones() -> frozenset[str]:
    return frozenset(zoneinfo.available_timezones())


def time_zone(value: object) -> str:
    """Return a time zone by its name in the IANA database."""
    line = words(LONGEST_LINE, one_line=True)(value)
    if line not in _time_zones():
        if _SHORT_ZONE.fullmatch(line):
            refuse(
                f"{quoted(line)} is short for the time of many places; write region and town, "
                " like America/New_York or Europe/Madrid"
            )
        near = nearest(line, sorted(_time_zones()), likeness=0.85)
        hint = f"did you mean {near}?" if near else "write it like America/New_York"
        refuse(f"{quoted(line)} is not a time zone; {hint}")
    return line


def country(value: object) -> str:
    """Return the code of a country, in small letters; one without a pack is neutral."""
    line = words(LONGEST_LINE, one_line=True)(value).lower()
    if _COUNTRY.fullmatch(line):
        return "gb" if line == "uk" else line
    named = {one.name.lower().removeprefix("the "): one.code for one in places.packs().values()}
    near = nearest(line, named, likeness=0.75)
    hint = f"write {named[near]}" if near else "write its two letters, like us, es or au"
    refuse(f"{quoted(value)} is not the code of a country; {hint}")


def language(value: object) -> str:
    """Return a language in which a binder can be made, by its code."""
    line = words(LONGEST_LINE, one_line=True)(value).lower()
    if not _LANGUAGE.fullmatch(line):
        refuse(f"{quoted(value)} is not the code of a language; write it like en")
    if refused := languages.refusal(line):
        refuse(f"{quoted(value)} {refused}")
    return line
