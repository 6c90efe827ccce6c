"""Reads one YAML file as text with the place of every value (the only module that knows yaml).

YAML's own guessing is off: `6:30` stays `6:30`, `no` stays `no`, `0123` keeps its nought. Repeated
keys, anchors, aliases, tags and several documents in a file are refused, since each has turned a
right-looking page into a wrong one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import yaml

from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

Plain = dict[str, "Plain"] | list["Plain"] | str | None
Path_ = tuple[str | int, ...]

LARGEST_BYTES = 2_000_000  # our choice: a farm of 10,000 single animals is about half of this
DEEPEST = 12  # our choice: the farm folder's own deepest value lies five levels down

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Document:
    """One file: its name as the owner knows it, its values as text, the place of each."""

    name: str
    data: Plain
    places: Mapping[Path_, Place]
    key_places: Mapping[Path_, Place]

    def place(self, path: Path_) -> Place:
        """Return the place of the value at `path`, or of the nearest one that encloses it."""
        while path and path not in self.places:
            path = path[:-1]
        return self.places.get(path, Place(self.name))

    def key_place(self, path: Path_) -> Place:
        """Return the place of the key that names `path` (of its value where it has none)."""
        return self.key_places.get(path) or self.place(path)


def read(path: Path, name: str | None = None) -> Document:
    """Return the document in `path`.

    Raises:
        ProblemsError: unreadable file, not UTF-8, not YAML, or YAML that we refuse.
    """
    label = name or path.name
    return parse(_text(path, label), label)


def _text(path: Path, label: str) -> str:
    """Return the file's text without its byte order mark; say why when there is none."""
    try:
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_BYTES + 1)
    except OSError as error:
        raise _one(Place(label), f"cannot be read: {error.strerror or error}") from error
    if len(raw) > LARGEST_BYTES:
        raise _one(Place(label), f"is larger than {LARGEST_BYTES:,} bytes; split the list of animals into groups")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        column = error.start - (raw.rfind(b"\n", 0, error.start) + 1) + 1
        raise _one(Place(label, line, column), "is not UTF-8 text; save it again as UTF-8") from error


def parse(text: str, label: str) -> Document:
    """Return the document in `text`; `label` names it in messages.

    Raises:
        ProblemsError: not YAML, or YAML that we refuse.
    """
    try:
        _refuse_tricks(text, label)
        root = yaml.compose(text, Loader=_Loader)
    except yaml.MarkedYAMLError as error:
        raise _one(_mark(label, error.problem_mark or error.context_mark), _plain(error)) from error
    except yaml.YAMLError as error:
        raise _one(_reader_place(text, label, error), "holds a character that YAML does not allow") from error
    walker = _Walker(label)
    data = walker.value(root, ()) if root is not None else None
    if walker.problems:
        raise ProblemsError(walker.problems)
    return Document(label, data, walker.places, walker.key_places)


def _refuse_tricks(text: str, label: str) -> None:
    """Raise for anchors, aliases, tags, deep nesting and second documents, before building a tree."""
    depth = documents = 0
    for event in yaml.parse(text, Loader=_Loader):
        place = _mark(label, event.start_mark)
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents > 1:
                raise _one(place, "starts a second document; keep one list or mapping in a file")
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _one(place, "uses an anchor or alias (& or *); write the values out instead")
        if getattr(event, "tag", None):
            raise _one(place, "uses a tag (!); write the value without it")
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
            if depth > DEEPEST:
                raise _one(place, f"is nested more than {DEEPEST} levels deep; check the brackets and indents")
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1


class _Walker:
    """Turns yaml's nodes into plain values, noting places and repeated keys on the way."""

    def __init__(self, label: str) -> None:
        self.label = label
        self.places: dict[Path_, Place] = {}
        self.key_places: dict[Path_, Place] = {}
        self.problems: list[Problem] = []

    def value(self, node: yaml.Node, path: Path_) -> Plain:
        """Return the plain value of `node` and remember its place under `path`."""
        self.places[path] = _mark(self.label, node.start_mark)
        if isinstance(node, yaml.MappingNode):
            return self._mapping(node, path)
        if isinstance(node, yaml.SequenceNode):
            return [self.value(item, (*path, index)) for index, item in enumerate(node.value)]
        text = str(node.value)
        plain_and_empty = node.style is None and text in {"", "~"}
        return None if plain_and_empty else text

    def _mapping(self, node: yaml.MappingNode, path: Path_) -> Plain:
        found: dict[str, Plain] = {}
        for key_node, value_node in node.value:
            place = _mark(self.label, key_node.start_mark)
            if not isinstance(key_node, yaml.ScalarNode):
                self.problems.append(Problem(place, _path(path), "a list or mapping cannot be a key"))
                continue
            key = str(key_node.value)
            here = (*path, key)
            if key in found:
                first = self.key_places[here]
                message = f'"{key}" is written twice; it stands already in line {first.line}'
                self.problems.append(Problem(place, _path(path), message))
                continue
            self.key_places[here] = place
            found[key] = self.value(value_node, here)
        return found


def _path(path: Path_) -> str:
    return " > ".join(str(part + 1) if isinstance(part, int) else part for part in path)


def _mark(label: str, mark: object) -> Place:
    """Return the place of a yaml mark (0-based there, 1-based for people)."""
    line, column = getattr(mark, "line", None), getattr(mark, "column", None)
    return Place(label) if line is None or column is None else Place(label, line + 1, column + 1)


def _reader_place(text: str, label: str, error: yaml.YAMLError) -> Place:
    position = getattr(error, "position", None)
    if not isinstance(position, int) or position < 0:
        return Place(label)
    before = text[:position]
    return Place(label, before.count("\n") + 1, position - (before.rfind("\n") + 1) + 1)


def _plain(error: yaml.MarkedYAMLError) -> str:
    """Return the parser's complaint as one sentence with the usual cause."""
    what = " ".join(part for part in (error.context, error.problem) if part)
    if "\\t" in what or "'\\t'" in what:
        return "a tab stands where YAML wants spaces; indent with spaces only"
    return f"is not valid YAML here ({what}); check the indents, colons and quotes around this line"


def _one(place: Place, message: str) -> ProblemsError:
    return ProblemsError([Problem(place, "", message)])
