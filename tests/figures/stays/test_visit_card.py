"""What one visit asks: which of the owner's tasks, who is fed, when not, and the minutes.

No source gives a sitter's minutes or visits: the rules are our choice and held still here. That
pigs in great heat are not fed is common practice; that birds keep their feed is husbandry-64.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from binder.figures import published
from binder.figures.day.feeding_hours import feed_up_to
from binder.figures.rounds import farm_rounds
from binder.figures.rules import rule
from binder.figures.stays import stay_meals
from binder.figures.stays.visits import fed_when, visit_rest
from binder.pages.text import words
from tests.figures.stays.test_stays import BOAR, COOL, case, farm

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.stays.plan import Visit

DAY = [6.5, 13.0, 19.0]
LONG_DAY = [6.0, 9.5, 12.0, 14.0, 16.0, 18.0, 20.5]
FED: Mapping[str, Any] = {**BOAR, "ration": "6 lb/day"}
GOAT: Mapping[str, Any] = {
    "name": "Pepper", "species": "goat", "sex": "wether", "weight": "120 lb", "pen": "creek",
}  # fmt: skip
DOG: Mapping[str, Any] = {
    "name": "Bramble", "species": "dog", "sex": "male", "weight": "112 lb", "pen": "creek",
}  # fmt: skip
HENS: Mapping[str, Any] = {
    "group": "Hens", "species": "chicken", "sex": "hen", "count": "40", "pen": "creek",
    "born": "2025-01-01",
}  # fmt: skip


def rows_min(visit: Visit) -> float:
    """Return the minutes of every row of a visit's card [min]."""
    tasks = sum(task.minutes for each in visit.tasks.values() for task in each)
    return tasks + visit.feed_min * len(visit.fed) + sum(task.minutes for task in visit.last)


# --- the owner's own tasks -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("Fill the hay rack", {6.5}),
        ("Open the small door at first light", {6.5}),
        ("Look at the fence in the evening", {19.0}),
        ("Shut the small door at DUSK.", {19.0}),
        ("Mist the roof at noon", {13.0}),
        ("Midday: a frozen bottle for the rabbits", {13.0}),
        ("Collect in the morning and at noon", {6.5, 13.0}),
        ("Check the fence at every visit", {6.5, 13.0, 19.0}),
        ("Scrub the nightshade off the fence", {6.5}),  # no whole word of ours in it
    ],
)
def test_a_task_is_done_at_the_visit_its_words_name(text: str, hours: set[float]) -> None:
    """The first where they name none (task_times.csv, our choice)."""
    assert visit_rest.visits_for(text, DAY) == hours


def test_noon_is_the_visit_nearest_to_midday() -> None:
    """Of seven visits that at twelve; of one, that one."""
    assert visit_rest.visits_for("Mist the roof at noon", LONG_DAY) == {12.0}
    assert visit_rest.visits_for("Mist the roof at noon", [7.0]) == {7.0}


def test_an_owners_task_comes_once_a_day() -> None:
    """Of three visits one has it, and only that one takes its minutes."""
    pen = {"tasks": ["Fill the hay rack", "Shut the small door at dusk"], "wallow": None,
           "drinkers": [{"id": "d1", "kind": "nipple", "count": "2"}]}  # fmt: skip
    visits = case(farm(pens=[pen], animals=[FED])).plan.visits
    own = [
        [task.text for task in visit.tasks["creek"] if task.key == "own"] for visit in visits
    ]
    assert own == [["Fill the hay rack"], [], ["Shut the small door at dusk"]]
    assert [visit.work.amount.value for visit in visits] == [9.5, 5.5, 9.5]


def test_every_word_names_a_visit_that_there_is() -> None:
    """And every row says that it is ours."""
    rows = published.rows("task_times")
    assert {row.text("visit") for row in rows} == {"first", "middle", "last", "every"}
    assert all(row.sources == ("our-choice",) for row in rows)


# --- minutes -------------------------------------------------------------------------------


def test_the_rows_of_a_card_add_up_to_its_minutes() -> None:
    """To the last half minute, with feed, eggs, leftovers and walking."""
    pens: list[Mapping[str, Any]] = [
        {"tasks": ["Fill the hay rack"]},
        {"id": "woods", "name": "Woods", "wallow": None, "route": "2"},
    ]
    animals = [{**FED, "soak": "1"}, {**FED, "name": "Bert", "pen": "woods"}, HENS]
    visits = case(
        farm(pens=pens, animals=animals, about={"eggs": "Collect at noon."})
    ).plan.visits
    assert [[task.key for task in visit.last] for visit in visits] == [
        ["leftovers", "boots", "walk"], ["boots", "walk"], ["leftovers", "boots", "walk"],
    ]  # fmt: skip
    # Eggs are gathered where the hens are, and birds are counted in on the last card alone.
    hens = [
        [
            task.key
            for todo in visit.tasks.values()
            for task in todo
            if task.key in ("eggs", "dusk")
        ]
        for visit in visits
    ]
    assert hens == [[], ["eggs"], []]
    for visit in visits:
        assert rows_min(visit) == visit.work.amount.value
        assert visit.work.amount.value % 0.5 == 0
    assert visits[0].last[-1].minutes == 6.0  # 3 min to each of two pens
    said = "\n".join(words.load().working(visits[0].work))
    assert "Eggs, what is left of soaked feed, taps to close, boots" in said


# --- who is fed ----------------------------------------------------------------------------


def test_who_has_no_ration_on_record_stands_on_the_card_all_the_same() -> None:
    """A dog without a ration, for which none is published, at both meals; at noon nobody."""
    visits = case(farm(animals=[DOG])).plan.visits
    assert [[one.group.animal.called for one in visit.fed.get("creek", ())]
            for visit in visits] == [["Bramble"], [], ["Bramble"]]  # fmt: skip
    assert visits[0].fed["creek"][0].ration is None


def test_who_has_hay_stands_on_the_card_all_the_same() -> None:
    """A goat without a ration of its own: hay, at both meals."""
    visits = case(farm(animals=[GOAT])).plan.visits
    (one,) = visits[0].fed["creek"]
    assert one.morning is None
    assert one.total is not None
    assert "creek" in visits[2].fed


def test_a_hopper_is_filled_once() -> None:
    """Hens in the morning only."""
    visits = case(farm(animals=[HENS])).plan.visits
    assert ["creek" in visit.fed for visit in visits] == [True, False, False]


# --- feed in the heat ----------------------------------------------------------------------


def test_no_meal_above_two_before_the_evening_meal() -> None:
    """At 95 F the creek is at 3 from noon on; the evening meal from 19:10 is not skipped."""
    found = case(farm(animals=[FED]))
    hot, meals = found.plan.loads["hot"], found.plan.meals
    assert meals is not None
    assert meals.evening_from_h == pytest.approx(19 + 10 / 60)
    limit = rule("day_rules", "feed up to number", "number").value
    assert limit == feed_up_to() == 2
    for hour in range(24):
        waits = hot.day is not None and hot.day.sunrise_h <= hour < 19
        expected = waits and hot.worst["creek"][hour] >= 3
        assert fed_when.too_hot_to_feed(hot, "creek", float(hour), meals) is expected
    assert hot.worst["creek"][11:13] == (2, 3)
    assert not fed_when.too_hot_to_feed(hot, "creek", 11.5, meals)  # the hour it is in
    assert fed_when.too_hot_to_feed(hot, "creek", 18.5, meals)
    assert not fed_when.too_hot_to_feed(hot, "creek", 19.0, meals)  # 10 min off, as may be
    assert not fed_when.too_hot_to_feed(hot, "nobody", 18.0, meals)
    cool = case(farm(animals=[FED]), COOL, COOL).plan
    assert not fed_when.too_hot_to_feed(cool.loads["hot"], "creek", 18.0, cool.meals)


def test_the_number_is_the_one_the_pen_sheets_name() -> None:
    """Pigs get "No feed" at Emergency, 3, and at no number below (heat.yaml)."""
    lexicon = words.load()
    pigs = {
        band: lexicon.text(f"asks.do.pigs.{band}") for band in ("fine", "warm", "hot", "severe")
    }
    refused = [number for number, text in enumerate(pigs.values()) if "No feed" in text]
    assert refused == [feed_up_to() + 1]


def test_a_meal_that_falls_into_the_heat_is_a_conflict() -> None:
    """Evening feed at 17:30 comes before its time; at 19:00 or 20:45 it does not."""
    found = case(farm({"visits": ["06:00", "13:00", "17:30"]}, animals=[FED]))
    values = found.found("feed-hot", "hot")
    assert values["at_clock"] == 17.5
    assert values["from_clock"] == pytest.approx(19 + 10 / 60)
    late = farm({"visits": ["06:00", "13:00", "19:00"]}, animals=[FED])
    assert "feed-hot" not in case(late).told("hot")
    assert "feed-hot" not in case(farm(animals=[FED]), COOL, COOL).told("hot")


def test_birds_are_never_made_to_wait_for_feed() -> None:
    """Taking feed from layers in heat does not help them (husbandry-64)."""
    found = case(farm({"visits": ["10:00", "18:00"]}, animals=[HENS]))
    (one,) = found.plan.visits[0].fed["creek"]
    assert fed_when.keeps_feed(one)
    assert "feed-hot" not in found.told("hot")
    both = case(farm({"visits": ["06:00", "18:00"]}, animals=[HENS, FED]))
    assert both.found("feed-hot", "hot")["pens"] == stay_meals.EVERY_PEN
    apart = [{}, {"id": "run", "wallow": None}]
    hens = {**HENS, "pen": "run"}
    each = case(farm({"visits": ["10:00", "18:00"]}, apart, animals=[hens, FED]))
    assert each.found("feed-hot", "hot")["pens"] == "creek"


def test_the_sun_sets_latest_on_one_of_the_days() -> None:
    """Without a place nobody knows when."""
    plan = case(farm()).plan
    assert fed_when.sunset_h(plan) == max(day.sunset_h or 0.0 for day in plan.days)
    assert fed_when.sunset_h(case(farm(about={"place": {}})).plan) is None


# --- amounts of the last day ---------------------------------------------------------------


def test_who_is_fed_more_before_the_last_day_is_named() -> None:
    """A sow whose litter is weaned in the stay eats for them until then; growers never."""
    sow = {
        "name": "Marigold", "species": "pig", "sex": "sow", "weight": "455 lb",
        "farrowed": "2026-05-25", "litter": "9", "bred": None, "pen": "creek",
    }  # fmt: skip
    plan = case(farm({"from": "2026-07-10", "to": "2026-07-22"}, animals=[sow])).plan
    assert [[one.now for one in day.changes] for day in plan.days if day.changes] == [
        ["dry sow"]
    ]
    assert plan.fed_more_before == ("Marigold",)
    two = case(farm({"from": "2026-07-19", "to": "2026-07-20"}, animals=[sow])).plan
    assert two.fed_more_before == ("Marigold",)  # weaned on the second of two days
    growers = {
        "group": "Growers", "species": "pig", "count": "8", "weight": "100 lb",
        "weighed": "2026-07-10", "gain": "1.5 lb/day", "born": "2026-03-01", "pen": "creek",
    }  # fmt: skip
    assert case(farm(animals=[growers])).plan.fed_more_before == ()


def test_the_minutes_of_the_end_are_ours() -> None:
    """Two minutes for the eggs, two a pen for what is left of soaked feed."""
    assert farm_rounds.task_minutes("eggs") == 2.0
    assert farm_rounds.task_minutes("leftovers", 3) == 6.0
