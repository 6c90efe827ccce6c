"""How well plain data fits a model, told without the library's own words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import UnionType
from typing import Annotated, Generic, Literal, TypeVar, Union, cast, get_args, get_origin

from pydantic import BaseModel, ValidationError, WithJsonSchema
from pydantic.fields import FieldInfo

from binder.yamlfile import Path_, Plain

Shape = type[BaseModel]
Model = TypeVar("Model", bound=BaseModel)
Sort = Literal["missing", "unknown", "choice", "value", "list", "mapping"]

_SORTS: Mapping[str, Sort] = {
    "missing": "missing",
    "extra_forbidden": "unknown",
    "literal_error": "choice",
    "tuple_type": "list",
    "dict_type": "mapping",
    "model_type": "mapping",
    "value_error": "value",
}


@dataclass(frozen=True, slots=True)
class Mistake:
    """One thing that does not fit a model: where in it, which sort, and our sentence if any."""

    path: Path_
    sort: Sort
    sentence: str = ""


@dataclass(frozen=True, slots=True)
class Fitted(Generic[Model]):
    """What a model made of data.

    Attributes:
        value: the model; where there are mistakes, of what is right in the data, so that more
            can be said about it. None where too little is right.
        mistakes: all that does not fit.
    """

    value: Model | None
    mistakes: tuple[Mistake, ...] = ()


def fit(model: type[Model], data: Plain) -> Fitted[Model]:
    """Return what the model makes of the data. A key with nothing after it is not recorded."""
    blanks: list[Path_] = []
    written = _without_blanks(data, (), blanks)
    unknown = tuple(
        Mistake(path, "unknown")
        for path in blanks
        if (known := keys_of(shape_at(model, path[:-1]))) and path[-1] not in known
    )
    try:
        return Fitted(_read(model, written), unknown)
    except ValidationError as error:
        mistakes = wrong = _mistakes(error)
    for _ in range(3):  # leaving a value out may leave something out that its mapping needs
        written = _without(written, wrong)
        try:
            return Fitted(_read(model, written), unknown + mistakes)
        except ValidationError as error:
            wrong = _mistakes(error)
    return Fitted(None, unknown + mistakes)


def _without_blanks(data: Plain, path: Path_, blanks: list[Path_]) -> Plain:
    """Return data without the keys that have nothing after them, which are noted."""
    if isinstance(data, dict):
        blanks += [(*path, key) for key, each in data.items() if each is None]
        return {
            key: _without_blanks(each, (*path, key), blanks)
            for key, each in data.items()
            if each is not None
        }
    if isinstance(data, list):
        return [_without_blanks(each, (*path, n), blanks) for n, each in enumerate(data)]
    return data


def _read(model: type[Model], data: Plain) -> Model:
    return model.model_validate(data, by_alias=True, by_name=False)


def _mistakes(error: ValidationError) -> tuple[Mistake, ...]:
    return tuple(
        Mistake(
            path=_place(each["type"], each["loc"]),
            sort=_SORTS[each["type"]],
            sentence=str(each.get("ctx", {}).get("error", "")),
        )
        for each in error.errors(include_url=False, include_input=False)
    )


def _place(sort: str, location: Path_) -> Path_:
    """Return the path of what is wrong; the library marks the wrong key of a mapping."""
    return location[:-1] if sort == "literal_error" and location[-1] == "[key]" else location


def _without(data: Plain, mistakes: tuple[Mistake, ...]) -> Plain:
    """Return a copy of the data without what is mistaken, or without what lacks a key."""
    drop = {m.path[:-1] if m.sort == "missing" else m.path for m in mistakes}
    return _copy(data, (), drop)


def _copy(data: Plain, path: Path_, drop: set[Path_]) -> Plain:
    if isinstance(data, dict):
        kept = ((key, each) for key, each in data.items() if (*path, key) not in drop)
        return {key: _copy(each, (*path, key), drop) for key, each in kept}
    if isinstance(data, list):
        numbered = enumerate(data)
        return [_copy(each, (*path, n), drop) for n, each in numbered if (*path, n) not in drop]
    return data


@lru_cache(maxsize=64)
def keys(model: Shape) -> Mapping[str, FieldInfo]:
    """Return the fields of a model by the key that is written.

    Those that it shares with others, from a model that it is built on, stand last.
    """
    fields = {field.alias or name: field for name, field in model.model_fields.items()}
    built_on = (each for each in model.__mro__[1:] if issubclass(each, BaseModel))
    shared = {
        field.alias or name for each in built_on for name, field in each.model_fields.items()
    }
    return dict(sorted(fields.items(), key=lambda item: item[0] in shared))


def keys_of(shape: object) -> tuple[str, ...]:
    """Return the keys that a mapping of a shape may have, none where it is no mapping."""
    if isinstance(shape, type) and issubclass(shape, BaseModel):
        return tuple(keys(shape))
    return get_args(get_args(shape)[0]) if get_origin(shape) is dict else ()


def shape_at(model: Shape, path: Path_) -> object:
    """Return the type expected at a path of YAML keys, None where nothing is."""
    shape: object = model
    for part in path:
        shape = _inner(shape, part)
    return shape


def _inner(shape: object, part: str | int) -> object:
    """Return the type of one part of a type."""
    if isinstance(shape, type) and issubclass(shape, BaseModel):
        field = keys(shape).get(str(part))
        return plain(field.annotation) if field else None
    inside = get_args(shape)
    if get_origin(shape) is dict:
        return plain(inside[1])
    return plain(inside[0]) if get_origin(shape) is tuple else None


def marks_at(model: Shape, path: Path_) -> tuple[object, ...]:
    """Return all that the field at a path says of itself beside its type.

    An item of a list shares what its list says.
    """
    shape: object = model
    marks: tuple[object, ...] = ()
    for part in path:
        if isinstance(shape, type) and issubclass(shape, BaseModel):
            field = keys(shape).get(str(part))
            marks = (*field.metadata, *_marks(field.annotation)) if field else ()
        shape = _inner(shape, part)
    return marks


def _marks(annotation: object) -> tuple[object, ...]:
    """Return what is annotated anywhere in a type."""
    inside = get_args(annotation)
    if get_origin(annotation) is Annotated:
        return (*inside[1:], *_marks(inside[0]))
    return tuple(mark for each in inside for mark in _marks(each))


def example(model: Shape, path: Path_) -> str:
    """Return how the value at a path may be written, empty where nobody can say."""
    holder = cast("Shape", shape_at(model, path[:-1]))
    field = keys(holder)[str(path[-1])]
    if field.examples:
        return str(field.examples[0])
    if get_origin(field.annotation) is Literal:
        return str(get_args(field.annotation)[0])
    schemas = (note.json_schema for note in field.metadata if isinstance(note, WithJsonSchema))
    return next((str(made["examples"][0]) for made in schemas if made), "")


def plain(annotation: object) -> object:
    """Return a type without what is annotated to it, and without `None`."""
    while True:
        if get_origin(annotation) is Annotated:
            annotation = get_args(annotation)[0]
        elif get_origin(annotation) in {Union, UnionType}:
            annotation = next(arg for arg in get_args(annotation) if arg is not type(None))
        else:
            return annotation
