"""How hard a whole day is.

Its steps are our choice: the tests hold them still, they do not prove them.
"""

from __future__ import annotations

import pytest

from binder.figures.bands.band_rule import band
from binder.figures.day.asked_day import (
    LoadLevel,
    is_heat_wave,
    load_of,
)
from binder.figures.weather.daylight import HourAir
from binder.science import heat
from tests.figures.day.days import (
    HOT,
    asked,
)
from tests.figures.written import celsius, printed_in_both


def hours_at(temp_c: float, rh: float, count: int = 24) -> tuple[HourAir, ...]:
    """Return hours of the same air."""
    return tuple(HourAir(float(hour), temp_c, rh) for hour in range(count))


COOL = (20.0, 50.0)  # Normal for every class but the young

DANGER = (28.5, 10.0)  # dry sow: danger from 28.1 C (heat-24)

EMERGENCY = (33.0, 10.0)  # dry sow: emergency from 32.9 C (heat-24)

ALL_HANDS = (36.0, 70.0)  # index 91


@pytest.mark.parametrize(
    ("air", "hours", "expected"),
    [
        (DANGER, 0, LoadLevel.LIGHT), (DANGER, 1, LoadLevel.HOT), (DANGER, 24, LoadLevel.HOT),
        (EMERGENCY, 3, LoadLevel.HOT), (EMERGENCY, 4, LoadLevel.EXTREME),
        (ALL_HANDS, 1, LoadLevel.EXTREME),
    ],
)  # fmt: skip
def test_the_hours_in_each_band_make_the_load(
    air: tuple[float, float], hours: int, expected: LoadLevel
) -> None:
    """One hour of Danger, four of Emergency, one of All hands: our choice."""
    day = (*hours_at(*air, hours), *hours_at(*COOL, 24 - hours))
    found = load_of("dry sow", day, 15.0)
    assert found.load is found.by_hours is expected
    assert sum(found.hours) == 24
    assert found.hours[band("dry sow", *air)] == (hours if hours else 0) or air == COOL


@pytest.mark.parametrize(("low", "warm"), [(72, False), (74.9, False), (75, True)])
def test_a_warm_night_makes_the_day_one_step_harder(low: float, *, warm: bool) -> None:
    """heat-98: alert where a night does not drop below 75 F. 72 F is a usual July night."""
    day = (*hours_at(*DANGER, 2), *hours_at(*COOL, 22))
    found = load_of("dry sow", day, celsius(low))
    assert found.warm_night is warm
    assert found.load is (LoadLevel.EXTREME if warm else LoadLevel.HOT)
    worst = load_of("dry sow", hours_at(*ALL_HANDS), celsius(low))
    assert worst.load is LoadLevel.EXTREME  # there is nothing above


def test_air_below_the_warm_night_lets_animals_recover() -> None:
    """heat-21 counts night hours at an index of 74 or less: all air below 75 F."""
    for rh_pct in (20, 60, 100):
        assert heat.livestock_index(celsius(74), rh_pct) <= 74


def test_recovery_hours_are_those_below_an_index_of_72() -> None:
    """Heat-91; at 100 % the index is the air temperature in F."""
    day = (*hours_at(celsius(71.9), 100, 9), *hours_at(celsius(72), 100, 15))
    assert load_of("goat", day, 15.0).recovery_h == 9


def test_very_cold_air_is_normal() -> None:
    """Below the span of the index nothing is hot."""
    found = load_of("goat", hours_at(-30.0, 100), -30.0)
    assert (found.load, found.recovery_h) == (LoadLevel.LIGHT, 24)


@pytest.mark.parametrize(
    ("hours", "expected"),
    [([9, 9, 9], True), ([9, 10, 9], False), ([9, 9], False),
     ([12, 9, 8, 0, 12], True), ([], False)],
)  # fmt: skip
def test_three_days_without_recovery_make_a_heat_wave(
    hours: list[int], *, expected: bool
) -> None:
    """Heat-91: three days running with fewer than ten recovery hours each."""
    assert is_heat_wave(hours) is expected


def test_the_load_is_asked_by_name() -> None:
    """A midsummer day in central Texas is hard on a nursing sow."""
    found = asked("day-load", **{"class": "lactating sow"}, **HOT)
    assert found.value == "Extreme"
    said = printed_in_both(found)
    assert "do not recover" in said
    assert "heat wave" in said
    spring = {**HOT, "high": "72F", "low": "50F", "dew_point": "48F"}
    mild = asked("day-load", **{"class": "finisher"}, **spring)
    assert mild.value == "Light"
    assert "can recover" in printed_in_both(mild)


def test_load_words_and_keys() -> None:
    """The word prints, the key finds words and colours."""
    assert [(load.key, load.word) for load in LoadLevel] == [
        ("light", "Light"), ("hot", "Hot"), ("extreme", "Extreme"),
    ]  # fmt: skip
