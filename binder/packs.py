"""The packs of a farm's sitters: which are due, and each composed for the days of its stay."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from binder.figures.figures import of_stay
from binder.pages.pack.compose import papers
from binder.problems import Place, Problem, ProblemsError, did_you_mean, quotable

if TYPE_CHECKING:
    from binder.farm.load import Written
    from binder.farm.model import Farm, Stay
    from binder.pages.page import Paper

AHEAD = dt.timedelta(days=30)  # our choice: a pack made sooner is out of date before it is used
COMMAND = Place("binder build")


def due(owner: Written, farm: Farm, on: dt.date) -> tuple[Paper, ...]:
    """Return the packs of the stays that are under way or begin within 30 days.

    Args:
        owner: what the owner wrote, for the weather record, protocols and pictures.
        farm: the same, checked and whole: a pack is paper, so it holds what is private too.
        on: the day of the build.

    Raises:
        ProblemsError: what is wrong in the weather, the protocols or the pictures.
    """
    soon = (one for one in farm.stays if one.first <= on + AHEAD and one.last >= on)
    return tuple(paper for stay in soon for paper in _of(owner, farm, stay, on))


def named(owner: Written, farm: Farm, on: dt.date, name: str) -> tuple[Paper, ...]:
    """Return the pack of the stay of that id, however far ahead it is.

    Raises:
        ProblemsError: no stay that is not over has this id, and as for `due`.
    """
    to_come = {one.id: one for one in farm.stays if one.last >= on}
    if name not in to_come:
        message = f'"{quotable(name)}" is not a stay that is still to come'
        message += did_you_mean(name, to_come)
        raise ProblemsError([Problem(COMMAND, "--stay", message)])
    return _of(owner, farm, to_come[name], on)


def _of(owner: Written, farm: Farm, stay: Stay, on: dt.date) -> tuple[Paper, ...]:
    with owner.naming_lines():
        figures = of_stay(farm, stay, owner.weather)
    place = farm.stays.index(stay)
    return papers(figures, place, on.isoformat(), owner.protocols, owner.pictures_folder)
