"""Times of care that several sheets name: each is read from one cell (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures import published
from binder.figures.figure import merge_sources
from binder.figures.rules import rule

if TYPE_CHECKING:
    from collections.abc import Mapping

HOURS, MINUTES, WEEKS = "hours", "minutes", "weeks"


@dataclass(frozen=True, slots=True)
class Care:
    """A span, or a share: `least` to `most` in `unit`, with the ids it rests on.

    `unit` is a key of the words `care`: seconds, minutes, hours, days, weeks or percent.
    """

    least: float
    most: float
    unit: str
    sources: tuple[str, ...]


@lru_cache(maxsize=1)
def care_times() -> Mapping[str, Care]:
    """Return each by the name that protocols use.

    Raises:
        MissingRowError: a table has lost the row.
    """
    found = {
        row.text("care"): Care(
            row.number("least"), row.number("most"), row.text("unit"), row.sources
        )
        for row in published.rows("care_times")
    }
    for name, row in (("dry", "phone the vet after"), ("dry too long", "vet first after")):
        hours = rule("water_rules", row, "time")
        found[name] = Care(hours.value, hours.value, HOURS, hours.sources)
    found["dry for long"] = Care(
        found["dry"].least, found["dry too long"].most, HOURS, found["dry"].sources
    )
    least, most = (
        rule("drinking", f"{which} minutes between cups", "time") for which in ("least", "most")
    )
    found["cup of water"] = Care(
        least.value * MINUTES_IN_HOUR,
        most.value * MINUTES_IN_HOUR,
        MINUTES,
        merge_sources(least.sources, most.sources),
    )
    (boar,) = published.rows("hot_spell")
    weeks = boar.number("boar_weeks")
    found["boar after heat"] = Care(weeks, weeks, WEEKS, boar.sources)
    return MappingProxyType(found)
