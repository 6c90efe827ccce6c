"""The band rule: how dangerous the air is for a class (step 3).

The worse of the livestock classes on the index and the class's own lines. Wallow, shade and
breed never discount it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.bands.band_lines import (
    AIR,
    FULL_RH_PCT,
    HALF,
    INDEX,
    PLACES,
    RULES,
    SUM,
    Band,
    Rung,
    fahrenheit,
    index_lines,
    ladder,
    ladder_of,
    sum_of,
    whole_index,
    whole_of,
)
from binder.figures.noise import NOISE
from binder.figures.rules import quantity
from binder.science import heat, heat_index
from binder.science.heat_index import COLDEST_F, HOTTEST_F, REGRESSION_FROM_INDEX_F
from binder.science.ranges import require_within

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

__all__ = [
    "AIR", "FULL_RH_PCT", "HALF", "INDEX", "NOISE", "PLACES", "RULES", "SUM", "Band", "Rung",
    "Verdict", "band", "fahrenheit", "heat_line_c", "index_lines", "is_banded", "ladder",
    "people_band", "people_index_f", "people_line", "people_lines", "verdict",
]  # fmt: skip
PEOPLE = "people"
NO_LADDER = "none"
ABSOLUTE_ZERO_C = -273.15


@dataclass(frozen=True, slots=True)
class Verdict:
    """A band and what led to it.

    Attributes:
        band: the worse of everything asked.
        index: livestock index, unrounded; None in air colder than it goes, which is number 0.
        whole: the index as it is banded, to the nearest whole number as the guide prints it.
        passed: the worst line reached of each measure, the one that decided first.
    """

    band: Band
    index: float | None
    whole: int | None
    passed: tuple[Rung, ...]


def heat_line_c(cls: str) -> float | None:
    """Return the air temperature at which a class's own ladder leaves number 0 [C].

    Args:
        cls: a name of `content/published/herd/classes.csv`.

    Returns:
        Air temperature [C], not rounded; None where it has no line on the air temperature.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.

    References:
        ladders.csv, line by line.
    """
    return next((line.start for line in ladder(cls) if line.measure == AIR), None)


def is_banded(cls: str) -> bool:
    """Return whether a class has bands at all: the young that need warmth have none."""
    return not published.row("classes", **{"class": cls}).text("young")


def _reached(lines: Iterable[Rung], measured: Mapping[str, float]) -> tuple[Rung, ...]:
    """Return the worst line reached of each measure, worst first."""
    worst: dict[str, Rung] = {}
    for line in lines:
        if measured[line.measure] >= line.start - NOISE and (
            line.measure not in worst or line.band > worst[line.measure].band
        ):
            worst[line.measure] = line
    return tuple(sorted(worst.values(), key=lambda line: -line.band))


def verdict(
    cls: str, temp_c: float, rh_pct: float, all_hands_index: int | None = None
) -> Verdict:
    """Return the band of the air for a class and what led to it.

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        temp_c: air temperature in the shade [C], up to 50; below -20 it is number 0.
        rh_pct: relative humidity [%], 0 to 100.
        all_hands_index: the owner's own start of All hands on the index; None for ours.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.
        ValueError: air hotter than the index goes, or an impossible humidity.

    References:
        heat-97 (classes of the index), heat-73 (printed in whole numbers); ladders.csv, line by
        line.
    """
    lines = (*index_lines(all_hands_index), *ladder(cls))
    if temp_c < heat.COLDEST_C:
        require_within(rh_pct, 0.0, FULL_RH_PCT, "relative humidity", "%")
        return Verdict(Band.FINE, None, None, ())
    index = heat.livestock_index(temp_c, rh_pct)
    whole = whole_of(index)
    measured = {AIR: temp_c, INDEX: float(whole), SUM: sum_of(temp_c, rh_pct)}
    passed = _reached(lines, measured)
    return Verdict(passed[0].band if passed else Band.FINE, index, whole, passed)


def band(cls: str, temp_c: float, rh_pct: float, all_hands_index: int | None = None) -> Band:
    """Return the band of the air for a class, as `verdict` finds it.

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        temp_c: air temperature in the shade [C], up to 50; below -20 it is number 0.
        rh_pct: relative humidity [%], 0 to 100.
        all_hands_index: the owner's own start of All hands on the index; None for ours.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.
        ValueError: air hotter than the index goes, or an impossible humidity.

    References:
        As `verdict`.
    """
    whole = whole_index(temp_c, rh_pct)
    return Band(ladder_of(cls, all_hands_index).band(temp_c, whole, rh_pct))


@lru_cache(maxsize=1)
def people_lines() -> tuple[Rung, ...]:
    """Return where each band starts for people, on the heat index [F]."""
    return tuple(
        Rung(
            PEOPLE,
            Band[row.text("band").upper()],
            fahrenheit(quantity(row, "from", "temperature")),
            row.sources,
        )
        for row in published.rows("people_bands")
    )


def people_index_f(temp_c: float, rh_pct: float) -> float | None:
    """Return the heat index [F], or None where the air is beyond the published chart.

    Args:
        temp_c: air temperature in the shade [C]; below -20 it is the index itself.
        rh_pct: relative humidity [%], 0 to 100.

    Raises:
        ValueError: a humidity outside 0 to 100 %, or no temperature that can be.

    References:
        heat-1 (formula and chart).
    """
    require_within(rh_pct, 0.0, FULL_RH_PCT, "relative humidity", "%")
    require_within(temp_c, ABSOLUTE_ZERO_C, math.inf, "air temperature", "C")
    temp_f = fahrenheit(temp_c)
    if temp_f < COLDEST_F:
        return temp_f
    if temp_f > HOTTEST_F:
        return None
    try:
        return heat_index.heat_index_f(temp_f, rh_pct)
    except ValueError:  # the one refusal left: above the highest charted value
        return None


def people_line(temp_c: float, rh_pct: float) -> Rung | None:
    """Return the worst line that people reach, None below the first.

    The index is read as a whole number, as the published chart and its classes are. Air beyond
    that chart counts as the worst: our choice. The published method changes its formula at 80 F
    and drops by up to 3 F there; air past the change is read as 80 F at least (our choice, the
    safer side), so that warmer or damper air never has a lower number.

    Args, errors and references as `people_band`, whose air temperature [C] and humidity [%]
    these are; heat-1 for the change of formula.
    """
    lines = people_lines()
    index_f = people_index_f(temp_c, rh_pct)
    if index_f is None:
        return lines[-1]
    temp_f = fahrenheit(temp_c)
    past_the_change = temp_f >= COLDEST_F and (
        heat_index.heat_index_average_f(temp_f, rh_pct) >= REGRESSION_FROM_INDEX_F
    )
    if past_the_change:
        index_f = max(index_f, REGRESSION_FROM_INDEX_F)
    whole = math.floor(index_f + HALF)
    reached = [line for line in lines if whole >= line.start - NOISE]
    return reached[-1] if reached else None


def people_band(temp_c: float, rh_pct: float) -> Band:
    """Return the band of the air for people, in the shade and light wind.

    Args:
        temp_c: air temperature in the shade [C].
        rh_pct: relative humidity [%], 0 to 100.

    References:
        heat-3 and heat-4, the safer of the two; the names are our choice (people_bands.csv).
    """
    line = people_line(temp_c, rh_pct)
    return Band.FINE if line is None else line.band
