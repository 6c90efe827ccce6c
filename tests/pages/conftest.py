"""Three farms whose binders the tests here read: the example, the least, one of each kind."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from textwrap import dedent
from types import MappingProxyType
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book
    from tests.conftest import Once

EXAMPLE = Path(__file__).resolve().parents[2] / "content" / "example-farm"
# A day inside the first stay of the example farm, with a sow due and a litter in the barn.
DAY = dt.date(2026, 7, 12)

# Three animals, one pen, one phone number: the least that makes a binder.
LEAST = {
    "farm.yaml": """
        name: Small Place
        place: {address: "1 Dry Road, Somewhere, Texas"}
        """,
    "animals.yaml": """
        - {name: Dot, species: pig, sex: sow, pen: lot}
        - {name: Spot, species: pig, sex: gilt, pen: lot}
        - {name: Rind, species: pig, sex: barrow, pen: lot}
        """,
    "pens.yaml": "- {id: lot, name: The lot, kind: pasture}",
    "contacts.yaml": "- {name: Ann Owner, role: owner, phone: 555-0100}",
}

# One of every species, drinker and piece of equipment, so that no sheet goes unread.
EVERY_KIND = {
    "farm.yaml": """
        name: All Kinds Farm
        place: {address: "7 Long Lane, Dry Fork, Texas", latitude: 31.1, longitude: -97.3,
                timezone: America/Chicago}
        thermometer: North side of the shed
        hot_day: {high: 99 F, low: 77 F, dew_point: 70 F, hottest_at: "16:00"}
        shut_offs: [{what: Water, where: Blue valve}]
        eggs: Into the porch refrigerator
        """,
    "animals.yaml": """
        - {name: Ada, species: pig, sex: sow, weight: 420 lb, pen: barn, bred: 2026-03-25,
           feed: pig-feed, ration: 5 lb/day, soak: 2}
        - {name: Berta, species: pig, sex: sow, weight: 420 lb, pen: barn, farrowed: 2026-07-01,
           litter: 8}
        - {name: Rex, species: pig, sex: boar, weight: 500 lb, pen: lot}
        - {group: Weaners, species: pig, sex: mixed, count: 6, weight: 30 lb, born: 2026-05-15,
           weaned: 2026-06-20, pen: lot}
        - {group: Hens, species: chicken, sex: hen, count: 20, born: 2025-03-01, purpose: eggs,
           pen: coop, feed: layer}
        - {group: Turkeys, species: turkey, sex: tom, count: 5, pen: coop}
        - {group: Ducks, species: duck, sex: female, count: 8, pen: coop}
        - {name: Nan, species: goat, sex: doe, weight: 120 lb, pen: lot, bred: 2026-03-01}
        - {name: Wool, species: sheep, sex: ewe, weight: 150 lb, pen: lot}
        - {name: Moo, species: cattle, sex: cow, weight: 1200 lb, pen: lot}
        - {name: Bruno, species: cattle, sex: bull, born: 2023-01-01, weight: 1800 lb, pen: lot}
        - {name: Star, species: horse, sex: mare, weight: 1000 lb, pen: lot}
        - {name: Nibble, species: rabbit, sex: doe, weight: 8 lb, pen: hutch,
           medicine: Drops as the vet wrote}
        - {name: Guard, species: dog, sex: male, weight: 100 lb, pen: lot}
        """,
    "pens.yaml": """
        - {id: barn, name: Barn, kind: stall, route: 1, farrowing: yes,
           drinkers: [{id: d1, kind: nipple, count: 2, flow: 3 cup/min, fed_by: h1}],
           fans: [{id: f1, power: 300 W, circuit: c1, switch: By the door}],
           shelter: {area: 200 sqft, open_ends: 1, floor: dirt, bedding: 4 in}}
        - {id: lot, name: Big lot, kind: pasture, route: 2,
           drinkers: [{id: d2, kind: trough, holds: 100 gal}, {id: d3, kind: bowl}],
           shade: [{kind: trees, area: 900 sqft}],
           wallow: {id: w1, shape: round, length: 8 ft, depth: 9 in, dug: 2026-05-02}}
        - {id: coop, name: Coop, kind: coop, route: 3,
           drinkers: [{id: d4, kind: bell, holds: 3 gal}]}
        - {id: hutch, name: Hutch, kind: coop, route: 4}
        """,
    "equipment.yaml": """
        water_sources:
          - {id: well, name: Well, kind: well, circuit: c1, shut_off: Lever}
          - {id: pond, name: Pond, kind: pond}
        tanks: [{id: t, name: Tank, holds: 300 gal, fed_by: well, where: Hill}]
        hoses:
          - {id: h1, inside: 3/4 in, length: 100 ft, sun: full, colour: dark, flow: 5 gal/min,
             fed_by: well, bypass: Valve}
        circuits: [{id: c1, breaker: 20 A, where: Box}]
        cords: [{id: k1, length: 50 ft, gauge: 12, feeds: f1}]
        generators: [{id: g, name: Gen, running: 3000 W, starting: 4000 W, runs: [well]}]
        products:
          - {id: bl, name: Bleach, kind: bleach, strength: 6 %}
          - {id: pe, name: Peroxide, kind: peroxide, strength: 3 %}
        feeds:
          - {id: pig-feed, name: Pig feed, scoop: Can, scoop_holds: 2 lb}
          - {id: layer, name: Layer feed}
        buckets: [{id: b, name: Bucket, holds: 5 gal}]
        """,
    "contacts.yaml": """
        - {name: Olive Owner, role: owner, phone: 555-0100}
        - {name: Dr. Vet, role: vet, phone: 555-0101}
        """,
}


def _written(folder: Path, files: Mapping[str, str]) -> Path:
    folder.mkdir()
    for name, text in files.items():
        (folder / name).write_text(dedent(text).removeprefix("\n"), encoding="utf-8")
    return folder


@pytest.fixture(scope="session")
def books(once: Once) -> Mapping[str, Book]:
    """Return the binders of the three farms: `example`, `least`, `every kind`."""
    return MappingProxyType(once("books", _composed))


def _composed(folder: Path) -> dict[str, Book]:
    farms = {
        "example": EXAMPLE,
        "least": _written(folder / "least", LEAST),
        "every kind": _written(folder / "every-kind", EVERY_KIND),
    }
    return {name: book_of(farm, DAY) for name, farm in farms.items()}


@pytest.fixture
def least() -> dict[str, str]:
    """Return the files of the least farm, to be changed and written by a test."""
    return dict(LEAST)
