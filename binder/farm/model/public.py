"""The farm without what the owner marked `private: true`: all that screens ever get to know.

Pages for the site and the phone are made from this farm alone, so that nothing private can slip
in by way of a list, a sum, a title or the search. What it leaves out, the print shows. Which
fields name something else, and what stands in for what is withheld, is said on the fields
(`Refers`, `Withheld`).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from binder.farm.model.lists import called_by, pointers
from binder.farm.model.refers import Refers, Withheld
from binder.farm.model.thing import Thing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.model import Farm

    Gone = dict[str, set[str]]  # kind of thing -> small letters of the names that are left out

_Thing = TypeVar("_Thing", bound=Thing)


def public(farm: Farm) -> Farm:
    """Return the farm without its private things and its codes; itself where it has none.

    Animals of a private pen stay, without a pen; what named a private thing names nothing, and
    what cannot be without it is left out as well.
    """
    gone: Gone = {}
    parts, known = _parts(farm, gone), 0
    while (size := sum(map(len, gone.values()))) != known:
        parts, known = _parts(farm, gone), size
    found = farm.model_copy(
        update={part: _freed_from(value, gone) for part, value in parts.items()}
    )
    return farm if found == farm else found.model_copy(update={"codes": ()})


def _parts(farm: Farm, gone: Gone) -> dict[str, object]:
    """Return each part of the farm without what is hidden as far as `gone` is known."""
    return {part: _open(part, getattr(farm, part), gone) for part in type(farm).model_fields}


def amounts_differ(farm: Farm, shown: Farm) -> bool:
    """Return whether the public part of a farm lacks animals or things that count."""
    return any(
        getattr(farm, part) != getattr(shown, part) for part in ("animals", "pens", "equipment")
    )


def _open(kind: str, value: object, gone: Gone) -> object:
    """Return what a field holds without what is hidden of it, whose names go into `gone`."""
    if isinstance(value, Thing):
        return _blank(type(value), value) if _hides(kind, value, gone) else _inside(value, gone)
    if isinstance(value, tuple):
        return tuple(
            _inside(each, gone) if isinstance(each, Thing) else each
            for each in value
            if not (isinstance(each, Thing) and _hides(kind, each, gone))
        )
    if isinstance(value, dict):
        return {
            key: _inside(each, gone) if isinstance(each, Thing) else each
            for key, each in value.items()
            if not (isinstance(each, Thing) and _hides(kind, each, gone))
        }
    return value


def _inside(thing: _Thing, gone: Gone) -> _Thing:
    """Return a thing without what is hidden inside it."""
    changed: dict[str, object] = {}
    for name, field in type(thing).model_fields.items():
        value = getattr(thing, name)
        shown = _open(field.alias or name, value, gone)
        if shown != value:
            may_be_none = isinstance(value, Thing) and not field.is_required()
            changed[name] = None if may_be_none and _is_hidden(value, gone) else shown
    return thing.model_copy(update=changed)


def _hides(kind: str, thing: Thing, gone: Gone) -> bool:
    """Return whether a thing is hidden; if so its name and those inside it are gone."""
    if not _is_hidden(thing, gone):
        return False
    for each, one in _all_in(kind, thing):
        for key in called_by(type(one)):
            if isinstance(name := getattr(one, key), str):
                gone.setdefault(each, set()).add(name.casefold())
    return True


def _is_hidden(thing: object, gone: Gone) -> bool:
    """Return whether a thing is private, or cannot be without something that is."""
    if not isinstance(thing, Thing):
        return False
    fields = type(thing).model_fields
    return thing.private or any(
        fields[name].is_required() and _speaks_of(getattr(thing, name), note, gone)
        for name, note in pointers(type(thing)).values()
    )


def _all_in(kind: str, thing: Thing) -> Iterator[tuple[str, Thing]]:
    """Yield a thing and all that is inside it, each with its kind."""
    yield kind, thing
    for name, field in type(thing).model_fields.items():
        value = getattr(thing, name)
        held = value.values() if isinstance(value, dict) else value
        for each in held if isinstance(value, tuple | dict) else (value,):
            if isinstance(each, Thing):
                yield from _all_in(field.alias or name, each)


def _blank(model: type[Thing], whole: Thing) -> Thing:
    """Return what screens get of a thing that is hidden where there has to be one."""
    stays: dict[str, object] = {}
    for name, field in model.model_fields.items():
        value = getattr(whole, name)
        notes = [note for note in field.metadata if isinstance(note, Withheld)]
        if notes:
            stays[name] = value if notes[0].instead is None else notes[0].instead
        elif field.is_required() and isinstance(value, Thing):
            stays[name] = _blank(type(value), value)
    defaults = {
        name: field.get_default(call_default_factory=True)
        for name, field in model.model_fields.items()
        if not field.is_required()
    }
    return model.model_construct(**{**defaults, **stays})


def _freed_from(value: object, gone: Gone) -> object:
    """Return what a field holds, naming nothing of what is gone."""
    if isinstance(value, Thing):
        return _freed(value, gone)
    if isinstance(value, tuple):
        return tuple(_freed_from(each, gone) for each in value)
    if isinstance(value, dict):
        return {key: _freed_from(each, gone) for key, each in value.items()}
    return value


def _freed(thing: _Thing, gone: Gone) -> _Thing:
    """Return a thing, and the things inside it, that name nothing of what is gone."""
    changed = {
        name: _freed_from(getattr(thing, name), gone) for name in type(thing).model_fields
    }
    for name, note in pointers(type(thing)).values():
        value = changed[name]
        if isinstance(value, tuple):
            changed[name] = tuple(each for each in value if not _speaks_of(each, note, gone))
        elif _speaks_of(value, note, gone):
            changed[name] = None
    return thing.model_copy(update=changed)


def _speaks_of(value: object, note: Refers, gone: Gone) -> bool:
    """Return whether a value names something that is gone."""
    return isinstance(value, str) and any(
        value.casefold() in gone.get(kind, ()) for kind in note.kinds
    )
