"""Where things stand on the map, and how long the way past the pens is.

Distances by Pythagoras: a triangle of 3, 4 and 5. 1 foot is 0.3048 m (NIST SP 811).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.place import for_farm

if TYPE_CHECKING:
    from tests.conftest import FarmFolder

FARM = "name: F\nplace: Road 1\n"
PENS = """
    - {id: b, name: B, kind: run, route: 2, area: 100 sqft, at: "30 ft, 40 ft"}
    - {id: a, name: A, kind: run, route: 1, at: "0 ft, 0 ft"}
    - {id: c, name: C, kind: run, route: 3, gate_at: "30 ft, 50 ft",
       corners: ["30 ft, 50 ft", "50 ft, 50 ft", "50 ft, 70 ft", "30 ft, 70 ft"]}
    - {id: d, name: D, kind: run}
    """
ANIMALS = "- {name: Daisy, species: pig, pen: a}\n"
CONTACTS = "- {name: O, role: owner, phone: 555-0100}\n"


def test_the_way_goes_from_gate_to_gate_in_order(farm_folder: FarmFolder) -> None:
    """A to B is 50 ft, B to the gate of C 10 ft; D has no point, so it is not on the map."""
    files = {"farm.yaml": FARM, "pens.yaml": PENS, "animals.yaml": ANIMALS,
             "contacts.yaml": CONTACTS}  # fmt: skip
    ground = for_farm(check(read_folder(farm_folder(files))))
    assert ground is not None
    assert [mark.name for mark in ground.marks] == ["A", "B", "C"]
    assert ground.legs == pytest.approx((50 * 0.3048, 10 * 0.3048))
    assert ground.walk == pytest.approx(60 * 0.3048)
    middle = ground.marks[2].at
    assert middle == pytest.approx((40 * 0.3048, 60 * 0.3048))


def test_a_pen_of_known_area_alone_is_a_square_of_it(farm_folder: FarmFolder) -> None:
    """100 sqft are 10 ft by 10 ft about its point."""
    files = {"farm.yaml": FARM, "pens.yaml": PENS, "animals.yaml": ANIMALS,
             "contacts.yaml": CONTACTS}  # fmt: skip
    ground = for_farm(check(read_folder(farm_folder(files))))
    assert ground is not None
    square, known = ground.surfaces
    assert square.square
    assert not known.square
    assert square.corners[0] == pytest.approx((25 * 0.3048, 35 * 0.3048))
    assert square.corners[2] == pytest.approx((35 * 0.3048, 45 * 0.3048))


def test_one_pen_with_a_point_is_no_map(farm_folder: FarmFolder) -> None:
    """A way has two ends."""
    pens = '- {id: a, name: A, kind: run, at: "0 ft, 0 ft"}\n- {id: b, name: B, kind: run}\n'
    files = {"farm.yaml": FARM, "pens.yaml": pens, "animals.yaml": ANIMALS,
             "contacts.yaml": CONTACTS}  # fmt: skip
    assert for_farm(check(read_folder(farm_folder(files)))) is None
