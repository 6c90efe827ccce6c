"""The fewest short looks under which no pen is overdue on a day (step 3).

How it is solved. The times of a day are few: each candidate of `look_rules.csv` between two
fixed visits. A look sees every pen that needs it, so the strictest pen of each hour decides,
and a chain of times holds if no two neighbors leave a pen overdue between them. The cheapest
chain is a shortest path over the candidates, found exactly by a dynamic programme over all
pairs of them: cheapest in looks at a time when nobody can come, then in looks, then in looks of
a helper, then in looks off the full hour (a full hour is kept in mind), then in the squares of
the gaps (so that they lie evenly). Looks are then given to
people in the order of the day, each no more than asked of one person; the sitter first, then
helpers. Which pens a look passes: those that would be overdue before the next look or visit.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.noise import TRACE
from binder.figures.rounds.visits import Gap, overdue_h, strictest
from binder.figures.rules import rule

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    Cost = tuple[float, int, int, int, float]
    Chain = tuple[Cost, tuple[float, ...]]

RULES = "look_rules"
SITTER, HELPER, NOBODY = "sitter", "helper", ""


@dataclass(frozen=True, slots=True)
class Look:
    """A short look: past the pens that need one.

    Attributes:
        hour: when [h since midnight]; above 24 on the next day.
        pens: ids of the pens it passes.
        by: `sitter`, the name of a helper, or empty where nobody can come.
    """

    hour: float
    pens: tuple[str, ...]
    by: str


@dataclass(frozen=True, slots=True)
class People:
    """Who can look between visits.

    Attributes:
        spans: when the sitter can come for a look, as (from, to) [h since midnight].
        most: looks a day asked of the sitter at most.
        helpers: names of others who come when called, in the order they are asked.
        helper_most: looks a day asked of each of them at most.
    """

    spans: tuple[tuple[float, float], ...]
    most: int
    helpers: tuple[str, ...]
    helper_most: int

    def is_free(self, hour: float) -> bool:
        """Return whether the sitter can come at an hour, also of the next day."""
        at = hour % HOURS_IN_DAY
        return any(first - TRACE <= at <= last + TRACE for first, last in self.spans)


def candidates(gap: Gap) -> tuple[float, ...]:
    """Return the times between two visits at which a look may be set [h]: our choice."""
    every = rule(RULES, "candidates every", "time").value
    first = math.floor(gap.start_h / every + TRACE) + 1
    last = math.ceil(gap.end_h / every - TRACE) - 1
    return tuple(step * every for step in range(first, last + 1))


def looks_in(
    gap: Gap, needs: Mapping[str, Sequence[float]], people: People
) -> tuple[float, ...]:
    """Return the times of the fewest looks that leave nothing overdue in a gap [h].

    Where even a look at each candidate is not often enough, as often as there are candidates.

    Args:
        gap: between two visits.
        needs: for each pen, by hour of the day, how long it may go unseen [h].
        people: who can come when.
    """
    if not needs:
        return ()
    allowed = strictest(needs.values())
    if overdue_h(gap, allowed) is None:
        return ()
    times = (gap.start_h, *candidates(gap), gap.end_h)
    best: list[Chain] = [((0.0, 0, 0, 0, 0.0), ())]
    for at in range(1, len(times)):
        best.append(_cheapest(times, at, best, allowed, people))
    return best[-1][1]


def _cheapest(
    times: Sequence[float],
    at: int,
    best: Sequence[Chain],
    allowed: Sequence[float],
    people: People,
) -> Chain:
    """Return the cheapest chain that ends at a time, given the cheapest to each one before it.

    From the latest start backwards: once a step is overdue all longer ones are, so that none of
    them is cheaper than a chain in which nothing is.
    """
    found: Chain | None = None
    for start in range(at - 1, -1, -1):
        gap = Gap(times[start], times[at])
        late = overdue_h(gap, allowed)
        if late is not None and found is not None and not found[0][0]:
            break
        one = _step(best[start], gap, late, people, last=at == len(times) - 1)
        if found is None or one[0] < found[0]:
            found = one
    assert found is not None  # noqa: S101 -- the first time stands before every other
    return found


def _step(
    before: Chain,
    gap: Gap,
    late: float | None,
    people: People,
    *,
    last: bool,
) -> Chain:
    """Return the cost and the looks of a chain that goes on to the end of a gap."""
    (missed, count, helped, odd, uneven), looks = before
    # What is overdue all the same costs more than any number of looks.
    missed += 0.0 if late is None else (gap.end_h - late) * HOURS_IN_DAY * HOURS_IN_DAY
    if not last:
        free = people.is_free(gap.end_h)
        missed += 0 if free or people.helpers else 1
        count, helped = count + 1, helped + (0 if free else 1)
        odd += 0 if abs(gap.end_h - round(gap.end_h)) < TRACE else 1
        looks = (*looks, gap.end_h)
    return (missed, count, helped, odd, uneven + gap.hours**2), looks


def pens_at(
    before_h: Mapping[str, float],
    next_h: float,
    needs: Mapping[str, Sequence[float]],
) -> tuple[str, ...]:
    """Return the pens that would be overdue before the next look if this one passed them by.

    Args:
        before_h: when each pen was last seen [h].
        next_h: the next look or visit [h].
        needs: for each pen, by hour of the day, how long it may go unseen [h].
    """
    return tuple(
        pen
        for pen, allowed in needs.items()
        if overdue_h(Gap(before_h[pen], next_h), allowed) is not None
    )


def plan_looks(
    gaps: Sequence[tuple[Gap, Mapping[str, Sequence[float]]]], people: People
) -> tuple[Look, ...]:
    """Return the short looks of a day, in order, with the pens each passes and who goes.

    Args:
        gaps: between the visits, each with how long every pen may go unseen by hour [h].
        people: who can come when.
    """
    found: list[Look] = []
    for gap, needs in gaps:
        times = looks_in(gap, needs, people)
        seen = dict.fromkeys(needs, gap.start_h)
        for at, hour in enumerate(times):
            next_h = times[at + 1] if at + 1 < len(times) else gap.end_h
            pens = pens_at(seen, next_h, needs)
            seen |= dict.fromkeys(pens, hour)
            found.append(Look(hour, pens, _who(hour, found, people)))
    return tuple(found)


def _who(hour: float, before: Sequence[Look], people: People) -> str:
    """Return who goes: the sitter where free and not yet asked too often, then a helper."""
    asked = [look.by for look in before]
    if people.is_free(hour) and asked.count(SITTER) < people.most:
        return SITTER
    free = (name for name in people.helpers if asked.count(name) < people.helper_most)
    return next(free, NOBODY)
