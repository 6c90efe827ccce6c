"""Sunrise and sunset: published times, the source beside each check."""

from __future__ import annotations

import datetime as dt

import pytest

from binder.figures.day.asked_day import (
    Position,
    clock,
    day_of,
    sun_times,
)
from tests.figures.day.days import (
    JULY,
    asked,
    minutes,
    weather,
)
from tests.figures.written import printed_in_both


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
