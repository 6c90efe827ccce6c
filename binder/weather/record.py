"""What every weather file is read into: hours on the farm's own clock, and what they lack."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

LOGGER, EPW, TMY3, TM2 = "logger", "epw", "tmy3", "tm2"


@dataclass(frozen=True, slots=True)
class Hour:
    """The air of one hour.

    Attributes:
        when: when it begins, on the farm's own clock.
        temp_c: air temperature in the shade [C].
        dew_point_c: dew point [C], not above it.
        wind_m_s: wind [m/s], None where the file has none.
        sun_w_m2: sun on a level surface [W/m2], None where the file has none.
    """

    when: dt.datetime
    temp_c: float
    dew_point_c: float
    wind_m_s: float | None = None
    sun_w_m2: float | None = None


@dataclass(frozen=True, slots=True)
class Site:
    """Where the hours were measured, as the file says: degrees, north and east positive."""

    name: str
    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True)
class Hole:
    """Hours that a file lacks: the first of them, and how many follow each other."""

    first: dt.datetime
    hours: int


@dataclass(frozen=True, slots=True)
class Record:
    """The hours of one file, in order.

    Attributes:
        file: its name as the owner knows it.
        format: `logger`, `epw`, `tmy3` or `tm2`.
        site: where it was measured; None for a logger, which hangs on the farm.
        hours: at most a year of them.
        holes: what is missing between the first and the last; nothing is filled in.
        years: the years they come from; a typical year has months of several.
    """

    file: str
    format: str
    site: Site | None
    hours: tuple[Hour, ...]
    holes: tuple[Hole, ...]
    years: tuple[int, ...]

    @property
    def is_typical(self) -> bool:
        """Return whether it is put together from months of several years."""
        return self.format in (TMY3, TM2) or (self.format == EPW and len(self.years) > 1)

    @property
    def missing(self) -> int:
        """Return how many hours are missing in all."""
        return sum(hole.hours for hole in self.holes)
