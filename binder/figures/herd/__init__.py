"""The herd on a date: class, weight, breeding dates.

What an animal counts as today decides its heat, water, feed and room.
"""

from __future__ import annotations

from binder.figures.herd.groups import ENTRIES, Group, Herd, for_farm

__all__ = ["ENTRIES", "Group", "Herd", "for_farm"]
