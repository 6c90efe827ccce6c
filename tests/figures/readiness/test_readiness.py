"""Readiness: for each rule a farm that trips it and one that does not, and the order.

How soon a shortfall hurts an animal is our choice (readiness_rules.csv) and held still here.
The limits behind the rules are tested where they are worked out: water, hoses, wallows, bleach.
"""

from __future__ import annotations

import datetime as dt
from functools import lru_cache
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.farm.model import Contact, Farm
from binder.figures import published
from binder.figures.bleach import cleaning_plan
from binder.figures.day import farm_day
from binder.figures.feed import farm_feed
from binder.figures.figures import Figures, every, work_out
from binder.figures.finding import finding
from binder.figures.herd import groups
from binder.figures.hoses import hose_plan
from binder.figures.readiness import company, ranking, records, shortfalls
from binder.figures.readiness.ranking import Severity
from binder.figures.rounds import farm_rounds
from binder.figures.stays import stay_plan
from binder.figures.supply import farm_supply, water_store
from binder.figures.wallows import wallow_plan
from binder.figures.water import drinkers, drinking_water
from binder.figures.weather import hot_days
from binder.pages.text import words
from tests.figures.stays.test_stays import BOAR, HOT, PEN, SOW, farm, hens
from tests.figures.written import celsius

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from binder.figures.finding import Finding
    from binder.figures.stays import Plan
    from binder.figures.weather.hot_days import DayWeather

EXAMPLE = Path(__file__).resolve().parents[3] / "content" / "example-farm"
ON = dt.date(2026, 6, 1)


def light(a_farm: Farm, hot: DayWeather = HOT, on: dt.date = ON) -> Figures:
    """Return the figures that shortfalls and records look at, and no others: it is quicker."""
    animals = groups.for_farm(a_farm, on)
    drinking = drinking_water.for_farm(a_farm, animals, hot)
    hoses = hose_plan.for_farm(a_farm, drinking, hot)
    dug = wallow_plan.for_farm(a_farm, animals)
    parts = SimpleNamespace(
        farm=a_farm,
        on=on,
        hot=hot,
        herd=animals,
        water=drinking,
        drinkers=drinkers.for_farm(a_farm, animals),
        hoses=hoses,
        wallows=dug,
        supply=farm_supply.for_farm(a_farm, animals, hot, drinking, hoses, dug),
        stores=water_store.pen_stores(a_farm, drinking.pens),
        cleaning=cleaning_plan.for_farm(a_farm, animals, hot, dug),
        rounds=farm_rounds.for_farm(a_farm, animals, hoses, dug),
        day=farm_day.for_farm(a_farm, animals, hot),
        feed=farm_feed.for_farm(a_farm, animals),
    )
    return cast("Figures", parts)


def told(found: Iterable[Finding]) -> dict[str, dict[str, Any]]:
    """Return the values of each finding by its key."""
    return {each.key: dict(each.values) for each in found}


@lru_cache(maxsize=4)
def example(on: dt.date = ON) -> Figures:
    """Return all figures of the example farm."""
    return work_out(check(read_folder(EXAMPLE)), on)


# --- water ---------------------------------------------------------------------------------

NIPPLE = {"id": "d1", "kind": "nipple", "count": "2", "flow": "4 cup/min"}
WELL = {"id": "well", "name": "Well", "kind": "well"}
CREEK = {"id": "stream", "name": "Spring", "kind": "spring"}
TESTED = {"last_flow_test": "2026-05-28"}


def watered(pen: Mapping[str, Any] | None = None, **more: Any) -> dict[str, dict[str, Any]]:
    """Return what is said of the water of a farm."""
    return told(shortfalls.of_water(light(farm(pens=[pen or {}], **more))))


def test_a_farm_with_water_for_days_and_two_sources_is_ready() -> None:
    """Two troughs of 150 gal for one boar, a well and a spring."""
    assert watered(water_sources=[WELL, CREEK]) == {}


def test_a_pen_without_a_drinker() -> None:
    """Only where animals live."""
    assert watered({"drinkers": []})["no-drinkers"] == {"pens": "creek"}
    assert "no-drinkers" not in told(
        shortfalls.of_water(light(farm(pens=[{"drinkers": []}], animals=[])))
    )


def test_too_few_places_to_drink() -> None:
    """45 hens at one bell: more are needed (drinkers.csv), six bells are enough."""
    bell = {"id": "d1", "kind": "bell", "holds": "30 gal"}
    short = watered({"drinkers": [bell]}, animals=[hens()])
    assert short["drinkers-short"]["there"] == 1
    many = watered({"drinkers": [{**bell, "count": "6"}]}, animals=[hens()])
    assert "drinkers-short" not in many


def test_a_drinker_that_failed_its_test() -> None:
    """A quarter of a cup a minute is too little for a boar (water-1), four are enough."""
    slow = {"drinkers": [{**NIPPLE, "flow": "0.25 cup/min"}]}
    assert "drinkers-slow" in watered(slow)
    assert "drinkers-slow" not in watered({"drinkers": [NIPPLE]})


def test_drinkers_that_nobody_measured() -> None:
    """A nipple without a flow; a trough needs none."""
    unknown = {"drinkers": [{"id": "d1", "kind": "nipple", "count": "2"}]}
    assert watered(unknown)["flow-unknown"] == {"pens": "creek"}
    half = {"drinkers": [NIPPLE, {"id": "d2", "kind": "nipple"}]}
    assert watered(half)["flow-unknown"] == {"pens": "creek"}
    assert "flow-unknown" not in watered({"drinkers": [NIPPLE]})
    assert "flow-unknown" not in watered()


def test_drinkers_measured_too_long_ago() -> None:
    """Once a week (water-10, water-14): eight days are too long, seven are not."""
    pen = {"drinkers": [NIPPLE]}
    old = watered(pen, about={"last_flow_test": "2026-05-24"})
    assert old["flow-test-old"]["last_date"] == "2026-05-24"
    assert "flow-test-old" not in watered(pen, about={"last_flow_test": "2026-05-25"})
    assert "flow-test-never" in watered(pen)
    assert "flow-test-never" not in watered()


def test_one_source_of_water_is_one_too_few() -> None:
    """None and one are told, two are enough."""
    assert watered()["no-second-source"]["count"] == 0
    assert watered(water_sources=[WELL])["no-second-source"]["count"] == 1
    assert "no-second-source" not in watered(water_sources=[WELL, CREEK])


def test_no_stored_water_at_all() -> None:
    """Nipples and no tank: a day's need is the tank to set up (water-17)."""
    a_farm = farm(pens=[{"drinkers": [NIPPLE]}])
    values = watered({"drinkers": [NIPPLE]})["no-store"]
    need_l = light(a_farm).water.pens["creek"].amount.value
    assert values["tank"].value >= need_l
    assert "no-store" not in watered()


def test_stored_water_for_less_than_a_day() -> None:
    """20 gal for 45 hens on a hot day would do; 2 gal do not (water-17: a day on site)."""
    short = {"drinkers": [{"id": "d1", "kind": "bell", "holds": "2 gal", "count": "1"}]}
    values = watered(short, animals=[hens()])["reserve-short"]
    assert values["lasts"].value < 24 == values["least"].value
    need_l = light(farm(pens=[short], animals=[hens()])).water.pens["creek"].amount.value
    assert values["tank"].value >= need_l  # a day's need, as for no-store
    long = {"drinkers": [{"id": "d1", "kind": "bell", "holds": "20 gal", "count": "1"}]}
    assert "reserve-short" not in watered(long, animals=[hens()])


def test_a_large_tank_elsewhere_does_not_stand_in_for_a_pen() -> None:
    """2 gal for 45 hens: 1,000 gal that feed another pen change nothing (arithmetic)."""
    tank = {"id": "hill", "name": "Hill tank", "holds": "1000 gal", "needs_power": "no"}
    short = {"drinkers": [{"id": "d1", "kind": "bell", "holds": "2 gal", "count": "1"}]}
    alone = watered(short, animals=[hens()])["reserve-short"]
    place = farm(pens=[short], animals=[hens()], tanks=[tank])
    assert told(shortfalls.of_water(light(place)))["reserve-short"] == alone
    assert alone["pens"] == "creek"


def test_who_should_not_share_a_pen() -> None:
    """A boar with growers or a sow near her time: common practice, no source."""
    grower = {"group": "Growers", "species": "pig", "sex": "mixed", "count": "4",
              "weight": "120 lb", "pen": "creek"}  # fmt: skip
    sow = {"name": "Clementine", "species": "pig", "sex": "sow", "pen": "creek",
           "bred": "2026-02-20"}  # fmt: skip
    found = told(company.of_company(light(farm(animals=[BOAR, grower]))))
    assert found["boar-growers"]["others"] == "Growers"
    assert "boar-birth" not in found
    apart = {**grower, "pen": "barn"}
    pens: list[dict[str, Any]] = [{}, {"id": "barn", "wallow": None}]
    assert told(company.of_company(light(farm(pens=pens, animals=[BOAR, apart])))) == {}
    found = told(company.of_company(light(farm(animals=[BOAR, sow]))))
    assert found["boar-birth"]["others"] == "Clementine"
    nursing = {key: value for key, value in sow.items() if key != "bred"}
    nursing |= {"farrowed": "2026-05-20", "litter": "8"}
    with_young = told(company.of_company(light(farm(animals=[BOAR, nursing]))))
    assert with_young["boar-birth"]["others"] == "Clementine"


def test_a_stay_has_no_boar_beside_a_litter_unseen() -> None:
    """In June she is far from her day, in the stay she is due: common practice, no source."""
    sow = {"name": "Clementine", "species": "pig", "sex": "sow", "pen": "creek",
           "bred": "2026-03-22"}  # fmt: skip
    stay = {"from": "2026-07-10", "to": "2026-07-19"}
    a_farm = farm(stay, animals=[BOAR, sow])
    early = light(a_farm, on=dt.date(2026, 6, 1))
    assert "boar-birth" not in told(company.of_company(early))
    hot = {"hot": HOT, "extreme": HOT}
    early_stays = stay_plan.for_farm(a_farm, early.on, hot, (), early.hoses, {})
    found = told(company.of_stays(cast("Figures", SimpleNamespace(
        farm=a_farm, herd=early.herd, stays=early_stays,
    ))))  # fmt: skip
    assert found["boar-birth"]["others"] == "Clementine"
    assert found["litter-wallow"]["who"] == "Clementine"


def test_a_wether_does_not_live_where_pellets_are_fed() -> None:
    """Stones in the urine of wethers on grain: common practice, no source."""
    doe = {"name": "Juniper", "species": "goat", "sex": "doe", "pen": "creek",
           "ration": "2 lb/day"}  # fmt: skip
    wether = {"name": "Pepper", "species": "goat", "sex": "wether", "pen": "creek"}
    found = told(company.of_company(light(farm(animals=[doe, wether]))))
    assert (found["wether-pellets"]["who"], found["wether-pellets"]["others"]) == (
        "Pepper", "Juniper",
    )  # fmt: skip
    hay = {key: value for key, value in doe.items() if key != "ration"}
    assert told(company.of_company(light(farm(animals=[hay, wether])))) == {}


def test_pens_that_are_dry_when_the_pump_stops() -> None:
    """A tank elsewhere does not help a pen of nipples on the pump."""
    pens: list[dict[str, Any]] = [{"drinkers": [NIPPLE]}, {"id": "barn", "wallow": None}]
    animals = [BOAR, {**BOAR, "name": "Duke", "pen": "barn"}]
    found = told(shortfalls.of_water(light(farm(pens=pens, animals=animals))))
    assert found["pens-without-store"]["pens"] == "creek"
    assert "pens-without-store" not in watered()


def test_nothing_is_said_of_stores_without_animals() -> None:
    """Nobody drinks."""
    assert "no-store" not in told(shortfalls.of_water(light(farm(animals=[]))))


# --- hoses ---------------------------------------------------------------------------------

PIPED = {"drinkers": [{**NIPPLE, "fed_by": "pipe"}]}
HOSE = {"id": "pipe", "inside": "3/4 in", "length": "250 ft", "sun": "full", "colour": "dark",
        "flow": "5 gal/min"}  # fmt: skip


def hosed(
    hose: Mapping[str, Any], hot: DayWeather = HOT, pen: Mapping[str, Any] = PIPED
) -> dict[str, dict[str, Any]]:
    """Return what is said of a hose."""
    return told(shortfalls.of_hoses(light(farm(pens=[pen], hoses=[hose]), hot)))


def test_a_dark_hose_in_the_sun_is_no_water() -> None:
    """Over 120 F at 90 F air was measured (water-71); 100 F and more is no water: ours."""
    values = hosed(HOSE)["hose-no-water"]
    assert values["ends"].value > celsius(120)
    assert values["buried"].value < celsius(100)


def test_a_shaded_hose_is_warm() -> None:
    """Between 86 F, where birds drink less (water-41), and 100 F."""
    found = hosed({**HOSE, "sun": "shade", "colour": "white"})
    assert list(found) == ["hose-warm"]


@pytest.mark.parametrize("mend", ["buried", "cool", "unused"])
def test_a_hose_that_stays_cool_or_feeds_nobody(mend: str) -> None:
    """In the ground, in spring, or with nobody at its end."""
    hose = {**HOSE, "runs": "buried"} if mend == "buried" else {**HOSE, "sun": "shade"}
    cool = hot_days.DayWeather(15.0, 8.0, 7.0, None, assumed=False, origin="hot_day")
    pen = PEN if mend == "unused" else PIPED
    assert hosed(hose, cool if mend == "cool" else HOT, pen) == {}


def test_a_hose_whose_flow_nobody_timed() -> None:
    """Then nobody knows how long to let it run."""
    assert "hose-unmeasured" in hosed({**HOSE, "flow": None})
    assert "hose-unmeasured" not in hosed(HOSE)


# --- wallows and bleach --------------------------------------------------------------------

GOOD = {"id": "w1", "shape": "round", "length": "20 ft", "depth": "10 in", "dug": "2026-04-10",
        "last_refreshed": "2026-05-30", "to_well": "400 ft", "to_stream": "300 ft",
        "next_place": "By the oak"}  # fmt: skip


def dug(wallow: Mapping[str, Any] | None, **more: Any) -> dict[str, dict[str, Any]]:
    """Return what is said of a wallow."""
    return told(shortfalls.of_wallows(light(farm(pens=[{"wallow": wallow}], **more))))


def test_a_good_wallow_is_not_told() -> None:
    """Wide, shallow, fresh, far from well and stream, the next place chosen."""
    assert dug(GOOD) == {}


@pytest.mark.parametrize(
    ("key", "wrong"),
    [
        ("wallow-deep", {"depth": "20 in"}),  # never deeper than 18 in (wallow-54)
        ("wallow-small", {"length": "3 ft"}),  # room for twice the pigs (wallow-48)
        ("wallow-overdue", {"last_refreshed": "2026-05-20"}),  # 5 to 7 days (wallow-57)
        ("wallow-no-date", {"last_refreshed": None, "dug": None}),
        ("wallow-near-well", {"to_well": "40 ft"}),  # 100 ft (wallow-67)
        ("wallow-near-water", {"to_stream": "40 ft"}),  # 100 ft downhill (wallow-69)
        ("wallow-no-next-place", {"next_place": None}),
    ],
)
def test_each_fault_of_a_wallow_is_told(key: str, wrong: Mapping[str, Any]) -> None:
    """One thing wrong, one line."""
    assert list(dug({**GOOD, **wrong})) == [key]


def test_a_wallow_from_last_year_without_a_next_place_names_the_move() -> None:
    """The figure behind the line says that a new one is due."""
    old = {**GOOD, "next_place": None, "dug": "2025-04-10"}
    figures = light(farm(pens=[{"wallow": old}]))
    (found,) = [each for each in shortfalls.of_wallows(figures) if each.key.endswith("place")]
    assert [figure.name for figure in found.figures] == ["wallow-move"]


def test_an_empty_pens_wallow_is_not_told() -> None:
    """Nobody lies in it."""
    assert dug({**GOOD, "depth": "20 in"}, animals=[]) == {}


def test_pigs_outdoors_without_a_wallow() -> None:
    """Told for pigs in a paddock, not for hens there, nor for pigs in a stall."""
    assert dug(None)["no-wallow"] == {"pens": "creek"}
    assert dug(None, animals=[hens()]) == {}
    stall = [{"wallow": None, "kind": "stall"}]
    assert told(shortfalls.of_wallows(light(farm(pens=stall)))) == {}


def test_bleach_too_old_for_its_table() -> None:
    """A bottle kept hot for a year; a fresh one is fine (wallow 5)."""
    bottle = {"id": "b", "name": "Bleach", "kind": "bleach", "strength": "7.5 %",
              "bought": "2025-05-01", "kept_at": "95 F"}  # fmt: skip
    old = light(farm(products=[bottle]))
    assert told(shortfalls.of_bleach(old)) == {"bleach-old": {"product": "Bleach"}}
    fresh = light(farm(products=[{**bottle, "bought": "2026-05-20"}]))
    assert told(shortfalls.of_bleach(fresh)) == {}


# --- records -------------------------------------------------------------------------------


def contacts(*roles: str, **more: str) -> tuple[Contact, ...]:
    """Return somebody for each role."""
    return tuple(
        Contact.model_validate({"name": role, "role": role, "phone": "555-0100", **more})
        for role in roles
    )


def people(*people_there: Contact, **place: str) -> list[str]:
    """Return what is said of a farm with these contacts."""
    a_farm = farm(about={"place": place or {"address": "12 Example Road"}})
    with_them = a_farm.model_copy(update={"contacts": people_there})
    return list(told(records.of_people(light(with_them))))


def test_whom_to_call_by_day_and_night() -> None:
    """A vet with a number for the night, or a night vet, and a backup: nothing is missing."""
    assert people() == ["no-vet", "no-backup"]
    assert people(*contacts("vet", "backup")) == ["no-night-vet"]
    assert people(*contacts("vet", "backup", nights="555-0101")) == []
    assert people(*contacts("night vet", "backup")) == []


def test_an_address_for_911() -> None:
    """Latitude and longitude alone are not what a dispatcher asks for."""
    everybody = contacts("night vet", "backup")
    assert people(*everybody, timezone="America/New_York") == ["no-address"]


def about(a_farm: Farm, hot: DayWeather = HOT) -> list[str]:
    """Return what is said of the farm itself."""
    return list(told(records.of_farm(light(a_farm, hot))))


OWN = {"fine": "12 h", "warm": "4 h", "hot": "2 h", "severe": "1 h",
       "all_hands": "30 min"}  # fmt: skip
KNOWN = {"thermometer": "North wall", "shut_offs": [{"what": "Water", "where": "Red lever"}],
         "round_intervals": OWN}  # fmt: skip


def test_a_farm_that_wrote_everything_down() -> None:
    """Thermometer, shut-off, place, hot day, an interval for each band."""
    assert about(farm(about=KNOWN)) == []


@pytest.mark.parametrize(
    ("key", "wrong"),
    [
        ("no-thermometer", {"thermometer": None}),
        ("no-shut-off", {"shut_offs": []}),
        ("no-position", {"place": {}}),
        ("no-interval", {"round_intervals": {"fine": "12 h"}}),
    ],
)
def test_each_gap_in_the_records_is_told(key: str, wrong: Mapping[str, Any]) -> None:
    """One thing missing, one line."""
    assert about(farm(about={**KNOWN, **wrong})) == [key]


def test_a_shut_off_at_the_source_is_enough() -> None:
    """Written with the well."""
    wells = [{**WELL, "shut_off": "Red lever"}]
    assert about(farm(about={**KNOWN, "shut_offs": []}, water_sources=wells)) == []


def test_a_hot_day_that_is_ours() -> None:
    """Then every figure rests on our choice."""
    ours = hot_days.DayWeather(35.0, 23.0, 22.0, None, assumed=True, origin="our-choice")
    assert about(farm(about=KNOWN), ours) == ["hot-day-assumed"]


def test_only_bands_that_the_hot_day_reaches_need_an_interval() -> None:
    """A boar's hot day here passes Hot and Severe; a pen's own interval counts."""
    pen = {"round_intervals": {"hot": "2 h", "severe": "1 h"}}
    bare = {**KNOWN, "round_intervals": {"fine": "12 h", "warm": "4 h"}}
    assert about(farm(pens=[pen], about=bare)) == []
    found = told(records.of_farm(light(farm(about=bare))))
    assert found["no-interval"]["bands"] == "hot severe"


def test_an_animal_without_a_pen() -> None:
    """A sitter would not find him."""
    found = told(records.of_animals(light(farm(animals=[{**BOAR, "pen": None}]))))
    assert found["no-pen"] == {"who": "Hector"}


def test_a_year_typed_wrong_is_told() -> None:
    """An animal born or bred after the day of the binder would vanish without a word."""
    ahead = (ON + dt.timedelta(days=300)).isoformat()
    unborn = light(farm(animals=[BOAR, {**BOAR, "name": "Daisy", "born": ahead}]))
    assert told(records.of_animals(unborn))["not-born"] == {"who": "Daisy"}
    unbred = light(farm(animals=[{**SOW, "bred": ahead}]))
    assert told(records.of_animals(unbred))["not-bred"] == {"who": SOW["name"]}
    assert not {"not-born", "not-bred"} & set(told(records.of_animals(light(farm()))))


@pytest.mark.parametrize(
    ("weighing", "key"),
    [
        ({"weight": "510 lb", "weighed": "2026-04-01"}, "weights-old"),  # 61 days: our choice
        ({"weight": "510 lb", "weighed": "2026-04-02"}, ""),
        ({"weight": "510 lb"}, "weights-undated"),
        ({"weight": None}, ""),
    ],
)
def test_weights_grow_old(weighing: Mapping[str, Any], key: str) -> None:
    """Sixty days, and the day must be known."""
    animal = {**BOAR, **weighing}
    found = told(records.of_animals(light(farm(animals=[animal]))))
    assert list(found) == ([key] if key else [])


# --- the order -----------------------------------------------------------------------------


def test_every_finding_that_has_words_has_a_rank_and_an_effect() -> None:
    """No shortfall anywhere in the words is without its row, and no row without its words."""
    lexicon = words.load()
    written = {
        (area, key)
        for area in ("ready", "stay", "shade", "air", "power", "feed")
        for key in lexicon.section(f"{area}-findings")
    }
    ranked = {(row.text("area"), row.text("key")) for row in published.rows("readiness_rules")}
    assert written == ranked
    effects = lexicon.section("readiness-effects")
    assert ranked == {(area, key) for area in effects for key in effects[area]}


def test_every_rank_is_marked_as_our_choice() -> None:
    """No source ranks shortfalls."""
    assert {row.sources for row in published.rows("readiness_rules")} == {("our-choice",)}


def test_the_worst_comes_first_and_the_table_decides_between_equals() -> None:
    """Hours before seasons; within hours, no drinker before no address."""
    found = [
        finding("ready", "wallow-no-next-place", "creek"),
        finding("ready", "no-address", ""),
        finding("ready", "no-drinkers", "creek"),
        finding("ready", "bleach-old", "b"),
    ]
    lines = ranking.ranked(found)
    assert [line.finding.key for line in lines] == [
        "no-drinkers", "no-address", "bleach-old", "wallow-no-next-place",
    ]  # fmt: skip
    assert [line.severity.key for line in lines] == ["hours", "hours", "week", "season"]


def test_the_example_farm_lacks_what_it_was_given_to_lack() -> None:
    """Found by the program: hoses, one source, few drinkers, a circuit, a birth in July."""
    keys = {(line.finding.area, line.finding.key) for line in ranking.lines_of(example())}
    assert {
        ("ready", "hose-no-water"), ("ready", "drinkers-short"), ("ready", "no-second-source"),
        ("power", "circuit-over"), ("power", "generator-cannot"),
        ("power", "generator-wired-in"), ("shade", "bedding"),
        ("ready", "wallow-overdue"), ("stay", "ask-looks"), ("stay", "birth"),
        ("stay", "before"), ("stay", "appointment"),
        ("feed", "short"),
    } <= keys  # fmt: skip
    assert ("ready", "no-night-vet") not in keys


def test_the_lines_are_in_order_of_severity() -> None:
    """For the example farm as a whole."""
    severities = [line.severity for line in ranking.lines_of(example())]
    assert severities == sorted(severities)
    assert severities[0] is Severity.HOURS


def test_what_is_short_today_is_not_told_again_for_the_stay() -> None:
    """Drinkers short now are one line, not one for each stay; feed is told once a bin."""
    lines = [line.finding for line in ranking.lines_of(example())]
    for in_stay, today in ranking.TODAY.items():
        told_today = {one.subject for one in lines if one.key == today}
        assert told_today
        assert not told_today & {
            dict(one.values)["pens"] for one in lines if one.key == in_stay
        }
    bins = [one.subject for one in lines if one.area == "feed" and one.key == "short"]
    assert len(bins) == len(set(bins))


def test_each_figure_has_one_key() -> None:
    """A number in the binder leads to its own working and to no other."""
    seen: dict[str, object] = {}
    for figure in every(example()):
        assert seen.setdefault(figure.key, figure) == figure, figure.key


def test_every_figure_of_the_example_farm_prints() -> None:
    """Title, value, working and cautions, in both systems."""
    for system in ("us", "metric"):
        lexicon = words.load("en", cast("Any", system))
        for figure in every(example()):
            assert lexicon.title(figure)
            assert lexicon.value(figure)
            assert all(lexicon.working(figure))
            assert all(lexicon.cautions(figure))


# --- the example farm's July, and what mends it --------------------------------------------


def changed(files: Mapping[str, Callable[[str], str]], folder: Path) -> Figures:
    """Return the figures of the example farm with some of its files changed."""
    folder.mkdir()
    for path in EXAMPLE.glob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        new = files.get(path.name, str)(text)
        assert path.name not in files or new != text
        (folder / path.name).write_text(new, encoding="utf-8")
    owner = read_folder(folder)
    keep = [each for each in owner.problems if "pictures" not in each.place.file]
    assert not keep
    for name in ("pens.yaml", "animals.yaml"):
        text = (folder / name).read_text(encoding="utf-8")
        lines = [line for line in text.splitlines() if "picture:" not in line]
        (folder / name).write_text("\n".join(lines), encoding="utf-8")
    return work_out(check(read_folder(folder)), ON)


def july(figures: Figures, load: str) -> list[str]:
    """Return the conflicts of the July stay on a sort of day, of any day where empty."""
    checked = figures.stay_checks["july"]
    return [one.key for one in (checked.by_load[load] if load else checked.always)]


def test_the_july_stay_asks_a_helper_on_a_hot_day() -> None:
    """Three visits a day are not enough: found by the program and written nowhere by hand."""
    plan = example().stays["july"]
    assert "Barnaby Quill" in {call.who for call in plan.calls}
    assert "ask-looks" in [one.key for one in example().stay_checks["july"].before]


def test_mending_a_shortfall_buys_looks(tmp_path: Path) -> None:
    """Shade for the hens: as many looks at their run fewer as the owner's list says."""
    mended = example().stays["july"]
    assert "hen-run" not in mended.buys
    narrow = {
        "pens.yaml": lambda text: text.replace(
            "area: 480 sqft, blocks", "area: 200 sqft, blocks"
        )
    }
    short = changed(narrow, tmp_path / "farm").stays["july"]
    assert short.buys["hen-run"] > 0

    def looked_at(plan: Plan) -> int:
        return sum("hen-run" in look.pens for look in plan.watches["hot"].looks)

    assert looked_at(mended) < looked_at(short)


def short_of_drinkers(figures: Figures) -> list[object]:
    """Return the pens with too few drinkers in July."""
    found = figures.stay_checks["july"].always
    return [dict(one.values)["pens"] for one in found if one.key == "drinkers"]


def test_a_second_drinker_mends_the_woods_in_july(tmp_path: Path) -> None:
    """One bowl for eight growing pigs is told; two are not (water-1: two a group at least)."""
    one = "{id: d8, kind: bowl, count: 1"
    two = one.replace("count: 1", "count: 2")
    assert "woods" in short_of_drinkers(example())
    figures = changed({"pens.yaml": lambda text: text.replace(one, two)}, tmp_path / "farm")
    assert "woods" not in short_of_drinkers(figures)


def test_a_boar_after_a_hot_spell_is_told_until_when() -> None:
    """Ten hot days ended on 20 May: eight weeks later is 15 July (husbandry-94)."""
    days = [dt.date(2026, 5, 11) + dt.timedelta(days=n) for n in range(10)]
    lines = ["time,temperature (F),dew_point (F)"]
    lines += [f"{day} {hour:02d}:00,92,75" for day in days for hour in range(24)]
    record = "\n".join(lines)
    found = work_out(farm(animals=[BOAR, SOW]), ON, record)
    assert {name: figure.value for name, figure in found.boars.items()} == {
        "Hector": "2026-07-15"
    }
    assert not work_out(farm(), dt.date(2026, 7, 16), record).boars
    nowhere = farm(about={"place": {}}, animals=[BOAR])
    assert work_out(nowhere, ON).day.day is None
    short = "\n".join(lines[: 1 + 7 * 24])
    assert not work_out(farm(), ON, short).boars
    eight = "\n".join(lines[: 1 + 8 * 24])  # to 18 May; longer than seven days
    assert work_out(farm(), ON, eight).boars["Hector"].value == "2026-07-13"


def test_bleach_is_bought_for_the_longest_stay() -> None:
    """Of three days and of fifteen, fifteen."""
    bleach = {"id": "jug", "name": "Bleach", "kind": "bleach", "strength": "8.25 %"}
    short = farm(products=[bleach])
    (july_,) = short.stays
    long = july_.model_copy(update={"id": "long", "last": dt.date(2026, 7, 24)})
    both = short.model_copy(update={"stays": (july_, long)})
    found = work_out(both, ON).cleaning.buy["jug"]
    assert found.value == cleaning_plan.bleach_to_buy("jug", 15, 2).value
    assert found.value != cleaning_plan.bleach_to_buy("jug", 3, 2).value
