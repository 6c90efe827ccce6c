"""Readiness of a farm: what it lacks, and what fails first on the day (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.readiness.fails_first import fails_first
from binder.figures.readiness.ranking import lines_of

if TYPE_CHECKING:
    from binder.figures.readiness.fails_first import Failure
    from binder.figures.readiness.ranking import Shortfall
    from binder.figures.results import Results


@dataclass(frozen=True, slots=True)
class Readiness:
    """What the other areas' results add up to.

    Attributes:
        lines: every shortfall, worst first.
        fails: what runs out or turns bad on the day, in order of the clock; none where its
            hours are not known.
    """

    lines: tuple[Shortfall, ...]
    fails: tuple[Failure, ...]


def for_farm(figures: Results) -> Readiness:
    """Return the readiness of a farm, from the results of all the other areas."""
    day = figures.day.day
    return Readiness(lines_of(figures), fails_first(figures, day) if day else ())
