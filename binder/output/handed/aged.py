"""Sheets that only grew older: the farm is as it was, days passed, and nothing moved far.

Such a sheet stays where it is. Its foot says of which day it is, and in a stay the plan and
its cards say what holds.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import TYPE_CHECKING

from binder.output.handed.by_pen import shown

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.output.handed.by_pen import Cell

MOST_MOVED = 1 / 3  # our choice: an amount may drift by a third before its sheet is replaced
MOST_MINUTES = 15  # our choice: a time may drift by this much
MOST_DRAWN = 12.0  # our choice: units of a drawing that a line may move, a twelfth of an inch
_DAY_MINUTES, _NOON = 24 * 60, 12 * 60


@dataclass(frozen=True, slots=True)
class Reading:
    """The words of one language by which numbers are told apart.

    Attributes:
        months: names of months: the number before one is a date.
        units: words of measures that may drift: the number before one is an amount. All other
            numbers (heads, hours to be back, degrees, percent) must be the same.
        noon: the two words after a time of the twelve-hour clock.
    """

    months: tuple[str, ...]
    units: tuple[str, ...]
    noon: tuple[str, ...]


def reading(labels: Mapping[str, str]) -> Reading:
    """Return the words of a book's language."""
    months, units, noon = (
        tuple(word for word in labels[f"print.aged.{name}"].split("|") if word)
        for name in ("months", "units", "noon")
    )
    return Reading(months, units, noon)


def only_aged(was: Sequence[str], now: Sequence[str], words: Reading) -> bool:
    """Return whether a sheet of the same farm on another day says the same.

    Args:
        was: what it shows of the day of the paper, as `fingerprint.seen` notes it.
        now: what it shows today.
        words: of its language.

    Dates may be others, rows whose day is past may be gone, times and amounts may have moved a
    little. Counts and words may not.
    """
    if (was[0], was[2]) != (now[0], now[2]):
        return False
    before, after = shown((was[1], *was[3:])), shown((now[1], *now[3:]))
    plain = _Plain(words)
    was_forms, now_forms = [plain.form(cell) for cell in before], [plain.form(c) for c in after]
    matcher = SequenceMatcher(None, was_forms, now_forms, autojunk=False)
    for change, first, last, start, end in matcher.get_opcodes():
        if change == "delete":
            at = _row_start(before, was_forms, first, last)
            fine = all(plain.dated(row) for row in _rows(before[at : at + last - first]))
        elif change == "equal":
            pairs = zip(before[first:last], after[start:end], strict=True)
            fine = all(plain.near(old, new) for old, new in pairs)
        else:
            fine = False
        if not fine:
            return False
    return True


def _row_start(
    cells: Sequence[Cell], forms: Sequence[tuple[str, str]], first: int, last: int
) -> int:
    """Return where the row begins of which cells are gone: rows of one form look alike."""
    while first and not cells[first].starts_row and forms[first - 1] == forms[last - 1]:
        first, last = first - 1, last - 1
    return first


def _rows(cells: Sequence[Cell]) -> list[str]:
    """Return the texts of whole rows; of anything else one that holds no date."""
    if not cells[0].starts_row:
        return [""]
    rows: list[str] = []
    for cell in cells:
        if cell.starts_row:
            rows.append("")
        rows[-1] += f" {cell.text}"
    return rows


class _Plain:
    """Takes cells apart into words and numbers."""

    def __init__(self, words: Reading) -> None:
        months, units, noon = (
            "|".join(re.escape(word) for word in sorted(group, key=len, reverse=True)) or "(?!)"
            for group in (words.months, words.units, words.noon)
        )
        self.date = re.compile(rf"(?<!\S)\d\d?\.? (?:{months})(?: \d{{4}})?\b")
        self.time = re.compile(
            rf"(?<!\S)(\d\d?)(?::(\d\d))? ?({noon})\b|(?<!\S)(\d\d?):(\d\d)\b"
        )
        self.amount = re.compile(
            rf"(?<![\w.,/])(\d[\d,.]*(?: \d/\d)?|\d/\d) ?(?=(?:{units})(?!\w))"
        )
        self.drawn = re.compile(r"-?\d+(?:\.\d+)?")
        self.noon = words.noon

    def form(self, cell: Cell) -> tuple[str, str]:
        """Return a cell without what may differ."""
        text = self.date.sub("<date>", cell.text)
        text = self.amount.sub("<amount> ", self.time.sub("<time>", text))
        tags = self.drawn.sub("#", cell.tags)
        return tags, text

    def dated(self, row: str) -> bool:
        """Return whether a row names a day."""
        return bool(self.date.search(row))

    def near(self, old: Cell, new: Cell) -> bool:
        """Return whether the times and amounts of two cells of one form are near."""
        drawn = zip(self.drawn.findall(old.tags), self.drawn.findall(new.tags), strict=True)
        if any(abs(float(one) - float(other)) > MOST_DRAWN for one, other in drawn):
            return False
        was, now = self.date.sub("", old.text), self.date.sub("", new.text)
        times = zip(self.time.findall(was), self.time.findall(now), strict=True)
        if any(self._apart(one, other) > MOST_MINUTES for one, other in times):
            return False
        was, now = self.time.sub("", was), self.time.sub("", now)
        amounts = zip(self.amount.findall(was), self.amount.findall(now), strict=True)
        return all(
            abs(_value(one) - _value(other)) <= MOST_MOVED * _value(one)
            for one, other in amounts
        )

    def _apart(self, one: Sequence[str], other: Sequence[str]) -> int:
        """Return how far two times are apart [min], past midnight too."""
        apart = abs(self._minutes(one) - self._minutes(other))
        return min(apart, _DAY_MINUTES - apart)

    def _minutes(self, parts: Sequence[str]) -> int:
        """Return a time as minutes since midnight."""
        hour, minute, noon, hour_24, minute_24 = parts
        if hour_24:
            return int(hour_24) * 60 + int(minute_24)
        late = _NOON if noon == self.noon[1] else 0
        return int(hour) % 12 * 60 + int(minute or 0) + late


def _value(text: str) -> float:
    """Return the value of `1,090`, `6.9`, `1 3/4` or `1/2`."""
    total = 0.0
    for part in text.split():
        top, _, bottom = part.replace(",", "").strip(".").partition("/")
        total += float(top) / float(bottom or 1)
    return total
