"""The map of a farm: how a point is written, and what cannot be on one map.

1 foot is 0.3048 m exactly (NIST SP 811, appendix B). The limits are the project's own choice.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.farm.model.ground import Point, point
from binder.problems import ProblemsError
from tests import farm_data

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("120 ft, 80 ft", Point(36.576, 24.384)),
        ("1,200 ft, 80 ft", Point(365.76, 24.384)),
        ("120 ft,80 ft", Point(36.576, 24.384)),
        ("-40 ft; 3 m", Point(-12.192, 3.0)),
        (["1 m", "2 m"], Point(1.0, 2.0)),
        ("62 %, 40 %", Point(62.0, 40.0, percent=True)),
    ],
)
def test_a_point_is_two_measures(written: object, read: Point) -> None:
    """To the right, then up."""
    found = point(written)
    assert (found.right, found.up) == pytest.approx((read.right, read.up))
    assert found.percent == read.percent


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("5 ft", "is no point of the map"),
        ("5 ft, 6 ft, 7 ft", "is no point of the map"),
        ({"x": "5 ft"}, "a list or mapping is no point of the map"),
        ("12, 3", "has no unit"),
        ("50 %, 3 ft", "is half in percent"),
        ("120 %, 3 %", "lies outside the picture"),
        ("2000 miles, 3 ft", "is out of range"),
    ],
)
def test_what_is_no_point_is_said(written: object, said: str) -> None:
    """With what was read and what is expected."""
    with pytest.raises(ValueError, match=said):
        point(written)


def _said(data: farm_data.Data, to: Path) -> list[str]:
    try:
        check(read_folder(farm_data.write(data, to)))
    except ProblemsError as error:
        return [str(problem) for problem in error.problems]
    return []


@pytest.mark.parametrize(
    ("file", "path", "value", "said"),
    [
        ("pens.yaml", (0, "at"), "50 %, 50 %", "map: in farm.yaml has no picture:"),
        ("pens.yaml", (0, "at"), "240 ft, 395 ft", "is the same point as that of"),
        ("pens.yaml", (0, "at"), "14000 ft, 395 ft", "lies far from everything else"),
        ("pens.yaml", (2, "corners"), ["0 ft, 0 ft", "9 ft, 9 ft"], "has 2 of the 3 points"),
        ("farm.yaml", ("map", "lines", 0, "along"), ["0 ft, 0 ft"], "has 1 of the 2 points"),
        ("equipment.yaml", ("hoses", 0, "length"), "100 ft", "measures 242 % of the hose's"),
        ("farm.yaml", ("map", "picture"), "creek-gate.png", "but the map is a picture"),
        ("farm.yaml", ("map", "places", 2, "name"), "House", '"House" is taken'),
        ("farm.yaml", ("map", "places", 0, "kind"), "gatee", "gate"),
    ],
)
def test_what_cannot_be_on_one_map_is_said(
    file: str, path: tuple[str | int, ...], value: object, said: str, tmp_path: Path
) -> None:
    """The hose of 100 ft: its ends lie sqrt(220^2 + 100^2) = 241.7 ft apart (Pythagoras)."""
    data = farm_data.read()
    farm_data.put(data[file], path, value)
    found = _said(data, tmp_path / "farm")
    assert any(said in line and line.startswith(file) for line in found), found


def test_the_example_has_a_map_and_reads_back() -> None:
    """Nothing is said of it as it stands."""
    assert '"at"' in json.dumps(farm_data.read())
    assert check(read_folder(farm_data.EXAMPLE)).about.map is not None
