"""The equipment sheet: what turns off where, sources, tanks, breakers, generator, products."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.published import rests_on
from binder.pages import findings
from binder.pages.power import equipment_facts
from binder.pages.sheet import Block, Caution, Heading, Paragraph, Points, Sheet, Table
from binder.pages.text.listing import upper_first
from binder.pages.water import water_facts
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.pages.context import Context
    from binder.pages.text.rich import Text

TIGHT = "facts tight keep"


def equipment(context: Context) -> Sheet:
    """Return everything with a switch, a valve or a label."""
    w = context.w
    shut_offs = equipment_facts.shut_offs(context)
    blocks: list[Block] = []
    if shut_offs:
        rows = tuple((one.what, one.where) for one in shut_offs)
        blocks += _part(context, "shut_offs", "shut_head", ("what", "where"), rows)
    blocks += _water(context)
    blocks += _power(context)
    blocks += _store(context)
    answer = (
        w("equipment.answer", count=len(shut_offs)) if shut_offs else w("equipment.answer_none")
    )
    return Sheet(
        title=w("equipment.title"),
        answer=(answer,),
        blocks=tuple(blocks),
        summary=w("equipment.summary"),
        sources=rests_on("equipment"),
        words=w("found_by.equipment"),
    )


def _part(
    context: Context,
    title: str,
    head: str,
    keys: Iterable[str],
    rows: tuple[tuple[Text, ...], ...],
) -> list[Block]:
    heads = tuple(context.w(f"equipment.{head}.{key}") for key in keys)
    return [Heading(context.w(f"equipment.{title}")), Table(heads, rows, kind=TIGHT)]


def _water(context: Context) -> list[Block]:
    views = equipment_facts
    rows: list[tuple[Text, ...]] = [
        (one.name, one.flow, one.shut_off) for one in views.sources(context)
    ]
    rows += [(one.name, one.holds, one.where) for one in views.tanks(context)]
    keys = ("name", "holds", "where")
    blocks = _part(context, "water", "water_head", keys, tuple(rows)) if rows else []
    lasts = tuple((one.name, one.lasts) for one in water_facts.stores(context))
    if lasts:
        blocks += [Paragraph(context.w("equipment.lasts")), Table((), lasts, kind=TIGHT)]
    return blocks


def _power(context: Context) -> list[Block]:
    things = context.farm.equipment
    blocks: list[Block] = []
    if things.circuits:
        breakers = tuple(
            (view.name, view.where, view.load, view.limit)
            for view in equipment_facts.circuits(context)
        )
        keys = ("name", "where", "load", "limit")
        blocks += _part(context, "circuits", "circuit_head", keys, breakers)
        blocks.append(Caution("notice", context.w("equipment.circuit_rule")))
    if things.generators:
        sets = tuple(
            (view.name, view.where, view.watts, view.hours, view.connection)
            for view in equipment_facts.generators(context)
        )
        heads = ("name", "where", "watts", "hours", "connection")
        blocks += _part(context, "generator", "generator_head", heads, sets)
    if things.cords:
        cords = tuple(
            (
                upper_first(context.named(one.id)),
                context.w(
                    "equipment.cord",
                    length=Amount(one.length_m, "m"),
                    gauge=Amount(one.gauge_awg, "AWG"),
                ),
            )
            for one in things.cords
        )
        blocks += [Heading(context.w("equipment.cords")), Table((), cords, kind=TIGHT)]
    lacking = [findings.sentence(context, one) for one in context.figures.power.findings]
    if lacking:
        blocks += [Heading(context.w("equipment.todo")), Points(tuple(lacking))]
    return blocks


def _store(context: Context) -> list[Block]:
    things = context.farm.equipment
    blocks: list[Block] = []
    if things.products:
        rows = tuple(
            (view.name, view.strength, view.kept) for view in equipment_facts.products(context)
        )
        blocks += _part(context, "products", "product_head", ("name", "strength", "kept"), rows)
    held: list[tuple[Text, ...]] = [
        (view.name, view.holds) for view in equipment_facts.buckets(context)
    ]
    held += _scoops(context)
    if held:
        title = Heading(context.w("equipment.buckets"))
        blocks += [title, Table((), tuple(held), kind=TIGHT)]
    return blocks


def _scoops(context: Context) -> list[tuple[Text, ...]]:
    """Return what each scoop holds; one that measures several feeds alike stands once."""
    found: dict[tuple[str, str], list[str]] = {}
    for one in context.farm.equipment.feeds:
        if one.scoop and one.scoop_holds_kg:
            weight = context.show(Amount(one.scoop_holds_kg, "kg"))
            found.setdefault((one.scoop, weight), []).append(one.name)
    return [
        (
            scoop,
            context.w("equipment.scoop_holds", weight=weight, feeds=context.listed(feeds)),
        )
        for (scoop, weight), feeds in found.items()
    ]
