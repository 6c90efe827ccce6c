"""What a group is fed as a plan's visits give it: dry where nobody clears it in time."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from binder.figures.stays.visits.clearing import given_at
from binder.figures.stays.visits.visit_rest import EVENING, MORNING

if TYPE_CHECKING:
    from binder.figures.feed.farm_feed import FarmFeed, GroupFeed, Meal
    from binder.figures.stays.plan import Plan


def farm_given(plan: Plan, feed: FarmFeed) -> FarmFeed:
    """Return the feed of a farm as a plan's visits give it."""
    return replace(feed, groups=tuple(given(plan, one) for one in feed.groups))


def given(plan: Plan, one: GroupFeed) -> GroupFeed:
    """Return what one group is fed as a plan's visits give it."""
    at = {visit.meal: visit.hour for visit in plan.visits if visit.meal}

    def out(name: str, meal: Meal | None) -> Meal | None:
        return given_at(plan.basis, at[name], meal) if name in at else meal

    return replace(one, morning=out(MORNING, one.morning), evening=out(EVENING, one.evening))
