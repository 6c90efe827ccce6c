"""Weather for tests: two public typical years, and tables as a farm's logger writes them."""

from __future__ import annotations

import datetime as dt
import lzma
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from binder.weather.read import Asked, read_text

if TYPE_CHECKING:
    from collections.abc import Callable

    from binder.weather.record import Record

DATA = Path(__file__).parent / "weather" / "data"
ASKED = Asked("America/New_York", 2026, dt.date(2026, 6, 1))
TMY3, TM2 = "greensboro-tmy3.csv", "miami.tm2"


@cache
def text_of(name: str) -> str:
    """Return the text of a public typical year."""
    return lzma.decompress((DATA / f"{name}.xz").read_bytes()).decode("latin-1")


@cache
def record_of(name: str) -> Record:
    """Return a public typical year on the example farm's clock."""
    return read_text(text_of(name), name, ASKED)


def logger(
    hours: int = 48,
    head: str = "time,temperature (C),humidity (%)",
    first: dt.datetime = dt.datetime(2025, 7, 1),  # noqa: DTZ001 -- a farm's clock
    minutes: int = 60,
    row: Callable[[int, dt.datetime], str] | None = None,
) -> str:
    """Return a logger's table: 20 to 32 C over the day at 60 %, or what `row` makes of it."""

    def usual(_: int, at: dt.datetime) -> str:
        return f"{at:%Y-%m-%d %H:%M},{20 + at.hour // 2},60"

    make = row or usual
    step = dt.timedelta(minutes=minutes)
    return "\n".join([head, *(make(n, first + n * step) for n in range(hours))])
