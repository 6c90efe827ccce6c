"""Whether the hours of a file can be true, seen as a whole: scale, step, clock, years."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from itertools import pairwise
from statistics import median
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.problems import Place, Problem, ProblemsError
from binder.weather.record import LOGGER
from binder.weather.typical import told

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from binder.weather.raw import Raw, Sheet

HOUR = dt.timedelta(hours=1)
# Our choice: what the formulas take, and beyond what a farm's thermometer meets.
COLDEST_C, HOTTEST_C = -40.0, 50.0
DRIEST_DEW_C = -60.0  # our choice: drier air comes from a broken sensor
# Our choice: a July high in Fahrenheit passes 60 nearly everywhere, no air in Celsius does.
NEVER_C, HOTTEST_F = 60.0, 130.0
SLACK_C = 1.0  # our choice: two sensors may disagree by so much before a reading is refused
LONGEST_DAYS = 366
EARLIEST_YEAR = 1950  # our choice: older hours come from a clock that was never set
UNSET_YEARS = (1970, 1980, 2000)  # where clocks begin that nobody has set: common practice
WINDIEST_M_S, SUNNIEST_W_M2 = 75.0, 1400.0  # our choice: more is no farm's weather
FULL_PCT = 100.0
HUMID_SLACK_PCT = 5.0  # our choice: sensors in fog read a little over 100


def judge(sheet: Sheet, name: str, latest: dt.date) -> None:
    """Refuse hours that cannot be true.

    Args:
        sheet: what was read.
        name: the file as the owner knows it.
        latest: the last day on which anything can have been measured.

    Raises:
        ProblemsError: what is wrong with the file as a whole; else line by line.
    """
    here = Place(name)
    if not sheet.faults:
        if not sheet.rows:
            raise ProblemsError([Problem(here, "", "holds no hour with a temperature")])
        whole = [Problem(here, "", message) for message in _whole(sheet, latest)]
        if whole:
            raise ProblemsError(whole[:1])  # the first explains the others
    by_line(sheet, name)


def by_line(sheet: Sheet, name: str) -> None:
    """Refuse lines that cannot be read or cannot be true.

    Raises:
        ProblemsError: all of them, in their order; beyond some their count.
    """
    wrong = [
        Problem(Place(name, row.line, 1), "", message)
        for row in sheet.rows
        for message in _wrong(row)
    ]
    if sheet.faults or wrong:
        found = sorted((*sheet.faults, *wrong), key=lambda one: one.place.line or 0)
        raise ProblemsError(told(found, name))


def _whole(sheet: Sheet, latest: dt.date) -> Iterator[str]:
    yield from _scales(sheet)
    if sheet.format == LOGGER:
        yield from _years(sheet.rows, latest)
    yield from _step(sheet.rows)
    if sheet.format == LOGGER:
        yield from _order(sheet)


def _scales(sheet: Sheet) -> Iterator[str]:
    temps = [row.temp_c for row in sheet.rows]
    if max(temps) > NEVER_C and max(temps) <= HOTTEST_F and sheet.temp_unit in ("", "C", "°C"):
        over = sum(temp > NEVER_C for temp in temps)
        said = (
            "every temperature is"
            if over == len(temps)
            else f"{over:,} of {len(temps):,} temperatures are"
        )
        yield (
            f"{said} above {NEVER_C:.0f} C, the highest {max(temps):.0f}: these look like "
            "Fahrenheit; head the column temperature (F)"
        )
    humid = [row.rh_pct for row in sheet.rows if row.rh_pct is not None]
    if len(humid) > 1 and 0 < max(humid) <= 1:
        yield (
            f"every humidity is {max(humid):g} % or less: these look like shares of 1; "
            "write 65 for 0.65"
        )


def _years(rows: Sequence[Raw], latest: dt.date) -> Iterator[str]:
    years = Counter(row.at.year for row in rows)
    first, last = min(row.at for row in rows), max(row.at for row in rows)
    unset = [year for year in years if year < EARLIEST_YEAR or year in UNSET_YEARS]
    if last.date() > latest:
        yield (
            f"goes to {last.date()}, which is still to come: the logger's clock was set wrong; "
            "put the years right in the file"
        )
    if unset and last.year > max(unset):
        yield (
            f"has {years[unset[0]]:,} hours of {unset[0]} beside {last.year}: the logger's "
            "clock was not set; put these years right or take the lines out"
        )
    elif unset and unset[0] < EARLIEST_YEAR:
        yield f"begins in {first.year}: the logger's clock was not set; put the years right"
    elif (last - first).days > LONGEST_DAYS:
        held = len(years)
        yield (
            f"holds {held} years, {first.year} to {last.year}; a file holds a year at most: "
            "put each year into a file of its own"
        )


def _step(rows: Sequence[Raw]) -> Iterator[str]:
    steps = [(b.at - a.at) / dt.timedelta(minutes=1) for a, b in pairwise(rows) if b.at > a.at]
    if not steps:
        return
    usual = median(steps)
    if usual != MINUTES_IN_HOUR:
        yield (
            f"has a row every {usual:g} minutes; one an hour is read: keep the rows on the "
            "hour and take the others out"
        )


def _order(sheet: Sheet) -> Iterator[str]:
    seen: dict[dt.datetime, int] = {}
    for row in sheet.rows:
        at = row.at.replace(minute=0, second=0, microsecond=0)
        if at in seen:
            yield _double(row, seen[at], twice=sum(1 for r in sheet.rows if r.at == row.at))
            return
        seen[at] = row.line
    back = next((b for a, b in pairwise(sheet.rows) if b.at < a.at), None)
    if back is not None:
        when = f"{back.at:%Y-%m-%d %H:%M}"
        yield f"goes back in time at line {back.line}, {when}; put the lines in order"


def _double(row: Raw, before: int, twice: int) -> str:
    said = f"has {row.at:%Y-%m-%d %H:%M} {'twice' if twice <= len('ab') else f'{twice} times'}"
    said += f", at lines {before} and {row.line}"
    if row.at.hour <= len("abc") and row.at.month in (3, 4, 9, 10, 11):
        return (
            f"{said}: the night the clocks went back; take one of the two lines out, or, where "
            "the logger keeps standard time all year, head the column time (standard)"
        )
    return f"{said}; take one of them out"


def _wrong(row: Raw) -> Iterator[str]:
    if not COLDEST_C <= row.temp_c <= HOTTEST_C:
        span = f"{COLDEST_C:g} to {HOTTEST_C:g} C"
        yield f"an air temperature of {row.temp_c:g} C is outside the range {span}"
    if row.rh_pct is not None and not 0 <= row.rh_pct <= FULL_PCT + HUMID_SLACK_PCT:
        yield f"a humidity of {row.rh_pct:g} % is outside the range 0 to 100 %"
    if row.dew_c is not None and row.dew_c > row.temp_c + SLACK_C:
        yield (
            f"the dew point {row.dew_c:.1f} C is above the air temperature {row.temp_c:.1f} C, "
            "which cannot be"
        )
    if row.dew_c is not None and row.dew_c < DRIEST_DEW_C:
        yield f"a dew point of {row.dew_c:g} C is below {DRIEST_DEW_C:g} C: no air is so dry"
    if row.wind_m_s is not None and not 0 <= row.wind_m_s <= WINDIEST_M_S:
        yield f"a wind of {row.wind_m_s:g} m/s is outside the range 0 to {WINDIEST_M_S:g} m/s"
    if row.sun_w_m2 is not None and not 0 <= row.sun_w_m2 <= SUNNIEST_W_M2:
        yield f"sun of {row.sun_w_m2:g} W/m2 is outside the range 0 to {SUNNIEST_W_M2:g} W/m2"
