"""A card for each visit of a stay, with boxes to tick: each pen, who is fed, the minutes."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.clock import HOURS_IN_DAY
from binder.figures.day.feeding_hours import feed_up_to
from binder.figures.figure import OUR_CHOICE
from binder.figures.rounds.round_tasks import DUSK
from binder.figures.rounds.visits import is_late
from binder.figures.stays import visit_card
from binder.figures.stays.stay_load import HOT
from binder.figures.stays.visit_card import BOOTS, CLOSE, EGGS, LEFTOVERS, MORNING, OWN, WALK
from binder.pages import pen_facts, slugs
from binder.pages.feed import feed_facts
from binder.pages.sheet import Block, Paragraph, Raw, Sheet, Table
from binder.pages.stays import card_claims, stay_lines, visit_air
from binder.pages.text.listing import sentences, with_more
from binder.pages.text.rich import Link, rich

if TYPE_CHECKING:
    from binder.figures.feed.farm_feed import GroupFeed, Meal
    from binder.figures.rounds.farm_rounds import Task
    from binder.figures.stays.plan import Plan, PlanMeal, Visit
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich, Text

    Row = tuple[Text, ...]


def card(context: Context, plan: Plan, visit: Visit) -> Sheet:
    """Return what to do at one visit, pen by pen, on every day of the stay."""
    w = context.w
    blocks: list[Block] = [Paragraph(line, small=True) for line in _notes(context, plan, visit)]
    for place, pen in enumerate(visit.order, 1):
        title = Markup('<h3>{} {} {} <span class="small">{}</span></h3>').format(
            place,
            context.farm.pen(pen).name,
            _expected(plan, visit, pen),
            stay_lines.charts(context, plan, pen),
        )
        blocks += [Raw(title), _table(context, _pen(context, plan, visit, pen))]
    blocks += [
        Raw(Markup("<h3>{}</h3>").format(w("visit.end"))),
        _table(context, _end(context, visit)),
    ]
    return Sheet(
        title=w("visit.title", clock=context.clock(visit.hour)),
        answer=(
            _work(context, visit),
            *visit_air.lines(context, visit),
            *_feed(context, plan, visit),
        ),
        blocks=tuple(blocks),
        summary=w("visit.summary", dates=context.window(plan.stay.first, plan.stay.last)),
        sources=(OUR_CHOICE,),
        words=f"visit card tasks {plan.stay.sitter}",
        kind="visit",
        claims=card_claims.of_card(context, plan, visit),
    )


# --- the box -------------------------------------------------------------------------------


def _work(context: Context, visit: Visit) -> Rich:
    """Return the minutes of the visit, first those at the numbers of a hot day."""
    work = visit.work.amount.value
    said = context.w("visit.minutes", n=pen_facts.minutes(work))
    minutes = rich(Link(said, f"working:{visit.work.key}"))
    hot = visit.fits.get(HOT)
    if hot is None or hot.need_min <= work:
        return context.say("visit.answer", work=minutes)
    expected = context.w("visit.minutes", n=pen_facts.minutes(hot.need_min))
    load = context.w("stay.loads.hot")
    return context.say("visit.answer_expected", work=minutes, expected=expected, load=load)


def _feed(context: Context, plan: Plan, visit: Visit) -> list[Text]:
    """Return whether animals are fed, by when, and where the number forbids it."""
    w = context.w
    if not visit.meal:
        return [w("visit.feed_none")]
    lines: list[Text] = [f"{w(f'visit.feed_{visit.meal}')} {_when(context, plan, visit)}"]
    sunset_h = visit_card.sunset_h(plan)
    if visit.meal != MORNING and sunset_h is not None and visit.hour >= sunset_h:
        return [*lines, w("visit.feed_any")]
    sunset = w("visit.sunset")
    if sunset_h is not None:
        sunset = w("visit.sunset_at", clock=context.clock(sunset_h))
    evening = w("visit.evening_meal")
    if plan.meals is not None:
        evening = context.clock(plan.meals.evening_from_h)
    rule = w("visit.feed_rule", up_to=feed_up_to(), evening=evening, sunset=sunset)
    fed = [one for pen in visit.fed.values() for one in pen]
    if any(map(visit_card.keeps_feed, fed)):
        rule = f"{rule} {w('visit.feed_birds')}"
    return [*lines, rule]


def _when(context: Context, plan: Plan, visit: Visit) -> Text:
    """Return by or from when the meal goes out on a hot day, and whether this is too late."""
    if plan.meals is None:
        return ""
    if visit.meal != MORNING:
        return context.w("visit.from", clock=context.clock(plan.meals.evening_from_h))
    by_h = plan.meals.morning_by_h
    key = "visit.by_late" if is_late(visit.hour, by_h) else "visit.by"
    return context.w(key, clock=context.clock(by_h))


def _notes(context: Context, plan: Plan, visit: Visit) -> list[Text]:
    """Return where else to look, what the numbers beside the pens are, what amounts hold."""
    w = context.w
    loads = [w(f"stay.loads.{key}") for key, load in plan.loads.items() if load.worst]
    listed = str(context.listed(loads))
    first = rich(
        context.say("visit.today", sheet=context.sheet(slugs.stay(plan))),
        " ",
        context.say("visit.log", sheet=context.sheet(slugs.stay_log(plan))),
        f" {w('visit.expect', loads=listed)}" if loads else "",
    )
    day = context.short_day(plan.stay.last)
    more = plan.fed_more_before
    amounts = (
        w("visit.amounts_less", day=day, who=str(context.listed(more)))
        if more
        else w("visit.amounts", day=day)
    )
    for birth in plan.births:
        head = {"before": birth.head_before, "after": birth.head_after}
        amounts = f"{amounts} {w('visit.newborn', who=birth.name, **head)}"
        if visit.meal:
            amounts = (
                f"{amounts} {w('visit.newborn_feed' if birth.fed else 'visit.newborn_ask')}"
            )
    limit = next((one.limit_c for one in plan.numbers.values() if one.modifier), None)
    if limit is not None:
        amounts = f"{amounts} {w('visit.warm_night', limit=context.degrees(limit))}"
    return [first, amounts]


# --- the rows ------------------------------------------------------------------------------


def _table(context: Context, rows: list[Row]) -> Table:
    heads = tuple(context.w(f"visit.head.{key}") for key in ("what", "amount", "minutes"))
    return Table(heads, tuple(rows), kind="tasks wide tight", amounts=(2,))


def _expected(plan: Plan, visit: Visit, pen: str) -> Markup:
    """Return the numbers to expect at this hour, one for each sort of day, mildest first."""
    hour = math.floor(visit.hour) % HOURS_IN_DAY
    bands = [load.worst[pen][hour] for load in plan.loads.values() if pen in load.worst]
    return Markup(" ").join(
        Markup('<span class="band b{0}">{0}</span>').format(band) for band in bands
    )


def _pen(context: Context, plan: Plan, visit: Visit, pen: str) -> list[Row]:
    """Return the rows of a pen: see them, feed them, then the rest, then what a number asks."""
    tasks = visit.tasks[pen]
    rows = [_task(context, task) for task in tasks[:1]]
    rows += _meals(context, plan, visit, pen)
    rows += [_task(context, task) for task in tasks[1:]]
    return rows + [_task(context, task) for task in visit.asked.get(pen, ())]


def _meals(context: Context, plan: Plan, visit: Visit, pen: str) -> list[Row]:
    """Return a row for each group in a pen; the minutes are those of the pen, in the first."""
    hot = any(
        visit_card.too_hot_to_feed(load, pen, visit.hour, plan.meals)
        for load in plan.loads.values()
    )
    rows: list[Row] = []
    for meal in visit.meals:
        if meal.pen != pen:
            continue
        one = meal.fed
        what = _tick(context.w("visit.feed", who=one.group.animal.called))
        name = with_more(what, _feed_name(context, one))
        notes = list(_feed_notes(context, one))
        if meal.meal is not None and meal.meal.water is not None and not meal.soaked:
            notes.insert(0, context.w("visit.dry"))
        if meal.clear_after_h is not None:
            notes.insert(0, context.w("visit.cleared", after=context.span(meal.clear_after_h)))
        if hot and not _is_hay(one):
            notes.insert(0, _hold(context, one))
        minutes = "" if rows else pen_facts.minutes(visit.feed_min)
        rows.append((name, with_more(_amount(context, meal), " ".join(notes)), minutes))
        if meal.born is not None:
            rows.append(_born(context, meal, meal.born))
    return rows


def _born(context: Context, meal: PlanMeal, born: Meal) -> Row:
    """Return the row that takes the place of the one above it from the day after a birth."""
    soaked = born.water is not None and meal.soaked
    what = _tick(context.w("visit.born", who=meal.fed.group.animal.called))
    return what, feed_facts.meal_text(context, born, soaked=soaked), ""


def _feed_name(context: Context, one: GroupFeed) -> str:
    """Return the feed and its scoop; which feed is asked where nobody wrote it down.

    Beside hay no other feed is named, so that nobody scoops it out.
    """
    if _is_hay(one):
        return ""
    if one.feed is None:
        return context.w("visit.which_feed")
    return ", ".join(filter(None, (one.feed.name, one.feed.scoop)))


def _amount(context: Context, meal: PlanMeal) -> Rich | str:
    """Return what a group gets; where nobody wrote it down, to ask the owner."""
    if meal.meal is None:
        return context.w("visit.hay" if _is_hay(meal.fed) else "visit.ask")
    return feed_facts.meal_text(context, meal.meal, soaked=meal.soaked)


def _is_hay(one: GroupFeed) -> bool:
    """Return whether a group has hay alone on record, which is never taken away."""
    return one.morning is None and one.total is not None


def _hold(context: Context, one: GroupFeed) -> str:
    if visit_card.keeps_feed(one):
        return context.w("visit.hold_birds")
    return context.w("visit.hold", up_to=feed_up_to())


def _feed_notes(context: Context, one: GroupFeed) -> tuple[str, ...]:
    """Return what the owner's notes on a group say of its feed."""
    words = "|".join(context.words.many("visit.feed_words"))
    notes = one.group.animal.notes or ""
    said = (
        " ".join(part.split())
        for part in sentences(notes if notes.endswith(".") else f"{notes}.")
    )
    return tuple(part for part in said if re.search(rf"\b({words})\b", part, re.IGNORECASE))


def _task(context: Context, task: Task) -> Row:
    view = pen_facts.task_view(context, task)
    more = [context.w("visit.tub")] if task.hose else []
    if task.at_number:
        more.append(context.w("visit.from_number", number=task.at_number))
    if task.runs_min:
        more.append(context.w("visit.runs", minutes=context.span(task.runs_min / 60)))
    if task.key == DUSK:
        more.append(str(view.how))
    if task.key == EGGS:
        more.append(task.text)
    what = _tick(task.text if task.key == OWN else view.task)
    minutes = f"+{view.minutes}" if task.at_number else view.minutes
    return with_more(what, ", ".join(more)), view.amount, minutes


def _end(context: Context, visit: Visit) -> list[Row]:
    """Return what is done after the last pen, the walk, and all minutes together."""
    w = context.w
    rows: list[Row] = []
    for task in visit.last:
        minutes = pen_facts.minutes(task.minutes)
        if task.key == EGGS:
            rows.append((_tick(w("visit.eggs")), task.text, minutes))
        elif task.key == LEFTOVERS:
            pens = w("visit.pens", count=task.count)
            rows.append((_tick(w("visit.leftovers")), pens, minutes))
        elif task.key == CLOSE:
            runs = context.span(task.runs_min / 60)
            rows.append((_tick(w("visit.close", minutes=runs)), str(task.count), minutes))
        elif task.key == BOOTS:
            rows.append((_tick(w("visit.boots")), "", minutes))
        elif task.key == WALK:
            rows.append((w("visit.walk"), w("visit.pens", count=task.count), minutes))
    rows.append((w("visit.sum"), "", pen_facts.minutes(visit.work.amount.value)))
    more = sum(task.minutes for asked in visit.asked.values() for task in asked)
    if more:
        most = pen_facts.minutes(visit.work.amount.value + more)
        rows.append((w("visit.sum_more"), "", most))
    return rows


def _tick(words: str) -> Markup:
    return Markup('<span class="tick"></span> {}').format(words)
