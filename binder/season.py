"""A farm played through its weather files, as `binder season` asks for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.build import checked, figures_of, weather_of
from binder.pages.context import Context
from binder.pages.season import mends_text, season_text
from binder.pages.text import words
from binder.weather.read import HOURS

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence
    from pathlib import Path

    from binder.pages.season.season_text import TextTable


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
    records = weather_of(folder, farm, on, files)
    figures = figures_of(owner, farm, on, records=records)
    said = words.of(farm)
    context = Context(figures, said, {}, frozenset())
    season = figures.season
    if season is None:
        return Told(context.w("season.cli_none", folder=f"{folder.name}/{HOURS}/"), (), ())
    files_said = tuple(
        (season_text.lines_of(context, one), season_text.tables(context, one))
        for one in season.seasons
    )
    together = mends_text.tables_of_all(context, season)
    return Told(season_text.head_of(context, season), files_said, together)
