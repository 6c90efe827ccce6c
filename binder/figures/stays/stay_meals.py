"""Meals of a stay that fall outside the feeding hours of the hot day (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.day.feeding_hours import feed_up_to
from binder.figures.finding import Finding, finding
from binder.figures.rounds.visits import is_late, slack_h
from binder.figures.stays.visits.fed_when import keeps_feed, too_hot_to_feed
from binder.figures.stays.visits.visit_rest import EVENING, MORNING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.day.feeding_hours import Meals
    from binder.figures.stays.plan import Plan
    from binder.figures.stays.stay_load import StayLoad


AREA = "stay"
EVERY_PEN = "*"  # in place of the ids of all pens with animals


def meals_of(plan: Plan, load: StayLoad) -> Iterator[Finding]:
    """Yield the meals that fall outside the feeding hours of the hot day."""
    if plan.meals is None or not plan.visits:
        return
    morning, evening = (
        next((visit for visit in plan.visits if visit.meal == meal), plan.visits[0])
        for meal in (MORNING, EVENING)
    )
    if is_late(morning.hour, plan.meals.morning_by_h):
        yield finding(
            AREA, "morning-late", plan.stay.id, load=load.key, at_clock=morning.hour,
            by_clock=plan.meals.morning_by_h,
        )  # fmt: skip
    if evening.hour < plan.meals.evening_from_h - slack_h():
        yield finding(
            AREA, "evening-early", plan.stay.id, load=load.key, at_clock=evening.hour,
            from_clock=plan.meals.evening_from_h,
        )  # fmt: skip
    yield from _hot_meals(plan, load, plan.meals)


def _hot_meals(plan: Plan, load: StayLoad, meals: Meals) -> Iterator[Finding]:
    """Yield the meals before the evening's time where the number asks for no feed."""
    for visit in plan.visits:
        pens = [
            pen
            for pen, fed in visit.fed.items()
            if too_hot_to_feed(load, pen, visit.hour, meals) and not all(map(keeps_feed, fed))
        ]
        if pens and load.day is not None:
            yield finding(
                AREA, "feed-hot", plan.stay.id, load=load.key, at_clock=visit.hour,
                pens=EVERY_PEN if len(pens) == len(plan.pens) else " ".join(pens),
                from_clock=meals.evening_from_h, by_clock=meals.morning_by_h,
                up_to=feed_up_to(),
            )  # fmt: skip
