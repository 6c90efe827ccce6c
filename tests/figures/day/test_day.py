"""Sun, the day's air, day load, feeding hours, weather records, and all of it for a farm.

Published values stand beside the check with their source id. Steps of the day load and feeding
rules are our choice: the tests hold them still, they do not prove them.
"""

from __future__ import annotations

import datetime as dt
import math
import re
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder import sources, units
from binder.farm.model import Farm
from binder.figures.bands.band_rule import Band, band
from binder.figures.day import asked_day as days
from binder.figures.day.asked_day import (
    LoadLevel,
    Position,
    clock,
    count_loads,
    day_of,
    for_farm,
    heat_waves,
    is_heat_wave,
    load_of,
    sun_times,
)
from binder.figures.day.feeding_hours import heat_line_h
from binder.figures.entry import read_arguments
from binder.figures.figure import NotPublishedError
from binder.figures.herd.groups import for_farm as herd
from binder.figures.published import rows
from binder.figures.weather.daylight import HourAir
from binder.figures.weather.hot_days import (
    DayWeather,
    Hour,
    extreme_day,
    hot_day,
    parse_hours,
    typical_days,
)
from binder.figures.weather.sun_times import NoDayError
from binder.pages.text import words
from binder.problems import ProblemsError
from binder.science import heat
from binder.science.humidity import relative_humidity_pct
from tests.figures.written import celsius, printed_in_both, written_farm

if TYPE_CHECKING:
    from binder.figures.figure import Figure

TEXAS = Position(31.0, -97.7, "America/Chicago")
GEORGIA = Position(31.6, -81.9, "America/New_York")
JULY = dt.date(2026, 7, 15)
PLACE = {"latitude": "31", "longitude": "-97.7", "timezone": "America/Chicago"}
WHERE = {**PLACE, "date": "2026-07-15"}
HOT = {**WHERE, "high": "98F", "low": "75F", "dew_point": "70F"}


def weather(
    high: float, low: float, dew: float, hottest_at_h: float | None = None
) -> DayWeather:
    """Return a day's weather from degrees Fahrenheit."""
    return DayWeather(
        celsius(high), celsius(low), celsius(dew), hottest_at_h, assumed=False, origin="hot_day"
    )


def asked(name: str, **given: str) -> Figure:
    """Return the figure as `binder figure` would, arguments as typed."""
    entry = next(entry for entry in days.ENTRIES if entry.name == name)
    return entry.compute(**read_arguments(entry, given))


def minutes(text: str) -> int:
    """Return minutes since midnight of a time such as 06:42."""
    hours, _, minute = text.partition(":")
    return int(hours) * 60 + int(minute)


def hours_at(temp_c: float, rh: float, count: int = 24) -> tuple[HourAir, ...]:
    """Return hours of the same air."""
    return tuple(HourAir(float(hour), temp_c, rh) for hour in range(count))


def moment(date: str, hour: int = 0, minute: int = 0) -> dt.datetime:
    """Return a date and time of the farm's own clock."""
    return dt.datetime.combine(dt.date.fromisoformat(date), dt.time(hour, minute))


def farm(animals: tuple[dict[str, str], ...] = (), **about: Any) -> Farm:
    """Return a farm as the owner would write it."""
    return written_farm(animals=animals, **about)


SOW = {"name": "Ruby", "species": "pig", "sex": "sow", "born": "2023-01-01"}
HENS = {"group": "Hens", "species": "chicken", "sex": "hen", "purpose": "eggs", "count": "9",
        "born": "2024-01-01"}  # fmt: skip
CHICKS = {"group": "Chicks", "species": "chicken", "count": "9", "born": "2026-07-10"}
GOAT = {"name": "Nan", "species": "goat", "sex": "doe", "born": "2022-01-01"}

# --- sun -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "where", "expected"),
    [
        # heat-70, London
        ("sunrise", (51.51, -0.126, "Europe/London", "2015-01-01"), "08:06"),
        ("sunset", (51.51, -0.126, "Europe/London", "2015-01-01"), "16:01"),
        ("sunrise", (51.51, -0.126, "Europe/London", "2015-12-01"), "07:43"),
        ("sunset", (51.51, -0.126, "Europe/London", "2015-12-25"), "15:55"),
        # heat-71, clock of UTC-4
        ("sunset", (38.0, -79.0, "America/New_York", "2014-04-20"), "19:57"),
    ],
)
def test_the_sun_rises_and_sets_as_published(
    name: str, where: tuple[float, float, str, str], expected: str
) -> None:
    """Within two minutes, as the method promises."""
    latitude, longitude, timezone, date = where
    found = asked(
        name, latitude=f"{latitude}", longitude=f"{longitude}", timezone=timezone, date=date
    )
    assert isinstance(found.value, str)
    assert minutes(found.value) == pytest.approx(minutes(expected), abs=2)
    assert "Hills" in printed_in_both(found)


def test_the_noon_of_the_working_is_the_suns() -> None:
    """Heat-70: London, 2015-12-01, 11:49."""
    times = sun_times(Position(51.51, -0.126, "Europe/London"), dt.date(2015, 12, 1))
    assert times.noon_h == pytest.approx(11 + 49 / 60, abs=2 / 60)


def test_a_time_zone_far_from_the_place_is_refused() -> None:
    """Sunset would fall on the next day of that clock."""
    with pytest.raises(ValueError, match=r"timezone Asia/Tokyo: .*expected a time zone"):
        day_of(Position(31, -97.7, "Asia/Tokyo"), JULY, weather(95, 75, 70))


@pytest.mark.parametrize(
    ("hour", "expected"), [(6.7, "06:42"), (0, "00:00"), (23.9999, "00:00"), (-0.1, "23:54")]
)
def test_a_clock_is_read_to_the_minute(hour: float, expected: str) -> None:
    """Hours and minutes of two digits; midnight is 00:00."""
    assert clock(hour) == expected


# --- the day's air ---------------------------------------------------------------------------


def test_the_curve_is_the_published_one() -> None:
    """A curve worked by hand from heat-66's form: set 1.86, -0.17, 2.20.

    Rise, set and peak come from the sun; at noon T = low + (high - low) sin(pi (12 - rise +
    0.17) / (day + 2 (1.86 + 0.17))); at 22:00 the night's fall from sunset.
    """
    day = day_of(TEXAS, JULY, weather(95, 72, 70))
    span = day.sunset_h - day.sunrise_h
    wave = span + 2 * (1.86 + 0.17)
    at_noon = 72 + 23 * math.sin(math.pi * (12 - day.sunrise_h + 0.17) / wave)
    at_sunset = 72 + 23 * math.sin(math.pi * (span + 0.17) / wave)
    at_ten = 72 + (at_sunset - 72) * math.exp(-2.2 * (22 - day.sunset_h) / (24 - span - 0.17))
    assert units.convert(units.Amount(day.hours[12].temp_c, "degC"), "us") == pytest.approx(
        at_noon
    )
    assert units.convert(units.Amount(day.hours[22].temp_c, "degC"), "us") == pytest.approx(
        at_ten
    )
    assert day.peak_h == pytest.approx((day.sunrise_h + day.sunset_h) / 2 + 1.86)


def test_the_farms_own_hottest_hour_wins() -> None:
    """Common practice: central Texas is hottest near 17:30 and a little cooler by 19:00."""
    found = asked("day-curve", **HOT, hottest_at="17:30")
    assert isinstance(found.value, tuple)
    temps = [amount.value for amount in found.value]
    assert len(temps) == 24
    assert temps.index(max(temps)) in (17, 18)
    assert max(temps) - 2 < temps[19] < max(temps)
    assert "the farm's own hour" in printed_in_both(found)
    assert "published lag" in printed_in_both(asked("day-curve", **HOT))


def test_a_hottest_hour_before_noon_gives_way() -> None:
    """The air is hottest after the sun is highest (heat-65): 9:30 is a slip of the pen."""
    early = day_of(TEXAS, JULY, weather(98, 75, 70, hottest_at_h=9.5))
    assert not early.peak_is_own
    assert early.peak_h == pytest.approx((early.sunrise_h + early.sunset_h) / 2 + 1.86)


def test_the_air_is_coolest_just_before_sunrise() -> None:
    """The published lag is -0.17 h (heat-66); a dew point of the low is full air then."""
    day = day_of(TEXAS, JULY, weather(95, 72, 72))
    assert day.low_h == pytest.approx(day.sunrise_h - 0.17)
    assert day.air_at(day.low_h).temp_c == pytest.approx(celsius(72))
    assert day.air_at(0.0).rh_pct < 90
    (said,) = [line for line in days.curve(day).working if line.key == "humidity"]
    damp = dict(said.values)["damp"]
    assert isinstance(damp, units.Amount)
    assert damp.value == pytest.approx(100)


def test_humidity_falls_as_the_air_warms() -> None:
    """Heat-64, computed: dew point 70 F gives 93 % at 72 F, 72 % at 80 and 52 % at 90."""
    day = day_of(TEXAS, JULY, weather(100, 72, 70))
    for hour in day.hours:
        assert hour.rh_pct == pytest.approx(relative_humidity_pct(hour.temp_c, celsius(70)))
    assert min(hour.rh_pct for hour in day.hours) == pytest.approx(38, abs=1)


@given(st.floats(60, 110), st.floats(0, 40), st.floats(0, 40))
def test_air_is_never_damper_than_full(high: float, fall: float, dry: float) -> None:
    """A night below the dew point is at 100 %; the air stays between low and high."""
    day = day_of(GEORGIA, JULY, weather(high, high - fall, high - dry))
    for hour in day.hours:
        assert 0 < hour.rh_pct <= 100
        assert celsius(high - fall) - 1e-6 <= hour.temp_c <= celsius(high) + 1e-6


def test_a_dew_point_above_the_high_is_refused() -> None:
    """Air cannot hold that much water."""
    with pytest.raises(NotPublishedError, match="dew point"):
        asked("day-curve", **{**HOT, "dew_point": "99F"})


# --- day load --------------------------------------------------------------------------------

COOL = (20.0, 50.0)  # Normal for every class but the young
DANGER = (28.5, 10.0)  # dry sow: danger from 28.1 C (heat-24)
EMERGENCY = (33.0, 10.0)  # dry sow: emergency from 32.9 C (heat-24)
ALL_HANDS = (36.0, 70.0)  # index 91


@pytest.mark.parametrize(
    ("air", "hours", "expected"),
    [
        (DANGER, 0, LoadLevel.LIGHT), (DANGER, 1, LoadLevel.HOT), (DANGER, 24, LoadLevel.HOT),
        (EMERGENCY, 3, LoadLevel.HOT), (EMERGENCY, 4, LoadLevel.EXTREME),
        (ALL_HANDS, 1, LoadLevel.EXTREME),
    ],
)  # fmt: skip
def test_the_hours_in_each_band_make_the_load(
    air: tuple[float, float], hours: int, expected: LoadLevel
) -> None:
    """One hour of Danger, four of Emergency, one of All hands: our choice."""
    day = (*hours_at(*air, hours), *hours_at(*COOL, 24 - hours))
    found = load_of("dry sow", day, 15.0)
    assert found.load is found.by_hours is expected
    assert sum(found.hours) == 24
    assert found.hours[band("dry sow", *air)] == (hours if hours else 0) or air == COOL


@pytest.mark.parametrize(("low", "warm"), [(72, False), (74.9, False), (75, True)])
def test_a_warm_night_makes_the_day_one_step_harder(low: float, *, warm: bool) -> None:
    """heat-98: alert where a night does not drop below 75 F. 72 F is a usual July night."""
    day = (*hours_at(*DANGER, 2), *hours_at(*COOL, 22))
    found = load_of("dry sow", day, celsius(low))
    assert found.warm_night is warm
    assert found.load is (LoadLevel.EXTREME if warm else LoadLevel.HOT)
    worst = load_of("dry sow", hours_at(*ALL_HANDS), celsius(low))
    assert worst.load is LoadLevel.EXTREME  # there is nothing above


def test_air_below_the_warm_night_lets_animals_recover() -> None:
    """heat-21 counts night hours at an index of 74 or less: all air below 75 F."""
    for rh_pct in (20, 60, 100):
        assert heat.livestock_index(celsius(74), rh_pct) <= 74


def test_recovery_hours_are_those_below_an_index_of_72() -> None:
    """Heat-91; at 100 % the index is the air temperature in F."""
    day = (*hours_at(celsius(71.9), 100, 9), *hours_at(celsius(72), 100, 15))
    assert load_of("goat", day, 15.0).recovery_h == 9


def test_very_cold_air_is_normal() -> None:
    """Below the span of the index nothing is hot."""
    found = load_of("goat", hours_at(-30.0, 100), -30.0)
    assert (found.load, found.recovery_h) == (LoadLevel.LIGHT, 24)


@pytest.mark.parametrize(
    ("hours", "expected"),
    [([9, 9, 9], True), ([9, 10, 9], False), ([9, 9], False),
     ([12, 9, 8, 0, 12], True), ([], False)],
)  # fmt: skip
def test_three_days_without_recovery_make_a_heat_wave(
    hours: list[int], *, expected: bool
) -> None:
    """Heat-91: three days running with fewer than ten recovery hours each."""
    assert is_heat_wave(hours) is expected


def test_the_load_is_asked_by_name() -> None:
    """A midsummer day in central Texas is hard on a nursing sow."""
    found = asked("day-load", **{"class": "lactating sow"}, **HOT)
    assert found.value == "Extreme"
    said = printed_in_both(found)
    assert "do not recover" in said
    assert "heat wave" in said
    spring = {**HOT, "high": "72F", "low": "50F", "dew_point": "48F"}
    mild = asked("day-load", **{"class": "finisher"}, **spring)
    assert mild.value == "Light"
    assert "can recover" in printed_in_both(mild)


def test_load_words_and_keys() -> None:
    """The word prints, the key finds words and colours."""
    assert [(load.key, load.word) for load in LoadLevel] == [
        ("light", "Light"), ("hot", "Hot"), ("extreme", "Extreme"),
    ]  # fmt: skip


# --- feeding hours ---------------------------------------------------------------------------


def test_the_evening_feed_in_central_texas_goes_out_about_19_00() -> None:
    """Common practice, no source: hottest near 17:30, sunset about 20:30, feed at 19:00."""
    found = asked("evening-meal", **{"class": "finisher"}, **HOT, hottest_at="17:30")
    assert isinstance(found.value, str)
    assert minutes(found.value) == pytest.approx(19 * 60, abs=10)
    assert "low sun" in printed_in_both(found)
    assert "wait for sunset" in printed_in_both(found)


def test_the_morning_feed_in_midsummer_is_about_sunrise() -> None:
    """Common practice, no source: half of the ration goes out before or near sunrise."""
    found = asked("morning-meal", **{"class": "finisher"}, **HOT)
    assert isinstance(found.value, str)
    assert minutes(found.value) == pytest.approx(minutes("06:38"), abs=45)
    assert "in the dark" in printed_in_both(found)


def test_the_morning_meal_ends_two_hours_before_the_heat_line() -> None:
    """Husbandry-60: heat from a meal lasts up to two hours."""
    day = day_of(GEORGIA, dt.date(2026, 5, 1), weather(84, 58, 55))
    passes = heat_line_h(day, "laying hen")
    assert passes is not None
    assert day.air_at(passes).temp_c >= celsius(75)  # heat-40
    assert day.air_at(passes - 0.1).temp_c < celsius(75)
    found = days.morning_meal(day, "laying hen")
    assert isinstance(found.value, str)
    assert minutes(found.value) == pytest.approx((passes - 2) * 60 - 2.5, abs=2.6)
    assert "reaches number 1" in printed_in_both(found)


def test_the_heat_of_last_evening_is_not_this_mornings() -> None:
    """Hens are at Alert from 75 F (heat-40): at midnight still, after sunrise again."""
    day = day_of(TEXAS, JULY, weather(95, 70, 60))
    passes = heat_line_h(day, "laying hen")
    assert day.air_at(0.0).temp_c > celsius(75)
    assert day.air_at(day.low_h).temp_c < celsius(75)
    assert passes is not None
    assert passes > day.sunrise_h


def test_no_heavy_meal_in_the_heat_of_the_day() -> None:
    """10:00 to 17:00, from husbandry-59 and husbandry-60; on a mild day too."""
    day = day_of(GEORGIA, dt.date(2026, 4, 1), weather(70, 50, 45))
    assert heat_line_h(day, "finisher") is None
    morning, evening = days.morning_meal(day, "finisher"), days.evening_meal(day, "finisher")
    assert (morning.value, evening.value) == ("10:00", "17:00")
    assert "stays at number 0" in printed_in_both(morning)
    late = day_of(GEORGIA, dt.date(2026, 4, 1), weather(79, 50, 45))
    assert "Not later than 10:00" in printed_in_both(days.morning_meal(late, "finisher"))


def test_sunset_is_the_latest_start_of_the_evening_meal() -> None:
    """In winter the sun sets before 17:00 at 51 N."""
    day = day_of(Position(51.5, 0, "Europe/London"), dt.date(2026, 12, 20), weather(50, 40, 38))
    found = days.evening_meal(day, "finisher").value
    assert isinstance(found, str)
    assert 0 <= minutes(found) - day.sunset_h * 60 < 5


@pytest.mark.parametrize(
    ("cls", "said"),
    [("laying hen", "Never take feed away"), ("lactating sow", "all night"), ("boar", "ulcer")],
)
def test_feeding_hours_carry_the_cautions_of_the_class(cls: str, said: str) -> None:
    """Hens are never fasted (husbandry-63), a pig never skips a day (husbandry-75)."""
    day = day_of(TEXAS, JULY, weather(95, 75, 70))
    assert said in printed_in_both(days.morning_meal(day, cls))
    assert said in printed_in_both(days.evening_meal(day, cls))


# --- the days a farm is worked out for -------------------------------------------------------

MAY = {"high": "85 F", "low": "62 F", "dew_point": "60 F"}
AUGUST = {"high": "93 F", "low": "74 F", "dew_point": "73 F", "hottest_at": "16:30"}


def test_the_owners_hot_day_comes_first() -> None:
    """Then the hottest month, then our choice, which says so."""
    own = hot_day(farm(hot_day={"high": "99 F", "low": "77 F", "dew_point": "70 F"},
                       climate={"may": MAY}))  # fmt: skip
    assert (own.origin, own.assumed) == ("hot_day", False)
    assert own.high_c == pytest.approx(celsius(99))
    month = hot_day(farm(climate={"may": MAY, "august": AUGUST}))
    assert (month.origin, month.assumed, month.hottest_at_h) == ("august", False, 16.5)
    ours = hot_day(farm())
    assert (ours.origin, ours.assumed) == ("our-choice", True)


def test_a_extreme_day_that_nobody_gave_is_hotter_and_marked() -> None:
    """5 F above the hot day: our choice."""
    own = extreme_day(farm(extreme_day=AUGUST))
    assert (own.origin, own.assumed) == ("extreme_day", False)
    ours = extreme_day(farm(hot_day=AUGUST))
    assert ours.assumed
    assert ours.high_c == pytest.approx(celsius(98))
    assert ours.low_c == pytest.approx(celsius(79))  # 74 F + 5 F
    assert ours.hottest_at_h == 16.5


def test_a_typical_day_is_the_owners_before_the_records() -> None:
    """Means of the days' high, low and dew point stand in where the owner gave no month."""
    record = (
        *(Hour(moment("2025-05-01", hour), 20.0 + hour, 15.0) for hour in (0, 12)),
        *(Hour(moment("2025-06-01", hour), 22.0 + hour, 16.0) for hour in (0, 12)),
        *(Hour(moment("2025-06-02", hour), 24.0 + hour, 18.0) for hour in (0, 12)),
    )
    place = farm(climate={"may": MAY})
    found = typical_days(place, record)
    assert list(found) == ["may", "june"]
    assert found["may"].high_c == pytest.approx(celsius(85))
    june = found["june"]
    assert (june.high_c, june.low_c, june.dew_point_c) == (35.0, 23.0, 17.0)
    assert "july" not in typical_days(place, record)
    assert hot_day(place, record) == june


# --- weather records -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "temp", "dew"),
    [
        ("time,temperature,dew_point\n2025-07-14 15:00,96 F,71 F", 96, 71),
        ("time,temperature (F),dew point [F]\n2025-07-14T15:00,96,71\n", 96, 71),
        ('\ufeff"Time","Temperature F","Dew_Point F"\n"2025-07-14 15:00","96","71"', 96, 71),
        ("station,humidity (%),time,temperature C\nx,50,2025-07-14 15:00,35", 95, 73.4),
        ("time,temperature,humidity\n2025-07-14 15:00,95F,50%", 95, 73.4),
        ("time,temperature,dew_point,humidity\n2025-07-14 15:00,96F,71F,9%", 96, 71),
    ],
)
def test_a_record_is_read_with_its_units(text: str, temp: float, dew: float) -> None:
    """Units in the heading or the values; 35 C and 50 % is a dew point of 23.0 C (heat-63)."""
    (row,) = parse_hours(text, "weather.csv")
    assert row.when == moment("2025-07-14", 15)
    assert row.temp_c == pytest.approx(celsius(temp))
    assert row.dew_point_c == pytest.approx(celsius(dew), abs=0.1)


def test_gaps_in_a_record_are_passed_over() -> None:
    """Empty lines, missing values, and lines that end early."""
    lines = ("", "2025-07-14 15:00,,50%", "2025-07-14 16:00", "2025-07-14 17:00,95F,0%")
    text = "\n".join(("time,temperature,humidity", *lines))
    (row,) = parse_hours(text, "weather.csv")
    assert row.when.hour == 17
    assert row.dew_point_c < -20  # 0 % is read as 1 %, as dry as a dew point is asked


def test_a_value_may_have_a_unit_of_its_own() -> None:
    """35 C in a column of F is 35 C, 95 F; a bare value has the heading's unit."""
    head = "time,temperature (F),dew_point (F)"
    own, bare = parse_hours(f"{head}\n2025-07-14 15:00,35 C,70\n2025-07-14 16:00,95,70", "w")
    assert own.temp_c == pytest.approx(bare.temp_c) == pytest.approx(35)


@pytest.mark.parametrize("cell", ["-40.2 C", "50.2 C"])
def test_air_that_no_farm_meets_is_refused(cell: str) -> None:
    """From -40 to 50 C: our choice."""
    with pytest.raises(ProblemsError, match="air temperature"):
        parse_hours(f"time,temperature,dew_point\n2025-07-14 15:00,{cell},-45 C", "w")


def test_sensors_may_disagree_by_a_degree() -> None:
    """A dew point just above the air is taken as full air: our choice."""
    (row,) = parse_hours("time,temperature,dew_point\n2025-07-14 06:00,20C,20.8C", "w")
    assert row.dew_point_c == row.temp_c == 20.0


def test_every_bad_line_is_named() -> None:
    """All of them at once, each with its line."""
    text = "\n".join(
        (
            "time,temperature,dew_point",
            "noon,96F,71F",
            "2025-07-14 15:00Z,96F,71F",
            "2025-07-14 15:00,96,71F",
            "2025-07-14 15:00,60F,71F",
            "2025-07-14 15:00,960F,71F",
            "2025-07-14 15:00,10C,-80C",
        )
    )
    with pytest.raises(ProblemsError) as caught:
        parse_hours(text, "weather.csv")
    said = [str(problem) for problem in caught.value.problems]
    assert [problem.place.line for problem in caught.value.problems] == [2, 3, 4, 5, 6, 7]
    for line, part in zip(
        said,
        ("not a time", "time zone", "no unit", "above the air", "air temperature", "dew point"),
        strict=True,
    ):
        assert part in line


@pytest.mark.parametrize(
    ("heading", "said"),
    [
        ("", "first line is"),
        ("time,temperature", "nor dew point"),
        ("time,temprature,humidity", "did you mean temprature"),
        ("when,°,rain", "the first line is when, °, rain"),
    ],
)
def test_a_missing_column_is_named(heading: str, said: str) -> None:
    """With what was found in its place."""
    with pytest.raises(ProblemsError) as caught:
        parse_hours(heading, "weather.csv")
    assert said in str(caught.value)
    assert {(p.place.line, p.place.column) for p in caught.value.problems} == {(1, 1)}


EPW_HEAD = ["LOCATION,Somewhere,GA,USA,TMY,1,31.6,-81.9,-5,10"] + ["HEAD"] * 7


def epw(*lines: str) -> str:
    """Return an EPW file of these data lines, each with the columns up to the wind's."""
    rest = ",0,0,0,9999,9999,0,0,0,0,0,0,99"  # no sun, no wind
    return "\n".join([*EPW_HEAD, *(f"{line}{rest}" if line else "" for line in lines)])


def test_epw_is_read_too() -> None:
    """Hour 1 is the hour that ends at 1:00; 99.9 marks a missing value (the format's own)."""
    (row,) = parse_hours(
        epw(
            "",
            "1999,7,14,16,0,flags,35.0,23.0,50,101000",
            "1999,7,14,17,0,flags,99.9,23.0,50,101000",
        ),
        "weather.epw",
    )
    assert row == Hour(moment("1999-07-14", 15), 35.0, 23.0)


def test_bad_epw_lines_are_named() -> None:
    """Too few columns, words for numbers, a day that does not exist."""
    with pytest.raises(ProblemsError) as caught:
        parse_hours(
            epw("1999,7,14", "1999,7,14,x,0,f,35.0,23.0,50", "1999,2,30,1,0,f,35.0,23.0,50"),
            "weather.epw",
        )
    places = [(problem.place.line, problem.place.column) for problem in caught.value.problems]
    assert places == [(9, 1), (10, 1), (11, 1)]


def record(days_of_hours: dict[dt.date, tuple[float, float]], count: int = 24) -> list[Hour]:
    """Return a record of days, each of one air (temperature and dew point [C])."""
    return [
        Hour(dt.datetime.combine(date, dt.time(hour)), temp_c, dew_c)
        for date, (temp_c, dew_c) in days_of_hours.items()
        for hour in range(count)
    ]


def test_days_on_record_are_counted_by_load() -> None:
    """Two hot dry days and a cool one in July, one short day that does not count."""
    july = [dt.date(2025, 7, number) for number in range(1, 5)]
    rows_ = record({july[0]: (33.0, -5.0), july[1]: (28.5, -5.0), july[2]: (15.0, 5.0)})
    rows_ += record({july[3]: (33.0, -5.0)}, count=19)
    rows_ += [Hour(moment("2025-07-03", 12, 30), 14.0, 5.0)]  # the hottest reading stands
    (found,) = count_loads(rows_, ["dry sow", "goat"])
    assert (found.month, found.days) == (7, 3)
    assert found.loads["dry sow"] == (1, 0, 2)  # nights of 75 F make both one step harder


def test_a_day_of_twenty_hours_on_record_is_whole() -> None:
    """Twenty are enough, nineteen are not: our choice."""
    (found,) = count_loads(record({JULY: (15.0, 5.0)}, count=20), ["goat"])
    assert found.days == 1
    assert not count_loads(record({JULY: (15.0, 5.0)}, count=19), ["goat"])


def test_heat_waves_on_record_are_found() -> None:
    """Heat-91: three days running; a cool day or a gap in the dates ends it."""
    hot, cool = (30.0, 24.0), (15.0, 5.0)
    start = dt.date(2025, 7, 1)
    pattern = [hot, hot, hot, cool, hot, hot, None, hot, hot, hot, hot]
    found = heat_waves(
        record(
            {
                start + dt.timedelta(days=n): air
                for n, air in enumerate(pattern)
                if air is not None
            }
        )
    )
    assert found == (
        (dt.date(2025, 7, 1), dt.date(2025, 7, 3)),
        (dt.date(2025, 7, 8), dt.date(2025, 7, 11)),
    )


# --- a farm ----------------------------------------------------------------------------------


def test_a_farm_gets_its_day_months_and_record() -> None:
    """Everything of the hot day, by class and by chart."""
    place = farm((SOW, HENS, CHICKS, GOAT), place=PLACE, climate={"may": MAY, "august": AUGUST})
    found = for_farm(
        place, herd(place, JULY), hot_day(place), record({dt.date(2025, 6, 1): (30.0, 20.0)})
    )
    assert set(found.loads) == {"dry sow", "laying hen", "goat"}
    assert found.loads["dry sow"].key == "day-load.dry sow"
    assert list(found.months) == ["may", "june", "august"]
    day = found.day
    assert day is not None
    assert (day.air.on, day.weather.origin) == (JULY, "august")
    assert found.months["may"].air.on == dt.date(2026, 5, 15)
    assert day.sunrise_h < day.air.peak_h < day.sunset_h
    assert len(day.hours) == len(day.bands_of("poultry")) == 24
    for hour, each in zip(day.hours, day.bands_of("sows and boars"), strict=True):
        assert each is band("dry sow", hour.temp_c, hour.rh_pct)
    assert day.hours_from("poultry", Band.FINE) == 24
    assert day.hours_from("poultry", Band.HOT) == sum(
        each >= Band.HOT for each in day.bands["laying hen"]
    )
    assert day.worst_hours is not None
    first, last = day.worst_hours
    assert first <= day.air.peak_h <= last
    assert day.night_recovers  # 74 F at its coolest
    assert found.months["may"].night_recovers
    assert found.meals is not None
    assert clock(found.meals.morning_by_h) == found.meals.morning.value
    assert clock(found.meals.evening_from_h) == found.meals.evening.value
    assert found.counts[0].days == 1
    assert found.sunrise is not None
    assert found.sunset is not None
    assert found.curve is not None
    printed_in_both(found.sunrise, found.sunset, found.curve, *found.loads.values())
    printed_in_both(found.meals.morning, found.meals.evening)


def test_the_feeding_hours_of_a_farm_suit_every_class() -> None:
    """One time for all: who comes first in the morning and last in the evening sets it.

    Hens reach their line soonest at 84 F (heat-40, heat-24), but are never kept waiting.
    """
    place = farm((SOW, HENS), place=PLACE)
    found = for_farm(place, herd(place, JULY), weather(84, 58, 55))
    assert found.meals is not None
    assert found.day is not None
    air = found.day.air
    assert found.meals.morning == days.morning_meal(air, "dry sow", None, "dry sow")
    assert found.meals.evening == days.evening_meal(air, "dry sow", None, "dry sow")
    hens = farm((HENS,), place=PLACE)
    alone = for_farm(hens, herd(hens, JULY), weather(84, 58, 55)).meals
    assert alone is not None
    assert str(alone.morning.value) < str(found.meals.morning.value)


def test_feeding_times_stand_on_the_five_minutes() -> None:
    """Sheets, cards and checks print one time: the morning rounded down, the evening up."""
    day = day_of(GEORGIA, JULY, weather(95, 75, 74))
    for cls in ("grower", "dry sow", "lactating sow"):
        for one in (days.morning_meal(day, cls), days.evening_meal(day, cls)):
            assert isinstance(one.value, str)
            assert minutes(one.value) % 5 == 0


def test_a_mild_day_has_no_worst_hours() -> None:
    """Nor has a farm whose animals have no bands."""
    mild = weather(70, 50, 45)
    place = farm((SOW,), place=PLACE)
    found = for_farm(place, herd(place, JULY), mild)
    assert found.day is not None
    assert found.day.worst_hours is None
    young = farm((CHICKS,), place=PLACE)
    none = for_farm(young, herd(young, JULY), mild)
    assert none.day is not None
    assert none.day.worst_hours is None
    assert none.meals is None


@pytest.mark.parametrize("missing", ["latitude", "longitude", "timezone"])
def test_a_farm_without_a_position_has_no_day(missing: str) -> None:
    """Not recorded, never guessed; its weather record still counts."""
    place = farm((SOW,), place={key: value for key, value in PLACE.items() if key != missing})
    record_ = record({dt.date(2025, 7, number): (30.0, 24.0) for number in (1, 2, 3)})
    found = for_farm(place, herd(place, JULY), hot_day(place), record_)
    assert found.day is None
    assert found.sunrise is found.curve is None
    assert found.meals is None
    assert not found.loads
    assert found.counts[0].days == 3
    assert len(found.heat_waves) == 1


def test_a_day_of_our_choice_says_so() -> None:
    """Where the farm has no weather of its own."""
    place = farm((SOW,), place=PLACE)
    found = for_farm(place, herd(place, JULY), hot_day(place))
    assert found.curve is not None
    assert "our-choice" in found.curve.sources
    assert "no weather of its own" in printed_in_both(found.curve)


@pytest.mark.parametrize(
    ("place", "day", "said"),
    [
        ({**PLACE, "latitude": "80"}, MAY, r'latitude: "80": .*stays up all day; expected a'),
        ({**PLACE, "latitude": "-80"}, MAY, "it stays down all day; expected a la"),
        ({**PLACE, "timezone": "Asia/Tokyo"}, MAY, r'timezone: "Asia/Tokyo": .*expected a ti'),
    ],
)
def test_a_day_that_cannot_be_drawn_is_a_problem_of_the_farm(
    place: dict[str, str], day: dict[str, str], said: str
) -> None:
    """With the file in which to mend it."""
    where = farm((SOW,), place=place, hot_day=day)
    with pytest.raises(ProblemsError) as caught:
        for_farm(where, herd(where, JULY), hot_day(where))
    (problem,) = caught.value.problems
    assert problem.place.file == "farm.yaml"
    assert re.search(said, str(problem))


def test_a_day_whose_sun_sets_after_midnight_is_refused() -> None:
    """Fairbanks at midsummer: up 02:57, down about 00:47 of the next date (from memory)."""
    place = Position(64.84, -147.72, "America/Anchorage")
    said = r"rises at 02:5\d and sets at 00:4\d; expected a latitude from -60 to 60"
    with pytest.raises(NoDayError, match=said) as caught:
        day_of(place, dt.date(2026, 6, 21), weather(80, 55, 50))
    assert caught.value.problems[0].path == "place > latitude"


@pytest.mark.parametrize("latitude", [-60.0, -54.0, 54.0, 60.0])
def test_up_to_60_degrees_every_date_has_a_day(latitude: float) -> None:
    """Helsinki's latitude: the shortest day has just under 6 hours (from memory)."""
    place = Position(latitude, 24.9, "Europe/Helsinki")
    for on in (dt.date(2026, 6, 21), dt.date(2026, 12, 21)):
        assert day_of(place, on, weather(80, 55, 50)).hours


def test_a_hottest_hour_after_sunset_gives_way() -> None:
    """5:30 pm in Texas is before sunset in July and after it in December (17:25, NOAA)."""
    where = Position(31.0, -97.7, "America/Chicago")
    late = DayWeather(35.0, 23.0, 20.0, 17.5, assumed=False, origin="hot_day")
    summer, winter = day_of(where, JULY, late), day_of(where, dt.date(2026, 12, 10), late)
    assert summer.peak_is_own
    assert summer.peak_h == pytest.approx(17.5)
    assert not winter.peak_is_own
    assert winter.peak_h == pytest.approx((winter.sunrise_h + winter.sunset_h) / 2 + 1.86)


def test_a_cold_record_makes_no_hot_day() -> None:
    """The livestock index goes down to -20 C: a record of a colder month is left aside."""
    rows = tuple(Hour(moment("2026-01-10", hour), -30.0, -35.0) for hour in range(24))
    assert hot_day(farm((SOW,)), rows).assumed


def test_a_extreme_day_of_ours_stays_on_the_scale() -> None:
    """The livestock index goes up to 50 C."""
    place = farm((SOW,), hot_day={"high": "121 F", "low": "80 F", "dew_point": "70 F"})
    assert extreme_day(place).high_c == 50.0


def test_every_figure_has_its_words() -> None:
    """Title and help of each entry."""
    lexicon = words.load()
    for entry in days.ENTRIES:
        assert lexicon.text(f"{entry.name}.title")
        assert lexicon.text(f"{entry.name}.help")


def test_every_rule_names_a_known_source() -> None:
    """Tables of this part."""
    known = sources.all_sources()
    for table in ("day_rules", "day_load", "default_weather"):
        for row in rows(table):
            assert row.sources
            assert set(row.sources) <= set(known)


def test_a_morning_colder_than_the_index_is_below_the_heat_line() -> None:
    """The livestock index goes down to -20 C; colder air is Normal, not an error."""
    frost = DayWeather(30.0, -30.0, -30.0, None, assumed=False, origin="hot_day")
    found = heat_line_h(day_of(TEXAS, JULY, frost), "late-gestation sow")
    assert found is not None
    assert found > 10.0
