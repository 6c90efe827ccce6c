"""Soaked feed lies for an hour at most: who clears it, and where on a round they turn back."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures.noise import TRACE
from binder.figures.rounds.visits import RULES
from binder.figures.rules import rule

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from binder.figures.feed.farm_feed import Meal
    from binder.figures.stays.basis import Basis
    from binder.figures.stays.plan import Fit

Reached = tuple[dict[str, float], dict[str, float], float]  # come to, left [min]; round done


def given_at(basis: Basis, hour: float, meal: Meal | None) -> Meal | None:
    """Return a meal as it goes out at an hour: dry where nobody clears it in time."""
    if meal is None or meal.water is None or clears(basis, hour):
        return meal
    return replace(meal, water=None, batches=None, uncleared=True)


def clear_within_h() -> float:
    """Return how soon what is left of soaked feed is cleared [h]: our choice."""
    return rule(RULES, "leftovers cleared within", "time").value


def clears(basis: Basis, hour: float) -> bool:
    """Return whether somebody is there to clear what is left of a meal in time.

    Who stays long enough at that visit, or comes again within that time; minutes that nobody
    wrote down are taken to be enough.
    """
    have, most_h = basis.stay.minutes, clear_within_h()
    if have is None or have >= most_h * MINUTES_IN_HOUR:
        return True
    return any(gap.start_h == hour and gap.hours <= most_h + TRACE for gap in basis.gaps)


def turned_back(
    by_pen: Mapping[str, float],
    soaked: Sequence[str],
    fits: Mapping[str, Fit],
    walk_min: float,
    within_min: float,
) -> dict[str, tuple[str, ...]]:
    """Return, by the pen after which one turns back, the pens whose feed is then cleared.

    What is left where the round ends in time is cleared at its end, and stands in no value.

    Args:
        by_pen: minutes at each pen, as walked [min].
        soaked: pens fed soaked feed, in walking order.
        fits: by sort of day, the parts in which the visit is done.
        walk_min: from one pen to the next [min].
        within_min: how long soaked feed may lie [min].
    """
    ways = list(_ways(by_pen, fits, walk_min))
    order = list(by_pen)
    found: dict[str, tuple[str, ...]] = {}
    for pen in soaked:
        if all(done + walk_min <= come[pen] + within_min for come, _, done in ways):
            continue
        later = order[order.index(pen) :]
        in_time = [
            at
            for at in later
            if all(left[at] + walk_min <= come[pen] + within_min for come, left, _ in ways)
        ]
        last = in_time[-1] if in_time else pen
        open_turn = next(
            (at for at in found if order.index(pen) <= order.index(at) <= order.index(last)), ""
        )
        at = open_turn or last
        found[at] = (*found.get(at, ()), pen)
    return found


def _ways(
    by_pen: Mapping[str, float], fits: Mapping[str, Fit], walk_min: float
) -> Iterator[Reached]:
    """Yield when each pen is come to and left, without rests and on each sort of day [min]."""
    yield _reached([(0.0, tuple(by_pen))], by_pen, walk_min)
    for fit in fits.values():
        parts = [
            ((part.start_h - fit.start_h) * MINUTES_IN_HOUR, part.pens) for part in fit.parts
        ]
        yield _reached(parts, by_pen, walk_min)


def _reached(
    parts: Sequence[tuple[float, tuple[str, ...]]],
    by_pen: Mapping[str, float],
    walk_min: float,
) -> Reached:
    come: dict[str, float] = {}
    left: dict[str, float] = {}
    now = 0.0
    for start, pens in parts:
        now = max(now, start)
        for pen in pens:
            now += walk_min
            come[pen] = now
            now += by_pen[pen]
            left[pen] = now
    return come, left, now
