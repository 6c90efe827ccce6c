"""Every hour of two typical years against formulas written here anew from their sources."""

from __future__ import annotations

import csv
import math
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from CoolProp.HumidAirProp import HAPropsSI

from binder.figures import published
from binder.figures.bands.band_lines import ladder_of
from binder.figures.bands.band_rule import is_banded, people_index_f, verdict
from binder.figures.season.season_air import air_of, kilometres
from binder.figures.season.season_days import LINES, months_of
from binder.figures.weather.sun_times import Position
from binder.science.humidity import dew_point_c
from tests.weather_data import TM2, TMY3, record_of

if TYPE_CHECKING:
    from binder.figures.season.season_air import SeasonAir

FARM = Position(31.55, -82.12, "America/New_York")
FILES = (TMY3, TM2)


@cache
def air(name: str) -> SeasonAir:
    """Return a typical year at the example farm."""
    return air_of(record_of(name), FARM)


def heat_index_f(temp_f: float, rh: float) -> float:
    """Return the weather service's heat index [F], from the page of its formula (heat-1).

    Read anew for this test: simple form first, averaged with the temperature; from 80 on the
    regression with its two adjustments.
    """
    simple = 0.5 * (temp_f + 61.0 + (temp_f - 68.0) * 1.2 + rh * 0.094)
    index = (simple + temp_f) / 2
    if index < 80:
        return index
    t, r = temp_f, rh
    index = (
        -42.379 + 2.04901523 * t + 10.14333127 * r - 0.22475541 * t * r - 0.00683783 * t * t
        - 0.05481717 * r * r + 0.00122874 * t * t * r + 0.00085282 * t * r * r
        - 0.00000199 * t * t * r * r
    )  # fmt: skip
    if r < 13 and 80 <= t <= 112:
        index -= (13 - r) / 4 * math.sqrt((17 - abs(t - 95)) / 17)
    if r > 85 and 80 <= t <= 87:
        index += (r - 85) / 10 * (87 - t) / 5
    return index


def livestock_index(temp_c: float, rh: float) -> float:
    """Return the livestock index as heat-12 prints it: with T in F and RH as a share of 1."""
    temp_f = 9 * temp_c / 5 + 32
    return temp_f - (0.55 - 0.55 * rh / 100) * (temp_f - 58)


@pytest.mark.parametrize("name", FILES)
def test_the_heat_index_of_every_hour(name: str) -> None:
    """8,760 hours from 40 F up agree to a thousandth of a degree."""
    found = air(name)
    compared = 0
    for temp_c, rh_pct in zip(found.temp_c, found.rh_pct, strict=True):
        temp_f = 9 * temp_c / 5 + 32
        if temp_f <= 40:  # there the air temperature itself is the answer
            continue
        ours = people_index_f(temp_c, min(rh_pct, 100.0))
        assert ours == pytest.approx(heat_index_f(temp_f, min(rh_pct, 100.0)), abs=1e-3)
        compared += 1
    assert compared > 7000


@pytest.mark.parametrize("name", FILES)
def test_the_livestock_index_of_every_hour(name: str) -> None:
    """To the nearest whole number, a half up; the two forms of the formula are the same."""
    found = air(name)
    for temp_c, rh_pct, whole in zip(found.temp_c, found.rh_pct, found.whole, strict=True):
        assert whole == math.floor(livestock_index(temp_c, rh_pct) + 0.5 + 1e-9)


@pytest.mark.parametrize("name", FILES)
def test_the_dew_point_goes_back_and_forth_with_another_library(name: str) -> None:
    """From the humidity of an hour CoolProp finds the file's dew point, within 0.35 C.

    That is the error heat-63 states of the form used here. Every 25th hour, as a call is slow.
    """
    found = air(name)
    hours = found.record.hours
    for at in range(0, len(hours), 25):
        hour, rh_pct = hours[at], found.rh_pct[at]
        if hour.dew_point_c <= 0:  # below frost that library counts over ice
            continue
        kelvin = HAPropsSI("D", "T", hour.temp_c + 273.15, "P", 101325, "R", rh_pct / 100)
        assert hour.dew_point_c == pytest.approx(kelvin - 273.15, abs=0.35)
        assert dew_point_c(hour.temp_c, rh_pct) == pytest.approx(hour.dew_point_c, abs=1e-9)


@pytest.mark.parametrize("name", FILES)
def test_many_hours_at_once_say_what_one_hour_says(name: str) -> None:
    """The numbers of a season and the number of an hour are one rule: equal for each class."""
    found = air(name)
    classes = [row.text("class") for row in published.rows("classes")]
    for cls in filter(is_banded, classes):
        ladder = ladder_of(cls)
        for at in range(0, len(found.temp_c), 7):
            temp_c, rh_pct = found.temp_c[at], found.rh_pct[at]
            one = verdict(cls, temp_c, rh_pct).band
            assert ladder.band(temp_c, found.whole[at], rh_pct) == one


def expected() -> list[dict[str, str]]:
    """Return the counts that were worked out apart."""
    text = (Path(__file__).parent / "index_hours.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if line[0] != "#"))


@pytest.mark.parametrize("name", FILES)
def test_hours_over_the_published_lines_by_month(name: str) -> None:
    """75, 79 and 84 are where alert, danger and emergency start (heat-97)."""
    found = air(name)
    months = months_of(found, bytes(len(found.temp_c)), {}, ())
    rows = [row for row in expected() if row["place"] == name]
    assert [(m.month, sum(m.hours), *m.index) for m in months] == [
        (int(row["month"]), int(row["hours"]), *(int(row[str(line)]) for line in LINES))
        for row in rows
    ]


def test_our_places_stand_where_a_published_count_puts_them() -> None:
    """Wichita has under 900 to over 1,400 hours a year above 75, on 90 to 120 days.

    Harrington and Bowles, American Meteorological Society 2002, paper 6A.2 (abstract).

    Greensboro, of the same latitude, lies in that range; Miami far above it; July is the month
    with most of them in both, as it is in Wichita.
    """
    counts = {}
    for name in FILES:
        found = air(name)
        above = [
            livestock_index(t, rh) > 75
            for t, rh in zip(found.temp_c, found.rh_pct, strict=True)
        ]
        days = sum(any(above[day.start : day.end]) for day in found.days)
        by_month = [0] * 13
        for day in found.days:
            by_month[day.on.month] += sum(above[day.start : day.end])
        counts[name] = (sum(above), days, by_month.index(max(by_month)))
    assert 900 <= counts[TMY3][0] <= 1400
    assert 90 <= counts[TMY3][1] <= 120
    assert counts[TM2][0] > 1400
    assert counts[TMY3][2] == counts[TM2][2] == 7


def test_the_sun_is_up_by_day() -> None:
    """14 h 15 min on the longest day in southern Georgia, 10 h 5 min on the shortest.

    From memory of any almanac for 31.5 degrees north; whole hours are counted by their middle.
    """
    by_date = {day.on: sum(air(TMY3).up[day.start : day.end]) for day in air(TMY3).days}
    lengths = {(on.month, on.day): hours for on, hours in by_date.items()}
    assert lengths[6, 21] in (14, 15)
    assert lengths[12, 21] in (10, 11)


def test_the_distance_to_a_file_of_another_place() -> None:
    """A degree of latitude is 60 nautical miles of 1,852 m, about 111.2 km."""
    north = Position(35.1, -79.95, "America/New_York")
    km = kilometres(north, record_of(TMY3))
    assert km == pytest.approx(111.2, abs=0.1)
