"""How big a wallow must be, what it loses, when to refresh it, where to dig.

Fresh water first; bleach is another area.
"""

from __future__ import annotations

from binder.figures.wallows import wallow_plan, wallow_site, wallow_size
from binder.figures.wallows.wallow_plan import WallowSheet, for_farm

__all__ = ["ENTRIES", "WallowSheet", "for_farm"]

ENTRIES = (*wallow_size.ENTRIES, *wallow_site.ENTRIES, *wallow_plan.ENTRIES)
