"""What does not fit a model, said in our own words with the place and what would do."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, get_args, get_origin

from binder.fit import example, keys_of, shape_at
from binder.problems import Problem, did_you_mean, quotable
from binder.yamlfile import named, value_at

if TYPE_CHECKING:
    from binder.fit import Mistake, Shape
    from binder.yamlfile import Document, Path_, Plain


NOTHING_MEANT: Mapping[str, str] = MappingProxyType({})


def problem(
    document: Document,
    model: Shape,
    start: Path_,
    mistake: Mistake,
    meant: Mapping[str, str] = NOTHING_MEANT,
) -> Problem:
    """Return the problem of a mistake found in the part of a file that begins at `start`.

    `meant` says of a word in small letters that is none here which of ours it stands for.
    """
    path = (*start, *mistake.path)
    if mistake.sort == "missing":
        return _missing(document, model, path, mistake.path)
    shape = shape_at(model, mistake.path[:-1])
    if mistake.sort == "unknown" or (mistake.sort == "choice" and get_origin(shape) is dict):
        return _not_a_key(document, path, keys_of(shape), meant)
    raw = value_at(document.data, path)
    message = _sentence(mistake, shape_at(model, mistake.path), raw, meant)
    return Problem(document.place(path), named(document.data, path), message)


def _missing(document: Document, model: Shape, path: Path_, inside: Path_) -> Problem:
    """A key that is needed and not there, or there with nothing after it."""
    key = str(path[-1])
    shown = example(model, inside)
    hint = f"; write it like {key}: {shown}" if shown else ""
    parent = value_at(document.data, path[:-1])
    if isinstance(parent, dict) and key in parent:
        where = named(document.data, path)
        return Problem(document.key_place(path), where, f"is empty{hint}")
    where = named(document.data, path[:-1])
    return Problem(document.place(path[:-1]), where, f"{key} is missing{hint}")


def _not_a_key(
    document: Document, path: Path_, choices: tuple[str, ...], meant: Mapping[str, str]
) -> Problem:
    """A key that nothing would read."""
    key = str(path[-1])
    message = f'"{quotable(key)}" is not a key here{_meant(key, choices, meant)}'
    if " " in key and value_at(document.data, path) is None:  # {can: Come, day or night}
        message = f'"{quotable(key)}" stands alone; put text with a comma in it in "quotes"'
    return Problem(document.key_place(path), named(document.data, path[:-1]), message)


def _sentence(mistake: Mistake, shape: object, raw: Plain, meant: Mapping[str, str]) -> str:
    """Return what is wrong with the value `raw` where `shape` is expected."""
    if raw is None:
        return "is empty; write something after the dash, or take the dash away"
    if mistake.sort == "value":
        return mistake.sentence
    if mistake.sort == "choice":
        if not isinstance(raw, str):
            return f"is {_what(raw)}; write {_or(get_args(shape))}"
        return f'"{quotable(raw)}" is not a choice here{_meant(raw, get_args(shape), meant)}'
    if mistake.sort == "list":
        return (
            f"is {_what(raw)}, but a list belongs here; begin each line of it with a dash (-)"
        )
    if isinstance(shape, type):
        first = keys_of(shape)[0]
        return f"is {_what(raw)}, but keys belong here; begin like {first}: ..."
    return f"is {_what(raw)}, but keys belong here, each with a value"


def _meant(word: str, choices: tuple[str, ...], meant: Mapping[str, str]) -> str:
    """Return the hint for a word that is none here: what it means elsewhere, or the nearest."""
    known = meant.get(word.lower())
    if known in choices:
        return f"; did you mean {known}?"
    return did_you_mean(word, choices)


def _what(raw: Plain) -> str:
    if isinstance(raw, list):
        return "a list"
    return "a mapping" if isinstance(raw, dict) else f'"{quotable(str(raw))}"'


def _or(choices: tuple[str, ...]) -> str:
    return ", ".join(choices[:-1]) + f" or {choices[-1]}"
