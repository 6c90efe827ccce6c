"""Mutants that are well-formed: extreme values, keys put in and left out, new herds."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

from binder.farm.model.lists import MODELS
from tests.proof import values
from tests.proof.farm import NEVER, UNIQUE, Farm, Spot
from tests.proof.mutant import DAY, Mutant

if TYPE_CHECKING:
    import random

_SHOWN = frozenset(
    {"name", "gate", "feeder", "where", "thermometer", "owner_says", "mark", "can"}
)
_TEXTS = frozenset({"Line", "Text"})


def extreme_values(rng: random.Random) -> Mutant:
    """Some keys hold other values that are right, the ends of their ranges among them."""
    farm = Farm(rng)
    spots = [spot for spot in farm.spots() if spot.path[-1] not in {*UNIQUE, *NEVER}]
    chosen = rng.sample(spots, rng.choice((1, 1, 2, 4, 8, 16)))
    for spot in chosen:
        if farm.stands(spot):
            farm.set(spot, farm.value(spot.shape, str(spot.path[-1]), spot.kind))
    return farm.mutant("extreme values", _said(chosen))


def owner_text(rng: random.Random) -> Mutant:
    """Signs that mean something to a machine stand in a text that a page must show."""
    farm = Farm(rng)
    spots = [
        spot
        for spot in farm.spots()
        if spot.path[-1] in _SHOWN and spot.present and values.type_name(spot.shape) in _TEXTS
    ]
    spot = rng.choice(spots)
    text = rng.choice(values.LITERAL)
    farm.set(spot, text)
    return replace(farm.mutant("owner's text", f"{_said([spot])}: {text!r}"), shown=text)


def private_text(rng: random.Random) -> Mutant:
    """Something is private: its words are printed and must be on no screen."""
    farm = Farm(rng)
    spots = [spot for spot in farm.spots() if spot.path[-1] == "private" and len(spot.path) > 1]
    spot = rng.choice(spots)
    farm.set(spot, "yes")
    word = "Zebrawood Nine"
    farm.set(replace(spot, path=(*spot.path[:-1], "notes")), word)
    return replace(farm.mutant("private", _said([spot])), hidden=word)


def left_out(rng: random.Random) -> Mutant:
    """Keys, or whole parts of the farm, are not there."""
    farm = Farm(rng)
    spots = [spot for spot in farm.spots() if spot.present]
    chosen = rng.sample(spots, rng.choice((1, 2, 5, 15, 60, 150)))
    for spot in sorted(chosen, key=lambda spot: -len(spot.path)):
        farm.set(spot, None)
    return farm.mutant("left out", _said(chosen))


def optional_left_out(rng: random.Random) -> Mutant:
    """As much as may be left out is not there: all of it, or a share of it."""
    farm = Farm(rng)
    share = rng.choice((0.1, 0.3, 0.6, 0.9, 1.0))
    chosen = [
        spot
        for spot in farm.spots()
        if spot.present and not _needed(spot) and rng.random() < share
    ]
    for spot in sorted(chosen, key=lambda spot: -len(spot.path)):
        farm.set(spot, None)
    return farm.mutant("optional left out", f"{len(chosen)} keys")


def new_herd(rng: random.Random) -> Mutant:
    """Other animals live on the farm, on some other day."""
    farm = Farm(rng)
    if rng.random() < 0.5:
        farm.data["animals.yaml"] = []
    for _ in range(rng.choice((1, 3, 8, 20))):
        farm.add("animals.yaml", farm.thing(MODELS["animals"], "animals"))
    return farm.mutant("new herd", "random animals", other_day(rng))


def new_things(rng: random.Random) -> Mutant:
    """Further pens, equipment, contacts, stays and codes, all at random."""
    farm = Farm(rng)
    for name in rng.sample(("pens", "contacts", "stays"), 2):
        for _ in range(rng.randint(1, 4)):
            farm.add(f"{name}.yaml", farm.thing(MODELS[name], name))
    if rng.random() < 0.5:
        farm.data["equipment.yaml"] = farm.thing(MODELS["equipment"], "equipment")
        farm.touched.add("equipment.yaml")
        farm.mend()
    if rng.random() < 0.3:
        farm.data["farm.yaml"] = farm.thing(MODELS["farm"], "farm")
        farm.touched.add("farm.yaml")
    return farm.mutant("new things", ", ".join(sorted(farm.touched)))


def other_days(rng: random.Random) -> Mutant:
    """The farm's dates are others, and so is the binder's day."""
    farm = Farm(rng)
    spots = [spot for spot in farm.spots() if values.type_name(spot.shape) == "Date"]
    chosen = rng.sample(spots, rng.choice((0, 1, 2, 6)))
    for spot in chosen:
        farm.set(spot, values.right("Date", rng))
    day = other_day(rng)
    return farm.mutant("other days", f"{day} {_said(chosen)}", day)


def other_day(rng: random.Random) -> dt.date:
    """Return a day to make the binder for."""
    if rng.random() < 0.5:
        return dt.date.fromisoformat(rng.choice(values.DAYS))
    return DAY + dt.timedelta(days=rng.randint(-400, 400))


def _needed(spot: Spot) -> bool:
    return str(spot.path[-1]) in {
        *UNIQUE, "species", "kind", "count", "role", "phone", "high", "low", "dew_point",
        "what", "where", "code", "inside", "length", "holds", "breaker", "from", "to",
        "sitter", "area",
        "shape", "depth", "place",
    }  # fmt: skip


def _said(spots: list[Spot]) -> str:
    shown = (" > ".join(map(str, (spot.file, *spot.path))) for spot in spots[:4])
    return "; ".join(shown) + (f" and {len(spots) - 4} more" if len(spots) > 4 else "")
