"""The text of a weather file into hours, whatever its format; opens no file.

The farm's own record of days, a forecast and the files of a season are read here alike.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.science.humidity import DRIEST_FOR_DEW_POINT_PCT, FULL_RH_PCT, dew_point_c
from binder.weather.logger import dated, read_logger
from binder.weather.raw import farm_clock
from binder.weather.record import Hour
from binder.weather.sense import COLDEST_C, by_line
from binder.weather.typical import read_epw, read_tm2, read_tmy3

if TYPE_CHECKING:
    import datetime as dt

    from binder.weather.raw import Raw, Sheet

EPW_WORD, TMY3_WORD = "LOCATION", "Date (MM/DD/YYYY)"
TM2_LETTERS = frozenset("NS")
TM2_HEMISPHERE = 37  # where the first line of TM2 has N or S


def parse_hours(text: str, name: str, zone: str = "") -> tuple[Hour, ...]:
    """Return the hours of a text in the order of the file, of any step and any years.

    For the farm's own record of days and for a forecast, where single hours count; a season
    asks more of a file, `read_text`.

    Args:
        text: what the file says, in any of the formats.
        name: the file as the owner knows it.
        zone: the farm's time zone, for a file that keeps standard time all year; empty leaves
            its times as they are.

    Raises:
        ProblemsError: a column that is missing, or everything wrong, line by line.
    """
    sheet = sheet_of(text.removeprefix("\ufeff").splitlines() or [""], name)
    by_line(sheet, name)
    return tuple(
        hour_of(row, farm_clock(row.at, zone) if sheet.is_standard else row.at)
        for row in sheet.rows
    )


def parse_day(text: str, name: str, on: dt.date) -> tuple[Hour, ...]:
    """Return the readings of a table of one day's hours, or of whatever `parse_hours` reads.

    Args:
        text: columns hour or time, temperature, and dew point or humidity.
        name: the file as the owner knows it.
        on: the day of a table with hours only.

    Raises:
        ProblemsError: everything unreadable, line by line.
    """
    lines = text.removeprefix("\ufeff").splitlines() or [""]
    return parse_hours("\n".join(dated(lines, on)), name)


def sheet_of(lines: list[str], name: str) -> Sheet:
    """Return the lines of a file in the format that its head shows; else a logger's table.

    Raises:
        ProblemsError: a head that is not the format's.
    """
    head = lines[0]
    if head.startswith(EPW_WORD):
        return read_epw(lines, name)
    if len(lines) > 1 and lines[1].startswith(TMY3_WORD):
        return read_tmy3(lines, name)
    if head[TM2_HEMISPHERE : TM2_HEMISPHERE + 1] in TM2_LETTERS and head[:1] == " ":
        return read_tm2(lines, name)
    return read_logger(lines, name)


def hour_of(row: Raw, when: dt.datetime) -> Hour:
    """Return a reading as an hour: its dew point not above the air, nor below what is drawn."""
    if row.dew_c is not None:
        dew_c = row.dew_c
    else:
        rh_pct = min(max(row.rh_pct or 0.0, DRIEST_FOR_DEW_POINT_PCT), FULL_RH_PCT)
        dew_c = dew_point_c(row.temp_c, rh_pct)
    dew_c = max(min(dew_c, row.temp_c), COLDEST_C)
    return Hour(when, row.temp_c, dew_c, row.wind_m_s, row.sun_w_m2)
