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
from typing import TYPE_CHECKING

from binder.data import CONTENT
from binder.figures.figure import NotPublishedError
from binder.problems import did_you_mean

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path


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


@lru_cache(maxsize=128)
def rows(table: str) -> tuple[Row, ...]:
    """Return all rows of the table, in order.

    Raises:
        KeyError: there is no such table.
    """
    with _paths()[table].open(encoding="utf-8", newline="") as stream:
        lines = [line for line in stream if line.strip() and not line.startswith("#")]
    return tuple(
        Row(table, {name: (cell or "").strip() for name, cell in record.items()})
        for record in csv.DictReader(lines)
    )


@lru_cache(maxsize=4096)  # the same few hundred rows are asked for again and again
def row(table: str, **wanted: str) -> Row:
    """Return the first row whose cells equal `wanted`.

    Raises:
        NotPublishedError: there is none; the message names the nearest.
    """
    for candidate in rows(table):
        if all(candidate.cells[column] == value for column, value in wanted.items()):
            return candidate
    column, value = next(iter(wanted.items()))
    choices = tuple(dict.fromkeys(candidate.cells[column] for candidate in rows(table)))
    near = did_you_mean(value, choices)
    message = f'nothing is published in {table} for {column} "{value}"{near}'
    raise NotPublishedError(message)
