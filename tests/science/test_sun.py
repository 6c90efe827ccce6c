"""The sun against published rise and set times and against NOAA's equations worked afresh."""

from datetime import UTC, date, datetime, timedelta, timezone
from math import acos, cos, degrees, pi, radians, sin, tan
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.sun import clear_sky_w_m2, solar_noon, sunrise, sunset, zenith_deg

TWO_MINUTES_S = 120.0
LONDON = (51.51, -0.126)
TEXAS = (31.0, -97.7)


def _apart_s(one: datetime, other: datetime) -> float:
    return abs((one - other).total_seconds())


def _noaa_utc_minutes(latitude: float, longitude: float, day: date) -> tuple[float, ...]:
    """Return rise, noon and set [minutes of the UTC day] by NOAA's printed equations."""

    def noon_and_half_day(hour: float) -> tuple[float, float]:
        y = 2 * pi / 365 * (day.timetuple().tm_yday - 1 + (hour - 12) / 24)
        eqtime = 229.18 * (
            0.000075
            + 0.001868 * cos(y)
            - 0.032077 * sin(y)
            - 0.014615 * cos(2 * y)
            - 0.040849 * sin(2 * y)
        )
        declination = (
            0.006918
            - 0.399912 * cos(y)
            + 0.070257 * sin(y)
            - 0.006758 * cos(2 * y)
            + 0.000907 * sin(2 * y)
            - 0.002697 * cos(3 * y)
            + 0.00148 * sin(3 * y)
        )
        lat = radians(latitude)
        hour_angle = degrees(
            acos(
                cos(radians(90.833)) / (cos(lat) * cos(declination))
                - tan(lat) * tan(declination)
            )
        )
        return 720 - 4 * longitude - eqtime, 4 * hour_angle

    early, midday, late = (noon_and_half_day(hour) for hour in (5.0, 11.0, 17.0))
    return early[0] - early[1], midday[0], late[0] + late[1]


# Published rows -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("day", "up", "down"),
    [
        (date(2015, 1, 1), (8, 6), (16, 1)),
        (date(2015, 12, 1), (7, 43), (15, 55)),
        (date(2015, 12, 25), (8, 5), (15, 55)),
    ],
)
def test_london_rises_and_sets_as_published(
    day: date, up: tuple[int, int], down: tuple[int, int]
) -> None:
    """51.51 N 0.126 W, UTC [heat-70], within 2 minutes."""
    expected_up = datetime(day.year, day.month, day.day, *up, tzinfo=UTC)
    expected_down = datetime(day.year, day.month, day.day, *down, tzinfo=UTC)
    assert _apart_s(sunrise(*LONDON, day, "UTC"), expected_up) <= TWO_MINUTES_S
    assert _apart_s(sunset(*LONDON, day, "UTC"), expected_down) <= TWO_MINUTES_S


def test_london_noon_is_as_published() -> None:
    """2015-12-01 11:49 UTC [heat-70], within 2 minutes."""
    expected = datetime(2015, 12, 1, 11, 49, tzinfo=UTC)
    assert _apart_s(solar_noon(*LONDON, date(2015, 12, 1), "UTC"), expected) <= TWO_MINUTES_S


def test_the_sunset_example_at_38_n() -> None:
    """38.0 N 79.0 W, 2014-04-20, UTC-4: 19:56:38 [heat-71], within 2 minutes."""
    expected = datetime(2014, 4, 20, 19, 56, 38, tzinfo=timezone(timedelta(hours=-4)))
    found = sunset(38.0, -79.0, date(2014, 4, 20), "America/New_York")
    assert _apart_s(found, expected) <= TWO_MINUTES_S
    assert found.utcoffset() == timedelta(hours=-4)


def test_midsummer_sunset_in_central_texas_is_about_half_past_eight() -> None:
    """31 N 97.7 W: about 20:30 on the local clock (common practice, no source)."""
    down = sunset(*TEXAS, date(2026, 6, 21), "America/Chicago")
    assert (down.hour, 25 <= down.minute <= 45) == (20, True)


@pytest.mark.parametrize(
    ("zenith", "printed"), [(10.0, 1018.0), (15.0, 998.0), (20.0, 969.0), (30.0, 888.0)]
)
def test_the_clear_sky_reproduces_its_table(zenith: float, printed: float) -> None:
    """Haurwitz [water-127], whole watts."""
    assert clear_sky_w_m2(zenith) == pytest.approx(printed, abs=0.5)


# Worked by an independent method ------------------------------------------------------------


@pytest.mark.parametrize("latitude", [0.0, 31.0, -34.0, 38.0])
@pytest.mark.parametrize("day", [date(2026, 3, 1), date(2026, 6, 21), date(2026, 10, 15)])
def test_rise_noon_and_set_agree_with_noaa_within_2_minutes(latitude: float, day: date) -> None:
    """NOAA's general solar position equations [heat-69], at 15 E in UTC."""
    midnight = datetime(day.year, day.month, day.day, tzinfo=UTC)
    found = [
        (moment - midnight).total_seconds() / 60
        for moment in (
            sunrise(latitude, 15.0, day, "UTC"),
            solar_noon(latitude, 15.0, day, "UTC"),
            sunset(latitude, 15.0, day, "UTC"),
        )
    ]
    assert found == pytest.approx(_noaa_utc_minutes(latitude, 15.0, day), abs=2.0)


def test_the_noon_sun_stands_at_latitude_less_declination() -> None:
    """31 N at the June solstice: 31 - 23.44 = 7.56 degrees from overhead."""
    noon = solar_noon(*TEXAS, date(2026, 6, 21), "America/Chicago")
    assert zenith_deg(*TEXAS, noon) == pytest.approx(7.56, abs=0.05)


def test_the_clear_sky_at_60_degrees_by_hand() -> None:
    """1098 x 0.5 x exp(-0.059 / 0.5) = 549 x 0.888696 = 487.894."""
    assert clear_sky_w_m2(60.0) == pytest.approx(487.894, abs=0.001)


# Our own edges ------------------------------------------------------------------------------


def test_the_moment_decides_not_the_clock_it_is_written_in() -> None:
    """One moment in UTC and on the farm's clock gives one angle."""
    local = datetime(2026, 7, 4, 9, 30, tzinfo=ZoneInfo("America/Chicago"))
    assert zenith_deg(*TEXAS, local) == zenith_deg(*TEXAS, local.astimezone(UTC))


def test_sunrise_and_sunset_are_at_the_horizon() -> None:
    """The upper edge shows when the centre stands near 90 degrees, bending included."""
    for event in (sunrise, sunset):
        moment = event(*TEXAS, date(2026, 7, 4), "America/Chicago")
        assert zenith_deg(*TEXAS, moment) == pytest.approx(90.3, abs=0.3)


@pytest.mark.parametrize(
    ("longitude", "timezone_name"),
    [
        (-175.2, "Pacific/Tongatapu"),  # a day ahead of its longitude
        (-157.4, "Pacific/Kiritimati"),  # the same, 14 hours ahead
        (174.8, "Pacific/Auckland"),
        (-170.7, "Pacific/Pago_Pago"),
        (0.0, "UTC"),
    ],
)
def test_all_three_events_fall_on_the_local_day_in_order(
    longitude: float, timezone_name: str
) -> None:
    """Also where the local date is not the date in UTC."""
    day = date(2026, 1, 15)
    events = [
        event(-20.0, longitude, day, timezone_name) for event in (sunrise, solar_noon, sunset)
    ]
    assert [moment.date() for moment in events] == [day, day, day]
    assert events == sorted(events)


def test_the_answer_carries_the_clock_change() -> None:
    """The day the clocks go forward in Chicago, 2026-03-08, sunrise is already on the new."""
    up = sunrise(*TEXAS, date(2026, 3, 8), "America/Chicago")
    assert up.utcoffset() == timedelta(hours=-5)


def test_the_sun_does_not_set_in_a_polar_summer() -> None:
    """70 N on 21 June has neither rise nor set."""
    with pytest.raises(ValueError, match="the sun does not rise at latitude 70 on 2026-06-21"):
        sunrise(70.0, 20.0, date(2026, 6, 21), "UTC")
    with pytest.raises(ValueError, match="the sun does not set at latitude 70 on 2026-06-21"):
        sunset(70.0, 20.0, date(2026, 6, 21), "UTC")


def test_the_sun_does_not_rise_in_a_polar_winter() -> None:
    """70 N on 21 December has neither rise nor set."""
    with pytest.raises(ValueError, match="the sun does not rise at latitude 70 on 2026-12-21"):
        sunrise(70.0, 20.0, date(2026, 12, 21), "UTC")
    with pytest.raises(ValueError, match="the sun does not set at latitude 70 on 2026-12-21"):
        sunset(70.0, 20.0, date(2026, 12, 21), "UTC")


@pytest.mark.parametrize("name", ["Mars/Olympus", "", "../etc", "America"])
def test_an_unknown_time_zone_is_named_with_an_example(name: str) -> None:
    """Whatever is wrong with it, the message says what one looks like."""
    for event in (sunrise, solar_noon, sunset):
        with pytest.raises(
            ValueError, match="is not a time zone; write it like America/New_Yo"
        ):
            event(*TEXAS, date(2026, 7, 4), name)


@pytest.mark.parametrize(
    ("latitude", "longitude", "named"),
    [
        (90.1, 0.0, "latitude 90.1 degrees is outside the range -90 to 90"),
        (-90.1, 0.0, "latitude .* -90 to 90"),
        (0.0, 180.1, "longitude 180.1 degrees is outside the range -180 to 180"),
        (0.0, -180.1, "longitude .* -180 to 180"),
    ],
)
def test_a_place_off_the_globe_is_refused(
    latitude: float, longitude: float, named: str
) -> None:
    """The message names the range."""
    for event in (sunrise, solar_noon, sunset):
        with pytest.raises(ValueError, match=named):
            event(latitude, longitude, date(2026, 7, 4), "UTC")
    with pytest.raises(ValueError, match=named):
        zenith_deg(latitude, longitude, datetime(2026, 7, 4, tzinfo=UTC))


def test_the_ends_of_the_globe_are_on_it() -> None:
    """At the pole on the date line the equinox sun stands on the horizon."""
    moment = datetime(2026, 3, 20, 12, tzinfo=UTC)
    assert zenith_deg(90.0, 180.0, moment) == pytest.approx(90.0, abs=0.7)
    assert zenith_deg(-90.0, -180.0, moment) == pytest.approx(90.0, abs=0.7)


def test_a_moment_without_a_time_zone_is_refused() -> None:
    """Nobody can say where the sun stood."""
    moment = datetime(2026, 7, 4, 12, tzinfo=UTC).replace(tzinfo=None)
    with pytest.raises(ValueError, match="the moment 2026-07-04 12:00 needs a time zone"):
        zenith_deg(*TEXAS, moment)


def test_no_sun_below_the_horizon() -> None:
    """At 90 degrees and beyond, nothing; just above the horizon, next to nothing."""
    assert clear_sky_w_m2(90.0) == 0.0
    assert clear_sky_w_m2(90.5) == 0.0
    assert clear_sky_w_m2(89.5) > 0.0
    assert clear_sky_w_m2(180.0) == 0.0
    assert 0.0 < clear_sky_w_m2(89.0) < 1.0


def test_the_sun_overhead_is_the_strongest() -> None:
    """1098 x exp(-0.059) = 1035.09 at zenith 0."""
    assert clear_sky_w_m2(0.0) == pytest.approx(1035.09, abs=0.01)


@given(zenith=st.floats(0.0, 89.0), step=st.floats(0.1, 1.0))
def test_a_lower_sun_is_a_weaker_sun(zenith: float, step: float) -> None:
    """The further from overhead, the less."""
    assert clear_sky_w_m2(zenith + step) < clear_sky_w_m2(zenith)


@pytest.mark.parametrize("zenith", [-0.1, 180.1])
def test_an_angle_off_the_sky_is_refused(zenith: float) -> None:
    """The message names the range."""
    with pytest.raises(ValueError, match="0 to 180 degrees"):
        clear_sky_w_m2(zenith)
