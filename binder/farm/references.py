"""Names that point at something else on the farm: each must lead to one thing, and in no circle."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder.farm.load import PICTURES
from binder.problems import Place, Problem, did_you_mean, quotable
from binder.yamlfile import named

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from binder.farm.load import Written
    from binder.yamlfile import Document, Path_, Plain

WATER = ("water_sources", "tanks", "hoses")
POWERED = ("water_sources", "circuits", "fans")
# What a key points at. A cord may feed a fan, a pump or a circuit, and so may a generator.
TARGETS: dict[str, tuple[str, ...]] = {
    "pen": ("pens",),
    "feed": ("feeds",),
    "fed_by": WATER,
    "circuit": ("circuits",),
    "feeds": POWERED,
    "runs": POWERED,
}
_SAID = {
    "pens": "a pen in pens.yaml",
    "feeds": "a feed in equipment.yaml",
    "circuits": "a circuit in equipment.yaml",
    "water": "a water source, tank or hose in equipment.yaml",
    "power": "a water source, circuit or fan",
}
_MOST_SUGGESTIONS = 200  # our choice: looking for the nearest of many names takes time


@dataclass(frozen=True, slots=True)
class _Named:
    """An id or name where it stands."""

    kind: str
    name: str
    document: Document
    path: Path_


@dataclass(slots=True)
class _Hints:
    """The nearest name to each misspelt one, each looked for once."""

    known: dict[tuple[str, tuple[str, ...]], str] = field(default_factory=dict)

    def tail(self, word: str, kinds: tuple[str, ...], names: Iterable[str]) -> str:
        """Return `; did you mean creek?` or nothing once enough have been looked for."""
        key = (word, kinds)
        if key not in self.known:
            if len(self.known) >= _MOST_SUGGESTIONS:
                return ""
            self.known[key] = did_you_mean(word, names)
        return self.known[key]


def problems(written: Written) -> list[Problem]:
    """Return names that lead nowhere, names given twice, circles and pictures that are not there."""
    things = list(_things(written))
    return [
        *_twice(things),
        *_nowhere(written, things),
        *_circles(written),
        *_pictures(written),
    ]


def _things(written: Written) -> Iterator[_Named]:
    """Yield everything that has an id or a name of its own, also where the rest of it is wrong."""
    documents = written.documents
    for file, kind, keys in (
        ("pens.yaml", "pens", ("id",)),
        ("stays.yaml", "stays", ("id",)),
        ("animals.yaml", "animals", ("name", "group")),
    ):
        if file in documents:
            yield from _ids(documents[file], (), kind, keys)
    if "pens.yaml" in documents:
        document = documents["pens.yaml"]
        for start, pen in _items(document.data, ()):
            for kind in ("drinkers", "fans"):
                yield from _ids(document, (*start, kind), kind, ("id",))
            wallow = pen.get("wallow")
            if isinstance(wallow, dict) and isinstance(wallow.get("id"), str):
                yield _Named("wallows", str(wallow["id"]), document, (*start, "wallow", "id"))
    if "equipment.yaml" in documents:
        document = documents["equipment.yaml"]
        for kind in document.data if isinstance(document.data, dict) else ():
            yield from _ids(document, (kind,), kind, ("id",))


def _ids(
    document: Document, start: Path_, kind: str, keys: tuple[str, ...]
) -> Iterator[_Named]:
    for path, item in _items(document.data, start):
        for key in keys:
            name = item.get(key)
            if isinstance(name, str):
                yield _Named(kind, name, document, (*path, key))
                break


def _items(data: Plain, start: Path_) -> Iterator[tuple[Path_, dict[str, Plain]]]:
    """Yield the mappings in the list that stands at `start`."""
    for part in start:
        if isinstance(data, dict) and isinstance(part, str):
            data = data.get(part)
        elif isinstance(data, list) and isinstance(part, int):
            data = data[part]
    if isinstance(data, list):
        for number, item in enumerate(data):
            if isinstance(item, dict):
                yield (*start, number), item


_OWN_NAMES = frozenset({"pens", "stays", "animals"})


def _twice(things: Iterable[_Named]) -> list[Problem]:
    """Return ids given twice. All that stands on the farm shares one set of ids, as its tags do."""
    first: dict[tuple[str, str], _Named] = {}
    found = []
    for thing in things:
        among = thing.kind if thing.kind in _OWN_NAMES else "equipment"
        key = (among, thing.name.casefold())
        if key not in first:
            first[key] = thing
            continue
        place = first[key].document.place(first[key].path)
        message = f'"{quotable(thing.name)}" is taken: {place} has it already; choose another'
        where = thing.document.place(thing.path)
        found.append(Problem(where, named(thing.document.data, thing.path), message))
    return found


def _nowhere(written: Written, things: Iterable[_Named]) -> list[Problem]:
    """Return references to what does not exist; those into a file that cannot be read pass."""
    names: dict[str, dict[str, None]] = {}
    for thing in things:
        names.setdefault(thing.kind, {})[thing.name] = None
    unread = {
        kind
        for file, kinds in (("pens.yaml", ("pens", "fans")), ("equipment.yaml", _EQUIPMENT))
        if any(problem.place.file == file and file not in written.documents
               for problem in written.problems)
        for kind in kinds
    }  # fmt: skip
    hints = _Hints()
    found = []
    for document, path, key, word in _references(written):
        kinds = TARGETS[key]
        if unread.intersection(kinds) or any(word in names.get(kind, ()) for kind in kinds):
            continue
        known = [name for kind in kinds for name in names.get(kind, ())]
        message = f'"{quotable(word)}" is not {_target(kinds)}'
        message += hints.tail(word, kinds, known) if known else "; there is none yet"
        found.append(Problem(document.place(path), named(document.data, path), message))
    return found


_EQUIPMENT = ("water_sources", "tanks", "hoses", "circuits", "feeds")


def _target(kinds: tuple[str, ...]) -> str:
    if kinds == WATER:
        return _SAID["water"]
    return _SAID["power"] if kinds == POWERED else _SAID[kinds[0]]


def _references(written: Written) -> Iterator[tuple[Document, Path_, str, str]]:
    """Yield document, path, key and word of everything that names something else."""
    documents = written.documents
    animals, pens = documents.get("animals.yaml"), documents.get("pens.yaml")
    if animals:
        for path, item in _items(animals.data, ()):
            yield from _words(animals, path, item, ("pen", "feed"))
    if pens:
        for path, pen in _items(pens.data, ()):
            wallow = pen.get("wallow")
            if isinstance(wallow, dict):
                yield from _words(pens, (*path, "wallow"), wallow, ("fed_by",))
            for list_, key in (("drinkers", "fed_by"), ("fans", "circuit")):
                for inner, item in _items(pens.data, (*path, list_)):
                    yield from _words(pens, inner, item, (key,))
    equipment = documents.get("equipment.yaml")
    if equipment:
        for list_, key in (
            ("tanks", "fed_by"),
            ("hoses", "fed_by"),
            ("water_sources", "circuit"),
            ("cords", "feeds"),
            ("generators", "runs"),
        ):
            for path, item in _items(equipment.data, (list_,)):
                yield from _words(equipment, path, item, (key,))


def _words(
    document: Document, path: Path_, item: dict[str, Plain], keys: tuple[str, ...]
) -> Iterator[tuple[Document, Path_, str, str]]:
    for key in keys:
        value = item.get(key)
        if isinstance(value, str):
            yield document, (*path, key), key, value
        elif isinstance(value, list):
            for number, word in enumerate(value):
                if isinstance(word, str):
                    yield document, (*path, key, number), key, word


def _circles(written: Written) -> list[Problem]:
    """Return hoses and tanks whose water would have to come from themselves, one a circle."""
    document = written.documents.get("equipment.yaml")
    if document is None:
        return []
    feeds: dict[str, tuple[str, Path_]] = {}
    for kind in ("tanks", "hoses"):
        for path, item in _items(document.data, (kind,)):
            name, source = item.get("id"), item.get("fed_by")
            if isinstance(name, str) and isinstance(source, str):
                feeds.setdefault(name, (source, (*path, "fed_by")))
    found = []
    done: set[str] = set()
    for start in feeds:
        chain: dict[str, None] = {}
        name = start
        while name in feeds and name not in done and name not in chain:
            chain[name] = None
            name = feeds[name][0]
        if name in chain:
            ring = [*list(chain)[list(chain).index(name):], name]  # fmt: skip
            path = feeds[name][1]
            message = f"{_ring(ring)}: a circle; name the water source it comes from"
            found.append(Problem(document.place(path), named(document.data, path), message))
        done.update(chain)
    return found


def _ring(names: list[str]) -> str:
    """Return `h1 is fed by h2, which is fed by h1`, shortened where the circle is long."""
    shown = [*names[:4], names[-1]] if len(names) > 6 else names
    shown = [quotable(name) for name in shown]
    return f"{shown[0]} is fed by " + ", which is fed by ".join(shown[1:])


def _pictures(written: Written) -> list[Problem]:
    """Return pictures that are named and not there, and those that cannot be printed."""
    used: set[str] = set()
    found = []
    for document in written.documents.values():
        for path, name in _picture_names(document.data, ()):
            used.add(name)
            picture = written.pictures.get(name)
            if picture is not None and not picture.fault:
                continue
            message = (
                f'"{quotable(name)}" is not in {PICTURES}/'
                + (did_you_mean(name, written.pictures) if len(written.pictures) < 500 else "")
                if picture is None
                else f'"{quotable(name)}" {picture.fault}'
            )
            found.append(Problem(document.place(path), named(document.data, path), message))
    for name, picture in written.pictures.items():
        if picture.fault and name not in used and name.lower().endswith((".png", ".jpg", ".jpeg")):
            found.append(Problem(Place(f"{PICTURES}/{quotable(name)}"), "", picture.fault))
    return found


def _picture_names(data: Plain, path: Path_) -> Iterator[tuple[Path_, str]]:
    """Yield what every `picture` key of a file names."""
    if isinstance(data, list):
        for number, item in enumerate(data):
            yield from _picture_names(item, (*path, number))
    elif isinstance(data, dict):
        for key, item in data.items():
            if key == "picture" and isinstance(item, str):
                yield (*path, key), item
            else:
                yield from _picture_names(item, (*path, key))
