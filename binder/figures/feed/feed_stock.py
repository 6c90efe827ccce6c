"""Feed to lay in: for a number of days, by feed, against what is on hand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.entry import Argument, Entry, renamed
from binder.figures.feed import ration as rations
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.finding import falls_short
from binder.science.ranges import require_not_negative
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.farm.model import Farm, Feed
    from binder.figures.herd.groups import Herd


@dataclass(frozen=True, slots=True)
class FeedStock:
    """What to lay in of one feed.

    Attributes:
        feed: as the owner wrote it.
        need: for the days asked about [kg], of those whose ration is known; None where no
            group's is.
        short: what is missing of it [kg], 0 where there is enough; None where the amount on
            hand is not recorded.
        unknown: groups that eat it whose ration nobody knows.
    """

    feed: Feed
    need: Figure | None
    short: Figure | None
    unknown: tuple[str, ...] = ()


def feed_stock(ration_kg_day: float, count: int, days: int, subject: str = "") -> Figure:
    """Return the feed to have for so many head and days [kg].

    Args:
        ration_kg_day: of one head [kg/day], 0 or more.
        count: head.
        days: to cover [days].
        subject: the feed.

    References:
        Arithmetic.
    """
    require_not_negative(ration_kg_day, "ration", "kg/day")
    return _stock_figure([("", count, ration_kg_day, ())], days, subject)


def stock(farm: Farm, herd: Herd, days: int) -> tuple[FeedStock, ...]:
    """Return what to lay in of each feed for so many days.

    Each head counts with the ration on the feed sheet of that day, so that the two agree: the
    last day of a stay, when growing animals eat most.
    """
    return tuple(_feed_stock(feed, herd, days) for feed in farm.equipment.feeds)


def _feed_stock(feed: Feed, herd: Herd, days: int) -> FeedStock:
    parts: list[tuple[str, int, float, tuple[str, ...]]] = []
    unknown = []
    for group in herd.groups:
        if group.animal.feed != feed.id:
            continue
        own = None if rations.is_hay(group) else rations.own_ration(group, herd.on)
        if own is None:
            unknown.append(group.animal.called)
        else:
            parts.append((group.animal.called, group.count, own.amount.value, own.sources))
    if not parts:
        return FeedStock(feed, None, None, tuple(unknown))
    need = _stock_figure(parts, days, feed.id)
    short = None if feed.on_hand_kg is None else _short(feed.id, need, feed.on_hand_kg)
    return FeedStock(feed, need, short, tuple(unknown))


def _stock_figure(
    parts: Sequence[tuple[str, int, float, tuple[str, ...]]], days: int, subject: str
) -> Figure:
    working = []
    for who, count, each_kg_day, _ in parts:
        part = Amount(count * each_kg_day * days, "kg")
        working.append(
            step("part" if who else "head", who=who, count=count,
                 each=Amount(each_kg_day, "kg/day"), days=days, part=part)
        )  # fmt: skip
    need = Amount(sum(count * each * days for _, count, each, _ in parts), "kg")
    working.append(step("sum", need=need, days=days))
    sources = merge_sources(*(sources for *_, sources in parts))
    return Figure("feed-stock", need, tuple(working), sources, ("last-day",), subject)


def _short(feed_id: str, need: Figure, on_hand_kg: float) -> Figure:
    on_hand = Amount(on_hand_kg, "kg")
    missing = need.amount.value - on_hand_kg if falls_short(on_hand, need.amount) else 0.0
    short = Amount(missing, "kg")
    working = (step("short", need=need.amount, on_hand=on_hand, short=short),)
    return Figure("feed-short", short, working, need.sources, subject=feed_id)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "feed-stock",
        (Argument("ration", "gain"), Argument("count", "whole"), Argument("days", "whole")),
        renamed(feed_stock, ration="ration_kg_day"),
    ),
)
