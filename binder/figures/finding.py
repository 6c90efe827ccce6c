"""Something the farm lacks or has wrong, as a key into the words with the numbers it needs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.noise import NOISE

if TYPE_CHECKING:
    from binder.figures.figure import Figure, Part
    from binder.units import Amount


@dataclass(frozen=True, slots=True)
class Finding:
    """One shortfall. Its words stand in `content/words/en/` under `AREA-findings: KEY:`.

    Attributes:
        area: `feed`, `shade`, `air` or `power`.
        key: which shortfall.
        subject: the pen, circuit, generator, animal or feed it is about.
        values: the numbers and names its words use.
        figures: the figures it follows from.
    """

    area: str
    key: str
    subject: str
    values: tuple[tuple[str, Part], ...] = ()
    figures: tuple[Figure, ...] = ()

    @property
    def words(self) -> str:
        """Return the key of its words."""
        return f"{self.area}-findings.{self.key}"


def finding(area: str, key: str, subject: str, *figures: Figure, **values: Part) -> Finding:
    """Return a finding with its numbers named."""
    return Finding(area, key, subject, tuple(values.items()), figures)


def falls_short(have: Amount, need: Amount) -> bool:
    """Return whether an amount is less than what is needed of it, both in one unit."""
    return have.value < need.value * (1 - NOISE)
