"""Hoses, waterers and wallows as views."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.stays.stay_days import WALLOW
from binder.figures.supply.water_store import shortest_first
from binder.figures.water.drinkers import FAIL, least_of
from binder.pages import slugs
from binder.pages.text import listing
from binder.pages.text.rich import Link, joined, rich
from binder.pages.views import HoseView, PlainView, WallowView
from binder.units import Amount

if TYPE_CHECKING:
    from binder.farm.model import Pen
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.supply.water_store import PenStore
    from binder.figures.wallows.wallow_plan import WallowSheet
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich, Text


def stores(context: Context) -> tuple[PlainView, ...]:
    """Return how long each pen has water without its supply, shortest first: name, lasts.

    A pen whose trough has no size on record says so: nobody knows, so it stands first.
    """
    known = context.figures.stores
    lived_in = [pen for pen in context.farm.pens if pen.id in context.figures.water.pens]
    unknown = [
        PlainView({"name": pen.name, "lasts": context.missing})
        for pen in lived_in
        if pen.id not in known
    ]
    return (
        *unknown,
        *(
            PlainView({"name": one.pen.name, "lasts": _lasts(context, one)})
            for one in shortest_first(known.values())
        ),
    )


def _lasts(context: Context, store: PenStore) -> Text:
    if store.lasts.amount.value > 0:
        return context.number(store.lasts)
    return rich(Link(context.w("waterneed.dry_at_once"), f"working:{store.lasts.key}"))


def hoses(context: Context) -> tuple[HoseView, ...]:
    """Return every hose."""
    return tuple(hose_view(context, sheet) for sheet in context.figures.hoses.values())


def hose_of(context: Context, pen: Pen) -> HoseSheet | None:
    """Return the hose that feeds a pen, None where none does."""
    for sheet in context.figures.hoses.values():
        if pen.id in sheet.pens:
            return sheet
    return None


def hose_line(context: Context, sheet: HoseSheet) -> Text:
    """Return which hose feeds a pen, and where its water is shut off."""
    view = hose_view(context, sheet)
    valve = sheet.hose.shut_off
    return context.say(
        "hose.line_own" if valve else "hose.line",
        valve=listing.lower_first(valve or ""),
        name=listing.lower_first(view.name),
        measure=view.measure,
        source=listing.lower_first(context.named(sheet.hose.fed_by or "")) or context.missing,
        sheet=context.sheet("equipment"),
        shut_off=listing.lower_first(str(view.shut_off)),
    )


def hose_name(sheet: HoseSheet) -> str:
    """Return what the owner calls a hose, in the middle of a sentence."""
    return listing.lower_first(sheet.hose.name or sheet.hose.id)


def hose_view(context: Context, sheet: HoseSheet) -> HoseView:
    """Return one hose."""
    hose = sheet.hose
    names = [pen.name for pen in context.pens if pen.id in sheet.pens]
    measure = context.w(
        "hose.measure",
        inside=context.across(hose.inside_m),
        length=Amount(hose.length_m, "m"),
        runs=hose.runs,
    )
    return HoseView(
        id=hose.id,
        name=hose.name or hose.id,
        pens=", ".join(names) or context.w("hose.no_pen"),
        measure=measure,
        bypass=hose.bypass or context.w("hose.far_end"),
        holds=context.number(sheet.volume),
        held=context.number_both(sheet.volume),
        flush_time=context.number(sheet.flush),
        flush_volume=context.number_both(sheet.run_out),
        interval=context.number(sheet.interval)
        if sheet.interval
        else context.w("hose.no_interval"),
        too_warm=context.number(sheet.cool) if sheet.cool else context.w("hose.stays_cool"),
        still=context.number(sheet.heat or sheet.buried),
        outlet=context.number(sheet.outlet),
        shut_off=_shut_off(context, hose.fed_by),
        notes=hose.notes or "",
    )


def waterers_enough(context: Context, pen: Pen) -> Text:
    """Return whether there are too few waterers, and whether one gives too little."""
    found: list[Text] = []
    if pen.id in context.figures.drinkers.short:
        found.append(context.w("drinker.short"))
    tests = (context.figures.drinkers.tests.get(one.id) for one in pen.drinkers)
    if any(test is not None and test.value == FAIL for test in tests):
        found.append(context.w("drinker.slow"))
    return joined(found, " ") if found else ""


def least_flow(context: Context, pen: str) -> str:
    """Return what each waterer of a pen gives at least, and what to do below; or nothing."""
    found = (
        least_of(test)
        for drinker in context.farm.pen(pen).drinkers
        if (test := context.figures.drinkers.tests.get(drinker.id)) is not None
    )
    most = max((one for one in found if one), key=lambda one: one.value, default=None)
    if most is None:
        return ""
    said = context.show(most).replace("/min", context.w("drinker.a_minute"))
    return context.w("drinker.least", least=said)


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
    return tuple(wallow_view(context, sheet) for sheet in context.figures.wallows.values())


def wallow_view(context: Context, sheet: WallowSheet) -> WallowView:
    """Return one wallow."""
    wallow = sheet.wallow
    pen = context.farm.pen(sheet.pen)
    across = f" × {context.show(Amount(wallow.width_m, 'm'))}" if wallow.width_m else ""
    depth = context.show(context.across(wallow.depth_m))
    size = context.w(
        "wallow.size",
        shape=listing.upper_first(context.w(f"wallow.shapes.{wallow.shape}")),
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


def _planned_in(context: Context, wallow: str) -> list[Rich]:
    """Return the sheets of the stays that have a day for draining and filling a wallow."""
    return [
        context.sheet(slugs.stay(plan))
        for plan in context.figures.stays.values()
        if slugs.stay(plan) in context.sheets
        and any(due.key == WALLOW and due.who == wallow for day in plan.days for due in day.due)
    ]


def _refresh(context: Context, sheet: WallowSheet) -> Text:
    if sheet.refresh is None:
        return context.w("wallow.refresh_unknown")
    day = context.date_of(sheet.refresh)
    planned = _planned_in(context, sheet.wallow.id)
    if sheet.overdue and planned:
        link = rich(Link(context.short_day(day), f"working:{sheet.refresh.key}"))
        return context.say("wallow.overdue_stay", day=link, sheets=context.listed(planned))
    key = "wallow.overdue" if sheet.overdue else "wallow.refresh_by"
    return rich(
        Link(context.w(key, day=context.short_day(day)), f"working:{sheet.refresh.key}")
    )
