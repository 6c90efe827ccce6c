"""From a weather file to its record of hours; the one place that opens such a file."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from binder.problems import Faults, Place, Problem, ProblemsError, quotable
from binder.weather.hours import hour_of, sheet_of
from binder.weather.raw import Raw, Sheet, farm_clock
from binder.weather.record import Hole, Record
from binder.weather.sense import HOUR, judge
from binder.writing import leads_inside

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

MOST_BYTES = 8_000_000  # our choice: the largest year we have seen is a quarter of it
HOURS = "weather"  # the folder of a farm that holds them
OUT = "is a link that leads out of the farm folder; put the file itself there"
ENDINGS = (".csv", ".txt", ".epw", ".tm2", ".tmy3")


@dataclass(frozen=True, slots=True)
class Asked:
    """What hours are put to: the clock of the farm, and the days they can be of.

    Attributes:
        zone: the farm's time zone, empty where it is not recorded.
        year: the year that a typical year is played in.
        latest: the last day on which anything can have been measured.
    """

    zone: str
    year: int
    latest: dt.date


def read_folder(folder: Path, asked: Asked) -> tuple[Record, ...]:
    """Return the records of every weather file in a folder, by name; none where it is missing.

    Raises:
        ProblemsError: all that is wrong with any of them.
    """
    if not folder.is_dir():
        return ()
    paths = sorted(path for path in folder.iterdir() if path.suffix.lower() in ENDINGS)
    led_out = [path for path in paths if not leads_inside(folder.parent, path)]
    if led_out:
        places = (Place(f"{folder.name}/{quotable(path.name)}") for path in led_out)
        raise ProblemsError(Problem(place, "", OUT) for place in places)
    return read_files(paths, asked, f"{folder.name}/")


def read_files(paths: Iterable[Path], asked: Asked, inside: str = "") -> tuple[Record, ...]:
    """Return the records of weather files, in their order.

    Args:
        paths: where they lie.
        asked: what their hours are put to.
        inside: the folder of the farm that they lie in, as problems name it.

    Raises:
        ProblemsError: all that is wrong with any of them.
    """
    faults = Faults()
    found = [faults.of(read_file, path, asked, inside) for path in paths]
    if faults.problems:
        raise ProblemsError(faults.problems)
    return tuple(record for record in found if record is not None)


def read_file(path: Path, asked: Asked, inside: str = "") -> Record:
    """Return the record of one weather file; what is wrong names it with `inside` before.

    Raises:
        ProblemsError: what is wrong with it.
    """
    name = f"{inside}{quotable(path.name)}"
    if path.exists() and not path.is_file():  # a pipe would be waited for without end
        raise ProblemsError([Problem(Place(name), "", "is not a file")])
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            message = (
                f"is {size / 1e6:,.0f} MB; a year of hours is {MOST_BYTES / 1e6:.0f} MB at most"
            )
            raise ProblemsError([Problem(Place(name), "", message)])
        raw = path.read_bytes()
    except OSError as error:
        raise ProblemsError([Problem(Place(name), "", "cannot be opened")]) from error
    return replace(read_text(_text(raw, name), name, asked), file=quotable(path.name))


def _text(raw: bytes, name: str) -> str:
    if b"\0" in raw:
        raise ProblemsError([Problem(Place(name), "", "is no text: it holds zero bytes")])
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("latin-1")  # old station files: only their notes are not ASCII


def read_text(text: str, name: str, asked: Asked) -> Record:
    """Return the record of a file's text, its hours on the farm's own clock.

    Raises:
        ProblemsError: what is wrong with it.
    """
    lines = text.splitlines()
    if not any(line.strip() for line in lines):
        raise ProblemsError([Problem(Place(name), "", "is empty")])
    sheet = sheet_of(lines, name)
    judge(sheet, name, asked.latest)
    return _record(sheet, name, asked)


def _record(sheet: Sheet, name: str, asked: Asked) -> Record:
    years = tuple(sorted({row.at.year for row in sheet.rows}))
    is_typical = len(years) > 1 and sheet.site is not None
    rows = sorted(sheet.rows, key=lambda row: row.at)
    if is_typical:
        rows = sorted(
            sheet.rows,
            key=lambda row: row.at.replace(
                year=asked.year if not _leap_day(row) else row.at.year
            ),
        )
    hours = []
    stamps = []
    for row in rows:
        at = row.at
        if is_typical:
            if _leap_day(row):
                continue  # a typical year has none; a stray one has no day to stand on
            at = at.replace(year=asked.year)
        stamps.append(at)
        when = farm_clock(at, asked.zone) if sheet.is_standard else at
        hours.append(hour_of(row, when))
    return Record(name, sheet.format, sheet.site, tuple(hours), _holes(stamps), years)


def _leap_day(row: Raw) -> bool:
    return (row.at.month, row.at.day) == (2, 29)


def _holes(stamps: Sequence[dt.datetime]) -> tuple[Hole, ...]:
    """Return where hours are missing between the first and the last."""
    found = []
    for before, after in pairwise(stamps):
        lost = round((after - before) / HOUR) - 1
        if lost > 0:
            found.append(Hole(before + HOUR, lost))
    return tuple(found)
