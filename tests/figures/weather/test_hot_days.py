"""The days that a farm is worked out for, and its own record of days."""

from __future__ import annotations

import datetime as dt

import pytest

from binder.figures.day.asked_day import (
    count_loads,
    heat_waves,
)
from binder.figures.weather.hot_days import (
    Hour,
    extreme_day,
    hot_day,
    parse_hours,
    typical_days,
)
from binder.problems import ProblemsError
from tests.figures.day.days import (
    AUGUST,
    JULY,
    MAY,
    farm,
    moment,
    record,
)
from tests.figures.written import celsius


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
