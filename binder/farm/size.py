"""How much of anything a farm folder may hold: more than a small farm has, yet not too much.

All limits are our choice. Each animal by name has its line on several sheets and each stay its
own papers, so thousands would make a binder that nobody could draw, print or carry.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from binder.problems import Problem
from binder.yamlfile import named

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from binder.farm.load import Written
    from binder.yamlfile import Document, Path_, Plain

# file -> the most items in its list, and what to do with more
MOST: Mapping[str, tuple[int, str]] = MappingProxyType(
    {
        "animals.yaml": (300, "write animals that live alike as a group"),
        "pens.yaml": (100, "write stalls alike as one pen"),
        "contacts.yaml": (100, "keep those that a sitter may need"),
        "stays.yaml": (30, "take out those that are over"),
    }
)
_MOST_INSIDE = 200, "keep those that a sitter may need"  # of any other list


def problems(written: Written) -> list[Problem]:
    """Return a problem for each list that is too long to be made into a binder."""
    return [
        problem
        for document in written.documents.values()
        for problem in _lists(document, document.data, ())
    ]


def _lists(document: Document, data: Plain, path: Path_) -> Iterator[Problem]:
    """Yield a problem for each list that is too long, and look no further into it."""
    if isinstance(data, list):
        most, advice = _MOST_INSIDE if path else MOST.get(document.name, _MOST_INSIDE)
        if len(data) > most:
            message = f"holds {len(data):,} items; {most} are the most: {advice}"
            yield Problem(document.place((*path, most)), named(document.data, path), message)
            return
        for number, item in enumerate(data):
            yield from _lists(document, item, (*path, number))
    elif isinstance(data, dict):
        for key, item in data.items():
            yield from _lists(document, item, (*path, key))
