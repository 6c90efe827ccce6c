"""Figures inside a result, however deep: all of them, or marked as those of another day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from binder.figures.figure import Figure

Result = TypeVar("Result")


def every(thing: object) -> Iterator[Figure]:
    """Yield every figure inside a result, however deep, in its order."""
    if isinstance(thing, Figure):
        yield thing
    elif is_dataclass(thing) and not isinstance(thing, type):
        for each in fields(thing):
            yield from every(getattr(thing, each.name))
    elif isinstance(thing, Mapping):
        for value in thing.values():
            yield from every(value)
    elif isinstance(thing, tuple | list):
        for value in thing:
            yield from every(value)


def restated(thing: Result, known: Mapping[str, Figure], mark: str) -> Result:
    """Return a result of another day, its figures told apart from those of the binder's day.

    A figure that is the same on both days stays one figure; another gets `mark` behind its
    subject, so that its working is found under a key of its own.

    Args:
        thing: a result with figures in it, of the other day.
        known: the figures of the binder's day, by key.
        mark: what tells the other day, such as the id of a stay.
    """
    changed: Any = thing
    if isinstance(thing, Figure):
        same = known.get(thing.key) == thing
        changed = thing if same else replace(thing, subject=f"{thing.subject} {mark}".strip())
    elif is_dataclass(thing) and not isinstance(thing, type):
        each = {one.name: getattr(thing, one.name) for one in fields(thing)}
        new = {name: restated(value, known, mark) for name, value in each.items()}
        if any(new[name] is not each[name] for name in each):
            changed = replace(thing, **new)
    elif isinstance(thing, Mapping):
        changed = {key: restated(value, known, mark) for key, value in thing.items()}
    elif isinstance(thing, tuple):
        changed = tuple(restated(value, known, mark) for value in thing)
    return changed  # type: ignore[no-any-return]
