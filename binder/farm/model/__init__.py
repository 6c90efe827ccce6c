"""The farm as the owner wrote it, checked and frozen (the gatekeeper of pydantic).

Field names carry their unit; the YAML key is the alias (`length_m` is written `length: 12 ft`).
None means: not recorded. Nothing here is computed from anything else on the farm.
"""

from __future__ import annotations

from binder.farm.model.about import BandKey, FarmFile, MendKey, Month, ShutOff, Spot, Weather
from binder.farm.model.animals import SPECIES, Animal, Move, Purpose, Sex, Species
from binder.farm.model.equipment import (
    Bucket,
    Circuit,
    Cord,
    EquipmentFile,
    Feed,
    Generator,
    Hose,
    Product,
    Tank,
    WaterSource,
)
from binder.farm.model.farm import Farm
from binder.farm.model.ground import FarmMap, MapLine, MapPlace, Point
from binder.farm.model.pens import Drinker, Fan, Pen, PenKind, Shade, Shelter, Wallow
from binder.farm.model.people import Code, Contact, Help, PrivateFile, Role, Stay
from binder.farm.model.refers import Happened, Prose, Refers, Vital, Withheld
from binder.farm.model.thing import Thing

__all__ = [
    "SPECIES",
    "Animal",
    "BandKey",
    "Bucket",
    "Circuit",
    "Code",
    "Contact",
    "Cord",
    "Drinker",
    "EquipmentFile",
    "Fan",
    "Farm",
    "FarmFile",
    "FarmMap",
    "Feed",
    "Generator",
    "Happened",
    "Help",
    "Hose",
    "MapLine",
    "MapPlace",
    "MendKey",
    "Month",
    "Move",
    "Pen",
    "PenKind",
    "Point",
    "PrivateFile",
    "Product",
    "Prose",
    "Purpose",
    "Refers",
    "Role",
    "Sex",
    "Shade",
    "Shelter",
    "ShutOff",
    "Species",
    "Spot",
    "Stay",
    "Tank",
    "Thing",
    "Vital",
    "Wallow",
    "WaterSource",
    "Weather",
    "Withheld",
]
