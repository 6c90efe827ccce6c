"""What visits, looks and jobs of a plan rest on: the stay, its animals, days and rounds."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.bands.band_charts import chart_of
from binder.figures.place.farm_map import in_walking_order
from binder.figures.stays.stay_load import HOT

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.farm.model import Farm, Stay
    from binder.figures.day.feeding_hours import Meals
    from binder.figures.feed.farm_feed import FarmFeed
    from binder.figures.herd.groups import Herd
    from binder.figures.rounds.farm_rounds import RoundFigures
    from binder.figures.rounds.visits import Gap
    from binder.figures.stays.stay_days import StayDay
    from binder.figures.stays.stay_load import StayLoad

BIRDS = "poultry"


@dataclass(frozen=True, slots=True)
class Basis:
    """What is known of a plan before its visits are; the fields are those of `Plan`."""

    farm: Farm
    stay: Stay
    days: tuple[StayDay, ...]
    herd: Herd
    loads: Mapping[str, StayLoad]
    meals: Meals | None
    gaps: tuple[Gap, ...]
    rounds: RoundFigures
    feed: FarmFeed

    @property
    def hours(self) -> tuple[float, ...]:
        """Return when the visits begin [h since midnight]."""
        return tuple(gap.start_h for gap in self.gaps)

    @property
    def pens(self) -> tuple[str, ...]:
        """Return the ids of the pens with animals, in the order of their numbers."""
        used = {group.pen for group in self.herd.groups}
        return tuple(pen for pen in self.rounds.pens if pen in used)

    @property
    def walk(self) -> tuple[str, ...]:
        """Return the same pens in the owner's order of the round."""
        pens = (self.rounds.pens[pen].pen for pen in self.pens)
        return tuple(pen.id for pen in in_walking_order(pens))

    def order_at(self, hour: float) -> tuple[str, ...]:
        """Return the pens in the order they are walked at an hour [h since midnight].

        By need on the hot day: where they may go unseen for the shortest time first; of those
        alike, birds first; then the owner's own order. Our choice, but for birds (water-41:
        without cool water they start to die almost at once).
        """
        hot = self.loads.get(HOT)
        if hot is None or not hot.allowed:
            return self.walk
        at = math.floor(hour) % HOURS_IN_DAY

        def need(pen: str) -> tuple[float, bool]:
            allowed = hot.allowed[pen][at] if pen in hot.allowed else math.inf
            return allowed, not self._has_birds(pen)

        return tuple(sorted(self.walk, key=need))

    def _has_birds(self, pen: str) -> bool:
        return any(chart_of(group.cls) == BIRDS for group in self.herd.in_pen(pen))

    def head(self, pen: str) -> int:
        """Return how many animals there are to see in a pen."""
        return self.rounds.pens[pen].head
