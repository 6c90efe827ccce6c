"""What one value in a farm file may be: how it is written, its range, and how that is said.

Every value reaches these as text. Each type carries a schema of what may be written, so that an
editor and our own messages show the same example.
"""

from __future__ import annotations

import datetime as dt
import re
import zoneinfo
from functools import lru_cache
from typing import TYPE_CHECKING, Annotated, NoReturn

from pydantic import BeforeValidator, WithJsonSchema

from binder import units
from binder.kinds import KINDS
from binder.problems import nearest, quotable

if TYPE_CHECKING:
    from collections.abc import Callable

# Our choice: what lies outside is a slip of the pen, on any farm and in any year we print for.
FIRST_YEAR, LAST_YEAR = 1980, 2099
LONGEST_LINE, LONGEST_TEXT = 200, 4_000  # characters that a card and a sheet have room for

ABOVE_0 = "above 0"

_ID = re.compile(r"[a-z0-9][a-z0-9_-]{0,39}")
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):[0-5][0-9]")
_DECIMAL = re.compile(r"-?[0-9]{1,6}(\.[0-9]{1,12})?")
_WHOLE = re.compile(r"[0-9]{1,6}")
_LINK = re.compile(r"https?://[^\s<>\"]+", re.IGNORECASE)
_YES_NO = {"yes": True, "true": True, "no": False, "false": False}


def _quoted(value: object) -> str:
    """Return what was read as messages show it."""
    return f'"{quotable(value)}"' if isinstance(value, str) else "a list or mapping"


def _refuse(message: str) -> NoReturn:
    raise ValueError(message)


def _schema(kind: str | list[str], example: str = "", **more: object) -> WithJsonSchema:
    """Return what an editor is told of a type, with an example where one fits every use."""
    shown = {"examples": [example]} if example else {}
    return WithJsonSchema({"type": kind, **more, **shown})


def quantity(kind: str, least: str, most: str) -> BeforeValidator:
    """Return the reader of a quantity: a number and a unit, within limits written like it.

    `least` may be `above 0`. The limits are our choice: they catch slips, and units mistaken.
    """

    def read(value: object) -> float:
        wanted = KINDS[kind]
        if not isinstance(value, str):
            _refuse(f"is a list or mapping, but one value belongs here, like {wanted.examples}")
        number = units.parse(value, kind)
        low, high = _limits(kind, least, most)
        if number > high or number < low or (number == low and least == ABOVE_0):
            start = "more than 0" if least == ABOVE_0 else f"{least} or more"
            _refuse(f"{_quoted(value)} is out of range; write {start}, and {most} at most")
        return number

    return BeforeValidator(read)


@lru_cache(maxsize=64)
def _limits(kind: str, least: str, most: str) -> tuple[float, float]:
    """Return the limits in the unit that is kept."""
    low = 0.0 if least == ABOVE_0 else units.parse(least, kind)
    return low, units.parse(most, kind)


def written(kind: str, example: str | None = None) -> WithJsonSchema:
    """Return the schema of a quantity: text that ends in one of its units."""
    wanted = KINDS[kind]
    shown = example or re.split(r", | or ", wanted.examples)[0]
    ending = "|".join("".join(map(_letter, name)) for name in sorted(wanted.written))
    return _schema("string", shown, pattern=rf"^{_FEET}{_NUMBER}({ending})\.?\s*$")


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


def decimal(low: float, high: float, what: str, example: str) -> BeforeValidator:
    """Return the reader of a plain number without a unit, from `low` to `high`."""

    def read(value: object) -> float:
        if not (isinstance(value, str) and _DECIMAL.fullmatch(value)):
            _refuse(f"{_quoted(value)} is not {what}; write it like {example}")
        number = float(value)
        if not low <= number <= high:
            _refuse(f"{_quoted(value)} is out of range; it must be from {low:g} to {high:g}")
        return number

    return BeforeValidator(read)


def _yes_or_no(value: object) -> bool:
    if isinstance(value, str) and value.lower() in _YES_NO:
        return _YES_NO[value.lower()]
    _refuse(f"{_quoted(value)} is not yes or no")


def _date(value: object) -> dt.date:
    if not (isinstance(value, str) and _DATE.fullmatch(value)):
        _refuse(f"{_quoted(value)} is not a date; write it like 2026-07-14 (year-month-day)")
    try:
        day = dt.date.fromisoformat(value)
    except ValueError:
        _refuse(f"{_quoted(value)} is a day that does not exist; check month and day")
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        _refuse(f"{_quoted(value)} lies outside {FIRST_YEAR} to {LAST_YEAR}; check the year")
    return day


def _clock(value: object) -> dt.time:
    if isinstance(value, str) and _CLOCK.fullmatch(value):
        hours, minutes = value.split(":")
        return dt.time(int(hours), int(minutes))
    _refuse(f"{_quoted(value)} is not a time of day; write it like 06:30 or 15:30")


def _id(value: object) -> str:
    if isinstance(value, str) and _ID.fullmatch(value):
        return value
    message = (
        f"{_quoted(value)} is not an id; use small letters, digits and -, like creek or stall-1"
    )
    _refuse(message)


def _words(longest: int, *, one_line: bool) -> Callable[[object], str]:
    def read(value: object) -> str:
        if not isinstance(value, str):
            _refuse("is a list or mapping, but plain text belongs here")
        text = value.strip()
        if not text:
            _refuse("is empty; write something, or take the key away")
        if len(text) > longest:
            _refuse(f"is {len(text):,} characters long; there is room for {longest:,}")
        if one_line and "\n" in text:
            _refuse("goes over several lines; write it on one")
        return text

    return read


def _phone(value: object) -> str:
    line = _words(LONGEST_LINE, one_line=True)(value)
    if sum(character.isdigit() for character in line) < 3:
        _refuse(f"{_quoted(line)} is not a phone number; write it like 912-555-0110")
    return line


def _link(value: object) -> str:
    line = _words(LONGEST_LINE, one_line=True)(value)
    if not _LINK.fullmatch(line):
        _refuse(f"{_quoted(line)} is not a web address; write it like https://example.org/map")
    return line


@lru_cache(maxsize=1)
def _time_zones() -> frozenset[str]:
    return frozenset(zoneinfo.available_timezones())


def _time_zone(value: object) -> str:
    line = _words(LONGEST_LINE, one_line=True)(value)
    if line not in _time_zones():
        near = nearest(line, sorted(_time_zones()), likeness=0.85)
        hint = f"did you mean {near}?" if near else "write it like America/New_York"
        _refuse(f"{_quoted(line)} is not a time zone; {hint}")
    return line


_TEXTS = ["string", "number", "boolean"]  # an editor may take 4071 or yes for something else

Metres = Annotated[float, quantity("length", ABOVE_0, "10 miles"), written("length", "150 ft")]
Spans = Annotated[float, quantity("length", ABOVE_0, "600 ft"), written("length", "12 ft")]
Depths = Annotated[float, quantity("length", ABOVE_0, "10 ft"), written("length", "10 in")]
Bores = Annotated[float, quantity("length", "1/8 in", "4 in"), written("length", "3/4 in")]
SquareMetres = Annotated[float, quantity("area", ABOVE_0, "2,500 acres"), written("area")]
Litres = Annotated[float, quantity("volume", ABOVE_0, "250,000 gal"), written("volume")]
Kilograms = Annotated[float, quantity("weight", ABOVE_0, "4,400 lb"), written("weight")]
Stock = Annotated[float, quantity("weight", "0 lb", "1,000 tons"), written("weight", "300 lb")]
Celsius = Annotated[float, quantity("temperature", "-40 F", "140 F"), written("temperature")]
Hours = Annotated[float, quantity("time", "5 min", "7 days"), written("time", "2 h")]
LitresPerMinute = Annotated[float, quantity("flow", ABOVE_0, "2,500 gal/min"), written("flow")]
CubicMetresPerHour = Annotated[
    float, quantity("air flow", ABOVE_0, "500,000 cfm"), written("air flow")
]
Percent = Annotated[float, quantity("share", "0 %", "100 %"), written("share")]
Strength = Annotated[float, quantity("strength", ABOVE_0, "100 %"), written("strength")]
Watts = Annotated[float, quantity("power", ABOVE_0, "1,000 kW"), written("power")]
Amperes = Annotated[float, quantity("current", ABOVE_0, "1,000 A"), written("current")]
Volts = Annotated[float, quantity("voltage", ABOVE_0, "1,000 V"), written("voltage")]
KilogramsPerDay = Annotated[float, quantity("gain", ABOVE_0, "200 lb/day"), written("gain")]
# More than a fattening steer's, less than a slip of the point.
Gains = Annotated[float, quantity("gain", ABOVE_0, "6.6 lb/day"), written("gain")]
FuelLitresPerHour = Annotated[
    float, quantity("fuel rate", ABOVE_0, "250 gal/h"), written("fuel rate")
]
MillimetresPerDay = Annotated[
    float, quantity("depth rate", ABOVE_0, "2 in/day"), written("depth rate")
]

_WHOLE_SCHEMA = {"pattern": "^[0-9]{1,6}$"}
_DECIMAL_SCHEMA = {"pattern": _DECIMAL.pattern}
Whole = Annotated[int, whole(1, 100_000), _schema(["integer", "string"], "8", **_WHOLE_SCHEMA)]
WholeOrNone = Annotated[
    int, whole(0, 100_000), _schema(["integer", "string"], "9", **_WHOLE_SCHEMA)
]
Gauge = Annotated[int, whole(1, 24), _schema(["integer", "string"], "12", **_WHOLE_SCHEMA)]
Index = Annotated[int, whole(84, 110), _schema(["integer", "string"], "90", **_WHOLE_SCHEMA)]
Latitude = Annotated[
    float,
    decimal(-90, 90, "a latitude in degrees", "31.55"),
    _schema(["number", "string"], "31.55", **_DECIMAL_SCHEMA),
]
Longitude = Annotated[
    float,
    decimal(-180, 180, "a longitude in degrees", "-82.12"),
    _schema(["number", "string"], "-82.12", **_DECIMAL_SCHEMA),
]
Ratio = Annotated[
    float,
    decimal(0, 5, "a plain number", "1.5"),
    _schema(["number", "string"], "1.5", **_DECIMAL_SCHEMA),
]
YesNo = Annotated[
    bool,
    BeforeValidator(_yes_or_no),
    WithJsonSchema({"enum": ["yes", "no", "true", "false", True, False], "examples": ["yes"]}),
]
Date = Annotated[
    dt.date,
    BeforeValidator(_date),
    _schema("string", "2026-07-14", pattern=f"^{_DATE.pattern}$"),
]
Clock = Annotated[
    dt.time, BeforeValidator(_clock), _schema("string", "06:30", pattern=f"^{_CLOCK.pattern}$")
]
Id = Annotated[
    str,
    BeforeValidator(_id),
    _schema(["string", "integer"], "creek", pattern=f"^{_ID.pattern}$"),
]
Line = Annotated[
    str,
    BeforeValidator(_words(LONGEST_LINE, one_line=True)),
    _schema(_TEXTS, minLength=1, maxLength=LONGEST_LINE),
]
Text = Annotated[
    str,
    BeforeValidator(_words(LONGEST_TEXT, one_line=False)),
    _schema(_TEXTS, minLength=1, maxLength=LONGEST_TEXT),
]
Phone = Annotated[
    str, BeforeValidator(_phone), _schema(_TEXTS, "912-555-0110", maxLength=LONGEST_LINE)
]
Link = Annotated[
    str,
    BeforeValidator(_link),
    _schema("string", "https://example.org/map", pattern="^https?://"),
]
TimeZone = Annotated[str, BeforeValidator(_time_zone), _schema("string", "America/New_York")]
