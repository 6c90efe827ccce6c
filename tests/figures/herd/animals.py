"""Animals as an owner writes them, for the tests of the herd."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from binder.farm.model import Animal
from binder.figures.herd.groups import Group, group

if TYPE_CHECKING:
    from binder.figures.figure import Figure


LB = 0.45359237

DAY = dt.date(2026, 7, 14)


def days_before(days: int) -> dt.date:
    """Return the day so many days before the day asked about."""
    return DAY - dt.timedelta(days=days)


def animal(**fields: str) -> Animal:
    """Return an animal written as the owner would, a pig unless another species is given."""
    return Animal.model_validate({"name": "Test", "species": "pig", **fields})


def on(day: dt.date = DAY, /, **fields: str) -> Group:
    """Return the group of such an animal on a day."""
    return group(animal(**fields), day)


def figure(of: Group, name: str) -> Figure:
    """Return the named figure of a group."""
    return next(each for each in of.figures if each.name == name)
