"""When feed goes out on a hot day: rules that are our choice, held still here."""

from __future__ import annotations

import datetime as dt

import pytest

from binder.figures.day import asked_day as days
from binder.figures.day.asked_day import (
    Position,
    day_of,
)
from binder.figures.day.feeding_hours import heat_line_h
from tests.figures.day.days import (
    GEORGIA,
    HOT,
    JULY,
    TEXAS,
    asked,
    minutes,
    weather,
)
from tests.figures.written import celsius, printed_in_both


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
