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
from binder.farm import tables
from binder.farm.model.refers import Happened, Prose
from binder.kinds import KINDS
from binder.problems import nearest, quotable

if TYPE_CHECKING:
    from collections.abc import Callable

# Our choice: what lies outside is a slip of the pen, on any farm and in any year we print for.
FIRST_YEAR, LAST_YEAR = 1980, 2099
LONGEST_LINE, LONGEST_TEXT = 200, 4_000  # characters that a card and a sheet have room for

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
        if not low <= number <= high:
            _refuse(
                f"{_quoted(value)} is out of range; write {least} or more, and {most} at most"
            )
        return number

    return BeforeValidator(read)


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

Metres = Annotated[float, quantity("run"), quantity_schema("run")]
CordMetres = Annotated[float, quantity("cord"), quantity_schema("cord")]
Spans = Annotated[float, quantity("span"), quantity_schema("span")]
Depths = Annotated[float, quantity("depth"), quantity_schema("depth")]
Bores = Annotated[float, quantity("bore"), quantity_schema("bore")]
SquareMetres = Annotated[float, quantity("ground"), quantity_schema("ground")]
TankLitres = Annotated[float, quantity("tank"), quantity_schema("tank")]
Litres = Annotated[float, quantity("vessel"), quantity_schema("vessel")]
BucketLitres = Annotated[float, quantity("bucket"), quantity_schema("bucket")]
FuelLitres = Annotated[float, quantity("fuel tank"), quantity_schema("fuel tank")]
Kilograms = Annotated[float, quantity("animal weight"), quantity_schema("animal weight")]
Scoopfuls = Annotated[float, quantity("scoop"), quantity_schema("scoop")]
Stock = Annotated[float, quantity("stock"), quantity_schema("stock")]
Celsius = Annotated[float, quantity("air temperature"), quantity_schema("air temperature")]
Hours = Annotated[float, quantity("interval"), quantity_schema("interval")]
LitresPerMinute = Annotated[float, quantity("flow"), quantity_schema("flow")]
CubicMetresPerHour = Annotated[float, quantity("fan air"), quantity_schema("fan air")]
Percent = Annotated[float, quantity("share"), quantity_schema("share")]
Strength = Annotated[float, quantity("strength"), quantity_schema("strength")]
Watts = Annotated[float, quantity("load"), quantity_schema("load")]
Amperes = Annotated[float, quantity("breaker"), quantity_schema("breaker")]
Volts = Annotated[float, quantity("mains"), quantity_schema("mains")]
KilogramsPerDay = Annotated[float, quantity("ration"), quantity_schema("ration")]
Gains = Annotated[float, quantity("gain"), quantity_schema("gain")]
FuelLitresPerHour = Annotated[float, quantity("burn"), quantity_schema("burn")]
MillimetresPerDay = Annotated[float, quantity("evaporation"), quantity_schema("evaporation")]

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
Past = Annotated[
    dt.date,
    BeforeValidator(_date),
    _schema("string", "2026-07-14", pattern=f"^{_DATE.pattern}$"),
    Happened(),
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
    Prose(),
]
Text = Annotated[
    str,
    BeforeValidator(_words(LONGEST_TEXT, one_line=False)),
    _schema(_TEXTS, minLength=1, maxLength=LONGEST_TEXT),
    Prose(),
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
