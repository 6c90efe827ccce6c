"""Circuits, cords, generators, closed barns.

Limits are published ones, the source beside each; sums are worked beside the check.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder import sources, units
from binder.farm.model import Animal, EquipmentFile, Farm, FarmFile, Pen
from binder.figures.entry import read_arguments
from binder.figures.figure import Figure, NotPublishedError
from binder.figures.herd import groups
from binder.figures.power.cords import cord, voltage_drop
from binder.figures.power.farm_power import (
    ENTRIES,
    FarmPower,
    barn_minutes,
    breaker_needed,
    circuit_load,
    for_farm,
)
from binder.figures.power.generators import fuel_hours, starting_load
from binder.figures.published import rows
from binder.pages.text import words
from tests.figures.written import keys_of

if TYPE_CHECKING:
    from collections.abc import Iterable


FOOT = 0.3048
GAL = 3.785411784
DAY = dt.date(2026, 7, 14)


def number(figure: Figure | None) -> float:
    """Return the number of a figure that must be there."""
    assert figure is not None
    return figure.amount.value


# --- published limits -----------------------------------------------------------------------


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


# --- the farm -------------------------------------------------------------------------------

FANS = {"id": "fans", "breaker": "15 A", "label": "FANS", "other_load": "400 W", "gfci": "yes"}
WELL = {"id": "well-house", "breaker": "20 A", "voltage": "240 V"}
SPARE = {"id": "spare", "breaker": "15 A"}
PUMP = {"id": "well", "name": "Well", "kind": "well", "pump": "1100 W", "circuit": "well-house"}
POND = {"id": "pond", "name": "Pond", "kind": "pond"}
FAN_1 = {"id": "fan-1", "power": "560 W", "circuit": "fans"}
FAN_2 = {"id": "fan-2", "power": "560 W", "circuit": "fans"}
CORD = {"id": "cord-1", "length": "100 ft", "gauge": "16", "feeds": "fan-2"}
GENERATOR = {"id": "gen", "name": "Red generator", "running": "2800 W", "starting": "3500 W",
             "fuel": "4 gal", "fuel_rate": "0.5 gal/h", "connection": "By the meter",
             "transfer_switch": "yes",
             "runs": ["well", "fans"]}  # fmt: skip
SOW = {"name": "Marigold", "species": "pig", "sex": "sow", "pen": "stall"}
HEN = {"name": "Hen", "species": "chicken", "pen": "hens"}


def powered(
    *animals: dict[str, str],
    fans: Iterable[dict[str, str]] = (FAN_1, FAN_2),
    shelter: dict[str, str] | None = None,
    **equipment: object,
) -> FarmPower:
    """Return the electricity of an invented farm: a stall, a closed hen house, a pasture."""
    described = {"circuits": [FANS, WELL, SPARE], "water_sources": [PUMP, POND], **equipment}
    farm = Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}}),
        animals=tuple(Animal.model_validate(each) for each in animals),
        pens=(
            Pen.model_validate(
                {
                    "id": "stall",
                    "name": "Stall",
                    "kind": "stall",
                    "fans": list(fans),
                    "shelter": shelter,
                }
            ),
            Pen.model_validate({"id": "hens", "name": "Hens", "kind": "stall"}),
            Pen.model_validate({"id": "creek", "name": "Creek", "kind": "pasture"}),
        ),
        equipment=EquipmentFile.model_validate(described),
        contacts=(),
        stays=(),
    )
    return for_farm(farm, groups.for_farm(farm, DAY))


def test_a_circuit_is_held_against_its_limit() -> None:
    """1,520 W / (120 V x 0.8) = 15.8 A on 15 A, which carries 12 A for long (husbandry-45).

    The power factor of 0.8 is our choice: fans are motors, and a breaker counts amps.
    """
    found = powered()
    fans = found.circuits["fans"]
    assert number(fans.draw) == pytest.approx(15.83, abs=0.01)
    assert number(fans.limit) == pytest.approx(12)
    assert keys_of(fans.findings) == ["circuit-over"]
    assert found.findings == fans.findings
    well = found.circuits["well-house"]
    assert number(well.draw) == pytest.approx(5.73, abs=0.01)
    assert keys_of(well.findings) == []
    assert found.circuits["spare"].draw is None


def test_a_full_circuit_is_not_over() -> None:
    """12 A x 120 V x 0.8 = 1,152 W: the fans and 32 W more."""
    just = {**FANS, "other_load": "32 W"}
    assert keys_of(powered(circuits=[just, WELL]).circuits["fans"].findings) == []
    over = {**FANS, "other_load": "33 W"}
    assert keys_of(powered(circuits=[over, WELL]).circuits["fans"].findings) == ["circuit-over"]


def test_unknown_loads_are_named() -> None:
    """A fan without watts; the rest is still added up."""
    fans = powered(fans=[FAN_1, {"id": "fan-3", "circuit": "fans"}]).circuits["fans"]
    assert fans.unknown == ("fan-3",)
    assert number(fans.draw) == pytest.approx(10)
    assert keys_of(fans.findings) == ["load-unknown"]


@pytest.mark.parametrize(
    ("gfci", "expected"), [("yes", []), ("no", ["no-gfci"]), (None, ["gfci-unknown"])]
)
def test_fans_hang_on_a_gfci(gfci: str | None, expected: list[str]) -> None:
    """Required outdoors and near water (husbandry-42)."""
    circuit = {key: value for key, value in FANS.items() if key != "gfci"}
    circuit |= {"other_load": "30 W", **({"gfci": gfci} if gfci else {})}
    found = powered(circuits=[circuit, WELL, SPARE]).circuits["fans"]
    assert keys_of(found.findings) == expected


def test_a_cord_is_held_against_its_load() -> None:
    """560 W / (120 V x 0.8) = 5.83 A: over 100 ft 12 AWG (husbandry-40), 16 is too thin.

    Lost in 16 AWG: 2 x 100 x 5.83 x 4.0 / 1,000 = 4.7 V.
    """
    used = powered(cords=[CORD]).cords["cord-1"]
    assert number(used.current) == pytest.approx(5.833, abs=0.001)
    assert number(used.needed) == 12
    assert number(used.drop) == pytest.approx(4.67, abs=0.01)
    assert keys_of(used.findings) == ["cord-thin"]


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"gauge": "14"}, ["cord-thin"]),
        ({"gauge": "12"}, []),
        ({"gauge": "18", "length": "20 ft"}, ["cord-thin"]),
        ({"length": "160 ft"}, ["cord-do-not"]),
        ({"feeds": "pond"}, ["cord-load-unknown"]),
        ({"feeds": "spare"}, ["cord-load-unknown"]),
        ({"feeds": "well", "gauge": "12"}, []),  # 1,100 W at 240 V: 5.7 A
        ({"feeds": "fans", "gauge": "10"}, ["cord-do-not"]),  # 15.8 A over 100 ft
    ],
)
def test_cords_in_use(changes: dict[str, str], expected: list[str]) -> None:
    """Thick enough, too thin, too long, or nobody knows."""
    described = {**CORD, "gauge": "14", **changes}
    used = powered(cords=[described]).cords["cord-1"]
    assert keys_of(used.findings) == expected
    assert (used.drop is None) == (
        expected == ["cord-load-unknown"] or "18" in changes.values()
    )


def test_a_cord_that_feeds_nothing_known_is_told() -> None:
    """No `feeds`, no current."""
    loose = {"id": "cord-1", "length": "100 ft", "gauge": "16"}
    used = powered(cords=[loose]).cords["cord-1"]
    assert (used.current, used.needed, used.drop) == (None, None, None)
    assert keys_of(used.findings) == ["cord-load-unknown"]


def test_a_generator_is_held_against_what_it_must_run() -> None:
    """1,100 + 560 + 560 + 400 = 2,620 W running.

    Starting the largest first, each at three times (husbandry-46): 3,300; 1,100 + 1,680 =
    2,780; 1,660 + 1,680 = 3,340; 2,220 + 1,200 = 3,420 W, the highest. 4 gal at 0.5 gal/h: 8 h.
    """
    found = powered(generators=[GENERATOR]).generators["gen"]
    assert number(found.running) == pytest.approx(2620)
    assert number(found.starting) == pytest.approx(3420)
    assert number(found.hours) == pytest.approx(8)
    assert keys_of(found.findings) == []
    draws = [dict(line.values).get("draw") for line in found.starting.working[:-1]]  # type: ignore[union-attr]
    watts = [draw.value for draw in draws if isinstance(draw, units.Amount)]
    assert watts == pytest.approx([3300, 2780, 3340, 3420])


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"running": "2620 W", "starting": "3420 W"}, []),
        ({"running": "2619 W"}, ["generator-running"]),
        ({"starting": "3419 W"}, ["generator-starting"]),
        ({"starting": None}, ["generator-cannot"]),  # 2,800 W is all it is sure of
        ({"starting": "3100 W"}, ["generator-cannot"]),  # the pump alone starts with 3,300 W
        ({"transfer_switch": "no"}, ["generator-wired-in"]),  # a pump of 240 V
        ({"transfer_switch": None}, ["generator-wired-in"]),
        ({"starting": None, "running": "3420 W"}, []),
        ({"runs": []}, ["generator-runs-nothing"]),
        ({"runs": ["pond"]}, ["generator-load-unknown"]),
        ({"runs": ["pond", "fan-1"]}, ["generator-load-unknown"]),
        ({"runs": ["well", "well-house", "fan-1"]}, []),  # the well counts once
        ({"fuel": None}, ["fuel-not-timed"]),
        ({"fuel_rate": None}, ["fuel-not-timed"]),
        ({"connection": None}, ["connection-unknown"]),
    ],
)
def test_generators_on_the_farm(changes: dict[str, object], expected: list[str]) -> None:
    """Too small to run, to start, or not recorded."""
    described = {
        key: value for key, value in {**GENERATOR, **changes}.items() if value is not None
    }
    found = powered(generators=[described])
    generator = found.generators["gen"]
    assert keys_of(generator.findings) == expected
    assert found.findings == (*found.circuits["fans"].findings, *generator.findings)
    assert (generator.hours is None) == ("fuel-not-timed" in expected)


def test_a_load_counts_once() -> None:
    """The well by its own id and by its circuit: 1,100 W, with one fan 1,660 W."""
    described = {**GENERATOR, "runs": ["well", "well-house", "fan-1"]}
    found = powered(generators=[described]).generators["gen"]
    assert number(found.running) == pytest.approx(1660)


def test_closed_stalls_with_animals_have_their_minutes() -> None:
    """A sow's stall and a hen house; nothing for an empty stall or a pasture."""
    found = powered(SOW, HEN)
    assert {pen: number(minutes) for pen, minutes in found.barn_minutes.items()} == {
        "stall": 20,
        "hens": 20,
    }
    assert found.barn_minutes["hens"].working[1].key == "birds"
    assert list(powered(SOW).barn_minutes) == ["stall"]


def test_a_house_with_an_open_end_is_not_closed() -> None:
    """The minutes are those of still air in a closed house (husbandry-22)."""
    shut = {"area": "150 sqft", "open_ends": "0"}
    assert list(powered(SOW, shelter=shut).barn_minutes) == ["stall"]
    assert not powered(SOW, shelter={**shut, "open_ends": "1"}).barn_minutes


# --- words and sources ----------------------------------------------------------------------


def said(figure: Figure) -> None:
    """Check that a figure's words and sources are there."""
    lexicon = words.load()
    assert lexicon.title(figure)
    assert lexicon.value(figure)
    assert all(lexicon.working(figure))
    assert len(lexicon.cautions(figure)) == len(figure.cautions)
    assert set(figure.sources) <= set(sources.all_sources())


def test_all_of_it_can_be_said() -> None:
    """Every figure of a farm."""
    found = powered(SOW, HEN, cords=[CORD], generators=[GENERATOR])
    used, generator = found.cords["cord-1"], found.generators["gen"]
    figures = [used.current, used.needed, used.drop]
    figures += [generator.running, generator.starting, generator.hours]
    for circuit in found.circuits.values():
        figures += [circuit.limit, *([circuit.draw] if circuit.draw else [])]
    for figure in (*figures, *found.barn_minutes.values()):
        assert figure is not None
        said(figure)


ASKED = {
    "circuit-load": {"breaker": "15A", "volts": "120V"},
    "breaker-needed": {"continuous": "9A", "other": "3A"},
    "cord": {"amps": "10A", "length": "50ft"},
    "voltage-drop": {"amps": "10A", "length": "100ft", "gauge": "16"},
    "starting-load": {"running": "450W"},
    "fuel-hours": {"fuel": "16gal", "rate": "0.65gal/h"},
    "barn-minutes": {"who": "birds"},
}


def test_every_figure_is_asked_for_by_name() -> None:
    """Every entry computes and has its words."""
    assert {entry.name for entry in ENTRIES} == set(ASKED)
    for entry in ENTRIES:
        found = entry.compute(**read_arguments(entry, ASKED[entry.name]))
        assert found.name == entry.name
        assert words.load().text(f"{entry.name}.help")
        said(found)


@pytest.mark.parametrize("table", ["cords", "wire", "power_rules", "barn_minutes"])
def test_every_row_names_listed_sources(table: str) -> None:
    """No row stands on a source that is not listed."""
    for each in rows(table):
        assert each.sources
        assert set(each.sources) <= set(sources.all_sources())
