"""A farm played through real hours: which days would have gone wrong, and what mends buy."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.season.farm_season import FarmSeason
from binder.figures.season.pen_season import PenSeason, Wrong
from binder.figures.season.whole_season import Plans, Season, for_farm

if TYPE_CHECKING:
    from binder.figures.entry import Entry

__all__ = ["ENTRIES", "FarmSeason", "PenSeason", "Plans", "Season", "Wrong", "for_farm"]

ENTRIES: tuple[Entry, ...] = ()
