"""Feed to lay in: for a number of days, by feed, against what is on hand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.entry import Argument, Entry, renamed
from binder.figures.feed.own_ration import is_hay, own_ration
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.finding import falls_short
from binder.science.ranges import require_not_negative
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

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


@dataclass(frozen=True, slots=True)
class _Part:
    """What one animal or group eats of a feed, for some of the days, as one line of the sum."""

    who: str
    count: int
    each_kg_day: float
    days: int
    sources: tuple[str, ...] = ()
    key: str = "head"

    @property
    def kg(self) -> float:
        return self.count * self.each_kg_day * self.days


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
    return _stock_figure([_Part("", count, ration_kg_day, days)], days, subject)


def stock(
    farm: Farm, herd: Herd, days: int, births: Mapping[str, tuple[int, Figure]]
) -> tuple[FeedStock, ...]:
    """Return what to lay in of each feed for so many days.

    Each head counts with the ration on the feed sheet of that day, so that the two agree: the
    last day of a stay, when growing animals eat most. Who may give birth meanwhile counts with
    the more that she gets from the day after the first day on which the young may come.

    Args:
        farm: the farm.
        herd: its herd on the last of the days.
        days: to cover [days].
        births: by name, the days with young at most [days], and the ration then [kg/day].
    """
    return tuple(_feed_stock(feed, herd, days, births) for feed in farm.equipment.feeds)


def _feed_stock(
    feed: Feed, herd: Herd, days: int, births: Mapping[str, tuple[int, Figure]]
) -> FeedStock:
    parts: list[_Part] = []
    unknown = []
    for group in herd.groups:
        if group.animal.feed != feed.id:
            continue
        called = group.animal.called
        own = None if is_hay(group) else own_ration(group, herd.on)
        if own is None:
            unknown.append(called)
            continue
        with_young, more = births.get(called, (0, own))
        if more.amount.value <= own.amount.value:
            with_young = 0
        before = days - with_young
        fed = ((before, own, "part"), (with_young, more, "young"))
        parts += [
            _Part(called, group.count, one.amount.value, lasts, one.sources, key)
            for lasts, one, key in fed
            if lasts
        ]
    if not parts:
        return FeedStock(feed, None, None, tuple(unknown))
    need = _stock_figure(parts, days, feed.id)
    short = None if feed.on_hand_kg is None else _short(feed.id, need, feed.on_hand_kg)
    return FeedStock(feed, need, short, tuple(unknown))


def _stock_figure(parts: Sequence[_Part], days: int, subject: str) -> Figure:
    working = [
        step(one.key, who=one.who, count=one.count, each=Amount(one.each_kg_day, "kg/day"),
             days=one.days, part=Amount(one.kg, "kg"))
        for one in parts
    ]  # fmt: skip
    need = Amount(sum(one.kg for one in parts), "kg")
    working.append(step("sum", need=need, days=days))
    sources = merge_sources(*(one.sources for one in parts))
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
