"""The longest time between two visits of a day, as the command line asks it too (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.entry import Argument, Entry, read_time_of_day
from binder.figures.figure import Figure, step
from binder.figures.rounds.visits import gaps, longest
from binder.figures.weather.sun_times import clock
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Sequence


def longest_gap(visits: Sequence[float], subject: str = "") -> Figure:
    """Return the longest time between two visits of a day, the night counted [h].

    Args:
        visits: when each begins [h since midnight], at least one.
        subject: the stay.

    Raises:
        ValueError: no visit at all.

    References:
        Arithmetic.
    """
    if not visits:
        message = "there is no visit; write times like 06:30 13:00 19:00"
        raise ValueError(message)
    gap = longest(gaps(visits))
    value = Amount(gap.hours, "h")
    line = step("gap", start=clock(gap.start_h), end=clock(gap.end_h), time=value)
    return Figure("longest-gap", value, (line,), (), (), subject)


def _asked_gap(visits: str) -> Figure:
    return longest_gap([read_time_of_day(time) for time in visits.replace(",", " ").split()])


ENTRIES: tuple[Entry, ...] = (Entry("longest-gap", (Argument("visits", "text"),), _asked_gap),)
