"""Circuits, cords, generators, and how long a closed barn is safe.

Planning figures: label, code and electrician decide.
"""

from __future__ import annotations

from binder.figures.power.farm_power import ENTRIES, CircuitPower, FarmPower, for_farm

__all__ = ["ENTRIES", "CircuitPower", "FarmPower", "for_farm"]
