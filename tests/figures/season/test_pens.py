"""Pens played through hours that a test makes up, each with one thing that goes wrong."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from binder.build import checked, figures_of
from binder.figures.day.feeding_hours import (
    eaten_by_h,
    evening_from_h,
    morning_by_h,
    turned_h,
)
from binder.figures.season import Wrong
from binder.figures.season.farm_season import play_farm
from binder.figures.season.season_meals import meals_of
from binder.figures.weather.forecast import day_air
from binder.figures.weather.sun_times import Position
from binder.weather.record import LOGGER, Hole, Hour, Record
from tests.weather_data import TMY3, record_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from binder.figures.season import FarmSeason
    from tests.conftest import FarmFolder

ON = dt.date(2026, 7, 1)
PLACE = Position(31.5, -82.0, "America/New_York")
FARM = """
name: Test Acre
place: {address: 1 Test Road, latitude: 31.5, longitude: -82, timezone: America/New_York}
"""
CONTACTS = "- {name: Ann Example, role: owner, phone: 555-0100}\n"
HENS = "- {group: Hens, species: chicken, sex: hen, purpose: eggs, count: 45, pen: run}\n"
RUN = """
- id: run
  name: Run
  kind: coop
  area: 1000 sqft
  shade: [{kind: cloth, area: 400 sqft}]
  shelter: {area: 110 sqft, open_ends: 1}
  drinkers: [{id: d1, kind: bell, count: COUNT, holds: 3 gal, can_tip: no, shaded: yes}]
"""
SOW = "- {name: Sow, species: pig, sex: sow, weight: 400 lb, pen: lot}\n"
LOT = """
- id: lot
  name: Lot
  kind: pasture
  shade: [{kind: trees, area: 900 sqft}]
  wallow: {id: w1, shape: oval, length: 12 ft, width: 8 ft, depth: 10 in}
  drinkers: [{id: d1, kind: nipple, count: 2, flow: 4 cup/min, fed_by: h1}]
"""
HOSE = """
water_sources: [{id: well, name: Well, kind: well}]
hoses: [{id: h1, inside: 3/4 in, length: 100 ft, sun: full, colour: dark, fed_by: well}]
"""


def record(
    days: int, temp: Callable[[int], float], dew_c: float = 15.0, sun: float | None = None
) -> Record:
    """Return days from 1 July 2025 on, alike, with a temperature for each hour of the day."""
    first = dt.datetime(2025, 7, 1)  # noqa: DTZ001 -- the farm's clock
    hours = tuple(
        Hour(first + dt.timedelta(hours=n), temp(n % 24), dew_c, 2.0, sun)
        for n in range(24 * days)
    )
    return Record("made-up.csv", LOGGER, None, hours, (), (2025,))


def afternoon(hour: int) -> float:
    """Return 22 C at night and 36 C from noon to six."""
    return 36.0 if 12 <= hour < 18 else 22.0


@pytest.fixture
def played(farm_folder: FarmFolder) -> Callable[..., FarmSeason]:
    """Return a function that plays a farm of given pens and animals through a record."""

    def play(pens: str, animals: str, hours: Record, equipment: str = "") -> FarmSeason:
        files = {"farm.yaml": FARM, "contacts.yaml": CONTACTS, "animals.yaml": animals}
        files |= {"pens.yaml": pens} | ({"equipment.yaml": equipment} if equipment else {})
        owner, farm = checked(farm_folder(files), ON)
        figures = figures_of(owner, farm, ON)
        return play_farm(farm, figures.herd, figures.plan, figures.wallows, [hours]).seasons[0]

    return play


def test_a_waterer_filled_by_hand_runs_dry(played: Callable[..., FarmSeason]) -> None:
    """45 hens in heat over 90 F drink 18 L a day (40 L for 100, water-40): 3 gal last 8 h.

    18 L over about 14 hours of light are 1.3 L an hour, and 3 gal are 11.4 L. Filled at the
    first round, the bell is empty in the afternoon of each day; two of them are not.
    """
    one = played(RUN.replace("COUNT", "1"), HENS, record(5, afternoon)).pens["run"]
    assert one.hours_of(Wrong.DRY) > 0
    dry = [at % 24 for at, kinds in enumerate(one.wrong) if kinds & Wrong.DRY]
    assert min(dry) in range(13, 17)
    assert dry.count(min(dry)) == 5
    assert one.drunk_l == pytest.approx(5 * 18, rel=0.01)
    two = played(RUN.replace("COUNT", "2"), HENS, record(5, afternoon)).pens["run"]
    assert two.hours_of(Wrong.DRY) == 0
    assert two.drunk_l == one.drunk_l
    assert one.animal_h == one.bad_h * 45


def test_nothing_goes_wrong_in_cool_air(played: Callable[..., FarmSeason]) -> None:
    """At 18 C, number 0 all day, a pen that lacks everything but water counts for nothing."""
    water = "{id: d1, kind: trough, holds: 99 gal, fed_by: h1}"
    bare = f"- {{id: lot, name: Lot, kind: pasture, drinkers: [{water}]}}"
    season = played(bare, SOW, record(5, lambda _: 18.0, dew_c=8.0), HOSE)
    assert season.pens["lot"].bad_h == 0
    assert season.wrong == ()
    hot = played(bare, SOW, record(5, afternoon), HOSE).pens["lot"]
    # Six hours a day, in daylight: no shade, no mud.
    assert hot.hours_of(Wrong.SHADE) == hot.hours_of(Wrong.WET) == 30
    assert hot.bad_h == 30


def test_still_water_in_a_dark_hose_gets_too_hot(played: Callable[..., FarmSeason]) -> None:
    """In the sun of a clear day a dark hose passes 100 F; the same hose buried does not."""
    hot = played(LOT, SOW, record(3, afternoon, sun=700.0), HOSE)
    # 36 + 0.9 x 700 / (pi x 15) = 49 C at equilibrium (water-77), 120 F.
    assert hot.hoses["h1"].highest_c == pytest.approx(49.4, abs=0.5)
    assert hot.pens["lot"].hours_of(Wrong.HOT_WATER) == hot.hoses["h1"].none_h > 0
    buried = HOSE.replace("sun: full", "runs: buried, buried_depth: 18 in, sun: full")
    cool = played(LOT, SOW, record(3, afternoon, sun=700.0), buried)
    assert cool.hoses == {}
    assert cool.pens["lot"].hours_of(Wrong.HOT_WATER) == 0


def test_a_day_with_too_few_hours_is_not_judged(played: Callable[..., FarmSeason]) -> None:
    """Of a day with a gap of eight hours nothing is said, and its water is not counted."""
    whole = record(3, afternoon)
    hours = (*whole.hours[:30], *whole.hours[38:])
    hole = Hole(whole.hours[30].when, 8)
    cut = Record(whole.file, LOGGER, None, hours, (hole,), (2025,))
    season = played(RUN.replace("COUNT", "2"), HENS, cut)
    assert [day.is_whole for day in season.air.days] == [True, False, True]
    assert season.pens["run"].drunk_l == pytest.approx(2 * 18, rel=0.01)
    assert season.air.follows.count(False) == 2


def test_three_warm_days_are_a_hot_spell(played: Callable[..., FarmSeason]) -> None:
    """Three days running with fewer than ten hours of recovery (heat-91); two are none."""
    always = record(3, lambda _: 33.0, dew_c=22.0)
    spell = played(RUN.replace("COUNT", "2"), HENS, always).longest
    assert spell is not None
    assert (spell.first, spell.days) == (dt.date(2025, 7, 1), 3)
    short = played(RUN.replace("COUNT", "2"), HENS, record(2, lambda _: 33.0, dew_c=22.0))
    assert short.spells == ()


def test_a_wallow_falls_by_wind_and_sun_and_splash(played: Callable[..., FarmSeason]) -> None:
    """The air takes 1/4 to 3/4 in of open water on a hot windy day (water-114)."""
    hot = played(LOT, SOW, record(3, afternoon, sun=400.0), HOSE)
    assert hot.by_formula
    assert 6.35 <= hot.wallows["w1"].most_mm_day <= 19.05
    assert 0 < hot.wallows["w1"].lowest < 1
    unknown = played(LOT, SOW, record(3, afternoon), HOSE)
    assert not unknown.by_formula
    # No wind or sun: half an inch a day, as the wallow sheet takes it (water-114).
    assert unknown.wallows["w1"].most_mm_day == pytest.approx(12.7)


def test_meals_of_a_season_keep_to_the_rule_of_a_day(played: Callable[..., FarmSeason]) -> None:
    """22 C at night is number 0 for a sow; noon to six at 36 C is not: by 10, then from sunset.

    The line is passed at noon, so eaten by 10 (2 h before, husbandry-59, within the latest hour
    of a heavy meal); the hottest hour is 12, so the heat of the day ends it; by six it is 22 C.
    """
    meals = played(LOT, SOW, record(4, afternoon), HOSE).meals
    assert meals is not None
    assert (meals.days, meals.dark, meals.waits) == (4, 0, 0)
    assert meals.earliest_by_h == eaten_by_h(12.0, 6.4)[0]
    assert meals.latest_from_h >= turned_h(12.0, 20.6)


def test_no_cool_hour_means_no_time_to_eat(played: Callable[..., FarmSeason]) -> None:
    """36 C day and night: first light is late every morning, every evening meal waits."""
    meals = played(LOT, SOW, record(3, lambda _: 36.0), HOSE).meals
    assert meals is not None
    assert (meals.dark, meals.waits) == (3, 3)


def test_meals_by_the_hour_and_by_the_minute_agree(played: Callable[..., FarmSeason]) -> None:
    """A real summer: within the hour that a file leaves open, as that day's sheet has it."""
    hours = record_of(TMY3)
    season = played(LOT, SOW, hours, HOSE)
    (cls,) = season.around.bands
    apart = []
    for day in season.air.whole_days[150:260:9]:
        rows = hours.hours[day.start : day.end]
        air = day_air(PLACE, day.on, rows)
        alone = meals_of(replace(season.air, days=(day,)), season.around.bands)
        assert alone is not None
        apart.append(abs(alone.earliest_by_h - morning_by_h(air, cls)[0]))
        apart.append(abs(alone.latest_from_h - evening_from_h(air, cls)[0]))
    assert max(apart) <= 1.5, apart
    assert sum(apart) / len(apart) < 0.6, apart
