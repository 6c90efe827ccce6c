"""Reads a farm's own weather record: hourly CSV, or EPW, an open weather format (step 3).

Text in, readings out; every unreadable line is named.
"""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass

from binder import units
from binder.problems import Place, Problem, ProblemsError, did_you_mean
from binder.science.humidity import DRIEST_FOR_DEW_POINT_PCT, dew_point_c
from binder.science.ranges import require_within
from binder.units import Amount
from binder.weather.record import Hour

TIME, TEMPERATURE, DEW_POINT, HUMIDITY = "time", "temperature", "dew_point", "humidity"
COLUMNS = (TIME, TEMPERATURE, DEW_POINT, HUMIDITY)
KINDS = {TEMPERATURE: "temperature", DEW_POINT: "temperature", HUMIDITY: "share"}
# Our choice: what the formulas take, and beyond what a farm's thermometer meets.
COLDEST_C, HOTTEST_C = -40.0, 50.0
SLACK_C = 1.0  # our choice: two sensors may disagree by so much before a reading is refused

EPW_FIRST_WORD = "LOCATION"
EPW_HEAD_LINES = 8  # lines before the data in an EPW file
EPW_COLUMNS = 9  # columns a line needs so that the humidity is there
EPW_MISSING = 99.9  # how the format writes a missing temperature

_HEADING = re.compile(r"(?P<name>[a-z]+(?:[ _]point)?)[ _]*[(\[]?(?P<unit>[^)\]]*)[)\]]?")
_BARE = re.compile(r"-?\d+(\.\d+)?")


HourRow = Hour  # a reading of the farm's record is an hour like that of any weather file


@dataclass(frozen=True, slots=True)
class _Column:
    """Where a column stands, and the unit its heading gives (empty: the values carry it)."""

    place: int
    unit: str


def parse_hours(text: str, name: str) -> tuple[HourRow, ...]:
    """Return the readings of a weather record, in the order of the file.

    Args:
        text: what the file says: CSV with the columns time, temperature, and dew_point or
            humidity, the units in the heading (`temperature (F)`) or the values (`96 F`); or
            EPW. Lines without a reading are passed over.
        name: the file as the owner knows it.

    Raises:
        ProblemsError: everything unreadable, line by line.
    """
    lines = text.removeprefix("\ufeff").splitlines()
    if lines and lines[0].startswith(EPW_FIRST_WORD):
        return _parse_epw(lines, name)
    return _parse_csv(lines, name)


def _cells(line: str) -> list[str]:
    return [cell.strip().strip('"').strip() for cell in line.split(",")]


def _reading(when: dt.datetime, temp_c: float, dew_c: float) -> HourRow:
    """Return a checked reading.

    Raises:
        ValueError: air outside what the formulas take, or a dew point clearly above the air.
    """
    require_within(temp_c, COLDEST_C, HOTTEST_C, "air temperature", "C")
    if dew_c > temp_c + SLACK_C:
        dew, air = (units.show_both(Amount(c, "degC"), "us") for c in (dew_c, temp_c))
        message = f"the dew point {dew} is above the air temperature {air}, which cannot be"
        raise ValueError(message)
    dew_c = min(dew_c, temp_c)
    require_within(dew_c, COLDEST_C, HOTTEST_C, "dew point", "C")
    return HourRow(when, temp_c, dew_c)


def _heading(line: str, name: str) -> dict[str, _Column]:
    """Return where each column stands.

    Raises:
        ProblemsError: a column is missing.
    """
    found: dict[str, _Column] = {}
    read: list[str] = []
    for place, cell in enumerate(_cells(line)):
        match = _HEADING.fullmatch(cell.lower())
        column = match["name"].replace(" ", "_") if match else cell
        read.append(column)
        if match and column in COLUMNS:
            found.setdefault(column, _Column(place, match["unit"].strip()))
    here = Place(name, 1, 1)
    problems = [
        Problem(here, needed, f"has no column{_nearest(needed, read)}")
        for needed in (TIME, TEMPERATURE)
        if needed not in found
    ]
    if DEW_POINT not in found and HUMIDITY not in found:
        message = f"has no column, nor humidity{_nearest(DEW_POINT, read)}"
        problems.append(Problem(here, DEW_POINT, message))
    if problems:
        raise ProblemsError(problems)
    return found


def _nearest(needed: str, read: list[str]) -> str:
    named = did_you_mean(needed, [column for column in read if column])
    return named if "did you mean" in named else f"; the first line is {', '.join(read)}"


def _time_of(text: str) -> dt.datetime:
    """Return the local time of a reading.

    Raises:
        ValueError: not such a time, or one that carries a time zone.
    """
    try:
        when = dt.datetime.fromisoformat(text)
    except ValueError:
        message = f'"{text}" is not a time; write it like 2026-07-14 15:00'
        raise ValueError(message) from None
    if when.tzinfo is not None:
        message = f'"{text}" carries a time zone; write the farm\'s own clock: 2026-07-14 15:00'
        raise ValueError(message)
    return when


def _amount(text: str, column: str, unit: str) -> float:
    """Return a value in its kept unit; the heading's unit where the value has none.

    Raises:
        units.UnitError: not such a quantity.
    """
    given = f"{text} {unit}" if unit and _BARE.fullmatch(text) else text
    return units.parse(given, KINDS[column])


def _parse_csv(lines: list[str], name: str) -> tuple[HourRow, ...]:
    columns = _heading(lines[0] if lines else "", name)
    moisture = DEW_POINT if DEW_POINT in columns else HUMIDITY
    rows: list[HourRow] = []
    problems: list[Problem] = []
    for number, line in enumerate(lines[1:], start=2):
        cells = _cells(line)
        cells += [""] * (1 + max(column.place for column in columns.values()) - len(cells))
        values = {key: cells[column.place] for key, column in columns.items()}
        if not (values[TIME] and values[TEMPERATURE] and values[moisture]):
            continue
        try:
            temp_c = _amount(values[TEMPERATURE], TEMPERATURE, columns[TEMPERATURE].unit)
            damp = _amount(values[moisture], moisture, columns[moisture].unit)
            if moisture == HUMIDITY:
                damp = dew_point_c(temp_c, max(damp, DRIEST_FOR_DEW_POINT_PCT))
            rows.append(_reading(_time_of(values[TIME]), temp_c, damp))
        except ValueError as error:
            problems.append(Problem(Place(name, number, 1), "", str(error)))
    if problems:
        raise ProblemsError(problems)
    return tuple(rows)


def _parse_epw(lines: list[str], name: str) -> tuple[HourRow, ...]:
    rows: list[HourRow] = []
    problems: list[Problem] = []
    for number, line in enumerate(lines[EPW_HEAD_LINES:], start=EPW_HEAD_LINES + 1):
        cells = _cells(line)
        if cells == [""]:
            continue
        try:
            row = _epw_reading(cells)
        except ValueError as error:
            problems.append(Problem(Place(name, number, 1), "", str(error)))
            continue
        rows += [row] if row else []
    if problems:
        raise ProblemsError(problems)
    return tuple(rows)


def _epw_reading(cells: list[str]) -> HourRow | None:
    """Return the reading of one data line, None where it is marked as missing.

    Raises:
        ValueError: a line that is not such data.
    """
    if len(cells) < EPW_COLUMNS:
        message = f"has {len(cells)} columns; a line of hourly data has at least {EPW_COLUMNS}"
        raise ValueError(message)
    year, month, day, hour = (int(cell) for cell in cells[:4])
    temp_c, dew_c = float(cells[6]), float(cells[7])
    if EPW_MISSING in (temp_c, dew_c):
        return None
    # Hour 1 of the format is the hour that ends at 1:00.
    return _reading(dt.datetime(year, month, day, hour - 1), temp_c, dew_c)  # noqa: DTZ001
