"""A card for each visit of a stay, with boxes to tick: each pen, who is fed, the minutes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.clock import HOURS_IN_DAY
from binder.figures.day.feeding_hours import feed_up_to
from binder.figures.figure import OUR_CHOICE
from binder.figures.rounds.round_tasks import DUSK
from binder.figures.rounds.visits import is_late
from binder.figures.stays import fed_when
from binder.figures.stays.stay_load import HOT
from binder.figures.stays.visit_card import BOOTS, CLOSE, EGGS, LEFTOVERS, MORNING, OWN, WALK
from binder.pages import pen_facts, slugs
from binder.pages.sheet import Block, Paragraph, Raw, Sheet, Table
from binder.pages.stays import card_claims, stay_lines, visit_air, visit_meals
from binder.pages.text.listing import lower_first, with_more
from binder.pages.text.rich import Link, rich

if TYPE_CHECKING:
    from binder.figures.rounds.farm_rounds import Task
    from binder.figures.stays.plan import Plan, Visit
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich, Text

    Row = tuple[Text, ...]


_LOOKED_AT = frozenset({"drinkers", "drinkers-outside", "fans", "cloth", "cloth-outside"})


def card(context: Context, plan: Plan, visit: Visit) -> Sheet:
    """Return what to do at one visit, pen by pen, on every day of the stay."""
    w = context.w
    blocks: list[Block] = [Paragraph(line, small=True) for line in _notes(context, plan, visit)]
    for place, pen in enumerate(visit.order, 1):
        title = Markup('<h3>{} {} {} <span class="small">{}</span></h3>').format(
            place,
            context.farm.pen(pen).name,
            expected(plan, visit, pen),
            stay_lines.charts(context, plan, pen),
        )
        blocks += [Raw(title), _table(context, pen_rows(context, plan, visit, pen))]
    blocks += [
        Raw(Markup("<h3>{}</h3>").format(w("visit.end"))),
        _table(context, end_rows(context, visit)),
    ]
    return Sheet(
        title=w("visit.title", clock=context.clock(visit.hour)),
        answer=(
            work_line(context, visit),
            *visit_air.lines(context, visit),
            *feed_lines(context, plan, visit),
        ),
        blocks=tuple(blocks),
        summary=w("visit.summary", dates=context.window(plan.stay.first, plan.stay.last)),
        sources=(OUR_CHOICE,),
        words=context.w("found_by.card", sitter=plan.stay.sitter),
        kind="visit",
        claims=card_claims.of_card(context, plan, visit),
    )


# --- the box -------------------------------------------------------------------------------


def work_line(context: Context, visit: Visit) -> Rich:
    """Return the minutes of the visit, first those at the numbers of a hot day."""
    work = visit.work.amount.value
    said = context.w("visit.minutes", n=pen_facts.minutes(work))
    minutes = rich(Link(said, f"working:{visit.work.key}"))
    hot = visit.fits.get(HOT)
    if hot is None or hot.need_min <= work:
        return context.say("visit.answer", work=minutes)
    expected = context.w("visit.minutes", n=pen_facts.minutes(hot.need_min))
    load = context.w("stay.loads.hot")
    return context.say("visit.answer_expected", work=minutes, expected=expected, load=load)


def feed_lines(context: Context, plan: Plan, visit: Visit) -> list[Text]:
    """Return whether animals are fed, by when, and where the number forbids it."""
    w = context.w
    if not visit.meal:
        return [w("visit.feed_none")]
    lines: list[Text] = [f"{w(f'visit.feed_{visit.meal}')} {_when(context, plan, visit)}"]
    sunset_h = fed_when.sunset_h(plan)
    if visit.meal != MORNING and sunset_h is not None and visit.hour >= sunset_h:
        return [*lines, w("visit.feed_any")]
    sunset = w("visit.sunset")
    if sunset_h is not None:
        sunset = w("visit.sunset_at", clock=context.clock(sunset_h))
    evening = w("visit.evening_meal")
    if plan.meals is not None:
        evening = context.clock(plan.meals.evening_from_h)
    rule = w("visit.feed_rule", up_to=feed_up_to(), evening=evening, sunset=sunset)
    fed = [one for pen in visit.fed.values() for one in pen]
    if any(map(fed_when.keeps_feed, fed)):
        rule = f"{rule} {w('visit.feed_birds')}"
    return [*lines, rule]


def _when(context: Context, plan: Plan, visit: Visit) -> Text:
    """Return by or from when the meal goes out on a hot day, and whether this is too late."""
    if plan.meals is None:
        return ""
    if visit.meal != MORNING:
        return context.w("visit.from", clock=context.clock(plan.meals.evening_from_h))
    by_h = plan.meals.morning_by_h
    key = "visit.by_late" if is_late(visit.hour, by_h) else "visit.by"
    return context.w(key, clock=context.clock(by_h))


def _notes(context: Context, plan: Plan, visit: Visit) -> list[Text]:
    """Return where else to look, what the numbers beside the pens are, what amounts hold."""
    w = context.w
    loads = [w(f"stay.loads.{key}") for key, load in plan.loads.items() if load.worst]
    listed = str(context.listed(loads))
    first = rich(
        context.say("visit.today", sheet=context.sheet(slugs.stay(plan))),
        " ",
        context.say("visit.log", sheet=context.sheet(slugs.stay_log(plan))),
        f" {w('visit.expect', loads=listed)}" if loads else "",
    )
    day = context.short_day(plan.stay.last)
    more = plan.fed_more_before
    amounts = (
        w("visit.amounts_less", day=day, who=str(context.listed(more)))
        if more
        else w("visit.amounts", day=day)
    )
    for birth in plan.births:
        head = {"before": birth.head_before, "after": birth.head_after}
        amounts = f"{amounts} {w('visit.newborn', who=birth.name, **head)}"
        if visit.meal:
            amounts = (
                f"{amounts} {w('visit.newborn_feed' if birth.fed else 'visit.newborn_ask')}"
            )
    limit = next((one.limit_c for one in plan.numbers.values() if one.modifier), None)
    if limit is not None:
        amounts = f"{amounts} {w('visit.warm_night', limit=context.degrees(limit))}"
    return [first, amounts]


# --- the rows ------------------------------------------------------------------------------


def _table(context: Context, rows: list[Row]) -> Table:
    heads = tuple(context.w(f"visit.head.{key}") for key in ("what", "amount", "minutes"))
    return Table(heads, tuple(rows), kind="tasks wide tight", amounts=(2,))


def expected(plan: Plan, visit: Visit, pen: str) -> Markup:
    """Return the numbers to expect at this hour, one for each sort of day, mildest first."""
    hour = math.floor(visit.hour) % HOURS_IN_DAY
    bands = [load.worst[pen][hour] for load in plan.loads.values() if pen in load.worst]
    return Markup(" ").join(
        Markup('<span class="band b{0}">{0}</span>').format(band) for band in bands
    )


def pen_rows(
    context: Context, plan: Plan, visit: Visit, pen: str, *, brief: bool = False
) -> list[Row]:
    """Return the rows of a pen: see them, feed them, then the rest, then what a number asks.

    Args:
        context: what composing knows.
        plan: of the stay.
        visit: one of its visits.
        pen: pen id.
        brief: leave out what is so in every row of its kind; the page says it once.
    """
    tasks = visit.tasks[pen]
    rows = [_task(context, task, brief=brief) for task in tasks[:1]]
    birth = next((one for one in plan.births if one.pen == pen), None)
    if birth is not None and rows:
        what, amount, minutes = rows[0]
        born = context.w("visit.head_born", after=birth.head_after)
        rows[0] = (with_more(what, born), amount, minutes)
    rows += visit_meals.rows(context, plan, visit, pen, brief=brief)
    if brief:
        looked = [task for task in tasks[1:] if task.key in _LOOKED_AT]
        rest = [task for task in tasks[1:] if task.key not in _LOOKED_AT]
        return [
            *rows,
            *_at_once(context, looked),
            *(_task(context, one, brief=True, light=visit.light) for one in rest),
        ]
    rows += [_task(context, task, light=visit.light) for task in tasks[1:]]
    return rows + [_task(context, task) for task in visit.asked.get(pen, ())]


def _at_once(context: Context, tasks: list[Task]) -> list[Row]:
    """Return what is looked at from one place as one row, with the minutes of all of it."""
    if not tasks:
        return []
    names = (pen_facts.task_view(context, task).task for task in tasks)
    spent = pen_facts.minutes(sum(task.minutes for task in tasks))
    return [(visit_meals.tick("; ".join((next(names), *map(lower_first, names)))), "", spent)]


def _task(context: Context, task: Task, *, brief: bool = False, light: bool = False) -> Row:
    view = pen_facts.task_view(context, task)
    more = [context.w("visit.tub")] if task.hose and not brief else []
    if task.at_number:
        more.append(context.w("visit.from_number", number=task.at_number))
    if task.carried and light:
        more.append(context.w("visit.set_out"))
    if task.runs_min:
        more.append(context.w("visit.runs", minutes=context.span(task.runs_min / 60)))
    if task.key == DUSK:
        more.append(str(view.how))
    if task.key == EGGS:
        more.append(task.text)
    what = visit_meals.tick(task.text if task.key == OWN else view.task)
    minutes = f"+{view.minutes}" if task.at_number else view.minutes
    return with_more(what, ", ".join(more)), view.amount, minutes


def end_rows(context: Context, visit: Visit) -> list[Row]:
    """Return what is done after the last pen, the walk, and all minutes together."""
    w = context.w
    rows: list[Row] = []
    for task in visit.last:
        minutes = pen_facts.minutes(task.minutes)
        if task.key == EGGS:
            rows.append((visit_meals.tick(w("visit.eggs")), task.text, minutes))
        elif task.key == LEFTOVERS:
            pens = str(context.listed(context.farm.pen(pen).name for pen in task.pens))
            rows.append((visit_meals.tick(w("visit.leftovers")), pens, minutes))
        elif task.key == CLOSE:
            runs = context.span(task.runs_min / 60)
            rows.append(
                (visit_meals.tick(w("visit.close", minutes=runs)), str(task.count), minutes)
            )
        elif task.key == BOOTS:
            rows.append((visit_meals.tick(w("visit.boots")), "", minutes))
        elif task.key == WALK:
            rows.append((w("visit.walk"), w("visit.pens", count=task.count), minutes))
    rows.append((w("visit.sum"), "", pen_facts.minutes(visit.work.amount.value)))
    more = sum(task.minutes for asked in visit.asked.values() for task in asked)
    if more:
        most = pen_facts.minutes(visit.work.amount.value + more)
        rows.append((w("visit.sum_more"), "", most))
    return rows
