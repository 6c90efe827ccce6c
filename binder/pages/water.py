"""The water sheets: need by pen, supply, hoses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages import pen_facts, water_facts
from binder.pages.rich import rich
from binder.pages.sheet import Block, Caution, Heading, Paragraph, Sheet, Table

if TYPE_CHECKING:
    from binder.figures.figure import Figure
    from binder.pages.context import Context
    from binder.pages.rich import Rich

    Text = str | Rich


def today(context: Context) -> Sheet:
    """Return how much each pen drinks on the hot day, and what is in store."""
    w = context.w
    figures = context.figures
    need = figures.water.farm
    answer: Text = w("waterneed.answer_unknown")
    if need is not None:
        answer = context.say(
            "waterneed.answer",
            high=context.degrees(figures.hot.high_c),
            need=rich(context.number_both(need)),
        )
    rows = tuple(
        (
            rich(pen.name, " ", pen.sheet),
            pen.who,
            pen.water,
            pen.drinkers,
            pen.hose.name if pen.hose else "–",
        )
        for pen in pen_facts.pens(context)
        if pen.groups
    )
    heads = tuple(
        w(f"waterneed.head.{key}") for key in ("pen", "who", "need", "drinkers", "fed")
    )
    blocks: list[Block] = [Table(heads, rows, amounts=(2,))]
    short = [pen.name for pen in context.pens if pen.id in figures.drinkers.short]
    if short:
        blocks.append(Caution("caution", w("waterneed.short", pens=", ".join(short))))
    if figures.water.unknown:
        blocks.append(Paragraph(w("waterneed.unknown", names=", ".join(figures.water.unknown))))
    blocks += [Heading(w("waterneed.demand")), *_supply(context)]
    blocks.append(Paragraph(w("waterneed.rule")))
    dry = context.say("waterneed.dry", sheet=context.sheet("dry-for-hours"))
    blocks.append(Caution("warning", dry))
    return Sheet(
        slug="water-today",
        number="W1",
        title=w("waterneed.title"),
        answer=(answer,),
        blocks=tuple(blocks),
        summary=w("waterneed.summary"),
        sources=_sources(*figures.water.groups.values(), figures.supply.demand),
        words="drink gallons need tank store reserve",
    )


def _sources(*figures: Figure | None) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one for figure in figures if figure for one in figure.sources))


def _supply(context: Context) -> list[Block]:
    supply = context.figures.supply
    w = context.w
    blocks: list[Block] = []
    if supply.demand is not None:
        need = rich(context.number_both(supply.demand))
        blocks.append(Paragraph(context.say("waterneed.demand_line", need=need)))
    rows: list[tuple[Text, ...]] = [(w("waterneed.store"), context.number_both(supply.stored))]
    named = (
        ("reserve", supply.reserve),
        ("tank-size", supply.tank),
        ("water-days", supply.days),
    )
    rows += [
        (context.words.title(figure), context.number(figure)) for _, figure in named if figure
    ]
    blocks.append(Table((), tuple(rows)))
    return blocks


def hoses(context: Context) -> Sheet:
    """Return every hose: how warm, how long to let it run, how often, what would help."""
    w = context.w
    keys = ("name", "bypass", "flush", "volume", "every", "warm", "still")
    views = water_facts.hoses(context)
    rows = tuple(
        (
            rich(view.name, f" ({view.pens})" if view.pens else ""),
            view.bypass,
            view.flush_time,
            view.held,
            view.interval,
            view.too_warm,
            view.still,
        )
        for view in views
    )
    blocks: list[Block] = [
        Table(tuple(w(f"hose.head.{key}") for key in keys), rows, amounts=(2, 3, 4, 5, 6)),
        Caution("warning", w("hose.scald")),
        Caution("notice", w("hose.safe")),
    ]
    fixes = tuple(
        (
            sheet.hose.name or sheet.hose.id,
            context.number(sheet.heat),
            context.number(sheet.in_shade) if sheet.in_shade else "–",
            context.number(sheet.in_light) if sheet.in_light else "–",
            context.number(sheet.if_buried) if sheet.if_buried else "–",
        )
        for sheet in context.figures.hoses.values()
        if sheet.heat is not None
    )
    if fixes:
        heads = tuple(
            w(f"hose.fix_head.{key}") for key in ("name", "now", "shade", "light", "buried")
        )
        blocks += [Heading(w("hose.fixes")), Table(heads, fixes, amounts=(1, 2, 3, 4))]
    blocks.append(Paragraph(w("hose.working"), small=True))
    sheets = context.figures.hoses.values()
    return Sheet(
        slug="hoses",
        number="W2",
        title=w("hose.title"),
        answer=(w("hose.answer"),),
        blocks=tuple(blocks),
        summary=w("hose.summary"),
        sources=_sources(
            *(sheet.heat for sheet in sheets), *(sheet.volume for sheet in sheets)
        ),
        words="flush warm hot line bypass valve",
    )
