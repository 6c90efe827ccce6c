"""Every name that a protocol may use, with the farm's facts behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder import units
from binder.kinds import KINDS
from binder.pages import facts, pen_facts
from binder.pages.bands.finder_table import humidity_column
from binder.pages.feed import feed_facts
from binder.pages.power import equipment_facts
from binder.pages.text.country import pumped
from binder.pages.views import PlainView
from binder.pages.water import water_facts
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from binder.pages.context import Context
    from binder.pages.text.rich import Rich
    from binder.pages.views import FarmView, PenView


def names(
    context: Context, farm: FarmView, pen_views: tuple[PenView, ...]
) -> Mapping[str, object]:
    """Return every name that a protocol may use."""
    return {
        "farm": farm,
        "pens": pen_views,
        "walk": _walk(context, pen_views),
        "pens_with": lambda tag: tuple(pen for pen in pen_views if _pen_has(context, pen, tag)),
        "pens_of": lambda kind: tuple(pen for pen in pen_views if _keeps(context, pen, kind)),
        "hoses": water_facts.hoses(context),
        "wallows": water_facts.wallows(context),
        "fans": pen_facts.fans(context),
        "feeds": feed_facts.feeds(context),
        "call": context.call,
        "has_call": lambda role: bool(context.contacts(role)),
        "phone_signal": context.farm.about.place.phone_signal or "",
        "may_decide": _may_decide(context),
        "has": context.has,
        "known": lambda text: text != context.missing,
        "sheet": _sheet_or_refuse(context),
        "shows": lambda slug: slug in context.sheets,
        "t": lambda degrees: _published(context, degrees, "F", "temperature"),
        "vol": lambda gallons: _published(context, gallons, "gal", "volume"),
        "length": lambda feet: _published(context, feet, "ft", "length"),
        "weight": lambda pounds: _published(context, pounds, "lb", "weight"),
        "damp": lambda temp_f, dew_f: humidity_column(context, temp_f, dew_f),
        "poison_help": context.poison_line,
        "emergency_number": context.emergency,
        "pumped": pumped(context.farm),
        "mains": any(source.kind == "mains" for source in context.farm.equipment.water_sources),
        "country": PlainView(dict(context.words.terms)),
        "a_minute": lambda ml: context.show(Amount(float(ml), "mL/min")),
        "circuits": equipment_facts.circuits(context),
        "generators": equipment_facts.generators(context),
        "tanks": equipment_facts.tanks(context),
        "stores": water_facts.stores(context),
        "water_sources": equipment_facts.sources(context),
        "shut_offs": equipment_facts.shut_offs(context),
        "bleaches": equipment_facts.products(context, "bleach"),
        "peroxides": equipment_facts.products(context, "peroxide"),
        "buckets": equipment_facts.buckets(context),
        "due": facts.due(context),
        "litters": facts.litters(context),
        "boars": _boars(context),
        "medicines": _medicines(context),
        "meals": facts.meals(context),
        "day": facts.day(context),
        "one_higher": one_higher(context),
        "still_air": context.words.section("still_air"),
        "limit": lambda name: context.both(context.words.limits[name]),
        "care": lambda name: facts.care(context, name),
        "drink": context.number_both(context.figures.people.drink),
        "every": lambda band: context.span(context.figures.rounds.farm_intervals_h[band]),
    }


def one_higher(context: Context) -> str:
    """Return the one rule for going a number higher, as the first sheet and H1 print it."""
    line = context.both(context.words.limits["warm_night"])
    return context.w("one_higher.text", line=line)


def _walk(context: Context, pen_views: tuple[PenView, ...]) -> tuple[PenView, ...]:
    """Return the pens with animals as they are walked at the hottest hour: by need."""
    plan, day = context.figures.plan, context.figures.day.day
    order = plan.basis.walk if day is None else plan.basis.order_at(day.air.peak_h)
    by_id = {view.id: view for view in pen_views}
    return tuple(by_id[pen] for pen in order if pen in by_id)


def _sheet_or_refuse(context: Context) -> Callable[[str], Rich]:
    def sheet(slug: str) -> Rich:
        if slug not in context.sheets:
            message = f'sheet("{slug}") is not shown for this farm; guard it with shows(...)'
            raise ValueError(message)
        return context.sheet(slug)

    return sheet


def _pen_has(context: Context, pen: PenView, tag: str) -> bool:
    written = context.farm.pen(pen.id)
    things = {
        "wallow": written.wallow,
        "fan": written.fans,
        "hose": pen.hose,
        "shade": written.shade,
    }
    return bool(things.get(tag)) or any(group.cls == tag for group in pen.groups)


def _published(context: Context, value: float, unit: str, kind: str) -> str:
    kept = KINDS[kind].unit
    return context.both(Amount(units.parse(f"{value:g} {unit}", kind), kept))


def _keeps(context: Context, pen: PenView, species: str) -> bool:
    return any(group.animal.species == species for group in context.figures.herd.in_pen(pen.id))


def _may_decide(context: Context) -> tuple[PlainView, ...]:
    """Return who may decide for the owner, in the owner's order."""
    return tuple(
        PlainView({"name": one.name, "text": one.may_decide})
        for one in context.farm.contacts
        if one.may_decide and not one.private
    )


def _boars(context: Context) -> tuple[PlainView, ...]:
    return tuple(
        PlainView(
            {
                "name": group.animal.called,
                "pen": context.pen_name(group.pen),
                "notes": group.animal.notes or "",
            }
        )
        for group in context.figures.herd.groups
        if group.cls == "boar"
    )


def _medicines(context: Context) -> tuple[PlainView, ...]:
    return tuple(
        PlainView({"name": group.animal.called, "text": group.animal.medicine})
        for group in context.figures.herd.groups
        if group.animal.medicine
    )
