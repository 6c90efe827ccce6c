"""Does the plan hold? A stay's visits against what bands and meals allow (step 3).

Water and hoses: `stay_reserves`; minutes and people: `stay_work`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import Band
from binder.figures.figure import Figure, step
from binder.figures.finding import Finding, finding
from binder.figures.rounds.visits import (
    NOISE,
    RULES,
    Gap,
    extra_visits,
    is_late,
    overdue_h,
    slack_h,
    strictest,
)
from binder.figures.rules import rule
from binder.figures.stays import stay_reserves, stay_work
from binder.figures.stays.stay_days import OWNERS
from binder.figures.stays.stay_load import PLANNED_FOR
from binder.figures.stays.visit_card import (
    EVENING,
    MORNING,
    feed_up_to,
    keeps_feed,
    too_hot_to_feed,
)
from binder.figures.weather.sun_times import HOURS_IN_DAY, clock
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from binder.farm.model import Farm
    from binder.figures.day.farm_day import Meals
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.power.farm_power import FarmPower
    from binder.figures.stays.stay_load import StayLoad
    from binder.figures.stays.stay_plan import StayPlan

AREA = "stay"
EVERY_PEN = "*"  # in place of the ids of all pens with animals


@dataclass(frozen=True, slots=True)
class StayCheck:
    """Where the plan of a stay does not hold.

    Attributes:
        always: conflicts on any day, `stay-findings` in the words, the fix under `stay-fixes`.
        by_load: conflicts on a typical, hot or severe day, by key of the load.
        overdue: for each load and pen, when it is first overdue [h since midnight], None where
            it never is; empty without hours.
    """

    always: tuple[Finding, ...]
    by_load: Mapping[str, tuple[Finding, ...]]
    overdue: Mapping[str, Mapping[str, float | None]]

    @property
    def holds(self) -> bool:
        """Return whether there is no conflict at all."""
        return not self.always and not any(self.by_load.values())


def for_farm(
    farm: Farm,
    plans: Mapping[str, StayPlan],
    hoses: Mapping[str, HoseSheet],
    power: FarmPower,
) -> Mapping[str, StayCheck]:
    """Return where each plan does not hold, by stay id."""
    return {key: _check(farm, plan, hoses, power) for key, plan in plans.items()}


def _check(
    farm: Farm, plan: StayPlan, hoses: Mapping[str, HoseSheet], power: FarmPower
) -> StayCheck:
    return StayCheck(
        always=(
            *_records(farm, plan),
            *_births(plan),
            *_owners_jobs(plan),
            *stay_work.any_day(plan),
            *stay_reserves.any_day(farm, plan, power),
        ),
        by_load={key: on_day(farm, plan, load, hoses) for key, load in plan.loads.items()},
        overdue={key: first_overdue(plan, load) for key, load in plan.loads.items()},
    )


def on_day(
    farm: Farm, plan: StayPlan, load: StayLoad, hoses: Mapping[str, HoseSheet]
) -> tuple[Finding, ...]:
    """Return where a plan does not hold on a day of that load."""
    return (
        *_looks(plan, load),
        *(_meals(plan, load) if load.key in PLANNED_FOR else ()),
        *stay_reserves.on_day(farm, plan, load, hoses),
        *stay_work.on_day(plan, load),
    )


def _records(farm: Farm, plan: StayPlan) -> Iterator[Finding]:
    stay = plan.stay
    if not stay.visits:
        yield finding(AREA, "no-visits", stay.id, sitter=stay.sitter)
    if stay.minutes is None and stay.visits:
        yield finding(AREA, "no-minutes", stay.id, sitter=stay.sitter)
    if any(load.day is None for load in plan.loads.values()):
        yield finding(AREA, "no-place", stay.id, farm=farm.about.name)


def _births(plan: StayPlan) -> Iterator[Finding]:
    """Yield a line for each birth that may fall into the stay."""
    seen = dict.fromkeys(due for day in plan.days for due in day.due if due.is_birth)
    for due in seen:
        yield finding(
            AREA, "birth", plan.stay.id, who=due.who, what=due.key,
            first_date=due.first.isoformat(), last_date=due.last.isoformat(),
        )  # fmt: skip


def _owners_jobs(plan: StayPlan) -> Iterator[Finding]:
    """Yield what only the owner does, and what falls into the stay: moving, weaning."""
    seen = dict.fromkeys(due for day in plan.days for due in day.due if due.key in OWNERS)
    for due in seen:
        yield finding(
            AREA, "owner-job", plan.stay.id, who=due.who, job=due.key,
            first_date=due.first.isoformat(), last_date=due.last.isoformat(),
        )  # fmt: skip


def _needs(plan: StayPlan, load: StayLoad, gap: Gap) -> Mapping[str, tuple[float, ...]]:
    """Return how long each pen may go unseen, by hour [h].

    In a night with somebody asleep on the farm only number 2 and worse count: our choice.
    """
    if not (gap.at_night and plan.stay.sleeps_here):
        return load.allowed
    return {
        pen: tuple(
            hours if band >= Band.HOT else gap.hours
            for hours, band in zip(allowed, load.worst[pen], strict=True)
        )
        for pen, allowed in load.allowed.items()
    }


def first_overdue(plan: StayPlan, load: StayLoad) -> Mapping[str, float | None]:
    """Return when each pen is first overdue on a day of that load [h], None for never."""
    found: dict[str, float | None] = {}
    needs = [(gap, _needs(plan, load, gap)) for gap in plan.gaps]
    for pen in load.allowed:
        times = (overdue_h(gap, need[pen]) for gap, need in needs)
        late = [time for time in times if time is not None]
        found[pen] = min(late) if late else None
    return found


@dataclass(frozen=True, slots=True)
class _Late:
    """A gap in which pens are overdue: which, from when, and the looks that would fill it."""

    gap: Gap
    pens: tuple[str, ...]
    from_h: float
    looks: tuple[float, ...]
    band: Band


def _late(plan: StayPlan, load: StayLoad, gap: Gap) -> _Late | None:
    needs = _needs(plan, load, gap)
    times = {pen: overdue_h(gap, allowed) for pen, allowed in needs.items()}
    late = {pen: time for pen, time in times.items() if time is not None}
    if not late:
        return None
    worst = max(
        load.worst[pen][hour % HOURS_IN_DAY]
        for pen in late
        for hour in range(int(late[pen]), int(gap.end_h - NOISE) + 1)
    )
    looks = extra_visits(gap, strictest(needs.values()))
    return _Late(gap, tuple(late), min(late.values()), looks, Band(worst))


def _looks(plan: StayPlan, load: StayLoad) -> Iterator[Finding]:
    """Yield the gaps in which a pen goes unseen for longer than its band allows."""
    found = [late for gap in plan.gaps if (late := _late(plan, load, gap)) is not None]
    by_day = [late for late in found if not late.gap.at_night]
    if by_day:
        most = rule(RULES, "extra looks a day at most", "number").value
        few = sum(len(late.looks) for late in by_day) <= most
        yield _said(plan, load, "round" if few else "round-many", by_day)
    for late in found:
        if late.gap.at_night:
            key = "night-alarm" if plan.stay.sleeps_here else "night"
            yield _said(plan, load, key, [late])


def _said(plan: StayPlan, load: StayLoad, key: str, found: Sequence[_Late]) -> Finding:
    overdue = {pen for late in found for pen in late.pens}
    pens = [pen for pen in plan.rounds.pens if pen in overdue]
    looks = [look for late in found for look in late.looks]
    return finding(
        AREA, key, plan.stay.id, *(_figure(plan, load, late) for late in found),
        load=load.key,
        start_clock=found[0].gap.start_h,
        end_clock=found[-1].gap.end_h,
        late_clock=found[0].from_h,
        pens=EVERY_PEN if len(pens) == len(plan.pens) else " ".join(pens),
        band=max(late.band for late in found).key,
        looks_clocks=" ".join(clock(look) for look in looks),
        count=len(looks),
    )  # fmt: skip


def _figure(plan: StayPlan, load: StayLoad, late: _Late) -> Figure:
    """Return a gap that is too long [h], and how the looks that would fill it came about."""
    gap = late.gap
    value = Amount(gap.hours, "h")
    lines = (
        step("gap", start=clock(gap.start_h), end=clock(gap.end_h), time=value),
        step("late", late=clock(late.from_h), band=late.band.word),
        step("looks", looks=", ".join(clock(look) for look in late.looks)),
    )
    subject = f"{plan.stay.id} {load.key} {clock(gap.start_h)}"
    return Figure("visit-gap", value, lines, ("our-choice",), (), subject)


def _meals(plan: StayPlan, load: StayLoad) -> Iterator[Finding]:
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


def _hot_meals(plan: StayPlan, load: StayLoad, meals: Meals) -> Iterator[Finding]:
    """Yield the meals that go out where the number asks for no feed before sunset."""
    for visit in plan.visits:
        pens = [
            pen
            for pen, fed in visit.fed.items()
            if too_hot_to_feed(load, pen, visit.hour) and not all(map(keeps_feed, fed))
        ]
        if pens and load.day is not None:
            yield finding(
                AREA, "feed-hot", plan.stay.id, load=load.key, at_clock=visit.hour,
                pens=EVERY_PEN if len(pens) == len(plan.pens) else " ".join(pens),
                sunset_clock=load.day.sunset_h, by_clock=meals.morning_by_h,
                up_to=feed_up_to(),
            )  # fmt: skip
