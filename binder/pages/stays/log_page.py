"""The log of a stay: a line for each visit, with every pen's number in a box."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages.claims import stated
from binder.pages.sheet import Paragraph, Sheet, Table
from binder.pages.stays import counting

if TYPE_CHECKING:
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context

FREE_LINES = 1  # our choice: a look that found something gets a line, the others their tick
_MOST_PENS = 9  # our choice: what is wide enough to write in, beside the time and the air


def page(context: Context, plan: Plan) -> Sheet:
    """Return the log; looks are ticked on their own page."""
    w = context.w
    degree = "°F" if context.words.system == "us" else "°C"
    days = context.words.many("staylog.days")
    lines: list[str] = []
    for day in plan.days:
        name = w("staylog.of", day=days[day.on.weekday()], date=day.on.day)
        lines += [f"{name} {context.clock(visit.hour)}" for visit in plan.visits]
        lines += [name] * FREE_LINES
    blocks = [
        Paragraph(said, small=True)
        for said in (
            w("pack.log.how"), counting.short(context, plan), *counting.born(context, plan),
        )
    ]  # fmt: skip
    tables = []
    for first in range(0, len(plan.pens), _MOST_PENS):
        pens = plan.pens[first : first + _MOST_PENS]
        heads = (
            w("staylog.day"), *(_pen_head(context, plan, pen) for pen in pens),
            *(head.format(degree=degree) for head in context.words.many("pack.log.heads")),
        )  # fmt: skip
        rows = tuple((line, *[""] * (len(heads) - 1)) for line in lines)
        tables.append(Table(heads, rows, kind="log rounds"))
    return Sheet(
        title=w("staylog.title", dates=context.window(plan.stay.first, plan.stay.last)),
        answer=(),
        blocks=(*blocks, *tables),
        summary=w("staylog.summary"),
        kind="pack log",
        claims=(
            *stated.visits(context, plan),
            *(stated.head(plan, pen) for pen in plan.pens),
        ),
    )


def _pen_head(context: Context, plan: Plan, pen: str) -> str:
    """Return a pen's name, and how many there should be in it."""
    name = context.farm.pen(pen).name
    return context.w("staylog.head", pen=name, count=plan.rounds.pens[pen].head)
