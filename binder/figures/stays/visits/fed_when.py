"""When feed is held back in the heat, and who is fed more earlier in a stay (step 3)."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.bands.band_charts import chart_of
from binder.figures.day.feeding_hours import feed_up_to
from binder.figures.feed import farm_feed
from binder.figures.herd import groups as herds
from binder.figures.noise import NOISE
from binder.figures.rounds.visits import slack_h
from binder.figures.stays.basis import BIRDS

if TYPE_CHECKING:
    from binder.farm.model import Farm
    from binder.figures.day.feeding_hours import Meals
    from binder.figures.feed.farm_feed import GroupFeed
    from binder.figures.stays.basis import Basis
    from binder.figures.stays.plan import Plan
    from binder.figures.stays.stay_load import StayLoad


def keeps_feed(one: GroupFeed) -> bool:
    """Return whether feed is never held back from a group, however hot: birds."""
    return chart_of(one.group.cls) == BIRDS


def too_hot_to_feed(load: StayLoad, pen: str, hour: float, meals: Meals | None) -> bool:
    """Return whether it is too hot in a pen for a meal at an hour of a day of that load.

    From the time of the evening meal to sunrise it never is: that meal is not skipped.
    """
    if load.day is None or pen not in load.worst:
        return False
    evening_h = meals.evening_from_h - slack_h() if meals else load.day.sunset_h
    if not load.day.sunrise_h <= hour < min(evening_h, load.day.sunset_h):
        return False
    return load.worst[pen][math.floor(hour) % HOURS_IN_DAY] > feed_up_to()


def sunset_h(plan: Plan) -> float | None:
    """Return the latest sunset of a stay [h], None where the farm has no position."""
    found = [day.sunset_h for day in plan.days if day.sunset_h is not None]
    return max(found) if found else None


def fed_more_before(basis: Basis) -> tuple[str, ...]:
    """Return who is fed more earlier in a stay than on its last day, in herd order.

    Looked at on the first day and on each day that changes a class.
    """
    farm: Farm = basis.farm
    last = {
        one.group.animal.called: one.total.amount.value
        for one in basis.feed.groups
        if one.total is not None
    }
    found: dict[str, None] = {}
    for day in basis.days[:-1]:
        if day is basis.days[0] or day.changes:
            for one in farm_feed.for_farm(farm, herds.for_farm(farm, day.on)).groups:
                name = one.group.animal.called
                if one.total and one.total.amount.value > last.get(name, math.inf) * (
                    1 + NOISE
                ):
                    found[name] = None
    return tuple(found)
