"""The bands of a farm on its hot day."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from CoolProp.HumidAirProp import HAPropsSI

from binder import sources
from binder.farm.model import Farm
from binder.figures.bands import farm_bands, heat_indices
from binder.figures.bands.band_charts import charts_of
from binder.figures.bands.band_rule import (
    Band,
    band,
    people_band,
)
from binder.figures.bands.farm_bands import band_figure, people_band_figure
from binder.figures.herd.groups import for_farm as herd
from binder.figures.published import rows
from binder.figures.weather.hot_days import DayWeather
from binder.pages.text import words
from tests.figures.written import celsius, printed_in_both, written_farm

HOT = DayWeather(35.0, 23.9, 22.8, None, assumed=False, origin="hot_day")


def farm(**about: Any) -> Farm:
    """Return a farm of a sow, a piglet, hens and a dog."""
    animals = (
        {"name": "Ruby", "species": "pig", "sex": "sow", "born": "2023-01-01"},
        {"group": "Chicks", "species": "chicken", "count": "9", "born": "2026-07-10"},
        {"group": "Hens", "species": "chicken", "sex": "hen", "purpose": "eggs", "count": "9",
         "born": "2024-01-01"},
        {"name": "Bo", "species": "dog"},
    )  # fmt: skip
    return written_farm(animals=animals, **about)


def test_of_several_pig_charts_the_one_that_warns_soonest_counts() -> None:
    """Our choice; other kinds keep a chart each, and the young that need warmth have none."""
    sow = ("sows with young or due",)
    assert charts_of(["grower", "boar", "lactating sow"]) == sow
    assert charts_of(["boar", "grower"]) == ("sows and boars",)
    assert charts_of(["grower", "laying hen", "chick"]) == ("pigs", "poultry")
    assert charts_of([]) == ()


def test_a_farm_gets_charts_of_its_own_groups_and_peoples() -> None:
    """Chicks need warmth: they are listed apart and have no chart of their own."""
    place = farm(all_hands_from="95", units="metric")
    found = farm_bands.for_farm(place, herd(place, dt.date(2026, 7, 14)), HOT)
    assert list(found.charts) == ["sows and boars", "poultry", "dogs", "people"]
    assert found.charts["poultry"].system == "metric"
    assert found.young == ("chick",)
    assert set(found.hot_day) == {"dry sow", "laying hen", "dog"}
    assert found.hot_day["dry sow"].key == "band.dry sow"
    assert found.people.value == "Severe"  # 95 F and 49 %: heat index 105 (heat-1)
    assert found.heat_index is not None
    assert found.heat_index.amount.value == pytest.approx(105, abs=1)
    assert found.livestock_index is not None
    assert found.livestock_index.amount.value == pytest.approx(84.7, abs=0.2)
    printed_in_both(
        found.people, found.heat_index, found.livestock_index, *found.hot_day.values()
    )


def test_a_hot_day_beyond_the_chart_has_no_heat_index() -> None:
    """115 F: the published formula stops at 112 F."""
    place = farm()
    hotter = DayWeather(celsius(115), 30, 20, None, assumed=True, origin="our-choice")
    found = farm_bands.for_farm(place, herd(place, dt.date(2026, 7, 14)), hotter)
    assert found.heat_index is None
    assert found.people.value == "All hands"


def test_every_figure_has_its_words() -> None:
    """Title and help of each entry."""
    lexicon = words.load()
    for entry in (*farm_bands.ENTRIES, *heat_indices.ENTRIES):
        assert lexicon.text(f"{entry.name}.title")
        assert lexicon.text(f"{entry.name}.help")


def test_every_line_names_a_known_source() -> None:
    """Tables of this part; numbers that can hurt do not rest on memory."""
    known = sources.all_sources()
    for table in ("livestock_bands", "ladders", "class_ladders", "people_bands", "band_rules"):
        for row in rows(table):
            assert row.sources
            assert set(row.sources) <= set(known)
            assert "from-memory" not in row.sources


@pytest.mark.parametrize("altitude_m", [0.0, 500.0, 1500.0, 3000.0])
def test_the_wet_bulb_is_that_of_the_farms_altitude(altitude_m: float) -> None:
    """CoolProp (another hand) at the standard pressure of ASHRAE's equation 3 (heat-62)."""
    pressure_pa = 101325 * (1 - 2.25577e-5 * altitude_m) ** 5.2559
    for temp_c, rh_pct in ((37.78, 13.0), (35.0, 50.0), (24.0, 90.0)):
        found = heat_indices.wet_bulb(temp_c, rh_pct, altitude_m)
        other_k = HAPropsSI("Twb", "T", temp_c + 273.15, "R", rh_pct / 100, "P", pressure_pa)
        assert found.amount.value == pytest.approx(other_k - 273.15, abs=0.1)


@pytest.mark.parametrize("cls", ["dry sow", "laying hen", "horse", "dog"])
@pytest.mark.parametrize("temp_c", [-20.01, -40.0])
def test_air_colder_than_the_index_goes_is_number_0(cls: str, temp_c: float) -> None:
    """Every line of ladders.csv lies above 60 F: colder air than -20 C reaches none."""
    assert band(cls, temp_c, 50) is Band.FINE
    found = band_figure(cls, temp_c, 50)
    assert [line.key for line in found.working] == ["given", "cold", "worse"]


@pytest.mark.parametrize("temp_c", [-20.01, -40.0])
def test_cold_people_are_at_number_0(temp_c: float) -> None:
    """Heat-1: at 40 F and below the heat index is the air temperature."""
    assert people_band(temp_c, 50) is Band.FINE
    assert people_band_figure(temp_c, 50).value == Band.FINE.word


@pytest.mark.parametrize("cls", ["dry sow", "people"])
def test_cold_air_cannot_be_damper_than_full(cls: str) -> None:
    """A humidity that cannot be is refused in any air."""
    with pytest.raises(ValueError, match="outside the range 0 to 100"):
        people_band(-30, 101) if cls == "people" else band(cls, -30, 101)


@pytest.mark.parametrize("temp_c", [-274.0, float("nan"), float("-inf")])
def test_no_people_are_colder_than_cold_can_be(temp_c: float) -> None:
    """Absolute zero is -273.15 C by definition."""
    with pytest.raises(ValueError, match="outside the range"):
        people_band(temp_c, 50)


@pytest.mark.parametrize(("severe", "hottest"), [("43 C", 43), ("44 C", 50), ("47 C", 50)])
def test_charts_go_as_far_as_the_place_is_hot(severe: str, hottest: int) -> None:
    """To 43 C, or to the end of the index where the farm's worst day lies beyond (heat-97)."""
    day = {"high": severe, "low": "25 C", "dew_point": "14 C"}
    place = farm(extreme_day=day, units="metric")
    found = farm_bands.for_farm(place, herd(place, dt.date(2026, 7, 14)), HOT)
    assert {one.temps[0] for one in found.charts.values()} == {hottest}
