"""How long water takes to run: volume over flow, and who waits for it (step 3)."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures.noise import NOISE
from binder.figures.rules import rule

if TYPE_CHECKING:
    from binder.farm.model import Farm

RULES = "running"


def flow_l_min(farm: Farm, fed_by: str | None) -> float | None:
    """Return the flow at the open end of what feeds a place [L/min], None for a hand.

    A hose's own measured flow; else that of the smallest recorded flow upstream of it; else
    what is assumed where nothing is recorded (running.csv, our choice).
    """
    if fed_by is None:
        return None
    gear = farm.equipment
    upstream = {hose.id: hose.fed_by for hose in gear.hoses}
    upstream |= {tank.id: tank.fed_by for tank in gear.tanks}
    flows = {hose.id: hose.flow_l_min for hose in gear.hoses}
    flows |= {source.id: source.flow_l_min for source in gear.water_sources}
    here: str | None = fed_by
    found: list[float] = []
    for _ in range(len(upstream) + 1):
        flow = flows.get(here) if here is not None else None
        if flow is not None:
            found.append(flow)
            if here == fed_by:
                break
        here = upstream.get(here) if here is not None else None
    return min(found, default=assumed_flow_l_min())


def assumed_flow_l_min() -> float:
    """Return the flow where none is recorded [L/min]: our choice."""
    return rule(RULES, "flow where not recorded", "flow").value


def run_min(volume_l: float, flow: float | None) -> float:
    """Return how long a volume runs [min], to the whole minute above; carried without a flow.

    Args:
        volume_l: water [L], 0 or more.
        flow: at the open end [L/min], above 0; None where it is carried in buckets.
    """
    pace = rule(RULES, "carried by hand", "flow").value if flow is None else flow
    return float(math.ceil(volume_l / pace - NOISE))


def is_waited_for(minutes: float) -> bool:
    """Return whether a person stands by while water runs so long [min]: our choice."""
    return minutes <= rule(RULES, "wait for a tap", "time").value * MINUTES_IN_HOUR
