"""The water sheets: need by pen, supply, hoses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.rules import at_least
from binder.pages import pen_facts
from binder.pages.art.drawings import Store, store
from binder.pages.sheet import Block, Caution, Drawing, Heading, Paragraph, Sheet, Table
from binder.pages.text.listing import with_more
from binder.pages.text.rich import rich
from binder.pages.water import water_facts
from binder.units import convert

if TYPE_CHECKING:
    from binder.figures.figure import Figure
    from binder.pages.context import Context
    from binder.pages.text.rich import Text

_STORES = "water-in-store"  # which pens have water for how long


def today(context: Context) -> Sheet:
    """Return how much each pen drinks on the hot day, and what is in store."""
    w = context.w
    figures = context.figures
    need = figures.water.farm
    answer: Text = w("waterneed.answer_unknown")
    if need is not None:
        answer = context.say(
            "waterneed.answer_part" if figures.water.unknown else "waterneed.answer",
            high=context.degrees(figures.hot.high_c),
            need=rich(context.number_both(need)),
            names=", ".join(figures.water.unknown),
        )
    rows = tuple(
        (
            rich(pen.name, " ", pen.sheet),
            pen.water,
            rich(pen.drinkers, "; ", pen.fed_by),
        )
        for pen in pen_facts.pens(context)
        if pen.groups
    )
    heads = tuple(w(f"waterneed.head.{key}") for key in ("pen", "need", "drinkers"))
    blocks: list[Block] = [Table(heads, rows, kind="facts tight drink", amounts=(1,))]
    blocks += _too_few(context)
    dry = context.say("waterneed.dry", sheet=context.sheet("dry-for-hours"))
    blocks.append(Caution("warning", dry))
    if figures.water.unknown:
        blocks.append(Paragraph(w("waterneed.unknown", names=", ".join(figures.water.unknown))))
    blocks += [Heading(w("waterneed.demand")), *_supply(context)]
    blocks.append(Paragraph(w("waterneed.rule")))
    return Sheet(
        title=w("waterneed.title"),
        answer=(answer,),
        blocks=tuple(blocks),
        summary=w("waterneed.summary"),
        sources=_sources(*figures.water.groups.values(), figures.supply.demand),
        words=w("found_by.water"),
    )


def _too_few(context: Context) -> list[Block]:
    """Return which pens have too few drinkers, and which have none on record."""
    short = [pen for pen in context.pens if pen.id in context.figures.drinkers.short]
    unrecorded = ", ".join(pen.name for pen in short if not pen.drinkers)
    few = ", ".join(pen.name for pen in short if pen.drinkers)
    blocks: list[Block] = []
    if few:
        blocks.append(Caution("caution", context.w("waterneed.short", pens=few)))
    if unrecorded:
        line = context.w("waterneed.no_drinkers", pens=unrecorded)
        blocks.append(Caution("caution", line))
    return blocks


def _sources(*figures: Figure | None) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one for figure in figures if figure for one in figure.sources))


def _supply(context: Context) -> list[Block]:
    supply = context.figures.supply
    w = context.w
    blocks: list[Block] = _store(context)
    stored: Text = context.number_both(supply.stored)
    if supply.stored.amount.value <= 0:
        stored = w("waterneed.none_in_store")
    rows: list[tuple[Text, ...]] = [(w("waterneed.store"), stored)]
    if supply.demand is not None:
        use = _counted(context, w("waterneed.all_use"))
        rows.append((use, context.number_both(supply.demand)))
    if water_facts.stores(context):
        rows.append((w("waterneed.lasts"), context.sheet(_STORES)))
    named = (supply.tank, supply.days)
    rows += [
        (_counted(context, context.words.title(figure)), context.number_both(figure))
        for figure in named
        if figure
    ]
    blocks.append(Table((), tuple(rows), kind="facts tight named keep"))
    return blocks


def _counted(context: Context, what: str) -> str:
    """Return what a total is of, and whom it leaves out."""
    left_out = context.figures.water.unknown
    if not left_out:
        return what
    return context.w("waterneed.without", what=what, names=", ".join(left_out))


def _store(context: Context) -> list[Block]:
    """Return the drawing of what is in store, where no pen is dry before all of it is gone."""
    need, supply = context.figures.water.farm, context.figures.supply
    system = context.words.system
    held = convert(supply.stored.amount, system)
    if need is None or need.amount.value <= 0 or held <= 0 or not _reaches_all(context):
        return []
    wanted = supply.days.amount if supply.days else None
    drawing = store(
        Store(
            held=held,
            a_day=convert(need.amount, system),
            wanted=convert(wanted, system) if wanted else None,
            days=context.words.many("waterneed.days"),
            wanted_said=context.w("waterneed.wanted", volume=wanted or ""),
            description=context.w("waterneed.drawing", store=supply.stored.amount),
        )
    )
    return [Drawing(drawing, context.w("waterneed.drawn"))]


def _reaches_all(context: Context) -> bool:
    """Return whether every pen's own water lasts as long as the farm's does together."""
    figures = context.figures
    total = figures.supply.reserve
    return total is not None and all(
        pen in figures.stores
        and at_least(figures.stores[pen].lasts.amount.value, total.amount.value)
        for pen in figures.water.pens
    )


def hoses(context: Context) -> Sheet:
    """Return every hose: how warm, how long to let it run, how often, what would help."""
    w = context.w
    keys = ("name", "bypass", "flush", "volume", "every", "warm")
    views = water_facts.hoses(context)
    rows = tuple(
        (
            with_more(view.name, view.pens),
            view.bypass,
            view.flush_time,
            view.flush_volume,
            view.interval,
            view.too_warm,
        )
        for view in views
    )
    blocks: list[Block] = [
        Caution("warning", w("hose.scald")),
        Table(
            tuple(w(f"hose.head.{key}") for key in keys),
            rows,
            kind="facts tight hoses",
            amounts=(2, 3, 4, 5),
        ),
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
        blocks += [
            Heading(w("hose.fixes")),
            Table(heads, fixes, kind="facts tight keep", amounts=(1, 2, 3, 4)),
        ]
    blocks.append(Paragraph(w("hose.cure")))
    blocks.append(Paragraph(w("hose.working"), small=True))
    sheets = context.figures.hoses.values()
    return Sheet(
        title=w("hose.title"),
        answer=(w("hose.answer"),),
        blocks=tuple(blocks),
        summary=w("hose.summary"),
        sources=_sources(
            *(sheet.heat for sheet in sheets), *(sheet.volume for sheet in sheets)
        ),
        words=w("found_by.hoses"),
    )
