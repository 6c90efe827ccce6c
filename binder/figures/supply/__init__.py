"""The farm's water: what a hot day asks, what comes in, what stands in store.

How long each lasts when the rest stops.
"""

from __future__ import annotations

from binder.figures.supply.farm_supply import SupplyFigures, for_farm
from binder.figures.supply.reserve import ENTRIES
from binder.figures.supply.water_store import PenStore

__all__ = ["ENTRIES", "PenStore", "SupplyFigures", "for_farm"]
