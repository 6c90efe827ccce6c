"""The day of a farm."""

from __future__ import annotations

import datetime as dt
import re

import pytest

from binder import sources
from binder.figures.bands.band_rule import Band, band
from binder.figures.day import asked_day as days
from binder.figures.day.asked_day import (
    Position,
    clock,
    day_of,
    for_farm,
)
from binder.figures.day.feeding_hours import heat_line_h
from binder.figures.herd.groups import for_farm as herd
from binder.figures.published import rows
from binder.figures.weather.hot_days import (
    DayWeather,
    Hour,
    extreme_day,
    hot_day,
)
from binder.figures.weather.sun_times import NoDayError
from binder.pages.text import words
from binder.problems import ProblemsError
from tests.figures.day.days import (
    AUGUST,
    GEORGIA,
    JULY,
    MAY,
    PLACE,
    TEXAS,
    farm,
    minutes,
    moment,
    record,
    weather,
)
from tests.figures.written import printed_in_both

SOW = {"name": "Ruby", "species": "pig", "sex": "sow", "born": "2023-01-01"}

HENS = {"group": "Hens", "species": "chicken", "sex": "hen", "purpose": "eggs", "count": "9",
        "born": "2024-01-01"}  # fmt: skip

CHICKS = {"group": "Chicks", "species": "chicken", "count": "9", "born": "2026-07-10"}

GOAT = {"name": "Nan", "species": "goat", "sex": "doe", "born": "2022-01-01"}


def test_a_farm_gets_its_day_months_and_record() -> None:
    """Everything of the hot day, by class and by chart."""
    place = farm((SOW, HENS, CHICKS, GOAT), place=PLACE, climate={"may": MAY, "august": AUGUST})
    found = for_farm(
        place, herd(place, JULY), hot_day(place), record({dt.date(2025, 6, 1): (30.0, 20.0)})
    )
    assert set(found.loads) == {"dry sow", "laying hen", "goat"}
    assert found.loads["dry sow"].key == "day-load.dry sow"
    assert list(found.months) == ["may", "june", "august"]
    day = found.day
    assert day is not None
    assert (day.air.on, day.weather.origin) == (JULY, "august")
    assert found.months["may"].air.on == dt.date(2026, 5, 15)
    assert day.sunrise_h < day.air.peak_h < day.sunset_h
    assert len(day.hours) == len(day.bands_of("poultry")) == 24
    for hour, each in zip(day.hours, day.bands_of("sows and boars"), strict=True):
        assert each is band("dry sow", hour.temp_c, hour.rh_pct)
    assert day.hours_from("poultry", Band.FINE) == 24
    assert day.hours_from("poultry", Band.HOT) == sum(
        each >= Band.HOT for each in day.bands["laying hen"]
    )
    assert day.worst_hours is not None
    first, last = day.worst_hours
    assert first <= day.air.peak_h <= last
    assert day.night_recovers  # 74 F at its coolest
    assert found.months["may"].night_recovers
    assert found.meals is not None
    assert clock(found.meals.morning_by_h) == found.meals.morning.value
    assert clock(found.meals.evening_from_h) == found.meals.evening.value
    assert found.counts[0].days == 1
    assert found.sunrise is not None
    assert found.sunset is not None
    assert found.curve is not None
    printed_in_both(found.sunrise, found.sunset, found.curve, *found.loads.values())
    printed_in_both(found.meals.morning, found.meals.evening)


def test_the_feeding_hours_of_a_farm_suit_every_class() -> None:
    """One time for all: who comes first in the morning and last in the evening sets it.

    Hens reach their line soonest at 84 F (heat-40, heat-24), but are never kept waiting.
    """
    place = farm((SOW, HENS), place=PLACE)
    found = for_farm(place, herd(place, JULY), weather(84, 58, 55))
    assert found.meals is not None
    assert found.day is not None
    air = found.day.air
    assert found.meals.morning == days.morning_meal(air, "dry sow", None, "dry sow")
    assert found.meals.evening == days.evening_meal(air, "dry sow", None, "dry sow")
    hens = farm((HENS,), place=PLACE)
    alone = for_farm(hens, herd(hens, JULY), weather(84, 58, 55)).meals
    assert alone is not None
    assert str(alone.morning.value) < str(found.meals.morning.value)


def test_feeding_times_stand_on_the_five_minutes() -> None:
    """Sheets, cards and checks print one time: the morning rounded down, the evening up."""
    day = day_of(GEORGIA, JULY, weather(95, 75, 74))
    for cls in ("grower", "dry sow", "lactating sow"):
        for one in (days.morning_meal(day, cls), days.evening_meal(day, cls)):
            assert isinstance(one.value, str)
            assert minutes(one.value) % 5 == 0


def test_a_mild_day_has_no_worst_hours() -> None:
    """Nor has a farm whose animals have no bands."""
    mild = weather(70, 50, 45)
    place = farm((SOW,), place=PLACE)
    found = for_farm(place, herd(place, JULY), mild)
    assert found.day is not None
    assert found.day.worst_hours is None
    young = farm((CHICKS,), place=PLACE)
    none = for_farm(young, herd(young, JULY), mild)
    assert none.day is not None
    assert none.day.worst_hours is None
    assert none.meals is None


@pytest.mark.parametrize("missing", ["latitude", "longitude", "timezone"])
def test_a_farm_without_a_position_has_no_day(missing: str) -> None:
    """Not recorded, never guessed; its weather record still counts."""
    place = farm((SOW,), place={key: value for key, value in PLACE.items() if key != missing})
    record_ = record({dt.date(2025, 7, number): (30.0, 24.0) for number in (1, 2, 3)})
    found = for_farm(place, herd(place, JULY), hot_day(place), record_)
    assert found.day is None
    assert found.sunrise is found.curve is None
    assert found.meals is None
    assert not found.loads
    assert found.counts[0].days == 3
    assert len(found.heat_waves) == 1


def test_a_day_of_our_choice_says_so() -> None:
    """Where the farm has no weather of its own."""
    place = farm((SOW,), place=PLACE)
    found = for_farm(place, herd(place, JULY), hot_day(place))
    assert found.curve is not None
    assert "our-choice" in found.curve.sources
    assert "no weather of its own" in printed_in_both(found.curve)


@pytest.mark.parametrize(
    ("place", "day", "said"),
    [
        ({**PLACE, "latitude": "80"}, MAY, r'latitude: "80": .*stays up all day; expected a'),
        ({**PLACE, "latitude": "-80"}, MAY, "it stays down all day; expected a la"),
        ({**PLACE, "timezone": "Asia/Tokyo"}, MAY, r'timezone: "Asia/Tokyo": .*expected a ti'),
    ],
)
def test_a_day_that_cannot_be_drawn_is_a_problem_of_the_farm(
    place: dict[str, str], day: dict[str, str], said: str
) -> None:
    """With the file in which to mend it."""
    where = farm((SOW,), place=place, hot_day=day)
    with pytest.raises(ProblemsError) as caught:
        for_farm(where, herd(where, JULY), hot_day(where))
    (problem,) = caught.value.problems
    assert problem.place.file == "farm.yaml"
    assert re.search(said, str(problem))


def test_a_day_whose_sun_sets_after_midnight_is_refused() -> None:
    """Fairbanks at midsummer: up 02:57, down about 00:47 of the next date (from memory)."""
    place = Position(64.84, -147.72, "America/Anchorage")
    said = r"rises at 02:5\d and sets at 00:4\d; expected a latitude from -60 to 60"
    with pytest.raises(NoDayError, match=said) as caught:
        day_of(place, dt.date(2026, 6, 21), weather(80, 55, 50))
    assert caught.value.problems[0].path == "place > latitude"


@pytest.mark.parametrize("latitude", [-60.0, -54.0, 54.0, 60.0])
def test_up_to_60_degrees_every_date_has_a_day(latitude: float) -> None:
    """Helsinki's latitude: the shortest day has just under 6 hours (from memory)."""
    place = Position(latitude, 24.9, "Europe/Helsinki")
    for on in (dt.date(2026, 6, 21), dt.date(2026, 12, 21)):
        assert day_of(place, on, weather(80, 55, 50)).hours


def test_a_hottest_hour_after_sunset_gives_way() -> None:
    """5:30 pm in Texas is before sunset in July and after it in December (17:25, NOAA)."""
    where = Position(31.0, -97.7, "America/Chicago")
    late = DayWeather(35.0, 23.0, 20.0, 17.5, assumed=False, origin="hot_day")
    summer, winter = day_of(where, JULY, late), day_of(where, dt.date(2026, 12, 10), late)
    assert summer.peak_is_own
    assert summer.peak_h == pytest.approx(17.5)
    assert not winter.peak_is_own
    assert winter.peak_h == pytest.approx((winter.sunrise_h + winter.sunset_h) / 2 + 1.86)


def test_a_cold_record_makes_no_hot_day() -> None:
    """The livestock index goes down to -20 C: a record of a colder month is left aside."""
    rows = tuple(Hour(moment("2026-01-10", hour), -30.0, -35.0) for hour in range(24))
    assert hot_day(farm((SOW,)), rows).assumed


def test_a_extreme_day_of_ours_stays_on_the_scale() -> None:
    """The livestock index goes up to 50 C."""
    place = farm((SOW,), hot_day={"high": "121 F", "low": "80 F", "dew_point": "70 F"})
    assert extreme_day(place).high_c == 50.0


def test_every_figure_has_its_words() -> None:
    """Title and help of each entry."""
    lexicon = words.load()
    for entry in days.ENTRIES:
        assert lexicon.text(f"{entry.name}.title")
        assert lexicon.text(f"{entry.name}.help")


def test_every_rule_names_a_known_source() -> None:
    """Tables of this part."""
    known = sources.all_sources()
    for table in ("day_rules", "day_load", "default_weather"):
        for row in rows(table):
            assert row.sources
            assert set(row.sources) <= set(known)


def test_a_morning_colder_than_the_index_is_below_the_heat_line() -> None:
    """The livestock index goes down to -20 C; colder air is Normal, not an error."""
    frost = DayWeather(30.0, -30.0, -30.0, None, assumed=False, origin="hot_day")
    found = heat_line_h(day_of(TEXAS, JULY, frost), "late-gestation sow")
    assert found is not None
    assert found > 10.0
