"""All that a farm's weather files say: seasons, odds of its stays, its mends (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.season.farm_season import Played, play_farm, require_position
from binder.figures.season.mends import mends_of
from binder.figures.season.odds import Odds, odds_of
from binder.figures.season.worth import Worth, pairs_of, worths_of

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm
    from binder.figures.herd.groups import Herd
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.season.farm_season import FarmSeason
    from binder.figures.stays.plan import Plan
    from binder.figures.wallows.wallow_plan import WallowSheet
    from binder.weather.record import Record


@dataclass(frozen=True, slots=True)
class Season:
    """A farm through all of its weather files.

    Attributes:
        played: hour by hour.
        odds: of each stay to come whose dates a file has.
        worths: what each mend would have saved, the best first.
        pairs: two mends that save more together than one by one, the best first.
    """

    played: Played
    odds: tuple[Odds, ...]
    worths: tuple[Worth, ...]
    pairs: tuple[Worth, ...]

    @property
    def on(self) -> dt.date:
        """Return the date whose animals are played."""
        return self.played.on

    @property
    def visits(self) -> tuple[int, ...]:
        """Return the hours at which somebody fills waterers and wallows [h]."""
        return self.played.visits

    @property
    def seasons(self) -> tuple[FarmSeason, ...]:
        """Return one season for each file."""
        return self.played.seasons


@dataclass(frozen=True, slots=True)
class Plans:
    """What a season is played by.

    Attributes:
        ordinary: the plan of a day without a sitter.
        stays: those of the stays to come, by id.
        wallows: of `wallow_plan.for_farm`.
        hoses: of `hose_plan.for_farm`.
    """

    ordinary: Plan
    stays: Mapping[str, Plan]
    wallows: Mapping[str, WallowSheet]
    hoses: Mapping[str, HoseSheet]


def for_farm(farm: Farm, herd: Herd, plans: Plans, records: Sequence[Record]) -> Season:
    """Return a farm played through its weather files, as its files and animals stand.

    Args:
        farm: the farm.
        herd: its animals of a date.
        plans: what it is played by.
        records: its weather files, at least one.

    Raises:
        ProblemsError: the farm's place is missing.

    References:
        season_rules.csv (our choice); every rule of what a pen lacks is its own area's.
    """
    position = require_position(farm)
    played = play_farm(farm, herd, plans.ordinary, plans.wallows, records)
    mends = mends_of(farm, herd, played)
    worths = worths_of(farm, herd, played, mends)
    return Season(
        played,
        odds_of(farm, position, plans.stays, plans.hoses, played.seasons),
        worths,
        pairs_of(farm, herd, played, mends, worths),
    )
