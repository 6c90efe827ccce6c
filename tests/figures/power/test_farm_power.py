"""What is wrong with the power of a farm, in circuits, cords and generators."""

from __future__ import annotations

import pytest

from binder import units
from tests.figures.power.wired import (
    CORD,
    FAN_1,
    FANS,
    GENERATOR,
    HEN,
    SOW,
    SPARE,
    WELL,
    number,
    powered,
)
from tests.figures.written import keys_of


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
