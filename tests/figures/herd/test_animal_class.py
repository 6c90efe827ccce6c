"""What an animal is on a date for heat, water and feed.

Limits marked "our choice" are ours: the tests hold them still, they do not prove them.
"""

from __future__ import annotations

import datetime as dt

import pytest

from binder.farm.model import SPECIES
from binder.figures.herd.animal_class import class_on
from binder.figures.published import rows
from tests.figures.herd.animals import DAY, LB, days_before, figure, on
from tests.figures.written import printed


@pytest.mark.parametrize(
    ("pounds", "expected"),
    [
        (12.99, "suckling piglet"), (13, "weaned pig"), (44.99, "weaned pig"), (45, "grower"),
        (129.99, "grower"), (130, "finisher"), (250, "finisher"),
    ],
)  # fmt: skip
def test_a_pig_is_classed_by_weight(pounds: float, expected: str) -> None:
    """Starter 13-45 lb, grower 45-130 lb, finisher above (water-1)."""
    found = class_on("pig", "barrow", days_before(120), DAY, weight=pounds * LB)
    assert found.value == expected


@pytest.mark.parametrize(
    ("age", "expected"),
    [
        (27, "suckling piglet"), (28, "weaned pig"),  # weaned from 28 days, husbandry-79
        (69, "weaned pig"), (70, "grower"), (118, "grower"), (119, "finisher"),  # our choice
    ],
)  # fmt: skip
def test_a_pig_of_unknown_weight_is_classed_by_age(age: int, expected: str) -> None:
    """The ages at which the weights are usual (husbandry-70 and our choice)."""
    assert class_on("pig", "mixed", days_before(age), DAY).value == expected


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        (0, "gestating sow"), (84, "gestating sow"), (85, "late-gestation sow"),
        (120, "late-gestation sow"), (121, "lactating sow"), (170, "lactating sow"),
        (171, "dry sow"),
    ],
)  # fmt: skip
def test_a_mated_sow_is_classed_by_day(day: int, expected: str) -> None:
    """Late from about day 85 (husbandry-69), window to day 120 (husbandry-66).

    After the window she is expected to have farrowed on the due date; nursing counts for 56
    days (our choice).
    """
    sow = on(sex="sow", bred=days_before(day).isoformat())
    assert sow.cls == expected
    assert ("birth-not-recorded" in figure(sow, "class").cautions) == (day > 120)
    assert printed(sow.figures)


def test_a_birth_that_is_not_recorded_is_expected_with_a_litter() -> None:
    """Ten piglets are assumed and marked (our choice); the weaning follows the due date."""
    sow = on(sex="sow", bred=days_before(121).isoformat(), litter="8")
    assert sow.litter == 10
    assert "litter-not-recorded" in figure(sow, "class").cautions
    assert sow.dates == (
        ("no transport", days_before(6), days_before(-1)),
        (
            "weaning",
            days_before(6) + dt.timedelta(days=28),
            days_before(6) + dt.timedelta(days=49),
        ),
    )


def test_a_weaning_ends_an_expected_litter() -> None:
    """A weaning written after the due date is believed."""
    sow = on(sex="sow", bred="2026-03-01", weaned="2026-07-10")
    assert sow.cls == "dry sow"


@pytest.mark.parametrize(
    ("fields", "expected", "litter"),
    [
        ({"farrowed": "2026-07-01", "litter": "9"}, "lactating sow", 9),
        ({"farrowed": "2026-07-01"}, "lactating sow", 10),
        ({"farrowed": "2026-07-01", "litter": "0"}, "dry sow", 0),
        ({"farrowed": "2026-05-20", "litter": "9"}, "lactating sow", 9),
        ({"farrowed": "2026-05-19", "litter": "9"}, "dry sow", 0),
        ({"farrowed": "2026-06-01", "litter": "9", "weaned": "2026-07-14"}, "dry sow", 0),
        ({"farrowed": "2026-06-01", "litter": "9", "weaned": "2026-07-15"}, "lactating sow", 9),
        ({"farrowed": "2026-06-01", "litter": "9", "weaned": "2026-01-15"}, "lactating sow", 9),
        ({"farrowed": "2026-07-15", "litter": "9"}, "dry sow", 0),
        ({"farrowed": "2026-07-01", "bred": "2026-03-08"}, "lactating sow", 10),
        ({"farrowed": "2026-05-25", "bred": "2026-07-01"}, "gestating sow", 0),
    ],
)  # fmt: skip
def test_a_sow_is_classed_by_her_last_date(
    fields: dict[str, str], expected: str, litter: int
) -> None:
    """What happened last decides, and nothing that lies ahead does."""
    sow = on(sex="sow", **fields)
    assert (sow.cls, sow.litter) == (expected, litter)
    assert printed(sow.figures)


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        ({"sex": "gilt", "weight": "245 lb"}, "gilt"),
        ({"sex": "gilt", "weight": "245 lb", "purpose": "meat"}, "finisher"),
        ({"sex": "gilt", "weight": "100 lb"}, "grower"),
        ({"sex": "gilt"}, "gilt"),
        ({"sex": "gilt", "purpose": "meat"}, "finisher"),
        ({"sex": "gilt", "bred": "2026-07-01"}, "gestating sow"),
        ({"sex": "gilt", "farrowed": "2026-01-01"}, "dry sow"),
        ({"sex": "female", "purpose": "breeding"}, "gilt"),
        ({"sex": "female", "purpose": "breeding", "weight": "245 lb"}, "gilt"),
        ({"sex": "boar", "weight": "510 lb"}, "boar"),
        ({"sex": "boar", "born": "2022-04-20"}, "boar"),
        ({"sex": "boar", "born": "2026-06-01"}, "weaned pig"),
        ({"sex": "male", "purpose": "breeding", "weight": "300 lb"}, "boar"),
        ({"sex": "male", "purpose": "breeding"}, "boar"),
        ({"sex": "sow"}, "dry sow"),
        ({}, "finisher"),
        ({"born": "2026-06-25", "weaned": "2026-07-10", "weight": "14 lb"}, "weaned pig"),
    ],
)  # fmt: skip
def test_a_grown_pig_is_classed_by_sex_and_purpose(
    fields: dict[str, str], expected: str
) -> None:
    """Trade words; where nothing is known, the class that suffers most (our choice)."""
    assert on(**fields).cls == expected


@pytest.mark.parametrize(
    ("fields", "expected"),
    [
        ({"species": "chicken", "born": "2026-06-03"}, "chick"),
        ({"species": "chicken", "born": "2026-06-02"}, "pullet"),
        ({"species": "chicken", "born": "2026-02-25"}, "pullet"),
        ({"species": "chicken", "born": "2026-02-24", "sex": "pullet"}, "laying hen"),
        ({"species": "chicken", "sex": "hen"}, "laying hen"),
        ({"species": "chicken", "sex": "pullet"}, "pullet"),
        ({"species": "chicken", "sex": "rooster"}, "rooster"),
        ({"species": "chicken", "purpose": "meat", "born": "2026-06-24"}, "chick"),
        ({"species": "chicken", "purpose": "meat", "born": "2026-06-23"}, "broiler"),
        ({"species": "turkey", "born": "2026-06-20"}, "poult"),
        ({"species": "turkey"}, "turkey"),
        ({"species": "duck", "born": "2026-06-20"}, "duckling"),
        ({"species": "duck"}, "duck"),
        ({"species": "goat", "born": "2026-03-01"}, "kid"),
        ({"species": "goat", "sex": "doe"}, "goat"),
        ({"species": "goat", "sex": "doe", "purpose": "milk"}, "lactating goat"),
        ({"species": "goat", "sex": "doe", "farrowed": "2026-03-01"}, "lactating goat"),
        ({"species": "goat", "sex": "doe", "farrowed": "2026-03-01", "bred": "2026-06-01"},
         "lactating goat"),
        ({"species": "goat", "sex": "doe", "bred": "2026-06-01"}, "goat"),
        ({"species": "goat", "sex": "doe", "purpose": "milk", "farrowed": "2026-03-01",
          "weaned": "2026-05-01"}, "goat"),
        ({"species": "sheep", "born": "2026-03-01"}, "lamb"),
        ({"species": "sheep", "sex": "ewe", "farrowed": "2026-05-01"}, "lactating ewe"),
        ({"species": "sheep", "sex": "ewe", "farrowed": "2026-01-01"}, "sheep"),
        ({"species": "sheep", "sex": "ewe", "purpose": "milk"}, "lactating ewe"),
        ({"species": "sheep"}, "sheep"),
        ({"species": "cattle", "born": "2026-03-01"}, "calf"),
        ({"species": "cattle", "weight": "400 lb"}, "calf"),
        ({"species": "cattle", "sex": "bull"}, "bull"),
        ({"species": "cattle", "sex": "bull", "born": "2024-03-01"}, "bull"),
        ({"species": "cattle", "sex": "steer", "weight": "800 lb"}, "feeder cattle"),
        ({"species": "cattle", "born": "2025-06-01"}, "feeder cattle"),
        ({"species": "cattle", "sex": "cow", "purpose": "milk"}, "dairy cow"),
        ({"species": "cattle", "sex": "female", "purpose": "milk", "born": "2022-06-01"},
         "dairy cow"),
        ({"species": "cattle", "sex": "cow", "farrowed": "2026-05-01"}, "beef cow"),
        ({"species": "cattle"}, "beef cow"),
        ({"species": "horse"}, "horse"),
        ({"species": "rabbit", "bred": "2026-07-01"}, "rabbit"),
        ({"species": "dog", "sex": "male"}, "dog"),
    ],
)  # fmt: skip
def test_other_animals_are_classed(fields: dict[str, str], expected: str) -> None:
    """Age limits of young stock are our choice; the words are the trade's."""
    found = on(**fields)
    assert found.cls == expected
    assert printed(found.figures)


def test_every_animal_gets_a_listed_class() -> None:
    """Whatever is left out, a rule fits; and every rule leads to a class of its species."""
    listed = {each.text("class"): each.text("species") for each in rows("classes")}
    for species in SPECIES:
        assert listed[on(species=species).cls] == species
    for rule in rows("class_rules"):
        assert listed[rule.text("class")] == rule.text("species")
    assert set(listed) == {rule.text("class") for rule in rows("class_rules")}


def test_a_word_of_another_species_is_refused() -> None:
    """A pig is no hen."""
    with pytest.raises(ValueError, match='"hen" is not said of a pig; expected one of sow'):
        class_on("pig", "hen", None, DAY)


def test_a_day_before_birth_is_refused() -> None:
    """No age is negative."""
    with pytest.raises(ValueError, match="not before the birth"):
        class_on("pig", "gilt", DAY, days_before(1))
