"""Factors between units: from a kept table, else from pint (the only module that knows pint).

To load pint and its own list of units takes longer than most commands. So what it says of the
units that the program knows stands in `content/conversions.csv`, number by number;
`python -m binder.conversion` renews it.
"""

from __future__ import annotations

import csv
import sys
from functools import lru_cache
from typing import TYPE_CHECKING

from binder.data import CONTENT
from binder.display import ALONE, DISPLAY, MEASURED, PINT_NAMES, SAID
from binder.kinds import KINDS

if TYPE_CHECKING:
    from collections.abc import Iterator

TABLE = CONTENT / "conversions.csv"
_HEAD = ("from", "to", "factor", "offset")


@lru_cache(maxsize=512)
def line(source: str, target: str) -> tuple[float, float]:
    """Return factor and offset of `target = factor * source + offset`: ours are all linear."""
    if source == target:
        return 1.0, 0.0
    return _kept().get((source, target)) or worked_out(source, target)


def worked_out(source: str, target: str) -> tuple[float, float]:
    """Return factor and offset as pint has them."""
    registry = _registry()
    zero = float(registry.Quantity(0.0, source).to(target).magnitude)
    thousand = float(registry.Quantity(1000.0, source).to(target).magnitude)
    return (thousand - zero) / 1000.0, zero


def pairs() -> list[tuple[str, str]]:
    """Return each two units, as pint calls them, between which the program may convert."""
    return sorted({pair for pair in _pairs() if pair[0] != pair[1] and all(pair)})


def _pairs() -> Iterator[tuple[str, str]]:
    for kind in KINDS.values():
        yield from ((written, PINT_NAMES[kind.unit]) for written in kind.written.values())
    for unit, systems in DISPLAY.items():
        yield from ((PINT_NAMES.get(unit, ""), each.pint_unit) for each in systems.values())
    differences = DISPLAY["delta_degC"].values()
    yield from ((each.pint_unit, "delta_degC") for each in differences)
    measures = (pair for table in (SAID, MEASURED, ALONE) for pair in table.items())
    for unit, sizes in measures:
        yield from ((PINT_NAMES[unit], each.pint_unit) for each in sizes)


@lru_cache(maxsize=1)
def _kept() -> dict[tuple[str, str], tuple[float, float]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return {
        (row["from"], row["to"]): (float(row["factor"]), float(row["offset"])) for row in rows
    }


@lru_cache(maxsize=1)
def _registry():  # type: ignore[no-untyped-def]
    import pint  # noqa: PLC0415 -- seldom wanted, and a quarter of a second to load

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


def main() -> None:
    """Print the table."""
    rows = csv.writer(sys.stdout, lineterminator="\n")
    rows.writerow(_HEAD)
    for source, target in pairs():
        factor, offset = worked_out(source, target)
        rows.writerow((source, target, repr(factor), repr(offset)))


if __name__ == "__main__":
    main()
