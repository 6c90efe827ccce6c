"""A number's key leads to its own working and to no other."""

from __future__ import annotations

import datetime as dt

from binder.data import CONTENT
from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.figure import Figure
from binder.figures.figures import every, work_out


def test_every_key_of_the_example_farm_stands_for_one_figure() -> None:
    """Two figures of one name are told apart by their subject."""
    farm = check(read_folder(CONTENT / "example-farm"))
    found: dict[str, list[Figure]] = {}
    for figure in every(work_out(farm, dt.date(2026, 6, 1))):
        same = found.setdefault(figure.key, [])
        if figure not in same:
            same.append(figure)
    assert {key: figures for key, figures in found.items() if len(figures) > 1} == {}
