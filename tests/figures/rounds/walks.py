"""What the tests of rounds share."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from binder.farm.model import Farm
from binder.figures.herd.groups import Group, Herd
from binder.figures.hoses import hose_plan
from binder.figures.rounds import farm_rounds
from binder.figures.wallows import wallow_plan
from binder.figures.water import drinking_water
from binder.figures.weather.hot_days import DayWeather
from tests.figures.water.test_water import DAY
from tests.figures.written import written_farm

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence


HOT = DayWeather(35.0, 23.0, 22.0, None, assumed=False, origin="hot_day")

CREEK = {"id": "creek", "name": "Creek", "kind": "pasture"}


def farm(
    pens: Sequence[Mapping[str, Any]], about: Mapping[str, Any] | None = None, **gear: Any
) -> Farm:
    """Return a farm with pens and equipment, written as the owner would."""
    return written_farm(
        pens=[{**CREEK, **pen} for pen in pens], equipment=gear, **(about or {})
    )


def walked(a_farm: Farm, *groups: Group) -> farm_rounds.RoundFigures:
    """Return the round of a farm with these animals."""
    herd = Herd(DAY, groups)
    hoses = hose_plan.for_farm(a_farm, drinking_water.for_farm(a_farm, herd, HOT), HOT)
    return farm_rounds.for_farm(a_farm, herd, hoses, wallow_plan.for_farm(a_farm, herd))
