"""Tables of the content that the check of a farm folder reads: limits, words, windows."""

from __future__ import annotations

import csv
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from binder.data import CONTENT

if TYPE_CHECKING:
    from collections.abc import Mapping

    Row = Mapping[str, str]


@lru_cache(maxsize=16)
def rows(table: str) -> tuple[Row, ...]:
    """Return the rows of a published table by its name, in whichever area's folder it lies.

    Raises:
        FileNotFoundError: there is no such table in the content.
    """
    found = sorted((CONTENT / "published").rglob(f"{table}.csv"))
    if not found:
        raise FileNotFoundError(table)
    with found[0].open(encoding="utf-8", newline="") as stream:
        lines = [line for line in stream if line.strip() and not line.startswith("#")]
    return tuple(
        MappingProxyType({key: (cell or "").strip() for key, cell in row.items()})
        for row in csv.DictReader(lines)
    )


@lru_cache(maxsize=16)
def by(table: str, column: str) -> Mapping[str, Row]:
    """Return the rows of a table by what stands in one of its columns, the first of each."""
    found: dict[str, Row] = {}
    for row in rows(table):
        found.setdefault(row[column], row)
    return found


def meant_words() -> Mapping[str, str]:
    """Return which of our words each word of common use stands for, in small letters."""
    return {word: row["meant"] for word, row in by("meant_words", "written").items()}
