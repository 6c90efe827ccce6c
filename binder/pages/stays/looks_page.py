"""The short looks on one page: a time a row, a pen a column, a table for each sort of day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.figures.figure import OUR_CHOICE
from binder.figures.rounds.looks import NOBODY, SITTER
from binder.pages import facts, pen_facts
from binder.pages.claims import stated
from binder.pages.sheet import Block, Paragraph, Points, Raw, Sheet
from binder.pages.stays import counting, stay_lines, who_comes

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from binder.figures.stays.plan import Plan, Watch
    from binder.pages.context import Context
    from binder.pages.text.rich import Text

LABOR = "sow-farrowing-in-heat"


def page(context: Context, plan: Plan, more: Sequence[Block] = ()) -> Sheet:
    """Return when to look where on each sort of day, and how.

    Args:
        context: of the binder, or of the pack of the stay.
        plan: of the stay.
        more: what a pack tells on this page besides.
    """
    w = context.w
    blocks: list[Block] = [Raw(_table(context, plan))]
    for watch in plan.watches.values():
        blocks += _stays(context, watch)
    said: tuple[Text, ...] = (
        *(stay_lines.call(context, one) for one in plan.calls),
        *_night(context, plan),
        *_births(context, plan),
        counting.short(context, plan),
        *((w("stay.which_higher"),) if len(plan.loads) > 1 else ()),
    )
    if said:
        blocks.append(Points(said, claims=tuple(stated.calls(context, plan))))
    blocks += more
    return Sheet(
        title=w("looks.title", dates=context.window(plan.stay.first, plan.stay.last)),
        answer=(f"{w('looks.answer')} {' '.join(context.words.many('pack.looks.steps'))}",),
        blocks=tuple(blocks),
        summary=w("looks.summary"),
        sources=(OUR_CHOICE,),
        words=w("found_by.looks", sitter=plan.stay.sitter),
        kind="pack looks",
        claims=stated.looks(context, plan),
    )


def _night(context: Context, plan: Plan) -> tuple[str, ...]:
    """Return what the nights ask, and whom to phone next where a helper does not answer."""
    said = stay_lines.night(context, plan)
    others = who_comes.in_order(context)[1:]
    if not said or not others:
        return said
    more = context.w("stay.no_answer", people="; ".join(others))
    return (" ".join((*said, more)),)


def _births(context: Context, plan: Plan) -> Iterator[Text]:
    """Yield what goes before the short looks once a birth begins, and who shares it."""
    helper = stay_lines.who_helps(context, "farrowing")
    if LABOR not in context.sheets or not helper or not plan.visits:
        return
    for birth in plan.births:
        yield context.say(
            "stay.birth_looks", who=birth.name, sheet=context.sheet(LABOR),
            every=facts.care(context, "labor look"), helper=stay_lines.reached(context, helper),
            first=context.clock(plan.visits[0].hour), last=context.clock(plan.visits[-1].hour),
        )  # fmt: skip


def _table(context: Context, plan: Plan) -> Markup:
    """Return one table for every sort of day: heads once, a group of rows for each."""
    w = context.w
    names = (context.farm.pen(pen).name for pen in plan.pens)
    heads = (w("looks.head.time"), *names, w("pack.looks.min"), w("looks.head.by"))
    top = Markup("").join(Markup('<th scope="col">{}</th>').format(head) for head in heads)
    groups = []
    for key, watch in plan.watches.items():
        said = stay_lines.load_head(context, plan, key)
        if not watch.looks:
            said = f"{said}. {w('looks.none')}"
        row = Markup('<tr class="tab"><th scope="rowgroup" colspan="{}">{}</th></tr>')
        rows = Markup("").join(_rows(context, plan, watch))
        groups.append(Markup("<tbody>{}{}</tbody>").format(row.format(len(heads), said), rows))
    return Markup(
        '<table class="facts wide matrix"><thead><tr>{}</tr></thead>{}</table>'
    ).format(top, Markup("").join(groups))


def _rows(context: Context, plan: Plan, watch: Watch) -> Iterator[Markup]:
    by = {SITTER: context.w("looks.you"), NOBODY: context.w("looks.nobody")}
    box = Markup('<span class="tick"></span>')
    for look, minutes in zip(watch.looks, watch.minutes, strict=True):
        marks = (box if pen in look.pens else context.w("looks.no_look") for pen in plan.pens)
        cells = (*marks, pen_facts.minutes(minutes), by.get(look.by, look.by))
        row = Markup("").join(Markup("<td>{}</td>").format(cell) for cell in cells)
        yield Markup('<tr><th scope="row">{}</th>{}</tr>').format(context.clock(look.hour), row)


def _stays(context: Context, watch: Watch) -> list[Block]:
    """Return when nobody may leave the animals alone."""
    if not watch.attended:
        return []
    spans = (
        context.w(
            "stay.stays_span", first=context.clock(first), last=context.clock(last),
            who=stay_lines.who_stays(context),
        )
        for first, last in watch.attended
    )  # fmt: skip
    return [Paragraph(f"{context.w('stay.look_head.stay')}: {'; '.join(spans)}.")]
