"""The feed sheet: what goes in which scoop and bucket, and when."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.published import rests_on
from binder.figures.rounds.visits import is_late
from binder.pages import facts
from binder.pages.claims import stated
from binder.pages.feed import feed_facts
from binder.pages.sheet import Block, Heading, Paragraph, Points, Sheet, Table
from binder.pages.text.listing import with_more
from binder.pages.text.rich import rich

if TYPE_CHECKING:
    from binder.figures.stays.plan import Plan
    from binder.pages.claims.claim import Claim
    from binder.pages.context import Context
    from binder.pages.text.rich import Text


def today(context: Context) -> Sheet:
    """Return the rations in scoops, the feeding times of the hot day, and what is missing."""
    w = context.w
    rows = tuple(
        (
            with_more(view.group, view.pen),
            with_more(view.feed, view.scoop if view.scoop != view.feed else ""),
            view.meal,
            view.when,
        )
        for view in feed_facts.feeds(context)
    )
    heads = tuple(w(f"feed.head.{key}") for key in ("who", "feed", "meal", "when"))
    blocks: list[Block] = [Table(heads, rows, kind="facts tight feeds")]
    if context.figures.stays and facts.inside_stay(context) is None:
        note = w("feed.stay_note", day=context.short_day(context.figures.on))
        blocks.append(Paragraph(note, small=True))
    times = _times(context)
    if len(times) > 1:
        plans = (None, *context.figures.stays.values())
        claims = tuple(one for plan in plans for one in _claims(context, plan))
        heads = tuple(w(f"feed.time_head.{key}") for key in ("day", "morning", "evening"))
        blocks += [Heading(w("feed.times")), Table(heads, times, claims=claims)]
    blocks += [Heading(w("feed.rules")), Points(feed_facts.rules(context))]
    sources = dict.fromkeys(
        source
        for one in context.figures.feed.groups
        if one.ration
        for source in one.ration.sources
    )
    return Sheet(
        title=w("feed.title"),
        answer=_answers(context),
        blocks=tuple(blocks),
        summary=w("feed.summary"),
        sources=(*sources, *rests_on("feed-today")),
        words=w("found_by.feed"),
        claims=_claims(context, None),
    )


def _claims(context: Context, plan: Plan | None) -> tuple[Claim, ...]:
    """Return the feeding times of a stay, or of the binder's own day, that are printed."""
    if plan is None:
        if facts.inside_stay(context) is not None:
            return ()
        meals = context.figures.day.meals
        return stated.feeding(context, meals, stated.hot_day(None, context.figures.on))
    found = stated.feeding(context, plan.meals, stated.hot_day(plan, context.figures.on))
    return tuple(
        one for one in found if one.value in " ".join(map(str, _at_visits(context, plan)))
    )


def _answer(context: Context) -> str:
    if context.figures.day.meals is None:
        return context.w("feed.answer_unknown")
    when = facts.meals(context)
    plan = facts.inside_stay(context)
    if plan is not None and plan.visits:
        return when.when
    return context.w("feed.answer", morning=when.morning_by, evening=when.evening_from)


def _at_visits(context: Context, plan: Plan) -> tuple[Text, Text]:
    """Return when a stay's meals go out: at its visits, in the hours of the hot day."""
    assert plan.meals is not None  # noqa: S101 -- asked of stays whose hours are known
    by, start = context.time_of(plan.meals.morning), context.time_of(plan.meals.evening)
    fed = [visit for visit in plan.visits if visit.meal]
    if not fed:
        return by, start
    first, last = fed[0], fed[-1]
    at = context.w("feed.at_visit", clock=context.clock(first.hour))
    return (
        at if is_late(first.hour, plan.meals.morning_by_h) else by,
        context.say(
            "feed.from_visit",
            from_clock=rich(start),
            clock=context.clock(last.hour),
        ),
    )


def _answers(context: Context) -> tuple[str, ...]:
    """Return the feeding times, and inside a stay of which day the amounts are."""
    plan = facts.inside_stay(context)
    if plan is None:
        return (_answer(context),)
    day = context.short_day(plan.stay.last)
    return _answer(context), context.w("feed.answer_stay", day=day)


def _times(context: Context) -> tuple[tuple[Text, ...], ...]:
    """Return the feeding times of the binder's day and of each stay, as the cards give them."""
    rows: list[tuple[Text, ...]] = []
    own = context.figures.day.meals
    if own is not None and facts.inside_stay(context) is None:  # else its own row says it
        day = context.short_day(context.figures.on)
        rows.append((day, context.time_of(own.morning), context.time_of(own.evening)))
    for plan in context.figures.stays.values():
        days = context.w(
            "feed.stay_days",
            first=context.short_day(plan.stay.first),
            last=context.short_day(plan.stay.last),
        )
        if plan.meals is not None:
            rows.append((days, *_at_visits(context, plan)))
    return tuple(rows)
