"""What a farm feeds on a date, and what it has to lay in."""

from __future__ import annotations

import datetime as dt

import pytest

from binder.farm.model import Animal, EquipmentFile, Farm, FarmFile
from binder.figures.feed import farm_feed
from binder.figures.feed.farm_feed import for_farm
from binder.figures.herd import groups
from tests.figures.feed.fed import (
    BUCKETS,
    CLEMENTINE,
    DAY,
    DOG,
    FEEDS,
    GAL,
    GROWERS,
    HENS,
    LB,
    MEAT,
    fed,
)
from tests.figures.written import us

SMALL_DOG = {"name": "Nettle", "species": "dog", "ration": "1 lb/day"}


def test_the_owners_ration_wins_and_is_halved() -> None:
    """5 lb a day: 2.5 lb each meal, 3/4 of a 3 lb scoop, its own weight of water."""
    (sow,) = fed(CLEMENTINE).groups
    assert sow.ration is not None
    assert us(sow.ration) == pytest.approx(5)
    assert sow.ration.working[0].key == "own"
    assert sow.ration.cautions == ("condition", "never-skip")
    for meal, when in ((sow.morning, "morning"), (sow.evening, "evening")):
        assert meal is not None
        assert meal.feed.subject == f"Clementine, {when}"
        assert us(meal.feed) == pytest.approx(2.5)
        assert meal.scoops is not None
        assert meal.scoops.value == "3/4"
        assert meal.water is not None
        assert us(meal.water) == pytest.approx(2.5 * LB / GAL)
        assert meal.bucket is not None
        assert meal.bucket.name == "Small"
        assert meal.batches is not None
        assert meal.batches.value == "1"  # 0.47 gal of pellets and 0.30 gal of water in 1 gal


SOW = {**CLEMENTINE, "bred": "2026-03-22", "weighed": "2026-05-18", "weight": "420 lb"}


def fed_on(day: dt.date, animal: dict[str, str]) -> farm_feed.GroupFeed:
    """Return what one entry is fed on a day."""
    farm = Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}}),
        animals=(Animal.model_validate(animal),),
        pens=(),
        equipment=EquipmentFile.model_validate({"feeds": FEEDS, "buckets": BUCKETS}),
        contacts=(),
        stays=(),
    )
    (one,) = for_farm(farm, groups.for_farm(farm, day)).groups
    return one


def test_a_ration_written_in_pregnancy_does_not_feed_a_litter() -> None:
    """3 lb and 1 lb a pig (husbandry-51), ten where none are counted: not the owner's 5 lb."""
    bred = fed_on(dt.date(2026, 7, 10), SOW)
    assert bred.ration is not None
    assert us(bred.ration) == pytest.approx(5)
    nursing = fed_on(dt.date(2026, 7, 28), SOW)
    assert nursing.group.cls == "lactating sow"
    assert nursing.ration is not None
    assert us(nursing.ration) == pytest.approx(3 + nursing.group.litter)
    assert nursing.group.litter >= 8
    assert nursing.ration.cautions[0] == "ask-owner"
    assert nursing.ration.working[0].key == "own_other"


def test_a_ration_written_for_a_litter_ends_with_it() -> None:
    """13 lb for nine pigs; dried off she gets 4 lb (husbandry-50) and the owner is asked."""
    sow = {**CLEMENTINE, "farrowed": "2026-05-28", "litter": "9", "ration": "13 lb/day"}
    with_litter, dry = fed_on(dt.date(2026, 6, 1), sow), fed_on(dt.date(2026, 8, 14), sow)
    assert with_litter.ration is not None
    assert us(with_litter.ration) == pytest.approx(13)
    assert dry.group.cls == "dry sow"
    assert dry.ration is not None
    assert us(dry.ration) == pytest.approx(4)
    assert "ask-owner" in dry.ration.cautions


def test_a_ration_nobody_dated_holds() -> None:
    """A boar is fed what his owner wrote, whatever he was as a piglet."""
    boar = {"name": "Hector", "species": "pig", "sex": "boar", "born": "2022-04-20",
            "ration": "6 lb/day"}  # fmt: skip
    found = fed_on(DAY, boar)
    assert found.ration is not None
    assert us(found.ration) == pytest.approx(6)


def test_meat_birds_eat_more_as_they_grow() -> None:
    """water-42: 180 mL at three weeks, 370 mL at eight; feed goes with it (extra-61)."""
    birds = {"group": "Meat birds", "species": "chicken", "purpose": "meat", "count": "25",
             "born": "2026-05-08", "weighed": "2026-05-29", "weight": "1.5 lb",
             "gain": "0.08 lb/day", "ration": "0.25 lb/day"}  # fmt: skip
    young, grown = fed_on(dt.date(2026, 5, 29), birds), fed_on(dt.date(2026, 8, 1), birds)
    assert young.ration is not None
    assert us(young.ration) == pytest.approx(0.25)
    assert grown.ration is not None
    assert us(grown.ration) == pytest.approx(0.25 * 370 / 180)


def test_a_nursing_sow_keeps_a_late_meal_and_gets_it_dry() -> None:
    """extra-34 (Choi 2019): a meal at 22:00, more eaten. Soaked, it would sour over night."""
    (sow,) = fed({**CLEMENTINE, "bred": "2026-03-01", "farrowed": "2026-07-01",
                  "litter": "10"}).groups  # fmt: skip
    assert sow.group.cls == "lactating sow"
    assert sow.morning is not None
    assert sow.evening is not None
    assert sow.morning.water is not None
    assert (sow.morning.late, sow.evening.late) == (False, True)
    assert (sow.evening.water, sow.evening.batches) == (None, None)
    assert sow.evening.feed.amount == sow.morning.feed.amount


def test_a_published_ration_stands_where_the_owner_left_it_out() -> None:
    """8 growers of 103 lb eat 3.6 lb each (husbandry-73): dry, and no scoop is recorded."""
    found = fed(GROWERS)
    (group,) = found.groups
    assert group.total is not None
    assert us(group.total) == pytest.approx(8 * 3.57, rel=0.005)
    assert group.morning is not None
    assert (group.morning.scoops, group.morning.water, group.morning.batches) == (None,) * 3
    assert [each.key for each in found.findings] == ["no-scoop"]


def test_birds_are_filled_up_once_a_day() -> None:
    """45 hens x 150 g in the morning, no evening meal (our choice)."""
    (hens,) = fed(HENS).groups
    assert hens.morning is not None
    assert hens.morning.feed.amount.value == pytest.approx(45 * 0.150)
    assert hens.evening is None
    assert hens.treats is not None


def test_what_nobody_knows_stays_unknown() -> None:
    """No ration for meat birds: nothing is reckoned, and it is said."""
    found = fed(MEAT)
    (birds,) = found.groups
    assert (birds.ration, birds.total, birds.morning, birds.treats) == (None,) * 4
    assert [each.key for each in found.findings] == ["no-ration", "stock-unknown"]


def test_a_dog_has_its_energy_printed() -> None:
    """By weight where it is known (husbandry-76), whatever the ration."""
    dog, small = fed(DOG, SMALL_DOG).groups
    assert dog.energy is not None
    assert us(dog.energy) == pytest.approx(662, abs=0.5)
    assert small.energy is None
    assert small.ration is not None


def test_hay_is_never_measured_out_as_grain() -> None:
    """2 % of a doe's weight is hay in all (husbandry-76): no scoops, no stock of pellets."""
    doe = {"name": "Doe", "species": "goat", "sex": "doe", "weight": "130 lb",
           "feed": "meat-feed"}  # fmt: skip
    found = fed(doe)
    (goat,) = found.groups
    assert goat.total is not None
    assert us(goat.total) == pytest.approx(2.6)
    assert (goat.morning, goat.evening, goat.treats) == (None,) * 3
    assert [each.key for each in found.findings] == ["hay-only", "stock-unknown"]
    own = fed({**doe, "ration": "1 lb/day"})
    assert own.groups[0].morning is not None
    assert own.stock[3].need is not None
    assert us(own.stock[3].need) == pytest.approx(10)


def test_a_herd_without_a_bucket_has_none_named() -> None:
    """Water is still given in gallons; too much for any bucket goes into the largest."""
    (sow,) = fed(CLEMENTINE, buckets=()).groups
    assert sow.morning is not None
    assert sow.morning.water is not None
    assert (sow.morning.bucket, sow.morning.batches) == (None, None)
    (many,) = fed({**CLEMENTINE, "count": "40"}).groups  # 100 lb: 12 gal
    assert many.morning is not None
    assert many.morning.bucket is not None
    assert many.morning.bucket.name == "Big"


def test_groups_are_found_by_pen() -> None:
    """Only those that live there."""
    found = fed(CLEMENTINE, HENS)
    assert [each.group.animal.called for each in found.in_pen("creek")] == ["Clementine"]


def test_stock_is_what_the_feed_sheet_feeds() -> None:
    """One amount everywhere: the ration on the sheet, by head, by days.

    Sow: 10 days x 5 lb = 50 lb, 50 on hand. Hens: 45 x 150 g x 10 = 67.5 kg, not counted.
    """
    found = fed(CLEMENTINE, GROWERS, HENS, MEAT)
    by_feed = {each.feed.id: each for each in found.stock}
    sow = by_feed["sow-feed"]
    assert sow.need is not None
    assert us(sow.need) == pytest.approx(50)
    assert sow.short is not None
    assert us(sow.short) == 0
    growers = by_feed["grower-feed"]
    assert growers.need is not None
    fed_a_day = next(
        each for each in found.groups if each.feed and each.feed.id == "grower-feed"
    )
    assert fed_a_day.total is not None
    assert us(growers.need) == pytest.approx(10 * us(fed_a_day.total))
    assert growers.short is not None
    assert us(growers.short) == 0
    hens = by_feed["layer-feed"]
    assert hens.need is not None
    assert hens.need.amount.value == pytest.approx(67.5)
    assert hens.short is None
    assert by_feed["meat-feed"].need is None
    assert by_feed["meat-feed"].unknown == ("Meat birds",)
    assert (by_feed["spare"].need, by_feed["spare"].unknown) == (None, ())
    keys = {(each.key, each.subject) for each in found.findings}
    assert keys == {
        ("no-scoop", "Growers"), ("no-ration", "Meat birds"),
        ("not-counted", "layer-feed"), ("stock-unknown", "meat-feed"),
    }  # fmt: skip


def test_an_owner_who_feeds_more_is_believed() -> None:
    """20 lb a day is over every published figure: 10 days are 200 lb."""
    found = fed({**CLEMENTINE, "ration": "20 lb/day"})
    need = found.stock[0].need
    assert need is not None
    assert us(need) == pytest.approx(200)


def test_no_stock_is_reckoned_without_days() -> None:
    """Pages that need no stock ask for none."""
    assert fed(CLEMENTINE, days=None).stock == ()
