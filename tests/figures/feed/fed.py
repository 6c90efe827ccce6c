"""What the tests of feed share."""

from __future__ import annotations

import datetime as dt

from binder.farm.model import Animal, EquipmentFile, Farm, FarmFile
from binder.figures.feed.farm_feed import FarmFeed, for_farm
from binder.figures.herd import groups

LB = 0.45359237

GAL = 3.785411784

DAY = dt.date(2026, 7, 14)

FEEDS = (
    {"id": "sow-feed", "name": "Sow pellets", "scoop": "Red", "scoop_holds": "3 lb",
     "on_hand": "50 lb"},
    {"id": "grower-feed", "name": "Grower pellets", "on_hand": "1000 lb"},
    {"id": "layer-feed", "name": "Layer crumble", "scoop_holds": "2 lb"},
    {"id": "meat-feed", "name": "Meat feed"},
    {"id": "spare", "name": "Spare"},
)  # fmt: skip

BUCKETS = ({"id": "big", "name": "Big", "holds": "5 gal"},
           {"id": "small", "name": "Small", "holds": "1 gal"})  # fmt: skip

CLEMENTINE = {"name": "Clementine", "species": "pig", "sex": "sow", "pen": "creek",
              "bred": "2026-05-01", "ration": "5 lb/day", "feed": "sow-feed",
              "soak": "1"}  # fmt: skip

GROWERS = {"group": "Growers", "species": "pig", "count": "8", "weight": "103 lb",
           "feed": "grower-feed"}  # fmt: skip

HENS = {"group": "Hens", "species": "chicken", "sex": "hen", "count": "45",
        "feed": "layer-feed"}  # fmt: skip

MEAT = {"group": "Meat birds", "species": "chicken", "purpose": "meat", "count": "25",
        "feed": "meat-feed"}  # fmt: skip

DOG = {"name": "Bramble", "species": "dog", "weight": "20 kg"}


def fed(
    *animals: dict[str, str],
    days: int | None = 10,
    buckets: tuple[dict[str, str], ...] = BUCKETS,
) -> FarmFeed:
    """Return the feed of an invented farm."""
    farm = Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}}),
        animals=tuple(Animal.model_validate(each) for each in animals),
        pens=(),
        equipment=EquipmentFile.model_validate({"feeds": FEEDS, "buckets": buckets}),
        contacts=(),
        stays=(),
    )
    return for_farm(farm, groups.for_farm(farm, DAY), days)
