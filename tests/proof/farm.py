"""The example farm as plain values, to be changed key by key and written again."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, get_args, get_origin

from binder.farm import tables, zones
from binder.farm.model import SPECIES
from binder.farm.model.lists import LISTS, MODELS
from binder.farm.references import POINTERS
from binder.farm.sense import MALES, sexes
from binder.yamlfile import value_at
from tests.proof import values
from tests.proof.mutant import DAY, Mutant, dumped, plain, texts

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator, Mapping

    from pydantic import BaseModel

    from binder.yamlfile import Path_, Plain

UNIQUE = ("id", "name", "group")  # what the owner calls a thing; never overwritten at random
NEVER = frozenset({"picture"})  # pictures have mutants of their own
_OPTIONAL_SHARE = 0.5
_SOUND_SHARE = 0.8  # of new stays, which end soon after they begin
_MOST_DEPTH = 4


@dataclass(frozen=True, slots=True)
class Spot:
    """A key of a farm file: where, what belongs there, in a thing of which kind."""

    file: str
    path: Path_
    shape: object
    kind: str
    present: bool


class Farm:
    """The example farm as plain values, to be changed and then written."""

    def __init__(self, rng: random.Random) -> None:
        """Begin with the example; all that is thrown comes from `rng`."""
        self.rng = rng
        self.data: dict[str, Plain] = {name: plain(name) for name in texts()}
        self.touched: set[str] = set()

    def mutant(self, family: str, note: str, day: dt.date = DAY) -> Mutant:
        """Return what was changed as a mutant."""
        files = {name: dumped(self.data[name]) for name in sorted(self.touched)}
        return Mutant(family, note, files, day)

    def spots(self) -> list[Spot]:
        """Return every key that stands in the farm's files or may be put there."""
        return [spot for name in self.data for spot in self._in_file(name)]

    def _in_file(self, file: str) -> Iterator[Spot]:
        stem = file.removesuffix(".yaml")
        data = self.data[file]
        items: list[tuple[Path_, Plain]] = [((), data)]
        if stem in LISTS:
            items = [
                ((n,), item) for n, item in enumerate(data if isinstance(data, list) else ())
            ]
        for path, item in items:
            yield from _spots(file, MODELS[stem], item, path, stem)

    def ids(self, kinds: tuple[str, ...]) -> list[str]:
        """Return the names that a reference to one of these kinds may hold."""
        found = []
        for file in ("pens.yaml", "equipment.yaml"):
            for path, item in _things(self.data[file], ()):
                near = [part for part in path if isinstance(part, str)]
                kind = near[-1] if near else "pens"
                if kind in kinds and isinstance(item.get("id"), str):
                    found.append(str(item["id"]))
        return found

    def set(self, spot: Spot, value: Plain) -> None:
        """Write a value, or take the key away for None."""
        holder = value_at(self.data[spot.file], spot.path[:-1])
        key = str(spot.path[-1])
        if isinstance(holder, dict):
            holder.pop(key, None)
            if value is not None:
                holder[key] = value
        self.touched.add(spot.file)

    def add(self, file: str, item: Plain) -> None:
        """Put an item at the end of a file that is a list."""
        listed = self.data[file]
        if isinstance(listed, list):
            listed.append(item)
        self.touched.add(file)

    def stands(self, spot: Spot) -> bool:
        """Return whether the thing that holds a spot is still there."""
        return isinstance(value_at(self.data[spot.file], spot.path[:-1]), dict)

    def value(self, shape: object, key: str, kind: str, depth: int = 0) -> Plain:
        """Return a right value for a key, None where there is none to be had."""
        rng = self.rng
        words = values.choices(shape)
        if words:
            return rng.choice(words)
        name = values.type_name(shape)
        if name == "Id":
            return self._id(key, kind)
        if name:
            return values.right(name, rng)
        model = values.model_of(shape)
        if model is not None:
            return self.thing(model, key if depth else kind, depth + 1)
        inside = get_args(shape)
        if get_origin(shape) is dict:
            keys = rng.sample(get_args(inside[0]), rng.randint(1, 3))
            return {each: self.value(inside[1], each, kind, depth) for each in keys}
        if get_origin(shape) is tuple:
            made = (self.value(inside[0], key, key, depth) for _ in range(rng.randint(0, 3)))
            return [each for each in made if each is not None]
        return "0.5 ppm"  # the one type that stands alone: strips_read_from

    def _id(self, key: str, kind: str) -> str | None:
        pointed = POINTERS.get(kind, {}).get(key)
        if pointed is None and key not in {"runs", "id"}:
            return None
        if pointed is None:
            return f"n{self.rng.randrange(10**9)}"
        ids = self.ids(pointed)
        return self.rng.choice(ids) if ids else None

    def thing(self, model: type[BaseModel], kind: str, depth: int = 0) -> dict[str, Plain]:
        """Return a whole new thing: what it needs, and about half of what it may have."""
        found: dict[str, Plain] = {}
        for (key, shape), field in zip(
            values.shapes(model).items(), model.model_fields.values(), strict=True
        ):
            wanted = field.is_required() or (
                key not in NEVER and depth < _MOST_DEPTH and self.rng.random() < _OPTIONAL_SHARE
            )
            value = self.value(shape, key, kind, depth) if wanted else None
            if value is not None:
                found[key] = value
        if kind == "animals":
            self._make_animal(found)
        if kind == "stays" and self.rng.random() < _SOUND_SHARE:
            first = dt.date.fromisoformat(str(found["from"]))
            found["to"] = min(first + dt.timedelta(days=9), dt.date(2099, 12, 31)).isoformat()
        if ("latitude" in found) != ("longitude" in found):
            found.pop("latitude", None)
            found.pop("longitude", None)
        if {"latitude", "longitude", "timezone"} <= found.keys() and zones.too_far(
            str(found["timezone"]),
            float(str(found["latitude"])),
            float(str(found["longitude"])),
        ):
            found.pop("timezone")
        return found

    def mend(self) -> None:
        """Lead every name to something that is there, or take it away."""
        for spot in self.spots():
            pointed = POINTERS.get(spot.kind, {}).get(str(spot.path[-1]))
            if pointed and spot.present:
                self.set(spot, self._id(str(spot.path[-1]), spot.kind))
        equipment = self.data["equipment.yaml"]
        for generator in _listed(equipment, "generators"):
            generator.pop("runs", None)

    def _make_animal(self, found: dict[str, Plain]) -> None:
        """Give an animal a name of its own, a fitting sex, dates that do not contradict."""
        rng = self.rng
        for key in ("name", "group", "count"):
            found.pop(key, None)
        found["name" if rng.random() < 0.5 else "group"] = f"New {rng.randrange(10**6)}"
        if "group" in found:
            found["count"] = rng.choice(values.RIGHT["Whole"])
        found["species"] = species = rng.choice(SPECIES)
        found["sex"] = sex = rng.choice(sexes()[species])
        if sex in MALES:
            found.pop("bred", None)
            for key in ("farrowed", "bred_to", "litter"):
                found.pop(key, None)
        self._make_possible(found, tables.by("animal_limits", "species")[species])
        born = found.get("born")
        for key in ("weighed", "bred", "farrowed", "weaned"):
            later = found.get(key)
            if isinstance(born, str) and isinstance(later, str) and later < born:
                found.pop(key)

    def _make_possible(self, found: dict[str, Plain], most: Mapping[str, str]) -> None:
        """Give an animal what its species can weigh, rear and eat, the limits among it."""
        for key, may_be in (
            ("weight", (most["lightest"], most["heaviest"])),
            ("litter", ("0", "1", most["litter"])),
            ("ration", ("0.1 oz/day", most["ration"])),
        ):
            if key in found:
                found[key] = self.rng.choice(may_be)


def _spots(
    file: str, model: type[BaseModel], data: Plain, path: Path_, kind: str
) -> Iterator[Spot]:
    if not isinstance(data, dict):
        return
    for key, shape in values.shapes(model).items():
        here = (*path, key)
        yield Spot(file, here, shape, kind, key in data)
        inner = values.model_of(shape)
        if inner is not None:
            yield from _spots(file, inner, data.get(key), here, key)
        elif get_origin(shape) is dict:
            yield from _in_mapping(file, get_args(shape), data.get(key), here, key)
        elif get_origin(shape) is tuple and isinstance(data.get(key), list):
            each = values.model_of(get_args(shape)[0])
            listed = data[key]
            for number, item in enumerate(listed if isinstance(listed, list) else ()):
                if each is not None:
                    yield from _spots(file, each, item, (*here, number), key)


def _in_mapping(
    file: str, inside: tuple[object, ...], data: Plain, path: Path_, kind: str
) -> Iterator[Spot]:
    """Yield what stands below the words of a mapping such as `climate`."""
    each = values.model_of(inside[1])
    for word in values.choices(inside[0]):
        present = isinstance(data, dict) and word in data
        if present or data is None or isinstance(data, dict):
            yield Spot(file, (*path, word), inside[1], kind, present)
        if each is not None and isinstance(data, dict) and present:
            yield from _spots(file, each, data[word], (*path, word), kind)


def _listed(data: Plain, key: str) -> list[dict[str, Plain]]:
    listed = data.get(key) if isinstance(data, dict) else None
    return (
        [item for item in listed if isinstance(item, dict)] if isinstance(listed, list) else []
    )


def _things(data: Plain, path: Path_) -> Iterator[tuple[Path_, dict[str, Plain]]]:
    if isinstance(data, dict):
        if path:
            yield path, data
        for key, each in data.items():
            yield from _things(each, (*path, key))
    elif isinstance(data, list):
        for number, each in enumerate(data):
            yield from _things(each, (*path, number))
