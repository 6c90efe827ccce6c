"""The herd on a date: class, weight, stage, due dates."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder.figures.entry import Entry

if TYPE_CHECKING:
    from binder.farm.model import Animal, Farm
    from binder.figures.figure import Figure


@dataclass(frozen=True, slots=True)
class Group:
    """One entry of animals.yaml on a date.

    Attributes:
        animal: as the owner wrote it.
        cls: its class on that date, a name of `content/published/classes.csv`.
        count: head.
        weight_kg: on that date [kg], None where neither weighed nor published for its class.
        pen: pen id, None where the owner gave none.
        litter: young at the side.
        dates: what is due, in order: (name, first, last), e.g. ("farrowing", 2026-07-12, 2026-07-18).
        figures: class, weight-on, due-date... of this group with their working.
    """

    animal: Animal
    cls: str
    count: int
    weight_kg: float | None
    pen: str | None
    litter: int = 0
    dates: tuple[tuple[str, dt.date, dt.date], ...] = ()
    figures: tuple[Figure, ...] = field(default=())


@dataclass(frozen=True, slots=True)
class Herd:
    """All groups on a date."""

    on: dt.date
    groups: tuple[Group, ...]

    def in_pen(self, pen_id: str) -> tuple[Group, ...]:
        """Return the groups that live in a pen."""
        return tuple(group for group in self.groups if group.pen == pen_id)

    @property
    def classes(self) -> tuple[str, ...]:
        """Return every class on the farm, once, in herd order."""
        return tuple(dict.fromkeys(group.cls for group in self.groups))


def herd(farm: Farm, on: dt.date) -> Herd:
    """Return the herd of `farm` on the day `on`."""
    raise NotImplementedError


ENTRIES: tuple[Entry, ...] = ()
