"""Weather files of four formats become the same hours, on the farm's own clock."""

from __future__ import annotations

import datetime as dt
import math
from collections import Counter
from typing import TYPE_CHECKING

import pytest
from CoolProp import CoolProp

from binder.weather.read import Asked, read_text
from binder.weather.record import EPW, LOGGER
from binder.weather.record import TM2 as TM2_FORMAT
from binder.weather.record import TMY3 as TMY3_FORMAT
from tests.weather_data import ASKED, TM2, TMY3, logger, record_of, text_of

if TYPE_CHECKING:
    from binder.weather.record import Hour

STANDARD = Asked("", 2026, dt.date(2026, 6, 1))


# What pvlib 0.16.1 reads from the two files (read_tmy3 and read_tmy2): the number of hours, the
# sums of temperature and dew point [C], of wind [m/s] and of sun [Wh/m2].
PVLIB = {
    TMY3: (8760, 126335.4, 71653.3, 26756.9, 1566203.0),
    TM2: (8760, 212990.7, 164537.7, 37993.7, 1792618.0),
}


@pytest.mark.parametrize("name", PVLIB)
def test_a_typical_year_is_read_as_another_library_reads_it(name: str) -> None:
    """Sums over the year agree with pvlib's own reading of the same file."""
    hours = record_of(name).hours
    temp, dew, wind, sun = (
        math.fsum(values)
        for values in zip(
            *((h.temp_c, h.dew_point_c, h.wind_m_s or 0.0, h.sun_w_m2 or 0.0) for h in hours),
            strict=True,
        )
    )
    count, *sums = PVLIB[name]
    assert count == len(hours)
    # A dew point above the air, as rounding leaves it, is taken down to it.
    assert dew == pytest.approx(sums[1], rel=2e-4)
    assert [temp, wind, sun] == pytest.approx([sums[0], *sums[2:]], rel=1e-9)


def test_the_head_says_where_and_when() -> None:
    """Place, format, and the years that the months were taken from."""
    greensboro, miami = record_of(TMY3), record_of(TM2)
    assert (greensboro.format, miami.format) == (TMY3_FORMAT, TM2_FORMAT)
    assert greensboro.site is not None
    assert miami.site is not None
    assert greensboro.site.name == "GREENSBORO PIEDMONT TRIAD INT, NC"
    assert (greensboro.site.latitude, greensboro.site.longitude) == (36.1, -79.95)
    assert miami.site.name == "MIAMI, FL"
    # 25 degrees 48 minutes north, 80 degrees 16 minutes west, as its first line has it.
    assert miami.site.latitude == pytest.approx(25.8)
    assert miami.site.longitude == pytest.approx(-80.2667, abs=1e-4)
    assert greensboro.is_typical
    assert miami.is_typical
    assert (greensboro.years[0], greensboro.years[-1]) == (1980, 2003)


def test_standard_time_becomes_the_farms_clock() -> None:
    """July is an hour later by the clock than in the file, January is not; no hour is lost."""
    summer, standard = record_of(TMY3), read_text(text_of(TMY3), TMY3, STANDARD)

    def hottest(hours: tuple[Hour, ...], month: int) -> float:
        at = [h for h in hours if h.when.month == month]
        by_hour = Counter(
            {hour: math.fsum(h.temp_c for h in at if h.when.hour == hour) for hour in range(24)}
        )
        return by_hour.most_common(1)[0][0]

    assert hottest(summer.hours, 7) == hottest(standard.hours, 7) + 1
    assert hottest(summer.hours, 1) == hottest(standard.hours, 1)
    assert len(summer.hours) == len(standard.hours) == 8760
    assert not summer.holes


def epw_of(text: str) -> str:
    """Return a TMY3 file as EPW, written here from the published order of its columns."""
    head = [
        "LOCATION,Greensboro,NC,USA,TMY3,723170,36.10,-79.95,-5.0,273.0",
        "DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0",
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0", "COMMENTS 1,", "COMMENTS 2,",
        "DATA PERIODS,1,1,Data,Sunday,1/1,12/31",
    ]  # fmt: skip
    rows = []
    for line in text.splitlines()[2:]:
        date, clock, ghi, dry, dew, rh, wind = line.split(",")
        month, day, year = date.split("/")
        hour = int(clock[:2])
        cells = [year, month, day, str(hour), "60", "?", dry, dew, rh, "99300"]
        cells += ["0", "0", "0", ghi, *["0"] * 6, "200", wind, *["0"] * 13]
        rows.append(",".join(cells))
    return "\n".join([*head, *rows])


def test_epw_says_the_same_as_the_file_it_was_made_from() -> None:
    """Every hour of a year through the other format is the same hour."""
    record = read_text(epw_of(text_of(TMY3)), "greensboro.epw", ASKED)
    assert record.format == EPW
    assert record.hours == record_of(TMY3).hours


def test_hours_marked_as_missing_are_holes() -> None:
    """A missing temperature is left out and counted, not filled in."""
    lines = text_of(TMY3).splitlines()
    for at in (2 + 4000, 2 + 4001):
        cells = lines[at].split(",")
        cells[3] = "-9900"
        lines[at] = ",".join(cells)
    record = read_text("\n".join(lines), TMY3, STANDARD)
    assert len(record.hours) == 8758
    assert [(hole.first, hole.hours) for hole in record.holes] == [
        (dt.datetime(2026, 6, 16, 16), 2)  # noqa: DTZ001
    ]


@pytest.mark.parametrize(
    ("head", "row"),
    [
        ("time,temperature (F),humidity (%)", "2025-07-01 15:00,90,50"),
        ("Time,Temperature [F],Dew point [F]", "2025-07-01 15:00,90,69.1"),
        ("time;temperature (C);humidity (%)", "2025-07-01 15:00;32,22;50"),
        ("time,temperature,humidity", "2025-07-01 15:00,90 F,50 %"),
        ("time (month/day/year),temperature (F),humidity (%)", "07/01/2025 15:00,90,50"),
        ("time (day.month.year);temperature (C);humidity (%)", "01.07.2025 15:00;32,22;50"),
        ("time (standard),temperature (F),humidity (%)", "2025-07-01 14:00,90,50"),
    ],
)
def test_a_loggers_table_is_read_by_its_headings(head: str, row: str) -> None:
    """Units in the heading or with the value; after a semicolon a comma is a decimal sign."""
    hour = read_text(f"{head}\n{row}", "logger.csv", ASKED).hours[0]
    assert hour.when == dt.datetime(2025, 7, 1, 15)  # noqa: DTZ001
    assert hour.temp_c == pytest.approx(32.22, abs=0.01)
    # Another library's dew point; ours is good to about 0.35 C [heat-63].
    dew_c = CoolProp.HAPropsSI("D", "T", 32.22 + 273.15, "P", 101325, "R", 0.5) - 273.15
    assert hour.dew_point_c == pytest.approx(dew_c, abs=0.2)


def test_wind_and_sun_are_read_where_there_are_any() -> None:
    """5 mph is 2.235 m/s by definition of the mile."""
    head = "time,temperature (F),humidity (%),wind (mph),sun (W/m2)"
    hour = read_text(f"{head}\n2025-07-01 15:00,90,50,5,812", "logger.csv", ASKED).hours[0]
    assert hour.wind_m_s == pytest.approx(2.2352)
    assert hour.sun_w_m2 == 812
    record = read_text(logger(), "logger.csv", ASKED)
    assert record.format == LOGGER
    assert record.site is None
    assert {(each.wind_m_s, each.sun_w_m2) for each in record.hours} == {(None, None)}


def test_gaps_of_a_logger_are_named_and_counted() -> None:
    """Three hours without a line are one hole of three hours."""
    lines = logger(72).splitlines()
    record = read_text("\n".join([*lines[:11], *lines[14:]]), "logger.csv", ASKED)
    assert [(hole.first.hour, hole.hours) for hole in record.holes] == [(10, 3)]
    assert record.missing == 3
