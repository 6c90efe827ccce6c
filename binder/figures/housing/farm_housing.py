"""What pens give their animals, against what they need: shade, shelter and air (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.housing import shade, stall_air

if TYPE_CHECKING:
    from binder.farm.model import Farm
    from binder.figures.herd.groups import Herd


@dataclass(frozen=True, slots=True)
class Housing:
    """Shade and shelter of each pen, and the air of each stall."""

    shade: shade.FarmShade
    air: stall_air.FarmAir


def for_farm(farm: Farm, herd: Herd) -> Housing:
    """Return the housing of a farm's herd."""
    return Housing(shade.for_farm(farm, herd), stall_air.for_farm(farm, herd))
