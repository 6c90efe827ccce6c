"""What a pen has against the heat, as its file stands or with something mended (step 3).

Each answer is that of the area it belongs to; nothing is judged a second time here.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import Band, is_banded
from binder.figures.figure import NotPublishedError
from binder.figures.hoses.hose_plan import BURIED
from binder.figures.housing import stall_air
from binder.figures.power import farm_power
from binder.figures.rounds.farm_rounds import round_interval
from binder.figures.rounds.pen_care import SHADE, WATER, WET, Care, care_of
from binder.figures.supply.water_store import FLOWING
from binder.figures.water import drinkers
from binder.figures.water.drinking_water import water_need

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm, Pen
    from binder.figures.herd.groups import Herd

CIRCUIT_OVER = "circuit-over"
TOO_LITTLE_AIR = ("short", "no-fan")
PIG, PIGLET = "pig", "suckling piglet"


@dataclass(frozen=True, slots=True)
class Drinks:
    """So many of a class that drink: weight [kg] and age [days] where they are known."""

    cls: str
    count: int
    weight_kg: float | None
    age_days: int | None


@dataclass(frozen=True, slots=True)
class PenState:
    """A pen with animals.

    Attributes:
        pen: as the owner wrote it.
        head: animals in it that the numbers are for: the young that need warmth are not.
        classes: its banded classes.
        care: what protects it, what it lacks.
        allowed_h: how long it may go unseen at number 0, 1 ... 4 [h].
        drinks: who drinks.
        few: whether it has too few places to drink, or too slow ones.
        fill_l: what stands in it after a visit, where all is filled by hand [L]; None where
            water comes by itself, or what it holds is not recorded.
        hoses: the hoses on the ground that its water stands in, where it has no other.
        no_air: whether its fans move too little.
        over: whether the breaker of its fans carries too much.
    """

    pen: Pen
    head: int
    classes: tuple[str, ...]
    care: Care
    allowed_h: tuple[float, ...]
    drinks: tuple[Drinks, ...]
    few: bool
    fill_l: float | None
    hoses: tuple[str, ...]
    no_air: bool
    over: bool

    @property
    def lacks_shade(self) -> bool:
        """Return whether not all fit into its shade."""
        return SHADE in self.care.lacks

    @property
    def lacks_wet(self) -> bool:
        """Return whether pigs have neither mud nor wetting."""
        return WET in self.care.lacks

    @property
    def lacks_sure_water(self) -> bool:
        """Return whether its water hangs on one place."""
        return WATER in self.care.lacks

    def need_l(self, high_c: float) -> float:
        """Return what its animals drink on a day with that high [L].

        Raises:
            NotPublishedError: air beyond the published range.
        """
        return _need_l(self.drinks, high_c)


@lru_cache(maxsize=65536)  # a year has a few hundred highs, and mends leave the animals alone
def _need_l(drinks: tuple[Drinks, ...], high_c: float) -> float:
    return sum(
        water_need(
            one.cls, one.count, high_c, one.weight_kg, age_days=one.age_days
        ).amount.value
        for one in drinks
    )


def states(farm: Farm, herd: Herd, pens: Sequence[str] | None = None) -> Mapping[str, PenState]:
    """Return the state of each pen with animals, by id.

    Args:
        farm: as it stands, or with something mended.
        herd: its animals.
        pens: ids of those wanted, None for all.
    """
    wanted = [
        pen for pen in farm.pens if herd.in_pen(pen.id) and (pens is None or pen.id in pens)
    ]
    part = farm.model_copy(update={"pens": tuple(wanted)})
    places = drinkers.for_farm(part, herd)
    slow = {key for key, test in places.tests.items() if test.value == drinkers.FAIL}
    aired = stall_air.for_farm(part, herd).stalls
    over = {
        each.subject
        for each in farm_power.for_farm(farm, herd).findings
        if each.key == CIRCUIT_OVER
    }
    found = {}
    for pen in wanted:
        inside = herd.in_pen(pen.id)
        care = care_of(farm, pen, herd)
        stall = aired.get(pen.id)
        found[pen.id] = PenState(
            pen=pen,
            head=sum(group.count for group in inside if is_banded(group.cls)),
            classes=tuple(dict.fromkeys(g.cls for g in inside if is_banded(g.cls))),
            care=care,
            allowed_h=tuple(
                round_interval(farm, pen, band, care.status).amount.value for band in Band
            ),
            drinks=_drinks(herd, pen.id),
            few=pen.id in places.short or any(drinker.id in slow for drinker in pen.drinkers),
            fill_l=_fill_l(pen),
            hoses=_hoses(farm, pen),
            no_air=stall is not None
            and any(each.key in TOO_LITTLE_AIR for each in stall.findings),
            over=any(fan.circuit in over for fan in pen.fans),
        )
    return found


def _drinks(herd: Herd, pen_id: str) -> tuple[Drinks, ...]:
    """Return who drinks in a pen; those of whom nothing is published are left out."""
    found: list[Drinks] = []
    for group in herd.in_pen(pen_id):
        born = group.animal.born
        age = (herd.on - born).days if born else None
        found.append(Drinks(group.cls, group.count, group.weight_kg, age))
        if group.litter and group.animal.species == PIG:
            found.append(Drinks(PIGLET, group.litter, None, None))
    return tuple(one for one in found if _is_known(one))


def _is_known(one: Drinks) -> bool:
    try:
        water_need(one.cls, one.count, 20.0, one.weight_kg, age_days=one.age_days)
    except NotPublishedError:
        return False
    return True


def _fill_l(pen: Pen) -> float | None:
    by_hand = [one for one in pen.drinkers if one.fed_by is None and one.holds_l is not None]
    if not by_hand or len(by_hand) < len(pen.drinkers):
        return None
    return sum((one.holds_l or 0.0) * one.count for one in by_hand if not one.can_tip)


def _hoses(farm: Farm, pen: Pen) -> tuple[str, ...]:
    """Return the hoses on the ground behind a pen's nipples and bowls.

    Empty where any other water stands in the pen, or comes to it by another way.
    """
    if not pen.drinkers or any(one.kind not in FLOWING for one in pen.drinkers):
        return ()
    by_id = {hose.id: hose for hose in farm.equipment.hoses}
    found: dict[str, None] = {}
    for drinker in pen.drinkers:
        here, surface = drinker.fed_by, False
        for _ in by_id:
            hose = by_id.get(here or "")
            if hose is None:
                break
            if hose.runs != BURIED:
                found[hose.id] = None
                surface = True
            here = hose.fed_by
        if not surface:
            return ()
    return tuple(found)
