"""Time zones and the places they are known by.

Positions: zone.tab of the IANA time zone database. Cities: from memory, to a degree.
"""

from __future__ import annotations

import zoneinfo

import pytest

from binder.farm import zones


def test_positions_are_those_of_the_database() -> None:
    """New York stands at +404251-0740023 in zone.tab, and an older name leads to it."""
    north, west = zones.places()["America/New_York"]
    assert (round(north, 4), round(west, 4)) == (40.7142, -74.0064)
    assert zones.places()["US/Eastern"] == zones.places()["America/New_York"]
    assert "UTC" not in zones.places()
    assert set(zones.places()) <= zoneinfo.available_timezones()


@pytest.mark.parametrize(
    ("zone", "latitude", "longitude", "wrong"),
    [
        ("America/New_York", 31.55, -82.12, ""),
        ("America/New_York", 25.8, -80.2, ""),  # Miami
        ("America/New_York", 31.55, 82.12, "longitude"),  # the sign left out
        ("America/New_York", -31.55, -82.12, "latitude"),
        ("Asia/Shanghai", 39.5, 76.0, ""),  # Kashgar, the far west of one wide zone
        ("Europe/Moscow", 69.0, 33.1, ""),  # Murmansk
        ("Pacific/Auckland", -43.9, -176.5, ""),  # across the date line
        ("Pacific/Auckland", 43.9, 172.0, "latitude"),
        ("Europe/Madrid", 37.4, -6.0, ""),  # Seville
        ("Australia/Sydney", 37.4, -6.0, "latitude"),
        ("UTC", 80.0, 10.0, ""),
        ("Etc/GMT+5", 31.0, 82.0, ""),
    ],
)
def test_a_farm_lies_where_its_clock_is(
    zone: str, latitude: float, longitude: float, wrong: str
) -> None:
    """Wide zones are given room, a missing sign is seen, and UTC is nowhere."""
    assert zones.too_far(zone, latitude, longitude) == wrong


def test_what_is_no_position_is_refused() -> None:
    """A database written otherwise would be noticed rather than misread."""
    with pytest.raises(ValueError, match="40N 74W"):
        zones._degrees("40N 74W")
