"""Times of the day and spans of time, as people say them there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder import units
from binder.clock import MINUTES_IN_DAY, MINUTES_IN_HOUR

if TYPE_CHECKING:
    from binder.pages.text.words import Words

_NOON = 12


def clock(hours: float, words: Words) -> str:
    """Return `5:30 pm` or `6 pm`, hours since midnight as a clock reads, to 5 minutes.

    `17:30` and `18:00` where clocks count to 24.
    """
    minutes = round(hours * 12) * 5 % MINUTES_IN_DAY
    hour, minute = divmod(minutes, MINUTES_IN_HOUR)
    if words.clock_24:
        return f"{hour}:{minute:02d}"
    half = words.text("date.am") if hour < _NOON else words.text("date.pm")
    past = f":{minute:02d}" if minute else ""
    return f"{hour % _NOON or _NOON}{past} {half}"


def span(hours: float, words: Words) -> str:
    """Return `2 hours` or `40 minutes`."""
    if hours < 1:
        return words.text("date.minutes", n=round(hours * MINUTES_IN_HOUR))
    if hours == 1:
        return words.text("date.one_hour")
    said = None if words.system == "metric" else units.show_parts(hours, 2, 0)
    said = said or words.marks.put(units.show_number(round(hours, 1)))
    return words.text("date.hours", n=said)
