"""Every figure by its name: what `binder figure` lists and computes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.areas import AREAS
from binder.figures.entry import COMMAND, Entry, read_arguments
from binder.problems import Problem, ProblemsError, did_you_mean

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.figure import Figure


def entries() -> Mapping[str, Entry]:
    """Return every figure that can be asked for, by name, in the order they are listed."""
    return {entry.name: entry for area in by_area().values() for entry in area}


def by_area() -> Mapping[str, tuple[Entry, ...]]:
    """Return the figures that can be asked for by the area they belong to, in its order."""
    from binder.figures import (  # noqa: PLC0415 -- `binder --help` answers without them
        bands,
        bleach,
        day,
        feed,
        herd,
        hoses,
        housing,
        people,
        power,
        rounds,
        season,
        stays,
        supply,
        wallows,
        water,
    )

    of_area = {
        "herd": herd, "bands": bands, "people": people, "day": day, "water": water,
        "hoses": hoses, "wallows": wallows, "bleach": bleach, "supply": supply,
        "housing": housing, "feed": feed, "power": power, "rounds": rounds, "stays": stays,
        "season": season,
    }  # fmt: skip
    return {
        area: tuple(of_area[area].ENTRIES)
        for area in AREAS
        if area in of_area and of_area[area].ENTRIES
    }


def compute(name: str, given: Mapping[str, str]) -> Figure:
    """Return the figure `name` for arguments as typed, such as `{"temperature": "96F"}`.

    Raises:
        ProblemsError: unknown figure, or arguments that do not do; also what is not published.
    """
    known = entries()
    if name not in known:
        message = f'"{name}" is not a figure{did_you_mean(name, known)}'
        raise ProblemsError([Problem(COMMAND, "", message)])
    entry = known[name]
    values = read_arguments(entry, given)
    try:
        return entry.compute(**values)
    except ValueError as error:
        raise ProblemsError([Problem(COMMAND, name, str(error))]) from error
