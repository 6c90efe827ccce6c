"""The card of the short looks of a stay: one page, one route, another thing than a round."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.figure import OUR_CHOICE
from binder.figures.rounds.looks import NOBODY, SITTER
from binder.pages import pen_facts
from binder.pages.claims import stated
from binder.pages.sheet import Block, Heading, Paragraph, Points, Sheet, Table
from binder.pages.stays import stay_lines

if TYPE_CHECKING:
    from binder.figures.stays.plan import Plan, Watch
    from binder.pages.context import Context


def card(context: Context, plan: Plan) -> Sheet:
    """Return when to look where on each sort of day, and what to look at."""
    w = context.w
    blocks: list[Block] = [
        Heading(w("looks.do")),
        Points(context.words.many("looks.steps")),
    ]
    for keys in stay_lines.alike(plan.watches):
        watch = plan.watches[keys[0]]
        blocks.append(Heading(stay_lines.days_named(context, keys)))
        if watch.looks:
            blocks.append(_table(context, watch))
        else:
            blocks.append(Paragraph(w("looks.none")))
    blocks += stay_lines.calls(context, plan)
    return Sheet(
        title=w("looks.title", dates=context.window(plan.stay.first, plan.stay.last)),
        answer=(w("looks.answer"),),
        blocks=tuple(blocks),
        summary=w("looks.summary"),
        sources=(OUR_CHOICE,),
        words=context.w("found_by.looks", sitter=plan.stay.sitter),
        kind="visit",
        claims=stated.looks(context, plan),
    )


def _table(context: Context, watch: Watch) -> Table:
    w = context.w
    by = {SITTER: w("looks.you"), NOBODY: w("looks.nobody")}
    rows = tuple(
        (
            context.clock(look.hour),
            ", ".join(context.farm.pen(pen).name for pen in look.pens),
            pen_facts.minutes(minutes),
            by.get(look.by, look.by),
        )
        for look, minutes in zip(watch.looks, watch.minutes, strict=True)
    )
    heads = tuple(w(f"looks.head.{key}") for key in ("time", "pens", "minutes", "by"))
    return Table(heads, rows, kind="wide tight", amounts=(2,))
