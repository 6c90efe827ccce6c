"""What belongs to a visit and to no pen: its hours, eggs, leftovers, the walk (step 3)."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures import published
from binder.figures.feed import farm_feed
from binder.figures.figure import OUR_CHOICE, Figure, step
from binder.figures.noise import TRACE
from binder.figures.rounds import farm_rounds
from binder.figures.rounds.round_tasks import Task, allotted
from binder.figures.rounds.visits import RULES
from binder.figures.rules import rule
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from binder.figures.day.feeding_hours import Meals
    from binder.figures.stays.basis import Basis

MORNING, EVENING = farm_feed.MORNING, farm_feed.EVENING
TASK_TIMES = "task_times"
EVERY = "every"
OWN, EGGS, LEFTOVERS, WALK = "own", "eggs", "leftovers", "walk"
HEN = "laying hen"
CLOSE, BOOTS = "close", "boots"


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
    early = [hour for hour in found if hour <= meals.morning_by_h + TRACE]
    late = [hour for hour in found if hour >= meals.evening_from_h - TRACE]
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


def step_min() -> float:
    """Return the walk from one pen to the next, gates included [min]: our choice."""
    return rule(RULES, "walk to the next pen", "time").value * MINUTES_IN_HOUR


def eggs_at(basis: Basis, hour: float) -> tuple[Task, ...]:
    """Return the gathering of eggs, at the visits that the owner's words are for."""
    eggs = basis.farm.about.eggs
    if not eggs or hour not in visits_for(eggs, basis.hours):
        return ()
    return (allotted(Task(EGGS, farm_rounds.task_minutes(EGGS), text=eggs), guarded=False),)


def lays(basis: Basis, pen: str) -> bool:
    """Return whether eggs are laid in a pen."""
    return any(one.cls == HEN for one in basis.herd.in_pen(pen))


def last_tasks(
    basis: Basis,
    soaked: Iterable[str],
    tasks: Mapping[str, tuple[Task, ...]],
) -> tuple[Task, ...]:
    """Return what is done when the round is over, and the walk itself.

    Args:
        basis: of the plan.
        soaked: pens whose soaked feed is cleared then.
        tasks: by pen.
    """
    found: list[Task] = []
    pens = tuple(dict.fromkeys(soaked))
    if pens:
        minutes = farm_rounds.task_minutes(LEFTOVERS, len(pens))
        found.append(Task(LEFTOVERS, minutes, count=len(pens), pens=pens))
    running = [task.runs_min for todo in tasks.values() for task in todo if task.runs_min]
    if running:
        minutes = farm_rounds.task_minutes(CLOSE, len(running))
        found.append(Task(CLOSE, minutes, count=len(running), runs_min=max(running)))
    if basis.pens:
        found.append(Task(BOOTS, farm_rounds.task_minutes(BOOTS)))
        walk_min = farm_rounds.in_steps(step_min() * len(basis.pens))
        found.append(Task(WALK, walk_min, count=len(basis.pens)))
    return tuple(found)


def work_of(
    subject: str,
    tasks: Mapping[str, tuple[Task, ...]],
    feed_min: float,
    fed: int,
    last: tuple[Task, ...],
) -> Figure:
    """Return the minutes of work of a visit [min]: tasks at the pens, feed, the rest, walking.

    Water that runs by itself takes nobody's minutes; what the number asks on top is in `fits`.

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
    return Figure("visit-work", total, tuple(lines), (OUR_CHOICE,), (), subject)
