"""A stay's visits against its minutes, and one person's own limits in heat (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures import published
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.finding import Finding, finding
from binder.figures.people.in_heat import new_helper
from binder.figures.people.work_rest import CAUTION, NORMAL
from binder.figures.rounds.visits import RULES
from binder.figures.rules import rule
from binder.figures.stays.visits.plan_fit import allowed_at, in_shade, minutes_of, word_of
from binder.figures.weather.sun_times import clock
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.stays.plan import Plan, Visit
    from binder.figures.stays.stay_load import StayLoad

AREA = "stay"
NEW = "new"


def any_day(plan: Plan) -> Iterator[Finding]:
    """Yield what does not fit into the minutes of any day."""
    have = plan.stay.minutes
    for visit in plan.visits:
        if have is not None and visit.work.amount.value > have:
            yield finding(
                AREA, "minutes", plan.stay.id, visit.work, at_clock=visit.hour,
                need=visit.work.amount, have=Amount(have, "min"),
            )  # fmt: skip
    if plan.stay.new_to_heat and plan.visits:
        yield from _first_days(plan)


def _first_days(plan: Plan) -> Iterator[Finding]:
    """Yield the days on which the work is more than a new helper's share of a full day."""
    full_h = rule(RULES, "full day of work", "time").value
    work_min = sum(visit.work.amount.value for visit in plan.visits)
    days = [row for row in published.rows("acclimatise") if row.text("helper") == NEW]
    over = []
    for number in range(1, min(len(days), len(plan.days)) + 1):
        share = new_helper(number)
        most_min = full_h * MINUTES_IN_HOUR * share.amount.value / 100
        if work_min > most_min:
            over.append((number, share.amount, most_min))
    if over:
        number, share_pct, most_min = over[0]
        yield finding(
            AREA, "new-helper", plan.stay.id, sitter=plan.stay.sitter, first=number,
            last=over[-1][0], share=share_pct, most=Amount(most_min, "min"),
            need=Amount(work_min, "min"),
        )  # fmt: skip


def on_day(plan: Plan, load: StayLoad) -> Iterator[Finding]:
    """Yield the visits at which one person cannot do the work in the air of that day."""
    if load.day is None:
        return
    light: dict[str, Figure] = {}
    stop: dict[str, Figure] = {}
    for visit in plan.visits:
        subject = f"{plan.stay.id} {load.key} {visit.clock}"
        allowed = allowed_at(load.day, visit.hour, subject)
        word = word_of(allowed)
        if word == CAUTION:
            shaded = in_shade(load.day, visit.hour, f"{subject} light")
            (stop if word_of(shaded) == CAUTION else light)[visit.clock] = shaded
        elif word != NORMAL:
            yield from _rest(plan, load, visit, allowed, word)
    for key, found in (("light-only", light), ("stop", stop)):
        if found:
            strictest = min(found.values(), key=minutes_of)
            yield finding(
                AREA, key, plan.stay.id, strictest, load=load.key, at_clocks=" ".join(found),
                minutes=str(strictest.value),
            )  # fmt: skip


def _rest(
    plan: Plan, load: StayLoad, visit: Visit, allowed: Figure, word: str
) -> Iterator[Finding]:
    have = plan.stay.minutes
    need = Amount(visit.work.amount.value * MINUTES_IN_HOUR / minutes_of(allowed), "min")
    if have is None or need.value <= have:
        return
    line = step("rest", work=visit.work.amount, minutes=word, need=need)
    subject = f"{plan.stay.id} {load.key} {clock(visit.hour)}"
    sources = merge_sources(visit.work.sources, allowed.sources)
    figure = Figure("visit-with-rest", need, (line,), sources, (), subject)
    yield finding(
        AREA, "rest", plan.stay.id, allowed, figure, load=load.key, at_clock=visit.hour,
        minutes=word, work=visit.work.amount, need=need, have=Amount(have, "min"),
    )  # fmt: skip
