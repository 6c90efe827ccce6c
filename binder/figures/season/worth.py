"""What each mend would have saved: the farm played again with one thing mended (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from binder.figures.noise import TRACE
from binder.figures.season.mends import mended
from binder.figures.season.pen_season import play
from binder.figures.season.pen_state import states

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.farm.model import Farm
    from binder.figures.herd.groups import Herd
    from binder.figures.season.farm_season import Played
    from binder.figures.season.mends import Mend


@dataclass(frozen=True, slots=True)
class Worth:
    """What one mend, or two together, would have saved over all files.

    Attributes:
        mends: one, or two.
        animal_h: bad animal-hours saved [animal-hours].
        looks: short looks saved.
        days: days saved on which something went wrong in a pen, counted pen by pen.
    """

    mends: tuple[Mend, ...]
    animal_h: int
    looks: float
    days: int

    @property
    def rank(self) -> tuple[float, float]:
        """Return what mends are ranked by: animal-hours, then looks; more is better."""
        return self.animal_h, self.looks


def worths_of(
    farm: Farm, herd: Herd, season: Played, mends: Sequence[Mend]
) -> tuple[Worth, ...]:
    """Return what each mend saves, the best first; those that save nothing are left out.

    Args:
        farm: as it stands.
        herd: its animals.
        season: as it was played.
        mends: of `mends_of`.

    References:
        Our choice: bad animal-hours first, then looks.
    """
    found = [_worth(farm, herd, season, (mend,)) for mend in mends]
    return _ranked(found)


def pairs_of(
    farm: Farm, herd: Herd, season: Played, mends: Sequence[Mend], single: Sequence[Worth]
) -> tuple[Worth, ...]:
    """Return the pairs of mends that save more together than one by one, the best first.

    Only pairs that meet in a pen: there the one may hide what the other saves.

    Args:
        farm: as it stands.
        herd: its animals.
        season: as it was played.
        mends: of `mends_of`.
        single: of `worths_of`.
    """
    alone = {worth.mends[0]: worth.animal_h for worth in single}
    found = []
    for one, other in combinations(mends, 2):
        if set(one.pens) & set(other.pens):
            both = _worth(farm, herd, season, (one, other))
            if both.animal_h > alone.get(one, 0) + alone.get(other, 0):
                found.append(both)
    return _ranked(found)


def _ranked(found: Sequence[Worth]) -> tuple[Worth, ...]:
    saving = [worth for worth in found if worth.animal_h > 0 or worth.looks > TRACE]
    return tuple(sorted(saving, key=lambda worth: worth.rank, reverse=True))


def _worth(farm: Farm, herd: Herd, season: Played, mends: tuple[Mend, ...]) -> Worth:
    """Return what mends save: only the pens that they change are played again."""
    changed = farm
    for mend in mends:
        changed = mended(changed, herd, mend)
    pens = tuple(dict.fromkeys(pen for mend in mends for pen in mend.pens))
    after = states(changed, herd, pens)
    animal_h = days = 0
    looks = 0.0
    for one in season.seasons:
        for key, state in after.items():
            now, then = one.pens[key], play(state, one.around)
            animal_h += now.animal_h - then.animal_h
            looks += now.looks - then.looks
            days += len(now.days) - len(then.days)
    return Worth(mends, animal_h, looks, days)
