"""The farm without what the owner marked `private: true`: all that screens ever get to know.

Pages for the site and the phone are made from this farm alone, so that nothing private can slip
in by way of a list, a sum, a title or the search. What it leaves out, the print shows.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeVar

from binder.farm.model import EquipmentFile, FarmFile, Spot, Thing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.model import Farm

_Thing = TypeVar("_Thing", bound=Thing)
_NAMES = ("id", "name", "group")
_TO_THINGS = ("feed", "fed_by", "circuit", "feeds")
_UNNAMED = "Farm"  # where the owner marked the whole of farm.yaml private


@dataclass(frozen=True, slots=True)
class _Gone:
    """Names of what is left out: nothing that stays may speak of them."""

    pens: set[str] = field(default_factory=set)
    animals: set[str] = field(default_factory=set)
    things: set[str] = field(default_factory=set)


def public(farm: Farm) -> Farm:
    """Return the farm without its private things and its codes; itself where it has none.

    Animals of a private pen stay, without a pen; what named a private thing names nothing.
    """
    gone = _Gone()
    about = _about(farm.about)
    pens = _kept(farm.pens, gone.pens, gone.things)
    animals = _kept(farm.animals, gone.animals, gone.things)
    equipment = _open(farm.equipment, gone.things)
    if farm.equipment.private:
        gone.things.update(_names(farm.equipment))
        equipment = EquipmentFile()
    contacts = _kept(farm.contacts, set(), set())
    stays = _kept(farm.stays, set(), set())
    found = farm.model_copy(
        update={
            "about": about,
            "pens": tuple(_freed(pen, gone) for pen in pens),
            "animals": tuple(_freed(animal, gone) for animal in animals),
            "equipment": _freed(equipment, gone),
            "contacts": contacts,
            "stays": stays,
        }
    )
    return farm if found == farm else found.model_copy(update={"codes": ()})


def amounts_differ(farm: Farm, shown: Farm) -> bool:
    """Return whether the public part of a farm lacks animals or things that count."""
    return any(
        getattr(farm, part) != getattr(shown, part) for part in ("animals", "pens", "equipment")
    )


def _about(about: FarmFile) -> FarmFile:
    if about.private:
        return FarmFile(name=_UNNAMED, place=Spot(), units=about.units, paper=about.paper)
    place = Spot() if about.place.private else about.place
    return _open(about.model_copy(update={"place": place}), set())


def _kept(
    things: tuple[_Thing, ...], gone: set[str], gone_inside: set[str]
) -> tuple[_Thing, ...]:
    """Return the things that are not private; names of the others go into the two sets."""
    for thing in things:
        if thing.private:
            gone.update(_own_names(thing))
            gone_inside.update(_names(thing) - _own_names(thing))
    return tuple(_open(thing, gone_inside) for thing in things if not thing.private)


def _open(thing: _Thing, gone: set[str]) -> _Thing:
    """Return a thing without the private things inside it, whose names go into `gone`."""
    changed: dict[str, object] = {}
    for name in type(thing).model_fields:
        value = getattr(thing, name)
        if isinstance(value, Thing):
            gone.update(_names(value) if value.private else ())
            changed[name] = None if value.private else _open(value, gone)
        elif isinstance(value, tuple) and any(isinstance(each, Thing) for each in value):
            gone.update(*(_names(each) for each in value if each.private))
            changed[name] = tuple(_open(each, gone) for each in value if not each.private)
        elif isinstance(value, dict) and any(
            isinstance(each, Thing) for each in value.values()
        ):
            changed[name] = {
                key: _open(each, gone) for key, each in value.items() if not each.private
            }
    return thing.model_copy(update=changed)


def _freed(thing: _Thing, gone: _Gone) -> _Thing:
    """Return a thing, and the things inside it, that name nothing of what is gone."""
    changed: dict[str, object] = {}
    for name in type(thing).model_fields:
        value = getattr(thing, name)
        if isinstance(value, Thing):
            changed[name] = _freed(value, gone)
        elif isinstance(value, tuple) and any(isinstance(each, Thing) for each in value):
            changed[name] = tuple(_freed(each, gone) for each in value)
        elif isinstance(value, tuple) and name == "runs":
            changed[name] = tuple(each for each in value if each not in gone.things)
        elif _speaks_of(name, value, gone):
            changed[name] = None
    return thing.model_copy(update=changed)


def _speaks_of(key: str, value: object, gone: _Gone) -> bool:
    """Return whether a key names something that is gone."""
    if key == "pen":
        return value in gone.pens
    if key == "bred_to" and isinstance(value, str):
        return value.casefold() in {name.casefold() for name in gone.animals}
    return key in _TO_THINGS and value in gone.things


def _own_names(thing: Thing) -> set[str]:
    return {value for key in _NAMES if isinstance(value := getattr(thing, key, None), str)}


def _names(thing: Thing) -> set[str]:
    """Return every name in a thing and in what it holds."""
    return set(_own_names(thing)).union(*(_names(each) for each in _inside(thing)))


def _inside(thing: Thing) -> Iterator[Thing]:
    for name in type(thing).model_fields:
        value = getattr(thing, name)
        held = value if isinstance(value, tuple) else (value,)
        yield from (each for each in held if isinstance(each, Thing))
