"""People: work and rest, drinking, getting used to heat.

Published minutes, shares and amounts stand beside the check with their source id. What is done
above 60 % humidity is our choice: the tests hold it still, they do not prove it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder import sources, units
from binder.farm.model import EquipmentFile, Farm, FarmFile
from binder.figures.entry import read_arguments
from binder.figures.figure import NotPublishedError
from binder.figures.limits import limits
from binder.figures.people import in_heat
from binder.figures.people.in_heat import for_farm, helper_drink, new_helper, work_rest
from binder.figures.people.work_rest import EFFORTS, SUNS
from binder.figures.published import rows
from binder.figures.weather.hot_days import DayWeather
from binder.pages.text import words
from tests.figures.written import celsius, printed_in_both

if TYPE_CHECKING:
    from binder.figures.figure import Figure

LIGHT, MODERATE, HEAVY = EFFORTS
HOT = DayWeather(35.0, 23.9, 22.8, None, assumed=False, origin="hot_day")


def asked(name: str, **given_: str) -> Figure:
    """Return the figure as `binder figure` would, arguments as typed."""
    entry = next(entry for entry in in_heat.ENTRIES if entry.name == name)
    return entry.compute(**read_arguments(entry, given_))


# --- published -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("adjusted", "light", "moderate", "heavy"),
    [
        (89, "Normal", "Normal", "Normal"),  # below the table: our choice
        (90, "Normal", "Normal", "Normal"), (94, "Normal", "Normal", "Normal"),
        (95, "Normal", "Normal", "45/15"), (96, "Normal", "Normal", "45/15"),
        (97, "Normal", "Normal", "40/20"), (98, "Normal", "Normal", "35/25"),
        (99, "Normal", "Normal", "35/25"), (100, "Normal", "45/15", "30/30"),
        (101, "Normal", "40/20", "30/30"), (102, "Normal", "35/25", "25/35"),
        (103, "Normal", "30/30", "20/40"), (104, "Normal", "30/30", "20/40"),
        (105, "Normal", "25/35", "15/45"), (106, "45/15", "20/40", "Caution"),
        (107, "40/20", "15/45", "Caution"), (108, "35/25", "Caution", "Caution"),
        (109, "30/30", "Caution", "Caution"), (110, "15/45", "Caution", "Caution"),
        (111, "Caution", "Caution", "Caution"), (112, "Caution", "Caution", "Caution"),
        (113, "Caution", "Caution", "Caution"),  # above the table: our choice
    ],
)  # fmt: skip
def test_each_row_of_the_published_table(
    adjusted: float, light: str, moderate: str, heavy: str
) -> None:
    """Heat-7; at 30 % and in the shade nothing is added (heat-75)."""
    for effort, expected in zip(EFFORTS, (light, moderate, heavy), strict=True):
        assert work_rest(celsius(adjusted), effort, 30, "none").value == expected


@pytest.mark.parametrize(
    ("temperature", "sun", "humidity", "effort", "expected"),
    [
        ("92F", "part", "50%", "moderate", "25/35"), ("92F", "part", "50%", "heavy", "15/45"),
        ("98F", "full", "20%", "moderate", "15/45"),
        ("95F", "none", "20%", "moderate", "Normal"),
    ],
)  # fmt: skip
def test_sun_and_humidity_move_the_row(
    temperature: str, sun: str, humidity: str, effort: str, expected: str
) -> None:
    """Worked rows: 92 + 7 + 6 = 105, 98 + 13 - 4 = 107, 95 - 4 = 91 (heat-75, heat-7)."""
    found = asked(
        "work-rest", temperature=temperature, sun=sun, humidity=humidity, effort=effort
    )
    assert found.value == expected
    printed_in_both(found)


@pytest.mark.parametrize(
    ("humidity", "add"),
    [(0, -8), (10, -8), (11, -4), (20, -4), (30, 0), (31, 3), (40, 3), (50, 6), (60, 9)],
)
def test_humidity_between_two_steps_takes_the_higher(humidity: float, add: float) -> None:
    """Heat-75 lists the steps; the higher of two is our choice.

    Heavy work passes from no extra rest to 45/15 at an adjusted 95 F (heat-7).
    """
    assert work_rest(celsius(95 - add), HEAVY, humidity, "none").value == "45/15"
    assert work_rest(celsius(94 - add), HEAVY, humidity, "none").value == "Normal"


def test_part_of_a_degree_counts_as_the_next() -> None:
    """The table's degrees are whole; rounding up is our choice."""
    assert work_rest(celsius(94.1), HEAVY, 30, "none").value == "45/15"


def test_a_cup_every_15_minutes_is_a_quart_an_hour() -> None:
    """Heat-5, heat-6: 24 to 32 oz an hour; heat-4, heat-8: about 4 cups, 1 quart."""
    found = asked("helper-drink")
    assert units.convert(found.amount, "us") == pytest.approx(32)
    assert units.convert(asked("helper-drink", hours="3h").amount, "us") == pytest.approx(96)
    said = printed_in_both(found)
    assert "6\N{NO-BREAK SPACE}cups" in said  # heat-6: never more than 48 oz in an hour
    assert "60°F" in said  # heat-4
    assert "every 15 to 20 minutes" in said


def test_the_words_say_how_much_a_cup_is() -> None:
    """8 fl oz (heat-5, heat-6) of 29.5735 mL (NIST Handbook 44, App. C)."""
    cup = limits()["cup"]
    assert cup.unit == "mL"
    assert cup.value == pytest.approx(8 * 29.5735, rel=1e-5)


@pytest.mark.parametrize("hours", [0.0, -1.0])
def test_drinking_asks_for_a_time(hours: float) -> None:
    """No time, no amount."""
    with pytest.raises(ValueError, match="more than 0"):
        helper_drink(hours)


@pytest.mark.parametrize(
    ("day", "returning", "share"),
    [
        (1, "no", 20), (2, "no", 40), (3, "no", 60), (4, "no", 80),
        (5, "no", 100), (9, "no", 100),
        (1, "yes", 50), (2, "yes", 60), (3, "yes", 80), (4, "yes", 100), (30, "yes", 100),
    ],
)  # fmt: skip
def test_helpers_get_used_to_heat_step_by_step(day: int, returning: str, share: float) -> None:
    """Heat-5: new 20 % and 20 % more a day, returning 50, 60, 80, 100 %."""
    found = asked("new-helper", day=f"{day}", returning=returning)
    assert found.amount == units.Amount(share, "%")
    assert f"Day {day}" in printed_in_both(found)
    (line,) = found.working
    assert line.key == ("day" if day <= (4 if returning == "yes" else 5) else "later")
    assert dict(line.values)["full"] == (4 if returning == "yes" else 5)


def test_there_is_no_day_before_the_first() -> None:
    """The message names the first day."""
    with pytest.raises(NotPublishedError, match="starts on day 1"):
        new_helper(0)


# --- our own edges ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("temperature", "humidity", "sun", "effort", "expected"),
    [
        (75, 95, "none", MODERATE, "Normal"),  # 84 F adjusted, heat index 77
        (84, 61, "none", HEAVY, "Normal"),  # 93 F adjusted, heat index 88: Alert
        (86, 61, "none", HEAVY, "30/30"),  # 95 F: 45/15, one on 40/20; index 91, Danger: 30/30
        (89, 61, "none", MODERATE, "45/15"),  # 98 F: no rest; index 98, Danger: 45/15
        (93, 61, "none", LIGHT, "45/15"),  # 102 F: no rest; index 109, Emergency: 45/15
        (91, 61, "none", MODERATE, "30/30"),  # 100 F: 45/15; index 104, Emergency: 30/30
        (92, 61, "none", MODERATE, "30/30"),  # 101 F: 40/20, one on 35/25; index 105, Emergency
        (96, 61, "none", MODERATE, "Caution"),  # index above 115, All hands
        (97, 75, "none", LIGHT, "Caution"),  # All hands
        (86, 75, "full", LIGHT, "30/30"),  # 108 F: 35/25, one on 30/30
        (86, 75, "full", MODERATE, "Caution"),  # 108 F already
    ],
)
def test_above_60_pct_the_strictest_of_three_counts(
    temperature: float, humidity: float, sun: str, effort: str, expected: str
) -> None:
    """Table with 9 F added, one step on, and the people's band: our choice."""
    found = work_rest(celsius(temperature), effort, humidity, sun)
    if (temperature, effort) == (
        96,
        MODERATE,
    ):  # heat index above 115: All hands stops all work
        expected = "Caution"
    assert found.value == expected
    assert "our-choice" in found.sources
    assert "The strictest counts" in printed_in_both(found)


def test_at_60_pct_the_published_list_still_holds() -> None:
    """Heat-75 goes to 60 %; no step of ours is added."""
    found = work_rest(celsius(96), MODERATE, 60, "none")
    assert found.value == "25/35"  # 105 F
    assert "our-choice" not in found.sources


def test_full_sun_is_taken_where_nothing_is_said() -> None:
    """The safer answer."""
    bare = {"temperature": "90F", "effort": "heavy", "humidity": "30%"}
    assert asked("work-rest", **bare) == asked("work-rest", sun="full", **bare)


def test_caution_says_stop() -> None:
    """High risk of heat injury (heat-75); what to do is our choice."""
    assert "Stop" in printed_in_both(work_rest(celsius(112), LIGHT, 30, "none"))


@pytest.mark.parametrize("humidity", [-1, -0.005, 101])
def test_an_impossible_humidity_is_refused(humidity: float) -> None:
    """With its range."""
    with pytest.raises(ValueError, match="relative humidity"):
        work_rest(30, LIGHT, humidity)


def work_minutes(word: object) -> int:
    """Return minutes of work in an hour."""
    text = str(word)
    if text in ("Normal", "Caution"):
        return 60 if text == "Normal" else 0
    return int(text.partition("/")[0])


@given(
    st.floats(70, 115),
    st.floats(0, 100),
    st.sampled_from(SUNS),
    st.floats(0, 10),
    st.floats(0, 40),
)
def test_worse_air_never_leaves_more_work(
    temperature: float, humidity: float, sun: str, hotter: float, damper: float
) -> None:
    """Hotter, damper, sunnier or heavier: never more minutes."""
    for effort, heavier in zip(EFFORTS, (*EFFORTS[1:], HEAVY), strict=True):
        base = work_minutes(work_rest(celsius(temperature), effort, humidity, sun).value)
        worse = (
            work_rest(celsius(temperature + hotter), effort, humidity, sun),
            work_rest(celsius(temperature), effort, min(humidity + damper, 100), sun),
            work_rest(celsius(temperature), effort, humidity, "full"),
            work_rest(celsius(temperature), heavier, humidity, sun),
        )
        assert all(work_minutes(each.value) <= base for each in worse)


# --- a farm ----------------------------------------------------------------------------------


@pytest.mark.parametrize(("system", "first", "count"), [("us", 110, 19), ("metric", 109.4, 21)])
def test_a_farm_gets_its_own_table(system: str, first: float, count: int) -> None:
    """Rows of the people's chart at the hot day's dew point, hottest first."""
    farm = Farm(
        about=FarmFile.model_validate({"name": "Farm", "place": {}, "units": system}),
        animals=(), pens=(), equipment=EquipmentFile(), contacts=(), stays=(),
    )  # fmt: skip
    found = for_farm(farm, HOT)
    assert len(found.by_temperature) == count
    temp_c, rh, cells = found.by_temperature[0]
    assert temp_c == pytest.approx(celsius(first))
    assert set(cells) == {(effort, sun) for effort in EFFORTS for sun in SUNS}
    assert cells[(HEAVY, "full")] == "Caution"
    assert rh < found.by_temperature[-1][1] <= 100
    for key in cells:  # hottest first, so minutes of work never shrink down the table
        minutes = [work_minutes(words[key]) for _, _, words in found.by_temperature]
        assert minutes == sorted(minutes), key
    at_high = found.work_rest[(MODERATE, "part")]
    assert at_high.key == "work-rest.hot day moderate part"
    assert at_high.value == work_rest(35.0, MODERATE, 49.3, "part").value
    assert [each.amount.value for each in found.new] == [20, 40, 60, 80, 100]
    assert [each.amount.value for each in found.returning] == [50, 60, 80, 100]
    keys = [each.key for each in (*found.work_rest.values(), *found.new, *found.returning)]
    assert len(keys) == len(set(keys))
    printed_in_both(found.drink, *found.work_rest.values(), *found.new, *found.returning)


def test_every_figure_has_its_words() -> None:
    """Title and help of each entry."""
    lexicon = words.load()
    for entry in in_heat.ENTRIES:
        assert lexicon.text(f"{entry.name}.title")
        assert lexicon.text(f"{entry.name}.help")


def test_every_row_names_a_known_source() -> None:
    """Tables of this part; none rests on memory."""
    known = sources.all_sources()
    tables = ("work_rest", "work_rest_adjust", "work_rest_bands", "drinking", "acclimatise")
    for table in tables:
        for row in rows(table):
            assert row.sources
            assert set(row.sources) <= set(known)
            assert "from-memory" not in row.sources
