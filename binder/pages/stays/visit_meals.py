"""The meals on the card of a visit: who is fed what, and what goes for it."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.pages import pen_facts
from binder.pages.feed import feed_facts
from binder.pages.text.listing import sentences, with_more

if TYPE_CHECKING:
    from binder.figures.feed.farm_feed import GroupFeed, Meal
    from binder.figures.stays.plan import PlanMeal, Visit
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich, Text

    Row = tuple[Text, ...]


def rows(context: Context, visit: Visit, pen: str) -> list[Row]:
    """Return a row for each group in a pen; the minutes are those of the pen, in the first."""
    found: list[Row] = []
    for meal in visit.meals:
        if meal.pen != pen:
            continue
        one = meal.fed
        what = tick(context.w("visit.feed", who=one.group.animal.called))
        name = with_more(what, _feed_name(context, one))
        notes = " ".join(_feed_notes(context, one))
        minutes = "" if found else pen_facts.minutes(visit.feed_min)
        found.append((name, with_more(_amount(context, meal), notes), minutes))
        if meal.born is not None:
            found.append(_born(context, meal, meal.born))
    return found


def _born(context: Context, meal: PlanMeal, born: Meal) -> Row:
    """Return the row that takes the place of the one above it from the day after a birth."""
    what = tick(context.w("visit.born", who=meal.fed.group.animal.called))
    return what, feed_facts.meal_text(context, _without_bucket(born)), ""


def _feed_name(context: Context, one: GroupFeed) -> str:
    """Return the feed and its scoop; which feed is asked where nobody wrote it down.

    Beside hay no other feed is named, so that nobody scoops it out.
    """
    if is_hay(one):
        return ""
    if one.feed is None:
        return context.w("visit.which_feed")
    return ", ".join(filter(None, (one.feed.name, one.feed.scoop)))


def _amount(context: Context, meal: PlanMeal) -> Rich | str:
    """Return what a group gets; where nobody wrote it down, to ask the owner."""
    if meal.meal is None:
        return context.w("visit.hay" if is_hay(meal.fed) else "visit.ask")
    return feed_facts.meal_text(context, _without_bucket(meal.meal))


def _without_bucket(meal: Meal) -> Meal:
    """Return a meal without its bucket where all of it fits: then there is nothing to mind."""
    if meal.batches is not None and str(meal.batches.value) == "1":
        return replace(meal, batches=None)
    return meal


def is_hay(one: GroupFeed) -> bool:
    """Return whether a group has hay alone on record, which is never taken away."""
    return one.morning is None and one.total is not None


def _feed_notes(context: Context, one: GroupFeed) -> tuple[str, ...]:
    """Return what the owner's notes on a group say of its feed."""
    words = "|".join(context.words.many("visit.feed_words"))
    notes = one.group.animal.notes or ""
    said = (
        " ".join(part.split())
        for part in sentences(notes if notes.endswith(".") else f"{notes}.")
    )
    return tuple(part for part in said if re.search(rf"\b({words})\b", part, re.IGNORECASE))


def tick(words: str) -> Markup:
    """Return a box to tick before what is to be done."""
    return Markup('<span class="tick"></span> {}').format(words)
