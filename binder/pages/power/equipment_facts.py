"""Breakers, generators, tanks, sources, buckets and products as views."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.power.generators import CANNOT
from binder.pages.views import PlainView
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.model import Circuit, Generator, Product
    from binder.pages.context import Context


def shut_offs(context: Context) -> tuple[PlainView, ...]:
    """Return where things turn off: what, where."""
    return tuple(
        PlainView({"what": one.what, "where": one.where})
        for one in context.farm.about.shut_offs
    )


def circuits(context: Context) -> tuple[PlainView, ...]:
    """Return the breakers: name, where, limit, load."""
    return tuple(_circuit(context, one) for one in context.farm.equipment.circuits)


def _circuit(context: Context, one: Circuit) -> PlainView:
    load = context.figures.power.circuits.get(one.id)
    return PlainView(
        {
            "name": one.label or one.id,
            "where": context.or_missing(one.where),
            "limit": context.number(load.limit if load else None),
            "load": context.number(load.draw if load else None),
            "notes": context.or_missing(one.notes),
        }
    )


def generators(context: Context) -> tuple[PlainView, ...]:
    """Return the generators: name, where, connection, fuel, hours, runs, by_cord, watts."""
    return tuple(_generator(context, one) for one in context.farm.equipment.generators)


def _generator(context: Context, one: Generator) -> PlainView:
    found = context.figures.power.generators.get(one.id)
    return PlainView(
        {
            "name": one.name,
            "where": context.or_missing(one.where),
            "connection": context.or_missing(one.connection),
            "fuel": context.show(Amount(one.fuel_l, "L")) if one.fuel_l else context.missing,
            "hours": context.number(found.hours if found else None),
            "runs": ", ".join(_runs(context, one)) or context.missing,
            "by_cord": "" if one.transfer_switch else context.w("equipment.by_cord"),
            "watts": context.show(Amount(one.running_w, "W")),
        }
    )


def _runs(context: Context, one: Generator) -> Iterator[str]:
    """Yield what a generator may run; a breaker only where a transfer switch feeds it.

    Without one each fan on the breaker gets a cord of its own: never the breaker, whose wires
    lead out to the line (husbandry-37).
    """
    circuits = {each.id for each in context.farm.equipment.circuits}
    for each in _can_run(context, one):
        if each not in circuits or one.transfer_switch:
            yield context.named(each)
            continue
        fans = [fan.id for pen in context.farm.pens for fan in pen.fans if fan.circuit == each]
        if fans:
            yield from map(context.named, fans)
        else:
            yield context.w("equipment.plugged", circuit=context.named(each))


def _can_run(context: Context, one: Generator) -> tuple[str, ...]:
    """Return what the owner wants it to run, without what it cannot start at all."""
    found = context.figures.power.generators.get(one.id)
    cannot = {
        dict(each.values).get("what")
        for each in (found.findings if found else ())
        if each.key in CANNOT
    }
    return tuple(each for each in one.runs if each not in cannot)


def tanks(context: Context) -> tuple[PlainView, ...]:
    """Return the tanks: name, holds, where, and which pens each feeds without power."""
    fed = {
        one.id: [
            pen.name
            for sheet in context.figures.hoses.values()
            if sheet.hose.fed_by == one.id
            for pen in context.pens
            if pen.id in sheet.pens
        ]
        for one in context.farm.equipment.tanks
        if not one.needs_power
    }
    return tuple(
        PlainView(
            {
                "name": one.name,
                "holds": context.both(Amount(one.holds_l, "L")),
                "where": context.or_missing(one.where),
                "feeds": ", ".join(dict.fromkeys(fed.get(one.id, ()))),
            }
        )
        for one in context.farm.equipment.tanks
    )


def sources(context: Context) -> tuple[PlainView, ...]:
    """Return where water comes from: name, kind, flow, shut_off."""
    return tuple(
        PlainView(
            {
                "name": one.name,
                "kind": one.kind,
                "flow": context.show(Amount(one.flow_l_min, "L/min"))
                if one.flow_l_min
                else context.missing,
                "shut_off": context.or_missing(one.shut_off),
            }
        )
        for one in context.farm.equipment.water_sources
    )


def buckets(context: Context) -> tuple[PlainView, ...]:
    """Return the buckets: name, holds."""
    return tuple(
        PlainView({"name": one.name, "holds": context.both(Amount(one.holds_l, "L"))})
        for one in context.farm.equipment.buckets
    )


def products(context: Context, kind: str | None = None) -> tuple[PlainView, ...]:
    """Return the cleaning products of a kind, or all: name, strength, kept."""
    return tuple(
        PlainView(
            {
                "name": one.name,
                "strength": context.show(Amount(one.strength_pct, "%")),
                "kept": context.or_missing(one.kept),
            }
        )
        for one in _of_kind(context, kind)
    )


def _of_kind(context: Context, kind: str | None) -> Iterator[Product]:
    for one in context.farm.equipment.products:
        if kind is None or one.kind == kind:
            yield one
