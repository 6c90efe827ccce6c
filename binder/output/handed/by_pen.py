"""Corrections by pen: the few short values in which a sheet differs from the paper that is out.

A correction is only offered where writing it in makes the old sheet say, word for word, what
the new one says; `corrected` does what the pen does, and every offer is tried with it first.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import TYPE_CHECKING

from binder.output.handed.pen_words import LONGEST, bare, times, values

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

MOST_VALUES = 4  # our choice: more values on one sheet are easily slipped
MOST_CROSSED = 2  # our choice: crossing out needs no writing, so it counts by itself
MOST_PLACES = 6  # our choice: the same value in more places is quicker printed anew
_EASY = 16  # our choice: characters of a value that one finds on a sheet without its row
_ALONE = 5  # our choice: characters of a value that one finds without the words round it
_INLINE = re.compile(r"<(?:a|abbr|b|br|em|i|s|small|span|strong|sub|sup|tspan|wbr) ")
_UNSEEN = ("<a ", "<tbody ", "<thead ")  # where a link leads; how rows belong together
_ROW = ("<tr ", "<li ")


@dataclass(frozen=True, slots=True)
class Pen:
    """One value to write in.

    Attributes:
        old: what the sheet says.
        new: what to write instead; empty where `old` is a row to cross out.
        row: what heads the row where `old` alone could be another value; else empty.
        places: how often it stands on the sheet.
    """

    old: str
    new: str
    row: str = ""
    places: int = 1


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands together without a break: a cell, a line, a heading."""

    tags: str
    text: str

    @property
    def starts_row(self) -> bool:
        """Return whether a row of a table or list starts here."""
        return any(tag in self.tags for tag in _ROW)


def corrections(old: Sequence[str], new: Sequence[str]) -> tuple[Pen, ...] | None:
    """Return what to write into a sheet, or None where it has to be printed anew.

    Args:
        old: what the paper shows, as `fingerprint.seen` notes it.
        new: what it should show.

    Returns:
        At most `MOST_VALUES` values, empty where both show the same.
    """
    before, after = _cells(old), _cells(new)
    found = _differences(before, after)
    if found is None:
        return None
    pens = tuple(found)
    told = {bare(pen.old, pen.new) for pen in pens}
    crossed = sum(not now for _, now in told)
    short = all(len(pen.new) <= LONGEST for pen in pens)
    places = sum(pen.places for pen in pens)
    many = crossed > MOST_CROSSED or len(told) - crossed > MOST_VALUES or places > MOST_PLACES
    if many or not short:
        return None
    return pens if _corrected(before, pens) == after else None


def corrected(old: Sequence[str], pens: Sequence[Pen]) -> tuple[Cell, ...]:
    """Return what a sheet says after the pen went over it."""
    return _corrected(_cells(old), pens)


def shown(seen: Sequence[str]) -> tuple[Cell, ...]:
    """Return what a sheet says, to hold against `corrected`."""
    return _cells(seen)


def _cells(seen: Sequence[str]) -> tuple[Cell, ...]:
    """Return what a sheet shows, cell by cell; tags stand with the cell that they begin."""
    cells: list[Cell] = []
    tags: list[str] = []
    words: list[str] = []
    for part in seen:
        if part.startswith(_UNSEEN):
            continue
        is_tag = part.startswith("<") and part.endswith("]>")
        if is_tag and words and not _INLINE.match(part):
            cells.append(Cell("".join(tags), " ".join(words)))
            tags, words = [], []
        (tags if is_tag else words).append(part)
    cells.append(Cell("".join(tags), " ".join(words)))
    return tuple(cells)


def _differences(before: tuple[Cell, ...], after: tuple[Cell, ...]) -> list[Pen] | None:
    """Return each value once, or None where more than values and rows changed."""
    found: dict[Pen, int] = {}
    heads = tuple(_heads(before))
    matcher = SequenceMatcher(None, before, after, autojunk=False)
    for change, first, last, start, end in matcher.get_opcodes():
        if change == "equal":
            continue
        if change == "delete":
            pens: Sequence[Pen | None] = _row_gone(before, first, last)
        elif last - first == end - start:
            pairs = zip(range(first, last), after[start:end], strict=True)
            pens = [pen for at, new in pairs for pen in _rewritten(before, heads, at, new)]
        else:
            return None
        if not pens:
            return None
        for pen in pens:
            if pen is None:
                return None
            found[pen] = found.get(pen, 0) + 1
    return [replace(pen, places=count) for pen, count in _everywhere(found, before).items()]


def _rewritten(
    cells: Sequence[Cell], heads: Sequence[str], at: int, new: Cell
) -> Iterator[Pen | None]:
    """Yield the values to write into one cell; None for what no pen does."""
    if cells[at].tags != new.tags:
        yield None
        return
    for old, now in values(cells[at].text, new.text):
        yield _named(Pen(old, now), cells, heads, at)


def _heads(cells: Sequence[Cell]) -> Iterator[str]:
    """Yield for each cell what heads its row; nothing outside a row."""
    head = ""
    for cell in cells:
        if cell.starts_row:
            head = cell.text
        elif not cell.tags.startswith(("<td ", "<th ", "<p ", "<div ")):
            head = ""
        yield head


def _row_gone(cells: Sequence[Cell], first: int, last: int) -> list[Pen]:
    """Return the crossing out of one whole row, nothing where it is none.

    Rows that are alike but for a name can be told apart in two ways; one cuts at a row's start.
    """
    length = last - first
    starts = [first]
    while starts[-1] and cells[starts[-1] - 1] == cells[starts[-1] + length - 1]:
        starts.append(starts[-1] - 1)
    up = first
    while up + length < len(cells) and cells[up] == cells[up + length]:
        up += 1
        starts.append(up)
    for at in starts:
        run = cells[at : at + length]
        if _is_row(run):
            return [Pen(_said(run), "")]
    return []


def _is_row(cells: Sequence[Cell]) -> bool:
    return cells[0].starts_row and sum(cell.starts_row for cell in cells) == 1


def _said(cells: Sequence[Cell]) -> str:
    """Return the texts of cells as one; what names a drawing is not read on paper."""
    return " · ".join(cell.text for cell in cells if cell.text and "<title " not in cell.tags)


def _named(pen: Pen, cells: Sequence[Cell], heads: Sequence[str], at: int) -> Pen | None:
    """Return a value with the head of its row, where it needs one to be found."""
    if len(pen.old) > LONGEST:
        return None
    elsewhere = sum(times(cell.text, pen.old) for cell in cells)
    head = heads[at] != pen.old and heads[at]
    if not head or (elsewhere == 1 and len(pen.old) > _EASY):
        return pen
    return replace(pen, row=head)


def _everywhere(pens: dict[Pen, int], cells: Sequence[Cell]) -> dict[Pen, int]:
    """Return the values without the words round them where they are wrong at every place.

    A name or a phone can be found by itself, and reads alike on every sheet it stands on.
    """
    found: dict[Pen, int] = {}
    for pen, count in pens.items():
        old, new = bare(pen.old, pen.new)
        alike = [each for each in pens if bare(each.old, each.new) == (old, new)]
        places = sum(pens[each] * times(each.old, old) for each in alike)
        alone = len(old) >= _ALONE and new and pen.new
        if alone and places == sum(times(cell.text, old) for cell in cells):
            found[Pen(old, new)] = places
        else:
            found[pen] = count
    return found


def _corrected(cells: tuple[Cell, ...], pens: Sequence[Pen]) -> tuple[Cell, ...]:
    """Return the cells after every value was written in and every row crossed out."""
    said = [
        replace(cell, text=_written(cell.text, head, pens))
        for cell, head in zip(cells, _heads(cells), strict=True)
    ]
    for pen in pens:
        if pen.new:
            continue
        runs = [
            (first, last)
            for first, cell in enumerate(cells)
            if cell.starts_row
            for last in range(first + 1, len(cells) + 1)
            if _is_row(cells[first:last]) and _said(cells[first:last]) == pen.old
        ]
        if len(runs) == 1:
            first, last = runs[0]
            said[first:last] = [Cell("", "")] * (last - first)
    return tuple(cell for cell in said if cell != Cell("", ""))


def _written(text: str, head: str, pens: Sequence[Pen]) -> str:
    """Return a cell's text with the values that hold for it."""
    for pen in pens:
        if pen.new and pen.row in {"", head}:
            whole = rf"(?<!\S){re.escape(pen.old)}(?!\S)"
            text = re.sub(whole, pen.new.replace("\\", r"\\"), text)
    return text
