"""What a sitter is told beside visits: short looks, whom to phone, what is not their work."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures.bands.band_rule import Band
from binder.figures.rounds.looks import SITTER
from binder.figures.rounds.pen_care import MOVED, WAITS, refill_of
from binder.figures.rounds.round_tasks import ALONE, OWNER
from binder.figures.stays.plan_jobs import REFILL, TASK_OF, job_of
from binder.figures.stays.plan_watch import LOOKS
from binder.figures.stays.stay_days import FLOW_TEST
from binder.figures.water.drinkers import FLOWING
from binder.pages import slugs
from binder.pages.claims import stated
from binder.pages.sheet import Block, Heading, Paragraph, Points, Table
from binder.pages.text.listing import upper_first
from binder.pages.text.rich import rich

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from binder.figures.rounds.looks import Look
    from binder.figures.stays.plan import Birth, Call, Job, Plan, Watch
    from binder.figures.stays.stay_days import Due
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich, Text


def looks(context: Context, plan: Plan) -> list[Block]:
    """Return the short looks of each sort of day, and whom to phone where nobody is here."""
    w = context.w
    watches = {key: one for key, one in plan.watches.items() if one.looks or one.attended}
    if not watches:
        return []
    heads = tuple(w(f"stay.look_head.{key}") for key in ("load", "you", "others", "stay"))
    rows = tuple(_looks_row(context, keys, watches[keys[0]]) for keys in alike(watches))
    how = context.say("stay.looks_how", sheet=context.sheet(slugs.looks(plan)))
    blocks: list[Block] = [
        Heading(w("stay.looks")),
        Paragraph(how, small=True),
        Table(heads, rows, kind="wide plain", claims=stated.looks(context, plan)),
    ]
    return [*blocks, *calls(context, plan)]


def calls(context: Context, plan: Plan) -> list[Block]:
    """Return who looks when between two visits, and how to tell the sort of day."""
    w = context.w
    if not plan.calls:
        return []
    highs = "; ".join(load_head(context, plan, key) for key in plan.loads)
    said = tuple(call(context, one) for one in plan.calls)
    found = tuple(stated.calls(context, plan))
    which = w("stay.which_day", highs=highs, higher=w("stay.which_higher"))
    return [Points((*said, *night(context, plan), which), claims=found)]


def load_head(context: Context, plan: Plan, key: str) -> str:
    """Return a sort of day with the highs that make it one: `Hot day, above 92 up to 95`.

    What lies between two of them is of the hotter sort; the hottest has no end.
    """
    keys = list(plan.loads)
    degrees = {one: context.degrees(load.weather.high_c) for one, load in plan.loads.items()}
    at = keys.index(key)
    which = "first" if at == 0 else "last" if at == len(keys) - 1 else "next"
    return context.w(
        f"stay.sort.{which if len(keys) > 1 else 'only'}",
        load=context.w(f"stay.load_heads.{key}"), high=degrees[key],
        below=degrees[keys[at - 1]],
    )  # fmt: skip


def night(context: Context, plan: Plan) -> tuple[str, ...]:
    """Return at which numbers the plan's looks are enough at night, and what 3 and 4 ask then.

    Nothing where the farm has no place on the map, or where there are no visits.
    """
    if not has_night(plan):
        return ()
    severe = [
        plan.rounds.pens[pen].intervals[Band.SEVERE.key].amount.value for pen in plan.pens
    ]
    still = context.w(
        "stay.night_still", who=reached(context, who_stays(context)),
        every=context.span(min(severe)),
    )  # fmt: skip
    return context.w("stay.night"), still


def has_night(plan: Plan) -> bool:
    """Return whether a plan knows what its nights ask."""
    return bool(plan.visits and plan.pens) and any(
        load.day is not None for load in plan.loads.values()
    )


def alike(watches: Mapping[str, Watch]) -> tuple[tuple[str, ...], ...]:
    """Return the keys of the sorts of day, those that ask for the same looks together."""
    found: list[list[str]] = []
    for key, watch in watches.items():
        same = next((keys for keys in found if _same(watches[keys[0]], watch)), None)
        if same is None:
            found.append([key])
        else:
            same.append(key)
    return tuple(map(tuple, found))


def _same(one: Watch, other: Watch) -> bool:
    return (one.looks, one.attended) == (other.looks, other.attended)


def days_named(context: Context, keys: Sequence[str]) -> str:
    """Return `Typical day and Hot day`."""
    return str(context.listed(context.w(f"stay.load_heads.{key}") for key in keys))


def _looks_row(context: Context, keys: Sequence[str], watch: Watch) -> tuple[Text, ...]:
    others = dict.fromkeys(look.by for look in watch.looks if look.by != SITTER)
    named = (
        context.w(
            "stay.look_by", who=who or context.w("stay.nobody"),
            times=times(context, [look for look in watch.looks if look.by == who]),
        )
        for who in others
    )  # fmt: skip
    mine = [look for look in watch.looks if look.by == SITTER]
    spans = (
        context.w(
            "stay.stays_span", first=context.clock(first), last=context.clock(last),
            who=who_stays(context),
        )
        for first, last in watch.attended
    )  # fmt: skip
    nothing = context.w("stay.nothing")
    return (
        days_named(context, keys),
        times(context, mine) or nothing,
        "; ".join(named) or nothing,
        ", ".join(spans) or nothing,
    )


def times(context: Context, found: Iterable[Look]) -> str:
    """Return the times of looks, `3 pm and 5 pm`."""
    return str(context.listed(context.clock(look.hour) for look in found))


def call(context: Context, one: Call) -> str:
    """Return the plain line of a gap: what the sitter looks at, and who looks at the rest."""
    w = context.w
    mine = str(context.listed(context.clock(hour) for hour in one.own))
    loads = days_named(context, one.loads)
    return w(
        "stay.call" if one.who else "stay.call_nobody",
        loads=loads, start=context.clock(one.start_h), end=context.clock(one.end_h),
        mine=w("stay.call_mine", times=mine) if mine else w("stay.call_not_you"),
        who=reached(context, one.who or owner(context)),
        times=str(context.listed(context.clock(hour) for hour in one.looks)),
    )  # fmt: skip


def reached(context: Context, name: str) -> str:
    """Return a helper's name with the telephone and how soon they can be here."""
    contact = next((one for one in context.farm.contacts if one.name == name), None)
    if contact is None or contact.private:
        return name
    comes = contact.comes_in_h
    parts = (
        str(context.phones(contact)) if contact.phone else "",
        context.w("stay.comes_in", span=context.span(comes)) if comes else "",
    )
    more = ", ".join(filter(None, parts))
    return f"{name} ({more})" if more else name


def owner(context: Context) -> str:
    """Return the owner's name, or who the owner is where no contact says so."""
    found = context.contacts("owner")
    return found[0].name if found else context.w("stay.owner")


def who_stays(context: Context) -> str:
    """Return whom to phone where an animal is not left alone: who helps, else the owner."""
    contacts = context.farm.contacts
    helping = (one.name for one in contacts if LOOKS in one.helps and not one.private)
    return next(helping, owner(context))


def who_helps(context: Context, job: str) -> str:
    """Return the first contact that helps with a job, empty where nobody does."""
    contacts = context.farm.contacts
    return next((one.name for one in contacts if job in one.helps and not one.private), "")


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
