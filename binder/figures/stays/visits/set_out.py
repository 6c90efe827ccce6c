"""Water that is carried before the heat: a visit with light work only finds it in the shade."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from binder.figures.rounds.pen_care import is_filled
from binder.figures.rounds.round_tasks import Task, allotted, in_steps, task_minutes
from binder.figures.rounds.running_water import RULES, run_min
from binder.figures.rules import rule

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.farm.model import Pen
    from binder.figures.stays.basis import Basis
    from binder.figures.stays.plan import Visit
    from binder.figures.stays.plan_parts import Birth

READY = "ready"
PAN, PAN_BORN = "pan", "pan-born"


def by_hand(pen: Pen) -> tuple[tuple[int, float | None, bool], ...]:
    """Return the small waterers of a pen that no hose fills: how many, what one holds [L]."""
    most_l = rule(RULES, "tipped out up to", "volume").value
    return tuple(
        (one.count, one.holds_l, True)
        for one in pen.drinkers
        if is_filled(one) and one.fed_by is None and (one.holds_l or 0.0) <= most_l
    )


def is_dry(pen: Pen) -> bool:
    """Return whether no hose brings water to a pen: all of it, a tub too, is carried."""
    return bool(by_hand(pen)) and not any(one.fed_by for one in pen.drinkers)


def ready(pen: Pen) -> Task:
    """Return the carrying of water for the next visit, minutes by its volume [min].

    Carrying is moderate work (C7); a visit with light work only fills from what stands there.

    References:
        Our choice (running.csv): how fast water is carried.
    """
    places = by_hand(pen)
    volume_l = sum(count * (holds_l or 0.0) for count, holds_l, _ in places)
    return Task(READY, in_steps(run_min(volume_l, None)), count=len(places), holds=places)


def carried_before(visits: tuple[Visit, ...]) -> dict[float, tuple[str, ...]]:
    """Return, by the hour of a visit, the pens for which it sets out the next visit's water."""
    found: dict[float, tuple[str, ...]] = {}
    for before, visit in pairwise(visits):
        if visit.light and not before.light:
            found[before.hour] = tuple(
                pen for pen, todo in visit.tasks.items() if any(one.carried for one in todo)
            )
    return found


def with_pans(basis: Basis, births: Iterable[Birth]) -> Basis:
    """Return a plan's basis with a pan to fill where a waterer is too slow once young are born.

    Its minutes count from the first day on, as nobody knows the day of the birth.
    """
    pens = dict(basis.rounds.pens)
    for pen in {one.pen for one in births if one.slow_after and one.pen in pens}:
        round_ = pens[pen]
        if all(task.key != PAN for task in round_.tasks):
            pan = Task(PAN_BORN, task_minutes(PAN_BORN))
            more = allotted(pan, guarded=round_.care.guarded)
            pens[pen] = replace(round_, tasks=(*round_.tasks, more))
    return replace(basis, rounds=replace(basis.rounds, pens=pens))
