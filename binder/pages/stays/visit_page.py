"""A visit on one page: two columns, pens in walking order, a row for each task."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.figures.bands.band_charts import charts_of
from binder.figures.figure import OUR_CHOICE
from binder.figures.stays.visits.set_out import READY, is_dry
from binder.pages import pen_facts, slugs
from binder.pages.sheet import Block, Paragraph, Raw, Sheet
from binder.pages.stays import (
    card_claims,
    stay_jobs,
    stay_sheet,
    visit_air,
    visit_cards,
)
from binder.pages.text.listing import lower_first
from binder.pages.text.rich import joined

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from binder.figures.rounds.round_tasks import Task
    from binder.figures.stays.plan import Plan, Visit
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich

    Text = str | Rich | Markup
    Row = tuple[Text, ...]

_FIRST_NUMBER = re.compile(r"\d+")
_OTHER_UNITS = re.compile(r" \(\d[^()]*\)")  # they stand on the page of feed or of wallows
# Where a binder and a pack tell how to find a number, and when feed goes out.
_NUMBERS, _FEED = "reading-the-air", "feed-today"


def page(context: Context, plan: Plan, visit: Visit, *, amounts: bool = False) -> Sheet:
    """Return one visit; what is so on some days only stands in a box of its own.

    Args:
        context: of the binder, or of the pack of the stay.
        plan: of the stay.
        visit: one of its visits.
        amounts: say of which day the amounts are; a pack says it on its days.
    """
    w = context.w
    parts = [
        _part(
            Markup("{} {} {}{}").format(
                place,
                context.farm.pen(pen).name,
                visit_cards.expected(plan, visit, pen),
                _charts(context, plan, pen),
            ),
            visit_cards.pen_rows(context, plan, visit, pen),
            _asked(context, visit.asked.get(pen, ())),
        )
        for place, pen in enumerate(visit.order, 1)
    ]
    end = visit_cards.end_rows(context, visit)
    parts.append(_part(Markup("{}").format(w("visit.end")), end))
    moved = list(stay_jobs.elsewhere(context, plan))
    if moved:
        parts.append(_box(w("pack.visit.some_days"), moved))
    more = (_amounts(context, plan, visit),) if amounts else ()
    said = joined((_how(context, plan), *_once(context, visit), *more), " ")
    blocks: list[Block] = [
        Paragraph(said, small=True),
        Raw(Markup('<div class="two">{}</div>').format(Markup("").join(parts))),
    ]
    return Sheet(
        title=w("visit.title", clock=context.clock(visit.hour)),
        answer=(
            visit_cards.work_line(context, visit),
            *visit_air.lines(context, visit, numbered=True),
            *visit_cards.feed_lines(context, plan, visit),
        ),
        blocks=tuple(blocks),
        summary=w("visit.summary", dates=stay_sheet.dates(context, plan)),
        sources=(OUR_CHOICE,),
        words=w("found_by.card", sitter=plan.stay.sitter),
        kind="pack visit",
        claims=card_claims.of_card(context, plan, visit),
    )


def _how(context: Context, plan: Plan) -> Rich:
    """Return how to read the page, in as few lines as it can be said."""
    loads = [context.w(f"stay.loads.{key}") for key, load in plan.loads.items() if load.worst]
    key = "pack.visit.how" if loads else "pack.visit.how_plain"
    return context.say(
        key, loads=str(context.listed(loads)), log=context.sheet(slugs.stay_log(plan)),
        days=context.sheet(slugs.stay(plan)), numbers=context.sheet(_NUMBERS),
    )  # fmt: skip


def _amounts(context: Context, plan: Plan, visit: Visit) -> str:
    """Return of which day the amounts are, who may be born, when a number is one higher."""
    w = context.w
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
        if visit.meal and not birth.fed:  # else the row under hers says it
            amounts = f"{amounts} {w('visit.newborn_ask')}"
    limit = next((one.limit_c for one in plan.numbers.values() if one.modifier), None)
    if limit is not None:
        amounts = f"{amounts} {w('visit.warm_night', limit=context.degrees(limit))}"
    return amounts


def _charts(context: Context, plan: Plan, pen: str) -> Markup:
    """Return the sheets of a pen's charts; nothing where all charts stand on one sheet."""
    every = {context.sheets[slugs.chart(chart)] for chart in context.figures.bands.charts}
    if len(every) == 1:
        return Markup("")
    found = charts_of(group.cls for group in plan.herd.in_pen(pen))
    sheets = joined((context.sheet(slugs.chart(chart)) for chart in found), ", ")
    return Markup(' <span class="small">{}</span>').format(sheets)


def _once(context: Context, visit: Visit) -> Iterator[Text]:
    """Yield what is so at every pen where it comes up, and so stands in no row."""
    tasks = [task for found in visit.tasks.values() for task in found]
    if any(task.hose for task in tasks):
        yield context.w("pack.visit.tub")
    if any(task.key == READY for task in tasks):
        yield context.w("pack.visit.set_out")
        dry = [
            context.farm.pen(pen).name
            for pen, found in visit.tasks.items()
            if any(task.key == READY for task in found) and is_dry(context.farm.pen(pen))
        ]
        if dry:
            yield context.w("pack.visit.set_out_tub", pens=str(context.listed(dry)))
    after = {meal.clear_after_h for meal in visit.meals if meal.clear_after_h is not None}
    if after:
        yield context.say(
            "feed.soaked_short", after=context.span(min(after)), sheet=context.sheet(_FEED)
        )


def _asked(context: Context, tasks: Sequence[Task]) -> list[Markup]:
    """Return what a number asks on top, one line for each number, and its minutes."""
    lines = []
    for number in sorted({task.at_number for task in tasks}):
        views = [
            pen_facts.task_view(context, task) for task in tasks if task.at_number == number
        ]
        said = "; ".join(lower_first(view.task) for view in views)
        minutes = sum(task.minutes for task in tasks if task.at_number == number)
        lines.append(
            Markup(
                '<tr><th scope="row"><span class="tick"></span> {} {}</th>'
                '<td class="amount">+{}</td></tr>'
            ).format(
                Markup("<b>{}</b>").format(context.w("pack.visit.from_number", number=number)),
                said, pen_facts.minutes(minutes),
            )
        )  # fmt: skip
    return lines


def _part(head: Markup, rows: list[Row], more: Sequence[Markup] = ()) -> Markup:
    """Return a pen with its rows: what and how much, then the minutes."""
    cells = Markup("").join(
        Markup('<tr><th scope="row">{}</th><td class="amount">{}</td></tr>').format(
            _said(what, amount), minutes or "–"
        )
        for what, amount, minutes in rows
    ) + Markup("").join(more)
    return Markup(
        '<div class="pen-part"><table class="tasks"><thead><tr>'
        '<th scope="col" colspan="2">{}</th></tr></thead><tbody>{}</tbody></table></div>'
    ).format(head, cells)


def _said(what: Text, amount: Text) -> Markup:
    """Return what to do and how much of it on one line; a head count is said once."""
    said = _FIRST_NUMBER.search(str(amount))
    task = Markup("{}").format(what)
    plain = re.sub(r"<[^>]+>", " ", str(task).partition('<span class="more">')[0])
    again = (
        said is not None
        and len(str(amount).split()) == len(("10", "head"))
        and re.search(rf"\b{said[0]}\b", plain) is not None
    )
    if not str(amount) or str(amount) == "1" or again:
        return task
    first, more, rest = task.partition(Markup('<span class="more">'))
    much = Markup(_OTHER_UNITS.sub("", str(Markup("{}").format(amount))))  # noqa: S704 -- escaped
    return Markup('{} <span class="much">{}</span> {}{}').format(first, much, more, rest)


def _box(title: str, lines: Iterable[str]) -> Markup:
    items = Markup("").join(Markup("<p>{}</p>").format(line) for line in lines)
    return Markup('<div class="pen-part boxed"><h3>{}</h3>{}</div>').format(title, items)
