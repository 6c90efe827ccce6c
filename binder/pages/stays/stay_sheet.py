"""The papers for a stay: its plan, a card for each visit, a dated log."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.clock import HOURS_IN_DAY
from binder.figures.bands.band_rule import Band
from binder.figures.figure import OUR_CHOICE
from binder.figures.stays.stay_days import WEANING
from binder.figures.stays.stay_load import HOT
from binder.figures.weather.hot_days import hours
from binder.pages import pen_facts, slugs
from binder.pages.claims import stated
from binder.pages.sheet import Block, Heading, Paragraph, Sheet, Table
from binder.pages.stays import stay_jobs, stay_lines
from binder.pages.text.listing import unbroken, upper_first
from binder.pages.text.rich import joined, rich

if TYPE_CHECKING:
    from binder.figures.stays.plan import Plan
    from binder.figures.stays.plan_parts import Birth
    from binder.figures.stays.stay_days import Due, StayDay
    from binder.figures.stays.stay_load import StayLoad
    from binder.pages.claims.claim import Claim
    from binder.pages.context import Context
    from binder.pages.text.rich import Text


def dates(context: Context, plan: Plan) -> str:
    """Return `10 to 19 July`."""
    return context.window(plan.stay.first, plan.stay.last)


def stay_plan(context: Context, plan: Plan) -> Sheet:
    """Return each day of a stay, whether the visits are enough, what to lay in before."""
    w = context.w
    stay = plan.stay
    notes = w("stay.notes", text=stay.notes) if stay.notes else ""
    blocks: list[Block] = [
        *([Paragraph(notes)] if notes else []),
        Heading(w("stay.days")),
        Table(
            tuple(w(f"stay.day_head.{key}") for key in ("day", "due")),
            day_rows(context, plan),
            kind="wide plain",
            claims=day_claims(context, plan),
        ),
        *stay_lines.looks(context, plan),
        *_pens(context, plan),
        *stay_jobs.not_yours(context, plan),
        *_stock(context, plan),
    ]
    cards = joined(context.sheet(slugs.visit(plan, visit)) for visit in plan.visits)
    if plan.visits:
        line = rich(w("stay.cards"), ": ", cards, ". ", w("stay.amounts"))
        blocks.insert(0, Paragraph(line, small=True))
    return Sheet(
        title=w("stay.title", sitter=stay.sitter, dates=dates(context, plan)),
        answer=(_visits(context, plan), verdict(context, plan)),
        blocks=tuple(blocks),
        summary=w("stay.summary"),
        sources=(OUR_CHOICE,),
        words=context.w("found_by.stay", sitter=stay.sitter),
        claims=stated.visits(context, plan),
    )


def _visits(context: Context, plan: Plan) -> Text:
    stay = plan.stay
    if not stay.visits:
        return context.w("stay.answer_no_visits")
    times = str(context.listed(context.clock(hours(time)) for time in sorted(stay.visits)))
    if stay.phone is None or stay.private:
        return context.w("stay.answer_no_phone", visits=times)
    phone = context.phone(stay.phone)
    return context.say("stay.answer", visits=times, phone=phone, sitter=stay.sitter)


def verdict(context: Context, plan: Plan) -> str:
    """Return whether the visits and looks of a stay are enough."""
    if not plan.visits or all(load.day is None for load in plan.loads.values()):
        return context.w("stay.unknown" if plan.visits else "stay.unknown_times")
    failing = [key for key, watch in plan.watches.items() if not watch.holds]
    if failing:
        loads = context.listed(context.w(f"stay.loads.{key}") for key in failing)
        return context.w("stay.fails", loads=loads)
    return context.w("stay.holds")


def day_claims(context: Context, plan: Plan) -> tuple[Claim, ...]:
    """Return the sun of each day, and the days of what is due."""
    found: list[Claim] = []
    for day in plan.days:
        if day.sunrise_h is not None and day.sunset_h is not None:
            found += stated.sun(context, day.on, day.sunrise_h, day.sunset_h)
        found += (
            stated.event(context, due.who, due.key, due.first, due.last)
            for due in day.due
            if due.first != due.last
        )
    return tuple(found)


def day_rows(context: Context, plan: Plan) -> tuple[tuple[Text, ...], ...]:
    """Return a row for each day; days in a row that say the same share one."""
    said = ((day, _day(context, plan, day)) for day in plan.days)
    rows: list[tuple[Text, ...]] = []
    for (sun, told), days in groupby(said, key=lambda pair: pair[1]):
        found = [day for day, _ in days]
        name = unbroken(context.weekday(found[0].on))
        if len(found) > 1:
            last = unbroken(context.weekday(found[-1].on))
            name = context.w("stay.days_to", first=name, last=last)
        head: Text = name
        if sun:
            head = Markup('{}<br><span class="small">{}</span>').format(name, sun)
        rows.append((head, told))
    return tuple(rows)


def _day(context: Context, plan: Plan, day: StayDay) -> tuple[str, Text]:
    """Return a day's sun, and what is due on it and who is of another class."""
    sun = ""
    if day.sunrise_h is not None and day.sunset_h is not None:
        up, down = context.clock(day.sunrise_h), context.clock(day.sunset_h)
        sun = unbroken(context.w("stay.sun", up=up, down=down))
    lines = day_lines(context, plan, day)
    return sun, Markup("<br>").join(lines) if lines else context.w("stay.nothing")


def day_lines(context: Context, plan: Plan, day: StayDay) -> list[str]:
    """Return what is due on a day and who is of another class, a line for each.

    What is due of one animal or place stands in one line.
    """
    told: dict[str, list[str]] = {}
    for due in day.due:
        again = day is not plan.days[0] and due.first < day.on
        what = stay_jobs.whose(context, plan, due, _due(context, due, again=again))
        if what:
            told.setdefault(_whom(context, due), []).append(what)
    for one in day.changes:
        now = context.w("stay.change", now=context.w(f"class_one.{one.now}"))
        told.setdefault(one.name, []).append(now)
    return [_line(context, who, "; ".join(what)) for who, what in told.items()]


def _line(context: Context, who: str, what: str) -> str:
    return context.w("stay.due_who", who=who, what=what) if who else upper_first(what)


def _due(context: Context, due: Due, *, again: bool) -> str:
    """Return what is due; on its later days without its window."""
    known = context.words.has(f"stay.due.{due.key}")
    what = context.w(f"stay.due.{due.key}" if known else f"event.{due.key}")
    if not due.who or due.first == due.last or again:
        return what
    window = context.window(due.first, due.last)
    key = "weaning_window" if due.key == WEANING else "due_window"
    return context.w(f"stay.{key}", what=what, window=window)


def _whom(context: Context, due: Due) -> str:
    """Return whose day it is: wallows, fans and bottles by the name people know."""
    products = {one.id: one.name for one in context.farm.equipment.products}
    if due.pen is not None and due.key in ("wallow", "fan"):
        return context.farm.pen(due.pen).name
    return products.get(due.who, due.who)


def _pens(context: Context, plan: Plan) -> list[Block]:
    """Return each pen with its animals, its water, and how the visits suit it."""
    w = context.w
    shown = {key: load for key, load in plan.loads.items() if load.day is not None}
    late = {key: plan.watches[key].overdue for key in shown}
    rows = []
    for pen in plan.pens:
        who = ", ".join(pen_facts.who(context, group) for group in plan.herd.in_pen(pen))
        cells = (
            _cell(context, plan, load, pen, late[key].get(pen)) for key, load in shown.items()
        )
        rows.append(
            (
                rich(context.farm.pen(pen).name, " ", context.sheet(slugs.pen(pen))),
                who,
                pen_water(context, plan, pen),
                *cells,
            )
        )
    heads = tuple(w(f"stay.pen_head.{key}") for key in ("pen", "who", "water"))
    heads += tuple(w(f"stay.load_heads.{key}") for key in shown)
    highs = {key: context.degrees(load.weather.high_c) for key, load in plan.loads.items()}
    listed = "; ".join(f"{w(f'stay.load_heads.{key}')}: {high}" for key, high in highs.items())
    return [
        Heading(w("stay.pens")),
        Table(heads, tuple(rows), kind="wide coming"),
        Paragraph(w("stay.pens_note", highs=listed), small=True),
    ]


def birth_in(plan: Plan, pen: str) -> Birth | None:
    """Return the birth that may fall into a stay in a pen, None where none may."""
    return next((one for one in plan.births if one.pen == pen), None)


def pen_water(context: Context, plan: Plan, pen: str) -> Text:
    """Return a pen's water on a hot day; around a birth what holds before it and after it."""
    birth = birth_in(plan, pen)
    if birth is None or birth.before is None or birth.after is None:
        return context.number(plan.water.pens.get(pen))
    return context.say(
        "stay.before_after",
        before=rich(context.number(birth.before)), after=rich(context.number(birth.after)),
    )  # fmt: skip


def _cell(context: Context, plan: Plan, load: StayLoad, pen: str, late_h: float | None) -> Text:
    """Return the worst number of the day in a pen, what moves it, from when it is overdue."""
    if pen not in load.worst:
        return context.w("stay.nothing")
    band = max(load.worst[pen])
    words = (
        context.w("stay.never_late")
        if late_h is None
        else context.w("stay.late", clock=context.clock(late_h % HOURS_IN_DAY))
    )
    moved = plan.numbers[pen]
    if load.key == HOT and moved.modifier and moved.limit_c is not None:
        limit = context.degrees(moved.limit_c)
        more = context.w("stay.and_if", number=moved.modified, limit=limit)
        return Markup("{}{}; {}").format(number(Band(band)), more, words)
    return Markup("{} {}").format(number(Band(band)), words)


def number(band: Band) -> Markup:
    """Return a band as its number in its pattern."""
    return Markup('<span class="band b{0}">{0}</span>').format(int(band))


def _stock(context: Context, plan: Plan) -> list[Block]:
    """Return feed and bleach to have before the stay."""
    names = {one.id: one.name for one in context.farm.equipment.products}
    rows: list[tuple[Text, ...]] = [
        (
            one.feed.name,
            context.number_both(one.need),
            context.number_both(one.short) if one.short else context.missing,
        )
        for one in plan.feed.stock
        if one.need is not None
    ]
    rows += [
        (
            context.w("stay.bleach", name=names[key]),
            context.number_both(buy),
            context.w("stay.nothing"),
        )
        for key, buy in plan.bleach.items()
    ]
    if not rows:
        return []
    heads = tuple(context.w(f"stay.stock_head.{key}") for key in ("what", "need", "short"))
    return [Heading(context.w("stay.stock")), Table(heads, tuple(rows), amounts=(1, 2))]
