"""What one visit of a stay asks: its tasks by pen, who is fed, the minutes (step 3).

Every minute of a visit belongs to a row of its card: the rows add up to `visit-work`.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures import published
from binder.figures.feed import farm_feed
from binder.figures.figure import OUR_CHOICE, Figure, step
from binder.figures.noise import TRACE
from binder.figures.rounds import farm_rounds
from binder.figures.rounds.round_tasks import DUSK, Task, allotted
from binder.figures.rounds.visits import RULES
from binder.figures.rules import rule
from binder.figures.stays.clearing import clear_within_h, given_at, turned_back
from binder.figures.stays.plan import Fit, PlanMeal, Visit
from binder.figures.stays.plan_fit import LOOK, STOP, asked_at, fit
from binder.figures.stays.set_out import carried_before, is_dry, ready, with_pans
from binder.figures.weather.sun_times import clock
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Callable, Container, Iterable, Mapping, Sequence

    from binder.figures.day.feeding_hours import Meals
    from binder.figures.feed.farm_feed import FarmFeed, GroupFeed
    from binder.figures.stays.basis import Basis
    from binder.figures.stays.plan import Birth

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
    eggs = _eggs(basis, hour)
    hens = next((pen for pen in order if _lays(basis, pen)), None)
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
        last = (*(() if hens else eggs), *_last(basis, at_end, tasks))
        work = _work(subject, todo, feed_min * len(fed), len(fed), last)
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
            found.fits, _step_min(), clear_within_h() * MINUTES_IN_HOUR,
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
    minutes = farm_rounds.task_minutes(LEFTOVERS, len(pens)) + _step_min()
    return (Task(LEFTOVERS, farm_rounds.in_steps(minutes), pens=pens),)


def _step_min() -> float:
    return rule(RULES, "walk to the next pen", "time").value * MINUTES_IN_HOUR


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


def _eggs(basis: Basis, hour: float) -> tuple[Task, ...]:
    """Return the gathering of eggs, at the visits that the owner's words are for."""
    eggs = basis.farm.about.eggs
    if not eggs or hour not in visits_for(eggs, basis.hours):
        return ()
    return (allotted(Task(EGGS, farm_rounds.task_minutes(EGGS), text=eggs), guarded=False),)


def _lays(basis: Basis, pen: str) -> bool:
    return any(one.cls == HEN for one in basis.herd.in_pen(pen))


def _last(
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
        walk_min = farm_rounds.in_steps(_step_min() * len(basis.pens))
        found.append(Task(WALK, walk_min, count=len(basis.pens)))
    return tuple(found)


def _work(
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
