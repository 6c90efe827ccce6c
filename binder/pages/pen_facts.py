"""Pens, and the animals, fans and tasks in them, as views."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder import units
from binder.figures.bands.band_charts import charts_of
from binder.figures.figure import FROM_MEMORY
from binder.figures.herd.breeding import BIRTHS, OVERDUE
from binder.figures.rounds.round_tasks import DUSK
from binder.figures.stays.visits.set_out import READY
from binder.pages import facts, pen_asks, slugs
from binder.pages.art import drawings
from binder.pages.bands import pen_chart
from binder.pages.feed import feed_facts
from binder.pages.text import listing
from binder.pages.text.rich import rich
from binder.pages.views import FanView, GroupView, PenView, TaskView
from binder.pages.water import water_facts
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable

    from markupsafe import Markup

    from binder.farm.model import Drinker, Fan, Pen, Shade
    from binder.figures.herd.groups import Group
    from binder.figures.rounds.farm_rounds import Task
    from binder.pages.context import Context
    from binder.pages.text.rich import Text


def pens(context: Context) -> tuple[PenView, ...]:
    """Return every pen, in the order of their numbers."""
    return tuple(_pen(context, pen) for pen in context.pens)


def _pen(context: Context, pen: Pen) -> PenView:
    groups = context.figures.herd.in_pen(pen.id)
    hose = water_facts.hose_of(context, pen)
    wallow = context.figures.wallows.get(pen.wallow.id) if pen.wallow else None
    round_ = context.figures.rounds.pens[pen.id]
    slug = slugs.pen(pen.id)
    water = context.figures.water.pens.get(pen.id)
    charts = charts_of(group.cls for group in groups)
    intervals = {key: context.span(one.amount.value) for key, one in round_.intervals.items()}
    return PenView(
        id=pen.id,
        name=pen.name,
        slug=slug,
        sheet=context.sheet(slug),
        kind=pen.kind,
        who=", ".join(who(context, group) for group in groups) or context.w("pen.nobody"),
        gate=context.or_missing(pen.gate),
        feeder=context.or_missing(pen.feeder),
        notes=pen.notes or "",
        water=context.number_both(water),
        drinkers=_drinkers(context, pen),
        drinkers_enough=water_facts.waterers_enough(context, pen),
        fed_by=_fed_by(context, pen),
        hose=water_facts.hose_view(context, hose) if hose else None,
        hose_line=water_facts.hose_line(context, hose) if hose else "",
        wallow=water_facts.wallow_view(context, wallow) if wallow else None,
        shade=_shade(context, pen),
        shelter=_shelter(context, pen),
        air=_air(context, pen),
        phone_signal=pen.phone_signal or "",
        wet_with=_wet_with(context, pen),
        groups=tuple(_group(context, group) for group in groups),
        fans=tuple(_fan(context, pen, fan) for fan in pen.fans),
        feeds=tuple(
            feed_facts.feed_view(context, one) for one in context.figures.feed.in_pen(pen.id)
        ),
        tasks=tuple(task_view(context, task) for task in round_.tasks),
        asks=pen_asks.asks(context, pen, groups, intervals),
        intervals=intervals,
        picture=pen.picture or "",
        drawings=_drawings(context, groups),
        chart=pen_chart.line(context, (group.cls for group in groups)),
        charts=charts,
    )


def _wet_with(context: Context, pen: Pen) -> str:
    """Return what animals are wetted with, empty where no number asks for it.

    Where the owner wrote nothing down it is water from the tub, which is there at each number.
    """
    if all(task.key != "wet" for task in context.figures.rounds.pens[pen.id].asked):
        return ""
    return listing.sentence(pen.wet_with or context.w("pen.wet_by_hand"))


def _drawings(context: Context, groups: Iterable[Group]) -> tuple[Markup, ...]:
    """Return a drawing of each species in a pen."""
    kinds = dict.fromkeys(group.animal.species for group in groups)
    return tuple(drawings.animal(kind, context.w(f"species.{kind}")) for kind in kinds)


def who(context: Context, group: Group) -> str:
    """Return an animal or group as people speak of it: `8 growers`, `Hector (boar)`."""
    called = group.animal.called
    if group.animal.group is not None or group.count > 1:
        head = context.count(group.cls, group.count)
        return head if called.lower() in head.lower() else f"{head} ({called})"
    return f"{called} ({facts.one(context, group)})"


def _group(context: Context, group: Group) -> GroupView:
    animal = group.animal
    due = _due_texts(context, group)
    return GroupView(
        name=animal.called,
        count=group.count,
        cls=group.cls,
        who=who(context, group),
        mark=animal.mark or "",
        notes=" ".join(filter(None, (listing.sentence(animal.temper or ""), animal.notes))),
        medicine=animal.medicine or "",
        due=listing.upper_first("; ".join(due)),
        weight=context.show(Amount(group.weight_kg, "kg"))
        if group.weight_kg
        else context.missing,
        weighed=bool(group.weight_kg),
        water=context.number_both(context.figures.water.groups.get(animal.called)),
        picture=animal.picture or "",
    )


def _due_texts(context: Context, group: Group) -> tuple[str, ...]:
    """Return the births that are due, and the moves the owner has planned."""
    moves = sorted((move.on, move.to) for move in group.animal.moves)
    planned = (
        context.w("pen.moves", day=context.short_day(on), pen=context.farm.pen(to).name)
        for on, to in moves
        if on > context.figures.on
    )
    births = (
        f"{context.w(f'event.{event}')} {context.window(first, last)}"
        for event, first, last in group.dates
        if event in BIRTHS or (event == OVERDUE and first <= context.figures.on)
    )
    return (*births, *planned)


def _drinkers(context: Context, pen: Pen) -> Text:
    if not pen.drinkers:
        return context.missing
    return context.listed(_drinker(context, drinker) for drinker in pen.drinkers)


def _drinker(context: Context, drinker: Drinker) -> str:
    number = "one" if drinker.count == 1 else "many"
    words = context.w(f"drinker.{drinker.kind}.{number}", n=drinker.count)
    if drinker.flow_l_min is not None:
        flow = context.show(Amount(drinker.flow_l_min * 1000, "mL/min"))
        flow = flow.replace("/min", context.w("drinker.a_minute"))
        words += context.w(f"drinker.flow_{number}", flow=flow)
    if drinker.holds_l is not None:
        holds = context.show(Amount(drinker.holds_l, "L"))
        words += context.w(f"drinker.holds_{number}", amount=holds)
    return words


def _fed_by(context: Context, pen: Pen) -> str:
    """Return what brings water to a pen; drinkers that nothing feeds are filled by hand."""
    if not pen.drinkers:
        return context.missing
    feeding = dict.fromkeys(one.fed_by for one in pen.drinkers if one.fed_by)
    return ", ".join(map(context.named, feeding)) or context.w("waterneed.by_hand")


def _shade(context: Context, pen: Pen) -> Text:
    if not pen.shade:
        return context.w("shade.shelter_only") if pen.shelter else context.missing
    parts = [
        _shade_place(context, one)
        + (" " + context.w("shade.over_wallow") if one.over_wallow else "")
        for one in pen.shade
    ]
    return context.listed(parts)


def _shade_place(context: Context, one: Shade) -> str:
    area = context.show(Amount(one.area_m2, "m2"))
    if one.kind != "cloth" or one.blocks_pct is None:
        return context.w(f"shade.{one.kind}", area=area)
    share = context.show(Amount(one.blocks_pct, "%"))
    return context.w("shade.cloth_of", area=area, share=share)


def _shelter(context: Context, pen: Pen) -> Text:
    shelter = pen.shelter
    if shelter is None:
        return context.missing
    parts = [context.show(Amount(shelter.area_m2, "m2"))]
    if shelter.open_ends is not None:
        number = "one" if shelter.open_ends == 1 else "many"
        parts.append(context.w(f"shelter.open_ends.{number}", n=shelter.open_ends))
    if shelter.floor is not None:
        parts.append(context.w("shelter.floor", floor=shelter.floor))
    if shelter.bedding_m is not None:
        parts.append(context.w("shelter.bedding", depth=context.across(shelter.bedding_m)))
    return ", ".join(parts)


def _air(context: Context, pen: Pen) -> Text:
    stall = context.figures.air.stalls.get(pen.id)
    if stall is None or stall.have is None:
        return context.missing
    if stall.need is None or FROM_MEMORY in stall.need.cautions:
        return rich(context.number(stall.have), ". ", context.w("barn-air.by_hand"))
    return rich(
        context.w("barn-air.need"), " ", context.number(stall.need), "; ",
        context.w("barn-air.have"), " ", context.number(stall.have),
    )  # fmt: skip


def fans(context: Context) -> tuple[FanView, ...]:
    """Return every fan, in the order of their numbers."""
    return tuple(_fan(context, pen, fan) for pen in context.pens for fan in pen.fans)


def _fan(context: Context, pen: Pen, fan: Fan) -> FanView:
    circuit = next(
        (one for one in context.farm.equipment.circuits if one.id == fan.circuit), None
    )
    line: Text = context.missing
    if circuit is not None:
        line = context.w(
            "fan.circuit",
            breaker=circuit.label or circuit.id,
            where=context.or_missing(circuit.where),
        )
    return FanView(
        pen=pen.name,
        switch=context.or_missing(fan.switch),
        circuit=line,
        cleaned=context.short_day(fan.cleaned) if fan.cleaned else context.missing,
        notes=fan.notes or "",
    )


def task_view(context: Context, task: Task) -> TaskView:
    """Return one task of a round: what, how, how much, how long."""
    name, how = _task_words(context, task)
    amount: Text = ""
    if task.amount is not None:
        both = task.key == "wallow"  # filled by the eye, in whatever there is to measure with
        amount = context.number_both(task.amount) if both else context.number(task.amount)
    elif task.holds:
        amount = "; ".join(_filled(context, task.key, one) for one in task.holds)
    elif task.count:
        key = "amount_young" if task.young else "amount"
        amount = context.w(f"task.{task.key}.{key}", count=task.count, young=task.young)
    return TaskView(task=name, how=how, amount=amount, minutes=minutes(task.minutes))


def _filled(context: Context, task: str, place: tuple[int, float | None, bool]) -> str:
    """Return `2 of 3 gal each, emptied first`: what is filled, and how much goes in."""
    count, holds_l, tipped = place
    if holds_l is None:
        return context.w("task.fill.amount", count=count)
    volume = context.show(Amount(holds_l, "L"))
    if task == READY:
        return context.w("task.ready.amount", count=count, volume=volume)
    key = "tipped" if tipped else "topped"
    return context.w(f"task.fill.{key}{'_1' if count == 1 else ''}", count=count, volume=volume)


def minutes(minutes: float) -> str:
    """Return minutes to the half, at least one half: `1 1/2`."""
    halves = max(1, round(minutes * 2))
    return units.show_parts(halves / 2, 2, 0) or ""


def _task_words(context: Context, task: Task) -> tuple[str, str]:
    """Return what to do, and how."""
    if task.key == "own":
        return context.w("task.own.task"), task.text
    if task.key == DUSK:
        open_ = f"{listing.sentence(task.text)} {context.w('task.dusk.still_open')}"
        return context.w("task.dusk.task"), open_ if task.text else context.w("task.dusk.how")
    if task.key == "flush":
        sheet = context.figures.hoses[task.hose]
        bypass = sheet.hose.bypass
        where = listing.lower_first(bypass) if bypass else context.w("hose.far_end")
        return (
            context.w("task.flush.task", hose=water_facts.hose_name(sheet)),
            context.w("task.flush.how", where=where),
        )
    if task.pens:
        pens = str(context.listed(context.farm.pen(pen).name for pen in task.pens))
        return (
            context.w(f"task.{task.key}.task", pens=pens),
            context.w(f"task.{task.key}.how"),
        )
    word = f"task.{task.key}.task"
    special = f"{word}_young" if task.young else f"{word}_{task.count}"
    key = special if context.words.has(special) else word
    return context.w(key, count=task.count), context.w(f"task.{task.key}.how")
