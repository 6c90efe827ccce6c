"""Three open formats of whole years: EPW, and the typical years TMY3 and TM2.

Their hours end at the hour they are named by, so that hour 1 is the one from midnight to one.
EPW: the format of building simulation, columns in their published order, 99.9 for a missing
temperature. TMY3: a line about the place, a line of headings, then hours. TM2: fixed columns,
temperatures and wind in tenths, 9999 for a missing one.
"""

from __future__ import annotations

import csv
import datetime as dt
from typing import TYPE_CHECKING

from binder.problems import Place, Problem, ProblemsError, did_you_mean, quotable
from binder.weather.raw import Raw, Sheet
from binder.weather.record import EPW, TM2, TMY3, Site

if TYPE_CHECKING:
    from collections.abc import Callable

EPW_HEAD, EPW_COLUMNS = 8, 22  # lines before the data; columns up to the wind
EPW_MISSING_C, EPW_MISSING_WIND, EPW_MISSING_SUN = 99.9, 99.0, 9999.0
TMY3_COLUMNS = {
    "at": "Date (MM/DD/YYYY)", "hour": "Time (HH:MM)", "temp": "Dry-bulb (C)",
    "dew": "Dew-point (C)", "wind": "Wspd (m/s)", "sun": "GHI (W/m^2)",
}  # fmt: skip
TMY3_MISSING = -9900.0
# Where TM2 keeps what is read here, from and to, counted from nought.
TM2_SUN, TM2_TEMP, TM2_DEW, TM2_WIND = (17, 21), (67, 71), (73, 77), (95, 98)
TM2_LENGTH, TM2_MISSING, TENTHS = 140, 9999, 10.0
CENTURY = 1900
MOST_TOLD = 20  # lines named one by one before the rest are counted: our choice
CLOCK_HOURS = range(1, 25)


class _LineError(ValueError):
    """A line that is not what the format says."""


def read_epw(lines: list[str], name: str) -> Sheet:
    """Return the rows of an EPW file; hours marked as missing are left out.

    Raises:
        ProblemsError: a head that is not the format's.
    """
    head = _cells(lines[0])
    if len(head) < len("LOCATION") + 2:
        raise ProblemsError([Problem(Place(name, 1, 1), "LOCATION", _few(len(head), 10))])
    site = _site(name, head[1], head[6], head[7])
    return _typical(EPW, _rows(lines, EPW_HEAD, name, _epw), site)


def _epw(number: int, line: str) -> Raw | None:
    cells = _cells(line)
    if len(cells) < EPW_COLUMNS:
        raise _LineError(_few(len(cells), EPW_COLUMNS))
    year, month, day, hour = (int(cell) for cell in cells[:4])
    temp_c, dew_c = float(cells[6]), float(cells[7])
    if EPW_MISSING_C in (temp_c, dew_c):
        return None
    wind, sun = float(cells[21]), float(cells[13])
    return Raw(
        number, _at(year, month, day, hour), temp_c, dew_c, None,
        None if wind >= EPW_MISSING_WIND else wind, None if sun >= EPW_MISSING_SUN else sun,
    )  # fmt: skip


def read_tmy3(lines: list[str], name: str) -> Sheet:
    """Return the rows of a TMY3 file; hours marked as missing are left out.

    Raises:
        ProblemsError: a column that is missing.
    """
    head, columns = _cells(lines[0]), _cells(lines[1])
    missing = [each for each in TMY3_COLUMNS.values() if each not in columns]
    if missing:
        raise ProblemsError(
            Problem(Place(name, 2, 1), each, f"has no column{did_you_mean(each, columns)}")
            for each in missing
        )
    site = _site(name, f"{head[1]}, {head[2]}", head[4], head[5])
    place = {key: columns.index(text) for key, text in TMY3_COLUMNS.items()}

    def row(number: int, line: str) -> Raw | None:
        cells = _cells(line)
        if len(cells) < len(columns):
            raise _LineError(_few(len(cells), len(columns)))
        month, day, year = (int(part) for part in cells[place["at"]].split("/"))
        hour = int(cells[place["hour"]].partition(":")[0])
        values = [float(cells[place[key]]) for key in ("temp", "dew", "wind", "sun")]
        temp_c, dew_c, wind, sun = (None if v <= TMY3_MISSING else v for v in values)
        if temp_c is None or dew_c is None:
            return None
        return Raw(number, _at(year, month, day, hour), temp_c, dew_c, None, wind, sun)

    return _typical(TMY3, _rows(lines, 2, name, row), site)


def read_tm2(lines: list[str], name: str) -> Sheet:
    """Return the rows of a TM2 file; hours marked as missing are left out.

    Raises:
        ProblemsError: a head that is not the format's.
    """
    head = lines[0]
    north, north_min, east, east_min = (
        head[a:b] for a, b in ((39, 41), (42, 44), (47, 50), (51, 53))
    )
    try:
        latitude = (int(north) + int(north_min) / 60) * (1 if head[37] == "N" else -1)
        longitude = (int(east) + int(east_min) / 60) * (1 if head[45] == "E" else -1)
    except ValueError:
        message = "does not say where the place lies, as the first line of TM2 does"
        raise ProblemsError([Problem(Place(name, 1, 1), "", message)]) from None
    town = f"{head[7:29].strip()}, {head[30:32].strip()}"
    site = Site(quotable(town), latitude, longitude)
    return _typical(TM2, _rows(lines, 1, name, _tm2), site)


def _tm2(number: int, line: str) -> Raw | None:
    if len(line) < TM2_LENGTH:
        message = f"has {len(line)} signs; a line of TM2 has {TM2_LENGTH} or more"
        raise _LineError(message)
    year, month, day, hour = (int(line[a:b]) for a, b in ((1, 3), (3, 5), (5, 7), (7, 9)))
    sun, temp, dew, wind = (int(line[a:b]) for a, b in (TM2_SUN, TM2_TEMP, TM2_DEW, TM2_WIND))
    if TM2_MISSING in (temp, dew):
        return None
    has_wind, has_sun = wind != TM2_MISSING // 10, sun != TM2_MISSING
    return Raw(
        number, _at(CENTURY + year, month, day, hour), temp / TENTHS, dew / TENTHS, None,
        wind / TENTHS if has_wind else None, float(sun) if has_sun else None,
    )  # fmt: skip


def _typical(form: str, read: tuple[tuple[Raw, ...], tuple[Problem, ...]], site: Site) -> Sheet:
    rows, faults = read
    return Sheet(form, rows, site, is_standard=True, temp_unit="C", faults=faults)


def _cells(line: str) -> list[str]:
    if '"' not in line:  # as nearly every line of hours is: several times as fast
        return line.split(",")
    return [cell.strip() for cell in next(csv.reader([line]), [])]


def _site(name: str, town: str, latitude: str, longitude: str) -> Site:
    try:
        return Site(quotable(town), float(latitude), float(longitude))
    except ValueError:
        message = f'"{quotable(latitude)}, {quotable(longitude)}" is not latitude and longitude'
        raise ProblemsError([Problem(Place(name, 1, 1), "", message)]) from None


def _at(year: int, month: int, day: int, hour: int) -> dt.datetime:
    """Return when an hour begins that is named by its end.

    Raises:
        ValueError: no such hour.
    """
    if hour not in CLOCK_HOURS:
        message = f"hour {hour} is none of 1 to 24"
        raise _LineError(message)
    return dt.datetime(year, month, day, hour - 1)  # noqa: DTZ001 -- the clock of the file


def _few(found: int, needed: int) -> str:
    return f"has {found} columns; a line of this format has at least {needed}"


def _rows(
    lines: list[str], head: int, name: str, row: Callable[[int, str], Raw | None]
) -> tuple[tuple[Raw, ...], tuple[Problem, ...]]:
    """Return the rows below the head of a file, and the lines that are none.

    Empty lines and missing hours are left out.
    """
    found: list[Raw] = []
    problems: list[Problem] = []
    for number, line in enumerate(lines[head:], start=head + 1):
        if not line.strip():
            continue
        try:
            one = row(number, line)
        except ValueError as error:
            said = (
                str(error)
                if isinstance(error, _LineError)
                else f"is not a line of data: {quotable(str(error))}"
            )
            problems.append(Problem(Place(name, number, 1), "", said))
            continue
        if one is not None:
            found.append(one)
    return tuple(found), tuple(problems)


def told(problems: list[Problem], name: str) -> list[Problem]:
    """Return the first problems one by one, and how many more lines there are."""
    more = len(problems) - MOST_TOLD
    if more <= 0:
        return problems
    rest = Problem(Place(name), "", f"has {more:,} more lines like these")
    return [*problems[:MOST_TOLD], rest]
