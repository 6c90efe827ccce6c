"""Bands, heat indices, charts and the finder.

Published limits and values stand beside the check with their source id. Lines marked "our
choice" are ours: the tests hold them still, they do not prove them.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import pytest
from CoolProp.HumidAirProp import HAPropsSI
from hypothesis import given
from hypothesis import strategies as st

from binder import sources, units
from binder.farm.model import Farm
from binder.figures.bands import farm_bands, heat_indices
from binder.figures.bands.band_charts import chart, charts_of, finder_table
from binder.figures.bands.band_rule import (
    Band,
    band,
    heat_line_c,
    is_banded,
    people_band,
    people_index_f,
    verdict,
)
from binder.figures.bands.farm_bands import band_figure, people_band_figure
from binder.figures.entry import read_arguments
from binder.figures.figure import NotPublishedError
from binder.figures.herd.groups import for_farm as herd
from binder.figures.published import rows
from binder.figures.weather.hot_days import DayWeather
from binder.pages.text import words
from tests.figures.written import celsius, printed_in_both, written_farm

if TYPE_CHECKING:
    from binder.display import System
    from binder.figures.figure import Figure

N, A, D, E, H = Band
DRY = 10.0  # % humidity: keeps the index out of the way of a class's own line
HOT = DayWeather(35.0, 23.9, 22.8, None, assumed=False, origin="hot_day")
CLASSES = tuple(row.text("class") for row in rows("classes"))
BANDED = tuple(cls for cls in CLASSES if is_banded(cls))


def asked(name: str, **given: str) -> Figure:
    """Return the figure as `binder figure` would, arguments as typed."""
    entry = next(entry for entry in farm_bands.ENTRIES if entry.name == name)
    return entry.compute(**read_arguments(entry, given))


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


# --- published classes and lines ------------------------------------------------------------


@pytest.mark.parametrize(
    ("fahrenheit", "expected"),
    [(74, N), (75, A), (78, A), (79, D), (83, D), (84, E), (89, E), (90, H)],
)
def test_the_livestock_classes_start_at_75_79_and_84(fahrenheit: float, expected: Band) -> None:
    """Heat-73, heat-97; at 100 % the index is the air in F. All hands: our choice."""
    assert band("goat", celsius(fahrenheit), 100) is expected
    if fahrenheit in (74, 78, 83, 89):  # the index is banded as the nearest whole number
        assert band("goat", celsius(fahrenheit + 0.49), 100) is expected
        assert band("goat", celsius(fahrenheit + 0.5), 100) is Band(expected + 1)


@pytest.mark.parametrize(
    ("fahrenheit", "rh_pct", "whole", "expected"),
    [
        (80, 60, 75, Band.WARM),  # heat-73, table 1
        (80, 50, 74, Band.FINE),
        (82, 80, 79, Band.HOT),
        (82, 65, 77, Band.WARM),
        (95, 45, 84, Band.SEVERE),
        (83.1, 100, 83, Band.HOT),  # heat-97: 79 to 83
    ],
)
def test_the_index_is_banded_as_the_guide_prints_it(
    fahrenheit: float, rh_pct: float, whole: int, expected: Band
) -> None:
    """The guide prints the nearest whole numbers, and the classes hold for those."""
    found = verdict("goat", celsius(fahrenheit), rh_pct)
    assert (found.whole, found.band) == (whole, expected)


def test_no_number_is_called_like_a_tab_or_a_signal_word() -> None:
    """Tab E is "Emergency" and a warning label says "Danger" (ANSI Z535): numbers do not."""
    text = words.load()
    names = {text.text(f"band.{each.key}") for each in Band}
    assert names == {"Fine", "Warm", "Hot", "Severe", "All hands"} == {e.word for e in Band}
    taken = (*text.section("tab").values(), *text.section("signal").values(), "Emergency")
    assert not {str(each).lower() for each in taken} & {each.lower() for each in names}


@pytest.mark.parametrize(
    ("cls", "starts"),
    [
        ("dry sow", (25.5, 28.1, 32.9)),  # heat-24, open sow
        ("gilt", (25.5, 28.1, 32.9)),
        ("boar", (25.5, 28.1, 32.9)),
        ("gestating sow", (24.0, 25.5, 30.8)),  # heat-24, late gestation, the safer
        ("late-gestation sow", (24.0, 25.5, 30.8)),
        ("lactating sow", (24.0, 25.5, 30.8)),
        ("grower", (25.0, celsius(85), 32.9)),  # husbandry-61; the last our choice
        ("finisher", (25.0, celsius(85), 32.9)),
        ("weaned pig", (celsius(85),)),  # heat-33, top of the range at ease
        ("laying hen", (23.89, celsius(85), 33.0, 36.0)),  # heat-40, C, heat-86, husbandry-22
        ("turkey", (23.89, celsius(85), 33.0, 36.0)),  # the hen's line
        ("duck", (26.0, celsius(85), 33.0, 36.0)),  # heat-84, then the hen's line
        ("beef cow", (24.0,)),  # heat-18
        ("dairy cow", (24.0,)),
    ],
)
def test_each_line_opens_its_band_at_and_not_below(cls: str, starts: tuple[float, ...]) -> None:
    """Closed below, open above, in air so dry that the index stays behind."""
    for number, start in enumerate(starts, start=1):
        assert band(cls, start, DRY) is Band(number)
        assert band(cls, start - 0.02, DRY) is Band(number - 1)
    assert heat_line_c(cls) == pytest.approx(starts[0], abs=0.002)


def test_75_f_on_the_thermometer_is_alert_for_hens() -> None:
    """Heat-40 gives 23.89 C, which is 75 F."""
    assert band("laying hen", celsius(75), DRY) is A
    assert band("laying hen", celsius(74.9), DRY) is N


@pytest.mark.parametrize(("fahrenheit", "expected"), [(84, N), (85, D), (89, D), (90, E)])
def test_rabbits_go_from_normal_to_danger_at_85_f(fahrenheit: float, expected: Band) -> None:
    """Heat-51: fertility falls above 85 F, an unused rabbit may die above 90 F."""
    assert band("rabbit", celsius(fahrenheit), DRY) is expected


@pytest.mark.parametrize(
    ("fahrenheit", "humidity", "expected"),
    [(72, 47, N), (72, 48, A), (75, 74, A), (75, 75, D), (82, 97, D), (82, 98, E), (69, 90, N)],
)
def test_horses_are_banded_by_their_sum_too(
    fahrenheit: float, humidity: float, expected: Band
) -> None:
    """Heat-50: 120, 150, 180; below 70 F the sum is not asked, our choice."""
    assert band("horse", celsius(fahrenheit), humidity) is expected


@pytest.mark.parametrize(
    ("cls", "fahrenheit", "expected"),
    [("laying hen", 80, D), ("laying hen", 81, E),  # heat-45, index 81
     ("dairy cow", 71, N), ("dairy cow", 72, A),  # heat-15
     ("dairy cow", 82, D), ("dairy cow", 83, E)],  # heat-16, above 82
)  # fmt: skip
def test_some_classes_have_lines_on_the_index(
    cls: str, fahrenheit: float, expected: Band
) -> None:
    """At 100 % the index is the air temperature in F."""
    assert band(cls, celsius(fahrenheit), 100) is expected


@pytest.mark.parametrize(
    ("cls", "fahrenheit", "humidity", "expected"),
    [
        ("goat", 100, 15, D), ("goat", 100, 36, E),  # heat-74, index 80.4 and 85.2
        ("goat", 83, 70, D),  # heat-92: 78.9, rounded up
        ("beef cow", 86, 60, D),  # heat-17: upper limit of beef, index 80
        ("kid", 86, 60, D), ("lamb", 86, 60, D), ("dog", 86, 60, D),  # the classes alone
    ],
)  # fmt: skip
def test_anchor_points_of_the_trade_fall_in_their_class(
    cls: str, fahrenheit: float, humidity: float, expected: Band
) -> None:
    """Points that a source names with their class."""
    assert band(cls, celsius(fahrenheit), humidity) is expected


@pytest.mark.parametrize(
    ("fahrenheit", "humidity", "index", "expected"),
    [
        (80, 40, 80, A), (88, 50, 91, D), (90, 45, 93, D), (86, 80, 100, D),
        (90, 65, 103, E), (100, 40, 109, E), (94, 70, 119, H), (98, 60, 123, H),
    ],
)  # fmt: skip
def test_people_are_banded_by_the_heat_index(
    fahrenheit: float, humidity: float, index: float, expected: Band
) -> None:
    """Cells of heat-2; heat-3 opens classes at 80, 90 and 103, heat-4 its worst at 115."""
    found = people_index_f(celsius(fahrenheit), humidity)
    assert found == pytest.approx(index, abs=0.6)
    assert people_band(celsius(fahrenheit), humidity) is expected


@pytest.mark.parametrize(("fahrenheit", "humidity"), [(113, 5), (130, 20), (110, 60), (96, 90)])
def test_air_beyond_the_published_chart_is_the_worst_for_people(
    fahrenheit: float, humidity: float
) -> None:
    """Heat-2 leaves these cells blank; taking the worst is our choice."""
    assert people_index_f(celsius(fahrenheit), humidity) is None
    assert people_band(celsius(fahrenheit), humidity) is H
    assert "beyond" in printed_in_both(people_band_figure(celsius(fahrenheit), humidity))


@pytest.mark.parametrize("system", ["us", "metric"])
def test_the_chart_for_people_never_falls_in_warmer_or_damper_air(system: System) -> None:
    """Along a row and up a column no number falls, at the change of formula too (heat-1)."""
    found = chart("people", system=system)
    rows = [[cell for cell in row if cell is not None] for row in found.cells]
    columns = [
        [cell for cell in reversed(column) if cell is not None]
        for column in zip(*found.cells, strict=True)
    ]
    for line in (*rows, *columns):
        assert line == sorted(line)


@pytest.mark.parametrize(("temp_c", "humidity"), [(27.0, 25.0), (27.5, 5.0), (28.0, 5.0)])
def test_past_the_change_of_formula_people_are_at_least_warm(
    temp_c: float, humidity: float
) -> None:
    """The formula of heat-1 gives 77.9 to 79.4 F here, though drier air already reads 80 F."""
    index = people_index_f(temp_c, humidity)
    assert index is not None
    assert index < 79.5
    assert people_band(temp_c, humidity) is A


# --- our own edges ---------------------------------------------------------------------------


@pytest.mark.parametrize(("temp_c", "humidity"), [(30, 101), (30, -1)])
def test_people_refuse_air_that_cannot_be_asked(temp_c: float, humidity: float) -> None:
    """Impossible humidity."""
    with pytest.raises(ValueError, match="outside the range"):
        people_band(temp_c, humidity)


@pytest.mark.parametrize("cls", ["suckling piglet", "chick"])
def test_the_young_that_need_warmth_have_no_band(cls: str) -> None:
    """Heat-33: a newborn pig is at ease at 95 F."""
    assert not is_banded(cls)
    with pytest.raises(NotPublishedError, match="needs warmth"):
        band(cls, 35, 50)


def test_an_unknown_class_is_named() -> None:
    """The nearest class is offered."""
    with pytest.raises(NotPublishedError, match="did you mean laying hen"):
        band("layin hen", 35, 50)


def test_every_banded_class_has_its_ladder_listed() -> None:
    """A class added to the herd cannot slip through without lines by accident."""
    assert {row.text("class") for row in rows("class_ladders")} == set(BANDED)
    ladders = {row.text("ladder") for row in rows("ladders")} | {"none"}
    assert {row.text("ladder") for row in rows("class_ladders")} == ladders


def test_the_owner_may_move_all_hands() -> None:
    """`all_hands_from` in farm.yaml replaces ours and nothing else."""
    assert band("goat", celsius(86), 100, 86) is H
    assert band("goat", celsius(85), 100, 86) is E
    assert band("goat", celsius(90), 100, 100) is E
    assert band("laying hen", 36, DRY, 100) is H  # the class's own line stands


temperatures = st.floats(-20, 49)
humidities = st.floats(0, 100)


@given(st.sampled_from(BANDED), temperatures, humidities, st.floats(0, 20))
def test_hotter_air_is_never_milder(cls: str, temp_c: float, rh: float, more: float) -> None:
    """At one humidity; the index runs the other way in cold dry air, far below every line."""
    assert band(cls, min(temp_c + more, 50), rh) >= band(cls, temp_c, rh)


@given(st.sampled_from(BANDED), st.floats(14.5, 50), humidities, st.floats(0, 100))
def test_damper_air_is_never_milder(cls: str, temp_c: float, rh: float, more: float) -> None:
    """At one temperature above 58 F, where the index rises with humidity (heat-12)."""
    assert band(cls, temp_c, min(rh + more, 100)) >= band(cls, temp_c, rh)


@given(st.sampled_from(BANDED), temperatures, humidities)
def test_the_band_is_never_below_the_livestock_class(
    cls: str, temp_c: float, rh: float
) -> None:
    """The worse of the two counts."""
    whole = verdict(cls, temp_c, rh).whole
    assert whole is not None
    by_class = N if whole < 75 else A if whole < 79 else D if whole < 84 else E
    assert band(cls, temp_c, rh) >= by_class


# --- figures ---------------------------------------------------------------------------------


def test_the_band_figure_says_which_line_decided() -> None:
    """Late-gestation sow at 84 F and 70 %: index 80 and the 25.5 C line both say 2."""
    found = asked(
        "band", **{"class": "late-gestation sow", "temperature": "84F", "humidity": "70%"}
    )
    assert found.value == "Hot"
    said = printed_in_both(found)
    assert "Livestock index 79.7, nearest whole number 80: Hot" in said
    assert "Hot from an air temperature of 77.9°F" in said
    assert "25.5°C" in said
    assert "2, Hot" in said
    assert "labour" in said
    assert {"heat-12", "heat-24"} <= set(found.sources)


def test_the_figure_speaks_for_every_class_in_every_band() -> None:
    """No class, measure or band lacks words, and every source is known."""
    known = sources.all_sources()
    for cls in BANDED:
        for temp_c, rh in ((10, 50), (24.5, 90), (28, 95), (31, 60), (34, 60), (37, 60)):
            found = band_figure(cls, temp_c, rh)
            assert found.value == band(cls, temp_c, rh).word
            printed_in_both(found)
            assert set(found.sources) <= set(known)


@pytest.mark.parametrize(
    ("cls", "said"),
    [
        ("dog", "no lines of its own"), ("goat", "disagree"), ("horse", "sum"),
        ("laying hen", "from a livestock index of 81"), ("broiler", "damp air"),
    ],
)  # fmt: skip
def test_the_figure_says_what_is_special_of_a_class(cls: str, said: str) -> None:
    """Disagreements and missing lines are printed with the band."""
    assert said in printed_in_both(band_figure(cls, 29, 90))


def test_a_band_for_people_is_asked_the_same_way() -> None:
    """86 F and 80 %: heat index 100 (heat-2), between 90 and 103."""
    found = asked("band", **{"class": "people", "temperature": "86F", "humidity": "80%"})
    assert found.value == "Hot"
    said = printed_in_both(found)
    assert "Heat index 99." in said or "Heat index 100." in said
    cool = people_band_figure(20, 50)
    assert cool.value == "Fine"
    assert "below the first line" in printed_in_both(cool)


def test_all_hands_is_two_words() -> None:
    """Keys carry the underscore, the word does not."""
    assert (H.key, H.word) == ("all_hands", "All hands")


@pytest.mark.parametrize(
    ("temperature", "humidity", "expected", "said"),
    [
        ("96F", "65%", 121, "long formula"),  # heat-2
        ("70F", "50%", 69.5, "short formula"),  # heat-1, by hand: (69.05 + 70) / 2
        ("80F", "100%", 89.3, "Very damp air adds 2.1°F"),  # heat-1, by hand: 87.2 + 2.1
        ("100F", "10%", 94.6, "Very dry air takes off 0.6°F"),  # by hand: 3/4 sqrt(12/17)
    ],
)
def test_the_heat_index_shows_its_pieces(
    temperature: str, humidity: str, expected: float, said: str
) -> None:
    """Each branch of the published method prints what it added."""
    found = asked("heat-index", temperature=temperature, humidity=humidity)
    assert units.convert(found.amount, "us") == pytest.approx(expected, abs=0.6)
    assert said in printed_in_both(found)
    assert found.amount.unit == "degF"


@pytest.mark.parametrize(
    ("species", "expected", "source"),
    [
        (None, 83.8, "heat-12"), ("cattle", 83.8, "heat-12"), ("pig", 91.5, "heat-77"),
        ("chicken", 32.4, "from-memory"), ("turkey", 34.3, "heat-38"),
        ("goat", 32.7, "heat-78"), ("sheep", 32.7, "heat-78"), ("horse", 130, "heat-50"),
    ],
)  # fmt: skip
def test_each_species_has_its_own_scale(
    species: str | None, expected: float, source: str
) -> None:
    """100 F and 30 %: 83.8 and 91.5 as the published forms give, the others worked by hand.

    Wet bulb 24.2 C: hen 0.6 x 37.78 + 0.4 x 24.2; turkey 0.74 and 0.26; sheep 37.78 -
    (0.31 - 0.093) x 23.38.
    """
    given = {"species": species} if species else {}
    found = asked("livestock-index", temperature="100F", humidity="30%", **given)
    assert found.amount.value == pytest.approx(expected, abs=0.06)
    assert found.amount.unit == "index"
    assert source in found.sources
    assert ("scale of its own" in printed_in_both(found)) is (species not in (None, "cattle"))


def test_wind_and_sun_belong_to_cattle() -> None:
    """Heat-76: + 4.51 - 1.992 x 2 + 0.0068 x 800 = + 5.966."""
    air = {"temperature": "100F", "humidity": "30%"}
    bare = asked("livestock-index", **air).amount.value
    outdoors = {**air, "wind": "2m/s", "sun": "800W/m2"}
    found = asked("livestock-index", species="cattle", **outdoors)
    assert found.amount.value - bare == pytest.approx(5.966)
    assert "With a wind" in printed_in_both(found)
    for wrong in (
        {**outdoors, "species": "pig"},
        outdoors,
        {**air, "species": "cattle", "sun": "9W/m2"},
    ):
        with pytest.raises(NotPublishedError, match="cattle only"):
            asked("livestock-index", **wrong)


def test_wet_bulb_and_dew_point_print() -> None:
    """100 F and 13 %: wet bulb 65 F (heat-62); 35 C and 40 %: dew point 19.4 C (heat-63)."""
    wet = asked("wet-bulb", temperature="100F", humidity="13%")
    assert units.convert(wet.amount, "us") == pytest.approx(65, abs=1)
    dew = asked("dew-point", temperature="35C", humidity="40%")
    assert dew.amount.value == pytest.approx(19.4, abs=0.05)
    assert "humidity" in printed_in_both(wet, dew)


# --- charts and finder -----------------------------------------------------------------------


def test_a_chart_holds_the_band_of_each_cell() -> None:
    """Rows 110 to 74 F by 2, columns 20 to 90 % by 5, hottest first."""
    found = chart("cattle", ["beef cow"])
    assert found.temps == tuple(range(110, 72, -2))
    assert found.humidities == tuple(range(20, 101, 5))
    row, column = found.temps.index(86), found.humidities.index(60)
    assert found.cells[row][column] is D  # heat-17
    assert found.temps_c[row] == pytest.approx(30)


def test_a_metric_chart_counts_degrees_celsius() -> None:
    """43 to 23 C."""
    found = chart("cattle", ["beef cow"], system="metric")
    assert found.temps == tuple(range(43, 22, -1))
    assert found.temps_c == tuple(float(each) for each in range(43, 22, -1))


def test_a_chart_shows_the_worst_class_of_its_group() -> None:
    """A group's chart is never milder than any class of it."""
    whole = chart("poultry")
    hens = chart("poultry", ["laying hen", "chick", "finisher"])
    assert hens.classes == ("laying hen",)
    for worst, own in zip(whole.cells, hens.cells, strict=True):
        assert all(a is b is None or (a is not None and b is not None and a >= b)
                   for a, b in zip(worst, own, strict=True))  # fmt: skip


def test_a_cell_is_blank_where_air_is_never_that_damp() -> None:
    """Dew point above 30 C by CoolProp, an independent library, within 0.3 C of the limit."""
    found = chart("people")
    for temp_c, cells in zip(found.temps_c, found.cells, strict=True):
        for rh, cell in zip(found.humidities, cells, strict=True):
            dew_c = HAPropsSI("D", "T", temp_c + 273.15, "R", rh / 100, "P", 101325) - 273.15
            if abs(dew_c - found.dampest_c) > 0.3:
                assert (cell is None) is (dew_c > found.dampest_c)
            assert cell is None or cell is people_band(temp_c, rh)


def test_a_chart_that_nobody_is_read_from_is_refused() -> None:
    """The nearest chart is offered; so is one without a class of the farm."""
    with pytest.raises(NotPublishedError, match="did you mean cattle"):
        chart("catle")
    with pytest.raises(NotPublishedError, match="no class here"):
        chart("horses", ["finisher"])


def test_the_finder_answers_as_the_rule_does() -> None:
    """Every cell of every table, so that script and print cannot differ."""
    found = finder_table([*CLASSES, "finisher"], 88)
    temps, humidity = found["temps_f"], found["humidities"]
    tables, table_of = found["tables"], found["classes"]
    assert isinstance(temps, list)
    assert isinstance(humidity, list)
    assert isinstance(tables, list)
    assert isinstance(table_of, dict)
    assert set(table_of) == set(BANDED)
    for cls, number in table_of.items():
        for degrees in (60, 75, 79, 85, 98, 120):
            for rh in (5, 50, 100):
                cell = tables[number][temps.index(degrees)][humidity.index(rh)]
                assert cell == band(cls, celsius(degrees), rh, 88)
    assert tables[0][temps.index(96)][humidity.index(65)] == people_band(celsius(96), 65)
    assert (temps[0], temps[-1]) == (60, 120)  # our choice
    assert found["people"] == 0


def test_the_finder_reads_a_dew_point_as_the_next_damper_column() -> None:
    """Dew point 70 F: 93 % at 72 F, 72 % at 80, 52 % at 90, 38 % at 100 (heat-64, computed)."""
    found = finder_table([])
    temps, dews = found["temps_f"], found["dew_points_f"]
    columns, humidity = found["columns_by_dew_point"], found["humidities"]
    assert isinstance(temps, list)
    assert isinstance(dews, list)
    assert isinstance(columns, list)
    assert isinstance(humidity, list)
    at_70 = dews.index(70)
    assert (dews[0], dews[-1]) == (20, 90)  # our choice
    for degrees, expected in ((70, 100), (72, 95), (80, 75), (90, 55), (100, 40)):
        assert humidity[columns[temps.index(degrees)][at_70]] == expected
    assert columns[temps.index(69)][at_70] == -1  # cannot be


# --- a farm ----------------------------------------------------------------------------------


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
