"""Every figure by its name: what `binder figure` lists and computes."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from binder.figures.entry import COMMAND, Entry, read_arguments
from binder.problems import Problem, ProblemsError, did_you_mean

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.figure import Figure

# The modules that offer figures, in the order they are listed to the reader.
_MODULES = (
    "bands", "day", "herd", "water", "drinkers", "reserve", "hoses", "hose_heat",
    "wallows", "wallow_site", "wallow_plan", "bleach", "cleaning",
    "shade", "air", "feed", "power", "people",
    "rounds", "stays",
)  # fmt: skip


def entries() -> Mapping[str, Entry]:
    """Return every figure that can be asked for, by name."""
    found: dict[str, Entry] = {}
    for name in _MODULES:
        module = import_module(f"binder.figures.{name}")
        for entry in module.ENTRIES:
            found[entry.name] = entry
    return found


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
