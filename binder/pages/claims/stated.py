"""The claims that several sheets make: named here once, so that they can be held together."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.stays.visits.plan_fit import MOVE, SPLIT
from binder.pages.claims.claim import FARM, Claim, plain

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from binder.figures.day.feeding_hours import Meals
    from binder.figures.rounds.looks import Look
    from binder.figures.rounds.round_tasks import Task
    from binder.figures.stays.plan import Plan, Visit
    from binder.figures.stays.stay_load import StayLoad
    from binder.pages.context import Context
    from binder.pages.views import PenView, TaskView

HOTTEST = "hot day, at its hottest"


def hot_day(plan: Plan | None, on: dt.date) -> str:
    """Return the condition of what holds on a hot day of a stay, or on the binder's own."""
    return f"{plan.stay.id if plan else on.isoformat()}, hot day"


def feeding(context: Context, meals: Meals | None, condition: str) -> tuple[Claim, ...]:
    """Return by when the morning meal is eaten and from when the evening meal goes out."""
    if meals is None:
        return ()
    morning, evening = context.clock(meals.morning_by_h), context.clock(meals.evening_from_h)
    return (
        Claim(FARM, "feed by", condition, morning),
        Claim(FARM, "feed from", condition, evening),
    )


def back_in(subject: str, intervals: Mapping[str, str]) -> tuple[Claim, ...]:
    """Return how soon to be back in each band, in a pen or at most on the `FARM`."""
    return tuple(Claim(subject, "back in", band, said) for band, said in intervals.items())


def pen(context: Context, view: PenView) -> tuple[Claim, ...]:
    """Return what the sheet of a pen states besides its figures."""
    if not view.groups:
        return ()
    tasks = context.figures.rounds.pens[view.id].tasks
    on = context.figures.on.isoformat()
    return (
        *back_in(view.id, view.intervals),
        *(
            one
            for task, said in zip(tasks, view.tasks, strict=True)
            for one in of_task(view.id, on, task, said)
        ),
    )


def of_task(pen: str, condition: str, task: Task, said: TaskView) -> Iterator[Claim]:
    """Yield how long a task takes, and of how many or how much it is."""
    what = " ".join(filter(None, (task.key, task.hose or "", task.text, *task.pens)))
    yield Claim(pen, f"{what}: minutes", condition, str(said.minutes))
    if str(said.amount):
        yield Claim(pen, f"{what}: amount", condition, plain(said.amount))


def number_at(subject: str, plan: Plan, load: StayLoad, hour: float) -> Claim | None:
    """Return the number to expect in a pen at an hour of a sort of day, if it has one."""
    if subject not in load.worst:
        return None
    band = load.worst[subject][math.floor(hour) % HOURS_IN_DAY]
    when = f"{plan.stay.id}, {load.key}, {math.floor(hour) % HOURS_IN_DAY}"
    return Claim(subject, "number", when, str(int(band)))


def look(context: Context, plan: Plan, load: str, at: int, one: Look) -> Claim:
    """Return when a short look of a sort of day is due, by its place in their order."""
    return Claim(plan.stay.id, f"look {at}", load, context.clock(one.hour))


def looks(context: Context, plan: Plan) -> tuple[Claim, ...]:
    """Return when every short look of a stay is due."""
    return tuple(
        look(context, plan, key, at, one)
        for key, watch in plan.watches.items()
        for at, one in enumerate(watch.looks)
    )


def visits(context: Context, plan: Plan) -> tuple[Claim, ...]:
    """Return when the visits of a stay begin, by their place in their order."""
    return tuple(
        Claim(plan.stay.id, f"visit {at}", "", context.clock(visit.hour))
        for at, visit in enumerate(plan.visits)
    )


def starts(context: Context, plan: Plan, visit: Visit) -> Iterator[Claim]:
    """Yield when each part of a visit begins on the days that split or move it."""
    for key, fit in visit.fits.items():
        if fit.key in (SPLIT, MOVE):
            for at, part in enumerate(fit.parts):
                when = f"{visit.clock}, {key}, part {at}"
                yield Claim(plan.stay.id, "begins", when, context.clock(part.start_h))


def calls(context: Context, plan: Plan) -> Iterator[Claim]:
    """Yield whom the sitter phones when, and when that person looks."""
    for one in plan.calls:
        for key in one.loads:
            when = f"{key}, from {context.clock(one.start_h)}, {one.who}"
            theirs = str(context.listed(context.clock(hour) for hour in one.looks))
            yield Claim(plan.stay.id, "looks of", when, theirs)
            mine = str(context.listed(context.clock(hour) for hour in one.own))
            if mine:
                yield Claim(
                    plan.stay.id, "own looks", f"{key}, from {context.clock(one.start_h)}", mine
                )


def head(plan: Plan, pen: str) -> Claim:
    """Return how many there are to count in a pen of a stay."""
    return Claim(pen, "head", plan.stay.id, str(plan.rounds.pens[pen].head))


def sun(context: Context, on: dt.date, rises_h: float, sets_h: float) -> tuple[Claim, ...]:
    """Return when the sun rises and sets on a day."""
    return (
        Claim(FARM, "sunrise", on.isoformat(), context.clock(rises_h)),
        Claim(FARM, "sunset", on.isoformat(), context.clock(sets_h)),
    )


def event(context: Context, who: str, key: str, first: dt.date, last: dt.date) -> Claim:
    """Return the days of a birth or of another date in the herd."""
    return Claim(who, key, first.isoformat(), context.window(first, last))
