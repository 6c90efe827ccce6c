"""A line of a weather file before it is judged, and the clock it was written by."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

if TYPE_CHECKING:
    from binder.problems import Problem
    from binder.weather.record import Site


@dataclass(frozen=True, slots=True)
class Raw:
    """One reading as written.

    Attributes:
        line: its line in the file.
        at: when it begins, by the clock of the file.
        temp_c: air temperature [C].
        dew_c: dew point [C]; None where only the humidity is known.
        rh_pct: relative humidity [%]; None where the dew point is known.
        wind_m_s: [m/s], None where unknown.
        sun_w_m2: [W/m2], None where unknown.
    """

    line: int
    at: dt.datetime
    temp_c: float
    dew_c: float | None
    rh_pct: float | None
    wind_m_s: float | None
    sun_w_m2: float | None


@dataclass(frozen=True, slots=True)
class Sheet:
    """The lines of a file, and what its head says of them.

    Attributes:
        format: as `Record.format`.
        rows: in the order of the file.
        site: where it was measured, None where it does not say.
        is_standard: whether its clock keeps standard time all year.
        temp_unit: the unit of its temperatures as the head has it, empty where each value
            carries its own.
        faults: lines that cannot be read.
    """

    format: str
    rows: tuple[Raw, ...]
    site: Site | None
    is_standard: bool
    temp_unit: str
    faults: tuple[Problem, ...] = ()


@lru_cache(maxsize=4)
def _zone(name: str) -> ZoneInfo | None:
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None


@lru_cache(maxsize=16384)
def summer_time(zone: str, on: dt.date) -> dt.timedelta:
    """Return how far the clocks of a zone are put forward at noon of a date."""
    found = _zone(zone)
    if found is None:
        return dt.timedelta()
    noon = dt.datetime.combine(on, dt.time(12), tzinfo=found)
    return noon.dst() or dt.timedelta()


def farm_clock(standard: dt.datetime, zone: str) -> dt.datetime:
    """Return standard time by the clocks of a zone; an unknown zone has no summer time.

    The files of another place are taken as if measured on the farm: their noon is its noon. The
    clocks change at midnight here, not at two, so that every hour keeps a place of its own but
    the two of the change itself.
    """
    if not zone:
        return standard
    return standard + summer_time(zone, standard.date())
