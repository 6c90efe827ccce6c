"""What the card of a visit states, besides the figures on it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from binder.figures.rounds.visits import is_late
from binder.figures.stays.visits import fed_when
from binder.figures.stays.visits.visit_rest import MORNING
from binder.pages import pen_facts
from binder.pages.claims import stated
from binder.pages.claims.claim import FARM, Claim
from binder.pages.stays.visit_cards import LOOKED_AT

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.stays.plan import Plan, Visit
    from binder.pages.context import Context


def of_card(context: Context, plan: Plan, visit: Visit) -> tuple[Claim, ...]:
    """Return its time, its meals, and the numbers and tasks of each pen in walking order."""
    return (
        stated.visits(context, plan)[plan.visits.index(visit)],
        *stated.starts(context, plan, visit),
        *_meals(context, plan, visit),
        *(one for pen in visit.order for one in _pen(context, plan, visit, pen)),
    )


def _meals(context: Context, plan: Plan, visit: Visit) -> Iterator[Claim]:
    """Yield the feeding times and the sunset it names, and by when wet feed is cleared."""
    if not visit.meal:
        return
    morning = visit.meal == MORNING
    late = plan.meals is not None and is_late(visit.hour, plan.meals.morning_by_h)
    for one in stated.feeding(context, plan.meals, stated.hot_day(plan, context.figures.on)):
        if one.quantity == "feed from" or (morning and not late):
            yield one
    yield from _cleared(context, plan, visit)
    sunset_h = fed_when.sunset_h(plan)
    if not morning and sunset_h is not None and visit.hour >= sunset_h:
        return  # it names no sunset: the sun is down
    sets = {day.sunset_h: day.on for day in plan.days if day.sunset_h is not None}
    if sets:
        latest_h = max(sets)
        yield Claim(FARM, "sunset", sets[latest_h].isoformat(), context.clock(latest_h))


def _cleared(context: Context, plan: Plan, visit: Visit) -> Iterator[Claim]:
    for meal in visit.meals:
        if meal.clear_after_h is not None:
            who = meal.fed.group.animal.called
            when = f"{plan.stay.id}, {visit.clock}"
            yield Claim(who, "cleared by", when, context.span(meal.clear_after_h))


def _pen(context: Context, plan: Plan, visit: Visit, pen: str) -> Iterator[Claim]:
    for load in plan.loads.values():
        found = stated.number_at(pen, plan, load, visit.hour)
        if found is not None:
            yield found
    for task in (*visit.tasks[pen], *visit.asked.get(pen, ())):
        view = pen_facts.task_view(context, task)
        if task.key == "see" or task.key in LOOKED_AT or task.at_number:
            view = replace(view, amount="")  # rows of these say no amount
        yield from stated.of_task(pen, plan.stay.id, task, view)
        if task.key == "see" and task.count:
            yield Claim(pen, "head", plan.stay.id, str(task.count))
