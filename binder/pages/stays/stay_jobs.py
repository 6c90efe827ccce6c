"""What is whose in a stay: work that is not the sitter's, births, who is elsewhere when."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures.rounds.pen_care import MOVED, WAITS, refill_of
from binder.figures.rounds.round_tasks import ALONE, OWNER
from binder.figures.stays.plan_jobs import REFILL, TASK_OF, job_of
from binder.figures.stays.stay_days import FLOW_TEST
from binder.figures.water.drinkers import FLOWING
from binder.pages.sheet import Block, Heading, Paragraph, Points
from binder.pages.text.listing import upper_first
from binder.pages.text.rich import rich

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Iterator, Sequence

    from binder.figures.stays.plan import Plan
    from binder.figures.stays.plan_parts import Birth, Job
    from binder.figures.stays.stay_days import Due
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich, Text


def whose(context: Context, plan: Plan, due: Due, what: str) -> str:
    """Return what is due on a day, with whose work it is where it is not the sitter's alone."""
    if due.key == FLOW_TEST:
        mine = [
            context.farm.pen(pen)
            for pen in plan.pens
            if job_of(plan.basis, due, pen).who == ALONE
        ]
        # What a trough or a bell gives is caught in no jug.
        names = [pen.name for pen in mine if any(one.kind in FLOWING for one in pen.drinkers)]
        if not names:
            return ""
        return context.w("stay.flow_test_at", what=what, pens=str(context.listed(names)))
    if due.key not in TASK_OF:
        return what
    job = job_of(plan.basis, due, due.pen)
    if job.who == ALONE:
        return what
    if job.who == OWNER:
        return context.w("stay.by_owner", what=what)
    key = "with_helper" if job.helper else "by_somebody"
    return context.w(f"stay.{key}", what=what, helper=job.helper)


def not_yours(context: Context, plan: Plan) -> list[Block]:
    """Return the work that nobody does alone: whose it is, and when somebody comes for it."""
    w = context.w
    together: dict[tuple[str, str, str], list[Job]] = {}
    for job in plan.jobs:
        if job.who != ALONE:
            together.setdefault((job.key, job.who, job.helper), []).append(job)
    lines: list[Text] = [_job(context, jobs) for jobs in together.values()]
    if topped := _pens_where(context, plan, WAITS):
        lines.append(w("stay.wallow_waits", pens=topped))
    if any(job.key == REFILL for job in plan.jobs) and (
        led := _pens_where(context, plan, MOVED)
    ):
        lines.append(w("stay.wallow_moved", pens=led))
    lines += [
        context.say(
            "stay.birth", name=birth.name, window=birth_days(context, birth),
            before=birth.head_before, after=birth.head_after,
            water_before=context.number_both(birth.before),
            water_after=context.number_both(birth.after),
            feed=_fed_after(context, birth),
        )
        for birth in plan.births
    ]  # fmt: skip
    if not lines:
        return []
    guarded = [
        context.farm.pen(pen).name for pen in plan.pens if plan.rounds.pens[pen].care.guarded
    ]
    said = w("stay.not_yours_how")
    if guarded:
        said = f"{said} {w('stay.not_in', pens=str(context.listed(guarded)))}"
    how = Paragraph(said)
    return [Heading(w("stay.not_yours")), how, Points(tuple(lines))]


def birth_days(context: Context, birth: Birth) -> str:
    """Return `due 11 to 16 July, late up to 20 July`: one window, wherever a birth is named."""
    window = context.window(birth.first, birth.due_last)
    if birth.last == birth.due_last:
        return context.w("stay.due_days", window=window)
    return context.w("stay.due_late", window=window, last=context.short_day(birth.last))


def _pens_where(context: Context, plan: Plan, what: str) -> str:
    """Return the pens with a wallow whose refill waits, or asks for a move, on some day."""
    inside = {one.pen for day in plan.days for one in day.living if refill_of(one.cls) == what}
    pens = [context.farm.pen(pen) for pen in plan.pens if pen in inside]
    names = [pen.name for pen in pens if pen.wallow is not None]
    return str(context.listed(names)) if names else ""


def _fed_after(context: Context, birth: Birth) -> Rich | str:
    if birth.fed is None or birth.fed.total is None:
        return context.w("stay.birth_ask")
    told = "birth_feed"
    if birth.fed.ration is not None and "ask-owner" in birth.fed.ration.cautions:
        told = "birth_feed_ask"
    return context.say(f"stay.{told}", total=rich(context.number(birth.fed.total)))


def spells(context: Context, days: Iterable[dt.date]) -> str:
    """Return days with those in a run together: `10 to 12 July and 17 July`."""
    runs: list[tuple[dt.date, dt.date]] = []
    for on in sorted(set(days)):
        if runs and (on - runs[-1][1]).days == 1:
            runs[-1] = (runs[-1][0], on)
        else:
            runs.append((on, on))
    return str(
        context.listed(
            context.short_day(first) if first == last else context.window(first, last)
            for first, last in runs
        )
    )


def _job(context: Context, jobs: Sequence[Job]) -> str:
    w, first = context.w, jobs[0]
    pens = dict.fromkeys(context.farm.pen(job.pen).name for job in jobs if job.pen)
    if first.who == OWNER:
        who = w("stay.job_owner")
    elif first.helper:
        days = spells(context, [job.on for job in jobs if job.on])
        most = max(job.minutes + job.runs_min for job in jobs)
        spent = context.span(most / MINUTES_IN_HOUR)
        who = w("stay.job_helper", helper=first.helper, days=days, minutes=spent)
    else:
        who = w("stay.job_nobody")
    name = upper_first(w(f"stay.jobs.{first.key}"))
    return w("stay.job", job=name, pens=str(context.listed(pens)), who=who)


def elsewhere(context: Context, plan: Plan, pen: str = "") -> Iterator[str]:
    """Yield who is somewhere else than on the last day, and until when.

    Every paper of a stay shows the animals as they are on the last day; these are the days on
    which that is not so yet.

    Args:
        context: what composing knows.
        plan: of the stay.
        pen: only what concerns this pen; every pen for empty.
    """
    last = {one.name: one for one in plan.days[-1].living}
    for name, now in last.items():
        spells = [
            (day.on, one.pen) for day in plan.days for one in day.living if one.name == name
        ]
        for place, run in groupby(spells, key=lambda spell: spell[1]):
            days = [on for on, _ in run]
            if place == now.pen or (pen and pen not in (place, now.pen)):
                continue
            yield context.w(
                "pack.days.elsewhere", who=name, days=context.window(days[0], days[-1]),
                pen=context.pen_name(place), now=context.pen_name(now.pen),
            )  # fmt: skip
