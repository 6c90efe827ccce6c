"""Figures inside a result, however deep: all of them, or marked as those of another day."""

from __future__ import annotations

import datetime as dt
from dataclasses import fields, is_dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Any, TypeVar

from binder.figures.figure import Figure

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

Result = TypeVar("Result")
# Most of what a result holds: hours by the ten thousand, which nobody needs to look into.
_PLAIN = frozenset({int, float, str, bool, type(None), dt.date})
APART = "apart"  # in a field's metadata: figures of their own, not of this result


@lru_cache(maxsize=256)
def _fields(kind: type[Any]) -> tuple[str, ...]:
    """Return the names of a dataclass's fields, none for any other type."""
    if not is_dataclass(kind):
        return ()
    return tuple(field.name for field in fields(kind) if not field.metadata.get(APART))


def every(thing: object) -> Iterator[Figure]:
    """Return every figure inside a result, however deep, in its order."""
    found: list[Figure] = []
    _collect((thing,), found, set())
    return iter(found)


def _collect(things: Iterable[Any], found: list[Figure], barren: set[int]) -> None:
    """Add the figures inside some things; `barren` are those that are known to hold none."""
    for thing in things:
        kind: Any = type(thing)
        if kind in _PLAIN or id(thing) in barren:
            continue
        before = len(found)
        if isinstance(thing, Figure):
            found.append(thing)
        elif isinstance(thing, tuple | list):
            _collect(thing, found, barren)
        elif isinstance(thing, dict):
            _collect(thing.values(), found, barren)
        else:
            _collect([getattr(thing, name) for name in _fields(kind)], found, barren)
        if len(found) == before:
            barren.add(id(thing))


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
    kind: Any = type(thing)
    if isinstance(thing, Figure):
        same = known.get(thing.key) == thing
        changed = thing if same else replace(thing, subject=f"{thing.subject} {mark}".strip())
    elif isinstance(thing, dict):
        changed = {key: restated(value, known, mark) for key, value in thing.items()}
    elif isinstance(thing, tuple):
        changed = tuple(restated(value, known, mark) for value in thing)
    elif names := _fields(kind):
        new = {name: restated(getattr(thing, name), known, mark) for name in names}
        changed = replace(changed, **new)
    return changed  # type: ignore[no-any-return]
