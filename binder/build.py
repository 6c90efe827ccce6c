"""The whole program in five steps: read, check, figure, compose, write."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.figures import work_out
from binder.output.write import write
from binder.pages.compose import compose

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

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
    owner = read_folder(folder)
    farm = check(owner)
    with owner.naming_lines():
        figures = work_out(farm, on, owner.weather)
    return compose(figures, owner.protocols, owner.pictures_folder)
