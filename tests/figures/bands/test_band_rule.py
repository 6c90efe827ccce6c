"""Classes and lines of danger: published ones, the source beside each check.

Lines marked "our choice" are ours: the tests hold them still, they do not prove them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.figures.bands.band_charts import chart
from binder.figures.bands.band_rule import (
    Band,
    band,
    heat_line_c,
    is_banded,
    people_band,
    people_index_f,
    verdict,
)
from binder.figures.bands.farm_bands import people_band_figure
from binder.figures.figure import NotPublishedError
from binder.figures.published import rows
from binder.pages.text import words
from tests.figures.bands.banded import BANDED, A, D, E, H, N, humidities
from tests.figures.written import celsius, printed_in_both

if TYPE_CHECKING:
    from binder.display import System


DRY = 10.0  # % humidity: keeps the index out of the way of a class's own line


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
