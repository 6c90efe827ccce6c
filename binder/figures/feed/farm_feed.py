"""Feed for the farm: what each group gets in the farm's own scoop and bucket, the stock."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from binder.figures.feed import feed_stock, meal
from binder.figures.feed import ration as rations
from binder.figures.feed.feed_stock import FeedStock, stock
from binder.figures.feed.own_ration import is_hay, own_ration
from binder.figures.figure import Figure, step
from binder.figures.finding import Finding, finding
from binder.figures.rules import rule
from binder.units import Amount

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from binder.farm.model import Bucket, Farm, Feed
    from binder.figures.entry import Entry
    from binder.figures.herd.groups import Group, Herd

AREA = "feed"
MORNING, EVENING = "morning", "evening"
NO_BIRTHS: Mapping[str, tuple[int, Figure]] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Meal:
    """One feeding of one group.

    Attributes:
        feed: dry feed for the whole group [kg], figure `meal`.
        scoops: the same in the feed's own scoop, as text; None where the scoop is not recorded.
        water: water to soak it [L], figure `soak`; None where it is fed dry.
        batches: how many times `bucket` is filled to soak it all, figure `soak-batches`; None
            where it is fed dry or no bucket is recorded.
        bucket: the farm's bucket it is soaked in.
        late: whether it is fed dry and late, and may lie all night.
        uncleared: whether it would be soaked, but is given dry as nobody clears it in time.
    """

    feed: Figure
    scoops: Figure | None
    water: Figure | None
    batches: Figure | None
    bucket: Bucket | None
    late: bool = False
    uncleared: bool = False


@dataclass(frozen=True, slots=True)
class GroupFeed:
    """What one group is fed.

    Attributes:
        group: the group on that date.
        feed: the feed the owner named for it; None where not recorded.
        ration: for one head a day [kg/day]; the owner's own, else published, else None.
        total: for the group a day [kg/day]; None with the ration.
        morning, evening: the two meals; `evening` None where a hopper is filled once a day,
            both None where no ration is known, or where it is hay in all.
        treats: the most treats a day for the group [kg/day]; None with the meals.
        energy: a dog's energy at rest [kcal]; None for others and where its weight is unknown.
    """

    group: Group
    feed: Feed | None
    ration: Figure | None
    total: Figure | None
    morning: Meal | None
    evening: Meal | None
    treats: Figure | None
    energy: Figure | None


@dataclass(frozen=True, slots=True)
class FarmFeed:
    """Everything about feed on the farm, on one date.

    Attributes:
        groups: in the order of animals.yaml; a piglet still with its mother is left out.
        stock: for each feed of equipment.yaml; empty where no days were given.
        findings: what is missing, `feed-findings` in the words.
    """

    groups: tuple[GroupFeed, ...]
    stock: tuple[FeedStock, ...]
    findings: tuple[Finding, ...]

    def in_pen(self, pen_id: str) -> tuple[GroupFeed, ...]:
        """Return the groups fed in a pen."""
        return tuple(each for each in self.groups if each.group.pen == pen_id)


def for_farm(
    farm: Farm,
    herd: Herd,
    days: int | None = None,
    births: Mapping[str, tuple[int, Figure]] = NO_BIRTHS,
) -> FarmFeed:
    """Return the feed of `farm` for the herd of one date.

    Args:
        farm: the checked farm.
        herd: its herd on that date; for stock the last day of a stay, when young pigs eat most.
        days: days to lay in stock for [days]; None leaves the stock out.
        births: of `feed_stock.stock`, who may give birth in those days.
    """
    groups = tuple(_group_feed(farm, group, herd.on) for group in herd.groups)
    stocks = stock(farm, herd, days, births) if days is not None else ()
    return FarmFeed(groups, stocks, _findings(groups, stocks))


def _group_feed(farm: Farm, group: Group, on: dt.date) -> GroupFeed:
    animal = group.animal
    feed = next((each for each in farm.equipment.feeds if each.id == animal.feed), None)
    energy = None
    if animal.species == "dog" and rations.is_dog_weight(group.weight_kg):
        energy = rations.dog_energy(group.weight_kg, animal.called)
    each = own_ration(group, on)
    if each is None:
        return GroupFeed(group, feed, None, None, None, None, None, energy)
    if is_hay(group):
        return GroupFeed(group, feed, each, _total(group, each), None, None, None, energy)
    morning, evening = _meals(farm, group, feed, each)
    return GroupFeed(
        group=group,
        feed=feed,
        ration=each,
        total=_total(group, each),
        morning=morning,
        evening=evening,
        treats=rations.treats_cap(each.amount.value, group.count, animal.called),
        energy=energy,
    )


def _total(group: Group, each: Figure) -> Figure:
    total = Amount(each.amount.value * group.count, "kg/day")
    working = (step("head", count=group.count, each=each.amount, total=total),)
    return Figure("group-ration", total, working, each.sources, subject=group.animal.called)


def _meals(
    farm: Farm, group: Group, feed: Feed | None, each: Figure
) -> tuple[Meal, Meal | None]:
    daily_kg = each.amount.value * group.count
    if rations.meals_a_day(group.cls) == 1:
        return _meal(farm, group, feed, MORNING, daily_kg, 100.0), None
    share = rule(meal.RULES, "morning share", "share").value
    return (
        _meal(farm, group, feed, MORNING, daily_kg, share),
        _meal(farm, group, feed, EVENING, daily_kg, 100.0 - share),
    )


def _meal(
    farm: Farm, group: Group, feed: Feed | None, when: str, daily_kg: float, share_pct: float
) -> Meal:
    subject = f"{group.animal.called}, {when}"
    dry_kg = daily_kg * share_pct / 100
    working = (
        step("share", daily=Amount(daily_kg, "kg/day"), share=Amount(share_pct, "%"),
             meal=Amount(dry_kg, "kg")),
    )  # fmt: skip
    sources = rule(meal.RULES, "morning share", "share").sources
    dry = Figure("meal", Amount(dry_kg, "kg"), working, sources, subject=subject)
    scoops = None
    if feed is not None and feed.scoop_holds_kg is not None:
        scoops = meal.scoops(dry_kg, feed.scoop_holds_kg, subject)
    water = batches = bucket = None
    late = when == EVENING and rations.is_late_and_dry(group.cls)
    if group.animal.soak_ratio and not late:
        water = meal.soak(dry_kg, group.animal.soak_ratio, subject)
        room_l = meal.soaked_room_l(dry_kg, water.amount.value)
        bucket = _bucket(farm.equipment.buckets, room_l)
        if bucket is not None:
            batches = meal.soak_batches(dry_kg, water.amount.value, bucket.holds_l, subject)
    return Meal(dry, scoops, water, batches, bucket, late)


def _bucket(buckets: Sequence[Bucket], room_l: float) -> Bucket | None:
    """Return the smallest bucket that holds feed and water in one go, else the largest."""
    by_size = sorted(buckets, key=lambda bucket: bucket.holds_l)
    fitting = [bucket for bucket in by_size if bucket.holds_l >= room_l]
    if fitting:
        return fitting[0]
    return by_size[-1] if by_size else None


def _findings(groups: Sequence[GroupFeed], stocks: Sequence[FeedStock]) -> tuple[Finding, ...]:
    found = [_about_group(each) for each in groups]
    found += [about for item in stocks for about in _about_stock(item)]
    return tuple(each for each in found if each is not None)


def _about_group(each: GroupFeed) -> Finding | None:
    called = each.group.animal.called
    if each.ration is None:
        return finding(AREA, "no-ration", called, who=called)
    if each.morning is None:
        return finding(AREA, "hay-only", called, each.ration, who=called)
    if each.feed is not None and each.feed.scoop_holds_kg is None:
        return finding(AREA, "no-scoop", called, who=called, feed=each.feed.name)
    return None


def _about_stock(item: FeedStock) -> list[Finding]:
    feed, found = item.feed, []
    if item.unknown:
        who = ", ".join(item.unknown)
        found.append(finding(AREA, "stock-unknown", feed.id, feed=feed.name, who=who))
    if item.need is None:
        return found
    need = item.need.amount
    if item.short is None:
        found.append(
            finding(AREA, "not-counted", feed.id, item.need, feed=feed.name, need=need)
        )
    elif item.short.amount.value > 0:
        short = item.short.amount
        found.append(
            finding(
                AREA,
                "short",
                feed.id,
                item.need,
                item.short,
                feed=feed.name,
                need=need,
                short=short,
            )
        )
    return found


ENTRIES: tuple[Entry, ...] = (*rations.ENTRIES, *meal.ENTRIES, *feed_stock.ENTRIES)
