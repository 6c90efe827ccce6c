"""All rounds of a stay in one table: a pen a row, a visit a column."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.figures.rounds.looks import SITTER
from binder.figures.stays.visits.visit_rest import LEFTOVERS, OWN
from binder.pages import pen_facts, slugs
from binder.pages.feed import feed_facts
from binder.pages.stays import stay_lines, stay_sheet, visit_meals
from binder.pages.text.listing import lower_first, upper_first

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.feed.farm_feed import Meal
    from binder.figures.rounds.looks import Look
    from binder.figures.rounds.round_tasks import Task
    from binder.figures.stays.plan import Plan, PlanMeal, Visit, Watch
    from binder.pages.context import Context


def rounds(context: Context, plan: Plan) -> Markup:
    """Return the rounds; visits that ask the same of every pen share a column."""
    columns: dict[tuple[str, ...], list[Visit]] = {}
    for visit in plan.visits:
        cells = tuple(_cell(context, visit, pen) for pen in plan.pens)
        columns.setdefault(cells, []).append(visit)
    heads = [Markup("{}").format(context.w("pen.pen"))]
    heads += [_head(context, visits) for visits in columns.values()]
    top = Markup("").join(Markup('<th scope="col">{}</th>').format(head) for head in heads)
    times = [context.clock(visits[0].hour) for visits in columns.values()]
    rows = Markup("").join(
        _row(context, plan, pen, _once(context, times, [cells[at] for cells in columns]))
        for at, pen in enumerate(plan.pens)
    )
    table = Markup('<table class="rounds"><thead><tr>{}</tr></thead><tbody>{}</tbody></table>')
    return table.format(top, rows) + _soaked(context, plan) + _looks(context, plan)


def _soaked(context: Context, plan: Plan) -> Markup:
    """Return the rule for soaked feed, where a visit has any."""
    after = [
        meal.clear_after_h
        for visit in plan.visits
        for meal in visit.meals
        if meal.clear_after_h is not None
    ]
    if not after:
        return Markup()
    said = context.w("feed.soaked_rule", after=context.span(min(after)))
    return Markup("<p>{}</p>").format(said)


def _once(context: Context, times: list[str], cells: list[str]) -> list[str]:
    """Return the cells of a row; what an earlier visit says is not said again."""
    found: list[str] = []
    for at, cell in enumerate(cells):
        first = cells.index(cell)
        said = context.w("pocket.as_at", time=times[first])
        found.append(said if first < at and len(said) < len(cell) else cell)
    return found


def _head(context: Context, visits: list[Visit]) -> Markup:
    """Return the times of visits, their minutes, and the order in which pens are walked."""
    times = str(context.listed(context.clock(visit.hour) for visit in visits))
    first = visits[0]
    order = " ".join(context.sheets[slugs.pen(pen)] for pen in first.order)
    work = math.ceil(first.work.amount.value)
    return Markup("{}<br><span class='more'>{}<br>{}</span>").format(
        times, context.w("visit.minutes", n=work), order
    )


def _row(context: Context, plan: Plan, pen: str, cells: list[str]) -> Markup:
    birth = stay_sheet.birth_in(plan, pen)
    head = context.w("pocket.head", n=plan.rounds.pens[pen].head)
    if birth is not None:
        head = context.w("pocket.head_born", before=birth.head_before, after=birth.head_after)
    name = Markup("{} {}<br><span class='more'>{}</span>").format(
        context.sheets[slugs.pen(pen)], context.farm.pen(pen).name, head
    )
    said = Markup("").join(Markup("<td>{}</td>").format(cell) for cell in cells)
    return Markup('<tr><th scope="row">{}</th>{}</tr>').format(name, said)


def _cell(context: Context, visit: Visit, pen: str) -> str:
    """Return all that one visit does at a pen, and what a number asks on top."""
    said = [_task(context, task) for task in visit.tasks.get(pen, ())[1:]]
    said[:0] = [_meal(context, meal) for meal in visit.meals if meal.pen == pen]
    if any(task.key == LEFTOVERS and pen in task.pens for task in visit.last):
        said.append(context.w("pocket.clear"))
    asked = visit.asked.get(pen, ())
    for number in sorted({task.at_number for task in asked}):
        names = [_task(context, task) for task in asked if task.at_number == number]
        line = lower_first(context.w("pack.visit.from_number", number=number))
        said.append(f"{line} {', '.join(names)}")
    return upper_first("; ".join(said)) or context.w("pocket.only_look")


def _task(context: Context, task: Task) -> str:
    view = pen_facts.task_view(context, task)
    name = " ".join(task.text.split()) if task.key == OWN else view.task
    amount = f" {context.show(task.amount.amount)}" if task.amount is not None else ""
    return f"{lower_first(name)}{amount}"


def _meal(context: Context, meal: PlanMeal) -> str:
    """Return who is fed how much: scoops where it is scooped; what changes with a birth."""
    who = meal.fed.group.animal.called
    if meal.meal is None:
        key = "pocket.hay" if visit_meals.is_hay(meal.fed) else "pocket.ask"
        return context.w(key, who=who)
    said = context.w("pocket.fed", who=who, **_given(context, meal.meal))
    if meal.born is None:
        return said
    return f"{said} {context.w('pocket.born', **_given(context, meal.born))}"


def _given(context: Context, meal: Meal) -> dict[str, str]:
    """Return how much, and whether it goes out soaked or dry, where that is said."""
    scoops = meal.scoops
    amount = feed_facts.scoops(context, scoops) if scoops else context.show(meal.feed.amount)
    how = feed_facts.how_given(meal)
    return {"amount": str(amount), "how": context.w(f"pocket.how.{how}") if how else ""}


def _looks(context: Context, plan: Plan) -> Markup:
    """Return when to look between visits on each sort of day."""
    lines = Markup("").join(
        Markup("<p><b>{}</b> {}</p>").format(head, times)
        for head, times in _look_lines(context, plan)
    )
    return (
        Markup('<div class="lines"><h2>{}</h2>{}</div>').format(context.w("stay.looks"), lines)
        if lines
        else Markup("")
    )


def _look_lines(context: Context, plan: Plan) -> Iterator[tuple[str, str]]:
    for key, watch in plan.watches.items():
        if watch.looks:
            yield f"{stay_lines.load_head(context, plan, key)}:", _times(context, watch)
    yield from (("", line) for line in stay_lines.night(context, plan))


def _times(context: Context, watch: Watch) -> str:
    """Return when one looks oneself, then who else looks when, and when somebody stays."""
    by: dict[str, list[Look]] = {}
    for look in watch.looks:
        by.setdefault(look.by, []).append(look)
    said = [stay_lines.times(context, by.pop(SITTER))] if SITTER in by else []
    said += [
        context.w(
            "stay.look_by", who=who or context.w("stay.nobody"),
            times=stay_lines.times(context, looks),
        )
        for who, looks in by.items()
    ]  # fmt: skip
    said += [
        context.w("pocket.stays", first=context.clock(first), last=context.clock(last))
        for first, last in watch.attended
    ]
    return "; ".join(said)
