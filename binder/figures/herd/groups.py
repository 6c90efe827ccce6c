"""The herd on a date: class, weight, stage, due dates."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from binder.figures.figure import step
from binder.figures.herd import animal_class, breeding, weight
from binder.figures.herd.animal_class import Known, class_figure
from binder.figures.herd.breeding import (
    Records,
    Stage,
    dates_due,
    due_date,
    gestation,
    return_check,
    stage,
    weaning,
)
from binder.figures.herd.weight import weight_of
from binder.science.gestation import age_days

if TYPE_CHECKING:
    import datetime as dt

    from binder.farm.model import Animal, Farm
    from binder.figures.entry import Entry
    from binder.figures.figure import Figure

TO_STALL = "move to farrowing"


@dataclass(frozen=True, slots=True)
class Group:
    """One entry of animals.yaml on a date.

    Attributes:
        animal: as the owner wrote it.
        cls: its class on that date, a name of `content/published/herd/classes.csv`.
        count: head.
        weight_kg: on that date [kg], None where neither weighed nor published for its class.
        pen: pen id, None where the owner gave none.
        litter: young at the side.
        dates: what is due, in order: (event, first, last), e.g. ("farrowing", 2026-07-12,
            2026-07-21); the events are those of `content/published/herd/breeding_events.csv`.
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


def for_farm(farm: Farm, on: dt.date) -> Herd:
    """Return the herd of `farm` on the day `on`; animals born later are left out."""
    present = [each for each in farm.animals if each.born is None or each.born <= on]
    stalls = frozenset(pen.id for pen in farm.pens if pen.farrowing)
    return Herd(on, tuple(_settled(group(animal, on), on, stalls) for animal in present))


def _settled(found: Group, on: dt.date, stalls: frozenset[str]) -> Group:
    """Return a group without the move to where she gives birth, if she is there already.

    A move that the owner has planned for her stands on its own day.
    """
    planned = [move.on for move in found.animal.moves if move.on > on and move.to in stalls]
    dates = tuple(
        (event, planned[0], planned[0]) if event == TO_STALL and planned else (event, *days)
        for event, *days in found.dates
        if event != TO_STALL or found.pen not in stalls
    )
    return found if dates == found.dates else replace(found, dates=dates)  # type: ignore[arg-type]


def group(animal: Animal, on: dt.date) -> Group:
    """Return one entry of animals.yaml on the day `on`, with its figures."""
    records = Records(animal.bred, animal.farrowed, animal.weaned, animal.litter)
    now = stage(animal.species, on, records)
    weighing = weight_of(animal, on)
    weight_kg = weighing.amount.value if weighing else None
    known = Known(
        species=animal.species,
        sex=animal.sex,
        age_days=age_days(animal.born, on) if animal.born else None,
        weight_kg=weight_kg,
        purpose=animal.purpose,
        stage=now,
    )
    decided = class_figure(known, on, animal.called)
    young, assumed = _young(animal, now)
    if assumed:
        line = step("litter-assumed", litter=young)
        decided = replace(
            decided,
            working=(*decided.working, line),
            cautions=(*decided.cautions, "litter-not-recorded"),
        )
    return Group(
        animal=animal,
        cls=str(decided.value),
        count=animal.head,
        weight_kg=weight_kg,
        pen=animal.pen_on(on),
        litter=young,
        dates=dates_due(animal.species, on, now),
        figures=(decided, *([weighing] if weighing else []), *_breeding_figures(animal, now)),
    )


def _young(animal: Animal, now: Stage) -> tuple[int, bool]:
    """Return young at the side, and whether their number was not recorded and is assumed."""
    limits = gestation(animal.species)
    if now.state != "nursing" or limits is None:
        return 0, False
    if animal.litter is None or now.expected:
        return int(limits.number("usual_litter")), True
    return animal.litter, False


def _breeding_figures(animal: Animal, now: Stage) -> tuple[Figure, ...]:
    if now.since is None:
        return ()
    pig = animal.species == "pig"
    if now.state == "nursing":
        return (weaning(now.since, animal.called),) if pig else ()
    due = due_date(animal.species, now.since, animal.called)
    return (due, return_check(now.since, animal.called)) if pig else (due,)


ENTRIES: tuple[Entry, ...] = (*animal_class.ENTRIES, *breeding.ENTRIES, *weight.ENTRIES)
