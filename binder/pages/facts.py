"""The farm's facts as views: what page templates and protocols may name."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from binder import units
from binder.figures.band_charts import chart_of
from binder.figures.band_rule import is_banded
from binder.figures.bands import Band
from binder.pages import heat, text
from binder.pages.rich import Link, Rich, joined, rich
from binder.pages.views import (
    AskView,
    DayView,
    FanView,
    FarmView,
    FeedView,
    GroupView,
    HoseView,
    MealsView,
    PenView,
    PlainView,
    TaskView,
    WallowView,
)
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from binder.farm.model import Drinker, Fan, Pen
    from binder.figures.feed import GroupFeed, Meal
    from binder.figures.herd import Group
    from binder.figures.hose_plan import HoseSheet
    from binder.figures.rounds import Task
    from binder.figures.wallow_plan import WallowSheet
    from binder.pages.context import Context

    Text = str | Rich


def farm_view(context: Context) -> FarmView:
    """Return the farm itself."""
    about = context.farm.about
    return FarmView(
        name=about.name,
        address=context.or_missing(about.place.address),
        directions=context.or_missing(about.place.directions),
        owner_says=context.or_missing(about.owner_says),
        thermometer=context.or_missing(about.thermometer),
        hygrometer=context.or_missing(about.hygrometer),
        eggs=context.or_missing(about.eggs),
    )


def pens(context: Context) -> tuple[PenView, ...]:
    """Return every pen, in the order of the round."""
    return tuple(_pen(context, pen) for pen in context.pens)


def _pen(context: Context, pen: Pen) -> PenView:
    groups = context.figures.herd.in_pen(pen.id)
    hose = _hose_of(context, pen)
    wallow = context.figures.wallows.get(pen.wallow.id) if pen.wallow else None
    round_ = context.figures.rounds.pens[pen.id]
    slug = f"pen-{pen.id}"
    water = context.figures.water.pens.get(pen.id)
    charts = _charts(groups)
    intervals = {key: context.span(one.amount.value) for key, one in round_.intervals.items()}
    return PenView(
        id=pen.id,
        name=pen.name,
        slug=slug,
        sheet=context.sheet(slug),
        kind=pen.kind,
        who=", ".join(_who(context, group) for group in groups),
        gate=context.or_missing(pen.gate),
        feeder=context.or_missing(pen.feeder),
        notes=pen.notes or "",
        water=context.number_both(water),
        drinkers=_drinkers(context, pen),
        drinkers_enough=_enough(context, pen),
        hose=_hose(context, hose) if hose else None,
        wallow=_wallow(context, wallow) if wallow else None,
        shade=_shade(context, pen),
        shelter=_shelter(context, pen),
        air=_air(context, pen),
        groups=tuple(_group(context, group) for group in groups),
        fans=tuple(_fan(context, pen, fan) for fan in pen.fans),
        feeds=tuple(_feed(context, one) for one in context.figures.feed.in_pen(pen.id)),
        tasks=tuple(_task(context, task) for task in round_.tasks),
        asks=_asks(context, charts, intervals),
        intervals=intervals,
        picture=pen.picture or "",
        chart=joined((context.sheet(heat.slug(chart)) for chart in charts), ", "),
        charts=charts,
    )


# Of several pig charts for one pen the first of these counts: it warns soonest.
_SOONEST = ("sows with young or due", "sows and boars", "pigs")


def _charts(groups: Iterable[Group]) -> tuple[str, ...]:
    """Return the charts a pen is read from: one for its pigs, one for each other kind."""
    found = dict.fromkeys(chart_of(group.cls) for group in groups if is_banded(group.cls))
    pigs = [chart for chart in _SOONEST if chart in found]
    return tuple(chart for chart in found if chart not in pigs[1:])


def _who(context: Context, group: Group) -> str:
    called = group.animal.called
    if group.animal.group is not None or group.count > 1:
        head = context.count(group.cls, group.count)
        line = called if called.lower() in head.lower() else f"{called}: {head}"
        return (
            line if str(group.count) in line else f"{group.count} {line[:1].lower()}{line[1:]}"
        )
    return f"{called} ({context.w(f'class_one.{group.cls}')}{_litter(context, group)})"


def _litter(context: Context, group: Group) -> str:
    return context.w("pen.litter", n=group.litter) if group.litter else ""


def _group(context: Context, group: Group) -> GroupView:
    animal = group.animal
    due = _due_texts(context, group)
    return GroupView(
        name=animal.called,
        count=group.count,
        cls=group.cls,
        who=_who(context, group),
        mark=animal.mark or "",
        notes=animal.notes or "",
        medicine=animal.medicine or "",
        due="; ".join(due),
        weight=context.show(Amount(group.weight_kg, "kg"))
        if group.weight_kg
        else context.missing,
        water=context.number_both(context.figures.water.groups.get(animal.called)),
        picture=animal.picture or "",
    )


def _due_texts(context: Context, group: Group) -> tuple[str, ...]:
    return tuple(
        f"{context.w(f'event.{event}')} {context.window(first, last)}"
        for event, first, last in group.dates
    )


def _hose_of(context: Context, pen: Pen) -> HoseSheet | None:
    for sheet in context.figures.hoses.values():
        if pen.id in sheet.pens:
            return sheet
    return None


def hoses(context: Context) -> tuple[HoseView, ...]:
    """Return every hose."""
    return tuple(_hose(context, sheet) for sheet in context.figures.hoses.values())


def hose_name(sheet: HoseSheet) -> str:
    """Return what the owner calls a hose, in the middle of a sentence."""
    name = sheet.hose.name or sheet.hose.id
    return name[:1].lower() + name[1:]


def _hose(context: Context, sheet: HoseSheet) -> HoseView:
    hose = sheet.hose
    names = [pen.name for pen in context.pens if pen.id in sheet.pens]
    measure = context.w(
        "hose.measure",
        inside=Amount(hose.inside_m * 1000, "mm"),
        length=Amount(hose.length_m, "m"),
        runs=hose.runs,
    )
    flush_water = rich(Link(context.both(sheet.volume.amount), f"working:{sheet.volume.key}"))
    return HoseView(
        id=hose.id,
        name=hose.name or hose.id,
        pens=", ".join(names),
        measure=measure,
        bypass=hose.bypass or context.w("hose.far_end"),
        held=context.number_both(sheet.volume),
        flush_time=context.number(sheet.flush),
        flush_volume=flush_water,
        interval=context.number(sheet.interval)
        if sheet.interval
        else context.w("hose.no_interval"),
        too_warm=context.number(sheet.cool) if sheet.cool else context.w("hose.stays_cool"),
        still=context.number(sheet.heat or sheet.buried),
        outlet=context.number(sheet.outlet),
        shut_off=_shut_off(context, hose.fed_by),
        notes=hose.notes or "",
    )


def _shut_off(context: Context, fed_by: str | None) -> Text:
    """Return where the source behind a hose is shut off, however many hoses lie between."""
    equipment = context.farm.equipment
    sources = {one.id: one.shut_off for one in equipment.water_sources}
    feeds = {one.id: one.fed_by for one in equipment.hoses}
    feeds |= {one.id: one.fed_by for one in equipment.tanks}
    seen: set[str] = set()
    while fed_by is not None and fed_by not in seen:
        if sources.get(fed_by):
            return sources[fed_by] or context.missing
        seen.add(fed_by)
        fed_by = feeds.get(fed_by)
    return context.missing


def wallows(context: Context) -> tuple[WallowView, ...]:
    """Return every wallow."""
    return tuple(_wallow(context, sheet) for sheet in context.figures.wallows.values())


def _wallow(context: Context, sheet: WallowSheet) -> WallowView:
    wallow = sheet.wallow
    pen = context.farm.pen(sheet.pen)
    across = f" × {context.show(Amount(wallow.width_m, 'm'))}" if wallow.width_m else ""
    depth = context.show(Amount(wallow.depth_m * 1000, "mm"))
    size = context.w(
        "wallow.size",
        shape=wallow.shape,
        size=f"{context.show(Amount(wallow.length_m, 'm'))}{across}",
        depth=depth,
    )
    enough = {True: "wallow.enough", False: "wallow.too_small", None: "wallow.area_unknown"}
    area = context.w(
        enough[sheet.enough],
        surface=context.words.value(sheet.surface) if sheet.surface else "",
        need=context.words.value(sheet.need) if sheet.need else "",
    )
    return WallowView(
        id=wallow.id,
        name=context.w("wallow.name", pen=pen.name),
        pen=pen.name,
        size=size,
        deep=depth,
        volume_low=context.number_both(sheet.low),
        volume_high=context.number_both(sheet.high),
        top_up=context.number_both(sheet.top_up),
        area=area,
        refresh=_refresh(context, sheet),
        next_place=context.or_missing(wallow.next_place),
        notes=wallow.notes or "",
    )


def _refresh(context: Context, sheet: WallowSheet) -> Text:
    if sheet.refresh is None:
        return context.w("wallow.refresh_unknown")
    day = context.date_of(sheet.refresh)
    key = "wallow.overdue" if sheet.overdue else "wallow.refresh_by"
    return rich(
        Link(context.w(key, day=context.short_day(day)), f"working:{sheet.refresh.key}")
    )


def _drinkers(context: Context, pen: Pen) -> Text:
    if not pen.drinkers:
        return context.missing
    return context.listed(_drinker(context, drinker) for drinker in pen.drinkers)


def _drinker(context: Context, drinker: Drinker) -> str:
    words = context.w(f"drinker.{drinker.kind}", n=drinker.count)
    if drinker.flow_l_min is not None:
        flow = context.show(Amount(drinker.flow_l_min * 1000, "mL/min"))
        words += " " + context.w("drinker.flow", flow=flow)
    if drinker.holds_l is not None:
        words += " " + context.w(
            "drinker.holds", amount=context.show(Amount(drinker.holds_l, "L"))
        )
    return words


def _enough(context: Context, pen: Pen) -> Text:
    return context.w("drinker.short") if pen.id in context.figures.drinkers.short else ""


def _shade(context: Context, pen: Pen) -> Text:
    if not pen.shade:
        return context.missing
    parts = [
        context.w(f"shade.{one.kind}", area=context.show(Amount(one.area_m2, "m2")))
        + (" " + context.w("shade.over_wallow") if one.over_wallow else "")
        for one in pen.shade
    ]
    return context.listed(parts)


def _shelter(context: Context, pen: Pen) -> Text:
    shelter = pen.shelter
    if shelter is None:
        return context.missing
    parts = [context.show(Amount(shelter.area_m2, "m2"))]
    if shelter.open_ends is not None:
        parts.append(context.w("shelter.open_ends", n=shelter.open_ends))
    if shelter.floor is not None:
        parts.append(context.w("shelter.floor", floor=shelter.floor))
    if shelter.bedding_m is not None:
        parts.append(
            context.w(
                "shelter.bedding", depth=context.show(Amount(shelter.bedding_m * 1000, "mm"))
            )
        )
    return ", ".join(parts)


def _air(context: Context, pen: Pen) -> Text:
    stall = context.figures.air.stalls.get(pen.id)
    if stall is None or stall.have is None:
        return context.missing
    if stall.need is None or "from-memory" in stall.need.cautions:
        return rich(context.number(stall.have), ". ", context.w("barn-air.by_hand"))
    return rich(
        context.w("barn-air.need"), " ", context.number(stall.need), "; ",
        context.w("barn-air.have"), " ", context.number(stall.have),
    )  # fmt: skip


def fans(context: Context) -> tuple[FanView, ...]:
    """Return every fan, in the order of the round."""
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


def feeds(context: Context) -> tuple[FeedView, ...]:
    """Return what every group is fed, in herd order."""
    return tuple(_feed(context, one) for one in context.figures.feed.groups)


def _feed(context: Context, one: GroupFeed) -> FeedView:
    pen = next((pen.name for pen in context.farm.pens if pen.id == one.group.pen), "")
    name = one.feed.name if one.feed else context.missing
    each: Text = context.w("feed.unknown", feed=name)
    if one.total is not None:
        each = rich(context.number_both(one.total), " ", context.w("feed.of", feed=name))
    return FeedView(
        pen=pen,
        group=one.group.animal.called,
        feed=name,
        scoop=context.or_missing(one.feed.scoop if one.feed else None),
        each=each,
        morning=_meal(context, one.morning),
        evening=_meal(context, one.evening),
        water=context.number_both(one.morning.water) if one.morning else context.missing,
    )


def _meal(context: Context, meal: Meal | None) -> Text:
    if meal is None:
        return context.w("feed.none")
    line = rich(context.number(meal.feed))
    if meal.scoops is not None:
        line = rich(line, " = ", context.number(meal.scoops), " ", context.w("feed.scoop"))
    if meal.water is not None:
        line = rich(line, context.w("feed.soaked_in"), context.number_both(meal.water))
        if meal.buckets is not None and meal.bucket is not None:
            line = rich(
                line, " (", context.number(meal.buckets), " ", meal.bucket.name.lower(), ")"
            )
    return line


def _task(context: Context, task: Task) -> TaskView:
    amount: Text = ""
    if task.amount is not None:
        amount = rich(Link(context.both(task.amount.amount), f"working:{task.amount.key}"))
    elif task.count:
        amount = context.w(f"task.{task.key}.amount", count=task.count)
    name = task.text
    how: Text = context.w("task.own.how")
    if task.key == "flush":
        sheet = context.figures.hoses[task.hose]
        name = context.w("task.flush.task", hose=hose_name(sheet))
        bypass = sheet.hose.bypass
        how = (
            context.w("task.flush.how", bypass=bypass[:1].lower() + bypass[1:])
            if bypass
            else context.w("task.flush.how_end")
        )
    elif task.key == "see" and task.count == 1:
        name, how = context.w("task.see.task_one"), context.w("task.see.how")
    elif task.key != "own":
        name = context.w(f"task.{task.key}.task", count=task.count)
        how = context.w(f"task.{task.key}.how")
    minutes = units.show_number(max(0.5, round(task.minutes * 2) / 2), None)
    return TaskView(task=name, how=how, amount=amount, minutes=minutes)


def _asks(
    context: Context, charts: tuple[str, ...], intervals: Mapping[str, str]
) -> tuple[AskView, ...]:
    """Return what each number asks in a pen: the lines of its groups, each once."""
    rows = []
    for band in Band:
        lines = dict.fromkeys(context.w(f"asks.do.{chart}.{band.key}") for chart in charts)
        sentences = dict.fromkeys(part for line in lines for part in text.sentences(line))
        rows.append(
            AskView(
                band=int(band),
                word=context.w(f"band.{band.key}"),
                at="",
                back_in=intervals[band.key],
                do=" ".join(sentences),
            )
        )
    return tuple(rows)


def names(
    context: Context, farm: FarmView, pen_views: tuple[PenView, ...]
) -> Mapping[str, object]:
    """Return every name that a protocol may use."""
    equipment = context.farm.equipment
    return {
        "farm": farm,
        "pens": pen_views,
        "pens_with": lambda tag: tuple(pen for pen in pen_views if _pen_has(context, pen, tag)),
        "pens_of": lambda species: tuple(
            pen
            for pen in pen_views
            if any(
                group.animal.species == species for group in context.figures.herd.in_pen(pen.id)
            )
        ),
        "hoses": hoses(context),
        "wallows": wallows(context),
        "fans": fans(context),
        "feeds": feeds(context),
        "call": context.call,
        "has_call": lambda role: bool(context.contacts(role)),
        "has": context.has,
        "sheet": _sheet_or_refuse(context),
        "shows": lambda slug: slug in context.sheets,
        "t": lambda degrees: _published(context, degrees, "F", "temperature"),
        "vol": lambda gallons: _published(context, gallons, "gal", "volume"),
        "length": lambda feet: _published(context, feet, "ft", "length"),
        "weight": lambda pounds: _published(context, pounds, "lb", "weight"),
        "poison_help": context.w("contacts.poison_help"),
        "emergency_number": context.w("contacts.emergency"),
        "circuits": _plain(equipment.circuits, lambda one: _circuit(context, one)),
        "generators": _plain(equipment.generators, lambda one: _generator(context, one)),
        "tanks": _plain(equipment.tanks, lambda one: _tank(context, one)),
        "water_sources": _plain(equipment.water_sources, lambda one: _source(context, one)),
        "shut_offs": _plain(
            context.farm.about.shut_offs, lambda one: {"what": one.what, "where": one.where}
        ),
        "bleaches": _products(context, "bleach"),
        "peroxides": _products(context, "peroxide"),
        "buckets": _plain(equipment.buckets, lambda one: _bucket(context, one)),
        "due": due(context),
        "boars": _animals(context, lambda group: group.cls == "boar"),
        "medicines": _plain(
            [group for group in context.figures.herd.groups if group.animal.medicine],
            lambda group: {"name": group.animal.called, "text": group.animal.medicine or ""},
        ),
        "meals": meals(context),
        "day": day(context),
        "every": lambda band: context.span(context.figures.rounds.farm_intervals_h[band]),
    }


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
    kept = units.KINDS[kind].unit
    return context.both(Amount(units.parse(f"{value:g} {unit}", kind), kept))


def _plain(
    things: Iterable[Any], view: Callable[[Any], Mapping[str, Text]]
) -> tuple[PlainView, ...]:
    return tuple(
        PlainView(view(thing)) for thing in things if not getattr(thing, "private", False)
    )


def _products(context: Context, kind: str) -> tuple[PlainView, ...]:
    return _plain(
        [product for product in context.farm.equipment.products if product.kind == kind],
        lambda one: {
            "name": one.name,
            "strength": f"{one.strength_pct:g}%",
            "kept": context.or_missing(one.kept),
        },
    )


def _animals(context: Context, wanted: Callable[[Group], bool]) -> tuple[PlainView, ...]:
    return _plain(
        [group for group in context.figures.herd.groups if wanted(group)],
        lambda group: {
            "name": group.animal.called,
            "pen": _pen_name(context, group.pen),
            "notes": group.animal.notes or "",
        },
    )


def _pen_name(context: Context, pen_id: str | None) -> str:
    return next((pen.name for pen in context.farm.pens if pen.id == pen_id), context.missing)


def _circuit(context: Context, one: Any) -> dict[str, Text]:
    load = context.figures.power.circuits.get(one.id)
    return {
        "name": one.label or one.id,
        "where": context.or_missing(one.where),
        "limit": context.number(load.limit if load else None),
        "load": context.number(load.draw if load else None),
    }


def _generator(context: Context, one: Any) -> dict[str, Text]:
    found = context.figures.power.generators.get(one.id)
    return {
        "name": one.name,
        "where": context.or_missing(one.where),
        "connection": context.or_missing(one.connection),
        "fuel": context.show(Amount(one.fuel_l, "L")) if one.fuel_l else context.missing,
        "hours": context.number(found.hours if found else None),
        "runs": ", ".join(one.runs) or context.missing,
        "watts": context.show(Amount(one.running_w, "W")),
    }


def _tank(context: Context, one: Any) -> dict[str, Text]:
    return {
        "name": one.name,
        "holds": context.both(Amount(one.holds_l, "L")),
        "where": context.or_missing(one.where),
        "hours": context.number(context.figures.supply.reserve),
    }


def _source(context: Context, one: Any) -> dict[str, Text]:
    return {"name": one.name, "kind": one.kind, "shut_off": context.or_missing(one.shut_off)}


def _bucket(context: Context, one: Any) -> dict[str, Text]:
    return {"name": one.name, "holds": context.both(Amount(one.holds_l, "L"))}


def due(context: Context) -> tuple[PlainView, ...]:
    """Return the births that are due, soonest first."""
    found = []
    for group in context.figures.herd.groups:
        for event, first, last in group.dates:
            if event in BIRTHS:
                found.append((first, group, event, last))
    found.sort(key=lambda item: item[0])
    return tuple(
        PlainView(
            {
                "name": group.animal.called,
                "pen": _pen_name(context, group.pen),
                "what": context.w(f"event.{event}"),
                "window": context.window(first, last),
                "watch_from": context.short_day(first),
            }
        )
        for first, group, event, last in found
    )


BIRTHS = ("farrowing", "kidding", "lambing", "calving", "foaling", "kindling", "whelping")


def meals(context: Context) -> MealsView:
    """Return the feeding hours of the hot day that suit every class."""
    found = context.figures.day.meals
    if found is None:
        return MealsView(context.missing, context.missing)
    return MealsView(context.clock(found.morning_by_h), context.clock(found.evening_from_h))


def day(context: Context) -> DayView:
    """Return the farm's hot day."""
    hot = context.figures.hot
    found = context.figures.day.day
    hottest = hot.hottest_at_h if found is None else found.air.peak_h
    return DayView(
        high=context.degrees(hot.high_c),
        low=context.degrees(hot.low_c),
        dew_point=context.degrees(hot.dew_point_c),
        assumed=hot.assumed,
        hottest_at=context.missing if hottest is None else context.clock(hottest),
        sunrise=context.missing if found is None else context.clock(found.sunrise_h),
        sunset=context.missing if found is None else context.clock(found.sunset_h),
    )
