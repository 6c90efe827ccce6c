"""What one visit of a stay asks: its tasks by pen, who is fed, the minutes (step 3).

Every minute of a visit belongs to a row of its card: the rows add up to `visit-work`.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures.rounds import farm_rounds
from binder.figures.rounds.round_tasks import DUSK, Task
from binder.figures.stays.plan import Fit, PlanMeal, Visit
from binder.figures.stays.visits.clearing import clear_within_h, given_at, turned_back
from binder.figures.stays.visits.plan_fit import LOOK, STOP, asked_at, fit
from binder.figures.stays.visits.set_out import carried_before, is_dry, ready, with_pans
from binder.figures.stays.visits.visit_rest import (
    EVENING,
    LEFTOVERS,
    MORNING,
    OWN,
    eggs_at,
    feeding_visits,
    last_tasks,
    lays,
    step_min,
    visits_for,
    work_of,
)
from binder.figures.weather.sun_times import clock

if TYPE_CHECKING:
    from collections.abc import Callable, Container, Mapping, Sequence

    from binder.figures.feed.farm_feed import FarmFeed, GroupFeed
    from binder.figures.stays.basis import Basis
    from binder.figures.stays.plan_parts import Birth


def visits_of(basis: Basis, births: Sequence[Birth] = ()) -> tuple[Visit, ...]:
    """Return the visits of a day, in order; none where the owner gave no times.

    Args:
        basis: of the plan.
        births: that may fall into it.
    """
    if not basis.gaps:
        return ()
    basis = with_pans(basis, births)
    morning, evening = feeding_visits(basis.hours, basis.meals)
    born = {one.name: one.fed for one in births if one.fed}
    meal_at = {evening: EVENING, morning: MORNING}
    found = tuple(_visit(basis, hour, meal_at.get(hour, "")) for hour in basis.hours)
    ahead = carried_before(found)
    return tuple(
        _with_born(
            basis,
            _round(basis, one.hour, one.meal, light=False, ahead=ahead[one.hour])
            if one.hour in ahead
            else one,
            born,
        )
        for one in found
    )


def _with_born(basis: Basis, visit: Visit, born: Mapping[str, GroupFeed]) -> Visit:
    """Return a visit whose meals say what takes their place after a birth."""
    meals = tuple(
        replace(one, born=given_at(basis, visit.hour, getattr(born[name], visit.meal)))
        if (name := one.fed.group.animal.called) in born
        else one
        for one in visit.meals
    )
    return replace(visit, meals=meals)


def _visit(basis: Basis, hour: float, meal: str) -> Visit:
    whole = _round(basis, hour, meal, light=False)
    if not meal and whole.fits and all(one.key in (LOOK, STOP) for one in whole.fits.values()):
        return _round(basis, hour, meal, light=True)
    return whole


def _round(
    basis: Basis, hour: float, meal: str, *, light: bool, ahead: Container[str] = ()
) -> Visit:
    """Return a visit; with light tasks only where the air allows no other work on any day.

    Args:
        basis: of the plan.
        hour: when it begins [h since midnight].
        meal: that goes out, empty for none.
        light: light tasks only; a tub is left out where its water would be carried.
        ahead: pens for which it sets out the water of the next visit.
    """
    order = basis.order_at(hour)
    tasks = {
        pen: tuple(
            task
            for task in basis.rounds.pens[pen].tasks
            if (task.light or not light)
            and (task.key != OWN or hour in visits_for(task.text, basis.hours))
            and (task.key != DUSK or hour == basis.hours[-1])
        )
        for pen in order
    }
    eggs = eggs_at(basis, hour)
    hens = next((pen for pen in order if lays(basis, pen)), None)
    if eggs and hens:
        tasks[hens] += eggs
    fed = {pen: who for pen in order if (who := _fed(basis.feed, pen, meal))}
    for pen in order:
        if pen in ahead:
            tasks[pen] += (ready(basis.farm.pen(pen)),)
    asked = {pen: more for pen in order if (more := _asked(basis, pen, light=light))}
    out = tuple(_meal(basis, pen, one, hour, meal) for pen, who in fed.items() for one in who)
    feed_min = farm_rounds.task_minutes("feed")
    subject = f"{basis.stay.id} {clock(hour)}"

    def visit(back: Mapping[str, tuple[str, ...]]) -> Visit:
        """Return the visit where the walker turns back at these pens to clear soaked feed."""
        todo = {pen: (*each, *_back(back.get(pen, ()))) for pen, each in tasks.items()}
        at_end = [one.pen for one in out if one.soaked and not _in_any(one.pen, back)]
        last = (*(() if hens else eggs), *last_tasks(basis, at_end, tasks))
        work = work_of(subject, todo, feed_min * len(fed), len(fed), last)
        by_pen = _by_pen(todo, fed, feed_min)
        fits = _fits(basis, hour, by_pen, asked, sum(task.minutes for task in last))
        return Visit(hour, meal, work, todo, asked, fed, out, feed_min, last, fits, light)

    return _settled(visit)


def _asked(basis: Basis, pen: str, *, light: bool) -> tuple[Task, ...]:
    """Return what a number asks in a pen on top; where all water is carried, no tub at noon."""
    found = basis.rounds.pens[pen].asked
    if not light or not is_dry(basis.farm.pen(pen)):
        return found
    return tuple(task for task in found if task.light)


def _settled(visit: Callable[[Mapping[str, tuple[str, ...]]], Visit]) -> Visit:
    """Return a visit that turns back where its own minutes ask for it."""
    back: dict[str, tuple[str, ...]] = {}
    found = visit(back)
    for _ in found.order:
        again = turned_back(
            _at_most(found),
            tuple(dict.fromkeys(one.pen for one in found.meals if one.soaked)),
            found.fits, step_min(), clear_within_h() * MINUTES_IN_HOUR,
        )  # fmt: skip
        if again == back:
            break
        back = again
        found = visit(back)
    return found


def _at_most(visit: Visit) -> dict[str, float]:
    """Return the minutes at each pen with all that a number asks [min], as walked."""
    by_pen = _by_pen(visit.tasks, visit.fed, visit.feed_min)
    return {
        pen: minutes + sum(task.minutes for task in visit.asked.get(pen, ()))
        for pen, minutes in by_pen.items()
    }


def _by_pen(
    tasks: Mapping[str, tuple[Task, ...]], fed: Container[str], feed_min: float
) -> dict[str, float]:
    return {
        pen: sum(task.minutes for task in todo) + feed_min * (pen in fed)
        for pen, todo in tasks.items()
    }


def _in_any(pen: str, back: Mapping[str, tuple[str, ...]]) -> bool:
    return any(pen in pens for pens in back.values())


def _back(pens: tuple[str, ...]) -> tuple[Task, ...]:
    """Return the way back to pens whose soaked feed has lain long enough, and the clearing."""
    if not pens:
        return ()
    minutes = farm_rounds.task_minutes(LEFTOVERS, len(pens)) + step_min()
    return (Task(LEFTOVERS, farm_rounds.in_steps(minutes), pens=pens),)


def _fits(
    basis: Basis,
    hour: float,
    by_pen: Mapping[str, float],
    asked: Mapping[str, tuple[Task, ...]],
    end_min: float,
) -> dict[str, Fit]:
    """Return whether one person can do a visit, by sort of day, with what its number asks."""
    found: dict[str, Fit] = {}
    for key, load in basis.loads.items():
        more = asked_at(load, hour, asked)
        each = {pen: minutes + more.get(pen, 0.0) for pen, minutes in by_pen.items()}
        one = fit(basis.stay.id, load, hour, each, end_min)
        if one is not None:
            found[key] = one
    return found


def _fed(found: FarmFeed, pen: str, meal: str) -> tuple[GroupFeed, ...]:
    """Return who is fed in a pen at a meal; who has hay, or no ration on record, at both."""
    if not meal:
        return ()
    return tuple(
        one
        for one in found.in_pen(pen)
        if one.morning is None or getattr(one, meal) is not None
    )


def _meal(basis: Basis, pen: str, one: GroupFeed, hour: float, meal: str) -> PlanMeal:
    """Return a meal as it goes out: soaked only where somebody is there to clear it."""
    found = given_at(basis, hour, getattr(one, meal))
    soaked = found is not None and found.water is not None
    return PlanMeal(pen, one, found, soaked, hour, clear_within_h() if soaked else None)
