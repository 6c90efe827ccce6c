"""The log of a stay, with its dates: a line for each visit, and a box for each pen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.clock import HOURS_IN_DAY
from binder.figures.stays.stay_load import HOT, TYPICAL
from binder.pages.claims import stated
from binder.pages.sheet import Block, Heading, Paragraph, Sheet, Table

if TYPE_CHECKING:
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.text.rich import Text

FREE_LINES = 2  # our choice: looks besides the plan are written down too
PENS_A_TABLE = 7  # our choice: what fits beside the time, wide enough to write in
_BOX = Markup('<span class="tick"></span>')


def log(context: Context, plan: Plan) -> Sheet:
    """Return the log: the farm, a line for each visit; every pen, one for each visit and look.

    The looks are those of a typical day where that is known, else of a hot one; what a day asks
    more goes on its free lines.
    """
    w = context.w
    degree = "°F" if context.words.system == "us" else "°C"
    heads = [head.format(degree=degree) for head in context.words.many("log.round.heads")]
    heads[0] = w("staylog.day")
    visits, every = _times(context, plan, looks=False), _times(context, plan, looks=True)
    blocks: list[Block] = [
        Heading(w("staylog.visits")),
        Table(tuple(heads), _rows(visits, len(heads) - 1, ""), kind="log"),
        Heading(w("staylog.pens")),
        Paragraph(w("staylog.pens_how"), small=True),
    ]
    for first in range(0, len(plan.pens), PENS_A_TABLE):
        pens = plan.pens[first : first + PENS_A_TABLE]
        names = tuple(pen_head(context, plan, pen) for pen in pens)
        table = Table(
            (w("staylog.day"), *names), _rows(every, len(pens), _BOX), kind="log pens"
        )
        blocks.append(table)
    return Sheet(
        title=w("staylog.title", dates=context.window(plan.stay.first, plan.stay.last)),
        answer=(w("staylog.answer"),),
        blocks=tuple(blocks),
        summary=w("staylog.summary"),
        kind="log",
        claims=(
            *stated.visits(context, plan),
            *(one for one in stated.looks(context, plan) if one.condition == _load(plan)),
            *(stated.head(plan, pen) for pen in plan.pens),
        ),
    )


def _load(plan: Plan) -> str:
    """Return the sort of day whose looks have lines."""
    return TYPICAL if TYPICAL in plan.watches else HOT


def _times(context: Context, plan: Plan, *, looks: bool) -> tuple[str, ...]:
    """Return the day and time of each visit, and look, after each day the free lines."""
    days = context.words.many("staylog.days")
    stops = [(visit.hour, "") for visit in plan.visits]
    watch = plan.watches.get(_load(plan))
    if looks and watch is not None:
        word = context.w("staylog.look")
        stops += [(look.hour % HOURS_IN_DAY, word) for look in watch.looks]
    told = [f"{context.clock(hour)} {what}".strip() for hour, what in sorted(stops)]
    found: list[str] = []
    for day in plan.days:
        name = context.w("staylog.of", day=days[day.on.weekday()], date=day.on.day)
        found += [f"{name} {time}" for time in told]
        found += [""] * FREE_LINES
    return tuple(found)


def _rows(times: tuple[str, ...], columns: int, cell: Text) -> tuple[tuple[Text, ...], ...]:
    return tuple((time, *[cell] * columns) for time in times)


def pen_head(context: Context, plan: Plan, pen: str) -> str:
    """Return a pen's name, and how many there should be in it."""
    name = context.farm.pen(pen).name
    birth = next((one for one in plan.births if one.pen == pen), None)
    if birth is not None:
        return context.w(
            "staylog.head_born", pen=name, count=birth.head_before, after=birth.head_after
        )
    return context.w("staylog.head", pen=name, count=plan.rounds.pens[pen].head)
