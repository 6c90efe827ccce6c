"""Every figure by its name: what `binder figure` lists and computes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.entry import COMMAND, Entry, read_arguments
from binder.problems import Problem, ProblemsError, did_you_mean

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.figure import Figure


def entries() -> Mapping[str, Entry]:
    """Return every figure that can be asked for, by name, in the order they are listed."""
    from binder.figures import (  # noqa: PLC0415 -- `binder --help` answers without them
        air,
        bands,
        bleach,
        bleach_age,
        cleaning,
        day,
        drinkers,
        feed,
        herd,
        hose_heat,
        hoses,
        people,
        power,
        reserve,
        rounds,
        shade,
        stays,
        wallow_plan,
        wallow_site,
        wallows,
        water,
    )  # fmt: skip

    listed = (
        bands, day, herd, water, drinkers, reserve, hoses, hose_heat, wallows, wallow_site,
        wallow_plan, bleach, bleach_age, cleaning, shade, air, feed, power, people, rounds,
        stays,
    )  # fmt: skip
    return {entry.name: entry for module in listed for entry in module.ENTRIES}


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
