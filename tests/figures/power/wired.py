"""What the tests of power share."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from binder.farm.model import Animal, EquipmentFile, Farm, FarmFile, Pen
from binder.figures.figure import Figure
from binder.figures.herd import groups
from binder.figures.power.farm_power import (
    FarmPower,
    for_farm,
)

if TYPE_CHECKING:
    from collections.abc import Iterable


GAL = 3.785411784

DAY = dt.date(2026, 7, 14)


def number(figure: Figure | None) -> float:
    """Return the number of a figure that must be there."""
    assert figure is not None
    return figure.amount.value


FANS = {"id": "fans", "breaker": "15 A", "label": "FANS", "other_load": "400 W", "gfci": "yes"}

WELL = {"id": "well-house", "breaker": "20 A", "voltage": "240 V"}

SPARE = {"id": "spare", "breaker": "15 A"}

PUMP = {"id": "well", "name": "Well", "kind": "well", "pump": "1100 W", "circuit": "well-house"}

POND = {"id": "pond", "name": "Pond", "kind": "pond"}

FAN_1 = {"id": "fan-1", "power": "560 W", "circuit": "fans"}

FAN_2 = {"id": "fan-2", "power": "560 W", "circuit": "fans"}

CORD = {"id": "cord-1", "length": "100 ft", "gauge": "16", "feeds": "fan-2"}

GENERATOR = {"id": "gen", "name": "Red generator", "running": "2800 W", "starting": "3500 W",
             "fuel": "4 gal", "fuel_rate": "0.5 gal/h", "connection": "By the meter",
             "transfer_switch": "yes",
             "runs": ["well", "fans"]}  # fmt: skip

SOW = {"name": "Marigold", "species": "pig", "sex": "sow", "pen": "stall"}

HEN = {"name": "Hen", "species": "chicken", "pen": "hens"}


def powered(
    *animals: dict[str, str],
    fans: Iterable[dict[str, str]] = (FAN_1, FAN_2),
    shelter: dict[str, str] | None = None,
    **equipment: object,
) -> FarmPower:
    """Return the electricity of an invented farm: a stall, a closed hen house, a pasture."""
    described = {"circuits": [FANS, WELL, SPARE], "water_sources": [PUMP, POND], **equipment}
    farm = Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}}),
        animals=tuple(Animal.model_validate(each) for each in animals),
        pens=(
            Pen.model_validate(
                {
                    "id": "stall",
                    "name": "Stall",
                    "kind": "stall",
                    "fans": list(fans),
                    "shelter": shelter,
                }
            ),
            Pen.model_validate({"id": "hens", "name": "Hens", "kind": "stall"}),
            Pen.model_validate({"id": "creek", "name": "Creek", "kind": "pasture"}),
        ),
        equipment=EquipmentFile.model_validate(described),
        contacts=(),
        stays=(),
    )
    return for_farm(farm, groups.for_farm(farm, DAY))
