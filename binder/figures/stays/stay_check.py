"""Does the plan hold? A stay's visits against what bands and meals allow (step 3).

Water and hoses: `stay_reserves`; minutes and people: `stay_work`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.bands.band_rule import Band
from binder.figures.figure import OUR_CHOICE, Figure, step
from binder.figures.finding import Finding, finding
from binder.figures.rounds.looks import NOBODY, SITTER
from binder.figures.rounds.round_tasks import OWNER, TWO
from binder.figures.rounds.visits import RULES, overdue_h
from binder.figures.rules import rule
from binder.figures.stays import stay_reserves, stay_work
from binder.figures.stays.plan_watch import needs_in, watch_of
from binder.figures.stays.stay_days import OWNERS, births_in
from binder.figures.stays.stay_load import HOT, PLANNED_FOR
from binder.figures.stays.stay_meals import AREA, EVERY_PEN, meals_of
from binder.figures.weather.sun_times import clock
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from binder.farm.model import Farm
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.power.farm_power import FarmPower
    from binder.figures.rounds.looks import Look
    from binder.figures.rounds.visits import Gap
    from binder.figures.stays.plan import Plan, Watch
    from binder.figures.stays.plan_parts import Job
    from binder.figures.stays.stay_load import StayLoad


@dataclass(frozen=True, slots=True)
class StayCheck:
    """Where the plan of a stay does not hold.

    Attributes:
        always: conflicts on any day, `stay-findings` in the words, the fix under `stay-fixes`.
        by_load: conflicts on a typical, hot or extreme day, by key of the load.
        overdue: for each load and pen, when it is first overdue with the visits alone [h since
            midnight], None where it never is; empty without hours.
        before: what the owner does, or arranges with a helper, before day one.
    """

    always: tuple[Finding, ...]
    by_load: Mapping[str, tuple[Finding, ...]]
    overdue: Mapping[str, Mapping[str, float | None]]
    before: tuple[Finding, ...] = ()

    @property
    def holds(self) -> bool:
        """Return whether there is no conflict at all."""
        return not self.always and not any(self.by_load.values())


def for_farm(
    farm: Farm,
    plans: Mapping[str, Plan],
    hoses: Mapping[str, HoseSheet],
    power: FarmPower,
) -> Mapping[str, StayCheck]:
    """Return where each plan does not hold, by stay id."""
    return {key: _check(farm, plan, hoses, power) for key, plan in plans.items()}


def _check(
    farm: Farm, plan: Plan, hoses: Mapping[str, HoseSheet], power: FarmPower
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
        overdue={key: watch.overdue for key, watch in plan.watches.items()},
        before=tuple(_before(plan)),
    )


def on_day(
    farm: Farm, plan: Plan, load: StayLoad, hoses: Mapping[str, HoseSheet]
) -> tuple[Finding, ...]:
    """Return where a plan does not hold on a day of that load."""
    return (
        *_looks(
            plan, load, plan.watches.get(load.key) or watch_of(plan.basis, load, plan.visits)
        ),
        *(meals_of(plan, load) if load.key in PLANNED_FOR else ()),
        *stay_reserves.on_day(farm, plan, load, hoses),
        *stay_work.on_day(plan, load),
    )


def _before(plan: Plan) -> Iterator[Finding]:
    """Yield what nobody does alone: the owner's before leaving, or an appointment."""
    inside: dict[str, list[str]] = {}
    for job in plan.jobs:
        if job.who == OWNER and job.pen is not None:
            inside.setdefault(job.key, []).append(job.pen)
    for key, pens in inside.items():
        yield finding(
            AREA, "before", plan.stay.id, job=key, pens=" ".join(dict.fromkeys(pens)),
        )  # fmt: skip
    together: dict[tuple[str, str], list[Job]] = {}
    for job in plan.jobs:
        if job.who == TWO and job.on is not None:
            together.setdefault((job.key, job.helper), []).append(job)
    for (key, helper), jobs in together.items():
        yield finding(
            AREA, "appointment" if helper else "no-helper", plan.stay.id, job=key,
            pens=" ".join(dict.fromkeys(job.pen for job in jobs if job.pen)),
            day_date=min(job.on for job in jobs if job.on).isoformat(), helper=helper,
            minutes_each=Amount(max(job.minutes + job.runs_min for job in jobs), "min"),
        )  # fmt: skip
    yield from _asked_looks(plan)
    for pen, count in plan.buys.items():
        yield finding(
            AREA, "buys", plan.stay.id, pens=pen, count=count,
            lacks=" ".join(plan.rounds.pens[pen].care.lacks),
        )  # fmt: skip


def _asked_looks(plan: Plan) -> Iterator[Finding]:
    """Yield whom the owner asks for the looks of a hot day that are not the sitter's."""
    watch = plan.watches.get(HOT)
    looks = () if watch is None else watch.looks
    for name in dict.fromkeys(look.by for look in looks if look.by not in (SITTER, NOBODY)):
        times = " ".join(clock(look.hour % HOURS_IN_DAY) for look in looks if look.by == name)
        yield finding(
            AREA, "ask-looks", plan.stay.id, load=HOT, helper=name, sitter=plan.stay.sitter,
            looks_clocks=times,
        )  # fmt: skip


def _records(farm: Farm, plan: Plan) -> Iterator[Finding]:
    stay = plan.stay
    if not stay.visits:
        yield finding(AREA, "no-visits", stay.id, sitter=stay.sitter)
    if stay.minutes is None and stay.visits:
        yield finding(AREA, "no-minutes", stay.id, sitter=stay.sitter)
    if any(load.day is None for load in plan.loads.values()):
        yield finding(AREA, "no-place", stay.id, farm=farm.about.name)


def _births(plan: Plan) -> Iterator[Finding]:
    """Yield a line for each birth that may fall into the stay."""
    for due in births_in(plan.days):
        yield finding(
            AREA, "birth", plan.stay.id, who=due.who, what=due.key,
            first_date=due.first.isoformat(), last_date=due.last.isoformat(),
        )  # fmt: skip


def _owners_jobs(plan: Plan) -> Iterator[Finding]:
    """Yield what only the owner does, and what falls into the stay: moving, weaning."""
    seen = dict.fromkeys(due for day in plan.days for due in day.due if due.key in OWNERS)
    for due in seen:
        yield finding(
            AREA, "owner-job", plan.stay.id, who=due.who, job=due.key,
            first_date=due.first.isoformat(), last_date=due.last.isoformat(),
        )  # fmt: skip


def _looks(plan: Plan, load: StayLoad, watch: Watch) -> Iterator[Finding]:
    """Yield the looks for which nobody can come, and when somebody has to stay.

    By day all gaps in one line; a night by itself. Where the sitter sleeps here, a look at
    night is theirs, and an alarm is set for it.
    """
    by_day = [
        (gap, missed)
        for gap in watch.gaps
        if not gap.at_night and (missed := _within(watch, gap, NOBODY))
    ]
    if by_day:
        most = rule(RULES, "extra looks a day at most", "number").value
        few = sum(len(missed) for _, missed in by_day) <= most
        yield _said(plan, load, "round" if few else "round-many", by_day)
    for gap in watch.gaps:
        if gap.at_night and (missed := _within(watch, gap, NOBODY)):
            yield _said(plan, load, "night", [(gap, missed)])
        if gap.at_night and (alarms := _within(watch, gap, SITTER)):
            yield _said(plan, load, "night-alarm", [(gap, alarms)])
    for start, end in watch.attended:
        yield finding(
            AREA, "attend", plan.stay.id, load=load.key, start_clock=start,
            end_clock=end % HOURS_IN_DAY, pens=_pens_at(plan, load, Band.ALL_HANDS),
        )  # fmt: skip


def _within(watch: Watch, gap: Gap, by: str) -> tuple[Look, ...]:
    return tuple(
        look for look in watch.looks if look.by == by and gap.start_h < look.hour < gap.end_h
    )


def _pens_at(plan: Plan, load: StayLoad, band: Band) -> str:
    return _named(plan, [pen for pen in plan.pens if band in load.worst.get(pen, ())])


def _named(plan: Plan, pens: Sequence[str]) -> str:
    return EVERY_PEN if len(pens) == len(plan.pens) else " ".join(pens)


def _said(
    plan: Plan, load: StayLoad, key: str, found: Sequence[tuple[Gap, tuple[Look, ...]]]
) -> Finding:
    looks = [look for _, each in found for look in each]
    overdue = {pen for look in looks for pen in look.pens}
    pens = [pen for pen in plan.rounds.pens if pen in overdue]
    late = min(
        time
        for pen in overdue
        for gap, _ in found
        if (time := overdue_h(gap, needs_in(load)[pen])) is not None
    )
    return finding(
        AREA, key, plan.stay.id, *(_figure(plan, load, gap, each) for gap, each in found),
        load=load.key,
        start_clock=found[0][0].start_h,
        end_clock=found[-1][0].end_h,
        late_clock=late,
        pens=_named(plan, pens),
        band=_worst(load, pens, looks).key,
        looks_clocks=" ".join(clock(look.hour % HOURS_IN_DAY) for look in looks),
        count=len(looks),
    )  # fmt: skip


def _worst(load: StayLoad, pens: Sequence[str], looks: Sequence[Look]) -> Band:
    """Return the worst band of the hours in which the looks stand."""
    hours = {int(look.hour) % HOURS_IN_DAY for look in looks}
    return Band(max(load.worst[pen][hour] for pen in pens for hour in hours))


def _figure(plan: Plan, load: StayLoad, gap: Gap, looks: Sequence[Look]) -> Figure:
    """Return a gap that is too long [h], and how the looks that would fill it came about."""
    value = Amount(gap.hours, "h")
    pens = dict.fromkeys(pen for look in looks for pen in look.pens)
    late = min(
        time for pen in pens if (time := overdue_h(gap, needs_in(load)[pen])) is not None
    )
    lines = (
        step("gap", start=clock(gap.start_h), end=clock(gap.end_h), time=value),
        step("late", late=clock(late), band=_worst(load, list(pens), looks).word),
        step("looks", looks=", ".join(clock(look.hour) for look in looks)),
    )
    subject = f"{plan.stay.id} {load.key} {clock(gap.start_h)}"
    return Figure("visit-gap", value, lines, (OUR_CHOICE,), (), subject)
