"""Chance with a seed, and the values of a farm's fields: amounts, dates, hours, words."""

from __future__ import annotations

import csv
import datetime as dt
import random
import sys
from functools import lru_cache
from importlib import resources
from typing import TYPE_CHECKING, TypeVar

from binder.data import CONTENT

if TYPE_CHECKING:
    from collections.abc import Sequence

T = TypeVar("T")

# kind of quantity -> what people write behind a number, and what one of it is in a common unit
UNITS: dict[str, dict[str, float]] = {
    "length": {"mm": 0.001, "cm": 0.01, "m": 1, "in": 0.0254, "ft": 0.3048, "yd": 0.9144,
               "km": 1000, "miles": 1609.344},
    "area": {"sqft": 0.09290304, "m2": 1, "acres": 4046.8564224, "ha": 10_000},
    "volume": {"gal": 3.785411784, "qt": 0.946352946, "cups": 0.2365882365, "L": 1,
               "ml": 0.001, "fl oz": 0.0295735296, "m3": 1000},
    "weight": {"lb": 0.45359237, "oz": 0.028349523125, "kg": 1, "g": 0.001, "tons": 907.18474},
    "time": {"min": 1 / 60, "h": 1, "days": 24},
    "flow": {"gal/min": 3.785411784, "L/min": 1, "ml/min": 0.001, "cup/min": 0.2365882365},
    "air flow": {"cfm": 1.69901082, "m3/h": 1},
    "share": {"%": 1},
    "strength": {"%": 1, "ppm": 0.0001},
    "power": {"W": 1, "kW": 1000, "hp": 745.6998715822702},
    "current": {"A": 1},
    "voltage": {"V": 1},
    "pressure": {"psi": 6.894757293168, "kPa": 1, "bar": 100},
    "gain": {"lb/day": 0.45359237, "kg/day": 1, "oz/day": 0.028349523125, "g/day": 0.001},
    "depth rate": {"in/day": 25.4, "mm/day": 1},
    "fuel rate": {"gal/h": 3.785411784, "L/h": 1},
}  # fmt: skip
# Invented words of a farm, none of which a judge of leftovers would take for one.
WORDS = (
    "red", "green", "old", "long", "low", "north", "barn", "gate", "lever", "hose",
    "bucket", "creek", "hill", "post", "door", "shed", "left", "right", "lift", "turn",
    "pull", "hook", "chain", "slow", "calm", "keep", "shut", "open", "behind", "under",
    "above", "by", "the", "and", "with", "two", "three", "small", "big", "white", "wet",
    "dry", "morning", "evening", "shade", "fence", "water", "feed", "hay", "straw",
)  # fmt: skip
ENDS = ("", "", "", ".", "!", "?", ")", " etc.", ":", ";", ",", '"', "'", "…")
MARKUP = (
    "<script>alert(1)</script>", "<b>bold", "&amp; &lt;", "{{ 7*7 }}", "{% for a in b %}",
    "{need}", "{0}", "**star**", "| a | b |", "[x](javascript:alert(1))", "<!-- x -->", "\\n",
    "`code`", "# head", "1. one", "../../etc/passwd", "%s %d", "$HOME", "x" * 120,
    "</td></tr></table>", "Nan", "None of them", "[[12 in|30 cm]]", "sheet:nowhere", "==a==",
)  # fmt: skip
LETTERS = "éüñçøåßœłšžİıđȘțčαβγδωΆЖдяюїЎếộữđ½°•–—“”«»€£"


class Dice(random.Random):
    """Chance that always falls the same for one seed."""

    def yes(self, share: float) -> bool:
        """Return whether, in that share of all calls."""
        return self.random() < share

    def one(self, of: Sequence[T]) -> T:
        """Return one of several."""
        return of[self.randrange(len(of))]

    def some(self, of: Sequence[T], most: int) -> list[T]:
        """Return up to so many of several, each once."""
        return self.sample(of, self.randint(0, min(most, len(of))))

    def spread(self, low: float, high: float) -> float:
        """Return a number whose size is as likely small as large."""
        if low <= 0:
            return 0.0 if self.yes(0.1) else self.uniform(low, high)
        return float(low * (high / low) ** self.random())

    def when(self, first: dt.date, last: dt.date) -> dt.date:
        """Return a day from one to another."""
        return first + dt.timedelta(self.randint(0, max(0, (last - first).days)))


@lru_cache(maxsize=1)
def limits() -> dict[str, dict[str, str]]:
    """Return the ranges that the farm folder is published to take, by field."""
    path = CONTENT / "published" / "farm" / "field_limits.csv"
    lines = [line for line in path.read_text("utf-8").splitlines() if line[0] != "#"]
    return {row["field"]: row for row in csv.DictReader(lines)}


def _in_common_unit(text: str, kind: str) -> float:
    number, _, unit = text.replace(",", "").partition(" ")
    numbers = [float(part) for part in number.split("/")]
    value: float = numbers[0] / numbers[1] if len(numbers) > 1 else numbers[0]
    # "10 ml/min" and "1 cup" are in the table under other spellings of the same unit
    factor: float = UNITS[kind].get(unit, UNITS[kind].get(f"{unit}s", 1.0))
    return value * factor


def amount(dice: Dice, field: str) -> str:
    """Return an amount anywhere in the range of a field, in any unit and spelling."""
    limit = limits()[field]
    kind = limit["kind"]
    if kind == "temperature":
        return temperature(dice, -39.0, 139.0)
    if dice.yes(0.06):
        return limit[dice.one(("least", "most"))].replace(",", "")
    low, high = (_in_common_unit(limit[end], kind) for end in ("least", "most"))
    value = dice.spread(low * 1.02, high * 0.98)
    unit, one = dice.one(list(UNITS[kind].items()))
    return f"{number(dice, value / one)}{dice.one((' ', ' ', ''))}{unit}"


def number(dice: Dice, value: float) -> str:
    """Return a number as somebody may write it: never with three digits behind one point.

    Those could be thousands, and the folder refuses to guess.
    """
    least = max(0, 2 - len(str(int(value)))) if value >= 1 else 8
    places = dice.one([n for n in (0, 1, 2, 4, 5, 6, 8) if n >= least])
    digits = f"{value:.{places}f}"
    if "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    if len(digits.partition(".")[2]) == len("000") and dice.yes(0.98):
        digits += "0"
    return digits[1:] if dice.yes(0.1) and digits.startswith("0.") else digits


def temperature(dice: Dice, low_f: float, high_f: float) -> str:
    """Return a temperature between two in degrees F, in either unit."""
    value = dice.uniform(low_f, high_f)
    if dice.yes(0.5):
        return f"{(value - 32) / 1.8:.{dice.randint(1, 3)}f} C"
    return f"{value:.{dice.randint(1, 3)}f} F"


def clock(dice: Dice, first: int = 0, last: int = 1439) -> str:
    """Return a time of day between two, in minutes."""
    minute = dice.randint(first, last)
    return f"{minute // 60:02}:{minute % 60:02}"


class Pen:
    """Writes words in one hand: plain, of many scripts, of any plane, or full of markup."""

    def __init__(self, dice: Dice, hand: str) -> None:
        """Choose the hand: `plain`, `letters`, `planes` or `markup`."""
        self.dice, self.hand = dice, hand

    def line(self, most: int = 8) -> str:
        """Return a line of words."""
        dice = self.dice
        words = [dice.one(WORDS) for _ in range(dice.randint(1, most))]
        if self.hand == "letters":
            words += ["".join(dice.one(LETTERS) for _ in range(dice.randint(1, 6)))]
        if self.hand == "markup" and dice.yes(0.5):
            words.insert(dice.randrange(len(words)), dice.one(MARKUP))
        if self.hand == "planes" and dice.yes(0.02):
            words += ["".join(self._sign() for _ in range(dice.randint(1, 5)))]
        line = " ".join(words) + dice.one(ENDS)
        return (line[0].upper() + line[1:])[:200].strip() or "word"

    def text(self) -> str:
        """Return several lines."""
        lines = [self.line(20) for _ in range(self.dice.randint(1, 4))]
        return self.dice.one((" ", "\n", "\n\n")).join(lines)

    def _sign(self) -> str:
        plane = self.dice.choice((0, 0, 0, 1, 1, 2, 3, 14, 15, 16))
        return chr(min(plane * 0x10000 + self.dice.randrange(0x10000), sys.maxunicode))


@lru_cache(maxsize=1)
def zones() -> tuple[tuple[str, float, float], ...]:
    """Return the zones of the IANA database with the place by which each is known."""
    text = resources.files("tzdata").joinpath("zoneinfo", "zone.tab").read_text("utf-8")
    rows = [line.split("\t") for line in text.splitlines() if line[:1] not in {"#", ""}]
    return tuple((row[2].strip(), *_degrees(row[1])) for row in rows)


def _degrees(code: str) -> tuple[float, float]:
    """Return latitude and longitude of `+DDMM-DDDMM` or with seconds (ISO 6709)."""
    cut = max(code.rfind("+"), code.rfind("-"))
    found = []
    for part, whole in ((code[:cut], 2), (code[cut:], 3)):
        digits = part[1:]
        value = int(digits[:whole]) + int(digits[whole : whole + 2]) / 60
        found.append(-value if part[0] == "-" else value)
    return found[0], found[1]
