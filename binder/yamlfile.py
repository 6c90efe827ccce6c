"""Reads one YAML file as text with the place of every value (the only module that knows yaml).

YAML's own guessing is off: `6:30` stays `6:30`, `no` stays `no`, `0123` keeps its nought.
Repeated keys, anchors, aliases, tags and several documents in a file are refused, since each
has turned a right-looking page into a wrong one.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import yaml

from binder.causes import cause
from binder.problems import Place, Problem, ProblemsError, quotable

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

Plain = dict[str, "Plain"] | list["Plain"] | str | None
Path_ = tuple[str | int, ...]

_SHORTER = {"animals.yaml": "write animals that live alike as a group"}
LARGEST_BYTES = 2_000_000  # our choice: a farm of 10,000 single animals is about half of this
DEEPEST = 12  # our choice: the farm folder's own deepest value lies five levels down

# A comment after a value; where there is no value, only a # that touches text is meant as text.
_COMMENT = re.compile(r"[ \t]+(?P<said>#(?P<close>\S)?[^\r\n]*)")

_OFFICE = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")  # how such files begin, new and old

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


@dataclass(frozen=True, slots=True)
class Document:
    """One file: its name as the owner knows it, its values as text, the place of each.

    Attributes:
        name: of the file.
        data: what it says.
        places: where each value stands.
        key_places: where each key stands.
        cut: what stands behind a ` #` after a value without quotes, and so is a comment.
    """

    name: str
    data: Plain
    places: Mapping[Path_, Place]
    key_places: Mapping[Path_, Place]
    cut: Mapping[Path_, str] = field(default_factory=dict)

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
    return parse(text_of(path, label), label)


def read_along(path: Path) -> tuple[Document | None, tuple[Problem, ...]]:
    """Return what can be read of `path` and all that is wrong with it.

    For a reader who wants to know of everything at once: repeated keys do not hide what else
    is wrong with the file. The document is None where there is nothing to go on with.
    """
    try:
        return _compose(text_of(path, path.name), path.name)
    except ProblemsError as error:
        return None, error.problems


def text_of(path: Path, label: str) -> str:
    """Return the file's text without its byte order mark.

    Raises:
        ProblemsError: unreadable file, too large, or not UTF-8; `label` names it.
    """
    if path.exists() and not path.is_file():
        raise _one(Place(label), "is not a file; a plain text file is needed here")
    try:
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_BYTES + 1)
    except OSError as error:
        raise _one(Place(label), f"cannot be read: {error.strerror or error}") from error
    if len(raw) > LARGEST_BYTES:
        advice = _SHORTER.get(path.name, "keep what a sitter may need, and take out the rest")
        raise _one(Place(label), f"is larger than {LARGEST_BYTES:,} bytes; {advice}")
    if raw.startswith(_OFFICE):
        message = "was saved by a spreadsheet or word processor; save it as plain text (UTF-8)"
        raise _one(Place(label), message)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        column = error.start - (raw.rfind(b"\n", 0, error.start) + 1) + 1
        message = "is not UTF-8 text; save it again as UTF-8"
        raise _one(Place(label, line, column), message) from error


def parse(text: str, label: str) -> Document:
    """Return the document in `text`; `label` names it in messages.

    Raises:
        ProblemsError: not YAML, or YAML that we refuse.
    """
    document, problems = _compose(text, label)
    if problems:
        raise ProblemsError(problems)
    return document


def _compose(text: str, label: str) -> tuple[Document, tuple[Problem, ...]]:
    """Return the document and the mistakes that leave the rest of it readable."""
    try:
        _refuse_tricks(text, label)
        root = yaml.compose(text, Loader=_Loader)
    except yaml.MarkedYAMLError as error:
        raise _not_yaml(label, text, error) from error
    except yaml.YAMLError as error:
        message = "holds a character that YAML does not allow"
        raise _one(_reader_place(text, label, error), message) from error
    walker = _Walker(label, text)
    data = walker.value(root, ()) if root is not None else None
    document = Document(label, data, walker.places, walker.key_places, walker.cut)
    problems = (
        Problem(place, named(data, path), message) for place, path, message in walker.mistakes
    )
    return document, tuple(problems)


def _refuse_tricks(text: str, label: str) -> None:
    """Raise for what we refuse, all of it at once, before a tree is built."""
    found: list[Problem] = []
    depth = documents = 0
    for event in yaml.parse(text, Loader=_Loader):
        place = _mark(label, event.start_mark)
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1
        elif isinstance(event, yaml.DocumentStartEvent):
            documents += 1
        refusal = _refusal(event, depth, documents)
        if refusal:
            found.append(Problem(place, "", refusal))
        if depth > DEEPEST:
            break
    if found:
        raise ProblemsError(found)


def _refusal(event: yaml.Event, depth: int, documents: int) -> str:
    """Return why an event is refused, empty where it is not."""
    if isinstance(event, yaml.DocumentStartEvent) and documents > 1:
        return "starts a second document; keep one list or mapping in a file"
    if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
        return 'uses an anchor or alias (& or *); write the value out, or put it in "quotes"'
    if getattr(event, "tag", None):
        return 'uses a tag (!); write the value without it, or put it in "quotes"'
    if depth > DEEPEST:
        return f"is nested more than {DEEPEST} levels deep; check the brackets and indents"
    return ""


class _Walker:
    """Turns yaml's nodes into plain values, noting places and repeated keys on the way."""

    def __init__(self, label: str, text: str) -> None:
        self.label = label
        self.text = text
        self.cut: dict[Path_, str] = {}
        self.places: dict[Path_, Place] = {}
        self.key_places: dict[Path_, Place] = {}
        self.mistakes: list[tuple[Place, Path_, str]] = []

    def value(self, node: yaml.Node, path: Path_) -> Plain:
        """Return the plain value of `node` and remember its place under `path`."""
        self.places[path] = _mark(self.label, node.start_mark)
        if isinstance(node, yaml.MappingNode):
            return self._mapping(node, path)
        if isinstance(node, yaml.SequenceNode):
            return [self.value(item, (*path, index)) for index, item in enumerate(node.value)]
        return self._scalar(node, path)

    def _scalar(self, node: yaml.Node, path: Path_) -> Plain:
        text = str(node.value)
        if getattr(node, "style", None):
            return text
        comment = _COMMENT.match(self.text, node.end_mark.index)
        if comment and (text or comment["close"]):
            self.cut[path] = comment["said"].strip()
        return None if text in {"", "~"} else text

    def _mapping(self, node: yaml.MappingNode, path: Path_) -> Plain:
        found: dict[str, Plain] = {}
        for key_node, value_node in node.value:
            place = _mark(self.label, key_node.start_mark)
            if not isinstance(key_node, yaml.ScalarNode):
                self.mistakes.append((place, path, "a list or mapping cannot be a key"))
                continue
            key = str(key_node.value)
            here = (*path, key)
            if key in found:
                first = self.key_places[here]
                message = f'"{key}" is written twice; it stands already in line {first.line}'
                self.mistakes.append((place, path, message))
                continue
            self.key_places[here] = place
            found[key] = self.value(value_node, here)
        return found


def value_at(data: Plain, path: Path_) -> Plain:
    """Return the value at a path, None where there is none."""
    for part in path:
        if isinstance(data, dict) and isinstance(part, str):
            data = data.get(part)
        elif isinstance(data, list) and isinstance(part, int) and part < len(data):
            data = data[part]
        else:
            return None
    return data


def named(data: Plain, path: Path_) -> str:
    """Return `creek > wallow > depth`: list items by id, name or group, else by number."""
    parts = []
    for part in path:
        data = value_at(data, (part,))
        parts.append(part if isinstance(part, str) else _called(data) or str(part + 1))
    return " > ".join(quotable(part) for part in parts)


def _called(item: Plain) -> str:
    """Return what the owner calls a list item, empty where it has no name."""
    if not isinstance(item, dict):
        return ""
    names = (item.get(key) for key in ("id", "name", "group"))
    return next((name for name in names if isinstance(name, str) and name.strip()), "")


def _mark(label: str, mark: object) -> Place:
    """Return the place of a yaml mark (0-based there, 1-based for people)."""
    line, column = getattr(mark, "line", None), getattr(mark, "column", None)
    if line is None or column is None:
        return Place(label)
    return Place(label, line + 1, column + 1)


def _reader_place(text: str, label: str, error: yaml.YAMLError) -> Place:
    position = getattr(error, "position", None)
    if not isinstance(position, int) or position < 0:
        return Place(label)
    before = text[:position]
    return Place(label, before.count("\n") + 1, position - (before.rfind("\n") + 1) + 1)


_AT_THE_BEGINNING = ("expected ':'", "end of stream")  # the parser notices these too late


def _not_yaml(label: str, text: str, error: yaml.MarkedYAMLError) -> ProblemsError:
    """Return the parser's complaint in our own words."""
    what = " ".join(part for part in (error.context, error.problem) if part)
    mark = error.problem_mark or error.context_mark
    if any(sign in what for sign in _AT_THE_BEGINNING) and error.context_mark:
        mark = error.context_mark
    place = _mark(label, mark)
    lines = text.splitlines()
    line = lines[place.line - 1] if 0 < place.line <= len(lines) else ""
    if line[place.column - 1 : place.column] == "\t":
        what = "tab character"
    return _one(place, cause(what))


def _one(place: Place, message: str) -> ProblemsError:
    return ProblemsError([Problem(place, "", message)])
