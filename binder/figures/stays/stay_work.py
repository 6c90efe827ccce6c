"""A stay's visits against its minutes, and one person's own limits in heat (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.finding import Finding, finding
from binder.figures.people.in_heat import new_helper
from binder.figures.people.work_rest import CAUTION, NORMAL, work_rest
from binder.figures.rounds.visits import RULES
from binder.figures.rules import rule
from binder.figures.weather.sun_times import MINUTES_IN_HOUR, clock
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.day.farm_day import Day
    from binder.figures.stays.stay_load import StayLoad
    from binder.figures.stays.stay_plan import StayPlan
    from binder.figures.stays.visit_card import Visit

AREA = "stay"
EFFORT = "moderate"  # walking, carrying water, filling: the published middle row
LIGHT = "light"
NEW = "new"


def any_day(plan: StayPlan) -> Iterator[Finding]:
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


def _first_days(plan: StayPlan) -> Iterator[Finding]:
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


def on_day(plan: StayPlan, load: StayLoad) -> Iterator[Finding]:
    """Yield the visits at which one person cannot do the work in the air of that day."""
    if load.day is None:
        return
    light: dict[str, Figure] = {}
    stop: dict[str, Figure] = {}
    for visit in plan.visits:
        allowed = _allowed(plan, load.day, load.key, visit.hour)
        word = _word(allowed)
        if word == CAUTION:
            shaded = _in_shade(plan, load.day, load.key, visit.hour)
            (stop if _word(shaded) == CAUTION else light)[visit.clock] = shaded
        elif word != NORMAL:
            yield from _rest(plan, load, visit, allowed, word)
    for key, found in (("light-only", light), ("stop", stop)):
        if found:
            strictest = min(found.values(), key=_minutes)
            yield finding(
                AREA, key, plan.stay.id, strictest, load=load.key, at_clocks=" ".join(found),
                minutes=str(strictest.value),
            )  # fmt: skip


def _word(allowed: Figure) -> str:
    return str(allowed.value).lower()


def _minutes(allowed: Figure) -> int:
    """Return the minutes of work in an hour [min], to find the strictest."""
    word = _word(allowed)
    if word in (NORMAL, CAUTION):
        return MINUTES_IN_HOUR if word == NORMAL else 0
    return int(word.partition("/")[0])


def _allowed(plan: StayPlan, day: Day, load: str, hour: float) -> Figure:
    """Return minutes of work and rest in the air of a visit, for carrying and filling."""
    low_h = rule(RULES, "sun is low for", "time").value
    sun = "none"
    if day.sunrise_h <= hour <= day.sunset_h:
        high = day.sunrise_h + low_h <= hour <= day.sunset_h - low_h
        sun = "full" if high else "part"
    air = day.air.air_at(hour)
    subject = f"{plan.stay.id} {load} {clock(hour)}"
    return work_rest(air.temp_c, EFFORT, air.rh_pct, sun, subject)


def _in_shade(plan: StayPlan, day: Day, load: str, hour: float) -> Figure:
    """Return minutes of light work in the shade: looking, opening a valve."""
    air = day.air.air_at(hour)
    subject = f"{plan.stay.id} {load} {clock(hour)} light"
    return work_rest(air.temp_c, LIGHT, air.rh_pct, "none", subject)


def _rest(
    plan: StayPlan, load: StayLoad, visit: Visit, allowed: Figure, word: str
) -> Iterator[Finding]:
    have = plan.stay.minutes
    need = Amount(visit.work.amount.value * MINUTES_IN_HOUR / _minutes(allowed), "min")
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
