"""What protects a pen in heat, what it lacks, who in it falls first or is dangerous (step 3).

How long a pen may go unseen depends on its number and on this: with shade for all at once, sure
cool water and, for pigs, wet, animals hold out longer.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures import published
from binder.figures.finding import falls_short
from binder.figures.herd.breeding import EXPECTED
from binder.figures.housing import shade
from binder.figures.rules import quantity, rule
from binder.figures.supply.water_store import gravity_tank

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

    from binder.farm.model import Drinker, Farm, Pen
    from binder.figures.herd.groups import Group, Herd
    from binder.figures.published import Row

PROTECTED, UNPROTECTED, AT_RISK = "protected", "unprotected", "at_risk"
SHADE, WATER, WET = "shade", "water", "wet"
STALL, PIG, BELL = "stall", "pig", "bell"
ON_HAND = ("nipple", "bowl", BELL)  # drinkers that are pressed or looked into one by one
WAITS, MOVED = "waits", "moved"
RISKS, GUARDS, LOOKS = "risks", "guards", "look_rules"


@dataclass(frozen=True, slots=True)
class Care:
    """What a pen's animals have against the heat.

    Attributes:
        lacks: what is missing: `shade`, `water`, `wet`; empty where the pen is protected.
        risks: why an animal in it falls first: a key of `risks.csv`, `near-term`, `nursing`
            or `one-fan`.
        guarded: whether an animal lives there that nobody goes in with alone.
    """

    lacks: tuple[str, ...]
    risks: tuple[str, ...]
    guarded: bool

    @property
    def status(self) -> str:
        """Return `protected`, `unprotected` or `at_risk`: the column of the intervals."""
        if self.risks:
            return AT_RISK
        return UNPROTECTED if self.lacks else PROTECTED


def care_of(farm: Farm, pen: Pen, herd: Herd) -> Care:
    """Return what protects a pen with the animals of a date.

    References:
        Our choice: round_intervals.csv, risks.csv, guards.csv.
    """
    inside = herd.in_pen(pen.id)
    if not inside:
        return Care((), (), guarded=False)
    return Care(
        tuple(_lacks(farm, pen, inside)),
        tuple(dict.fromkeys(_risks(pen, inside, herd.on))),
        guarded=any(is_guarded(group) for group in inside),
    )


def is_filled(drinker: Drinker) -> bool:
    """Return whether a drinker is emptied and filled on a round: open water, a bell by hand."""
    return drinker.kind not in ON_HAND or (drinker.kind == BELL and drinker.fed_by is None)


def is_guarded(group: Group) -> bool:
    """Return whether nobody goes in alone with an animal: boar, sow, grown pig, bull."""
    return any(_fits(row, group) for row in published.rows(GUARDS))


def refill_of(cls: str) -> str:
    """Return what goes for a wallow's refill where a class lives: `waits`, `moved` or empty.

    References:
        Our choice: guards.csv.
    """
    found = (row.text("refill") for row in published.rows(GUARDS) if row.text("class") == cls)
    return next(found, "")


def _fits(row: Row, group: Group) -> bool:
    if row.text("class") != group.cls:
        return False
    if not row.has("from_weight"):
        return True
    return group.weight_kg is not None and group.weight_kg >= quantity(
        row, "from_weight", "weight"
    )


def _lacks(farm: Farm, pen: Pen, inside: tuple[Group, ...]) -> Iterator[str]:
    have, need = shade.pen_have(pen), shade.pen_need(pen, inside)
    roofed = pen.shelter is not None
    if have is None:
        if not roofed:
            yield SHADE
    elif need is not None and falls_short(have.amount, need.amount):
        yield SHADE
    if not has_sure_water(farm, pen):
        yield WATER
    if any(group.animal.species == PIG for group in inside) and not _gets_wet(pen):
        yield WET


def has_sure_water(farm: Farm, pen: Pen) -> bool:
    """Return whether a pen has two places to drink, a tank by gravity, or water that stands."""
    places = sum(drinker.count for drinker in pen.drinkers)
    stands = any(is_filled(one) and not one.can_tip for one in pen.drinkers)
    return places > 1 or stands or gravity_tank(farm, pen) is not None


def _gets_wet(pen: Pen) -> bool:
    """Return whether pigs can cool in mud, or in a stall in moving air on wetted skin."""
    return pen.wallow is not None or (pen.kind == STALL and bool(pen.fans))


def _risks(pen: Pen, inside: tuple[Group, ...], on: dt.date) -> Iterator[str]:
    soon = rule(LOOKS, "near term", "time").value / HOURS_IN_DAY
    for group in inside:
        for row in published.rows(RISKS):
            if _fits(row, group):
                yield row.text("risk")
        if group.litter:
            yield "nursing"
        births = [first for event, first, _ in group.dates if event in EXPECTED]
        if any((first - on).days <= soon for first in births):
            yield "near-term"
    if len(pen.fans) == 1 and pen.wallow is None:
        yield "one-fan"
