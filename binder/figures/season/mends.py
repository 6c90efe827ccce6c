"""What could be mended on a farm, one thing at a time, and the farm with it mended (step 3)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, get_args

from binder.farm.model import MendKey, Shade, Tank, Wallow
from binder.figures.hoses.hose_heat import RULES as HOSE_RULES
from binder.figures.hoses.hose_plan import BURIED, pens_fed
from binder.figures.housing.shade import pen_have, pen_need
from binder.figures.noise import NOISE
from binder.figures.power.farm_power import for_farm as power_of
from binder.figures.rules import rule
from binder.figures.season.pen_state import CIRCUIT_OVER
from binder.figures.water import drinkers
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.model import Circuit, Farm, Pen
    from binder.figures.herd.groups import Herd
    from binder.figures.season.farm_season import Played
    from binder.figures.season.pen_state import PenState

RULES = "season_rules"
WATERER, FLOW, BURY, CLOTH, TUB, TANK, BREAKER, FAN = get_args(MendKey)  # as under `costs`
MM_PER_M = 1000.0
ADDED = "added"  # what is put in beside the owner's own carries this in its id


@dataclass(frozen=True, slots=True)
class Mend:
    """One thing that could be mended.

    Attributes:
        key: what, as in `MendKey`.
        subject: the pen, hose or circuit.
        pens: the pens it changes.
        count: how many waterers, where that is what is missing.
        amount: of cloth [m2], the depth to bury at [mm], or the tank to set up [L].
    """

    key: MendKey
    subject: str
    pens: tuple[str, ...]
    count: int = 0
    amount: Amount | None = None


def mends_of(farm: Farm, herd: Herd, season: Played) -> tuple[Mend, ...]:
    """Return what could be mended, in the order of the pens."""
    found = [
        mend
        for key, state in season.states.items()
        for mend in (*_water(farm, herd, key, state, season), *_comfort(farm, herd, key, state))
    ]
    return (*found, *_hoses(farm, herd), *_breakers(farm, herd))


def _water(farm: Farm, herd: Herd, key: str, state: PenState, season: Played) -> Iterator[Mend]:
    """Yield what would give a pen more water, or surer."""
    dry = any(one.pens[key].has_run_dry for one in season.seasons)
    part = farm.model_copy(update={"pens": (state.pen,)})
    places = drinkers.for_farm(part, herd)
    short = key in places.short
    if state.pen.drinkers and (dry or short):
        by_class = {cls: figure for (_, cls), figure in places.need.items()}
        need = drinkers.places_needed(state.pen, by_class)
        have = places.there.get(key, 0)
        more = max(1, math.ceil(need) - have) if short else 1
        yield Mend(WATERER, key, (key,), count=more)
    if any(test.value == drinkers.FAIL for test in places.tests.values()):
        yield Mend(FLOW, key, (key,))
    if state.lacks_sure_water and state.pen.drinkers:
        high_c = max(day.high_c for one in season.seasons for day in one.air.days)
        yield Mend(TANK, key, (key,), amount=Amount(state.need_l(high_c), "L"))


def _comfort(farm: Farm, herd: Herd, key: str, state: PenState) -> Iterator[Mend]:
    """Yield what would give a pen shade, mud or air."""
    if state.lacks_shade:
        yield Mend(CLOTH, key, (key,), amount=Amount(_cloth_m2(farm.pen(key), herd), "m2"))
    if state.lacks_wet:
        yield Mend(TUB, key, (key,))
    if state.no_air and state.pen.fans:
        yield Mend(FAN, key, (key,))


def _cloth_m2(pen: Pen, herd: Herd) -> float:
    """Return the cloth that a pen lacks, in whole steps [m2]."""
    need, have = pen_need(pen, herd.in_pen(pen.id)), pen_have(pen)
    step = rule(RULES, "cloth in steps of", "area").value
    if need is None:
        return step
    lacking = need.amount.value - (have.amount.value if have else 0.0)
    return max(1, math.ceil(lacking / step - NOISE)) * step


def _hoses(farm: Farm, herd: Herd) -> Iterator[Mend]:
    depth = Amount(rule(HOSE_RULES, "bury at", "length").value * MM_PER_M, "mm")
    for hose in farm.equipment.hoses:
        pens = tuple(pen for pen in pens_fed(farm, hose.id) if herd.in_pen(pen))
        if hose.runs != BURIED and pens:
            yield Mend(BURY, hose.id, pens, amount=depth)


def _breakers(farm: Farm, herd: Herd) -> Iterator[Mend]:
    for found in power_of(farm, herd).findings:
        if found.key == CIRCUIT_OVER:
            pens = tuple(
                pen.id
                for pen in farm.pens
                if any(fan.circuit == found.subject for fan in pen.fans) and herd.in_pen(pen.id)
            )
            if pens:
                yield Mend(BREAKER, found.subject, pens)


def mended(farm: Farm, herd: Herd, mend: Mend) -> Farm:
    """Return the farm with one thing mended; what the owner wrote stays as it is."""
    if mend.key == BURY:
        assert mend.amount is not None  # noqa: S101 -- every hose's mend has its depth
        buried = {"runs": BURIED, "buried_depth_m": mend.amount.value / MM_PER_M}
        hoses = tuple(
            hose.model_copy(update=buried) if hose.id == mend.subject else hose
            for hose in farm.equipment.hoses
        )
        return _with_equipment(farm, hoses=hoses)
    if mend.key == BREAKER:
        return _second_breaker(farm, herd, mend.subject)
    pen = farm.pen(mend.subject)
    if mend.key == TANK:
        return _with_tank(farm, pen, mend)
    return _with_pen(farm, pen.model_copy(update=_changed(pen, mend)))


def _changed(pen: Pen, mend: Mend) -> dict[str, Any]:
    """Return what of a pen a mend changes."""
    first = pen.drinkers[0] if pen.drinkers else None
    rest = pen.drinkers[1:]
    if mend.key == WATERER and first is not None:
        more = first.model_copy(update={"count": first.count + mend.count})
        return {"drinkers": (more, *rest)}
    if mend.key == FLOW:
        return {
            "drinkers": tuple(
                each.model_copy(update={"flow_l_min": None}) for each in pen.drinkers
            )
        }
    if mend.key == CLOTH and mend.amount is not None:
        cloth = Shade.model_construct(
            kind="cloth", area_m2=mend.amount.value, blocks_pct=None, over_wallow=False
        )
        return {"shade": (*pen.shade, cloth)}
    if mend.key == TUB:  # its size counts for nothing: pigs have wet or have none
        tub = Wallow.model_construct(
            id=f"{pen.id}-{ADDED}", shape="round", length_m=1.0, width_m=None, depth_m=0.2,
            dug=None, last_refreshed=None, well_distance_m=None, water_distance_m=None,
            next_place=None, fed_by=None,
        )  # fmt: skip
        return {"wallow": tub}
    fan = pen.fans[0].model_copy(update={"id": f"{pen.id}-{ADDED}", "circuit": None})
    return {"fans": (*pen.fans, fan)}


def _with_pen(farm: Farm, changed: Pen) -> Farm:
    pens = tuple(changed if pen.id == changed.id else pen for pen in farm.pens)
    return farm.model_copy(update={"pens": pens})


def _with_equipment(farm: Farm, **changed: tuple[Any, ...]) -> Farm:
    return farm.model_copy(update={"equipment": farm.equipment.model_copy(update=changed)})


def _with_tank(farm: Farm, pen: Pen, mend: Mend) -> Farm:
    """Return the farm with a tank uphill of a pen, from which its first waterer is filled."""
    assert mend.amount is not None  # noqa: S101 -- every tank's mend has its size
    tank = Tank.model_construct(
        id=f"{pen.id}-{ADDED}", name=pen.name, holds_l=mend.amount.value, fed_by=None,
        needs_power=False, shaded=True, where=None, at=None,
    )  # fmt: skip
    first = pen.drinkers[0].model_copy(update={"fed_by": tank.id})
    drinks = pen.model_copy(update={"drinkers": (first, *pen.drinkers[1:])})
    with_tank = _with_equipment(farm, tanks=(*farm.equipment.tanks, tank))
    return _with_pen(with_tank, drinks)


def _second_breaker(farm: Farm, herd: Herd, circuit_id: str) -> Farm:
    """Return the farm with what overloads a breaker moved to a second one, fan by fan."""
    circuit = next(each for each in farm.equipment.circuits if each.id == circuit_id)
    second = circuit.model_copy(update={"id": f"{circuit_id}-{ADDED}", "other_w": None})
    changed = _without_other_load(farm, circuit, second)
    while any(
        each.key == CIRCUIT_OVER and each.subject == circuit_id
        for each in power_of(changed, herd).findings
    ):
        moved = _one_fan_moved(changed, circuit_id, second.id)
        if moved is None:
            break
        changed = moved
    return changed


def _without_other_load(farm: Farm, circuit: Circuit, second: Circuit) -> Farm:
    """Return the farm with whatever else hangs on a breaker moved to the second."""
    other = second.model_copy(update={"other_w": circuit.other_w})
    bare = circuit.model_copy(update={"other_w": None})
    rest = [bare if each.id == circuit.id else each for each in farm.equipment.circuits]
    return _with_equipment(farm, circuits=(*rest, other))


def _one_fan_moved(farm: Farm, circuit_id: str, second_id: str) -> Farm | None:
    for pen in farm.pens:
        for at, fan in enumerate(pen.fans):
            if fan.circuit == circuit_id:
                moved = fan.model_copy(update={"circuit": second_id})
                fans = (*pen.fans[:at], moved, *pen.fans[at + 1 :])
                return _with_pen(farm, pen.model_copy(update={"fans": fans}))
    return None
