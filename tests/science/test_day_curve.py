"""The day curve against its published test value, a worked example, and its own shape."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.day_curve import peak_hour, peak_lag_for, temperature_c

CAROLINA = (2.59, 1.55, 2.2)  # peak lag, minimum lag, night decay [heat-66]
DENVER = (1.86, -0.17, 2.2)  # 150 cm air, in the corrected order [heat-66]


# Published row ------------------------------------------------------------------------------


def test_the_curve_reproduces_the_published_test_value() -> None:
    """High 30, low 10, 11 o'clock, sun 6 to 18: 23.91954 C [heat-66]."""
    found = temperature_c(11.0, 30.0, 10.0, 6.0, 18.0, *CAROLINA)
    assert found == pytest.approx(23.91954, abs=1e-5)


# Worked by hand -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hour", "expected_f"),
    [
        (0, 78.6),
        (3, 75.4),
        (6, 73.7),
        (7, 74.7),
        (9, 82.3),
        (12, 91.2),
        (14, 94.4),
        (15, 95.0),
        (16, 94.9),
        (18, 92.6),
        (20, 87.9),
        (21, 84.9),
        (23, 80.2),
    ],
)
def test_a_hot_day_hour_by_hour(hour: int, expected_f: float) -> None:
    """High 95 F, low 72 F, sun 6:30 to 20:30, Denver; worked by others, to 0.1 (derived)."""
    high_c, low_c = (95 - 32) / 1.8, (72 - 32) / 1.8
    found = temperature_c(float(hour), high_c, low_c, 6.5, 20.5, *DENVER)
    assert found * 1.8 + 32 == pytest.approx(expected_f, abs=0.06)


def test_the_night_falls_from_the_temperature_at_sunset() -> None:
    """At sunset 10 + 20 sin(pi x 10.45 / 14.08) = 24.48494; 4 of 13.55 h later 17.56599.

    The night lasts 24 - 12 + 1.55 = 13.55 h; 14.48494 x exp(-2.2 x 4 / 13.55) = 7.56599.
    """
    at_sunset = temperature_c(18.0, 30.0, 10.0, 6.0, 18.0, *CAROLINA)
    assert at_sunset == pytest.approx(24.484942, abs=1e-5)
    at_22 = temperature_c(22.0, 30.0, 10.0, 6.0, 18.0, *CAROLINA)
    assert at_22 == pytest.approx(17.565989, abs=1e-5)


def test_the_small_hours_are_the_tail_of_the_night_before() -> None:
    """03:00 is 9 h after sunset: 10 + 14.48494 x exp(-2.2 x 9 / 13.55) = 13.35971."""
    found = temperature_c(3.0, 30.0, 10.0, 6.0, 18.0, *CAROLINA)
    assert found == pytest.approx(13.359711, abs=1e-5)


def test_the_peak_falls_the_lag_after_solar_noon() -> None:
    """(6 + 18) / 2 + 2.59 = 14.59, and the curve is at its high there."""
    assert peak_hour(6.0, 18.0, 2.59) == pytest.approx(14.59, abs=1e-9)
    assert temperature_c(14.59, 30.0, 10.0, 6.0, 18.0, *CAROLINA) == pytest.approx(30.0)


def test_the_lag_for_a_hot_half_past_five_in_central_texas() -> None:
    """Hottest near 17:30 (common practice, no source), sun 6.5 to 20.6: 17.5 - 13.55 = 3.95."""
    assert peak_lag_for(17.5, 6.5, 20.6) == pytest.approx(3.95, abs=1e-9)


def test_central_texas_is_a_couple_of_degrees_cooler_by_seven() -> None:
    """Common practice, no source: a couple of degrees F below the high by 19:00."""
    lag_h = peak_lag_for(17.5, 6.5, 20.6)
    fallen_c = 37.0 - temperature_c(19.0, 37.0, 24.0, 6.5, 20.6, lag_h, -0.17, 2.2)
    assert 0.3 < fallen_c * 1.8 < 3.0


# Our own edges ------------------------------------------------------------------------------


@given(
    hour=st.floats(0.0, 24.0),
    low_c=st.floats(-10.0, 30.0),
    rise_c=st.floats(0.0, 25.0),
    sunrise_h=st.floats(4.0, 8.0),
    sunset_h=st.floats(16.0, 22.0),
    peak_lag_h=st.floats(0.0, 3.9),
    minimum_lag_h=st.floats(-0.18, 1.55),
    night_decay=st.floats(2.0, 4.0),
)
def test_the_curve_stays_between_low_and_high(
    hour: float,
    low_c: float,
    rise_c: float,
    sunrise_h: float,
    sunset_h: float,
    peak_lag_h: float,
    minimum_lag_h: float,
    night_decay: float,
) -> None:
    """No hour is colder than the low or hotter than the high."""
    minimum_lag_h = min(minimum_lag_h, 2 * peak_lag_h)
    found = temperature_c(
        hour,
        low_c + rise_c,
        low_c,
        sunrise_h,
        sunset_h,
        peak_lag_h,
        minimum_lag_h,
        night_decay,
    )
    assert low_c - 1e-9 <= found <= low_c + rise_c + 1e-9


@given(peak_lag_h=st.floats(0.0, 5.9))
def test_hour_and_lag_of_the_peak_undo_each_other(peak_lag_h: float) -> None:
    """From lag to hour and back."""
    hour = peak_hour(6.0, 18.0, peak_lag_h)
    assert peak_lag_for(hour, 6.0, 18.0) == pytest.approx(peak_lag_h, abs=1e-9)


def test_midnight_is_the_same_at_both_ends_of_the_day() -> None:
    """Hours 0 and 24 of like days are one moment."""
    first = temperature_c(0.0, 30.0, 10.0, 6.0, 18.0, *CAROLINA)
    assert temperature_c(24.0, 30.0, 10.0, 6.0, 18.0, *CAROLINA) == pytest.approx(first)


def test_day_and_night_meet_at_sunset() -> None:
    """A minute after sunset it is a shade cooler, not a jump."""
    at_sunset = temperature_c(18.0, 30.0, 10.0, 6.0, 18.0, *CAROLINA)
    after = temperature_c(18.0 + 1 / 60, 30.0, 10.0, 6.0, 18.0, *CAROLINA)
    assert 0.0 < at_sunset - after < 0.1


def test_the_low_is_reached_at_its_lag_after_sunrise() -> None:
    """At 6 + 1.55 h the day curve starts from the low; a minute before, the night's tail."""
    assert temperature_c(7.55, 30.0, 10.0, 6.0, 18.0, *CAROLINA) == pytest.approx(10.0)
    assert temperature_c(7.54, 30.0, 10.0, 6.0, 18.0, *CAROLINA) > 11.0


@pytest.mark.parametrize("hour", [-0.01, 24.01])
def test_an_hour_off_the_clock_is_refused(hour: float) -> None:
    """The message names the range."""
    with pytest.raises(ValueError, match=r"hour .* 0 to 24 h"):
        temperature_c(hour, 30.0, 10.0, 6.0, 18.0, *CAROLINA)


@pytest.mark.parametrize(
    ("sunrise_h", "sunset_h", "named"),
    [
        (-0.01, 18.0, "sunrise -0.01 h is outside the range 0 to 24 h"),
        (24.01, 18.0, "sunrise 24.01 h is outside the range 0 to 24 h"),
        (6.0, 24.01, "sunset 24.01 h is outside the range 0 to 24 h"),
        (6.0, -0.01, "sunset -0.01 h is outside the range 0 to 24 h"),
        (18.0, 6.0, "from sunrise to sunset -12 h is outside the range 4 to 24 h"),
        (10.0, 13.99, "from sunrise to sunset 3.99 h is outside the range 4 to 24 h"),
    ],
)
def test_a_day_without_order_is_refused(sunrise_h: float, sunset_h: float, named: str) -> None:
    """The sun must be up for at least 4 h of one day (our choice)."""
    with pytest.raises(ValueError, match=named):
        peak_hour(sunrise_h, sunset_h, 0.5)
    with pytest.raises(ValueError, match=named):
        peak_lag_for(12.0, sunrise_h, sunset_h)
    with pytest.raises(ValueError, match=named):
        temperature_c(11.0, 30.0, 10.0, sunrise_h, sunset_h, *DENVER)


def test_the_shortest_and_longest_day_are_inside() -> None:
    """4 h and 24 h of sun are answered."""
    assert peak_hour(10.0, 14.0, 1.0) == 13.0
    assert peak_hour(0.0, 24.0, 1.0) == 13.0


@pytest.mark.parametrize("peak_lag_h", [6.0, 7.0])
def test_a_peak_at_or_after_sunset_is_refused(peak_lag_h: float) -> None:
    """Half of a 12 h day is 6 h."""
    said = f"peak lag {peak_lag_h:g} h is outside the range 0 to 6 h"
    with pytest.raises(ValueError, match=said):
        peak_hour(6.0, 18.0, peak_lag_h)
    with pytest.raises(ValueError, match=said):
        temperature_c(11.0, 30.0, 10.0, 6.0, 18.0, peak_lag_h, 1.55, 2.2)


def test_a_peak_before_solar_noon_is_refused() -> None:
    """The air lags behind the sun."""
    with pytest.raises(ValueError, match=r"peak lag -0\.1 h is outside its range"):
        peak_hour(6.0, 18.0, -0.1)
    assert peak_hour(6.0, 18.0, 0.0) == 12.0


@pytest.mark.parametrize("hottest_at_h", [11.99, 18.0])
def test_a_hottest_hour_outside_the_afternoon_is_refused(hottest_at_h: float) -> None:
    """From solar noon until before sunset."""
    said = f"hottest hour {hottest_at_h:g} h is outside the range 12 h .* to 18 h"
    with pytest.raises(ValueError, match=said):
        peak_lag_for(hottest_at_h, 6.0, 18.0)


def test_the_hottest_hour_may_be_solar_noon() -> None:
    """Then the lag is nothing."""
    assert peak_lag_for(12.0, 6.0, 18.0) == 0.0


@pytest.mark.parametrize(
    ("minimum_lag_h", "night_decay", "named"),
    [
        (-0.19, 2.2, "minimum lag -0.19 h is outside the range -0.18 to 1.55 h"),
        (1.56, 2.2, "minimum lag 1.56 h is outside the range -0.18 to 1.55 h"),
        (1.55, 1.99, "night decay 1.99 is outside the range 2 to 4"),
        (1.55, 4.01, "night decay 4.01 is outside the range 2 to 4"),
    ],
)
def test_lag_and_decay_stay_within_the_published_sets(
    minimum_lag_h: float, night_decay: float, named: str
) -> None:
    """-0.18 to 1.55 h and 2 to 4 [heat-66][heat-67]."""
    with pytest.raises(ValueError, match=named):
        temperature_c(11.0, 30.0, 10.0, 6.0, 18.0, 2.59, minimum_lag_h, night_decay)


def test_the_low_may_not_lag_more_than_twice_the_peak() -> None:
    """Else the sine would be past its foot before sunset: at twice, sunset meets the low."""
    met = temperature_c(18.0, 30.0, 10.0, 6.0, 18.0, 0.5, 1.0, 2.2)
    # half wave 12 + 2 x (0.5 - 1) = 11 h, and 11 h after the low at 7 the sine is back at it
    assert met == pytest.approx(10.0)
    with pytest.raises(ValueError, match=r"minimum lag 1\.01 h .* up to 1 h, twice the peak"):
        temperature_c(18.0, 30.0, 10.0, 6.0, 18.0, 0.5, 1.01, 2.2)


def test_the_published_sets_are_inside() -> None:
    """10 cm air in Denver (-0.18, 2.00) and the defaults of [heat-67] (1, 4)."""
    assert temperature_c(11.0, 30.0, 10.0, 6.0, 18.0, 1.52, -0.18, 2.0) > 20.0
    assert temperature_c(11.0, 30.0, 10.0, 6.0, 18.0, 1.5, 1.0, 4.0) > 20.0


def test_a_low_above_the_high_is_refused() -> None:
    """Equal is a flat day, above is a slip of the pen."""
    assert temperature_c(11.0, 20.0, 20.0, 6.0, 18.0, *DENVER) == 20.0
    with pytest.raises(
        ValueError, match="low 21 C is outside its range: not above the high of"
    ):
        temperature_c(11.0, 20.0, 21.0, 6.0, 18.0, *DENVER)
