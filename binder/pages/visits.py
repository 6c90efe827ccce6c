"""A card for each visit of a stay, with boxes to tick, and the log with the stay's dates."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder import units
from binder.figures.rounds import task_minutes
from binder.figures.stays import EVENING, MORNING
from binder.figures.sun_times import HOURS_IN_DAY
from binder.pages import feed_facts, pen_facts
from binder.pages.rich import rich
from binder.pages.sheet import Block, Paragraph, Raw, Sheet, Table

if TYPE_CHECKING:
    from binder.figures.feed import GroupFeed
    from binder.figures.herd import Group
    from binder.figures.rounds import Task
    from binder.figures.stays import StayPlan, Visit
    from binder.pages.context import Context
    from binder.pages.rich import Rich

    Text = str | Rich | Markup

EDITIONS = frozenset({"sitter", "helper", "owner"})
FREE_LINES = 1  # our choice: rounds between the visits are written down too


def slug(plan: StayPlan, visit: Visit) -> str:
    """Return the slug of a visit's card: `visit-july-0630`."""
    return f"visit-{plan.stay.id}-{visit.clock.replace(':', '')}"


def log_slug(plan: StayPlan) -> str:
    """Return the slug of a stay's own round log."""
    return f"log-{plan.stay.id}"


def who(context: Context, group: Group) -> str:
    """Return an animal or group as people speak of it."""
    return pen_facts.who(context, group)


def card(context: Context, plan: StayPlan, visit: Visit) -> Sheet:
    """Return what to do at one visit, pen by pen, on every day of the stay."""
    w = context.w
    dates = context.window(plan.stay.first, plan.stay.last)
    fed = w(f"visit.feed_{visit.meal or 'none'}")
    before, _, after = w("visit.answer", work="@", feed=fed).partition("@")
    blocks: list[Block] = [Paragraph(_where_else(context, plan), small=True)]
    for place, pen in enumerate(plan.pens, 1):
        blocks += _pen(context, plan, visit, place, pen)
    last = [w("visit.eggs", text=context.farm.about.eggs)] if context.farm.about.eggs else []
    if visit.meal and any(_soaked(one, visit.meal) for one in plan.feed.groups):
        last.append(w("visit.leftovers"))
    if last:
        blocks.append(Table((), tuple((_tick(line),) for line in last), kind="tasks wide"))
    return Sheet(
        slug=slug(plan, visit),
        number=context.sheets[slug(plan, visit)],
        title=w("visit.title", clock=context.clock(visit.hour)),
        answer=(rich(before, context.number(visit.work), after),),
        blocks=tuple(blocks),
        summary=w("visit.summary", dates=dates),
        sources=("our-choice",),
        words=f"visit card tasks {plan.stay.sitter}",
        kind="visit",
        editions=EDITIONS,
    )


def _where_else(context: Context, plan: StayPlan) -> Rich:
    today = context.w("visit.today", sheet="@").partition("@")
    log = context.w("visit.log", sheet="@").partition("@")
    loads = [context.w(f"stay.loads.{key}") for key, load in plan.loads.items() if load.worst]
    listed = str(context.listed(loads))
    return rich(
        today[0], context.sheet(f"stay-{plan.stay.id}"), today[2], " ",
        log[0], context.sheet(log_slug(plan)), log[2],
        f" {context.w('visit.expect', loads=listed)}" if loads else "",
    )  # fmt: skip


def _soaked(one: GroupFeed, meal: str) -> bool:
    fed = getattr(one, meal)
    return fed is not None and fed.water is not None


def _pen(
    context: Context, plan: StayPlan, visit: Visit, place: int, pen: str
) -> tuple[Block, ...]:
    tasks = plan.rounds.pens[pen].tasks
    rows = [_task(context, plan, pen, task) for task in tasks[:1]]
    rows += _meals(context, plan, visit, pen)
    rows += [_task(context, plan, pen, task) for task in tasks[1:]]
    name = context.farm.pen(pen).name
    title = Markup("<h3>{} {} {}</h3>").format(place, name, _expected(plan, visit, pen))
    return Raw(title), Table((), tuple(rows), kind="tasks wide", amounts=(2,))


def _expected(plan: StayPlan, visit: Visit, pen: str) -> Markup:
    """Return the numbers to expect at this hour, one for each sort of day, mildest first."""
    hour = math.floor(visit.hour) % HOURS_IN_DAY
    bands = [load.worst[pen][hour] for load in plan.loads.values() if pen in load.worst]
    return Markup(" ").join(
        Markup('<span class="band b{0}">{0}</span>').format(band) for band in bands
    )


def _meals(context: Context, plan: StayPlan, visit: Visit, pen: str) -> list[tuple[Text, ...]]:
    rows: list[tuple[Text, ...]] = []
    for one in plan.feed.in_pen(pen):
        if visit.meal and getattr(one, visit.meal) is not None:
            view = feed_facts.feed_view(context, one)
            amount = {MORNING: view.morning, EVENING: view.evening}[visit.meal]
            minutes = "" if rows else units.show_number(task_minutes("feed"))
            name = context.w("visit.feed", who=one.group.animal.called)
            rows.append((_tick(name), amount, minutes))
    return rows


def _task(context: Context, plan: StayPlan, pen: str, task: Task) -> tuple[Text, ...]:
    view = pen_facts.task_view(context, task)
    amount: Text = view.amount
    wallow = context.farm.pen(pen).wallow
    if task.key == "wallow" and wallow is not None:
        amount = context.number_both(plan.top_ups.get(wallow.id))
    name = task.text if task.key == "own" else view.task
    return _tick(name), amount, view.minutes


def _tick(words: str) -> Markup:
    return Markup('<span class="tick"></span> {}').format(words)


def log(context: Context, plan: StayPlan) -> Sheet:
    """Return the round log with a line for each visit of the stay."""
    w = context.w
    degree = "°F" if context.words.system == "us" else "°C"
    heads = [head.format(degree=degree) for head in context.words.many("log.round.heads")]
    heads[0] = w("staylog.day")
    empty = tuple("" for _ in heads[1:])
    days = context.words.many("staylog.days")
    rows: list[tuple[Text, ...]] = []
    for day in plan.days:
        name = w("staylog.of", day=days[day.on.weekday()], date=day.on.day)
        rows += [(f"{name} {context.clock(visit.hour)}", *empty) for visit in plan.visits]
        rows += [("", *empty)] * FREE_LINES
    return Sheet(
        slug=log_slug(plan),
        number=context.sheets[log_slug(plan)],
        title=w("staylog.title", dates=context.window(plan.stay.first, plan.stay.last)),
        answer=(w("staylog.answer"),),
        blocks=(Table(tuple(heads), tuple(rows), kind="log"),),
        summary=w("staylog.summary"),
        kind="log",
        editions=EDITIONS,
    )
