"""The table of a farm's own logger: columns named by their heading, with the unit in it.

`time`, `temperature (F)`, and `humidity (%)` or `dew point (F)`; `wind (mph)` and `sun (W/m2)`
where there are any. Commas, or semicolons with decimal commas. The time is the farm's own
clock; `time (standard)` says that the logger keeps standard time all year.
"""

from __future__ import annotations

import csv
import datetime as dt
import io
import re
from dataclasses import dataclass

from binder import units
from binder.problems import Place, Problem, ProblemsError, did_you_mean, quotable
from binder.weather.raw import Raw, Sheet
from binder.weather.record import LOGGER

TIME, TEMPERATURE, DEW_POINT, HUMIDITY, WIND, SUN = COLUMNS = (
    "time", "temperature", "dew point", "humidity", "wind", "sun",
)  # fmt: skip
KINDS = {
    TEMPERATURE: "temperature", DEW_POINT: "temperature", HUMIDITY: "share", WIND: "speed",
    SUN: "sunlight",
}  # fmt: skip
STANDARD = "standard"
ORDERS = {
    "month/day/year": "%m/%d/%Y %H:%M",
    "day/month/year": "%d/%m/%Y %H:%M",
    "day.month.year": "%d.%m.%Y %H:%M",
}
HOUR, ON_THE_HOUR = "hour", ":00"  # of a table for a single day
SEMICOLON, COMMA = ";", ","
_HEADING = re.compile(
    r"(?P<name>[a-z]+(?:[ _]point)?)\s*(?:[(\[](?P<unit>[^)\]]*)[)\]]|(?P<bare>\S+))?"
)
_BARE = re.compile(r"-?\d+(\.\d+)?")


@dataclass(frozen=True, slots=True)
class _Column:
    """Where a column stands, the unit of its heading, and its line to the kept unit."""

    place: int
    unit: str
    factor: float = 1.0
    offset: float = 0.0


def read_logger(lines: list[str], name: str) -> Sheet:
    """Return the rows of a logger's table; lines without a reading are passed over.

    Raises:
        ProblemsError: a column that is missing, an unknown unit.
    """
    sign = _sign(lines[0])
    columns = _columns(_cells(lines[0], sign), name)
    order = columns[TIME].unit
    rows: list[Raw] = []
    problems: list[Problem] = []
    for number, line in enumerate(lines[1:], start=2):
        cells = _cells(line, sign)
        if sign == SEMICOLON:
            cells = [cell.replace(COMMA, ".") for cell in cells]
        try:
            row = _row(number, cells, columns, order)
        except ValueError as error:
            problems.append(Problem(Place(name, number, 1), "", str(error)))
            continue
        if row is not None:
            rows.append(row)
    standard = order.startswith(STANDARD)
    unit = columns[TEMPERATURE].unit.upper()
    return Sheet(LOGGER, tuple(rows), None, standard, unit, tuple(problems))


def dated(lines: list[str], on: dt.date) -> list[str]:
    """Return a table of one day's hours with times in place of its column `hour`.

    Args:
        lines: `15` or `15:00` in that column; a table without it, or with times, stays.
        on: the day.
    """
    sign = _sign(lines[0])
    heads = _cells(lines[0].lower(), sign)
    if HOUR not in heads or TIME in heads:
        return lines
    place = heads.index(HOUR)
    rows = [_cells(line, sign) for line in lines]
    rows[0][place] = TIME
    for cells in rows[1:]:
        if place < len(cells) and (hour := cells[place]):
            clock = hour if ":" in hour else f"{hour}{ON_THE_HOUR}"
            cells[place] = f"{on.isoformat()} {clock.zfill(len('00:00'))}"
    text = io.StringIO()
    csv.writer(text, delimiter=sign, lineterminator="\n").writerows(rows)
    return text.getvalue().splitlines()


def _sign(head: str) -> str:
    """Return what parts the cells of a table, by its first line."""
    return SEMICOLON if SEMICOLON in head else COMMA


def _cells(line: str, sign: str) -> list[str]:
    return [cell.strip() for cell in next(csv.reader([line], delimiter=sign), [])]


def _columns(heads: list[str], name: str) -> dict[str, _Column]:
    """Return where each column stands.

    Raises:
        ProblemsError: a column is missing, or a unit is none of its kind.
    """
    found: dict[str, _Column] = {}
    read: list[str] = []
    problems: list[Problem] = []
    here = Place(name, 1, 1)
    for place, head in enumerate(heads):
        column, unit = _head(head)
        read.append(column)
        if column not in COLUMNS or column in found:
            continue
        try:
            found[column] = _column(column, place, unit)
        except ValueError as error:
            problems.append(Problem(here, column, str(error)))
            found[column] = _Column(place, unit)
    for needed in (TIME, TEMPERATURE):
        if needed not in found:
            problems.append(Problem(here, needed, f"has no column{_like(needed, read)}"))
    if DEW_POINT not in found and HUMIDITY not in found:
        message = f"has no column, nor dew point{_like(HUMIDITY, read)}"
        problems.append(Problem(here, HUMIDITY, message))
    if problems:
        raise ProblemsError(problems)
    return found


def _head(head: str) -> tuple[str, str]:
    """Return a heading's column and its unit; the whole of it where it is no column of ours."""
    match = _HEADING.fullmatch(head.lower())
    if match is None:
        return head, ""
    column = match["name"].replace("_", " ")
    if match["bare"] and not _is_unit(column, match["bare"]):
        return head, ""  # `temperature max` is another column
    return column, (match["unit"] or match["bare"] or "").strip()


def _is_unit(column: str, text: str) -> bool:
    """Return whether a word behind a heading, without brackets, is a unit of its column."""
    try:
        return column in KINDS and bool(_column(column, 0, text))
    except ValueError:
        return False


def _like(needed: str, read: list[str]) -> str:
    near = did_you_mean(needed, [column for column in read if column])
    heads = ", ".join(quotable(column) for column in read)
    return near if "did you mean" in near else f"; the first line is {heads}"


def _column(column: str, place: int, unit: str) -> _Column:
    """Return a column with the line from its unit to ours.

    Raises:
        ValueError: a unit that is none of its kind.
    """
    if column == TIME:
        if unit and not unit.startswith(STANDARD) and unit not in ORDERS:
            message = f'"{quotable(unit)}" says nothing about the time'
            raise ValueError(message + did_you_mean(unit, (STANDARD, *ORDERS)))
        return _Column(place, unit)
    if not unit:
        return _Column(place, "")
    zero, ten = (units.parse(f"{n} {unit}", KINDS[column]) for n in (0, 10))
    return _Column(place, unit, (ten - zero) / 10, zero)


def _row(number: int, cells: list[str], columns: dict[str, _Column], order: str) -> Raw | None:
    """Return a reading, None for a line without one.

    Raises:
        ValueError: a value that cannot be read.
    """

    def cell(column: str) -> str:
        at = columns[column].place if column in columns else len(cells)
        return cells[at] if at < len(cells) else ""

    def amount(column: str) -> float | None:
        text = cell(column)
        return _amount(text, column, columns[column]) if text else None

    temp_c, dew_c, rh_pct = amount(TEMPERATURE), amount(DEW_POINT), amount(HUMIDITY)
    if not cell(TIME) or temp_c is None or (dew_c is None and rh_pct is None):
        return None
    at = _time(cell(TIME), order)
    return Raw(
        number,
        at,
        temp_c,
        dew_c,
        None if dew_c is not None else rh_pct,
        amount(WIND),
        amount(SUN),
    )


def _amount(text: str, column: str, head: _Column) -> float:
    """Return a value in its kept unit; the heading's unit where it carries none.

    Raises:
        ValueError: not such a quantity.
    """
    if head.unit and _BARE.fullmatch(text):
        return head.factor * float(text) + head.offset
    return units.parse(text, KINDS[column])


def _time(text: str, order: str) -> dt.datetime:
    """Return the time of a reading as the logger's clock has it.

    Raises:
        ValueError: no time, or one with a time zone.
    """
    try:
        if order in ORDERS:
            return dt.datetime.strptime(text, ORDERS[order])  # noqa: DTZ007 -- the farm's clock
        when = dt.datetime.fromisoformat(text)
    except ValueError:
        like = dt.datetime(2026, 7, 14, 15).strftime(ORDERS.get(order, "%Y-%m-%d %H:%M"))  # noqa: DTZ001
        message = f'"{quotable(text)}" is not a time; write it like {like}'
        if "/" in text and order not in ORDERS:
            message += ", or head the column time (month/day/year)"
        raise ValueError(message) from None
    if when.tzinfo is not None:
        message = f'"{quotable(text)}" carries a time zone; write the farm\'s own clock'
        raise ValueError(message)
    return when
