"""Where each number starts: the lines of the livestock index and of each class (step 3).

`band_rule` reads one hour off them with all that led to it; `Ladder` reads many.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from enum import IntEnum
from functools import lru_cache
from itertools import accumulate
from typing import TYPE_CHECKING

from binder import units
from binder.figures import published
from binder.figures.figure import OUR_CHOICE, NotPublishedError
from binder.figures.noise import NOISE
from binder.figures.rules import quantity, rule
from binder.science import heat
from binder.science.ranges import require_within
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.figures.published import Row

RULES = "band_rules"
AIR, INDEX, SUM = "air", "index", "sum"
PLACES = 6  # decimals that survive a conversion from C to F and back
HALF = 0.5  # rounds to the nearest whole number
FULL_RH_PCT = 100.0


class Band(IntEnum):
    """How dangerous the air is for a class: a number from 0 to 4, and names of our own.

    The published classes are called alert, danger and emergency; here those words belong to a
    signal word on labels and to a tab of the binder, so the numbers have other names.
    """

    FINE = 0
    WARM = 1
    HOT = 2
    SEVERE = 3
    ALL_HANDS = 4

    @property
    def key(self) -> str:
        """Return the key in YAML, words and CSS: `all_hands`."""
        return self.name.lower()

    @property
    def word(self) -> str:
        """Return the name that `binder figure` gives: `All hands`."""
        return self.name.replace("_", " ").capitalize()


@dataclass(frozen=True, slots=True)
class Rung:
    """Where a band starts: `measure` (air [C], index, sum) at `start` or above."""

    measure: str
    band: Band
    start: float
    sources: tuple[str, ...]


def fahrenheit(temp_c: float) -> float:
    """Return an air temperature in the unit that the people's and horses' scales use [F]."""
    return round(units.convert(Amount(temp_c, "degC"), "us"), PLACES)


def _line(measure: str, row: Row) -> Rung:
    kind = "temperature" if measure == AIR else "number"
    start = quantity(row, "from", kind)
    return Rung(measure, Band[row.text("band").upper()], start, row.sources)


@lru_cache(maxsize=8)
def index_lines(all_hands_index: int | None = None) -> tuple[Rung, ...]:
    """Return where each band starts on the livestock index.

    Args:
        all_hands_index: the owner's own start of All hands; None for ours.
    """
    lines = tuple(_line(INDEX, row) for row in published.rows("livestock_bands"))
    if all_hands_index is None:
        return lines
    return (
        *(line for line in lines if line.band is not Band.ALL_HANDS),
        Rung(INDEX, Band.ALL_HANDS, float(all_hands_index), (OUR_CHOICE,)),
    )


@lru_cache(maxsize=64)
def ladder(cls: str) -> tuple[Rung, ...]:
    """Return the class's own lines; none where the livestock classes stand alone.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.
    """
    if published.row("classes", **{"class": cls}).text("young"):
        message = f"a {cls} needs warmth, so the bands do not hold for it"
        raise NotPublishedError(message)
    name = published.row("class_ladders", **{"class": cls}).text("ladder")
    return tuple(
        _line(row.text("measure"), row)
        for row in published.rows("ladders")
        if row.text("ladder") == name
    )


@lru_cache(maxsize=1)
def _sum_counts_from_c() -> float:
    return rule(RULES, "sum counts from", "temperature").value


def sum_of(temp_c: float, rh_pct: float) -> float:
    """Return the horseman's sum; 0 in air so cool that it says nothing: our choice."""
    if temp_c < _sum_counts_from_c():
        return 0.0
    return heat.horse_sum(fahrenheit(temp_c), rh_pct)


def whole_index(temp_c: float, rh_pct: float) -> int | None:
    """Return the livestock index to the nearest whole number, as it is banded.

    Args:
        temp_c: air temperature in the shade [C], up to 50; None below -20, where it stops.
        rh_pct: relative humidity [%], 0 to 100.

    Raises:
        ValueError: air hotter than the index goes, or an impossible humidity.

    References:
        heat-73 (printed in whole numbers); a half goes up, the safer side: our choice.
    """
    if temp_c < heat.COLDEST_C:
        require_within(rh_pct, 0.0, FULL_RH_PCT, "relative humidity", "%")
        return None
    return whole_of(heat.livestock_index(temp_c, rh_pct))


def whole_of(index: float) -> int:
    """Return the index as a whole number; a half goes up, the safer side: our choice."""
    return math.floor(index + HALF + NOISE)


@dataclass(frozen=True, slots=True)
class Ladder:
    """The lines of a class by what they measure, for many hours at once.

    Attributes:
        air: where each line on the air starts [C], and the band from there on, coolest first.
        index: the same on the whole livestock index.
        sum: the same on the horseman's sum.
    """

    air: tuple[tuple[float, ...], tuple[int, ...]]
    index: tuple[tuple[float, ...], tuple[int, ...]]
    sum: tuple[tuple[float, ...], tuple[int, ...]]

    def band(self, temp_c: float, whole: int | None, rh_pct: float) -> int:
        """Return the number, 0 to 4, of an hour; as `verdict` finds it.

        Args:
            temp_c: air temperature in the shade [C].
            whole: `whole_index` of the same air.
            rh_pct: relative humidity [%].
        """
        if whole is None or self._is_below(temp_c, whole):
            return 0
        found = max(_at(self.air, temp_c), _at(self.index, whole))
        return max(found, _at(self.sum, sum_of(temp_c, rh_pct))) if self.sum[0] else found

    def _is_below(self, temp_c: float, whole: int) -> bool:
        """Return whether air lies below every line at once, as most hours of a year do."""
        air, index = self.air[0], self.index[0]
        return not (self.sum[0] or (air and temp_c >= air[0]) or (index and whole >= index[0]))


def _at(steps: tuple[tuple[float, ...], tuple[int, ...]], value: float) -> int:
    reached = bisect_right(steps[0], value)
    return steps[1][reached - 1] if reached else 0


@lru_cache(maxsize=256)
def ladder_of(cls: str, all_hands_index: int | None = None) -> Ladder:
    """Return the lines of a class for `Ladder.band`; classes of one ladder share it.

    Args, errors and references as `verdict`.
    """
    lines = (*index_lines(all_hands_index), *ladder(cls))
    return Ladder(*(_steps(lines, measure) for measure in (AIR, INDEX, SUM)))


def _steps(lines: Iterable[Rung], measure: str) -> tuple[tuple[float, ...], tuple[int, ...]]:
    """Return the starts of one measure and the worst band from each of them on."""
    own = sorted(
        (line.start - NOISE, int(line.band)) for line in lines if line.measure == measure
    )
    bands = accumulate((band for _, band in own), max)
    return tuple(start for start, _ in own), tuple(bands)
