"""Published amounts by name: cells such as `1.5 gal` read in the kept unit of their kind."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from binder import units
from binder.figures import published
from binder.figures.noise import NOISE

if TYPE_CHECKING:
    from binder.figures.published import Row


@dataclass(frozen=True, slots=True)
class Rule:
    """One published or chosen amount in its kept unit, and the ids it rests on."""

    value: float
    sources: tuple[str, ...]


def at_least(value: float, limit: float) -> bool:
    """Return whether `value` reaches `limit`; what units add behind the ninth digit is nothing.

    A cup caught in 30 seconds is 2 cups a minute, though the two come out of the units a hair
    apart.
    """
    return value >= limit or math.isclose(value, limit, rel_tol=NOISE)


@lru_cache(maxsize=4096)  # a cell is read once; a herd asks for it on each day of a stay
def quantity(row: Row, column: str, kind: str) -> float:
    """Return the cell in the kept unit of `kind`, a key of `KINDS`, or `number`.

    Raises:
        NotPublishedError: the cell is empty.
        units.UnitError: the cell holds something else.
    """
    if kind == "number" or not row.has(column):
        return row.number(column)
    return units.parse(row.text(column), kind)


def rule(table: str, name: str, kind: str) -> Rule:
    """Return the amount of the row called `name` in the rules table `table`.

    Raises:
        MissingRowError: the table has lost it.
    """
    row = published.row(table, rule=name)
    return Rule(quantity(row, "amount", kind), row.sources)
