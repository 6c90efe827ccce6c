"""Which files there are and which kinds of thing stand where in them, read off the models."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, get_args, get_origin

from binder.farm.model.about import FarmFile
from binder.farm.model.animals import Animal
from binder.farm.model.equipment import EquipmentFile
from binder.farm.model.pens import Pen
from binder.farm.model.people import Contact, PrivateFile, Stay
from binder.farm.model.refers import Refers
from binder.farm.model.thing import Thing
from binder.fit import keys, marks_at, plain

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from binder.fit import Shape
    from binder.yamlfile import Path_

    Things = type[Thing]

# file without its ending -> the model of the whole file, or of one item where it is a list
MODELS: Mapping[str, Things] = MappingProxyType(
    {
        "farm": FarmFile,
        "animals": Animal,
        "pens": Pen,
        "equipment": EquipmentFile,
        "contacts": Contact,
        "stays": Stay,
        "private": PrivateFile,
    }
)
LISTS = frozenset({"animals", "pens", "contacts", "stays"})
_NAMES = ("id", "name", "group")  # what a thing is called by, the first of them that it has


@dataclass(frozen=True, slots=True)
class KindOfThing:
    """A kind of thing, called by the key (or file) under which its things stand.

    Attributes:
        key: as the owner writes it: `hoses`, `wallow`.
        file: the farm file it stands in, without its ending.
        model: what one of them is.
    """

    key: str
    file: str
    model: Things


def kinds(models: Mapping[str, Things] | None = None) -> tuple[KindOfThing, ...]:
    """Return every kind of thing on a farm, outer ones before those inside them."""
    return tuple(
        kind
        for file, model in (models or MODELS).items()
        for kind in _with_inner(KindOfThing(file, file, model))
    )


def _with_inner(kind: KindOfThing) -> Iterator[KindOfThing]:
    yield kind
    for key, model in inner(kind.model).items():
        yield from _with_inner(KindOfThing(key, kind.file, model))


def marked(file: str, path: Path_, mark: type) -> bool:
    """Return whether the field at a path in a file (with its ending) is so marked."""
    stem = file.removesuffix(".yaml")
    inside = path[1:] if stem in LISTS else path
    found = marks_at(MODELS[stem], inside) if stem in MODELS else ()
    return any(isinstance(each, mark) for each in found)


@lru_cache(maxsize=64)
def inner(model: Shape) -> Mapping[str, Things]:
    """Return what a thing holds other things under, by key: alone, in a list or by a word."""
    found = {key: _thing(field.annotation) for key, field in keys(model).items()}
    return {key: thing for key, thing in found.items() if thing is not None}


def _thing(annotation: object) -> Things | None:
    shape = plain(annotation)
    if get_origin(shape) in {tuple, dict}:
        shape = plain(get_args(shape)[0 if get_origin(shape) is tuple else -1])
    return shape if isinstance(shape, type) and issubclass(shape, Thing) else None


@lru_cache(maxsize=64)
def pointers(model: Shape, *, must_exist: bool = False) -> Mapping[str, tuple[str, Refers]]:
    """Return the fields of a model that name something, by key: the field and what it names.

    With `must_exist` only those whose name has to stand in one of the lists.
    """
    return {
        field.alias or name: (name, note)
        for name, field in model.model_fields.items()
        for note in field.metadata
        if isinstance(note, Refers) and note.must_exist >= must_exist
    }


@lru_cache(maxsize=64)
def called_by(model: Shape) -> tuple[str, ...]:
    """Return the keys that a thing is named by: its id, or else the name or the group."""
    found = tuple(key for key in _NAMES if key in model.model_fields)
    return found[:1] if found[:1] == ("id",) else found
