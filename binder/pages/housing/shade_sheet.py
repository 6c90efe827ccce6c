"""The shade and air sheet: what each pen has against what it needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.figure import FROM_MEMORY
from binder.figures.published import rests_on
from binder.pages import findings, slugs
from binder.pages.sheet import Block, Heading, Paragraph, Points, Sheet, Table
from binder.pages.text.rich import rich

if TYPE_CHECKING:
    from binder.pages.context import Context


def shade_and_air(context: Context) -> Sheet:
    """Return shade, shelter and fans of each pen against the need, and what is short."""
    w = context.w
    figures = context.figures
    rows = tuple(
        (
            rich(one.pen.name, " ", context.sheet(slugs.pen(one.pen.id))),
            context.number(one.need),
            context.number(one.have),
            context.number(one.shelter_need),
            context.number(one.shelter_have),
        )
        for one in figures.shade.pens.values()
    )
    keys = ("pen", "need", "have", "floor_need", "floor")
    blocks: list[Block] = [
        Table(
            tuple(w(f"shade.head.{key}") for key in keys),
            rows,
            kind="facts tight",
            amounts=(1, 2, 3, 4),
        )
    ]
    blocks += _fans(context)
    lacking = [
        findings.sentence(context, one)
        for one in (*figures.shade.findings, *figures.air.findings)
    ]
    blocks.append(Heading(w("shade.todo")))
    blocks.append(Points(tuple(lacking)) if lacking else Paragraph(w("shade.none")))
    sources = dict.fromkeys(
        source for one in figures.shade.pens.values() if one.need for source in one.need.sources
    )
    return Sheet(
        title=w("shade.title"),
        answer=(w("shade.answer"),),
        blocks=tuple(blocks),
        summary=w("shade.summary"),
        sources=(*sources, *rests_on("shade-and-air")),
        words=w("found_by.shade"),
    )


def _fans(context: Context) -> list[Block]:
    w = context.w
    rows = tuple(
        (
            context.farm.pen(pen_id).name,
            "–"
            if one.need is None or FROM_MEMORY in one.need.cautions
            else context.number(one.need),
            context.number(one.have),
            "; ".join(
                str(context.or_missing(fan.switch)) for fan in context.farm.pen(pen_id).fans
            )
            or "–",
        )
        for pen_id, one in context.figures.air.stalls.items()
        if context.farm.pen(pen_id).fans
    )
    if not rows:
        return []
    keys = ("pen", "need", "have", "switch")
    heads = tuple(w(f"shade.air_head.{key}") for key in keys)
    return [
        Heading(w("shade.fans")),
        Table(heads, rows, kind="facts tight", amounts=(1, 2)),
        Paragraph(w("barn-air.by_hand")),
    ]
