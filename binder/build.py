"""The whole program in five steps: read, check, figure, compose, write."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from binder import packs
from binder.data import CONTENT
from binder.farm.check import check
from binder.farm.load import WEATHER, read_folder
from binder.farm.logbook.entries import read_logs
from binder.figures.figures import work_out
from binder.output.handed import ledger_file
from binder.output.write import write, write_papers
from binder.pages.art.pictures import ready
from binder.pages.compose import compose
from binder.pages.text.protocol_file import load_texts
from binder.problems import Faults, ProblemsError
from binder.weather.hours import parse_hours
from binder.weather.read import HOURS, Asked, read_files
from binder.weather.read import read_folder as read_hours

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from binder.farm.load import Written
    from binder.farm.model import Farm
    from binder.figures.figures import Figures
    from binder.figures.weather.daylight import DayAir
    from binder.output.write import Built, Options, Papers, Progress
    from binder.pages.page import Book, Paper
    from binder.weather.record import Record


def build(folder: Path, to: Path, on: dt.date, options: Options, progress: Progress) -> Built:
    """Turn the farm folder into a binder in `to`, as the farm stands on `on`.

    Nothing is written until everything is composed: a failed build leaves the last one whole.

    Raises:
        ProblemsError: anything wrong in the farm folder or the content, all of it at once.
    """
    made = composed(folder, on, options.language)
    papers = () if options.site_only else packs.due(made.owner, made.figures.farm, on)
    options = replace(options, as_of=other_days(folder, options.language))
    return write(replace(made.book, papers=papers), to, folder, options, progress)


def other_days(folder: Path, language: str = "") -> Callable[[str], Book | None]:
    """Return what makes the binder of a farm folder for a day gone by, each day once."""

    @cache
    def made(day: str) -> Book | None:
        try:
            return composed(folder, dt.date.fromisoformat(day), language).book
        except ProblemsError:  # the farm as it is today was not possible then
            return None

    return made


def build_pack(folder: Path, to: Path, on: dt.date, name: str, options: Options) -> Papers:
    """Write the papers of one stay below `to`, and leave every other file there as it is.

    Args:
        folder: the farm folder.
        to: the output folder.
        on: the day of the build.
        name: the id of the stay.
        options: how to print.

    Raises:
        ProblemsError: anything wrong in the farm folder or the content; no such stay.
    """
    owner, farm = checked(folder, on)
    return write_papers(packs.named(owner, farm, on, name), to, (folder, CONTENT), options)


def papers_of(folder: Path, on: dt.date) -> tuple[Paper, ...]:
    """Return the packs that are due on a day, composed and not yet written.

    Raises:
        ProblemsError: anything wrong in the farm folder or the content.
    """
    return packs.due(*checked(folder, on), on)


def book_of(folder: Path, on: dt.date) -> Book:
    """Return the binder of a farm folder, composed and not yet written: steps 1 to 4.

    Raises:
        ProblemsError: anything wrong in the farm folder or the content, all of it at once.
    """
    return composed(folder, on).book


@dataclass(frozen=True, slots=True)
class Composed:
    """What steps 1 to 4 make of a farm folder; `binder check` stops here, `build` writes it.

    Attributes:
        owner: what the owner wrote.
        figures: worked out for the farm.
        book: its binder.
    """

    owner: Written
    figures: Figures
    book: Book


def composed(folder: Path, on: dt.date, language: str = "") -> Composed:
    """Return all that is made of a farm folder before anything is written: steps 1 to 4.

    A step goes on without the file that it cannot read, so that one run names what is wrong in
    all of them: farm files, weather record, protocols, pictures, logs and ledger.

    Raises:
        ProblemsError: anything wrong in the farm folder or the content, all of it at once.
    """
    owner = read_folder(folder)
    faults = Faults()
    faults.of(ledger_file.load, folder)
    weather = owner.weather
    if weather and faults.of(parse_hours, weather, WEATHER) is None:
        weather = None
    protocols = {
        name: text
        for name, text in owner.protocols.items()
        if faults.of(load_texts, {name: text}, owner=True) is not None
    }
    readable = replace(owner, weather=weather, protocols=protocols)
    farm = faults.of(check, owner, _latest(on))
    if farm and language:
        about = farm.about.model_copy(update={"language": language})
        farm = farm.model_copy(update={"about": about})
    faults.of(read_logs, folder, None if farm is None else [pen.id for pen in farm.pens])
    records = faults.of(weather_of, folder, farm, on) if farm else None
    figures = None
    if farm:
        figures = faults.of(figures_of, readable, farm, on, records=records or ())
    if farm and figures:
        pictures = owner.pictures_folder
        book = faults.of(compose, figures, protocols, pictures)
        if book and not faults.problems:
            return Composed(owner, figures, book)
        faults.of(ready, pictures, [pen.picture for pen in farm.pens if pen.picture])
    raise ProblemsError(faults.problems)


def checked(folder: Path, on: dt.date) -> tuple[Written, Farm]:
    """Return what the owner wrote and the farm that it says: steps 1 and 2.

    A binder may be made for a day gone by, so records go up to today whatever the day.

    Raises:
        ProblemsError: anything wrong in the farm's files, all of it at once.
    """
    owner = read_folder(folder)
    return owner, check(owner, _latest(on))


def weather_of(
    folder: Path, farm: Farm, on: dt.date, files: Sequence[Path] = ()
) -> tuple[Record, ...]:
    """Return the hours of a farm's weather files, to play its season through.

    Args:
        folder: of the farm; what its `weather/` holds is read.
        farm: the same, checked.
        on: the day; a typical year is played in its year.
        files: weather files from elsewhere, beside those.

    Raises:
        ProblemsError: all that is wrong with any of them.
    """
    asked = Asked(farm.about.place.timezone or "", on.year, _latest(on))
    faults = Faults()
    own = faults.of(read_hours, folder / HOURS, asked) or ()
    more = faults.of(read_files, files, asked) or ()
    if faults.problems:
        raise ProblemsError(faults.problems)
    return (*own, *more)


def _latest(on: dt.date) -> dt.date:
    """Return the last day on which something in the records can have happened."""
    return max(on, dt.datetime.now().astimezone().date())


def figures_of(
    owner: Written,
    farm: Farm,
    on: dt.date,
    air: DayAir | None = None,
    records: Sequence[Record] = (),
) -> Figures:
    """Return the figures of a farm on a day: step 3.

    Args:
        owner: what the owner wrote, for the weather record and for lines of files.
        farm: the same, checked.
        on: the day.
        air: that day's own air, in place of the farm's typical hot day.
        records: the farm's weather files, to play its season through.

    Raises:
        ProblemsError: what is wrong in the weather, with its file and line.
    """
    with owner.naming_lines():
        return work_out(farm, on, owner.weather, air, records)
