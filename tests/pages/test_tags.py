"""What a farm has, as the words that choose its sheets."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.figures import work_out
from binder.pages.tags import tags
from tests.pages.conftest import DAY

if TYPE_CHECKING:
    from tests.conftest import FarmFolder


class TagsOf(Protocol):
    """Tells the tags of the least farm with some files changed."""

    def __call__(self, **changes: str) -> frozenset[str]:
        """Return the tags; a change is named by its file, without `.yaml`."""


@pytest.fixture
def tags_of(farm_folder: FarmFolder, least: dict[str, str]) -> TagsOf:
    """Return a function that tells the tags of the least farm with some files changed."""

    def found(**changes: str) -> frozenset[str]:
        more = {f"{name}.yaml": text for name, text in changes.items()}
        written = read_folder(farm_folder(least | more))
        farm = check(written)
        return tags(farm, work_out(farm, DAY, written.weather).herd)

    return found


def test_least_farm(tags_of: TagsOf) -> None:
    """Three pigs in a paddock are three pigs in a paddock."""
    assert tags_of() == {"pig", "dry sow", "gilt", "finisher", "pasture"}


@pytest.mark.parametrize(
    ("animal", "wanted"),
    [
        ("species: chicken, sex: hen, purpose: eggs, count: 3", {"chicken", "poultry"}),
        ("species: turkey, sex: tom, count: 3", {"turkey", "poultry"}),
        ("species: duck, count: 3", {"duck", "poultry"}),
        ("species: goat, sex: doe", {"goat"}),
        ("species: dog, sex: male", {"dog"}),
        ("species: pig, sex: boar", {"pig", "boar"}),
        ("species: pig, sex: sow, bred: 2026-04-20", {"gestating sow", "due"}),
        ("species: pig, sex: sow, bred: 2026-03-22", {"late-gestation sow", "due"}),
        (
            "species: pig, sex: sow, farrowed: 2026-07-01, litter: 9",
            {"lactating sow", "litter"},
        ),
        ("species: pig, sex: gilt, soak: 2, feed: f", {"soaked feed"}),
    ],
)
def test_animals(tags_of: TagsOf, animal: str, wanted: set[str]) -> None:
    """An animal brings its species, its class on the day, and what comes with it."""
    called = "group" if "count" in animal else "name"
    found = tags_of(
        animals=f"- {{{called}: This, pen: lot, {animal}}}\n",
        equipment="feeds: [{id: f, name: Feed}]\n",
    )
    assert wanted <= found
    assert "dry sow" not in found


@pytest.mark.parametrize(
    ("pen", "wanted"),
    [
        ("kind: stall", {"stall"}),
        ("kind: coop", {"coop"}),
        (
            "kind: run, wallow: {id: w, shape: round, length: 8 ft, depth: 9 in}",
            {"run", "wallow"},
        ),
        ("kind: run, fans: [{id: f, power: 300 W}]", {"fan"}),
        (
            "kind: run, drinkers: [{id: d, kind: bell}, {id: e, kind: nipple}]",
            {"bell", "nipple"},
        ),
    ],
)
def test_pens(tags_of: TagsOf, pen: str, wanted: set[str]) -> None:
    """A pen brings its kind and what is in it."""
    assert wanted <= tags_of(pens=f"- {{id: lot, name: The lot, {pen}}}\n")


@pytest.mark.parametrize(
    ("equipment", "wanted"),
    [
        ("hoses: [{id: h, inside: 3/4 in, length: 50 ft}]", {"hose"}),
        ("tanks: [{id: t, name: Tank, holds: 300 gal}]", {"tank"}),
        ("generators: [{id: g, name: Gen, running: 3000 W, starting: 4000 W}]", {"generator"}),
        ("circuits: [{id: c, breaker: 20 A}]", {"circuit"}),
        ("cords: [{id: k, length: 50 ft, gauge: 12}]", {"cord"}),
        ("buckets: [{id: b, name: Bucket, holds: 5 gal}]", {"bucket"}),
        ("water_sources: [{id: s, name: Pond, kind: pond}]", {"pond"}),
        ("products: [{id: p, name: Bleach, kind: bleach, strength: 6 %}]", {"bleach"}),
    ],
)
def test_equipment(tags_of: TagsOf, equipment: str, wanted: set[str]) -> None:
    """Equipment brings its kind."""
    assert wanted <= tags_of(equipment=equipment + "\n")


def test_eggs_and_stays(tags_of: TagsOf) -> None:
    """What the owner says of eggs and of sitters counts too."""
    found = tags_of(
        farm="name: Small Place\nplace: {address: 1 Dry Road}\neggs: Into the porch\n",
        stays="- {id: s, from: 2026-07-10, to: 2026-07-19, sitter: Sam}\n",
    )
    assert {"eggs", "stay"} <= found
