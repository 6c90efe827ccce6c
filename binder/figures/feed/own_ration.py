"""What one head of a farm's own group is fed a day: as its owner wrote, else as published."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.feed.ration import FORMULAS, cautions, ration
from binder.figures.figure import (
    OUR_CHOICE,
    Figure,
    NotPublishedError,
    merge_sources,
    step,
)
from binder.figures.herd import groups as herds
from binder.figures.water.drinking_water import by_age_l
from binder.units import Amount

if TYPE_CHECKING:
    import datetime as dt

    from binder.farm.model import Animal
    from binder.figures.herd.groups import Group


def own_ration(group: Group, on: dt.date) -> Figure | None:
    """Return the feed a day of one head [kg/day]: the owner's, else published, else None.

    The owner's ration holds for the class it was written for: that of the last day on which
    anything about the animal was recorded. Of a class that is fed otherwise the published
    ration is given, with "ask the owner". For birds that grow fast it grows with their age.

    Args:
        group: one entry of animals.yaml on that date.
        on: the date.

    References:
        That the record's last day speaks for the ration is our choice.
    """
    animal = group.animal
    if animal.ration_kg_day is None:
        return _published(group)
    written = _written(animal, on)
    amount = Amount(animal.ration_kg_day, "kg/day")
    if written is not None and not _fed_alike(written.cls, group.cls):
        line = step("own_other", own=amount, was=written.cls, cls=group.cls)
        found = _published(group)
        if found is None:
            return None
        return replace(
            found,
            working=(line, *found.working),
            sources=merge_sources(found.sources, (OUR_CHOICE,)),
            cautions=("ask-owner", *found.cautions),
        )
    said = cautions(group.cls)
    lines = [step("own", ration=amount)]
    sources: tuple[str, ...] = ()
    more = _grown(group, on)
    if more > 1:
        amount = Amount(amount.value * more, "kg/day")
        lines.append(step("grown", ratio=Amount(more, "ratio"), ration=amount))
        sources = published.formula(FORMULAS, "ration grown")
    return Figure("ration", amount, tuple(lines), sources, said, animal.called)


def _published(group: Group) -> Figure | None:
    try:
        return ration(group.cls, group.weight_kg, group.litter, group.animal.called)
    except NotPublishedError:
        return None


def _written_on(animal: Animal, on: dt.date) -> dt.date | None:
    """Return the last day, up to `on`, on which something happened to be written down."""
    days = (animal.bred, animal.farrowed, animal.weaned, animal.weighed)
    return max((day for day in days if day is not None and day <= on), default=None)


def _written(animal: Animal, on: dt.date) -> Group | None:
    day = _written_on(animal, on)
    return None if day is None else herds.group(animal, day)


def _fed_alike(first: str, second: str) -> bool:
    """Return whether two classes are fed by the same published row, but for its range."""
    cells = ("each", "per_young", "by", "share", "hay", "sources")
    one, other = (published.row("ration", **{"class": cls}) for cls in (first, second))
    if first == second:
        return True
    same = all(one.text(cell) == other.text(cell) for cell in cells)
    return same and (one.has("each") or one.has("by"))


def _grown(group: Group, on: dt.date) -> float:
    """Return how much more a growing bird eats than when its ration was written, 1 at least."""
    line = published.row("water_need", **{"class": group.cls}).text("by_age")
    day, born = _written_on(group.animal, on), group.animal.born
    if not line or day is None or born is None:
        return 1.0
    then, now = (by_age_l(line, (at - born).days) for at in (day, on))
    return max(now / then, 1.0)


def is_hay(group: Group) -> bool:
    """Return whether the group's ration is hay in all, not a feed to measure out.

    Grain in its place could kill: only the owner's own ration is measured out for such a class.
    """
    row = published.row("ration", **{"class": group.cls})
    return group.animal.ration_kg_day is None and row.has("hay")
