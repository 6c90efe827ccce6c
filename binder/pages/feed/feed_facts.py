"""What every group is fed, as views."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.stays.visits.clearing import clear_within_h
from binder.figures.stays.visits.meals_given import given
from binder.pages.text.listing import lower_first
from binder.pages.text.rich import Rich, joined, rich
from binder.pages.views import FeedView
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.feed.farm_feed import GroupFeed, Meal
    from binder.figures.figure import Figure
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.text.rich import Text

_UP_TO_ONE = frozenset({"1/4", "1/2", "3/4", "1"})


def feeds(context: Context) -> tuple[FeedView, ...]:
    """Return what every group is fed, in herd order."""
    return tuple(feed_view(context, one) for one in context.figures.feed.groups)


def after_birth(context: Context, plan: Plan) -> Mapping[str, FeedView]:
    """Return, by the mother's name, what she is fed from the day after a birth in a plan."""
    return {
        one.name: feed_view(context, given(plan, one.fed)) for one in plan.births if one.fed
    }


def feed_view(context: Context, one: GroupFeed) -> FeedView:
    """Return what one group is fed on one day."""
    name = one.feed.name if one.feed else context.w("feed.unnamed")
    morning, evening = _meals(context, one)
    return FeedView(
        pen=next((pen.name for pen in context.farm.pens if pen.id == one.group.pen), ""),
        group=one.group.animal.called,
        feed=one.feed.name if one.feed else context.missing,
        scoop=context.or_missing(one.feed.scoop if one.feed else None),
        each=_each(context, one, name),
        morning=morning,
        evening=evening,
        meal=_both_meals(context, morning, evening),
        when=_when(context, one, same=str(morning) == str(evening)),
        water=context.number_both(one.morning.water) if one.morning else context.missing,
        line=_line(context, one, name),
    )


def _both_meals(context: Context, morning: Text, evening: Text) -> Text:
    """Return a meal that is the same twice or given once; else both, with their times."""
    if isinstance(evening, str) or str(morning) == str(evening):
        return morning
    return context.say("feed.two_meals", morning=morning, evening=evening)


def _when(context: Context, one: GroupFeed, *, same: bool) -> str:
    if one.morning is None:
        return context.w("feed.always") if one.total is not None else context.missing
    if one.evening is None:
        return context.w("feed.when.morning")
    return context.w("feed.when.both" if same else "feed.when.two")


def _each(context: Context, one: GroupFeed, feed: str) -> Text:
    """Return what a day takes; a plain text, and no number, where no meal is known."""
    if one.morning is None or one.total is None:
        return _no_meal(context, one)
    return context.say("feed.amount", amount=rich(context.number_both(one.total)), feed=feed)


def _no_meal(context: Context, one: GroupFeed) -> str:
    return context.w("feed.hay") if one.total is not None else context.missing


def _meals(context: Context, one: GroupFeed) -> tuple[Text, Text]:
    """Return both meals; where no ration is known, none is made up."""
    if one.morning is None:
        same = _no_meal(context, one)
        return same, same
    evening = meal_text(context, one.evening) if one.evening else context.w("feed.none")
    return meal_text(context, one.morning), evening


def _line(context: Context, one: GroupFeed, feed: str) -> Text:
    """Return `Marigold: 2 1/4 scoops of Sow pellets, morning and evening`."""
    who = one.group.animal.called
    if one.morning is None:
        if one.feed is None:
            return context.w("feed.line.nothing", who=who)
        key = "hay" if one.total is not None else "unknown"
        return context.w(f"feed.line.{key}", who=who, feed=feed)
    amount = _amount(context, one.morning, feed)
    if one.evening is None:
        return context.say("feed.line.once", who=who, amount=amount)
    if str(amount) == str(_amount(context, one.evening, feed)):
        return context.say("feed.line.twice", who=who, amount=amount)
    later = _amount(context, one.evening, feed)
    return context.say("feed.line.both", who=who, amount=amount, later=later)


def _amount(context: Context, meal: Meal, feed: str) -> Rich:
    said = scoops(context, meal.scoops) if meal.scoops else rich(context.number(meal.feed))
    line = context.say("feed.amount", amount=said, feed=feed)
    return rich(line, _how(context, meal))


def scoops(context: Context, count: Figure) -> Rich:
    """Return `3/4 scoop` or `2 1/4 scoops`."""
    key = "one" if str(count.value) in _UP_TO_ONE else "many"
    return rich(context.number(count), " ", context.w(f"feed.scoops.{key}"))


def meal_text(context: Context, meal: Meal) -> Rich:
    """Return `6.5 lb = 2 1/4 scoops, soaked in 0.78 gal of water`."""
    weight = rich(context.number(meal.feed))
    if meal.scoops is None:
        return rich(weight, _how(context, meal))
    return rich(weight, " = ", scoops(context, meal.scoops), _how(context, meal))


def how_given(meal: Meal) -> str:
    """Return `soaked`, `dry` where that is said and why, or nothing: the key of its words."""
    if meal.water is not None:
        return "soaked"
    return "dry" if meal.late or meal.uncleared else ""


def soaked_lines(context: Context) -> tuple[str, ...]:
    """Return the one rule for soaked feed, how soft it must be, and what to do when it is not.

    Empty where nobody soaks feed.
    """
    soaked = [
        one
        for one in context.figures.feed.groups
        if any(
            meal is not None and meal.water is not None for meal in (one.morning, one.evening)
        )
    ]
    if not soaked:
        return ()
    times = {
        one.feed.name: context.span(one.feed.soaks_in_h)
        for one in soaked
        if one.feed is not None and one.feed.soaks_in_h is not None
    }
    said = (context.w("feed.soft_time", feed=feed, time=time) for feed, time in times.items())
    soft = (
        context.w("feed.soft_here", times="; ".join(said)) if times else context.w("feed.soft")
    )
    return (
        context.w("feed.soaked_rule", after=context.span(clear_within_h())),
        f"{soft} {context.w('feed.soft_wait')}",
        context.w("feed.soaked_reach"),
    )


def rules(context: Context, plan: Plan | None = None) -> tuple[Text, ...]:
    """Return what always holds of feed, the rule for soaked feed first where any is soaked.

    Args:
        context: of the binder or the pack.
        plan: of the stay whose feed is told: what there is and what its days take.
    """
    known = all(
        one.morning is not None or one.total is not None for one in context.figures.feed.groups
    )
    asked = () if known else (context.w("feed.not_recorded"),)
    return (
        *soaked_lines(context),
        *context.words.many("feed.points"),
        *_stands(context, plan),
        *asked,
    )


def _stands(context: Context, plan: Plan | None) -> tuple[Text, ...]:
    """Return where each feed that is given stands; for a stay, also how much there is."""
    if plan is not None and any(one.need for one in plan.feed.stock):
        return (_stock(context, plan),)
    kept = {
        one.feed.name: lower_first(one.feed.kept)
        for one in context.figures.feed.groups
        if one.feed is not None and one.feed.kept and one.morning is not None
    }
    if not kept:
        return ()
    places = (
        context.w("feed.stands_at", feed=feed, place=place) for feed, place in kept.items()
    )
    return (context.w("feed.stands", places="; ".join(places)),)


def _stock(context: Context, plan: Plan) -> Rich:
    """Return, of each feed, where it stands, how much was there and how much is eaten."""
    said = []
    for one in plan.feed.stock:
        if one.need is None:
            continue
        there = one.feed.on_hand_kg
        said.append(
            context.say(
                "feed.stock.there" if there is not None else "feed.stock.unknown",
                feed=one.feed.name,
                place=lower_first(one.feed.kept or context.w("feed.stock.no_place")),
                there=context.show(Amount(there or 0.0, "kg")),
                need=rich(context.number(one.need)),
            )
        )
    days = len(plan.days)
    return context.say("feed.stock.all", n=days, feeds=joined(said, "; "))


def _batched(batches: int, have: int) -> str:
    """Return the key of the words: how many buckets a meal takes, of those there are."""
    if batches == 1:
        return "one_of" if have > 1 else "one"
    if batches > have:
        return "many"
    return "each" if batches == len(("one", "the other")) else "each_of"


def _how(context: Context, meal: Meal) -> Rich:
    """Return how a meal is given: soaked in so much water, dry and why, or nothing to say."""
    if meal.uncleared:
        return rich(context.w("feed.uncleared"))
    if meal.water is None:
        return rich(context.w("feed.late")) if meal.late else rich()
    line = context.say("feed.soaked_in", water=rich(context.number_both(meal.water)))
    if meal.batches is None or meal.bucket is None:
        return line
    batches = int(str(meal.batches.value))
    key = _batched(batches, meal.bucket.count)
    bucket = context.say(
        f"feed.bucket.{key}",
        n=rich(context.number(meal.batches)),
        bucket=lower_first(meal.bucket.name),
        have=meal.bucket.count,
    )
    return rich(line, " ", bucket)
