"""Can one person do a visit in the air of its hour? Split, or only looked at, where not.

Two-sided: minutes of the visit against minutes of work that the hour leaves (area people).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY, MINUTES_IN_HOUR
from binder.figures.figure import Figure
from binder.figures.people.work_rest import CAUTION, NORMAL, work_rest
from binder.figures.rounds.looks import RULES as LOOK_RULES
from binder.figures.rounds.visits import RULES
from binder.figures.rules import rule
from binder.figures.stays.plan import Fit, Part
from binder.figures.weather.sun_times import clock

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.day.farm_day import Day
    from binder.figures.rounds.round_tasks import Task
    from binder.figures.stays.stay_load import StayLoad

EFFORT = "moderate"  # walking, carrying water, filling: the published middle row
LIGHT = "light"
FITS, SPLIT, MOVE, LOOK, STOP = "fits", "split", "move", "look", "stop"


def word_of(allowed: Figure) -> str:
    """Return minutes of work and rest in small letters: `45/15`, `normal`, `caution`."""
    return str(allowed.value).lower()


def minutes_of(allowed: Figure) -> int:
    """Return the minutes of work in an hour [min], 60 for normal, 0 for caution."""
    word = word_of(allowed)
    if word in (NORMAL, CAUTION):
        return MINUTES_IN_HOUR if word == NORMAL else 0
    return int(word.partition("/")[0])


def allowed_at(day: Day, hour: float, subject: str) -> Figure:
    """Return minutes of work and rest in the air of a visit, for carrying and filling."""
    low_h = rule(RULES, "sun is low for", "time").value
    sun = "none"
    if day.sunrise_h <= hour <= day.sunset_h:
        high = day.sunrise_h + low_h <= hour <= day.sunset_h - low_h
        sun = "full" if high else "part"
    air = day.air.air_at(hour)
    return work_rest(air.temp_c, EFFORT, air.rh_pct, sun, subject)


def in_shade(day: Day, hour: float, subject: str) -> Figure:
    """Return minutes of light work in the shade: looking, opening a valve."""
    air = day.air.air_at(hour)
    return work_rest(air.temp_c, LIGHT, air.rh_pct, "none", subject)


def asked_at(
    load: StayLoad, hour: float, asked: Mapping[str, tuple[Task, ...]]
) -> dict[str, float]:
    """Return the minutes that the number of an hour asks on top, by pen [min]."""
    at = math.floor(hour) % HOURS_IN_DAY
    return {
        pen: sum(
            task.minutes for task in tasks
            if pen in load.worst and load.worst[pen][at] >= task.at_number
        )
        for pen, tasks in asked.items()
    }  # fmt: skip


def fit(
    stay_id: str, load: StayLoad, hour: float, by_pen: Mapping[str, float], rest_min: float
) -> Fit | None:
    """Return whether one person can do a visit on a day of a load; None without its air.

    Args:
        stay_id: of the plan.
        load: the sort of day.
        hour: when the visit begins [h since midnight].
        by_pen: minutes at each pen, feed and what the number asks included, as walked [min].
        rest_min: minutes that belong to no pen [min].
    """
    if load.day is None:
        return None
    hours = Hours(load.day, f"{stay_id} {load.key} {clock(hour)}")
    need = sum(by_pen.values()) + rest_min
    start_h, parts = hour, hours.parts(hour, by_pen, rest_min)
    # A time agreed is kept where it leaves any work; else the nearest of the quickest.
    if not parts:
        for at in _starts(hour):
            found = hours.parts(at, by_pen, rest_min)
            if found and (not parts or taken(at, found) < taken(start_h, parts)):
                start_h, parts = at, found
    if not parts:
        shaded = in_shade(load.day, hour, f"{hours.subject} light")
        key = STOP if word_of(shaded) == CAUTION else LOOK
        return Fit(key, word_of(shaded), need, need, hour, (Part(hour, tuple(by_pen), need),))
    word = word_of(hours.allowed(start_h))
    key = MOVE if start_h != hour else SPLIT if len(parts) > 1 else FITS
    return Fit(key, word, need, taken(start_h, parts), start_h, parts)


def taken(start_h: float, parts: tuple[Part, ...]) -> float:
    """Return how long a visit takes with its rests [min]."""
    return (parts[-1].start_h - start_h) * MINUTES_IN_HOUR + parts[-1].minutes


def _starts(hour: float) -> tuple[float, ...]:
    """Return the other starts within reach of an hour, nearest first: our choice."""
    reach_h = rule(LOOK_RULES, "move by at most", "time").value
    step_h = rule(LOOK_RULES, "candidates every", "time").value
    away = [step * step_h for step in range(1, round(reach_h / step_h) + 1)]
    return tuple(at for by in away for at in (hour + by, hour - by) if 0 <= at < HOURS_IN_DAY)


@dataclass(frozen=True, slots=True)
class Hours:
    """Work and rest in the air of one day, hour by hour.

    Attributes:
        day: whose air it is.
        subject: what on the farm it is about.
    """

    day: Day
    subject: str

    def allowed(self, hour: float) -> Figure:
        """Return minutes of work and rest in the air of an hour."""
        return allowed_at(self.day, hour % HOURS_IN_DAY, self.subject)

    def parts(
        self, start_h: float, by_pen: Mapping[str, float], rest_min: float
    ) -> tuple[Part, ...]:
        """Return a visit in parts, one an hour: work, then rest in shade to the end of it.

        One part where no rest is asked; none where an hour of it allows no work at all. What is
        more than an hour's work at one pen is not split.
        """
        todo = [*by_pen.items(), ("", rest_min)]
        parts: list[Part] = []
        while todo:
            at = start_h + len(parts)
            allowed = self.allowed(at)
            most = minutes_of(allowed) if word_of(allowed) != NORMAL else math.inf
            if not most:
                return ()
            pens: list[str] = []
            spent = 0.0
            while todo and (not pens or spent + todo[0][1] <= most):
                pen, minutes = todo.pop(0)
                pens.append(pen)
                spent += minutes
            parts.append(Part(at, tuple(filter(None, pens)), spent))
        return tuple(parts)
