"""What the things of a farm are called, by their ids; its pens in their order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import Band

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from binder.farm.model import Farm, Pen
    from binder.pages.text.words import Words


def farm_names(farm: Farm, words: Words) -> Mapping[str, str]:
    """Return id -> name of everything on the farm, and of classes and bands."""
    equipment = farm.equipment
    names = {pen.id: pen.name for pen in farm.pens}
    for pen in farm.pens:
        if pen.wallow:
            names[pen.wallow.id] = words.text("wallow.name", pen=pen.name)
        for fan in pen.fans:
            key = "fan.name" if len(pen.fans) == 1 else "fan.one_of"
            names[fan.id] = words.text(key, pen=pen.name, id=fan.id)
        for drinker in pen.drinkers:
            names[drinker.id] = words.text("drinker.name", pen=pen.name, id=drinker.id)
    for things in (equipment.hoses, equipment.tanks, equipment.generators):
        names |= {one.id: one.name or one.id for one in things}
    for named in (equipment.feeds, equipment.products, equipment.water_sources):
        names |= {one.id: one.name for one in named}
    names |= {
        one.id: words.text("equipment.breaker", name=one.label or one.id)
        for one in equipment.circuits
    }
    names |= {
        one.id: words.text("equipment.cord_to", name=names.get(one.feeds, one.feeds))
        for one in equipment.cords
        if one.feeds
    }
    names |= {stay.id: words.text("numbers.of_stay", id=stay.id) for stay in farm.stays}
    classes = words.section("class_one")
    names |= {key: str(word) for key, word in classes.items() if key not in names}
    return names | {band.key: words.text(f"band.{band.key}") for band in Band}


def in_names(left: Sequence[str], names: Mapping[str, object]) -> Iterator[str]:
    """Yield a subject's ids and rows of tables by their names; the longest name wins."""
    unknown: list[str] = []
    while left:
        ends = range(len(left), 0, -1)
        found = next((end for end in ends if " ".join(left[:end]) in names), 0)
        if not found:
            unknown.append(left[0])
        if unknown and (found or len(left) == 1):
            yield " ".join(unknown)
            unknown = []
        if found:
            yield str(names[" ".join(left[:found])])
        left = left[found or 1 :]


def in_order(farm: Farm) -> tuple[Pen, ...]:
    """Return the pens in the order of their numbers, P1, P2...: that of pens.yaml.

    Another way past them changes no number and no list, but only what says how to walk.
    """
    return farm.pens
