"""A day known by the hour: tables of hours, and the day they make."""

from __future__ import annotations

import datetime as dt

import pytest

from binder.figures.figure import NotPublishedError
from binder.figures.figures import work_out
from binder.figures.weather.daylight import day_of
from binder.figures.weather.forecast import KnownAir, day_air
from binder.figures.weather.hot_days import DayWeather
from binder.figures.weather.sun_times import Position
from binder.weather.hours import parse_day
from tests.figures.stays.test_stays import farm
from tests.figures.written import celsius

HERE = Position(31.55, -82.12, "America/New_York")
ON = dt.date(2026, 7, 14)


def table(*rows: str, head: str = "hour,temperature (F),dew_point (F)") -> str:
    """Return a table of hours."""
    return "\n".join([head, *rows])


def whole_day() -> tuple[str, ...]:
    """Return 24 hours: 75 F at night, 95 F from two to four, 70 F dew point."""
    return tuple(f"{hour},{95 if 14 <= hour <= 16 else 75},70" for hour in range(24))


def test_a_whole_day_is_taken_as_it_is() -> None:
    """Hour by hour what the table says; highest, lowest and hottest hour from it."""
    air = day_air(HERE, ON, parse_day(table(*whole_day()), "day.csv", ON))
    assert isinstance(air, KnownAir)
    assert [round(hour.temp_c, 6) for hour in air.hours[13:15]] == [
        round(celsius(75), 6), round(celsius(95), 6),
    ]  # fmt: skip
    weather = air.weather
    assert (weather.high_c, weather.low_c) == pytest.approx((celsius(95), celsius(75)))
    assert weather.hottest_at_h == 14.0
    assert weather.origin == "forecast"


def test_between_two_hours_the_air_changes_evenly() -> None:
    """Half way from 75 to 95 F at half past one; after eleven at night it stays."""
    air = day_air(HERE, ON, parse_day(table(*whole_day()), "day.csv", ON))
    assert air.air_at(13.5).temp_c == pytest.approx(celsius(85))
    assert air.air_at(14.0).temp_c == pytest.approx(celsius(95))
    assert air.air_at(24.0).temp_c == pytest.approx(celsius(75))


def test_missing_hours_are_drawn_from_high_and_low() -> None:
    """Three readings; the rest follows the curve of the day (heat-65)."""
    rows = parse_day(table("6,75,70", "15,95,72", "20,85,71"), "day.csv", ON)
    air = day_air(HERE, ON, rows)
    drawn = day_of(
        HERE, ON,
        DayWeather(celsius(95), celsius(75), celsius(72), 15.0, assumed=False, origin="x"),
    )  # fmt: skip
    assert air.hours[15].temp_c == pytest.approx(celsius(95))
    assert air.hours[20].temp_c == pytest.approx(celsius(85))
    assert air.hours[10].temp_c == pytest.approx(drawn.hours[10].temp_c)


def test_a_hottest_hour_in_the_morning_is_not_taken_for_the_peak() -> None:
    """A forecast that ends at eleven: the peak of the curve is the published one."""
    rows = parse_day(table("9,80,70", "11,90,70"), "day.csv", ON)
    assert day_air(HERE, ON, rows).weather.hottest_at_h is None


def test_the_hotter_of_two_readings_in_an_hour_counts() -> None:
    """The safer one."""
    rows = parse_day(table("15,95,70", "15:30,97,70", "15:45,96,70"), "day.csv", ON)
    assert day_air(HERE, ON, rows).hours[15].temp_c == pytest.approx(celsius(97))


def test_a_day_that_the_forecast_does_not_cover_is_refused() -> None:
    """With the days it does cover, if any."""
    rows = parse_day(table("15,95,70"), "day.csv", ON)
    with pytest.raises(NotPublishedError, match="it covers 2026-07-14 to 2026-07-14"):
        day_air(HERE, dt.date(2026, 7, 15), rows)
    with pytest.raises(NotPublishedError, match=r"no hour of 2026-07-14$"):
        day_air(HERE, ON, ())


def test_the_figures_of_a_day_are_those_of_its_air() -> None:
    """Water, hoses and bands for 95 F in the forecast, not for the farm's usual hot day."""
    air = day_air(HERE, ON, parse_day(table(*whole_day()), "day.csv", ON))
    about = {"hot_day": {"high": "101 F", "low": "78 F", "dew_point": "75 F"}}
    figures = work_out(farm(about=about), ON, None, air)
    assert figures.water.temperature_c == pytest.approx(celsius(95))
    assert figures.day.day is not None
    assert figures.day.day.air is air
