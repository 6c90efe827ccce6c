"""The herd on a date: class, weight, stage and dates due.

Published dates and weights are those of the sources named beside them. Limits marked "our
choice" are ours: the tests hold them still, they do not prove them.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder import sources, units
from binder.farm.model import SPECIES, Animal, EquipmentFile, Farm, FarmFile, Pen
from binder.figures.entry import read_arguments
from binder.figures.figure import NotPublishedError
from binder.figures.herd import groups as herds
from binder.figures.herd.animal_class import class_on
from binder.figures.herd.breeding import boar_fertility, due_date, return_check, weaning
from binder.figures.herd.groups import ENTRIES, Group, group
from binder.figures.herd.weight import weight_on
from binder.figures.published import rows
from binder.pages.text import words
from tests.figures.written import printed, written_farm

if TYPE_CHECKING:
    from binder.figures.figure import Figure

LB = 0.45359237
DAY = dt.date(2026, 7, 14)


def days_before(days: int) -> dt.date:
    """Return the day so many days before the day asked about."""
    return DAY - dt.timedelta(days=days)


def animal(**fields: str) -> Animal:
    """Return an animal written as the owner would, a pig unless another species is given."""
    return Animal.model_validate({"name": "Test", "species": "pig", **fields})


def on(day: dt.date = DAY, /, **fields: str) -> Group:
    """Return the group of such an animal on a day."""
    return group(animal(**fields), day)


def figure(of: Group, name: str) -> Figure:
    """Return the named figure of a group."""
    return next(each for each in of.figures if each.name == name)


# --- published dates ------------------------------------------------------------------------


def test_a_sow_mated_on_1_may_is_due_on_24_august() -> None:
    """115 days on, normal from 20 to 29 August (husbandry-66)."""
    found = due_date("pig", dt.date(2026, 5, 1))
    assert found.value == "2026-08-24"
    assert dict(found.working[1].values)["first"] == "2026-08-20"
    assert dict(found.working[1].values)["last"] == "2026-08-29"


@pytest.mark.parametrize(
    ("species", "due", "first", "last"),
    [
        ("goat", "2026-09-28", "2026-09-23", "2026-10-03"),  # husbandry-76: 150 (145-155)
        ("sheep", "2026-09-25", "2026-09-22", "2026-09-30"),  # extra-9: 147 (144-152)
        ("cattle", "2027-02-04", "2027-01-26", "2027-02-14"),  # husbandry-71: 279 (270-289)
    ],
)
def test_other_mothers_are_due_when_published(
    species: str, due: str, first: str, last: str
) -> None:
    """Each species has its own length and window."""
    found = due_date(species, dt.date(2026, 5, 1))
    assert found.value == due
    assert dict(found.working[1].values)["first"] == first
    assert dict(found.working[1].values)["last"] == last


def test_no_due_date_is_made_up() -> None:
    """A species without a published gestation is refused, and the known ones are named."""
    with pytest.raises(NotPublishedError, match="for rabbit; there is one for pig, goat"):
        due_date("rabbit", DAY)


def test_return_to_heat_is_looked_for_18_to_24_days_on() -> None:
    """Mated 1 May: 19 to 25 May (husbandry-68); a cycle later 6 to 18 June (derived)."""
    found = return_check(dt.date(2026, 5, 1))
    assert found.value == "2026-05-19"
    assert dict(found.working[0].values)["last"] == "2026-05-25"
    assert dict(found.working[1].values) == {"first": "2026-06-06", "last": "2026-06-18"}


def test_piglets_of_1_may_are_weaned_from_29_may() -> None:
    """28 days is the earliest; organic herds wait 49 (husbandry-79)."""
    found = weaning(dt.date(2026, 5, 1))
    assert found.value == "2026-05-29"
    assert dict(found.working[1].values)["last"] == "2026-06-19"


def test_a_boar_is_doubtful_for_eight_weeks() -> None:
    """Up to eight weeks after a hot spell (husbandry-94)."""
    assert boar_fertility(dt.date(2026, 7, 1)).value == "2026-08-26"


def test_a_sow_mated_on_1_may_is_not_hauled_from_13_august() -> None:
    """Past 90 % of gestation, day 104 (husbandry-95)."""
    sow = on(dt.date(2026, 8, 1), sex="sow", bred="2026-05-01")
    dates = {name: (first, last) for name, first, last in sow.dates}
    assert dates["no transport"][0] == dt.date(2026, 8, 13)
    assert dates["farrowing"] == (dt.date(2026, 8, 20), dt.date(2026, 8, 25))  # husbandry-66
    assert dates["labor watch"][0] == dt.date(2026, 8, 18)  # our choice, day 109
    assert dates["overdue"][0] == dt.date(2026, 8, 26)  # past day 116, husbandry-97
    assert dates["move to farrowing"] == (  # 5-14 days ahead of the due date, husbandry-66
        dt.date(2026, 8, 10),
        dt.date(2026, 8, 19),
    )
    assert [first for _, first, _ in sow.dates] == sorted(first for _, first, _ in sow.dates)
    assert "return check" not in dates  # long over


def test_a_sow_is_due_or_overdue_but_never_both() -> None:
    """Due from day 111 (husbandry-66), overdue from 117 (husbandry-97), the last day 120."""
    bred = dt.date(2026, 5, 1)
    sow = on(dt.date(2026, 8, 1), sex="sow", bred="2026-05-01")
    expected = {111: "farrowing", 116: "farrowing", 117: "overdue", 120: "overdue"}
    for number, told in expected.items():
        day = bred + dt.timedelta(days=number)
        held = {name for name, first, last in sow.dates if first <= day <= last}
        assert held & {"farrowing", "overdue"} == {told}
        assert ("labor watch" in held) == (told == "farrowing")
    late = on(bred + dt.timedelta(days=118), sex="sow", bred="2026-05-01")
    assert "farrowing" not in [name for name, _, _ in late.dates]


# --- published weights ----------------------------------------------------------------------


def test_50_lb_and_106_days_make_220_lb() -> None:
    """50 + 106 x 1.6 = 219.6, printed 220 (husbandry-70)."""
    start = dt.date(2026, 1, 1)
    found = weight_on(50 * LB, start, 1.6 * LB, start + dt.timedelta(days=106), "pig")
    assert units.convert(found.amount, "us") == pytest.approx(219.6, abs=0.01)


def test_a_pig_without_a_gain_grows_at_the_published_one() -> None:
    """Published 1.5-1.8 lb a day, 1.6 in the example (husbandry-70): 62 + 55 x 1.6 = 150 lb."""
    found = weight_on(62 * LB, dt.date(2026, 5, 20), None, DAY, "pig")
    assert units.convert(found.amount, "us") == pytest.approx(150, abs=0.01)
    low, high = (dict(found.working[0].values)[name] for name in ("low", "high"))
    assert isinstance(low, units.Amount)
    assert isinstance(high, units.Amount)
    assert units.convert(low, "us") == pytest.approx(1.5)
    assert units.convert(high, "us") == pytest.approx(1.8)


def test_the_published_gain_stops_where_it_was_measured() -> None:
    """Heritage crosses followed to 275 lb (husbandry-74); no forecast goes on from there."""
    found = weight_on(200 * LB, days_before(100), None, DAY, "pig")
    assert units.convert(found.amount, "us") == pytest.approx(275)
    assert found.working[-1].key == "stops"


def test_an_own_gain_stops_at_an_adult_weight() -> None:
    """440 lb for a pig (our choice), but no animal shrinks to it."""
    grown = weight_on(300 * LB, days_before(300), 1.5 * LB, DAY, "pig")
    assert units.convert(grown.amount, "us") == pytest.approx(440)
    heavy = weight_on(510 * LB, days_before(300), 0.5 * LB, DAY, "pig")
    assert units.convert(heavy.amount, "us") == pytest.approx(510)


@pytest.mark.parametrize(
    ("weight", "species", "words_expected"),
    [
        (39.9, "pig", "published from 18 to 125 kg only"),
        (275.1, "pig", "published from 18 to 125 kg only"),
        (60.0, "goat", "no daily gain is published here for goat"),
    ],
)
def test_no_gain_is_made_up(weight: float, species: str, words_expected: str) -> None:
    """Outside the published range the farm's own gain is asked for."""
    with pytest.raises(NotPublishedError, match=words_expected):
        weight_on(weight * LB, days_before(10), None, DAY, species)


@pytest.mark.parametrize("weight", [40.0, 275.0])
def test_the_published_range_includes_its_ends(weight: float) -> None:
    """40 lb (husbandry-70) and 275 lb (husbandry-74) are inside."""
    kg = units.parse(f"{weight:g} lb", "weight")
    assert weight_on(kg, DAY, None, DAY).amount.value == pytest.approx(weight * LB)


def test_no_weight_is_reckoned_backwards() -> None:
    """A day before the weighing is refused."""
    with pytest.raises(NotPublishedError, match="before the weighing"):
        weight_on(62 * LB, DAY, None, days_before(1))


@pytest.mark.parametrize(
    ("fields", "pounds", "how"),
    [
        ({"weight": "420 lb", "sex": "sow"}, 420, "undated"),
        ({"weight": "62 lb", "weighed": "2026-07-14"}, 62, "weighed"),
        ({"weight": "62 lb", "weighed": "2026-07-20"}, 62, "weighed"),
        ({"weight": "62 lb", "weighed": "2026-07-04", "gain": "1 lb/day"}, 72, "own"),
        ({"weight": "62 lb", "weighed": "2026-07-04"}, 78, "published"),
        ({"weight": "40 lb", "weighed": "2026-07-04"}, 56, "published"),  # husbandry-70
        ({"weight": "400 lb", "weighed": "2026-01-04", "sex": "sow"}, 400, "grown"),
        ({"weight": "90 lb", "weighed": "2026-01-04", "purpose": "pet"}, 90, "grown"),
        ({"weight": "90 lb", "weighed": "2026-01-04", "born": "2024-01-04"}, 90, "grown"),
        ({"weight": "90 lb", "weighed": "2026-01-04", "farrowed": "2026-01-01"}, 90, "grown"),
        ({"weight": "12 lb", "weighed": "2026-06-30", "born": "2026-05-20"}, 12, "holds"),
        ({"weight": "30 lb", "species": "goat", "weighed": "2026-06-14", "born": "2026-03-01"},
         30, "holds"),
    ],
)  # fmt: skip
def test_weight_is_carried_on_as_far_as_it_may(
    fields: dict[str, str], pounds: float, how: str
) -> None:
    """The owner's gain, else the published one, else a weighing while it holds."""
    found = on(**fields)
    assert found.weight_kg == pytest.approx(pounds * LB)
    assert figure(found, "weight-on").working[0].key == how
    assert printed(found.figures)


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"weight": "12 lb", "weighed": "2026-06-29", "born": "2026-05-20"},
        {"weight": "30 lb", "species": "goat", "weighed": "2026-06-13", "born": "2026-03-01"},
    ],
)
def test_an_unknown_weight_stays_unknown(fields: dict[str, str]) -> None:
    """Never weighed, or weighed too long ago while growing: no weight."""
    found = on(**fields)
    assert found.weight_kg is None
    assert all(each.name != "weight-on" for each in found.figures)


# --- class ----------------------------------------------------------------------------------


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


# --- the herd -------------------------------------------------------------------------------


def farm(*animals: Animal) -> Farm:
    """Return an invented farm with these animals."""
    return written_farm(animals=animals)


def test_a_herd_knows_its_pens_and_classes() -> None:
    """Groups by pen, classes once, animals born later left out."""
    herd = herds.for_farm(
        farm(
            animal(name="A", sex="sow", pen="creek"),
            animal(group="B", count="8", weight="62 lb", pen="woods"),
            animal(name="C", sex="sow", pen="creek"),
            animal(name="D", born="2026-07-15", pen="creek"),
        ),
        DAY,
    )
    assert [each.animal.called for each in herd.in_pen("creek")] == ["A", "C"]
    assert herd.classes == ("dry sow", "grower")
    assert [each.count for each in herd.groups] == [1, 8, 1]
    assert herd.on == DAY


def test_a_sow_carries_her_figures_by_name() -> None:
    """Class, weight, due date and return check, each about her."""
    sow = on(name="Clementine", sex="sow", weight="420 lb", bred="2026-03-28")
    names = ["class", "weight-on", "due-date", "return-check"]
    assert [each.key for each in sow.figures] == [f"{name}.Clementine" for name in names]


def test_other_mothers_have_a_due_date_but_no_sow_dates() -> None:
    """A doe: due date only; nursing: nothing, since no weaning age was read for kids."""
    doe = on(species="goat", sex="doe", bred="2026-06-01")
    assert [each.name for each in doe.figures] == ["class", "due-date"]
    assert [name for name, _, _ in doe.dates] == ["labor watch", "kidding"]
    nursing = on(species="goat", sex="doe", farrowed="2026-06-01")
    assert [each.name for each in nursing.figures] == ["class"]


# --- asked for by name ----------------------------------------------------------------------

ASKED = {
    "class": {"species": "pig", "sex": "gilt", "born": "2025-10-05", "date": "2026-07-14",
              "weight": "245lb"},
    "due-date": {"species": "pig", "bred": "2026-05-01"},
    "return-check": {"bred": "2026-05-01"},
    "weaning": {"farrowed": "2026-05-01"},
    "boar-fertility": {"hot_spell_ended": "2026-07-01"},
    "weight-on": {"weight": "50lb", "weighed": "2026-01-01", "gain": "1.6lb/day",
                  "date": "2026-04-17"},
}  # fmt: skip


def test_a_class_is_asked_for_without_birthday_or_weight() -> None:
    """A sow is one by her sex: dry, as nothing says that she was mated."""
    (entry,) = [entry for entry in ENTRIES if entry.name == "class"]
    given = {"species": "pig", "sex": "sow", "date": "2026-07-14"}
    assert entry.compute(**read_arguments(entry, given)).value == "dry sow"


def test_every_figure_is_asked_for_by_name() -> None:
    """Every entry computes, has its words, and rests on listed sources."""
    assert {entry.name for entry in ENTRIES} == set(ASKED)
    lexicon = words.load()
    for entry in ENTRIES:
        found = entry.compute(**read_arguments(entry, ASKED[entry.name]))
        assert found.name == entry.name
        assert printed((found,))
        assert lexicon.text(f"{entry.name}.help")
        assert set(found.sources) <= set(sources.all_sources())


def test_every_event_has_words() -> None:
    """The calendar can say every event."""
    lexicon = words.load()
    for event in rows("breeding_events"):
        assert lexicon.text(f"breeding-events.{event.text('event')}")


@pytest.mark.parametrize(
    "table",
    [
        "classes",
        "class_rules",
        "sex_words",
        "gestation",
        "breeding_events",
        "growth",
        "hot_spell",
    ],
)
def test_every_row_names_listed_sources(table: str) -> None:
    """No row stands on a source that is not listed."""
    for each in rows(table):
        assert each.sources
        assert set(each.sources) <= set(sources.all_sources())


# --- planned moves -------------------------------------------------------------------------


def farm_with(moves: list[dict[str, str]]) -> Farm:
    """Return a farm with a sow bred on 22 March 2026, and a farrowing pen."""
    sow = {"name": "Sow", "species": "pig", "sex": "sow", "pen": "creek", "born": "2023-01-01",
           "bred": "2026-03-22", "moves": moves}  # fmt: skip
    pens = [{"id": "creek", "name": "Creek", "kind": "pasture"},
            {"id": "stall", "name": "Stall", "kind": "stall", "farrowing": "yes"}]  # fmt: skip
    return Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}}),
        animals=(Animal.model_validate(sow),),
        pens=tuple(Pen.model_validate(pen) for pen in pens),
        equipment=EquipmentFile.model_validate({}),
        contacts=(),
        stays=(),
    )


def to_stall(found: Group) -> list[tuple[dt.date, dt.date]]:
    """Return when she is to be moved to where she gives birth."""
    return [(first, last) for event, first, last in found.dates if event == "move to farrowing"]


def test_an_animal_is_where_its_last_move_took_it() -> None:
    """Creek until 2 July, the stall from 3 July on, creek again from 1 August, in any order."""
    moves = [{"on": "2026-08-01", "to": "creek"}, {"on": "2026-07-03", "to": "stall"}]
    a_farm = farm_with(moves)
    days = [dt.date(2026, 7, 2), dt.date(2026, 7, 3), dt.date(2026, 7, 31), dt.date(2026, 8, 1)]
    pens = [herds.for_farm(a_farm, day).groups[0].pen for day in days]
    assert pens == ["creek", "stall", "stall", "creek"]


def test_who_is_in_a_farrowing_pen_is_not_to_be_moved_there() -> None:
    """Planned for 3 July: due on that day until then, and done from then on."""
    a_farm = farm_with([{"on": "2026-07-03", "to": "stall"}])
    planned = dt.date(2026, 7, 3)
    before = herds.for_farm(a_farm, dt.date(2026, 7, 2)).groups[0]
    assert to_stall(before) == [(planned, planned)]
    assert to_stall(herds.for_farm(a_farm, planned).groups[0]) == []
    unplanned = herds.for_farm(farm_with([]), dt.date(2026, 7, 2)).groups[0]
    assert len(to_stall(unplanned)) == 1
