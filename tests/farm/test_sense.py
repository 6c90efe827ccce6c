"""What contradicts itself although each part is written rightly."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder.farm import sense, tables
from binder.farm.model import SPECIES
from binder.units import parse

if TYPE_CHECKING:
    from tests.farm.conftest import Checked, Said


@pytest.mark.parametrize(
    ("animal", "expected"),
    [
        (
            "{species: pig}",
            (
                "animals.yaml:1:3  1: has neither name nor group; "
                "write name: for one animal, group: for several"
            ),
        ),
        (
            "{name: Daisy, group: Sows, species: pig}",
            (
                "animals.yaml:1:24  Daisy > group: stands beside a name; "
                "write name: for one animal, group: for several"
            ),
        ),
        (
            "{group: Hens, species: chicken}",
            "animals.yaml:1:3  Hens: count is missing; write it like count: 8",
        ),
        (
            "{name: Hens, species: chicken, count: 45}",
            (
                "animals.yaml:1:41  Hens > count: is more than 1, "
                "but a name is for one animal; write group: instead"
            ),
        ),
        (
            "{name: Daisy, species: goat, sex: ewe}",
            (
                'animals.yaml:1:37  Daisy > sex: "ewe" is not a word for a goat; '
                "write doe, buck, wether, female, male, mixed"
            ),
        ),
        (
            "{name: Duke, species: pig, sex: boar, bred: 2026-03-22}",
            "animals.yaml:1:47  Duke > bred: does not go with boar; write it with the mother",
        ),
        (
            "{name: Duke, species: pig, sex: boar, litter: 4}",
            "animals.yaml:1:49  Duke > litter: does not go with boar; write it with the mother",
        ),
        (
            "{name: Daisy, species: pig, litter: 70}",
            (
                "animals.yaml:1:39  Daisy > litter: 70 are more than one mother rears; "
                "30 at most"
            ),
        ),
        (
            "{name: Hilda, species: chicken, weight: 1900 kg}",
            (
                "animals.yaml:1:43  Hilda > weight: is no weight of one chicken, "
                "which weighs 0.5 oz to 20 lb; check the unit"
            ),
        ),
        (
            "{name: Daisy, species: pig, ration: 150 lb/day}",
            (
                "animals.yaml:1:39  Daisy > ration: is more than one pig eats; "
                "35 lb/day at most, for one"
            ),
        ),
        (
            "{group: Hens, species: chicken, count: -3}",
            'animals.yaml:1:42  Hens > count: "-3" is not a whole number; write it like 8',
        ),
        (
            "{name: [a], species: chicken}",
            ("animals.yaml:1:10  1 > name: is a list or mapping, but plain text belongs here"),
        ),
        (
            "{group: Hens, species: chicken, count: }",
            "animals.yaml:1:3  Hens: count is missing; write it like count: 8",
        ),
        (
            "{name: Daisy, species: pig, born: 2026-03-01, weighed: 2026-02-01}",
            (
                "animals.yaml:1:58  Daisy > weighed: 2026-02-01 lies before the day of birth, "
                "2026-03-01"
            ),
        ),
        (
            "{name: Daisy, species: pig, sex: sow, born: 2026-03-01, bred: 2025-03-01}",
            (
                "animals.yaml:1:65  Daisy > bred: 2025-03-01 lies before the day of birth, "
                "2026-03-01"
            ),
        ),
        (
            "{name: Daisy, species: pig, sex: sow, born: 2026-03-01, farrowed: 2025-03-01}",
            (
                "animals.yaml:1:69  Daisy > farrowed: 2025-03-01 lies before the day of birth, "
                "2026-03-01"
            ),
        ),
        (
            "{name: Daisy, species: pig, sex: sow, born: 2026-03-01, weaned: 2025-03-01}",
            (
                "animals.yaml:1:67  Daisy > weaned: 2025-03-01 lies before the day of birth, "
                "2026-03-01"
            ),
        ),
    ],
)
def test_an_animal_cannot_be_so(said: Said, animal: str, expected: str) -> None:
    """Names, counts, words for sex and dates of a life are held against each other."""
    assert said({"animals.yaml": f"- {animal}\n"}) == [expected]


def test_two_moves_on_one_day_cannot_be(said: Said) -> None:
    """Nobody lives in two pens from the same day on."""
    move = "{on: 2026-07-03, to: a}"
    (found,) = said({
        "animals.yaml": f"- {{name: Daisy, species: pig, moves: [{move}, {move}]}}\n",
        "pens.yaml": "- {id: a, name: A, kind: run}\n",
    })  # fmt: skip
    assert "2026-07-03 has two moves; write the last of them" in found


@pytest.mark.parametrize(
    "animal",
    [
        "{name: A, species: pig, sex: sow, farrowed: 2025-11-03, bred: 2026-03-22}",
        "{name: A, species: pig, sex: sow, bred: 2026-02-02, farrowed: 2026-05-28}",
        "{name: A, species: pig, born: 2026-03-01, weighed: 2026-03-01}",
        "{name: A, species: dog, sex: male, count: 1}",
        "{group: A, species: duck, sex: mixed, count: 1}",
    ],
)
def test_an_animal_can_be_so(checked: Checked, animal: str) -> None:
    """Bred again after farrowing, farrowed after being bred, weighed at birth: all may be."""
    assert len(checked({"animals.yaml": f"- {animal}\n"}).animals) == 1


def test_every_species_has_its_limits() -> None:
    """Each species has a row; what the example and the growth table hold lies inside."""
    limits = tables.by("animal_limits", "species")
    assert set(limits) == set(SPECIES)
    for species, row in tables.by("growth", "species").items():
        assert parse(row["adult"], "weight") < parse(limits[species]["heaviest"], "weight")
    for species, row in tables.by("gestation", "species").items():
        assert int(limits[species]["unrecorded"]) == int(row["last"]) + 7


def test_every_species_has_its_words() -> None:
    """The list of words covers each species, and no word for males is foreign to all."""
    words = sense.sexes()
    assert set(words) == set(SPECIES)
    assert {word for each in words.values() for word in each} >= sense.MALES
    assert all({"female", "male", "mixed"} <= set(each) for each in words.values())


@pytest.mark.parametrize(
    ("farm", "expected"),
    [
        (
            "place: {latitude: 31.5}",
            "farm.yaml:2:19  place > latitude: stands alone; write longitude too, or neither",
        ),
        (
            "place: {longitude: -82.1}",
            "farm.yaml:2:20  place > longitude: stands alone; write latitude too, or neither",
        ),
        (
            "place: {latitude: 31.5, longitude: 82.1, timezone: America/New_York}",
            (
                "farm.yaml:2:36  place > longitude: does not go with America/New_York, "
                "which lies about 40.7 and -74.0; check both, and the sign: south and west "
                "are below nought"
            ),
        ),
        (
            "place: x\nhot_day: {high: 75 F, low: 95 F, dew_point: 74 F}",
            "farm.yaml:3:28  hot_day > low: is warmer than the high of the same day",
        ),
        (
            "place: x\nextreme_day: {high: 95 F, low: 75 F, dew_point: 96 F}",
            (
                "farm.yaml:3:49  extreme_day > dew_point: is warmer than the high; "
                "air cannot hold that much water"
            ),
        ),
        (
            "place: x\nclimate: {july: {high: 95 F, low: 75 F, dew_point: 96 F}}",
            (
                "farm.yaml:3:52  climate > july > dew_point: is warmer than the high; "
                "air cannot hold that much water"
            ),
        ),
        (
            "place: x\nhot_day: {high: 123 F, low: 75 F, dew_point: 70 F}",
            (
                "farm.yaml:3:17  hot_day > high: is beyond the scale of danger for animals; "
                "122 F (50 C) at most"
            ),
        ),
        (
            "place: x\nextreme_day: {high: -5 F, low: -10 F, dew_point: -12 F}",
            "farm.yaml:3:21  extreme_day > high: is no hot day; write -4 F (-20 C) or more",
        ),
        (
            'place: x\nhot_day: {high: 95 F, low: 75 F, dew_point: 70 F, hottest_at: "9:00"}',
            (
                "farm.yaml:3:63  hot_day > hottest_at: is no hour of the hottest air; "
                "write one from 11:00 to 20:00"
            ),
        ),
    ],
)
def test_a_farm_cannot_be_so(said: Said, farm: str, expected: str) -> None:
    """Half a position is none, and no day is warmer at night than at noon."""
    assert said({"farm.yaml": f"name: Quiet Acre\n{farm}\n"}) == [expected]


@pytest.mark.parametrize(
    "day",
    [
        "hot_day: {high: 122 F, low: 75 F, dew_point: 70 F, hottest_at: '11:00'}",
        "extreme_day: {high: -4 F, low: -10 F, dew_point: -12 F, hottest_at: '20:00'}",
        "climate: {january: {high: -20 F, low: -40 F, dew_point: -40 F}}",
    ],
)
def test_weather_at_its_limits_is_taken(checked: Checked, day: str) -> None:
    """The ends of the livestock index's range [heat-97] count; a winter may be colder."""
    checked({"farm.yaml": f"name: Quiet Acre\nplace: x\n{day}\n"})


def test_a_wallow_is_not_refreshed_before_it_is_dug(said: Said, checked: Checked) -> None:
    """The day it was dug counts as refreshed; the day before does not."""
    pen = (
        "- {{id: creek, name: C, kind: run, wallow: {{id: w1, shape: round, length: 8 ft, "
        "depth: 9 in, dug: 2026-05-02, last_refreshed: {day}}}}}\n"
    )
    assert checked({"pens.yaml": pen.format(day="2026-05-02")}).pens[0].wallow is not None
    found = said({"pens.yaml": pen.format(day="2026-05-01")})
    assert len(found) == 1
    assert found[0].endswith("2026-05-01 lies before the day it was dug, 2026-05-02")


def test_a_stay_ends_no_earlier_than_it_begins(said: Said, checked: Checked) -> None:
    """A stay of one day is a stay."""
    stay = "- {{id: july, from: 2026-07-10, to: {day}, sitter: Sam}}\n"
    assert len(checked({"stays.yaml": stay.format(day="2026-07-10")}).stays) == 1
    found = said({"stays.yaml": stay.format(day="2026-07-09")})
    assert found == [
        "stays.yaml:1:36  july > to: 2026-07-09 lies before the first day, 2026-07-10"
    ]


def test_a_stay_is_a_season_at_most(said: Said, checked: Checked) -> None:
    """92 days are one, 93 are not: our choice."""
    stay = "- {{id: july, from: 2026-07-01, to: {day}, sitter: Sam}}\n"
    assert len(checked({"stays.yaml": stay.format(day="2026-09-30")}).stays) == 1
    assert said({"stays.yaml": stay.format(day="2026-10-01")}) == [
        "stays.yaml:1:36  july > to: makes 93 days; 92 are the most, so write two stays"
    ]


def test_a_stay_has_room_for_18_visits_a_day(said: Said, checked: Checked) -> None:
    """One more has no sheet number left: the next stay's begin there. A time counts once."""
    times = [f"'{minutes // 60:02}:{minutes % 60:02}'" for minutes in range(0, 19 * 60, 60)]
    stay = "- {{id: july, from: 2026-07-10, to: 2026-07-19, sitter: S, visits: [{visits}]}}\n"
    assert checked({"stays.yaml": stay.format(visits=", ".join([*times[:18], times[0]]))}).stays
    assert said({"stays.yaml": stay.format(visits=", ".join(times))}) == [
        "stays.yaml:1:67  july > visits: has 19 times; 18 visits a day are the most"
    ]
