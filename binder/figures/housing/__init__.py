"""Shade, shelter, air and moving air: what each pen needs and has.

Indoors and outdoors alike.
"""

from __future__ import annotations

from binder.figures.housing import shade, stall_air
from binder.figures.housing.farm_housing import Housing, for_farm
from binder.figures.housing.shade import FarmShade, PenShade
from binder.figures.housing.stall_air import FarmAir, StallAir

__all__ = ["ENTRIES", "FarmAir", "FarmShade", "Housing", "PenShade", "StallAir", "for_farm"]

ENTRIES = (*shade.ENTRIES, *stall_air.ENTRIES)
