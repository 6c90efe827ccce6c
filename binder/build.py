"""The whole program in five steps: read, check, figure, compose, write."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.figures import work_out
from binder.output.write import write
from binder.pages.compose import compose

if TYPE_CHECKING:
    from pathlib import Path

    from binder.farm.load import Written as Texts
    from binder.farm.model import Farm
    from binder.figures.figures import Figures
    from binder.figures.weather.daylight import DayAir
    from binder.output.write import Options, Progress, Written
    from binder.pages.page import Book


def build(folder: Path, to: Path, on: dt.date, options: Options, progress: Progress) -> Written:
    """Turn the farm folder into a binder in `to`, as the farm stands on `on`.

    Nothing is written until everything is composed: a failed build leaves the last one whole.

    Raises:
        ProblemsError: anything wrong in the farm folder or the content, all of it at once.
    """
    return write(book_of(folder, on), to, folder, options, progress)


def book_of(folder: Path, on: dt.date) -> Book:
    """Return the binder of a farm folder, composed and not yet written: steps 1 to 4.

    Raises:
        ProblemsError: anything wrong in the farm folder or the content, all of it at once.
    """
    owner, farm = checked(folder, on)
    return compose(figures_of(owner, farm, on), owner.protocols, owner.pictures_folder)


def checked(folder: Path, on: dt.date) -> tuple[Texts, Farm]:
    """Return what the owner wrote and the farm that it says: steps 1 and 2.

    A binder may be made for a day gone by, so records go up to today whatever the day.

    Raises:
        ProblemsError: anything wrong in the farm folder, all of it at once.
    """
    owner = read_folder(folder)
    return owner, check(owner, max(on, dt.datetime.now().astimezone().date()))


def figures_of(owner: Texts, farm: Farm, on: dt.date, air: DayAir | None = None) -> Figures:
    """Return the figures of a farm on a day: step 3.

    Args:
        owner: what the owner wrote, for the weather record and for lines of files.
        farm: the same, checked.
        on: the day.
        air: that day's own air, in place of the farm's typical hot day.

    Raises:
        ProblemsError: what is wrong in the weather, with its file and line.
    """
    with owner.naming_lines():
        return work_out(farm, on, owner.weather, air)
