"""Feed: rations, soaking, scoops, stock.

Rations are published ones, the source beside each. Halves, soaking and scoops: common
practice, no source, or arithmetic worked beside the check.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder import sources, units
from binder.farm.model import Animal, EquipmentFile, Farm, FarmFile
from binder.figures.entry import read_arguments
from binder.figures.feed import farm_feed
from binder.figures.feed.farm_feed import ENTRIES, FarmFeed, for_farm
from binder.figures.feed.feed_stock import feed_stock
from binder.figures.feed.meal import scoops, soak, soak_batches
from binder.figures.feed.ration import (
    dog_energy,
    is_dog_weight,
    ration,
    treats_cap,
)
from binder.figures.figure import NotPublishedError
from binder.figures.herd import groups
from binder.figures.published import rows
from binder.pages.text import words
from tests.figures.written import us

if TYPE_CHECKING:
    from binder.figures.figure import Figure

LB = 0.45359237
GAL = 3.785411784
DAY = dt.date(2026, 7, 14)


# --- published rations ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("cls", "pounds"),
    [
        ("gestating sow", 4), ("late-gestation sow", 4), ("dry sow", 4),  # husbandry-50
        ("gilt", 6), ("boar", 5.5),  # husbandry-50
        ("goat", 4), ("sheep", 4),  # husbandry-76, hay, the higher end
        ("weaned pig", 1),  # husbandry-70, grade C
    ],
)  # fmt: skip
def test_a_class_is_fed_as_published(cls: str, pounds: float) -> None:
    """Pounds a head a day as printed."""
    assert us(ration(cls)) == pytest.approx(pounds)


def test_a_sow_with_ten_pigs_eats_13_lb() -> None:
    """3 lb + 1 lb a pig (husbandry-51)."""
    assert us(ration("lactating sow", litter=10)) == pytest.approx(13)


def test_layers_eat_up_to_150_g() -> None:
    """100-150 g (husbandry-77); the working prints both ends."""
    found = ration("laying hen")
    assert units.convert(found.amount, "metric") == pytest.approx(0.150)
    low = dict(found.working[-1].values)["low"]
    assert isinstance(low, units.Amount)
    assert low.value == pytest.approx(0.100)


@pytest.mark.parametrize(
    ("kg", "expected"),
    [(46.7, 1.62), (64.6, 2.03), (83.5, 2.32), (102.5, 2.50)],
)
def test_a_growing_pig_eats_by_weight(kg: float, expected: float) -> None:
    """Daily feed by live weight (husbandry-73, table 3)."""
    assert ration("finisher", kg).amount.value == pytest.approx(expected)


@pytest.mark.parametrize(
    ("cls", "pounds", "expected"),
    [
        ("grower", 38, 2.2),  # husbandry-73, old station averages
        ("finisher", 450, 10),
        ("weaned pig", 38, 2.2),
        ("weaned pig", 37.9, 1),  # below the table: husbandry-70
    ],
)
def test_the_ends_of_the_table_by_weight(cls: str, pounds: float, expected: float) -> None:
    """38 lb 2.2 lb, 450 lb 10 lb (husbandry-73)."""
    assert us(ration(cls, pounds * LB)) == pytest.approx(expected)


def test_between_two_rows_lies_a_straight_line() -> None:
    """Halfway from 46.7 to 64.6 kg: halfway from 1.62 to 2.03 kg (derived)."""
    found = ration("grower", 55.65)
    assert found.amount.value == pytest.approx(1.825)
    said = {
        name: amount.value
        for name, amount in found.working[0].values
        if isinstance(amount, units.Amount)
    }
    assert (said["low_weight"], said["low"]) == pytest.approx((46.7, 1.62))
    assert (said["high_weight"], said["high"]) == pytest.approx((64.6, 2.03))


@pytest.mark.parametrize(("pounds"), [37.9, 450.1])
def test_no_ration_outside_the_table(pounds: float) -> None:
    """The message names the range."""
    with pytest.raises(NotPublishedError, match="from 17 to 204 kg only"):
        ration("grower", pounds * LB)


def test_a_doe_eats_two_per_cent_of_her_weight() -> None:
    """1.5-2 % of body weight (husbandry-76): 130 lb x 2 % = 2.6 lb."""
    assert us(ration("goat", 130 * LB)) == pytest.approx(2.6)


@pytest.mark.parametrize(
    ("cls", "weight", "litter", "expected"),
    [
        ("grower", None, None, "by weight only; give its weight"),
        ("lactating sow", None, None, "by her litter; give the litter"),
        ("broiler", None, None, "no ration is published here for a broiler"),
        ("broiler", 2.0, 3, "no ration is published here for a broiler"),
        ("hippo", None, None, 'nothing is published in ration for class "hippo"'),
    ],
)
def test_no_ration_is_made_up(
    cls: str, weight: float | None, litter: int | None, expected: str
) -> None:
    """What was not read is refused with the reason."""
    with pytest.raises(NotPublishedError, match=expected):
        ration(cls, weight, litter)


def test_a_dog_of_20_kg_rests_on_662_kcal() -> None:
    """70 x 20^0.75 (husbandry-76)."""
    assert dog_energy(20.0).amount.value == pytest.approx(662, abs=0.5)


@pytest.mark.parametrize(("kg", "known"), [(100.0, True), (100.1, False), (None, False)])
def test_a_dogs_energy_is_for_known_weights(kg: float | None, *, known: bool) -> None:
    """Up to 100 kg, that included: our choice of the range."""
    assert is_dog_weight(kg) is known


def test_treats_are_one_part_in_twenty() -> None:
    """5 % of the daily feed (husbandry-64): 45 x 150 g x 5 % = 337.5 g."""
    assert treats_cap(0.150, 45).amount.value == pytest.approx(0.3375)


# --- soaking and measuring ------------------------------------------------------------------


def test_a_pound_of_feed_at_three_to_one_carries_036_gal() -> None:
    """Water sourcebook, table 8 (derived there): 1 lb at 3:1 is 0.36 gal."""
    assert us(soak(1 * LB, 3)) == pytest.approx(0.36, abs=0.002)


def test_soaked_feed_carries_its_own_weight_of_water() -> None:
    """Common practice, no source: 1 kg takes 1 L at least; less is said."""
    assert soak(1.0, 1).amount.value == pytest.approx(1.0)
    assert "own-weight" not in soak(1.0, 1).cautions
    assert soak(1.0, 0.99).cautions[0] == "own-weight"


@pytest.mark.parametrize(
    ("pounds", "expected", "way"),
    [
        (4.5, "1 1/2", "even"), (2.5, "3/4", "down"), (2.7, "1", "up"), (3.0, "1", "even"),
        (0.01, "1/4", "up"), (6.5, "2 1/4", "up"), (3.375, "1 1/4", "up"),
    ],
)  # fmt: skip
def test_a_meal_is_given_in_quarter_scoops(pounds: float, expected: str, way: str) -> None:
    """To the nearest quarter of a 3 lb scoop, half a quarter up, at least one (our choice)."""
    found = scoops(pounds * LB, 3 * LB)
    assert (found.value, found.working[1].key) == (expected, way)


@pytest.mark.parametrize(
    ("pounds", "gallons", "expected"),
    [
        # 40 lb a cubic foot (extra-60, ground maize 0.64): 20 lb lie in half a cubic foot,
        # which is 3.74 gal; the water comes on top.
        (20, 2.4, "2"),  # 6.1 gal do not go into one bucket of 5, though the water would
        (20, 1.2, "1"),  # 4.94 gal do
        (2.5, 0.3, "1"),
        (53.5, 6.4, "4"),  # 10 + 6.4 = 16.4 gal
    ],
)
def test_a_bucket_holds_the_feed_and_its_water(
    pounds: float, gallons: float, expected: str
) -> None:
    """Batches in a bucket of 5 gallons, always whole ones."""
    assert soak_batches(pounds * LB, gallons * GAL, 5 * GAL).value == expected


def test_stock_is_ration_by_head_by_days() -> None:
    """8 pigs x 5 lb x 10 days = 400 lb."""
    found = feed_stock(5 * LB, 8, 10)
    assert us(found) == pytest.approx(400)
    assert [line.key for line in found.working] == ["head", "sum"]


@pytest.mark.parametrize(
    ("compute", "arguments"),
    [
        (soak, (-1.0, 1.0)), (soak, (1.0, 0.0)), (scoops, (-1.0, 1.0)), (scoops, (1.0, 0.0)),
        (soak_batches, (-1.0, 1.0, 1.0)), (soak_batches, (1.0, 1.0, 0.0)),
        (treats_cap, (-1.0, 1)), (feed_stock, (-1.0, 1, 1)),
    ],
)  # fmt: skip
def test_an_impossible_amount_is_refused(compute: type, arguments: tuple[float, ...]) -> None:
    """Nothing is fed backwards or measured in nothing."""
    with pytest.raises(ValueError, match="outside its range"):
        compute(*arguments)


# --- the farm -------------------------------------------------------------------------------

FEEDS = (
    {"id": "sow-feed", "name": "Sow pellets", "scoop": "Red", "scoop_holds": "3 lb",
     "on_hand": "50 lb"},
    {"id": "grower-feed", "name": "Grower pellets", "on_hand": "1000 lb"},
    {"id": "layer-feed", "name": "Layer crumble", "scoop_holds": "2 lb"},
    {"id": "meat-feed", "name": "Meat feed"},
    {"id": "spare", "name": "Spare"},
)  # fmt: skip
BUCKETS = ({"id": "big", "name": "Big", "holds": "5 gal"},
           {"id": "small", "name": "Small", "holds": "1 gal"})  # fmt: skip
CLEMENTINE = {"name": "Clementine", "species": "pig", "sex": "sow", "pen": "creek",
              "bred": "2026-05-01", "ration": "5 lb/day", "feed": "sow-feed",
              "soak": "1"}  # fmt: skip
GROWERS = {"group": "Growers", "species": "pig", "count": "8", "weight": "103 lb",
           "feed": "grower-feed"}  # fmt: skip
HENS = {"group": "Hens", "species": "chicken", "sex": "hen", "count": "45",
        "feed": "layer-feed"}  # fmt: skip
MEAT = {"group": "Meat birds", "species": "chicken", "purpose": "meat", "count": "25",
        "feed": "meat-feed"}  # fmt: skip
DOG = {"name": "Bramble", "species": "dog", "weight": "20 kg"}
SMALL_DOG = {"name": "Nettle", "species": "dog", "ration": "1 lb/day"}


def fed(
    *animals: dict[str, str],
    days: int | None = 10,
    buckets: tuple[dict[str, str], ...] = BUCKETS,
) -> FarmFeed:
    """Return the feed of an invented farm."""
    farm = Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}}),
        animals=tuple(Animal.model_validate(each) for each in animals),
        pens=(),
        equipment=EquipmentFile.model_validate({"feeds": FEEDS, "buckets": buckets}),
        contacts=(),
        stays=(),
    )
    return for_farm(farm, groups.for_farm(farm, DAY), days)


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


# --- words and sources ----------------------------------------------------------------------


def all_figures(found: FarmFeed) -> list[Figure]:
    """Return every figure of a farm's feed."""
    figures: list[Figure | None] = []
    for each in found.groups:
        figures += [each.ration, each.total, each.treats, each.energy]
        for meal in (each.morning, each.evening):
            if meal is not None:
                figures += [meal.feed, meal.scoops, meal.water, meal.batches]
    for item in found.stock:
        figures += [item.need, item.short]
    return [figure for figure in figures if figure is not None]


def test_all_of_it_can_be_said() -> None:
    """Words for every figure, line, caution and finding; sources are listed ones."""
    lexicon = words.load()
    nursing = {"name": "M", "species": "pig", "sex": "sow", "farrowed": "2026-07-01"}
    goat = {"name": "G", "species": "goat", "sex": "doe", "weight": "130 lb"}
    found = fed(CLEMENTINE, GROWERS, HENS, MEAT, DOG, nursing, goat)
    for each in found.findings:
        assert lexicon.text(each.words, **dict(each.values))
    for figure in all_figures(found):
        assert lexicon.title(figure)
        assert lexicon.value(figure)
        assert all(lexicon.working(figure))
        assert len(lexicon.cautions(figure)) == len(figure.cautions)
        assert set(figure.sources) <= set(sources.all_sources())
    for row in rows("ration"):
        for key in row.text("cautions").split():
            assert lexicon.text(f"ration.cautions.{key}")


ASKED = {
    "ration": {"class": "lactating sow", "litter": "10"},
    "treats-cap": {"ration": "5lb/day"},
    "dog-energy": {"weight": "20kg"},
    "soak": {"dry": "1lb"},
    "scoops": {"feed": "2.5lb", "scoop": "3lb"},
    "soak-batches": {"dry": "8lb", "water": "1gal", "bucket": "5gal"},
    "feed-stock": {"ration": "5lb/day", "count": "8", "days": "10"},
}


def test_every_figure_is_asked_for_by_name() -> None:
    """Every entry computes, has its words, and rests on listed sources."""
    assert {entry.name for entry in farm_feed.ENTRIES} == set(ASKED)
    lexicon = words.load()
    for entry in ENTRIES:
        found = entry.compute(**read_arguments(entry, ASKED[entry.name]))
        assert found.name == entry.name
        assert lexicon.title(found)
        assert all(lexicon.working(found))
        assert lexicon.text(f"{entry.name}.help")
        assert set(found.sources) <= set(sources.all_sources())


@pytest.mark.parametrize("table", ["ration", "feed_by_weight", "feed_rules"])
def test_every_row_names_listed_sources(table: str) -> None:
    """No row stands on a source that is not listed; every class has a row."""
    for each in rows(table):
        assert each.sources
        assert set(each.sources) <= set(sources.all_sources())
    listed = [each.text("class") for each in rows("classes")]
    assert [each.text("class") for each in rows("ration")] == listed
