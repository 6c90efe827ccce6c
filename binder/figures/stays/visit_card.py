"""What one visit of a stay asks: its tasks by pen, who is fed, the minutes (step 3).

Every minute of a visit belongs to a row of its card: the rows add up to `visit-work`.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.bands.band_charts import chart_of
from binder.figures.feed import farm_feed
from binder.figures.figure import Figure, step
from binder.figures.herd import groups as herds
from binder.figures.nested import APART
from binder.figures.rounds import farm_rounds
from binder.figures.rounds.farm_rounds import Task
from binder.figures.rounds.visits import NOISE, RULES
from binder.figures.rules import SAME, rule
from binder.figures.weather.sun_times import HOURS_IN_DAY, MINUTES_IN_HOUR, clock
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm
    from binder.figures.day.farm_day import Meals
    from binder.figures.feed.farm_feed import FarmFeed, GroupFeed
    from binder.figures.stays.stay_load import StayLoad
    from binder.figures.stays.stay_plan import StayPlan

MORNING, EVENING = farm_feed.MORNING, farm_feed.EVENING
TASK_TIMES = "task_times"
EVERY = "every"
OWN, EGGS, LEFTOVERS, WALK = "own", "eggs", "leftovers", "walk"
_BIRDS = "poultry"


@dataclass(frozen=True, slots=True)
class Visit:
    """One visit, the same each day.

    Attributes:
        hour: when it begins [h since midnight].
        meal: `morning` or `evening` where animals are fed, else empty.
        work: `visit-work` [min]: the minutes of every task, of feeding and of walking.
        tasks: by pen id, in order; the owner's own only at the visits they are for.
        fed: by pen id, who is fed; pens where nobody is are left out.
        feed_min: for each pen where animals are fed [min].
        last: when the round is done: eggs, leftovers, and the walk it took.
    """

    hour: float
    meal: str
    work: Figure
    # The figures in these are those of the plan's rounds and feed.
    tasks: Mapping[str, tuple[Task, ...]] = field(metadata={APART: True})
    fed: Mapping[str, tuple[GroupFeed, ...]] = field(metadata={APART: True})
    feed_min: float
    last: tuple[Task, ...]

    @property
    def clock(self) -> str:
        """Return `06:30`."""
        return clock(self.hour)


def feeding_visits(found: Sequence[float], meals: Meals | None) -> tuple[float, float]:
    """Return the visits at which the morning and the evening meal go out [h].

    The last visit that is not after the morning's end, else the first of the day; the first
    visit from the evening's start on, else the last.

    Args:
        found: hours of the visits, in order, at least one.
        meals: feeding hours that suit every class, None where unknown: first and last visit.
    """
    if meals is None:
        return found[0], found[-1]
    early = [hour for hour in found if hour <= meals.morning_by_h + NOISE]
    late = [hour for hour in found if hour >= meals.evening_from_h - NOISE]
    return (early or found[:1])[-1], (late or found[-1:])[0]


def visits_for(text: str, found: Sequence[float]) -> frozenset[float]:
    """Return at which visits an owner's own task is done [h]: the first where it names no time.

    Args:
        text: the owner's words, such as `Shut the small door at dusk`.
        found: hours of the visits, in order, at least one.

    References:
        Our choice (task_times.csv).
    """
    named = {
        row.text("visit")
        for row in published.rows(TASK_TIMES)
        if re.search(rf"\b{re.escape(row.text('word'))}s?\b", text, re.IGNORECASE)
    }
    if EVERY in named:
        return frozenset(found)
    midday_h = rule(RULES, "midday", "time").value
    at = {
        "first": found[0],
        "middle": min(found, key=lambda hour: abs(hour - midday_h)),
        "last": found[-1],
    }
    return frozenset(at[each] for each in named or ("first",))


def visits_of(farm: Farm, plan: StayPlan) -> tuple[Visit, ...]:
    """Return the visits of a day, in order; none where the owner gave no times."""
    if not plan.gaps:
        return ()
    hours = [gap.start_h for gap in plan.gaps]
    morning, evening = feeding_visits(hours, plan.meals)
    return tuple(
        _visit(farm, plan, hours, hour,
               MORNING if hour == morning else EVENING if hour == evening else "")
        for hour in hours
    )  # fmt: skip


def _visit(farm: Farm, plan: StayPlan, hours: Sequence[float], hour: float, meal: str) -> Visit:
    tasks = {
        pen: tuple(
            task
            for task in plan.rounds.pens[pen].tasks
            if task.key != OWN or hour in visits_for(task.text, hours)
        )
        for pen in plan.pens
    }
    fed = {pen: found for pen in plan.pens if (found := _fed(plan.feed, pen, meal))}
    last = _last(farm, plan, hours, hour, meal)
    feed_min = farm_rounds.task_minutes("feed")
    work = _work(f"{plan.stay.id} {clock(hour)}", tasks, feed_min * len(fed), len(fed), last)
    return Visit(hour, meal, work, tasks, fed, feed_min, last)


def _fed(found: FarmFeed, pen: str, meal: str) -> tuple[GroupFeed, ...]:
    """Return who is fed in a pen at a meal; who has hay, or no ration on record, at both."""
    if not meal:
        return ()
    return tuple(
        one
        for one in found.in_pen(pen)
        if one.morning is None or getattr(one, meal) is not None
    )


def _last(
    farm: Farm, plan: StayPlan, hours: Sequence[float], hour: float, meal: str
) -> tuple[Task, ...]:
    """Return what is done when the round is over, and the walk itself."""
    found: list[Task] = []
    if farm.about.eggs and hour in visits_for(farm.about.eggs, hours):
        found.append(Task(EGGS, farm_rounds.task_minutes(EGGS), text=farm.about.eggs))
    soaked = [pen for pen in plan.pens if _is_soaked(plan.feed, pen, meal)]
    if soaked:
        minutes = farm_rounds.task_minutes(LEFTOVERS, len(soaked))
        found.append(Task(LEFTOVERS, minutes, count=len(soaked)))
    step_min = rule(RULES, "walk to the next pen", "time").value * MINUTES_IN_HOUR
    walk_min = farm_rounds.in_steps(step_min * len(plan.pens))
    return (*found, Task(WALK, walk_min, count=len(plan.pens))) if plan.pens else tuple(found)


def _is_soaked(found: FarmFeed, pen: str, meal: str) -> bool:
    meals = (getattr(one, meal) for one in found.in_pen(pen)) if meal else ()
    return any(one is not None and one.water is not None for one in meals)


def _work(
    subject: str,
    tasks: Mapping[str, tuple[Task, ...]],
    feed_min: float,
    fed: int,
    last: tuple[Task, ...],
) -> Figure:
    """Return the minutes of work of a visit [min]: tasks at the pens, feed, the rest, walking.

    References:
        Our choice (round_tasks.csv, stay_rules.csv): no time study was found.
    """
    tasks_min = sum(task.minutes for each in tasks.values() for task in each)
    walk_min = sum(task.minutes for task in last if task.key == WALK)
    end_min = sum(task.minutes for task in last if task.key != WALK)
    total = Amount(tasks_min + feed_min + end_min + walk_min, "min")
    lines = [
        step("pens", pens=len(tasks), tasks=Amount(tasks_min, "min")),
        step("walk", walk=Amount(walk_min, "min")),
    ]
    if fed:
        lines.append(step("feed", pens=fed, feed=Amount(feed_min, "min")))
    if end_min:
        lines.append(step("end", end=Amount(end_min, "min")))
    lines.append(step("sum", total=total))
    return Figure("visit-work", total, tuple(lines), ("our-choice",), (), subject)


# --- feeding in the heat -------------------------------------------------------------------


def feed_up_to() -> int:
    """Return the worst number at which a meal goes out before sunset: our choice."""
    return round(rule(RULES, "feed up to number", "number").value)


def keeps_feed(one: GroupFeed) -> bool:
    """Return whether feed is never held back from a group, however hot: birds."""
    return chart_of(one.group.cls) == _BIRDS


def too_hot_to_feed(load: StayLoad, pen: str, hour: float) -> bool:
    """Return whether it is too hot in a pen for a meal at an hour of a day of that load.

    From sunset to sunrise it never is.
    """
    if load.day is None or pen not in load.worst:
        return False
    if not load.day.sunrise_h <= hour < load.day.sunset_h:
        return False
    return load.worst[pen][math.floor(hour) % HOURS_IN_DAY] > feed_up_to()


def sunset_h(plan: StayPlan) -> float | None:
    """Return the latest sunset of a stay [h], None where the farm has no position."""
    found = [day.sunset_h for day in plan.days if day.sunset_h is not None]
    return max(found) if found else None


def fed_more_before(farm: Farm, plan: StayPlan) -> tuple[str, ...]:
    """Return who is fed more earlier in a stay than on its last day, in herd order.

    Looked at on the first day and on each day that changes a class.
    """
    last = {
        one.group.animal.called: one.total.amount.value
        for one in plan.feed.groups
        if one.total is not None
    }
    found: dict[str, None] = {}
    for day in plan.days[:-1]:
        if day is plan.days[0] or day.changes:
            for one in farm_feed.for_farm(farm, herds.for_farm(farm, day.on)).groups:
                name = one.group.animal.called
                if one.total and one.total.amount.value > last.get(name, math.inf) * (1 + SAME):
                    found[name] = None
    return tuple(found)


def with_visits(farm: Farm, plan: StayPlan) -> StayPlan:
    """Return a plan with its visits, and who is fed more before its last day."""
    return replace(
        plan, visits=visits_of(farm, plan), fed_more_before=fed_more_before(farm, plan)
    )
