"""What does not fit a model, said in our own words with the place and what would do."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, get_args, get_origin

from binder.farm.model import example, field_at, keys, shape_at
from binder.problems import Problem, did_you_mean, quotable
from binder.yamlfile import named

if TYPE_CHECKING:
    from binder.farm.model import Mistake, Shape
    from binder.yamlfile import Document, Path_, Plain


def problem(
    document: Document, model: Shape, start: Path_, mistake: Mistake
) -> Problem:
    """Return what is wrong, for a mistake found in the part of `document` that begins at `start`."""
    path = (*start, *mistake.path)
    if mistake.sort == "missing":
        return _missing(document, model, path, mistake.path)
    if mistake.sort == "unknown":
        return _unknown(document, model, path, mistake.path)
    choices = _key_choices(model, mistake.path) if mistake.sort == "choice" else ()
    if choices:
        message = f'"{quotable(str(path[-1]))}" is not a key here'
        message += did_you_mean(str(path[-1]), choices)
        return Problem(document.key_place(path), named(document.data, path[:-1]), message)
    raw = value_at(document.data, path)
    return Problem(
        document.place(path), named(document.data, path), _sentence(model, mistake, raw)
    )


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


def _missing(
    document: Document, model: Shape, path: Path_, inside: Path_
) -> Problem:
    """A key that is needed and not there, or there with nothing after it."""
    key = str(path[-1])
    field = field_at(model, inside)
    shown = _example(field)
    parent = value_at(document.data, path[:-1])
    if isinstance(parent, dict) and key in parent:
        message = "is empty" + (f"; write it like {key}: {shown}" if shown else "")
        return Problem(document.key_place(path), named(document.data, path), message)
    message = f"{key} is missing" + (f"; write it like {key}: {shown}" if shown else "")
    return Problem(document.place(path[:-1]), named(document.data, path[:-1]), message)


def _unknown(
    document: Document, model: Shape, path: Path_, inside: Path_
) -> Problem:
    """A key that the model does not have."""
    shape = shape_at(model, inside[:-1])
    choices = tuple(keys(shape)) if isinstance(shape, type) else ()
    key = str(path[-1])
    message = f'"{quotable(key)}" is not a key here{did_you_mean(key, choices)}'
    return Problem(document.key_place(path), named(document.data, path[:-1]), message)


def _key_choices(model: Shape, inside: Path_) -> tuple[str, ...]:
    """Return the keys to choose from where a path ends in one of a fixed set of keys."""
    shape = shape_at(model, inside[:-1])
    return get_args(get_args(shape)[0]) if get_origin(shape) is dict else ()


def _example(field: object) -> str:
    found = getattr(field, "examples", None)
    if found:
        return str(found[0])
    return example(getattr(field, "annotation", None))


def _sentence(model: Shape, mistake: Mistake, raw: Plain) -> str:
    """Return what is wrong with the value `raw`."""
    if raw is None:
        return "is empty; write a value, or take the dash away"
    if mistake.sort == "value":
        return mistake.sentence or "is not understood here"
    shape = shape_at(model, mistake.path)
    if mistake.sort == "choice" and isinstance(raw, str):
        choices = get_args(shape) if get_origin(shape) is Literal else ()
        return f'"{quotable(raw)}" is not a choice here{did_you_mean(raw, choices)}'
    if mistake.sort == "list":
        return f"{_what(raw)}, but a list belongs here; begin each line of it with a dash (-)"
    if mistake.sort == "mapping":
        first = next(iter(keys(shape)), "") if isinstance(shape, type) else ""
        hint = f"; write keys below it, like {first}: ..." if first else ""
        return f"{_what(raw)}, but keys and values belong here{hint}"
    if mistake.sort == "long" and isinstance(raw, str):
        return f"is {len(raw):,} characters long, which is more than fits; shorten it"
    if mistake.sort == "empty":
        return "is empty; write something, or take the key away"
    return f"{_what(raw)}, but one line of text belongs here"


def _what(raw: Plain) -> str:
    if isinstance(raw, list):
        return "is a list"
    return "is a mapping" if isinstance(raw, dict) else f'"{quotable(str(raw))}" is a single value'
