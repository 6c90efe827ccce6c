"""Air in closed stalls, fans and drip.

Rates are published ones, the source beside each. Rates from memory (grade D) are held still
here and flagged; they are not proven.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder import sources, units
from binder.farm.model import Animal, EquipmentFile, Farm, FarmFile, Pen
from binder.figures.entry import read_arguments
from binder.figures.figure import Figure, NotPublishedError
from binder.figures.herd import groups
from binder.figures.housing.cooling import dirty_fan, drip_cycle, fan_limit, fan_spacing
from binder.figures.housing.stall_air import ENTRIES, FarmAir, StallAir, airflow_need, for_farm
from binder.figures.published import rows
from binder.pages.text import words
from tests.figures.written import celsius, keys_of, us

if TYPE_CHECKING:
    from binder.figures.figure import Value

LB = 0.45359237
CFM = 1.69901082  # m3/h
DAY = dt.date(2026, 7, 14)


# --- published rates ------------------------------------------------------------------------


def test_twelve_finishers_need_1440_cfm() -> None:
    """12 pigs of 150-260 lb, hot: 12 x 120 cfm = 1,440 cfm, 2,447 m3/h (husbandry-20)."""
    found = airflow_need("finisher", 12, 200 * LB)
    assert us(found) == pytest.approx(1440)
    assert units.convert(found.amount, "metric") == pytest.approx(2447, abs=1)


def test_24_sows_with_litters_need_480_cfm_in_the_cold() -> None:
    """20 cfm each (husbandry-21); the cold rates are out of date (husbandry-44)."""
    found = airflow_need("lactating sow", 24, season="cold")
    assert us(found) == pytest.approx(480)
    assert "cold-outdated" in found.cautions


@pytest.mark.parametrize(
    ("cls", "pounds", "cold", "mild", "hot"),
    [
        ("weaned pig", 12, 2, 10, 25), ("weaned pig", 29.9, 2, 10, 25),
        ("weaned pig", 30, 3, 15, 35), ("grower", 30, 3, 15, 35), ("grower", 74.9, 3, 15, 35),
        ("grower", 75, 7, 24, 75), ("finisher", 149.9, 7, 24, 75), ("gilt", 149.9, 7, 24, 75),
        ("finisher", 150, 10, 35, 120), ("finisher", 260, 10, 35, 120),
        ("gilt", 260, 10, 35, 120),
    ],
)  # fmt: skip
def test_a_growing_pig_needs_air_by_weight(
    cls: str, pounds: float, cold: float, mild: float, hot: float
) -> None:
    """Cold, mild and hot weather rates from MWPS-32 (husbandry-20)."""
    for season, cfm in (("cold", cold), ("mild", mild), ("hot", hot)):
        assert us(airflow_need(cls, 1, pounds * LB, season)) == pytest.approx(cfm)


@pytest.mark.parametrize(
    ("cls", "cfm"), [("weaned pig", 35), ("grower", 75), ("finisher", 120)]
)
def test_without_a_weight_the_heaviest_of_the_class_counts(cls: str, cfm: float) -> None:
    """The largest rate within the class (our choice)."""
    assert us(airflow_need(cls, 1)) == pytest.approx(cfm)


@pytest.mark.parametrize(
    ("cls", "pounds", "cfm"),
    [
        ("gestating sow", 400, 150),
        ("late-gestation sow", None, 150), ("boar", 510, 300), ("dry sow", None, 300),
        ("gilt", None, 300), ("gilt", 300, 300),
    ],
)  # fmt: skip
def test_rates_from_memory_are_flagged(cls: str, pounds: float | None, cfm: float) -> None:
    """Grade D rows of the sourcebook: worked out, but with the safe wording."""
    found = airflow_need(cls, 1, None if pounds is None else pounds * LB)
    assert us(found) == pytest.approx(cfm)
    assert found.cautions == ("from-memory", "barn-rate")
    assert "from-memory" in found.sources


def test_a_sow_with_her_litter_needs_500_cfm_in_heat() -> None:
    """husbandry-21 (Iowa State PM 1780 after MWPS-8), read on a copy: its worked example.

    24 sows: 480 cfm in cold weather, and fans of 1,920, 3,840 and 5,760 cfm on top of that.
    """
    found = airflow_need("lactating sow", 24)
    assert us(found) == pytest.approx(480 + 1920 + 3840 + 5760)
    assert found.cautions == ("weak", "barn-rate")
    with pytest.raises(NotPublishedError, match="no mild rate"):
        airflow_need("lactating sow", 1, season="mild")


def test_a_hen_needs_five_cfm() -> None:
    """3 cfm a kilogram (husbandry-23): 1.7 kg hen 5.1, printed 5; 2 kg broiler 6."""
    assert us(airflow_need("laying hen", 1, 1.7)) == pytest.approx(5.1)
    assert us(airflow_need("broiler", 10, 2.0)) == pytest.approx(60)


@pytest.mark.parametrize(
    ("cls", "weight", "season", "expected"),
    [
        ("goat", None, "hot", 'published here for "goat"'),
        ("laying hen", None, "hot", "give its weight"),
        ("laying hen", 2.0, "cold", "no cold rate is published"),
        ("finisher", 119.0, "hot", "from 34 to 118 kg only"),
        ("weaned pig", 5.0, "hot", "from 5 to 34 kg only"),
    ],
)
def test_no_rate_is_made_up(cls: str, weight: float | None, season: str, expected: str) -> None:
    """What was not read is refused with the reason."""
    with pytest.raises(NotPublishedError, match=expected):
        airflow_need(cls, 1, weight, season)


# --- fans and drip --------------------------------------------------------------------------


def test_a_dirty_fan_loses_three_tenths() -> None:
    """400 becomes 280 (husbandry-26); very dirty ones lose half: 200."""
    found = dirty_fan(400 * CFM)
    assert us(found) == pytest.approx(280)
    least = dict(found.working[1].values)["left"]
    assert isinstance(least, units.Amount)
    assert units.convert(least, "us") == pytest.approx(200)
    with pytest.raises(ValueError, match="outside its range"):
        dirty_fan(-1.0)


@pytest.mark.parametrize(
    ("who", "fahrenheit", "first_caution"),
    [
        ("chicken", 100, "birds"), ("turkey", 100, "birds"),  # husbandry-22
        ("people", 90, "people"),  # extra-5
        ("pig", 95, "own-limit"),  # our choice, below the 96 F of heat-26
    ],
)  # fmt: skip
def test_a_fan_stops_helping(who: str, fahrenheit: float, first_caution: str) -> None:
    """Above this temperature moving air adds heat."""
    found = fan_limit(who)
    assert us(found) == pytest.approx(fahrenheit)
    assert found.cautions[0] == first_caution


def test_no_limit_is_made_up() -> None:
    """Nothing was read for horses."""
    with pytest.raises(NotPublishedError, match='who "horse"'):
        fan_limit("horse")


@pytest.mark.parametrize(("inches", "feet"), [(36, 30), (48, 40)])
def test_fans_hang_as_far_apart_as_published(inches: float, feet: float) -> None:
    """36 in every 30 ft, 48 in every 40 ft (husbandry-31)."""
    assert us(fan_spacing(inches * 0.0254)) == pytest.approx(feet)


def test_other_fans_have_no_published_distance() -> None:
    """No line is drawn between two diameters."""
    with pytest.raises(NotPublishedError, match="for 36 in and 48 in only"):
        fan_spacing(42 * 0.0254)


@pytest.mark.parametrize(
    ("fahrenheit", "on", "off"),
    [
        (75, 2, 8), (81.9, 2, 8), (82, 2, 8), (85.9, 2, 8), (86, 3, 5), (89.9, 3, 5),
        (90, 4, 5), (105, 4, 5),
    ],
)  # fmt: skip
def test_drip_runs_as_published(fahrenheit: float, on: float, off: float) -> None:
    """Minutes on and off over a sow: 2 and 8 from 24 C (water-95), above 86 F water-91."""
    value: Value = drip_cycle(celsius(fahrenheit) + 1e-9).value
    assert isinstance(value, tuple)
    assert [amount.value for amount in value] == pytest.approx([on, off])


def test_drip_begins_at_75_f_itself() -> None:
    """The first row starts there, that included (water-95)."""
    assert drip_cycle(units.parse("75 F", "temperature")).key


def test_no_drip_in_cool_air() -> None:
    """The table starts at 75 F."""
    with pytest.raises(NotPublishedError, match="below 75°F"):
        drip_cycle(celsius(74.9))


# --- the stalls -----------------------------------------------------------------------------

NURSING = {"name": "Marigold", "species": "pig", "sex": "sow", "farrowed": "2026-07-01",
           "litter": "9", "pen": "stall"}  # fmt: skip
GROWERS = {"group": "Growers", "species": "pig", "count": "8", "weight": "100 lb",
           "pen": "stall"}  # fmt: skip
GOAT = {"name": "Pepper", "species": "goat", "pen": "stall"}
FAN = {"id": "fan-1", "air": "1000 cfm", "cleaned": "2026-06-01"}


def farm_air(
    *animals: dict[str, str], about: dict[str, str] | None = None, **pen: object
) -> FarmAir:
    """Return the air of an invented farm: a stall with these animals, and a pasture."""
    described = {"id": "stall", "name": "Stall", "kind": "stall", **pen}
    farm = Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}, **(about or {})}),
        animals=tuple(Animal.model_validate(each) for each in animals),
        pens=(
            Pen.model_validate(described),
            Pen.model_validate({"id": "empty", "name": "Empty", "kind": "stall"}),
            Pen.model_validate({"id": "creek", "name": "Creek", "kind": "pasture"}),
        ),
        equipment=EquipmentFile(),
        contacts=(),
        stays=(),
    )
    return for_farm(farm, groups.for_farm(farm, DAY))


def stall(
    *animals: dict[str, str], about: dict[str, str] | None = None, **pen: object
) -> StallAir:
    """Return the air of that stall."""
    found = farm_air(*animals, about=about, **pen)
    assert list(found.stalls) == ["stall"]
    assert found.findings == found.stalls["stall"].findings
    return found.stalls["stall"]


def keys(air: StallAir) -> list[str]:
    """Return the keys of its findings; each must have its words."""
    return keys_of(air.findings)


def test_a_stall_with_air_enough() -> None:
    """8 growers of 100 lb, hot: 8 x 75 = 600 cfm (husbandry-20); 1,000 cfm, 700 when dirty."""
    air = stall(GROWERS, fans=[FAN])
    assert us(air.need) == pytest.approx(600)
    assert us(air.have) == pytest.approx(1000)
    assert us(air.dirty) == pytest.approx(700)
    assert keys(air) == []


@pytest.mark.parametrize(
    ("cfm", "expected"),
    [(600, ["short-when-dirty"]), (599, ["short"]), (858, []), (857, ["short-when-dirty"])],
)
def test_short_air_is_found_at_the_limit(cfm: int, expected: list[str]) -> None:
    """600 cfm needed, with 30 % lost to dirt: 857.1 cfm."""
    air = stall(GROWERS, fans=[{**FAN, "air": f"{cfm} cfm"}])
    assert keys(air) == expected


def test_a_need_from_memory_sends_to_an_engineer() -> None:
    """A boar, hot (grade D): no number is held against the fan."""
    boar = {"name": "Hector", "species": "pig", "sex": "boar", "weight": "500 lb"}
    air = stall({**boar, "pen": "stall"}, fans=[{**FAN, "air": "400 cfm"}])
    assert us(air.need) == pytest.approx(300)
    assert keys(air) == ["ask-engineer"]
    assert air.findings[0].values == (("pen", "Stall"),)


def test_air_for_a_sow_with_her_litter_is_held_against_the_fan() -> None:
    """500 cfm (husbandry-21), with 30 % lost to dirt: 714.3 cfm."""
    air = stall(NURSING, fans=[{**FAN, "air": "700 cfm"}])
    assert us(air.need) == pytest.approx(500)
    assert keys(air) == ["short-when-dirty"]
    assert keys(stall(NURSING, fans=[{**FAN, "air": "720 cfm"}])) == []


def test_fans_are_added_up_and_unknown_ones_named() -> None:
    """Two known fans, one unknown."""
    fans = [
        FAN,
        {**FAN, "id": "fan-2", "air": "500 cfm"},
        {"id": "fan-3", "cleaned": "2026-07-01"},
    ]
    air = stall(GROWERS, GOAT, fans=fans)
    assert us(air.have) == pytest.approx(1500)
    assert us(air.need) == pytest.approx(600)  # no goat was read
    assert keys(air) == ["air-unknown"]
    assert dict(air.findings[0].values)["fans"] == "fan-3"


def test_every_farrowing_stall_has_a_fan() -> None:
    """One fan for every farrowing stall: common practice, no source."""
    air = stall(NURSING, farrowing="yes")
    assert keys(air) == ["no-fan"]
    assert (air.have, air.dirty) == (None, None)
    assert keys(stall(NURSING, farrowing="no")) == []
    assert stall(GOAT).need is None


@pytest.mark.parametrize(
    ("cleaned", "on_farm", "expected"),
    [
        (None, None, ["cleaning-unknown"]),
        ("2026-04-14", None, []),  # 91 days
        ("2026-04-13", None, ["not-cleaned"]),
        ("2026-01-13", "2026-06-01", []),
        (None, "2026-01-01", ["not-cleaned"]),
    ],
)
def test_fans_are_cleaned_every_quarter(
    cleaned: str | None, on_farm: str | None, expected: list[str]
) -> None:
    """Each batch or quarterly (husbandry-8, husbandry-26): 91 days."""
    fan = {"id": "fan-1", "air": "1000 cfm", **({"cleaned": cleaned} if cleaned else {})}
    about = {"last_fan_cleaning": on_farm} if on_farm else {}
    assert keys(stall(GROWERS, about=about, fans=[fan])) == expected


def test_limits_and_drip_follow_the_herd() -> None:
    """Those of the species on the farm, and of people; drip for pigs only."""
    pigs = farm_air(GROWERS, {"name": "Hen", "species": "chicken"}, GOAT)
    assert list(pigs.limits) == ["pig", "chicken", "people"]
    assert len(pigs.drip) == 4
    goats = farm_air(GOAT)
    assert list(goats.limits) == ["people"]
    assert goats.drip == ()


# --- words and sources ----------------------------------------------------------------------


def said(figure: Figure) -> None:
    """Check that a figure's words and sources are there."""
    lexicon = words.load()
    assert lexicon.title(figure)
    assert lexicon.value(figure)
    assert all(lexicon.working(figure))
    assert len(lexicon.cautions(figure)) == len(figure.cautions)
    assert set(figure.sources) <= set(sources.all_sources())


def test_all_of_it_can_be_said() -> None:
    """Every figure of a farm, and every sort of working and caution."""
    found = farm_air(NURSING, GROWERS, {"name": "Hen", "species": "chicken"}, fans=[FAN])
    air = found.stalls["stall"]
    for figure in (air.need, air.have, air.dirty, *found.limits.values(), *found.drip):
        assert figure is not None
        said(figure)
    for figure in (
        airflow_need("laying hen", 1, 1.7),
        airflow_need("lactating sow", 1, season="cold"),
        fan_spacing(0.9144),
        drip_cycle(40.0),
    ):
        said(figure)


ASKED = {
    "airflow-need": {"class": "finisher", "count": "12", "weight": "200lb"},
    "dirty-fan": {"air": "400cfm"},
    "fan-limit": {"who": "chicken"},
    "fan-spacing": {"diameter": "36in"},
    "drip-cycle": {"temperature": "84F"},
}


def test_every_figure_is_asked_for_by_name() -> None:
    """Every entry computes and has its words."""
    assert {entry.name for entry in ENTRIES} == set(ASKED)
    for entry in ENTRIES:
        found = entry.compute(**read_arguments(entry, ASKED[entry.name]))
        assert found.name == entry.name
        assert words.load().text(f"{entry.name}.help")
        said(found)


@pytest.mark.parametrize("table", ["airflow", "air_rules", "fan_limits", "fan_spacing", "drip"])
def test_every_row_names_listed_sources(table: str) -> None:
    """No row stands on a source that is not listed; a row from memory carries the caution."""
    for each in rows(table):
        assert each.sources
        assert set(each.sources) <= set(sources.all_sources())
        if table in {"airflow", "fan_limits"} and "from-memory" in each.sources:
            assert "from-memory" in each.text("cautions").split()
