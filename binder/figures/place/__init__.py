"""The ground: where things stand on the farm's map, and the way from pen to pen."""

from __future__ import annotations

from binder.figures.place.farm_map import GroundLine, GroundMap, Mark, Surface, for_farm

__all__ = ["GroundLine", "GroundMap", "Mark", "Surface", "for_farm"]
