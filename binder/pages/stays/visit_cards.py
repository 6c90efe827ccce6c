"""What stands on the page of a visit: its box, the rows of each pen, what ends it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.clock import HOURS_IN_DAY, MINUTES_IN_HOUR
from binder.figures.day.feeding_hours import feed_up_to
from binder.figures.rounds.round_tasks import DUSK
from binder.figures.rounds.visits import is_late
from binder.figures.stays.stay_load import HOT
from binder.figures.stays.visits import fed_when
from binder.figures.stays.visits.visit_rest import (
    BOOTS,
    CLOSE,
    EGGS,
    LEFTOVERS,
    MORNING,
    OWN,
    WALK,
)
from binder.pages import pen_facts
from binder.pages.stays import visit_meals
from binder.pages.text.listing import lower_first, with_more
from binder.pages.text.rich import Link, rich

if TYPE_CHECKING:
    from binder.figures.rounds.farm_rounds import Task
    from binder.figures.stays.plan import Plan, Visit
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich, Text

    Row = tuple[Text, ...]


LOOKED_AT = frozenset({"drinkers", "drinkers-outside", "pan", "fans", "cloth", "cloth-outside"})


# --- the box -------------------------------------------------------------------------------


def work_line(context: Context, visit: Visit) -> Rich:
    """Return the minutes of the visit, first those at the numbers of a hot day."""
    work = visit.work.amount.value
    said = context.w("visit.minutes", n=math.ceil(work))
    minutes = rich(Link(said, f"working:{visit.work.key}"))
    hot = visit.fits.get(HOT)
    if hot is None or hot.need_min <= work:
        return context.say("visit.answer", work=minutes)
    expected = context.w("visit.minutes", n=math.ceil(hot.need_min))
    load = context.w("stay.loads.hot")
    return context.say("visit.answer_expected", work=minutes, expected=expected, load=load)


def feed_lines(context: Context, plan: Plan, visit: Visit) -> list[Text]:
    """Return whether animals are fed, by when, and where the number forbids it."""
    w = context.w
    if not visit.meal:
        return [w("visit.feed_none")]
    lines: list[Text] = [f"{w(f'visit.feed_{visit.meal}')} {_when(context, plan, visit)}"]
    sunset_h = fed_when.sunset_h(plan)
    if visit.meal != MORNING and sunset_h is not None and visit.hour >= sunset_h:
        return [*lines, w("visit.feed_any")]
    sunset = w("visit.sunset")
    if sunset_h is not None:
        sunset = w("visit.sunset_at", clock=context.clock(sunset_h))
    evening = w("visit.evening_meal")
    if plan.meals is not None:
        evening = context.clock(plan.meals.evening_from_h)
    rule = w("visit.feed_rule", up_to=feed_up_to(), evening=evening, sunset=sunset)
    fed = [one for pen in visit.fed.values() for one in pen]
    if any(map(fed_when.keeps_feed, fed)):
        rule = f"{rule} {w('visit.feed_birds')}"
    return [*lines, rule]


def _when(context: Context, plan: Plan, visit: Visit) -> Text:
    """Return by or from when the meal goes out on a hot day, and whether this is too late."""
    if plan.meals is None:
        return ""
    if visit.meal != MORNING:
        return context.w("visit.from", clock=context.clock(plan.meals.evening_from_h))
    by_h = plan.meals.morning_by_h
    key = "visit.by_late" if is_late(visit.hour, by_h) else "visit.by"
    return context.w(key, clock=context.clock(by_h))


# --- the rows ------------------------------------------------------------------------------


def expected(plan: Plan, visit: Visit, pen: str) -> Markup:
    """Return the numbers to expect at this hour, one for each sort of day, mildest first."""
    hour = math.floor(visit.hour) % HOURS_IN_DAY
    bands = [load.worst[pen][hour] for load in plan.loads.values() if pen in load.worst]
    return Markup(" ").join(
        Markup('<span class="band b{0}">{0}</span>').format(band) for band in bands
    )


def pen_rows(context: Context, plan: Plan, visit: Visit, pen: str) -> list[Row]:
    """Return the rows of a pen: see them, feed them, what is looked at, then the rest.

    What is so in every row of its kind is left out: the page says it once.
    """
    tasks = visit.tasks[pen]
    looked = [task for task in tasks[1:] if task.key in LOOKED_AT]
    rest = [task for task in tasks[1:] if task.key not in LOOKED_AT]
    rows = [_task(context, task) for task in tasks[:1]]
    birth = next((one for one in plan.births if one.pen == pen), None)
    if birth is not None and rows:
        what, amount, minutes = rows[0]
        born = context.w("visit.head_born", after=birth.head_after)
        rows[0] = (with_more(what, born), amount, minutes)
    return [
        *rows,
        *visit_meals.rows(context, visit, pen),
        *_at_once(context, looked),
        *(_task(context, task, light=visit.light) for task in rest),
    ]


def _at_once(context: Context, tasks: list[Task]) -> list[Row]:
    """Return what is looked at from one place as one row, with the minutes of all of it."""
    if not tasks:
        return []
    names = (pen_facts.task_view(context, task).task for task in tasks)
    spent = pen_facts.minutes(sum(task.minutes for task in tasks))
    return [(visit_meals.tick("; ".join((next(names), *map(lower_first, names)))), "", spent)]


def _task(context: Context, task: Task, *, light: bool = False) -> Row:
    view = pen_facts.task_view(context, task)
    more = [context.w("visit.set_out")] if task.carried and light else []
    if task.runs_min:
        more.append(
            context.w("visit.runs", minutes=context.span(task.runs_min / MINUTES_IN_HOUR))
        )
    if task.key == DUSK:
        more.append(str(view.how))
    if task.key == EGGS:
        more.append(task.text)
    what = visit_meals.tick(task.text if task.key == OWN else view.task)
    return with_more(what, ", ".join(more)), view.amount, view.minutes


def end_rows(context: Context, visit: Visit) -> list[Row]:
    """Return what is done after the last pen, the walk, the most that all can take."""
    w = context.w
    rows: list[Row] = []
    for task in visit.last:
        minutes = pen_facts.minutes(task.minutes)
        if task.key == EGGS:
            rows.append((visit_meals.tick(w("visit.eggs")), task.text, minutes))
        elif task.key == LEFTOVERS:
            pens = str(context.listed(context.farm.pen(pen).name for pen in task.pens))
            rows.append((visit_meals.tick(w("visit.leftovers")), pens, minutes))
        elif task.key == CLOSE:
            rows.append((visit_meals.tick(w("visit.close")), str(task.count), minutes))
        elif task.key == BOOTS:
            rows.append((visit_meals.tick(w("visit.boots")), "", minutes))
        elif task.key == WALK:
            rows.append((w("visit.walk"), w("visit.pens", count=task.count), minutes))
    more = sum(task.minutes for asked in visit.asked.values() for task in asked)
    most = visit.work.amount.value + more
    hot = visit.fits.get(HOT)
    if more and (hot is None or math.ceil(most) != math.ceil(hot.need_min)):
        rows.append((w("visit.sum_more"), "", pen_facts.minutes(most)))  # else the box has it
    return rows
