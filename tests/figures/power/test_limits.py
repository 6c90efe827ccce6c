"""Circuits, cords, generators, closed barns: published limits, the source beside each."""

from __future__ import annotations

import pytest

from binder import units
from binder.figures.figure import NotPublishedError
from binder.figures.power.cords import cord, voltage_drop
from binder.figures.power.farm_power import (
    barn_minutes,
    breaker_needed,
    circuit_load,
)
from binder.figures.power.generators import fuel_hours, starting_load
from tests.figures.power.wired import number

FOOT = 0.3048


@pytest.mark.parametrize(
    ("amps", "volts", "watts"), [(15, 120, 1440), (20, 120, 1920), (20, 240, 3840)]
)
def test_a_circuit_carries_80_per_cent(amps: float, volts: float, watts: float) -> None:
    """NEC 210.20(A) (husbandry-45); 20 A at 240 V is arithmetic."""
    found = circuit_load(amps, volts)
    assert number(found) == pytest.approx(watts)
    share = dict(found.working[0].values)["share"]
    assert share == units.Amount(80, "%")


def test_a_breaker_covers_125_per_cent_of_what_runs_on() -> None:
    """9 A of fans all day + 3 A other: 14.25 A; 16 A of fans: 20 A (husbandry-45)."""
    assert number(breaker_needed(9, 3)) == pytest.approx(14.25)
    assert number(breaker_needed(16, 0)) == pytest.approx(20)


DO_NOT = 0

STRICTEST = {  # husbandry 2d, the strictest of three makers' tables (husbandry-40, -46)
    3.4: (16, 16, 14, 14),
    3.5: (16, 16, 14, 12),
    5: (16, 16, 14, 12),
    5.1: (16, 16, 12, 10),
    7: (16, 16, 12, 10),
    7.1: (16, 14, 10, DO_NOT),
    10: (16, 14, 10, DO_NOT),
    12: (16, 14, 10, DO_NOT),
    12.1: (14, 12, DO_NOT, DO_NOT),
    16: (14, 12, DO_NOT, DO_NOT),
    16.1: (12, 10, DO_NOT, DO_NOT),
    20: (12, 10, DO_NOT, DO_NOT),
}


@pytest.mark.parametrize(
    ("amps", "feet", "gauge"),
    [
        (amps, feet, gauge)
        for amps, gauges in STRICTEST.items()
        for feet, gauge in zip((25, 50, 100, 150), gauges, strict=True)
    ],
)
def test_a_cord_is_as_thick_as_the_strictest_table(
    amps: float, feet: float, gauge: int
) -> None:
    """Four lengths by current; where the table says do not, it is refused."""
    if gauge == DO_NOT:
        with pytest.raises(NotPublishedError, match="do not run"):
            cord(amps, feet * FOOT)
    else:
        assert number(cord(amps, feet * FOOT)) == gauge


@pytest.mark.parametrize(
    ("amps", "feet", "gauge"),
    [
        (6, 100, 12), (13, 50, 12), (10, 100, 10),  # sourcebook check values 24 and 7
        (14, 75, 10),  # 12-16 A: 10 AWG to 75 ft
        (3, 5, 16), (10, 51, 10), (3.45, 150, 12), (3, 101, 14),  # between rows: the stricter
    ],
)  # fmt: skip
def test_a_cord_between_two_rows_takes_the_stricter(
    amps: float, feet: float, gauge: int
) -> None:
    """More current or more length than a row: the next one (husbandry-40, husbandry-46)."""
    assert number(cord(amps, feet * FOOT)) == gauge


@pytest.mark.parametrize(
    ("amps", "feet", "expected"),
    [
        (
            11,
            150,
            "do not run 11 A through 150 ft .46 m. of cord; the longest for it is 100 ft",
        ),
        (14, 76, "the longest for it is 75 ft"),
        (20.1, 25, "do not run 20.1 A through an extension cord; the table ends at 20 A"),
        (3, 151, "the longest for it is 150 ft"),
    ],
)
def test_some_cords_are_refused(amps: float, feet: float, expected: str) -> None:
    """The message says where the limit lies."""
    with pytest.raises(NotPublishedError, match=expected.replace(" ", r"\s")):
        cord(amps, feet * FOOT)


@pytest.mark.parametrize(("amps", "length"), [(0.0, 1.0), (1.0, 0.0)])
def test_a_cord_carries_something_somewhere(amps: float, length: float) -> None:
    """Nothing is not a load, and no length is no cord."""
    with pytest.raises(ValueError, match="outside its range"):
        cord(amps, length)


@pytest.mark.parametrize(("gauge", "volts"), [(16, 8.0), (14, 5.0), (12, 3.1), (10, 2.1)])
def test_ten_amperes_lose_volts_over_100_ft(gauge: int, volts: float) -> None:
    """Voltage lost at 10 A over 100 ft (husbandry-46)."""
    assert number(voltage_drop(10, 100 * FOOT, gauge)) == pytest.approx(volts, abs=0.05)


def test_no_resistance_is_made_up() -> None:
    """18 AWG was not read."""
    with pytest.raises(NotPublishedError, match='gauge "18"'):
        voltage_drop(10, 100 * FOOT, 18)


@pytest.mark.parametrize(("running", "starting"), [(450, 1350), (600, 1800), (1100, 3300)])
def test_a_motor_starts_with_three_times_its_load(running: float, starting: float) -> None:
    """1/3, 1/2 and 1 hp capacitor motors (husbandry-46)."""
    assert number(starting_load(running)) == pytest.approx(starting)


def test_60_litres_last_a_day_at_half_load() -> None:
    """5-kW set, 2.5 L/h, about 60 L a day (husbandry-39)."""
    assert number(fuel_hours(60, 2.5)) == pytest.approx(24)


@pytest.mark.parametrize("who", ["pigs", "birds"])
def test_a_closed_barn_is_dangerous_after_twenty_minutes(who: str) -> None:
    """Birds 20-30 min in still air above 97 F (husbandry-22), pigs 30 (husbandry-88)."""
    found = barn_minutes(who)
    assert number(found) == 20
    printed = dict(found.working[1].values)["minutes"]
    assert printed == units.Amount({"pigs": 30, "birds": 20}[who], "min")
