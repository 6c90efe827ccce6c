"""What every group is fed, as views."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages.rich import rich
from binder.pages.views import FeedView

if TYPE_CHECKING:
    from binder.figures.feed import GroupFeed, Meal
    from binder.pages.context import Context
    from binder.pages.rich import Rich

    Text = str | Rich


def feeds(context: Context) -> tuple[FeedView, ...]:
    """Return what every group is fed, in herd order."""
    return tuple(feed_view(context, one) for one in context.figures.feed.groups)


def feed_view(context: Context, one: GroupFeed) -> FeedView:
    """Return what one group is fed on one day."""
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
