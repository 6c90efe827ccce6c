"""The air of a day, drawn by the hour."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder import units
from binder.figures.day import asked_day as days
from binder.figures.day.asked_day import day_of
from binder.figures.figure import NotPublishedError
from binder.science.humidity import relative_humidity_pct
from tests.figures.day.days import (
    GEORGIA,
    HOT,
    JULY,
    TEXAS,
    asked,
    weather,
)
from tests.figures.written import celsius, printed_in_both


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
