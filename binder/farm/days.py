"""What calendar and time zone say against a farm's records: days to come, what was left out."""

from __future__ import annotations

import datetime as dt
from itertools import combinations
from typing import TYPE_CHECKING

from binder.farm import tables, zones
from binder.farm.model import Happened
from binder.farm.model.lists import marked
from binder.farm.text import leaves
from binder.problems import Problem, quotable
from binder.yamlfile import named

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.load import Written
    from binder.farm.model import Animal, Farm
    from binder.yamlfile import Path_

    Remark = tuple[Path_, str]


def problems(written: Written, latest: dt.date) -> list[Problem]:
    """Return what is recorded as done on a day after `latest`, the last that can have been."""
    return [
        Problem(
            document.place(path),
            named(document.data, path),
            f"{day} is still to come; write the day when it happened, or check the year",
        )
        for name, document in written.documents.items()
        for path, text in leaves(document.data)
        if marked(name, path, Happened) and (day := _day(text)) is not None and day > latest
    ]


def _day(text: str) -> dt.date | None:
    """Return a date as it is written, None where it is none: that is said elsewhere."""
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        return None


def notes(written: Written, farm: Farm, on: dt.date) -> list[Problem]:
    """Return what is probably a slip, yet may be so: for a farm whose files hold no mistake."""
    found = {
        "farm.yaml": _far_off(farm),
        "stays.yaml": [*_over(farm, on), *_overlaps(farm, on)],
        "animals.yaml": [*_unrecorded(farm, on), *_twice(farm)],
    }
    return [
        Problem(document.place(path), named(document.data, path), message)
        for name, document in written.documents.items()
        for path, message in found.get(name, ())
    ]


def _far_off(farm: Farm) -> list[Remark]:
    """Return that the farm lies where hardly anybody lives by the clock it names."""
    place = farm.about.place
    if place.timezone is None or place.latitude is None or place.longitude is None:
        return []
    wrong = zones.too_far(place.timezone, place.latitude, place.longitude, "near")
    if not wrong:
        return []
    where = f"{place.timezone}, which lies about {zones.position(place.timezone)}"
    return [(("place", wrong), f"is far from {where}; check both")]


def _over(farm: Farm, on: dt.date) -> Iterator[Remark]:
    for number, stay in enumerate(farm.stays):
        if stay.last < on:
            message = f"{stay.last} is over; check the year, or take this stay out"
            yield (number, "to"), message


def _overlaps(farm: Farm, on: dt.date) -> Iterator[Remark]:
    to_come = [(n, stay) for n, stay in enumerate(farm.stays) if stay.last >= on]
    for (_, one), (number, other) in combinations(to_come, 2):
        if one.first <= other.last and other.first <= one.last:
            message = f"overlaps the stay {quotable(one.id)}, {one.first} to {one.last}"
            yield (number, "from"), f"{message}; each has its own cards, so agree who does what"


def _unrecorded(farm: Farm, on: dt.date) -> Iterator[Remark]:
    """Yield animals whose young are long due, with nothing written since they were bred."""
    limits = tables.by("animal_limits", "species")
    for number, animal in enumerate(farm.animals):
        most = limits[animal.species]["unrecorded"]
        if animal.bred is None or not most:
            continue
        since = [day for day in (animal.farrowed, animal.weaned) if day and day >= animal.bred]
        days = (on - animal.bred).days
        if days >= int(most) and not since:
            message = (
                f"{animal.bred} is {days:,} days ago and nothing is written since; "
                "write farrowed:, or the last day she was bred, or take bred: away"
            )
            yield (number, "bred"), message


def _twice(farm: Farm) -> Iterator[Remark]:
    """Yield groups that may be the litter which a mother in the same pen already counts."""
    for mother in farm.animals:
        if not mother.litter or mother.farrowed is None:
            continue
        for number, group in enumerate(farm.animals):
            if group.group is not None and _is_litter(group, mother):
                message = (
                    f"may be the {mother.litter} young that {quotable(mother.called)} has as "
                    "her litter:, which would count them twice; keep one of the two"
                )
                yield (number, "group"), message


def _is_litter(group: Animal, mother: Animal) -> bool:
    """Return whether a group may be a mother's young: of her kind, in her pen, born then."""
    apart = float(tables.by("check_rules", "rule")["litter days"]["most"])
    return (
        group is not mother
        and (group.species, group.pen) == (mother.species, mother.pen)
        and group.born is not None
        and mother.farrowed is not None
        and abs((group.born - mother.farrowed).days) <= apart
    )
