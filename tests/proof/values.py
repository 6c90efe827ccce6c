"""Values to write into a farm: right ones at the ends of their ranges, and hostile ones."""

from __future__ import annotations

import datetime as dt
import zoneinfo
from functools import lru_cache
from types import UnionType
from typing import (
    TYPE_CHECKING,
    Annotated,
    Literal,
    Union,
    get_args,
    get_origin,
    get_type_hints,
)

from pydantic import BaseModel

from binder.farm.model import Refers, Vital, Withheld, values

if TYPE_CHECKING:
    import random
    from collections.abc import Mapping

# Of each type of binder.farm.model.values: what its limits allow, the limits among them.
RIGHT: Mapping[str, tuple[str, ...]] = {
    "Metres": ("1 ft", "12 in", "12 ft", "5280 ft", "10 miles", "16 km", "250 ft"),
    "CordMetres": ("1 ft", "50 ft", "1,000 ft", "30 m"),
    "Spans": ("2 in", "6 cm", "3 ft", "12 ft", "600 ft", "180 m"),
    "Depths": ("1/4 in", "7 mm", "10 in", "10 ft", "3 m", "1 m"),
    "Bores": ("1/8 in", "3/4 in", "5/8 in", "4 in", "4 mm", "25 mm", "100 mm"),
    "SquareMetres": ("1 sqft", "240 sqft", "22 m2", "2,500 acres", "1000 ha"),
    "TankLitres": ("1 gal", "275 gal", "250,000 gal", "900 m3"),
    "Litres": ("1 fl oz", "30 ml", "5 gal", "10,000 gal", "30 m3", "3 cups"),
    "BucketLitres": ("1 cup", "5 gal", "200 gal", "20 L"),
    "FuelLitres": ("1 cup", "4 gal", "1,000 gal"),
    "Kilograms": ("0.5 oz", "15 g", "1 lb", "62 lb", "420 lb", "4,400 lb", "1990 kg"),
    "Scoopfuls": ("0.5 oz", "15 g", "3 lb", "60 lb", "27 kg"),
    "Stock": ("0 lb", "1 g", "300 lb", "1,000 tons", "50 kg"),
    "Celsius": ("-40 F", "-40 C", "0 C", "20 C", "35 C", "45 C", "50 C", "50.1 C", "60 C",
                "140 F", "-4 F", "-20 C", "-20.1 C", "122 F", "32 F", "70 F", "96 F"),
    "WaterCelsius": ("32 F", "0 C", "55 F", "70 F", "12.5 C", "140 F", "60 C"),
    "Hours": ("5 min", "1 h", "2 h", "12 h", "7 days", "90 min"),
    "LitresPerMinute": ("10 ml/min", "0.5 L/h", "3 cup/min", "5 gal/min", "2,500 gal/min"),
    "CubicMetresPerHour": ("10 cfm", "20 m3/h", "2400 cfm", "500,000 cfm", "4000 m3/h"),
    "Percent": ("0 %", "0.001 %", "50 %", "80 %", "100 %"),
    "Strength": ("10 ppm", "0.001 %", "3 %", "5.25 %", "8.25 %", "12.5 %", "65 %", "100 %"),
    "Watts": ("1 W", "2 W", "560 W", "1/2 hp", "3.5 kW", "1,000 kW"),
    "Amperes": ("0.5 A", "1 A", "15 A", "20 A", "1,000 A"),
    "Volts": ("5 V", "12 V", "120 V", "240 V", "1,000 V"),
    "KilogramsPerDay": ("0.1 oz/day", "1 oz/day", "1.6 lb/day", "13 lb/day", "200 lb/day"),
    "Gains": ("0.1 g/day", "1.6 lb/day", "0.08 lb/day", "6.6 lb/day"),
    "FuelLitresPerHour": ("0.02 gal/h", "0.6 gal/h", "250 gal/h"),
    "MillimetresPerDay": ("0.01 in/day", "0.22 in/day", "2 in/day", "50 mm/day"),
    "Whole": ("1", "2", "3", "8", "24", "45", "120", "5000", "99999", "100000"),
    "WholeOrZero": ("0", "1", "2", "9", "14", "40", "100000"),
    "Gauge": ("1", "8", "10", "12", "14", "16", "18", "24"),
    "Index": ("84", "90", "100", "110"),
    "Latitude": ("-90", "90", "0", "31.55", "-33.9", "66.6", "-66.6", "71", "89.9", "65.7"),
    "Longitude": ("-180", "180", "0", "-82.12", "151.2", "179.9", "-0.01"),
    "Ratio": ("0", "0.000001", "1", "1.5", "5"),
    "YesNo": ("yes", "no", "True", "FALSE"),
    "Clock": ("0:00", "00:00", "23:59", "12:00", "6:30", "15:30", "02:30"),
    "Phone": ("911", "912-555-0110", "+1 (912) 555-0110", "(03) 5550 0100", "112"),
    "Extension": ("1", "12", "00401"),
    "Link": ("https://example.org/map?a=1&b=2#c", "HTTP://EXAMPLE.ORG", "http://x.local:80/'"),
}  # fmt: skip

# Text that is allowed and must come out as written: markup, Markdown, template signs, scripts.
LITERAL: tuple[str, ...] = (
    "Brown & white <b>hen</b>", "<script>alert(1)</script>", "**Not** _bold_ # here",
    "a | b | c",
    "{{ 7 * 7 }} {% raw %}", "{count} x {each:both}",
    "\N{PIG FACE}\N{VARIATION SELECTOR-16} gate",
    "\N{HEBREW LETTER SHIN}\N{HEBREW LETTER LAMED} yard",
    "\N{ARABIC LETTER ALEF WITH HAMZA BELOW}",
    "e\N{COMBINING ACUTE ACCENT}te", "[gate](javascript:x)", "![x](picture:none.png)",
    "1. First",
    "&amp; &#60; &nbsp;", "C:\\new\\table", "'single' \"double\"", "sheet:pens working:x",
    "x" * 200, "w " * 99 + "w", "\N{MAN}\N{ZERO WIDTH JOINER}\N{EAR OF RICE}", "$HOME `ls`",
    "100 %", "~", "- dash", "---", "null", "\N{HAIR SPACE}thin", "a--b --> c", "]]>", "<!-- x",
)  # fmt: skip

# Whatever a scalar may be overwritten with, raw.
HOSTILE: tuple[str, ...] = (
    "", "~", "null", "nan", ".nan", ".inf", "-.inf", "inf", "1e999", "-1e999", "1e-999", "-0",
    "0",
    "0x1F", "0o17", "1_000", "9" * 400, "-" + "9" * 30, "0." + "0" * 300 + "1", "1/0 in",
    "5", "5 parsecs", "5 gal gal", "5 lb/ft", "ft", "--5 ft", "5 ft 99 in", "1e5 ft", "5,5 ft",
    "\N{ARABIC-INDIC DIGIT THREE} ft", "\N{FULLWIDTH DIGIT FIVE} ft",
    "\N{VULGAR FRACTION ONE HALF}",
    "yes", "no", "true", "[]", "{}", "[a, b]", "{a: b}", "[[[[[[]]]]]]", "&a x", "*a",
    "!!python/x y",
    "!!int 5", "<<: x", "2026-02-30", "2025-02-29", "0000-00-00", "9999-12-31", "1979-12-31",
    "2026-13-01", "2026-6-1", "20260601", "25:00", "24:00", "6:60", "-1:00", "12:00:00",
    "12:00 pm",
    "@x", "`x`", "%x", "%TAG ! x", "? x", "- x", ": x", "| \n  x", "> \n  x", "# x", "a: b: c",
    '"', "'", '"\\ud83d"', '"\\0"', '"\\x07"', "\x07", "\x00", "\x85", "\N{LINE SEPARATOR}",
    "\N{RIGHT-TO-LEFT OVERRIDE}x", "\N{ZERO WIDTH NO-BREAK SPACE}", "\t", "\tx", "x\ty",
    "x" * 201, "x" * 5000, "\N{PIG FACE}" * 50, "{{ 7 * 7 }}", "{% for x in y %}", "${x}",
    "%s%n",
    "../../../etc/passwd", "/dev/zero", "__class__", "None", "creek", "well", "h1", "d1", "pig",
    "<script>alert(1)</script>", "javascript:alert(1)", "Mars/Olympus", "../UTC", "\udcff",
)  # fmt: skip

# Long ago to far ahead, leap days, the ends of years and of what is allowed.
DAYS = (
    "1980-01-01", "2000-02-29", "2016-02-29", "2024-02-29", "2025-12-31", "2026-01-01",
    "2026-03-08", "2026-05-31", "2026-06-01", "2026-06-02", "2026-11-01", "2028-02-29",
    "2040-02-29", "2099-12-31",
)  # fmt: skip
_EPOCH = dt.date(2026, 6, 1)


def right(name: str, rng: random.Random) -> str:
    """Return a value that a type of `binder.farm.model.values` takes, as one writes it."""
    if name == "Past":
        return (_EPOCH - dt.timedelta(days=rng.randint(0, 500))).isoformat()
    if name == "Date":
        near = (_EPOCH + dt.timedelta(days=rng.randint(-500, 500))).isoformat()
        return rng.choice((*DAYS, near, near, near))
    if name == "TimeZone":
        return rng.choice(_zones())
    if name in {"Line", "Text"}:
        return rng.choice(LITERAL)
    return rng.choice(RIGHT[name])


@lru_cache(maxsize=1)
def _zones() -> tuple[str, ...]:
    return tuple(sorted(zoneinfo.available_timezones()))


@lru_cache(maxsize=64)
def shapes(model: type[BaseModel]) -> Mapping[str, object]:
    """Return the type behind each key that the owner may write in a model, `None` left out."""
    hints = get_type_hints(model, include_extras=True)
    return {
        field.alias or name: bare(hints[name]) for name, field in model.model_fields.items()
    }


def bare(annotation: object) -> object:
    """Return a type without `None` beside it and without what it names."""
    if get_origin(annotation) is Annotated:
        inside, *notes = get_args(annotation)
        kept = [note for note in notes if not isinstance(note, Refers | Vital | Withheld)]
        return Annotated[(inside, *kept)] if kept else bare(inside)
    if get_origin(annotation) in {Union, UnionType}:
        return next(arg for arg in get_args(annotation) if arg is not type(None))
    return annotation


def type_name(shape: object) -> str:
    """Return the name of a value type, empty where it is something else."""
    return next((name for name in _names() if getattr(values, name) == shape), "")


@lru_cache(maxsize=1)
def _names() -> tuple[str, ...]:
    return (*RIGHT, "Date", "Past", "TimeZone", "Line", "Text", "Id")


def choices(shape: object) -> tuple[str, ...]:
    """Return the words of a literal type, none for any other."""
    return get_args(shape) if get_origin(shape) is Literal else ()


def model_of(shape: object) -> type[BaseModel] | None:
    """Return the model behind a type, None where there is none."""
    if get_origin(shape) is Annotated:
        return model_of(get_args(shape)[0])
    return shape if isinstance(shape, type) and issubclass(shape, BaseModel) else None
