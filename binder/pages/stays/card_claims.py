"""What the card of a visit states, besides the figures on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.stays.visit_card import MORNING
from binder.pages import pen_facts
from binder.pages.claims import stated
from binder.pages.claims.claim import FARM, Claim

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.stays.plan import Plan, Visit
    from binder.pages.context import Context


def of_card(context: Context, plan: Plan, visit: Visit) -> tuple[Claim, ...]:
    """Return its time, its meals, and the numbers and tasks of each pen in walking order."""
    return (
        stated.visits(context, plan)[plan.visits.index(visit)],
        *_meals(context, plan, visit),
        *(one for pen in visit.order for one in _pen(context, plan, visit, pen)),
    )


def _meals(context: Context, plan: Plan, visit: Visit) -> Iterator[Claim]:
    """Yield the feeding times and the sunset it names, and by when wet feed is cleared."""
    if not visit.meal:
        return
    for one in stated.feeding(context, plan.meals, stated.hot_day(plan, context.figures.on)):
        if visit.meal == MORNING or one.quantity == "feed from":
            yield one
    sets = {day.sunset_h: day.on for day in plan.days if day.sunset_h is not None}
    if sets:
        latest_h = max(sets)
        yield Claim(FARM, "sunset", sets[latest_h].isoformat(), context.clock(latest_h))
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
        yield from stated.of_task(pen, plan.stay.id, task, pen_facts.task_view(context, task))
        if task.key == "see" and task.count:
            yield Claim(pen, "head", plan.stay.id, str(task.count))
