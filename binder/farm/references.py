"""Names that point at something else on the farm: each leads to one thing, in no circle.

All this is read from the files as written, so that an animal whose weight is wrong does not
hide that its pen is wrong too.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder.farm.model.equipment import WATER
from binder.farm.model.lists import LISTS, MODELS, called_by, inner, kinds, pointers
from binder.fit import keys_of
from binder.problems import Problem, did_you_mean, quotable
from binder.yamlfile import named

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from binder.farm.load import Written
    from binder.farm.model import Refers
    from binder.fit import Shape
    from binder.yamlfile import Document, Path_, Plain

# Each has names of its own; all else on the farm shares one set of ids, as its tags do.
SETS_APART = frozenset({"pens", "stays", "animals", "places", "lines"})


def _named_by(model: Shape) -> dict[str, tuple[str, ...]]:
    """Return the keys of a model that name something, and the kinds that it has to be."""
    found = pointers(model, must_exist=True)
    return {key: note.kinds for key, (_, note) in found.items()}


# kind of thing -> the keys that name something else, and the kinds that they may name
POINTERS: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    kind.key: found for kind in kinds() if (found := _named_by(kind.model))
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
    model: Shape

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
    for file, model in MODELS.items():
        document = written.documents.get(f"{file}.yaml")
        if document is not None:
            yield from _held(file, document, (), document.data, model)


def _held(
    kind: str, document: Document, path: Path_, data: Plain, model: Shape
) -> Iterator[_Item]:
    """Yield the items of a kind that stand at a path, alone or in a list, and those inside."""
    if isinstance(data, list):
        for number, each in enumerate(data):
            if isinstance(each, dict):
                yield from _held(kind, document, (*path, number), each, model)
    elif isinstance(data, dict):
        yield _Item(kind, document, path, data, model)
        for key, held in inner(model).items():
            if key in data:
                yield from _held(key, document, (*path, key), data[key], held)


def _unknowable(written: Written) -> frozenset[str]:
    """Return the kinds whose names cannot be known, because what lists them is itself wrong."""
    unread = {problem.place.file for problem in written.problems} - {*written.documents}
    return frozenset(
        kind
        for file, model in MODELS.items()
        for kind in _unlisted(file, model, written, unread)
    )


def _unlisted(file: str, model: Shape, written: Written, unread: set[str]) -> set[str]:
    """Return the kinds of one file whose names cannot be known."""
    everything = {kind.key for kind in kinds() if kind.file == file}
    document = written.documents.get(f"{file}.yaml")
    if document is None:
        return everything if f"{file}.yaml" in unread else set()
    data = document.data
    if isinstance(data, list) if file in LISTS else data is None:
        return set()
    if file in LISTS or not isinstance(data, dict) or not data.keys() <= {*keys_of(model)}:
        return everything
    return {key for key in inner(model) if not isinstance(data.get(key), list | dict | None)}


def _twice(items: Iterable[_Item]) -> list[Problem]:
    """Return names given twice."""
    first: dict[tuple[str, str], str] = {}
    found = []
    for item in items:
        key = next((key for key in called_by(item.model) if item.text(key)), None)
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
        for key, (_, note) in pointers(item.model, must_exist=True).items():
            if not unknowable.isdisjoint(note.kinds):
                continue
            for path, word in _words(item, key):
                if any(word in names.get(kind, ()) for kind in note.kinds):
                    continue
                known = (name for kind in note.kinds for name in names.get(kind, ()) if name)
                message = f'"{quotable(word)}" is not {_said(note)}'
                found.append(item.problem(path, message + hints.tail(word, note.kinds, known)))
    return found


def _said(note: Refers) -> str:
    """Return `a tank or hose in equipment.yaml, nor a fan in pens.yaml`."""
    by_file: dict[str, list[str]] = {}
    for kind in kinds():
        if kind.key in note.kinds:
            word = kind.key.removesuffix("s").replace("_", " ")
            by_file.setdefault(kind.file, []).append(word)
    order = sorted(by_file, key=lambda file: file in LISTS)
    return ", nor ".join(f"a {_or(by_file[file])} in {file}.yaml" for file in order)


def _or(words: list[str]) -> str:
    return " or ".join(part for part in (", ".join(words[:-1]), words[-1]) if part)


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
