"""What a hose holds, how the sun heats it, how it is flushed.

A warm hose is a dry hose to an animal that refuses it.
"""

from __future__ import annotations

from binder.figures.hoses import hose_flow, hose_heat
from binder.figures.hoses.hose_plan import HoseSheet, for_farm

__all__ = ["ENTRIES", "HoseSheet", "for_farm"]

ENTRIES = (*hose_flow.ENTRIES, *hose_heat.ENTRIES)
