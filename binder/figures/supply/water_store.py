"""How long each pen has water if the supply stops: own troughs, a tank uphill (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.figure import DERIVED, Figure, step
from binder.science import drinking
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from binder.farm.model import Drinker, Farm, Pen, Tank

FLOWING = ("nipple", "bowl")  # what holds no water worth counting


@dataclass(frozen=True, slots=True)
class PenStore:
    """The water a pen has without its supply.

    Attributes:
        pen: the pen.
        by_hand: whether all its drinkers are filled by hand.
        own_l: in drinkers that no animal is known to tip [L].
        tank_l: its share of a tank that needs no power [L], by what its pens drink.
        need_l_day: what its animals drink [L/day].
        lasts: `pen-lasts` [h].
    """

    pen: Pen
    by_hand: bool
    own_l: float
    tank_l: float
    need_l_day: float
    lasts: Figure


def pen_stores(
    farm: Farm, need: Mapping[str, Figure], mark: str = ""
) -> Mapping[str, PenStore]:
    """Return the store of each pen that has drinkers and a figure of its need, by pen id.

    A pen with a trough whose size is not recorded is left out: nobody knows.

    Args:
        farm: the farm.
        need: `pen-water` by pen id [L/day].
        mark: what tells another day than the binder's, such as the id of a stay.
    """
    found = {}
    for pen in farm.pens:
        unknown = any(d.kind not in FLOWING and d.holds_l is None for d in pen.drinkers)
        if pen.drinkers and pen.id in need and not unknown:
            found[pen.id] = _store(farm, pen, need, mark)
    return found


def shortest_first(stores: Iterable[PenStore]) -> tuple[PenStore, ...]:
    """Return stores by how long they last, the pen that is dry first in front."""
    return tuple(sorted(stores, key=lambda store: store.lasts.amount.value))


def _store(farm: Farm, pen: Pen, need: Mapping[str, Figure], mark: str) -> PenStore:
    own_l = sum((d.holds_l or 0.0) * d.count for d in pen.drinkers if not d.can_tip)
    tank = gravity_tank(farm, pen)
    need_l_day = need[pen.id].amount.value
    tank_l = 0.0
    if tank is not None:
        sharing = [each.id for each in farm.pens if gravity_tank(farm, each) == tank]
        drunk = sum(need[each].amount.value for each in sharing if each in need)
        tank_l = tank.holds_l * need_l_day / drunk
    lasts = Amount(drinking.reserve_h(own_l + tank_l, need_l_day), "h")
    line = step(
        "lasts",
        own=Amount(own_l, "L"),
        tank=Amount(tank_l, "L"),
        need=Amount(need_l_day, "L/day"),
        time=lasts,
    )
    subject = f"{pen.id} {mark}".strip()
    figure = Figure("pen-lasts", lasts, (line,), (DERIVED,), (), subject)
    return PenStore(pen, _by_hand(pen), own_l, tank_l, need_l_day, figure)


def _by_hand(pen: Pen) -> bool:
    return all(_is_by_hand(drinker) for drinker in pen.drinkers)


def _is_by_hand(drinker: Drinker) -> bool:
    return drinker.fed_by is None and drinker.holds_l is not None


def gravity_tank(farm: Farm, pen: Pen) -> Tank | None:
    """Return the tank that a pen's drinkers still draw from without power, None without one."""
    tanks = {tank.id: tank for tank in farm.equipment.tanks if not tank.needs_power}
    upstream = {hose.id: hose.fed_by for hose in farm.equipment.hoses}
    for drinker in pen.drinkers:
        here = drinker.fed_by
        for _ in range(len(upstream) + 1):
            if here in tanks:
                return tanks[here]
            here = upstream.get(here) if here is not None else None
    return None
