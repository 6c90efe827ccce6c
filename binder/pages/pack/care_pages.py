"""This stay's feed, water, wallows and births, a page each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures.rounds.running_water import flow_l_min, run_min
from binder.figures.stays.stay_days import WALLOW
from binder.pages import facts
from binder.pages.claims import stated
from binder.pages.feed import feed_facts
from binder.pages.sheet import Block, Caution, Heading, Paragraph, Points, Sheet, Table
from binder.pages.stays import counting, stay_jobs, stay_sheet, who_comes
from binder.pages.text.listing import with_more
from binder.pages.text.rich import joined, rich
from binder.pages.water import water_facts

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.figures import Figures
    from binder.figures.stays.plan import Plan
    from binder.figures.wallows.wallow_plan import WallowSheet
    from binder.pages.context import Context
    from binder.pages.pack.told import Told
    from binder.pages.text.rich import Rich
    from binder.pages.views import FeedView
    from binder.pages.whole import Whole

    Text = str | Rich

TIGHT = "facts tight wide"


def has_births(figures: Figures) -> bool:
    """Return whether young are born in a stay, or are with their mother."""
    herd = figures.herd.groups
    return any(plan.births for plan in figures.stays.values()) or any(
        one.litter for one in herd
    )


def feed(context: Context, plan: Plan) -> Sheet:
    """Return what each group gets on the days of the stay."""
    w = context.w
    born = feed_facts.after_birth(context, plan)
    rows: list[tuple[Text, ...]] = []
    for view in feed_facts.feeds(context):
        rows.append(_fed(context, view, view.pen))
        if view.group in born:
            rows.append(_fed(context, born[view.group], w("feed.after_birth")))
    heads = tuple(w(f"feed.head.{key}") for key in ("who", "feed", "meal_when"))
    visits = facts.meals_at_visits(context, plan)
    answer = w("pack.feed.answer", visits=visits) if visits else w("feed.answer_unknown")
    day = context.short_day(plan.stay.last)
    amounts = w("feed.answer_stay", day=day)
    if plan.fed_more_before:
        amounts = w(
            "visit.amounts_less", day=day, who=str(context.listed(plan.fed_more_before))
        )
    blocks: list[Block] = [
        Table(heads, tuple(rows), kind="facts tight wide feeds"),
        Heading(w("feed.rules")),
        Points(feed_facts.rules(context, plan)),
    ]
    return Sheet(
        title=w("pack.feed.title", dates=stay_sheet.dates(context, plan)),
        answer=(answer, amounts),
        blocks=tuple(blocks),
        summary=w("feed.summary"),
        kind="pack figures",
    )


def _fed(context: Context, view: FeedView, more: str) -> tuple[Text, ...]:
    who = with_more(view.group, more)
    return who, _fed_with(context, view), _meal_when(context, view)


def _meal_when(context: Context, view: FeedView) -> Text:
    """Return a meal with its time, which two different meals name by themselves."""
    if view.when == context.w("feed.when.two"):
        return view.meal
    return rich(view.meal, ", ", view.when)


def _fed_with(context: Context, view: FeedView) -> Text:
    """Return the feed and its scoop; beside hay no pellets are named that nobody gives."""
    if view.each == context.w("feed.hay"):
        return context.w("feed.hay_alone")
    return with_more(view.feed, view.scoop if view.scoop != view.feed else "")


def water(context: Context, plan: Plan, whole: Whole, told: Told) -> Sheet:
    """Return what each pen drinks, how long it lasts without supply, hoses, green water."""
    w = context.w
    figures = context.figures
    lasts = {str(one.name): one.lasts for one in water_facts.stores(context)}
    rows = tuple(
        (
            view.name,
            stay_sheet.pen_water(context, plan, view.id),
            lasts.get(view.name, context.missing),
        )
        for view in whole.pens
        if view.groups
    )
    heads = tuple(w(f"pack.water.head.{key}") for key in ("pen", "need", "lasts"))
    answer: Text = w("waterneed.answer_unknown")
    if figures.water.farm is not None:
        answer = context.say(
            "waterneed.answer_part" if figures.water.unknown else "waterneed.answer",
            high=context.degrees(figures.hot.high_c),
            need=rich(context.number_both(figures.water.farm)),
            names=", ".join(figures.water.unknown),
        )
    blocks: list[Block] = [Table(heads, rows, kind=f"{TIGHT} drunk")]
    feeding = [
        one for one in context.farm.equipment.tanks if one.fed_by and not one.needs_power
    ]
    if feeding:
        tanks = str(context.listed(one.name for one in feeding))
        blocks.append(Paragraph(w("pack.water.tank", tanks=tanks), small=True))
    if "dry-for-hours" in context.sheets:
        dry = context.say("waterneed.dry", sheet=context.sheet("dry-for-hours"))
        blocks.append(Caution("warning", dry))
    hoses = tuple(
        (
            with_more(view.name, view.pens),
            view.bypass,
            _or(view.flush_time, context.missing, w("pack.water.until_cool")),
            view.flush_volume,
            w("pack.water.at_visits"),
        )
        for sheet in figures.hoses.values()
        if sheet.interval
        for view in (water_facts.hose_view(context, sheet),)
    )
    if hoses:
        keys = ("hose", "open", "run", "that_is", "again")
        heads = tuple(w(f"pack.water.hose.{key}") for key in keys)
        blocks += [
            Heading(w("pack.water.hoses")),
            Table(heads, hoses, kind=f"{TIGHT} drunk"),
            Caution("warning", w("pack.water.scald")),
        ]
    blocks += told.parts("daily-water-care")
    if not context.figures.wallows:
        blocks += told.parts("algae")
    return Sheet(
        title=w("pack.water.title", dates=stay_sheet.dates(context, plan)),
        answer=(answer,),
        blocks=tuple(blocks),
        summary=w("waterneed.summary"),
        kind="pack protocol",
    )


def _or(said: Text, unknown: str, instead: str) -> Text:
    """Return what else is said where a figure is not known."""
    return instead if str(said) == unknown else said


def wallows(context: Context, plan: Plan, told: Told) -> Sheet:
    """Return each wallow: what a visit adds, when it is drained in the stay and by whom."""
    w = context.w
    rows = tuple(
        (
            with_more(
                context.farm.pen(sheet.pen).name, water_facts.wallow_view(context, sheet).size
            ),
            context.number_both(plan.top_ups.get(sheet.wallow.id)),
            context.number_both(sheet.high),
            _drained(context, plan, sheet),
        )
        for sheet in context.figures.wallows.values()
    )
    heads = tuple(w(f"pack.wallows.head.{key}") for key in ("pen", "visit", "fill", "days"))
    blocks: list[Block] = [
        Table(heads, rows, kind=f"{TIGHT} drained"),
        Paragraph(" ".join((w("pack.wallows.two"), *_from_empty(context))), small=True),
        *told.parts("wallow-daily-care"),
        *told.parts("algae"),
    ]
    return Sheet(
        title=w("pack.wallows.title", dates=stay_sheet.dates(context, plan)),
        answer=(w("wallow.answer"),),
        blocks=tuple(blocks),
        summary=w("wallow.summary"),
        kind="pack protocol",
    )


def _from_empty(context: Context) -> Iterator[str]:
    """Yield how long the tap runs to fill each wallow that a hose fills."""
    said = [
        context.w(
            "pack.wallows.run", pen=context.farm.pen(sheet.pen).name,
            time=context.span(
                run_min(sheet.high.amount.value, flow_l_min(context.farm, sheet.wallow.fed_by))
                / MINUTES_IN_HOUR
            ),
        )
        for sheet in context.figures.wallows.values()
        if sheet.high is not None and sheet.wallow.fed_by
    ]  # fmt: skip
    if said:
        yield context.w("pack.wallows.far", runs="; ".join(said))


def _drained(context: Context, plan: Plan, sheet: WallowSheet) -> str:
    """Return the days of the stay on which a wallow is drained and filled, and who comes."""
    due = dict.fromkeys(
        one.first
        for day in plan.days
        for one in day.due
        if one.key == WALLOW and one.who == sheet.wallow.id
    )
    if not due:
        return context.w("pack.wallows.not_due")
    days = str(context.listed(context.short_day(on) for on in due))
    helpers = {job.helper for job in plan.jobs if job.pen == sheet.pen and job.on in due}
    named = ", ".join(sorted(filter(None, helpers)))
    if not named:
        return context.w("pack.wallows.ask", days=days)
    return context.w("pack.wallows.with", days=days, helper=named)


def births(context: Context, plan: Plan, told: Told) -> Sheet:
    """Return who gives birth when, what changes with it, and the care of young."""
    w = context.w
    rows = tuple(
        (
            with_more(birth.name, context.pen_name(birth.pen)),
            stay_jobs.birth_days(context, birth),
            stay_sheet.pen_water(context, plan, birth.pen or ""),
            w("pack.births.heads", before=birth.head_before, after=birth.head_after),
        )
        for birth in plan.births
    )
    heads = tuple(w(f"pack.births.head.{key}") for key in ("who", "when", "water", "count"))
    blocks: list[Block] = []
    if rows:
        blocks = [Table(heads, rows, kind=TIGHT), Paragraph(w("pack.births.feed"))]
    if "sow-farrowing-in-heat" in context.sheets:
        sheet = context.sheet("sow-farrowing-in-heat")
        said = [context.say("pack.births.turn", sheet=sheet)]
        if rows:
            others = who_comes.in_order(context)[1:]
            key = "pack.births.round" if others else "pack.births.round_one"
            said.append(context.say(key, people="; ".join(others)))
        blocks.append(Paragraph(joined(said, " ")))
    blocks += [Paragraph(said) for said in counting.born(context, plan)]
    blocks.append(Paragraph(counting.short(context, plan)))
    if any(group.litter for group in context.figures.herd.groups):
        blocks.append(Paragraph(w("pack.births.litter")))
    blocks += told.parts("young-and-weaning")
    return Sheet(
        title=w("pack.births.title", dates=stay_sheet.dates(context, plan)),
        answer=(w("pack.births.answer" if rows else "pack.births.none"),),
        blocks=tuple(blocks),
        summary=w("pack.births.summary"),
        kind="pack protocol",
        claims=tuple(
            stated.event(context, due.who, due.key, due.first, due.last)
            for day in plan.days
            for due in day.due
            if due.is_birth
        ),
    )
