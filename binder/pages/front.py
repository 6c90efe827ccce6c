"""The front of the binder and its papers: cover, start, hand-over, contacts, codes, logs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.pages import facts, pens, slugs
from binder.pages.art.qr import qr_svg
from binder.pages.book import names
from binder.pages.people.contacts_sheet import calls
from binder.pages.sheet import Block, Filled, Heading, Sheet, Table
from binder.pages.stays import stay_sheet
from binder.pages.text import template
from binder.pages.text.rich import Link, Rich, joined, rich

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.herd.groups import Group
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.whole import Whole

FIRST_ROLES = ("owner", "backup", "vet", "night vet")


def cover(context: Context, whole: Whole) -> Filled:
    """Return the cover: the farm, its address, whom to call, how to get here."""
    about = context.farm.about
    link = rich(Link(about.place.map, about.place.map)) if about.place.map else ""
    body = template.page(
        "parts/cover.html",
        {
            "w": context.w,
            "farm": whole.farm,
            "tabs": whole.tabs,
            "first_calls": calls(context, FIRST_ROLES),
            "emergency_number": context.emergency,
            "address_label": context.emergency_said("address"),
            "map_link": link,
            "herd_line": herd_line(context),
            "date_text": context.day(context.figures.on),
            "qr": Markup(qr_svg(about.site_address)) if about.site_address else "",  # noqa: S704
            "site_address": about.site_address or "",
            "owner_says": about.owner_says or "",
        },
    )
    return Filled(
        title=context.w("cover.title"),
        body=body,
        summary=context.w("cover.summary"),
        kind="cover",
    )


def herd_line(context: Context) -> str:
    """Return `1 sow, 9 piglets, 1 boar, 45 laying hens`: head by class, in herd order."""
    by_class: dict[str, list[Group]] = {}
    for group in context.figures.herd.groups:
        by_class.setdefault(group.cls, []).append(group)
    said = ", ".join(_heads(context, cls, groups) for cls, groups in by_class.items())
    return said or context.w("pen.nobody")


def _heads(context: Context, cls: str, groups: list[Group]) -> str:
    """Return the head of one class, with the young that are counted beside it."""
    litter = sum(group.litter or 0 for group in groups)
    if len(groups) == 1 and groups[0].count == 1 and litter:
        return f"1 {facts.one(context, groups[0])}"
    heads = context.count(cls, sum(group.count for group in groups))
    return heads + facts.young(context, groups[0].animal.species, litter) if litter else heads


def start_here(context: Context, whole: Whole) -> Filled:
    """Return the sheet for the first ten minutes."""
    hot = context.figures.hot
    today = pens.today(context, whole.pens)
    origin = context.w("start.hot_assumed" if hot.assumed else "start.hot_recorded")
    body = template.page(
        "parts/start-here.html",
        {
            "w": context.w,
            "farm": whole.farm,
            "answer": _answer(context),
            "first_steps": _first_steps(context, whole),
            "today": today,
            "hot_line": context.w(
                "start.hot_line",
                day=context.day(context.figures.on),
                high=context.degrees(hot.high_c),
                low=context.degrees(hot.low_c),
                dew=context.degrees(hot.dew_point_c),
                source=origin,
            ),
            "one_higher": names.one_higher(context),
            "shut_offs": context.farm.about.shut_offs,
            "first_calls": calls(context, FIRST_ROLES),
            "emergency_number": context.emergency,
            "poison_help": context.poison_line,
        },
    )
    return Filled(
        title=context.w("start.title"),
        body=body,
        summary=context.w("start.summary"),
        kind="start",
        words=context.w("found_by.start"),
        claims=tuple(one for row in today for one in row["claims"]),
    )


def _answer(context: Context) -> str:
    where = context.farm.about.thermometer
    return (
        context.w("start.answer", where=where) if where else context.w("start.answer_unknown")
    )


def _first_steps(context: Context, whole: Whole) -> tuple[dict[str, object], ...]:
    charts = [slug for slug in context.sheets if slugs.is_chart(slug)]
    emergencies = [slug for slug, sheet in context.sheets.items() if sheet.startswith("E")]
    fill: dict[str, object] = {
        "thermometer": whole.farm.thermometer,
        "hygrometer": whole.farm.hygrometer,
        "reading": context.sheet("reading-the-air"),
        "charts": context.sheet(charts[0])
        if len(charts) == 1
        else context.between(charts[0], charts[-1]),
        "pens": joined((pen.sheet for pen in whole.pens), ", "),
        "log": context.sheet("round-log"),
        "happened": context.sheet("what-happened"),
        "emergencies": context.between(emergencies[0], emergencies[-1]) if emergencies else "",
    }
    steps = tuple(
        {"do": step["do"], "more": context.put(str(step["more"]), **fill)}
        for step in context.words.items("start.steps")
    )
    return (*_stay_step(context), *steps)


def _stay_step(context: Context) -> tuple[dict[str, object], ...]:
    """Return the step that sends a sitter to the plan of the stay; none where nobody stays."""
    plans = [_stay(context, plan) for plan in context.figures.stays.values()]
    if not plans:
        return ()
    words = context.words.section("start.stay")
    more = context.put(str(words["more"]), plans=joined(plans, "; "))
    return ({"do": words["do"], "more": more},)


def _stay(context: Context, plan: Plan) -> Rich:
    """Return `Ann, 10 to 19 July: R20, cards R21 to R23`."""
    said = context.say(
        "start.stay_plan",
        sitter=rich(plan.stay.sitter),
        dates=stay_sheet.dates(context, plan),
        plan=context.sheet(slugs.stay(plan)),
    )
    cards = [slugs.visit(plan, visit) for visit in plan.visits]
    if not cards:
        return said
    named = context.sheet(cards[0]) if len(cards) == 1 else context.between(cards[0], cards[-1])
    return rich(said, context.say("start.stay_cards", cards=named))


def happened(context: Context) -> Sheet:
    """Return the list by what happened: what somebody sees, and the sheets for it."""
    w = context.w
    blocks: list[Block] = []
    for group in context.words.items("happened.groups"):
        rows = tuple(
            (str(row["what"]), joined((context.sheet(slug) for slug in there), ", "))
            for row in _rows_of(group)
            if (there := [one for one in str(row["sheets"]).split() if one in context.sheets])
        )
        if rows:
            heads = (w("happened.seen"), w("happened.turn"))
            blocks += [Heading(str(group["title"])), Table(heads, rows, kind="facts tight")]
    return Sheet(
        title=w("happened.title"),
        answer=(w("happened.answer"),),
        blocks=(template.halves(context.w, blocks),),
        summary=w("happened.summary"),
        kind="figures happened",
    )


def _rows_of(group: Mapping[str, object]) -> list[Mapping[str, object]]:
    """Return the rows of a group of the list."""
    rows = group["rows"]
    return rows if isinstance(rows, list) else []


def keys_and_codes(context: Context) -> Sheet:
    """Return codes and private contacts, for print only."""
    codes = context.farm.codes
    private = tuple(contact for contact in context.farm.contacts if contact.private)
    w = context.w
    blocks: list[Block] = []
    if codes:
        rows = tuple(
            (
                one.what,
                one.code,
                context.or_missing("; ".join(text for text in (one.where, one.notes) if text)),
            )
            for one in codes
        )
        blocks.append(Table((w("keys.what"), w("keys.code"), w("keys.where")), rows))
    if private:
        people = tuple(
            (
                w(f"contacts.roles.{one.role}"),
                one.name,
                one.phone,
                context.or_missing(one.can),
            )
            for one in private
        )
        heads = (w("contacts.role"), w("contacts.name"), w("contacts.phone"), w("contacts.can"))
        blocks.append(Table(heads, people))
    return Sheet(
        title=w("keys.title"),
        answer=(w("keys.answer"),),
        blocks=tuple(blocks),
        summary=w("keys.summary"),
        kind="keys",
    )
