"""Drinking water, drinkers, stored water, the farm's demand and supply.

The published tables run in `tests/published/water_*.csv`; here stand the rules between and
beyond their rows, the refusals, and the farm put together. What is "our choice" is held still,
not proved.
"""

from __future__ import annotations

import datetime as dt
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.farm.model import Animal, Farm
from binder.figures.entry import read_arguments
from binder.figures.figure import NotPublishedError
from binder.figures.herd.groups import Group, Herd
from binder.figures.hoses import hose_plan
from binder.figures.published import rows
from binder.figures.supply import farm_supply, reserve
from binder.figures.wallows import wallow_plan
from binder.figures.water import drinkers as drinking_places
from binder.figures.water import drinking_water
from binder.figures.water.drinkers import drinkers, flow_test
from binder.figures.water.drinking_water import rise, water_need
from binder.figures.weather.hot_days import DayWeather
from binder.pages.text import words
from binder.units import Amount
from tests.figures.written import celsius, printed, written_farm

if TYPE_CHECKING:
    from collections.abc import Sequence


GAL = 3.785411784
LB = 0.45359237
CUP_ML = 236.5882365
DAY = dt.date(2026, 7, 14)
HOT = DayWeather(35.0, 23.0, 22.0, None, assumed=False, origin="hot_day")


def litres(cls: str, temperature_c: float, weight_kg: float | None = None) -> float:
    """Return the drinking water of one head [L/day]."""
    return water_need(cls, 1, temperature_c, weight_kg).amount.value


def group(cls: str, count: int = 1, pen: str | None = None, **more: Any) -> Group:
    """Return a group of a class in a pen, named after its class unless `name` is given."""
    species = next(row.text("species") for row in rows("classes") if row.text("class") == cls)
    name = more.pop("name", cls)
    animal = Animal.model_validate({"name": name, "species": species})
    return Group(animal, cls, count, more.pop("weight_kg", None), pen, **more)


def farm(pens: Sequence[dict[str, Any]] = (), **equipment: Any) -> Farm:
    """Return a farm with pens and equipment, written as the owner would."""
    return written_farm(pens=pens, equipment=equipment)


# Need


def test_every_class_has_a_water_figure_that_prints() -> None:
    """Each class of the classes table gives a figure that prints in both systems."""
    for row in rows("classes"):
        figure = water_need(row.text("class"), 3, 36.0, 40.0)
        assert figure.amount.value > 0
        assert printed([figure])
        assert printed([figure], "metric")


def test_a_check_value_ten_growers() -> None:
    """10 grower pigs drink 10 gal a day in cool weather (water-1, check value 1)."""
    assert water_need("grower", 10, celsius(72)).amount.value == pytest.approx(10 * GAL)


def test_a_lactating_sow_drinks_42_for_23_at_25_c() -> None:
    """1.83 times as much at 25 C as at 20 C (water-8, 42 L for 23 L)."""
    ratio = litres("lactating sow", 25.0) / litres("lactating sow", 20.0)
    assert ratio == pytest.approx(42 / 23, abs=1e-9)


@pytest.mark.parametrize(
    ("cls", "fahrenheit", "litres_each"),
    [
        # water-40, Table 12.1, litres for 100 birds at 20 and 32 C; 26 C is half-way between
        ("laying hen", 68.0, 0.21),
        ("laying hen", 78.8, 0.305),
        ("laying hen", 89.6, 0.40),
        ("broiler", 89.6, 0.50),
        ("turkey", 89.6, 1.80),
        # water-60: a nursing beef cow, gallons at 40, 60 and 80 F; 70 F is half-way
        ("beef cow", 40.0, 11.4 * GAL),
        ("beef cow", 60.0, 14.5 * GAL),
        ("beef cow", 70.0, 16.2 * GAL),
        ("beef cow", 80.0, 17.9 * GAL),
        # water-8: the week before farrowing, 18 L at 15 C and 27 L at 25 C
        ("late-gestation sow", 59.0, 18.0),
        ("late-gestation sow", 77.0, 27.0),
        # water-62: double on the hottest day, 95 F
        ("goat", 77.0, 1.87),
        ("goat", 95.0, 3.74),
    ],
)
def test_need_between_and_at_published_points(
    cls: str, fahrenheit: float, litres_each: float
) -> None:
    """The published litres stand at their temperatures, a straight line between."""
    assert litres(cls, celsius(fahrenheit)) == pytest.approx(litres_each, rel=1e-9)


@pytest.mark.parametrize(
    ("fahrenheit", "ratio"),
    [(71.9, 1.0), (72, 1.0), (77, 1.5), (81.5, 1.65), (86, 1.8), (91, 2.0)],
)
def test_pigs_rise_with_heat(fahrenheit: float, ratio: float) -> None:
    """Pigs drink up to twice as much by 91 F (water-5, water-8; derived steps)."""
    assert rise("pigs", celsius(fahrenheit)).ratio == pytest.approx(ratio, abs=1e-9)


def test_above_the_hottest_published_air_the_last_figure_is_held() -> None:
    """Just above 91 F the figure for 91 F stands, and the reader is told."""
    at, above = water_need("grower", 1, celsius(91)), water_need("grower", 1, celsius(91.1))
    assert at.amount.value == pytest.approx(above.amount.value)
    assert "held" not in at.cautions
    assert "held" in above.cautions
    assert "No figure is published above 91" in printed([above])


@pytest.mark.parametrize("cls", [row.text("class") for row in rows("water_need")])
def test_hotter_never_needs_less(cls: str) -> None:
    """From 0 to 50 C no class needs less than at a degree cooler."""
    needs = [litres(cls, float(temperature), 60.0) for temperature in range(51)]
    assert all(later >= earlier for earlier, later in pairwise(needs))


@given(count=st.integers(1, 500), temperature_c=st.floats(-60, 50))
def test_a_group_is_the_sum_of_its_heads(count: int, temperature_c: float) -> None:
    """So many head need so many times what one needs."""
    need = water_need("finisher", count, temperature_c).amount.value
    assert need == pytest.approx(count * litres("finisher", temperature_c))


@pytest.mark.parametrize(
    ("cls", "pounds", "gallons"),
    [
        ("finisher", 199, 2.0),  # water-1: 2 gal is the larger up to 200 lb
        ("finisher", 250, 2.5),  # water-23: 1 gal for 100 lb is the larger above
        ("horse", 1000, 10.0),  # water-60: 1 gal for 100 lb
        ("bull", 1500, 22.5),  # water-60: 1.5 gal for 100 lb in summer
        ("beef cow", 1200, 18.0),  # the same, in place of the nursing cow's table
        ("sheep", 80, 0.48),  # water-63: 0.96 gal for 160 lb
    ],
)
def test_weight_rules(cls: str, pounds: float, gallons: float) -> None:
    """A known weight gives the published figure for that weight."""
    assert litres(cls, celsius(68), pounds * LB) == pytest.approx(gallons * GAL, rel=1e-3)


def test_cattle_by_weight_need_no_more_in_heat() -> None:
    """1.5 gal for 100 lb is a summer figure already: it is not raised again (water-60)."""
    figure = water_need("bull", 1, 40.0, 680.0)
    assert figure.amount.value == pytest.approx(litres("bull", 10.0, 680.0))
    assert [line.key for line in figure.working] == ["weight", "head"]


def test_broilers_are_stored_for_at_2_4_times() -> None:
    """Broilers drink twice the cool figure at 32 C; the store is sized for 2.4 (water-44)."""
    figure = water_need("broiler", 100, 36.0)
    assert figure.amount.value == pytest.approx(50.0)
    stored = dict(figure.working[-1].values)["store"]
    assert isinstance(stored, Amount)
    assert stored.value == pytest.approx(60.0)
    assert "up to four times" in printed([figure])  # water-40


def test_cool_weather_needs_no_heat_words() -> None:
    """In cool weather no caution about heat stands."""
    found = water_need("broiler", 100, 15.0)
    assert found.cautions == ()
    assert "store" not in [line.key for line in found.working]  # nothing more is drunk


@pytest.mark.parametrize("cls", ["dairy cow", "calf", "bull"])
def test_some_classes_need_their_weight(cls: str) -> None:
    """Where water is published by weight only, an unknown weight is refused and asked for."""
    with pytest.raises(NotPublishedError, match="give its weight"):
        water_need(cls, 1, 30.0)


def test_an_unknown_class_is_refused_with_the_nearest() -> None:
    """A misspelt class is answered with the class it is most like."""
    with pytest.raises(NotPublishedError, match="did you mean grower"):
        water_need("growers", 1, 20.0)


@pytest.mark.parametrize("temperature_c", [-60.1, 50.1, float("nan")])
def test_air_outside_the_range_is_refused(temperature_c: float) -> None:
    """No figure outside -60 to 50 C (our choice), and the range is named in both units."""
    with pytest.raises(NotPublishedError, match=r"-76°F \(-60°C\) to 122°F \(50°C\)"):
        water_need("grower", 1, temperature_c)
    assert water_need("grower", 1, 50.0).amount.value == pytest.approx(2 * GAL)


def test_a_weight_of_nothing_is_refused() -> None:
    """A weight of 0 is no weight."""
    with pytest.raises(ValueError, match="weight"):
        water_need("grower", 1, 20.0, 0.0)


# Farm


def test_farm_sums_groups_pens_and_litters() -> None:
    """A pen's water is the sum of its animals', a litter's included; the farm's that of all."""
    place = farm([{"id": "barn"}, {"id": "woods"}, {"id": "empty"}, {"id": "byre"}])
    herd = Herd(DAY, (
        group("lactating sow", 1, "barn", name="Clementine", litter=10),
        group("grower", 8, "woods"),
        group("bull", 1, "byre", name="Ferdinand"),
        group("lactating goat", 1, "woods", litter=2),
    ))  # fmt: skip
    found = drinking_water.for_farm(place, herd, HOT)
    each = {name: figure.amount.value for name, figure in found.groups.items()}
    # 6 gal x 46/23 above 91 F, 10 piglets of 0.35 L x 2 (water-2, water-4, water-8)
    assert each["Clementine"] == pytest.approx(12 * GAL)
    assert each["Clementine litter"] == pytest.approx(7.0)
    assert found.pens["barn"].amount.value == pytest.approx(12 * GAL + 7.0)
    assert found.pens["woods"].amount.value == pytest.approx(
        each["grower"] + each["lactating goat"]
    )
    assert found.farm is not None
    assert found.farm.amount.value == pytest.approx(sum(each.values()))
    assert found.unknown == ("Ferdinand",)
    assert set(found.pens) == {"barn", "woods"}
    assert found.temperature_c == 35.0
    assert not found.assumed
    assert "Clementine litter" in printed(
        [found.farm, *found.pens.values(), *found.groups.values()]
    )


def test_a_farm_without_animals_needs_nothing() -> None:
    """No animals: no figure, not a zero."""
    assert drinking_water.for_farm(farm(), Herd(DAY, ()), HOT).farm is None


# Drinkers and flow


@pytest.mark.parametrize(
    ("cls", "count", "need"),
    [
        ("grower", 1, 1),
        ("grower", 2, 2),  # never fewer than 2 for a group (water-1)
        ("grower", 30, 2),
        ("grower", 31, 3),  # 15 to a drinker (water-1)
        ("weaned pig", 21, 3),  # 10 in the nursery (water-1)
        ("laying hen", 50, 5),  # 10 a nipple where it is hot (water-44)
        ("goat", 6, 2),  # our choice
    ],
)
def test_drinkers(cls: str, count: int, need: int) -> None:
    """So many head need so many drinkers, rounded up."""
    figure = drinkers(cls, count)
    assert figure.value == Amount(need, "count")
    assert printed([figure])


def test_ducks_need_trough_edge() -> None:
    """250 ducks over 8 weeks need 1.5 m of edge (water-122, check value 25)."""
    figure = drinkers("duck", 250)
    assert figure.amount.unit == "m"
    assert figure.amount.value == pytest.approx(1.5)
    assert printed([figure])


@pytest.mark.parametrize(
    ("cls", "caught_ml", "verdict"),
    [
        ("finisher", 250.0, "pass"),  # 500 mL/min passes the 2-cup test (water-14, water-1)
        ("finisher", CUP_ML, "pass"),  # 2 cups a minute, at the limit
        ("finisher", CUP_ML - 0.5, "fail"),
        ("boar", 1.5 * CUP_ML, "pass"),  # 3 cups (water-1)
        ("boar", 1.5 * CUP_ML - 0.5, "fail"),
        ("lactating sow", 750.0, "pass"),  # 1.5 L/min (water-9)
        ("lactating sow", 749.0, "fail"),
        ("broiler", 38.0, "pass"),  # 76 mL/min at 8 weeks (water-44, check value 9)
        ("broiler", 37.9, "fail"),
    ],
)
def test_flow(cls: str, caught_ml: float, verdict: str) -> None:
    """Half a minute's catch passes or fails just at the published flow."""
    figure = flow_test(cls, caught_ml / 1000, 30.0)
    assert figure.value == verdict
    assert printed([figure])


def test_nipple_flow_by_age() -> None:
    """A nipple for 2-week chicks gives 34 mL/min: 7 x 2 + 20 (water-44)."""
    assert flow_test("chick", 0.0340001, 60.0, 2 * 168.0).value == "pass"
    assert flow_test("chick", 0.0339, 60.0, 2 * 168.0).value == "fail"
    with pytest.raises(NotPublishedError, match="8 weeks"):
        flow_test("broiler", 0.1, 60.0, 8.1 * 168.0)


def test_no_flow_is_published_for_goats() -> None:
    """Where no flow is published the test refuses and says what to look for."""
    with pytest.raises(NotPublishedError, match="goat"):
        flow_test("goat", 0.5, 30.0)


def test_the_farms_drinkers() -> None:
    """Pens with too few places are named; a nipple is tested for its neediest class."""
    nipple = {"id": "d1", "kind": "nipple", "count": "1", "flow": "3 cup/min"}
    place = farm([
        {"id": "woods", "drinkers": [nipple]},
        {"id": "barn", "drinkers": [{**nipple, "id": "d2", "count": "2"}]},
        {"id": "meadow", "drinkers": [{**nipple, "id": "d3", "kind": "bowl", "count": "2"}]},
        {"id": "pond", "drinkers": [{**nipple, "id": "d4", "kind": "trough"}]},
        {"id": "lane", "drinkers": [{"id": "d5", "kind": "nipple"}]},
        {"id": "run", "drinkers": [{"id": "d6", "kind": "bell", "count": "2"}]},
        {"id": "coop", "drinkers": [{"id": "d7", "kind": "nipple", "count": "4"}]},
    ])  # fmt: skip
    herd = Herd(DAY, (
        group("grower", 8, "woods"), group("grower", 2, "woods", name="more"),
        group("grower", 4, "barn"), group("lactating sow", 1, "barn"),
        group("goat", 4, "meadow"), group("duck", 20, "pond"),
        group("laying hen", 50, "run"), group("laying hen", 50, "coop", name="others"),
    ))  # fmt: skip
    found = drinking_places.for_farm(place, herd)
    assert found.there == {"woods": 1, "barn": 2, "meadow": 2, "pond": 1, "run": 2, "coop": 4}
    # 50 hens need 5 nipples; at two bells many drink at once
    assert found.short == ("woods", "coop")
    assert found.need["woods", "grower"].amount.value == 2
    # 3 cups is enough for growers and too little for the sow beside them (water-9)
    assert {key: test.value for key, test in found.tests.items()} == {
        "d1": "pass",
        "d2": "fail",
    }


def test_the_neediest_class_of_a_pen_counts() -> None:
    """50 hens need 5 nipples (water-44), the 4 goats beside them 2 (our choice): 3 are few."""
    nipples = {"id": "d1", "kind": "nipple", "count": "3", "flow": "3 cup/min"}
    place = farm([{"id": "run", "drinkers": [nipples]}])
    herd = Herd(DAY, (group("laying hen", 50, "run"), group("goat", 4, "run")))
    assert drinking_places.for_farm(place, herd).short == ("run",)


# Store


def test_reserve_at_the_limit_of_a_day() -> None:
    """A day's need lasts 24 h and is enough (water-17); a little less is short."""
    whole, less = reserve.reserve(100.0, 100.0), reserve.reserve(99.9, 100.0)
    assert whole.value == Amount(24.0, "h")
    assert whole.working[-1].key == "enough"
    assert less.working[-1].key == "short"
    assert printed([whole, less])


def test_a_reserve_of_no_use_is_refused() -> None:
    """Nothing is divided by a demand of 0."""
    with pytest.raises(ValueError, match="demand"):
        reserve.reserve(100.0, 0.0)


@pytest.mark.parametrize(("days", "gallons"), [(3, 15), (7, 35)])
def test_water_to_store_for_a_pig(days: int, gallons: float) -> None:
    """A 250 lb pig for 3 and 7 days: 15 and 35 gal (water-117, check value 21)."""
    figure = reserve.water_store(1, 250 * LB, days)
    assert figure.amount.value == pytest.approx(gallons * GAL)
    assert printed([figure])


def test_a_store_for_no_days_is_refused() -> None:
    """No days, no store."""
    with pytest.raises(ValueError, match="days"):
        reserve.water_store(1, 100.0, 0)


def test_tank_sizes() -> None:
    """40 gal a day need 80 gal from an unsteady source, else 40 (water-120, water-17)."""
    steady, unsteady = (reserve.tank_size(40 * GAL, kind) for kind in ("steady", "unsteady"))
    assert steady.amount.value == pytest.approx(40 * GAL)
    assert unsteady.amount.value == pytest.approx(80 * GAL)
    assert printed([steady, unsteady])


def test_hauling_rounds_up_and_weighs() -> None:
    """276 gal take two trips with 275, which weigh 2294 lb each (arithmetic, water-75)."""
    figure = reserve.hauling(276 * GAL, 275 * GAL)
    assert figure.value == Amount(2, "count")
    load = dict(figure.working[1].values)["load"]
    assert isinstance(load, Amount)
    assert load.value == pytest.approx(2294 * LB, rel=3e-4)
    assert reserve.hauling(275 * GAL, 275 * GAL).value == Amount(1, "count")
    assert printed([figure])


@pytest.mark.parametrize(
    ("hours", "first"),
    [
        (0, "restore"),
        (11.99, "restore"),
        (12, "small drinks"),
        (23.99, "small drinks"),
        (24, "vet first"),
        (40, "vet first"),
    ],
)
def test_the_lines_of_a_dry_spell(hours: float, first: str) -> None:
    """Held back from 24 hours (water-31, WA DPIRD); small drinks from 12 (derived)."""
    figure = reserve.dry_spell(hours)
    assert figure.value == first
    text = printed([figure])
    assert "vet" in text


def test_no_amount_of_water_after_a_dry_spell() -> None:
    """No volume and no share of body weight is printed: none rests on a grade A or B source."""
    text = printed([reserve.dry_spell(30.0)])
    assert not any(unit in text for unit in (" gal", " cup", " lb", " L ", "%"))


def test_a_negative_time_is_refused() -> None:
    """Time without water is not negative."""
    with pytest.raises(ValueError, match="time"):
        reserve.dry_spell(-1.0)


# Supply


def _supply(
    place: Farm, herd: Herd, hot: DayWeather = HOT, **more: Any
) -> farm_supply.SupplyFigures:
    need = drinking_water.for_farm(place, herd, hot)
    hoses = hose_plan.for_farm(place, need, hot)
    wallows = wallow_plan.for_farm(place, herd)
    return farm_supply.for_farm(place, herd, hot, need, hoses, wallows, **more)


WALLOW = {"id": "w1", "shape": "rectangle", "length": "3 m", "width": "2 m", "depth": "25 cm"}
HOSE = {"id": "h1", "inside": "3/4 in", "length": "250 ft", "flow": "5 gal/min"}


def test_demand_is_the_sum_of_its_parts() -> None:
    """Drinking, wallow, flushing, soaking and wetting add up to the demand."""
    place = farm(
        [
            {"id": "woods", "wallow": WALLOW, "drinkers": [
                {"id": "d1", "kind": "trough", "holds": "100 L", "count": "2"},
                {"id": "d2", "kind": "bucket", "holds": "20 L", "can_tip": "yes"},
                {"id": "d3", "kind": "nipple"}]},
            {"id": "barn", "drinkers": [{"id": "d4", "kind": "nipple"}]},
        ],
        hoses=[HOSE],
        tanks=[
            {"id": "t1", "name": "High tank", "holds": "1000 L"},
            {"id": "t2", "name": "Pumped tank", "holds": "500 L", "needs_power": "yes"},
        ],
        water_sources=[{"id": "well", "name": "Well", "kind": "well", "flow": "20 L/min"}],
    )  # fmt: skip
    herd = Herd(DAY, (group("grower", 8, "woods", weight_kg=40.0), group("boar", 1, "barn")))
    found = _supply(place, herd, soak_l_day=10.0, wet_hours=5)
    assert found.demand is not None
    parts = {line.key: dict(line.values)["water"] for line in found.demand.working}
    assert set(parts) == {"drinking", "wallows", "flushing", "soaking", "wetting", "sum"}
    amounts = {key: part.value for key, part in parts.items() if isinstance(part, Amount)}
    assert amounts["sum"] == pytest.approx(sum(amounts.values()) - amounts["sum"])
    assert amounts["drinking"] == pytest.approx(22 * GAL)  # 8 growers x 2, boar 6
    assert amounts["soaking"] == 10.0
    # one boar without a wallow, 5 h at 0.2 gal (water-90, water-93)
    assert amounts["wetting"] == pytest.approx(1.0 * GAL)
    assert found.stored.amount.value == pytest.approx(1200.0)
    assert found.reserve is not None
    assert found.reserve.amount.value == pytest.approx(1200 / (22 * GAL) * 24)
    assert found.reserve_all is not None
    assert found.reserve_all.amount.value == pytest.approx(1200 / amounts["sum"] * 24)
    assert set(found.pens) == {"woods"}
    assert found.pens["woods"].amount.value == pytest.approx(200 / (16 * GAL) * 24)
    assert found.pumping is not None
    assert found.pumping.amount.value == pytest.approx(amounts["sum"] / 1200)
    assert found.tank is not None
    assert found.tank.amount.value == pytest.approx(22 * GAL)
    assert found.days is not None
    assert found.days.amount.value == pytest.approx(66 * GAL)  # 3 days (water-117)
    assert {key: trips.value for key, trips in found.hauling.items()} == {
        "t1": Amount(1, "count"),
        "t2": Amount(1, "count"),
    }
    assert printed([
        found.demand, found.wetting, found.stored, found.reserve, found.reserve_all,
        found.pumping, found.tank, found.days, *found.hauling.values(), *found.pens.values(),
    ])  # fmt: skip


def test_what_is_not_recorded_is_none() -> None:
    """No store, no source, no soaking: no reserve and no pumping hours, no made-up value."""
    found = _supply(farm([{"id": "woods"}]), Herd(DAY, (group("grower", 8, "woods"),)))
    assert found.reserve is None
    assert found.reserve_all is None
    assert found.pumping is None
    assert found.pens == {}
    assert found.hauling == {}
    assert found.tank is not None
    assert found.tank.working[0].key == "unsteady"
    # 8 growers, 12 h of wetting where the day is not drawn (our choice)
    assert found.wetting.amount.value == pytest.approx(8 * 12 * 0.2 * GAL)


def test_an_empty_farm_has_no_demand() -> None:
    """Without animals there is no demand, even with a full tank and a hose."""
    tank = {"id": "t1", "name": "High tank", "holds": "1000 L"}
    found = _supply(farm(hoses=[HOSE], tanks=[tank]), Herd(DAY, ()))
    assert (found.demand, found.reserve, found.reserve_all) == (None, None, None)
    assert (found.tank, found.days, found.hauling) == (None, None, {})


def test_a_cool_day_needs_no_wetting() -> None:
    """Below 80 F nobody is wetted (water-93)."""
    mild = DayWeather(celsius(79.9), 15.0, 10.0, None, assumed=False, origin="hot_day")
    found = _supply(farm(), Herd(DAY, (group("grower", 8),)), mild)
    assert found.wetting.amount.value == 0.0


def test_warm_hours_count_from_80_f() -> None:
    """Only hours at 80 F or above count (water-93)."""
    assert farm_supply.warm_hours([celsius(79.9), celsius(80.0), celsius(95.0)]) == 2


# Command line


def test_figures_are_asked_for_by_name() -> None:
    """`class=` and the other arguments reach the figures as typed."""
    found = {
        entry.name: entry
        for module in (drinking_water, drinking_places, reserve)
        for entry in module.ENTRIES
    }
    asked = {
        "water-need": ({"class": "grower", "count": "10", "temperature": "68 F"}, 10 * GAL),
        "drinkers": ({"class": "grower", "count": "8"}, 2),
        "reserve": ({"stored": "10 gal", "demand": "20 gal/day"}, 12),
        "water-store": ({"count": "1", "weight": "250 lb", "days": "3"}, 15 * GAL),
        "tank-size": ({"demand": "40 gal/day"}, 40 * GAL),
        "hauling": ({"demand": "400 gal/day", "holds": "275 gal"}, 2),
    }
    for name, (typed, expected) in asked.items():
        figure = found[name].compute(**read_arguments(found[name], typed))
        assert figure.amount.value == pytest.approx(expected)
    test = found["flow-test"]
    typed = {"class": "grower", "caught": "1 cup", "seconds": "30"}
    assert test.compute(**read_arguments(test, typed)).value == "pass"
    spell = found["dry-spell"]
    assert spell.compute(**read_arguments(spell, {"time": "1 day"})).value == "vet first"
    assert all(words.load().has(f"{name}.help") for name in found)
