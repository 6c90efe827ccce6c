"""A metric farm south of the equator: its summer lies round the new year, its law is its own.

The farm and its people are invented.
"""

# ruff: noqa: E501 -- the farm is written as an owner writes it

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of, checked, figures_of
from tests.pages.test_finca import SOURCES, foreign, read

if TYPE_CHECKING:
    from pathlib import Path

    from binder.pages.page import Book
    from tests.conftest import FarmFolder, Once

DAY = dt.date(2027, 1, 8)
FARM = {
    "farm.yaml": """
name: Sandfontein
country: za
place:
  address: Sandfontein, Klipdrift road, near Vosburg, Northern Cape
  latitude: -30.57
  longitude: 22.87
  timezone: Africa/Johannesburg
  directions: From Vosburg 14 km on the gravel road to Klipdrift. White gate on the left.
thermometer: On the south wall of the shed
hygrometer: Beside it
hot_day: {high: "38,5 C", low: 19 C, dew_point: 11 C}
eggs: In the blue tray in the pantry
shut_offs:
  - {what: All water, where: Gate valve at the tank}
""",
    "contacts.yaml": """
- {name: Thandi Example, role: owner, phone: 051 555 0110}
- {name: Pieter Example, role: neighbor, phone: 051 555 0121, comes_in: 20 min}
- {name: Dr Naidoo Example, role: vet, phone: 051 555 0133, nights: 051 555 0134}
""",
    "pens.yaml": """
- id: kraal
  name: Kraal
  kind: pasture
  area: 2500 m2
  shade: [{kind: trees, area: 80 m2}]
  drinkers: [{id: d1, kind: trough, count: 1, holds: 300 L, can_tip: no, fed_by: pe}]
- id: sty
  name: Sty
  kind: stall
  area: 40 m2
  shade: [{kind: roof, area: 16 m2}]
  shelter: {area: 12 m2, open_ends: 1}
  wallow: {id: w1, shape: oval, length: 4 m, width: "2,5 m", depth: 25 cm}
  drinkers: [{id: d2, kind: nipple, count: 2, flow: "1,2 L/min", fed_by: pe}]
  fans: [{id: f1, air: 4000 m3/h, power: 180 W, circuit: c1}]
- id: hok
  name: Hok
  kind: coop
  area: 20 m2
  shade: [{kind: roof, area: 8 m2}]
  drinkers: [{id: d3, kind: bell, count: 2, holds: 6 L, can_tip: no, shaded: yes}]
""",
    "animals.yaml": """
- {group: Dorpers, species: sheep, sex: ewe, weight: 60 kg, count: 24, pen: kraal, feed: lucerne, ration: "1,2 kg/day"}
- {name: Nommer Een, species: pig, sex: sow, weight: 190 kg, bred: 2026-10-05, pen: sty, feed: pig-meal, ration: "2,4 kg/day"}
- {group: Growers, species: pig, sex: mixed, weight: 55 kg, count: 6, pen: sty, feed: pig-meal, ration: 2 kg/day}
- {group: Layers, species: chicken, sex: hen, purpose: eggs, count: 30, pen: hok, feed: layer-mash, ration: 120 g/day}
""",
    "equipment.yaml": """
water_sources: [{id: bore, name: Borehole, kind: well, flow: 20 L/min, pump: 750 W, circuit: c2}]
tanks: [{id: jojo, name: Green tank, holds: 5000 L, fed_by: bore}]
hoses: [{id: pe, name: Pipe to the kraal, outside: 25 mm, wall: "2,3 mm", length: 120 m, sun: full, colour: black, fed_by: jojo}]
circuits: [{id: c1, label: STY, breaker: 20 A, voltage: 230 V}, {id: c2, label: PUMP, breaker: 20 A, voltage: 230 V}]
cords: [{id: k1, length: 30 m, gauge: "1,5 mm2", feeds: f1}]
products: [{id: jik, name: Jik, kind: bleach, strength: 35 g/L, kept: Pantry}]
feeds: [{id: lucerne, name: Lucerne, on_hand: 600 kg}, {id: pig-meal, name: Pig meal, on_hand: 250 kg}, {id: layer-mash, name: Layer mash, on_hand: 100 kg}]
""",
    "stays.yaml": """
- {id: january, sitter: Lindiwe Example, phone: 051 555 0150, from: 2027-01-09, to: 2027-01-15, visits: ["06:00", "13:00", "19:00"]}
""",
}


@pytest.fixture
def folder(farm_folder: FarmFolder) -> Path:
    """Return the farm's folder."""
    return farm_folder(FARM)


@pytest.fixture
def karoo(once: Once, folder: Path) -> Book:
    """Return its binder."""
    return once("karoo", lambda _: book_of(folder, DAY))


def test_nothing_foreign_on_any_sheet(karoo: Book) -> None:
    """No US measure, number, law, clock or spelling; South Africa writes decimal commas."""
    found = {
        page.sheet: strange
        for page in karoo.pages
        if page.slug != SOURCES and (strange := foreign(f"{page.title}\n{read(page.body)}"))
    }
    assert found == {}
    found = {
        k: strange for k, body in karoo.workings.items() if (strange := foreign(read(body)))
    }
    assert found == {}


def test_the_country_is_its_own(karoo: Book) -> None:
    """112 (extra-133), the helpline (extra-111), plugs with an earth (extra-131)."""
    (called,) = (read(page.body) for page in karoo.pages if page.slug == "contacts")
    for said in ("112", "0861 555 777", "plugs of type M, N"):
        assert said in called
    text = " ".join(read(page.body) for page in karoo.pages)
    assert "1,5\N{NO-BREAK SPACE}mm\N{SUPERSCRIPT TWO}" in text  # the cord, as it was written
    assert karoo.paper == "a4"


def test_january_is_summer(folder: Path, karoo: Book) -> None:
    """Sunrise near 5:40 and sunset near 19:40 at 30.6 S, 22.9 E in January (from memory).

    The day of the binder is warm by the farm's own hot day, and a sow bred on 5 October is due
    114 days on, 27 January (husbandry-65: 3 months, 3 weeks, 3 days), watched from 24 to 29.
    """
    owner, farm = checked(folder, DAY)
    figures = figures_of(owner, farm, DAY)
    assert figures.day.day is not None
    air = figures.day.day.air
    assert air.sunrise_h == pytest.approx(5.6, abs=0.25)
    assert air.sunset_h == pytest.approx(19.6, abs=0.25)
    book = read(" ".join(page.body for page in karoo.pages if page.tab == "B"))
    assert "24 to 29 January" in " ".join(book.split())
