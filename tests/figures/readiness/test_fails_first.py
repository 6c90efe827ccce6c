"""What fails first on a hot day: each thing that can run out, when, and when it does not.

What is taken to go wrong is our choice (fails_first.csv). The times follow from figures that
are tested where they are worked out; here stands how they are put in order.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from binder.figures.bands.band_rule import Band
from binder.figures.day.farm_day import position_of
from binder.figures.figures import work_out
from binder.figures.readiness.fails_first import fails_first, first_hour, passes_h, sunshine
from binder.pages.text import words
from tests.figures.readiness.test_readiness import HOSE, NIPPLE, PIPED, WELL
from tests.figures.stays.test_stays import BOAR, PEN, farm, hens

if TYPE_CHECKING:
    from binder.farm.model import Farm
    from binder.figures.figures import Figures
    from binder.figures.readiness.fails_first import Failure

ON = dt.date(2026, 7, 14)
HOT = {"hot_day": {"high": "95 F", "low": "72 F", "dew_point": "70 F", "hottest_at": "15:30"}}


def failing(a_farm: Farm) -> tuple[Failure, ...]:
    """Return what fails on the farm's hot day."""
    figures = work_out(a_farm, ON)
    assert figures.day.day is not None
    return fails_first(figures, figures.day.day)


def hot(**more: Any) -> Farm:
    """Return a farm with a hot day of its own."""
    return farm(about=HOT, **more)


def hours(found: tuple[Failure, ...], key: str) -> list[float]:
    """Return when something of a key happens [h]."""
    return [each.hour for each in found if each.finding.key == key]


def test_the_list_is_in_the_order_of_the_clock() -> None:
    """Soonest first, whatever it is; every line has its words."""
    found = failing(hot(pens=[PIPED], hoses=[HOSE], water_sources=[WELL]))
    assert [each.hour for each in found] == sorted(each.hour for each in found)
    lexicon = words.load()
    assert all(lexicon.has(each.finding.words) for each in found)


def test_bands_begin_after_first_light() -> None:
    """What the night before left over at midnight is not the start of this day's Danger."""
    found = failing(hot())
    danger = [each for each in found if dict(each.finding.values).get("band") == "hot"]
    assert danger
    assert all(each.hour > 5.5 for each in danger)


def test_the_first_hour_in_a_band() -> None:
    """At or past the band, from an hour on; none where it is never reached."""
    assert first_hour([2, 1, 1, 2, 3], Band.HOT) == 0
    assert first_hour([2, 1, 1, 2, 3], Band.HOT, light_h=1.5) == 3
    assert first_hour([2, 1, 1, 2, 3], Band.ALL_HANDS) is None
    assert first_hour([2, 1, 1, 2, 3], Band.HOT, light_h=1.0) == 3  # all of it is night


def test_classes_that_reach_a_band_together_stand_together() -> None:
    """Two boars of one class: one line a band."""
    found = failing(hot(animals=[BOAR, {**BOAR, "name": "Duke"}]))
    lines = [dict(each.finding.values) for each in found if each.finding.key == "band"]
    assert {line["classes"] for line in lines} == {"boar"}
    assert len(lines) == len({line["band"] for line in lines})


def test_a_cool_day_fails_nowhere() -> None:
    """60 F: no band, no hose too warm; a trough lasts longer than the day."""
    cool = {"hot_day": {"high": "60 F", "low": "45 F", "dew_point": "44 F"}}
    pen = {**PIPED, "drinkers": [*PIPED["drinkers"], *PEN["drinkers"]]}
    shaded = {**HOSE, "sun": "shade"}
    assert failing(farm(about=cool, pens=[pen], hoses=[shaded], water_sources=[WELL])) == ()


def test_a_hose_in_the_sun_passes_86_and_then_100_in_the_morning() -> None:
    """Warm before it is no water, both before noon: the sun does it (water-71)."""
    found = failing(hot(pens=[PIPED], hoses=[HOSE], water_sources=[WELL]))
    (less,), (none,) = hours(found, "hose-less"), hours(found, "hose-none")
    assert 6.0 < less < none < 12.0


@pytest.mark.parametrize("change", [{"runs": "buried"}, {"fed_by": "well", "unused": True}])
def test_a_buried_hose_or_one_without_a_pen_is_no_trouble(change: dict[str, Any]) -> None:
    """In the ground, or with nobody at its end."""
    pen = PEN if change.pop("unused", False) else PIPED
    found = failing(hot(pens=[pen], hoses=[{**HOSE, **change}], water_sources=[WELL]))
    assert not hours(found, "hose-less")


def test_where_a_rising_curve_meets_a_limit() -> None:
    """From 80 at two to 90 at three: 86 at six tenths past two; falling, or never: none."""
    assert passes_h([70, 75, 80, 90], 86) == pytest.approx(2.6)
    assert passes_h([90, 80, 70], 86) is None
    assert passes_h([70, 75], 86) is None
    assert passes_h([80, 86, 86], 86) == pytest.approx(1.0)  # reaches it on the hour
    assert passes_h([86, 86, 90], 86) is None  # was there before


def test_the_sun_stands_highest_near_solar_noon() -> None:
    """In southern Georgia in July about 13:30 by the clock; nothing at midnight (heat-69)."""
    position = position_of(hot())
    assert position is not None
    sun = sunshine(position, ON)
    assert max(range(24), key=sun.__getitem__) in (13, 14)
    assert sun[0] == sun[23] == 0
    assert 900 < max(sun) < 1100


def test_nipples_are_dry_at_first_light() -> None:
    """Half an hour before sunrise, when the pump stops: no store at all."""
    found = failing(hot(pens=[{"drinkers": [NIPPLE]}]))
    (dry,) = hours(found, "dry-at-once")
    assert 5.9 < dry < 6.3
    assert not hours(found, "dry")


def test_a_bell_lasts_for_some_hours() -> None:
    """As long as it holds: first light, and its hours."""
    bell = {"drinkers": [{"id": "d1", "kind": "bell", "holds": "2 gal", "count": "1"}]}
    a_farm = hot(pens=[bell], animals=[hens()])
    found = failing(a_farm)
    lasts = work_out(a_farm, ON).stores["creek"].lasts.amount.value
    (dry,) = hours(found, "dry")
    assert dry == pytest.approx(6.1 + lasts, abs=0.2)


def test_half_a_wallow_is_gone_after_some_hours() -> None:
    """A small one in a day, a large one later than that; an empty pen's is nobody's."""
    small = {"wallow": {"id": "w1", "shape": "round", "length": "4 ft", "depth": "6 in"}}
    assert hours(failing(hot(pens=[small])), "wallow")
    assert not hours(failing(hot()), "wallow")
    assert not hours(failing(hot(pens=[small], animals=[])), "wallow")


def test_a_wallow_of_unknown_width_says_nothing() -> None:
    """Nobody knows what it holds."""
    oval = {"wallow": {"id": "w1", "shape": "oval", "length": "4 ft", "depth": "6 in"}}
    assert not hours(failing(hot(pens=[oval])), "wallow")


def test_shade_is_short_at_noon() -> None:
    """10 sq ft for a boar, 20 are needed (husbandry-1); at solar noon the sun is steepest."""
    little = {"shade": [{"kind": "cloth", "area": "10 sqft"}], "shelter": None}
    (noon,) = hours(failing(hot(pens=[little])), "shade")
    assert 13.0 < noon < 14.0
    assert not hours(failing(hot()), "shade")


STALL = {"kind": "stall", "wallow": None, "shelter": {"area": "200 sqft"}}


def test_a_stall_without_power_is_dangerous_minutes_into_danger() -> None:
    """Twenty minutes: still air above 97 F (husbandry-22, Univ. of Kentucky)."""
    found = failing(hot(pens=[STALL]))
    (late,) = hours(found, "stall")
    (danger,) = [each.hour for each in found if dict(each.finding.values).get("band") == "hot"]
    assert late == pytest.approx(danger + 1 / 3)


def test_a_stall_that_stays_cool_is_no_danger() -> None:
    """On a day without Danger, and with chicks, who have no band."""
    cool = {"hot_day": {"high": "60 F", "low": "45 F", "dew_point": "44 F"}}
    assert not hours(failing(farm(about=cool, pens=[STALL])), "stall")
    chicks = {"group": "Chicks", "species": "chicken", "count": "20", "born": "2026-07-05",
              "pen": "creek"}  # fmt: skip
    assert not hours(failing(hot(pens=[STALL], animals=[chicks])), "stall")


def test_a_generator_runs_out_of_fuel() -> None:
    """4 gal at 0.5 gal/h from first light: eight hours; untimed, nobody knows."""
    engine = {"id": "gen", "name": "Red", "running": "2800 W", "fuel": "4 gal",
              "fuel_rate": "0.5 gal/h"}  # fmt: skip
    (empty,) = hours(failing(hot(generators=[engine])), "fuel")
    assert 13.9 < empty < 14.3
    assert not hours(failing(hot(generators=[{**engine, "fuel_rate": None}])), "fuel")


def test_without_a_place_hoses_are_left_out() -> None:
    """The sun over them is not known; a day from elsewhere still tells its bands."""
    a_farm = hot(pens=[PIPED], hoses=[HOSE], water_sources=[WELL])
    figures: Figures = work_out(a_farm, ON)
    assert figures.day.day is not None
    nowhere = replace(
        figures, farm=farm(about={**HOT, "place": {}}, pens=[PIPED], hoses=[HOSE])
    )
    found = fails_first(nowhere, figures.day.day)
    assert not hours(found, "hose-less")
    assert hours(found, "band")
