"""A table of one day's hours, as somebody types a forecast."""

from __future__ import annotations

import datetime as dt

import pytest

from binder.problems import ProblemsError
from binder.weather.hours import parse_day
from tests.figures.written import celsius

ON = dt.date(2026, 7, 14)


def table(*rows: str, head: str = "hour,temperature (F),dew_point (F)") -> str:
    """Return a table of hours."""
    return "\n".join([head, *rows])


def test_hours_alone_belong_to_the_day_asked_for() -> None:
    """`15`, `9` and `15:30` are times of that day."""
    found = parse_day(table("15,96,74", "9,85,74", "15:30,97,74"), "day.csv", ON)
    times = ["2026-07-14 15:00", "2026-07-14 09:00", "2026-07-14 15:30"]
    assert [f"{row.when:%Y-%m-%d %H:%M}" for row in found] == times
    assert found[0].temp_c == pytest.approx(celsius(96))


def test_humidity_may_stand_for_the_dew_point() -> None:
    """At 100 % the dew point is the air's own temperature: by definition."""
    found = parse_day(table("15,90 F,100 %", head="hour,temperature,humidity"), "day.csv", ON)
    assert found[0].dew_point_c == pytest.approx(celsius(90), abs=0.05)


def test_a_table_with_times_is_read_as_it_is() -> None:
    """The farm's own record has dates; an hour column beside them is left alone."""
    text = "time,hour,temperature (F),dew_point (F)\n2026-07-14 15:00,99,96,74"
    assert parse_day(text, "day.csv", dt.date(2020, 1, 1))[0].when.year == 2026


def test_a_line_without_an_hour_is_passed_over() -> None:
    """As a line without a reading is everywhere; so is one that is too short."""
    found = parse_day(table(",96,74", "15,96,74", ""), "day.csv", ON)
    assert [row.when.hour for row in found] == [15]
    moved = "temperature (F),dew_point (F),hour\n96,74\n96,74,15"
    assert len(parse_day(moved, "day.csv", ON)) == 1


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "has no column"),
        (table("teatime,96,74"), "teatime:00"),
        (table("15,96,99"), "is above the air temperature"),
        ("hour,temperature (F)\n15,96", "humidity: has no column, nor dew point"),
    ],
)
def test_what_cannot_be_read_is_named(text: str, said: str) -> None:
    """With its file and line."""
    with pytest.raises(ProblemsError, match=r"day\.csv") as caught:
        parse_day(text, "day.csv", ON)
    assert said in str(caught.value)


def test_semicolons_and_decimal_commas_are_read_as_everywhere() -> None:
    """As a spreadsheet saves it where commas are for decimals; 35.5 C is 35.5 C."""
    text = "hour;temperature (C);dew point (C)\n15;35,5;21,0"
    [hour] = parse_day(text, "day.csv", ON)
    assert (hour.when.isoformat(), hour.temp_c) == ("2026-07-14T15:00:00", 35.5)
