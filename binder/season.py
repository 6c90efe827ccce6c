"""A farm played through its weather files, as `binder season` asks for it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.build import checked, figures_of
from binder.pages.context import Context
from binder.pages.season import mends_text, season_text
from binder.pages.text import words
from binder.problems import Faults, ProblemsError
from binder.weather.read import Asked, read_files, read_folder

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from binder.farm.model import Farm
    from binder.pages.season.season_text import TextTable
    from binder.weather.record import Record

WEATHER = "weather"  # the folder of weather files in a farm


@dataclass(frozen=True, slots=True)
class Told:
    """A farm's season in words.

    Attributes:
        head: whose animals are played.
        files: of each weather file, lines about it and its tables.
        together: what they say together: mends and stays.
    """

    head: str
    files: tuple[tuple[tuple[str, ...], tuple[TextTable, ...]], ...]
    together: tuple[TextTable, ...]


def asked_for(farm: Farm, on: dt.date) -> Asked:
    """Return what the hours of a farm's weather files are put to."""
    latest = max(on, dt.datetime.now().astimezone().date())
    return Asked(farm.about.place.timezone or "", on.year, latest)


def told(folder: Path, on: dt.date, files: Sequence[Path]) -> Told:
    """Return a farm's season in words.

    Args:
        folder: of the farm.
        on: the date whose animals are played.
        files: weather files beside those of the farm.

    Raises:
        ProblemsError: anything wrong in the farm or a weather file, all of it at once.
    """
    owner, farm = checked(folder, on)
    records = _records(folder, asked_for(farm, on), files)
    figures = figures_of(owner, farm, on, records=records)
    said = words.load("en", farm.about.units)
    context = Context(figures, said, {}, frozenset())
    season = figures.season
    if season is None:
        return Told(context.w("season.cli_none", folder=f"{folder.name}/{WEATHER}/"), (), ())
    files_said = tuple(
        (season_text.lines_of(context, one), season_text.tables(context, one))
        for one in season.seasons
    )
    together = mends_text.tables_of_all(context, season)
    return Told(season_text.head_of(context, season), files_said, together)


def _records(folder: Path, asked: Asked, files: Sequence[Path]) -> tuple[Record, ...]:
    faults = Faults()
    own = faults.of(read_folder, folder / WEATHER, asked) or ()
    more = faults.of(read_files, files, asked) or ()
    if faults.problems:
        raise ProblemsError(faults.problems)
    return (*own, *more)
