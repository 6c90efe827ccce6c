"""What the farm has, as words that choose its protocols."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.model import Farm
    from binder.figures.herd.groups import Herd

_POULTRY = frozenset({"chicken", "turkey", "duck"})


def tags(farm: Farm, herd: Herd) -> frozenset[str]:
    """Return the tags that protocols may ask for in `for` and `needs`."""
    return frozenset((*_herd_tags(herd), *_pen_tags(farm), *_equipment_tags(farm)))


def _herd_tags(herd: Herd) -> Iterator[str]:
    for group in herd.groups:
        yield group.animal.species
        yield group.cls
        if group.animal.species in _POULTRY:
            yield "poultry"
        if group.litter:
            yield "litter"
        if group.dates:
            yield "due"
        if group.animal.soak_ratio:
            yield "soaked feed"


def _pen_tags(farm: Farm) -> Iterator[str]:
    for pen in farm.pens:
        yield pen.kind
        if pen.wallow:
            yield "wallow"
        if pen.fans:
            yield "fan"
        for drinker in pen.drinkers:
            yield drinker.kind


def _equipment_tags(farm: Farm) -> Iterator[str]:
    equipment = farm.equipment
    named = {
        "hose": equipment.hoses,
        "tank": equipment.tanks,
        "generator": equipment.generators,
        "circuit": equipment.circuits,
        "cord": equipment.cords,
        "bucket": equipment.buckets,
        "stay": farm.stays,
    }
    yield from (tag for tag, things in named.items() if things)
    yield from (source.kind for source in equipment.water_sources)
    yield from (product.kind for product in equipment.products)
    if farm.about.eggs:
        yield "eggs"
