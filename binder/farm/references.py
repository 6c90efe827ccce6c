"""Names that point at something else on the farm: each leads to one thing, in no circle.

All this is read from the files as written, so that an animal whose weight is wrong does not
hide that its pen is wrong too.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder.problems import Problem, did_you_mean, quotable
from binder.yamlfile import named

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from binder.farm.load import Written
    from binder.yamlfile import Document, Path_, Plain

WATER = ("water_sources", "tanks", "hoses")
POWERED = ("water_sources", "circuits", "fans")
EQUIPMENT = (*WATER, "circuits", "cords", "generators", "products", "feeds", "buckets")
IN_PENS = ("drinkers", "fans", "wallow")
# Each has names of its own; all else on the farm shares one set of ids, as its tags do.
SETS_APART = frozenset({"pens", "stays", "animals"})

# list in a file -> the keys that name something else, and what they may name
POINTERS: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "animals": {"pen": ("pens",), "feed": ("feeds",)},
    "wallow": {"fed_by": WATER},
    "drinkers": {"fed_by": WATER},
    "fans": {"circuit": ("circuits",)},
    "water_sources": {"circuit": ("circuits",)},
    "tanks": {"fed_by": WATER},
    "hoses": {"fed_by": WATER},
    "cords": {"feeds": POWERED},
    "generators": {"runs": POWERED},
}
_SAID = {
    ("pens",): "a pen in pens.yaml",
    ("feeds",): "a feed in equipment.yaml",
    ("circuits",): "a circuit in equipment.yaml",
    WATER: "a water source, tank or hose in equipment.yaml",
    POWERED: "a water source or circuit in equipment.yaml, nor a fan in pens.yaml",
}
_MOST_SUGGESTIONS = (
    200  # misspelt names whose nearest is looked for, which takes time: our choice
)
_LONGEST_RING = 5  # members of a circle that a message names: our choice


@dataclass(frozen=True, slots=True)
class _Item:
    """A mapping that stands in a list of its kind (or alone, like a wallow)."""

    kind: str
    document: Document
    path: Path_
    data: dict[str, Plain]

    def text(self, key: str) -> str | None:
        """Return what is written at a key, None where that is no text."""
        value = self.data.get(key)
        return value if isinstance(value, str) else None

    def problem(self, path: Path_, message: str) -> Problem:
        """Return a problem at a path inside the item."""
        whole = (*self.path, *path)
        return Problem(self.document.place(whole), named(self.document.data, whole), message)


@dataclass(frozen=True, slots=True)
class _Hints:
    """The nearest name to each misspelt one, looked for once."""

    known: dict[tuple[str, tuple[str, ...]], str] = field(default_factory=dict)

    def tail(self, word: str, kinds: tuple[str, ...], names: Iterable[str]) -> str:
        """Return `; did you mean creek?`, or nothing once enough have been looked for."""
        key = (word, kinds)
        if key not in self.known:
            if len(self.known) >= _MOST_SUGGESTIONS:
                return ""
            self.known[key] = did_you_mean(word, names) or "; there is none yet"
        return self.known[key]


def problems(written: Written) -> list[Problem]:
    """Return names that lead nowhere, names given twice, and circles."""
    items = tuple(_items(written))
    return [*_twice(items), *_nowhere(items, _unknowable(written)), *_circles(items)]


def _items(written: Written) -> Iterator[_Item]:
    """Yield everything that has a name or names something, sound or not."""
    documents = written.documents
    for kind in ("animals", "pens", "stays"):
        document = documents.get(f"{kind}.yaml")
        if document is None:
            continue
        for item in _listed(kind, document, (), document.data):
            yield item
            if kind == "pens":
                yield from _in_pen(item)
    document = documents.get("equipment.yaml")
    if document and isinstance(document.data, dict):
        for kind in EQUIPMENT:
            yield from _listed(kind, document, (kind,), document.data.get(kind))


def _in_pen(pen: _Item) -> Iterator[_Item]:
    for kind in IN_PENS:
        inner = pen.data.get(kind)
        if isinstance(inner, dict):
            yield _Item(kind, pen.document, (*pen.path, kind), inner)
        else:
            yield from _listed(kind, pen.document, (*pen.path, kind), inner)


def _listed(kind: str, document: Document, start: Path_, data: Plain) -> Iterator[_Item]:
    for number, item in enumerate(data if isinstance(data, list) else ()):
        if isinstance(item, dict):
            yield _Item(kind, document, (*start, number), item)


def _unknowable(written: Written) -> frozenset[str]:
    """Return the kinds whose names cannot be known, because what lists them is itself wrong."""
    unknown: set[str] = set()
    unread = {problem.place.file for problem in written.problems} - {*written.documents}
    pens, equipment = (written.documents.get(f"{name}.yaml") for name in ("pens", "equipment"))
    if "pens.yaml" in unread or (pens and not isinstance(pens.data, list)):
        unknown |= {"pens", "fans"}
    if equipment is None:
        return frozenset(unknown | set(EQUIPMENT if "equipment.yaml" in unread else ()))
    lists = equipment.data if isinstance(equipment.data, dict) else {}
    all_known = isinstance(equipment.data, dict | None) and lists.keys() <= {
        *EQUIPMENT,
        *_PLAIN,
    }
    if not all_known:
        return frozenset(unknown | set(EQUIPMENT))
    bad = (kind for kind in EQUIPMENT if not isinstance(lists.get(kind), list | None))
    return frozenset(unknown.union(bad))


_PLAIN = ("notes", "private", "picture", "strips_read_from")


def _twice(items: Iterable[_Item]) -> list[Problem]:
    """Return names given twice."""
    first: dict[tuple[str, str], str] = {}
    found = []
    for item in items:
        keys = ("name", "group") if item.kind == "animals" else ("id",)
        key = next((key for key in keys if item.text(key)), None)
        if key is None:
            continue
        name = item.text(key) or ""
        mark = (item.kind if item.kind in SETS_APART else "", name.strip().casefold())
        if mark in first:
            message = f'"{quotable(name)}" is taken ({first[mark]} has it); choose another'
            found.append(item.problem((key,), message))
        else:
            first[mark] = str(item.document.place((*item.path, key)))
    return found


def _nowhere(items: Iterable[_Item], unknowable: frozenset[str]) -> list[Problem]:
    """Return references to what does not exist; where that cannot be known, they pass."""
    names: dict[str, dict[str, None]] = {}
    for item in items:
        names.setdefault(item.kind, {})[item.text("id") or ""] = None
    hints = _Hints()
    found = []
    for item in items:
        for key, kinds in POINTERS.get(item.kind, {}).items():
            if not unknowable.isdisjoint(kinds):
                continue
            for path, word in _words(item, key):
                if any(word in names.get(kind, ()) for kind in kinds):
                    continue
                known = (name for kind in kinds for name in names.get(kind, ()) if name)
                message = f'"{quotable(word)}" is not {_SAID[kinds]}'
                found.append(item.problem(path, message + hints.tail(word, kinds, known)))
    return found


def _words(item: _Item, key: str) -> Iterator[tuple[Path_, str]]:
    """Yield each name at a key, which holds one or a list of them, with its path."""
    value = item.data.get(key)
    if isinstance(value, str):
        yield (key,), value
    for number, word in enumerate(value if isinstance(value, list) else ()):
        if isinstance(word, str):
            yield (key, number), word


def _circles(items: Iterable[_Item]) -> list[Problem]:
    """Return hoses and tanks whose water would have to come from themselves, once a circle."""
    fed: dict[str, tuple[str, _Item]] = {}
    for item in items:
        name, source = item.text("id"), item.text("fed_by")
        if item.kind in WATER and name and source:
            fed.setdefault(name, (source, item))
    found = []
    done: set[str] = set()
    for start in fed:
        chain: dict[str, None] = {}
        name = start
        while name in fed and name not in done and name not in chain:
            chain[name] = None
            name = fed[name][0]
        if name in chain:
            members = list(chain)
            ring = [*members[members.index(name) :], name]
            found.append(fed[name][1].problem(("fed_by",), _ring(ring)))
        done.update(chain)
    return found


def _ring(names: list[str]) -> str:
    """Return the sentence for a circle, shortened where it is long."""
    shown = [quotable(name) for name in names]
    if len(shown) > _LONGEST_RING:
        shown = [*shown[: _LONGEST_RING - 1], "...", shown[-1]]
    chain = f"{shown[0]} is fed by " + ", that by ".join(shown[1:])
    return f"goes in a circle: {chain}; name the tank or water source that it begins with"
