"""The whole farm, checked."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict

from binder.farm.model.about import FarmFile
from binder.farm.model.animals import Animal
from binder.farm.model.equipment import EquipmentFile
from binder.farm.model.pens import Pen
from binder.farm.model.people import Code, Contact, Stay


class Farm(BaseModel):
    """The whole farm folder, checked: every reference leads somewhere."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)

    about: FarmFile
    animals: tuple[Animal, ...]
    pens: tuple[Pen, ...]
    equipment: EquipmentFile
    contacts: tuple[Contact, ...]
    stays: tuple[Stay, ...]
    codes: tuple[Code, ...] = ()
    pictures: tuple[str, ...] = ()

    def pen(self, pen_id: str) -> Pen:
        """Return the pen of that id; the check has made sure that it exists."""
        return next(pen for pen in self.pens if pen.id == pen_id)
