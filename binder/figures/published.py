"""Published tables as data: the one place in `figures` that opens files.

A table is `content/published/AREA/NAME.csv`, and no two have one name. Lines that start with
`#` are its head (what it is, the units of its columns, its range, disagreements); then a header
row, then rows. Every row has a `sources` column with the ids it rests on, parted by spaces;
`our-choice` and `derived` are ids too.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import lru_cache
from itertools import zip_longest
from typing import TYPE_CHECKING

from binder.data import CONTENT
from binder.figures.figure import NotPublishedError
from binder.problems import Place, Problem, ProblemsError, did_you_mean

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path


# Columns whose words `classes.csv` settles: what stands there is known to the program.
SETTLED = ("class", "species")


class MissingRowError(ProblemsError):
    """A table of ours lacks a row that the program counts on: nothing is printed without it."""

    def __init__(self, table: str, wanted: Mapping[str, str]) -> None:
        """Keep which table lacks what."""
        named = ", ".join(f'{column} "{value}"' for column, value in wanted.items())
        message = f"has no row for {named}: the program's own table is at fault"
        super().__init__([Problem(_place(table), "", message)])


@dataclass(frozen=True, slots=True, eq=False)  # a row of a file is itself alone
class Row:
    """One row of a published table; an empty cell means: not published."""

    table: str
    cells: Mapping[str, str]

    def text(self, column: str) -> str:
        """Return the cell's text."""
        return self.cells[column]

    def number(self, column: str) -> float:
        """Return the cell as a number.

        Raises:
            NotPublishedError: the cell is empty.
        """
        cell = self.cells[column]
        if not cell:
            what = next(iter(self.cells.values()))
            message = f"no {column} is published in {self.table} for {what}"
            raise NotPublishedError(message)
        return float(cell)

    def has(self, column: str) -> bool:
        """Return whether a figure is published in that column."""
        return bool(self.cells[column])

    @property
    def sources(self) -> tuple[str, ...]:
        """Return the ids this row rests on."""
        return tuple(self.cells["sources"].split())


@lru_cache(maxsize=1)
def _paths() -> Mapping[str, Path]:
    """Return where each table stands, by its name."""
    return {path.stem: path for path in (CONTENT / "published").glob("*/*.csv")}


def _place(table: str) -> Place:
    """Return a table's file as it is named from the top of the program."""
    path = _paths()[table]
    return Place(f"content/published/{path.parent.name}/{path.name}")


@lru_cache(maxsize=128)
def rows(table: str) -> tuple[Row, ...]:
    """Return all rows of the table, in order.

    Raises:
        KeyError: there is no such table.
    """
    with _paths()[table].open(encoding="utf-8", newline="") as stream:
        lines = [line for line in stream if line.strip() and not line.startswith("#")]
    heads, *records = csv.reader(lines)
    return tuple(
        Row(table, dict(zip_longest(heads, map(str.strip, record), fillvalue="")))
        for record in records
    )


@lru_cache(maxsize=4096)  # the same few hundred rows are asked for again and again
def row(table: str, **wanted: str) -> Row:
    """Return the first row whose cells equal `wanted`, which the table must have.

    Raises:
        MissingRowError: the table has lost it.
        NotPublishedError: `wanted` is a class or species that nobody knows, as one may type it;
            the message names the nearest.
    """
    found = _first(table, wanted)
    if found is None:
        if _is_typed(wanted):
            raise _silent(table, wanted)
        raise MissingRowError(table, wanted)
    return found


def formula(table: str, name: str) -> tuple[str, ...]:
    """Return the ids that a formula rests on, of the area's table `table` of formulas.

    Raises:
        MissingRowError: the table has lost it.
    """
    return row(table, formula=name).sources


def rests_on(sheet: str) -> tuple[str, ...]:
    """Return the ids that a sheet we make rests on beside its figures, by its slug.

    Raises:
        MissingRowError: the table has lost it.
    """
    return row("sheets", sheet=sheet).sources


def row_if_told(table: str, **wanted: str) -> Row:
    """Return the first row whose cells equal `wanted`, of a table that does not cover all.

    Raises:
        NotPublishedError: there is none; the message names the nearest.
    """
    found = _first(table, wanted)
    if found is None:
        raise _silent(table, wanted)
    return found


def _first(table: str, wanted: Mapping[str, str]) -> Row | None:
    return next(
        (
            candidate
            for candidate in rows(table)
            if all(candidate.cells[column] == value for column, value in wanted.items())
        ),
        None,
    )


def _is_typed(wanted: Mapping[str, str]) -> bool:
    """Return whether a class or species is none of those in `classes.csv`."""
    return any(
        all(one.text(column) != wanted[column] for one in rows("classes"))
        for column in SETTLED
        if column in wanted
    )


def _silent(table: str, wanted: Mapping[str, str]) -> NotPublishedError:
    column, value = next(iter(wanted.items()))
    choices = tuple(dict.fromkeys(candidate.cells[column] for candidate in rows(table)))
    near = did_you_mean(value, choices)
    message = f'nothing is published in {table} for {column} "{value}"{near}'
    return NotPublishedError(message)
