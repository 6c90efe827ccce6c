"""The example farm has what the rest of the program is shown with."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from functools import lru_cache
from typing import TYPE_CHECKING

import pytest

from binder.data import CONTENT
from binder.farm.check import check
from binder.farm.load import read_folder

if TYPE_CHECKING:
    from binder.farm.model import Farm

ON = dt.date(2026, 6, 1)


@lru_cache(maxsize=1)
def example() -> Farm:
    """Return the example farm."""
    return check(read_folder(CONTENT / "example-farm"))


def test_the_herd_is_a_mixed_farm() -> None:
    """Two sows, a boar, two gilts, eight growers, 45 hens, 25 meat birds, six goats, a dog."""
    heads: Counter[tuple[str, str]] = Counter()
    for animal in example().animals:
        heads[animal.species, animal.purpose or ""] += animal.head
    by_sex = Counter(animal.sex for animal in example().animals if animal.species == "pig")
    assert (by_sex["sow"], by_sex["boar"], by_sex["gilt"]) == (2, 1, 2)
    assert heads["pig", "meat"] == 8
    assert (heads["chicken", "eggs"], heads["chicken", "meat"]) == (45, 25)
    assert sum(count for (species, _), count in heads.items() if species == "goat") == 6
    assert heads["dog", "guard"] == 1


def test_one_sow_is_due_within_the_july_stay() -> None:
    """115 days from first service (husbandry-66), which falls into the stay."""
    clementine = next(animal for animal in example().animals if animal.name == "Clementine")
    stay = next(stay for stay in example().stays if stay.id == "july")
    assert clementine.bred is not None
    assert stay.first <= clementine.bred + dt.timedelta(days=115) <= stay.last


def test_one_sow_has_a_litter_in_a_stall() -> None:
    """She farrowed in the last days of May, 115 days after she was bred."""
    marigold = next(animal for animal in example().animals if animal.name == "Marigold")
    assert marigold.bred is not None
    assert marigold.farrowed is not None
    assert (marigold.farrowed - marigold.bred).days == 115
    assert 0 < (ON - marigold.farrowed).days < 7
    assert marigold.litter
    assert example().pen(marigold.pen or "").kind == "stall"


def test_pens_wallows_and_fans() -> None:
    """Seven pens, two of them stalls with a fan each on one breaker, and three wallows."""
    pens = example().pens
    stalls = [pen for pen in pens if pen.kind == "stall"]
    assert len(pens) == 7
    assert len(stalls) == 2
    assert {fan.circuit for pen in stalls for fan in pen.fans} == {"barn-fans"}
    assert all(pen.fans for pen in stalls)
    wallows = [pen.wallow for pen in pens if pen.wallow]
    assert len(wallows) == 3
    ages = [(ON - wallow.last_refreshed).days for wallow in wallows if wallow.last_refreshed]
    assert sum(age > 14 for age in ages) == 1
    assert sorted(pen.route or 0 for pen in pens) == list(range(1, 8))
    assert {animal.pen for animal in example().animals} == {pen.id for pen in pens}


def test_water_power_and_products() -> None:
    """Hoses of different lengths, a 275-gal tank, a generator that is a little too small."""
    equipment = example().equipment
    surface = [hose.length_m for hose in equipment.hoses if hose.runs == "on the ground"]
    assert len(set(surface)) == len(surface) == 3
    assert any(hose.runs == "buried" for hose in equipment.hoses)
    assert equipment.tanks[0].holds_l == pytest.approx(275 * 3.785411784)
    [generator], [well] = equipment.generators, equipment.water_sources
    assert generator.starting_w is not None
    assert well.pump_w is not None
    # Starting takes three times the running power where no plate says otherwise (husbandry-46).
    assert generator.running_w > well.pump_w
    assert generator.starting_w < 3 * well.pump_w
    assert {product.kind: product.strength_pct for product in equipment.products} == {
        "bleach": 7.5,
        "peroxide": 3.0,
    }
    assert len(equipment.feeds) >= 5


def test_people() -> None:
    """Nine contacts, two stays; every number is one that rings nowhere (555-01xx)."""
    farm = example()
    assert len(farm.contacts) == 11
    assert len(farm.stays) == 2
    assert farm.stays[1].sleeps_here
    assert len(farm.stays[1].visits) > len(farm.stays[0].visits)
    numbers = [contact.phone for contact in farm.contacts]
    numbers += [contact.nights for contact in farm.contacts if contact.nights]
    numbers += [stay.phone for stay in farm.stays if stay.phone]
    assert all(number[-8:-2] == "555-01" for number in numbers)
    assert len(farm.codes) == 3


def test_weather_of_a_humid_coastal_plain() -> None:
    """A hot day of 95/75 F with dew point 74 F, a severe one of 101/78/75 F, twelve months."""
    about = example().about
    assert about.hot_day is not None
    assert about.extreme_day is not None
    assert len(about.climate) == 12
    assert about.hot_day.high_c == pytest.approx(35.0)
    assert about.extreme_day.high_c > about.hot_day.high_c
    assert about.place.timezone == "America/New_York"
    highs = [about.climate[month].high_c for month in about.climate]
    assert max(highs) == about.climate["july"].high_c


def test_some_things_are_not_recorded() -> None:
    """Readiness must have something to say: gaps of several kinds are left on purpose."""
    farm = example()
    drinkers = [drinker for pen in farm.pens for drinker in pen.drinkers]
    assert any(drinker.flow_l_min is None for drinker in drinkers)
    assert any(hose.flow_l_min is None for hose in farm.equipment.hoses)
    assert any(animal.weight_kg is None for animal in farm.animals)
    assert farm.equipment.generators[0].fuel_l_h is None
    assert farm.about.last_fan_cleaning is None
