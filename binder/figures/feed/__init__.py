"""Rations, meals in scoops and buckets, feed to lay in.

Per head, group and farm.
"""

from __future__ import annotations

from binder.figures.feed.farm_feed import ENTRIES, FarmFeed, GroupFeed, Meal, for_farm

__all__ = ["ENTRIES", "FarmFeed", "GroupFeed", "Meal", "for_farm"]
