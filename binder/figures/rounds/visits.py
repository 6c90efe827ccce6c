"""Visits of a day: the gaps between them, and when a pen is overdue in one (step 3).

A pen is overdue at a moment when the time since the last look is longer than the band of that
moment allows. Where the band rises between two visits, the pen can be overdue at once: nobody
has been there for longer than the new band lets it go unseen.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY, MINUTES_IN_HOUR
from binder.figures.noise import TRACE
from binder.figures.rules import rule

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

RULES = "stay_rules"


@dataclass(frozen=True, slots=True)
class Gap:
    """The time between two visits.

    Attributes:
        start_h: hour of the visit before [h since midnight].
        end_h: hour of the visit after [h]; above 24 where that is on the next day.
    """

    start_h: float
    end_h: float

    @property
    def hours(self) -> float:
        """Return its length [h]."""
        return self.end_h - self.start_h

    @property
    def at_night(self) -> bool:
        """Return whether it runs from the last visit of a day to the first of the next."""
        return self.end_h > HOURS_IN_DAY

    @property
    def middle_h(self) -> float:
        """Return the middle, on whole steps of a clock [h]."""
        return on_step((self.start_h + self.end_h) / 2)

    def within(self, first_h: float, last_h: float) -> float:
        """Return how much of it lies between two hours of its first day [h], 0 or more."""
        return max(0.0, min(self.end_h, last_h) - max(self.start_h, first_h))


def step_min() -> int:
    """Return how finely visits are set [min]: our choice."""
    return round(rule(RULES, "visits are set to", "time").value * MINUTES_IN_HOUR)


def on_step(hour: float) -> float:
    """Return the last whole step of the clock that is not after `hour` [h]."""
    step = step_min()
    return math.floor(hour * MINUTES_IN_HOUR / step + TRACE) * step / MINUTES_IN_HOUR


def is_late(hour: float, by_h: float) -> bool:
    """Return whether a visit is later than a meal should be eaten, but for a few minutes [h].

    References:
        The slack is our choice (stay_rules.csv): hours of meals are reckoned to the minute.
    """
    return hour > by_h + slack_h()


def slack_h() -> float:
    """Return by how much a meal may be off its hour [h]: our choice."""
    return rule(RULES, "a meal late by at most", "time").value


def gaps(visits: Iterable[float]) -> tuple[Gap, ...]:
    """Return the gaps of a day with these visits, the night last; none without visits.

    Args:
        visits: hours since midnight [h], in any order.
    """
    hours = sorted(set(visits))
    if not hours:
        return ()
    following = (*hours[1:], hours[0] + HOURS_IN_DAY)
    return tuple(Gap(start, end) for start, end in zip(hours, following, strict=True))


def longest(found: Sequence[Gap]) -> Gap:
    """Return the longest gap, the earlier of equal ones."""
    return max(found, key=lambda gap: gap.hours)


def strictest(allowed: Iterable[Sequence[float]]) -> tuple[float, ...]:
    """Return, hour by hour, the shortest time that any of several pens may go unseen [h]."""
    return tuple(min(hours) for hours in zip(*allowed, strict=True))


def overdue_h(gap: Gap, allowed: Sequence[float]) -> float | None:
    """Return when a pen is first overdue in a gap [h], None where it never is.

    Args:
        gap: between two visits.
        allowed: for each hour of the day, how long the pen may go unseen [h].
    """
    at = gap.start_h
    while at < gap.end_h - TRACE:
        hour = math.floor(at + TRACE)
        until = min(hour + 1.0, gap.end_h)
        late = max(at, gap.start_h + allowed[hour % HOURS_IN_DAY])
        if late < until - TRACE:
            return late
        at = until
    return None


def extra_visits(gap: Gap, allowed: Sequence[float]) -> tuple[float, ...]:
    """Return the fewest further visits that leave nothing overdue in a gap [h].

    Where one is enough and the middle of the gap will do, that is it; else each is as late as
    can be. Hours above 24 are those of the next day.

    Args:
        gap: between two visits.
        allowed: for each hour of the day, how long a pen may go unseen [h].
    """
    found: list[float] = []
    rest = gap
    while (late := overdue_h(rest, allowed)) is not None:
        next_h = on_step(rest.start_h + step_min() / MINUTES_IN_HOUR)
        start = max(on_step(late), next_h)
        found.append(start)
        rest = Gap(start, gap.end_h)
    if len(found) == 1 and _holds(gap, gap.middle_h, allowed):
        return (gap.middle_h,)
    return tuple(found)


def _holds(gap: Gap, visit: float, allowed: Sequence[float]) -> bool:
    halves = (Gap(gap.start_h, visit), Gap(visit, gap.end_h))
    return all(overdue_h(half, allowed) is None for half in halves)
