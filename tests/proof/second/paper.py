"""A sheet of paper as somebody holds it: read off its HTML, written on, compared by eye.

A reader and a pen of our own, so that what the program overlooks is seen.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, replace
from html.parser import HTMLParser
from typing import TYPE_CHECKING

from binder.output.paper.sheet import body_for_paper

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.output.handed.by_pen import Pen
    from binder.pages.page import Foot, Page

_VOID = frozenset({"br", "hr", "img", "col", "wbr", "input"})
_IN_LINE = frozenset(
    {"a", "abbr", "b", "br", "em", "i", "s", "small", "span", "strong", "sub", "sup", "tspan"}
) | {"wbr"}
_MONTHS = (
    "January|February|March|April|May|June|July|August|September|October|November|December"
)
_DATE = re.compile(rf"\b\d\d?\.? (?:{_MONTHS})\b(?: \d{{4}})?")
_TIME = re.compile(r"\b(\d\d?)(?::(\d\d))? ?(am|pm)\b|\b(\d\d?):(\d\d)\b")
_NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?(?: \d/\d)?|\d/\d")
_THIRD, _MINUTES = 1 / 3, 15  # what DEVELOPERS.md promises of a sheet that only grew older


@dataclass(frozen=True)
class Line:
    """What stands together; the number of its row on the sheet, 0 outside rows."""

    text: str
    row: int = 0


class _Reader(HTMLParser):
    """Gathers lines and bands; what only says when it was printed is left out."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: list[Line] = []
        self._words: list[str] = []
        self._passing = 0
        self._open: list[bool] = []
        self._rows: list[int] = [0]
        self._count = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        classes = (dict(attrs).get("class") or "").split()
        if tag not in _IN_LINE:
            self.rest()
        if tag in {"tr", "li"}:
            self._count += 1
            self._rows.append(self._count)
        bands = [name for name in classes if re.fullmatch("b[0-4]", name)]
        self.lines += [Line(f"[{name}]", self._rows[-1]) for name in bands]
        if tag not in _VOID:
            self._open.append("passing" in classes)
            self._passing += self._open[-1]

    def handle_endtag(self, tag: str) -> None:
        if tag not in _IN_LINE:
            self.rest()
        if tag in {"tr", "li"} and len(self._rows) > 1:
            self._rows.pop()
        if tag not in _VOID and self._open:
            self._passing -= self._open.pop()

    def handle_data(self, data: str) -> None:
        if not self._passing and data.strip():
            self._words.append(" ".join(data.split()))

    def rest(self) -> None:
        """End a line."""
        if self._words:
            self.lines.append(Line(" ".join(self._words), self._rows[-1]))
            self._words = []


@dataclass(frozen=True)
class Paper:
    """A sheet: its number, and its lines from top to bottom."""

    number: str
    lines: tuple[Line, ...]

    @property
    def text(self) -> str:
        """Return all that is read on it."""
        return " ".join(line.text for line in self.lines)


def of_page(page: Page) -> Paper:
    """Return a sheet as it is printed."""
    read = _Reader()
    read.feed(body_for_paper(page))
    read.close()
    read.rest()
    return Paper(page.sheet, (Line(page.title), *read.lines))


def of_foot(foot: Foot) -> Paper:
    """Return the foot that all sheets share; names and phones stand beside one another."""
    parts = (foot.trouble, foot.address, *(part for call in foot.calls for part in call))
    return Paper("", (Line(" ".join(parts)),))


def written_on(paper: Paper, pens: Sequence[Pen]) -> tuple[Paper, list[str]]:
    """Return a sheet after somebody did what a pack asks, and what they could not do."""
    faults = []
    for pen in pens:
        whole = all(line.text.count("(") == line.text.count(")") for line in paper.lines)
        if whole and pen.old.count("(") != pen.old.count(")"):  # else a name is written so
            faults.append(f"{paper.number}: {pen.old!r} ends inside a bracket")
        done = _written(paper, pen) if pen.new else _crossed(paper, pen.old)
        if done is None:
            faults.append(f"{paper.number}: nobody finds {pen}")
        else:
            paper = done
    return paper, faults


def _written(paper: Paper, pen: Pen) -> Paper | None:
    """Return it with a value in place of another; None where it is not there to be found."""
    whole = re.compile(rf"(?<!\S){re.escape(pen.old)}(?!\S)")
    heads: dict[int, str] = {}
    for line in paper.lines:
        heads.setdefault(line.row, line.text)
    rows = {row for row, head in heads.items() if row and head == pen.row}
    inside = [at for at, line in enumerate(paper.lines) if line.row in rows]
    for places in (inside, range(len(paper.lines))):  # the row that is named, else anywhere
        lines = list(paper.lines)
        count = 0
        for at in places:
            text, times = whole.subn(lambda _: pen.new, lines[at].text)
            lines[at], count = replace(lines[at], text=text), count + times
        if count == pen.places:
            return replace(paper, lines=tuple(lines))
    return None


def _crossed(paper: Paper, said: str) -> Paper | None:
    """Return it without the one row that says this; None where there is none, or two."""
    found = []
    for row in {line.row for line in paper.lines if line.row}:
        texts = [line.text for line in paper.lines if line.row == row]
        if " · ".join(text for text in texts if not re.fullmatch(r"\[b\d\]", text)) == said:
            found.append(row)
    if len(found) != 1:
        return None
    return replace(paper, lines=tuple(line for line in paper.lines if line.row != found[0]))


def grown_older(was: Paper, now: Paper) -> list[str]:
    """Return what on an old sheet is wrong today beyond what days alone may move."""
    faults: list[str] = []
    before, after = [_bare(line.text) for line in was.lines], [_bare(x.text) for x in now.lines]
    matcher = difflib.SequenceMatcher(None, before, after, autojunk=False)
    for change, first, last, start, end in matcher.get_opcodes():
        if change == "equal":
            pairs = zip(was.lines[first:last], now.lines[start:end], strict=True)
            faults += [fault for one, other in pairs for fault in _apart(one.text, other.text)]
        elif change == "insert" or not _past(was, first, last):
            old = [line.text for line in was.lines[first:last]]
            faults.append(f"{was.number}: {old} is {[x.text for x in now.lines[start:end]]}")
    return faults


def _bare(text: str) -> str:
    """Return a line without its dates, times and numbers."""
    return _NUMBER.sub("#", _TIME.sub("<time>", _DATE.sub("<date>", text)))


def _past(paper: Paper, first: int, last: int) -> bool:
    """Return whether lines that are gone belong to rows that name a day."""
    rows = {line.row for line in paper.lines[first:last]}
    return all(
        row and any(_DATE.search(line.text) for line in paper.lines if line.row == row)
        for row in rows
    )


def _apart(one: str, other: str) -> list[str]:
    one, other = _DATE.sub("", one), _DATE.sub("", other)
    times = zip(_TIME.findall(one), _TIME.findall(other), strict=True)
    far = any(min((gap := abs(_clock(a) - _clock(b))), 1440 - gap) > _MINUTES for a, b in times)
    one, other = _TIME.sub("", one), _TIME.sub("", other)
    values = zip(_NUMBER.findall(one), _NUMBER.findall(other), strict=True)
    far = far or any(abs(_value(a) - _value(b)) > _THIRD * _value(a) + 1e-9 for a, b in values)
    return [f"{one!r} is {other!r}"] if far else []


def _clock(parts: Sequence[str]) -> int:
    hour, minute, noon, hour_24, minute_24 = parts
    if hour_24:
        return int(hour_24) * 60 + int(minute_24)
    return int(hour) % 12 * 60 + int(minute or 0) + (720 if noon == "pm" else 0)


def _value(text: str) -> float:
    total = 0.0
    for part in text.split():
        top, _, bottom = part.replace(",", "").partition("/")
        total += float(top) / float(bottom or 1)
    return total
