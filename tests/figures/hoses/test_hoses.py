"""Hoses: held water, flushing, pressure, warmth, and the farm's hoses put together.

The published rows run in `tests/published/hose_*.csv`. Warming is a model of ours, checked
against hoses measured in the sun; flush intervals are our choice: held still, not proved.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder import units
from binder.farm.model import Animal, Farm
from binder.figures.entry import read_arguments
from binder.figures.figure import Figure, NotPublishedError
from binder.figures.herd.groups import Group, Herd
from binder.figures.hoses import hose_flow, hose_plan
from binder.figures.hoses import hose_heat as warmth
from binder.figures.hoses.hose_flow import hose_flush, hose_pressure_loss, hose_volume
from binder.figures.hoses.hose_heat import hose_cool, hose_heat, hose_outlet, outside_mm
from binder.figures.hoses.hose_plan import buried_c, flush_every, hose_buried, hose_curve
from binder.figures.water import drinking_water
from binder.figures.weather.hot_days import DayWeather
from binder.pages.text import words
from binder.problems import ProblemsError
from tests.figures.written import celsius, printed, written_farm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.figures.hoses.hose_plan import HoseSheet

IN, FT, GAL = 0.0254, 0.3048, 3.785411784
DAY = dt.date(2026, 7, 14)
HOT = DayWeather(35.0, 23.0, 22.0, None, assumed=False, origin="hot_day")


def keys(figure: Figure) -> list[str]:
    """Return the keys of a figure's working."""
    return [line.key for line in figure.working]


# Volume, flush, pressure


@pytest.mark.parametrize(("inches", "seconds"), [(0.5, 18), (0.625, 29), (0.75, 41), (1.0, 74)])
def test_flush_times(inches: float, seconds: float) -> None:
    """1.5 volumes of 100 ft at 5 gal/min take 18, 29, 41 and 74 s (worked from water-75)."""
    figure = hose_flush(inches * IN, 100 * FT, 5 * GAL)
    assert figure.amount.unit == "s"
    assert figure.amount.value == pytest.approx(seconds, abs=0.6)
    assert "thermometer" in printed([figure])


def test_a_flush_runs_out_one_and_a_half_times_what_it_holds() -> None:
    """The gallons stand in the working: 1.5 times the held water."""
    held = hose_volume(0.75 * IN, 250 * FT).amount.value
    out = dict(hose_flush(0.75 * IN, 250 * FT, 19.0).working[1].values)["out"]
    assert isinstance(out, units.Amount)
    assert out.value == pytest.approx(1.5 * held)


@given(length_m=st.floats(0, 500))
def test_volume_and_pressure_grow_with_length(length_m: float) -> None:
    """Twice the hose: twice the water, twice the pressure lost, where 0.05 kPa is none."""
    held, twice = (hose_volume(0.02, m).amount.value for m in (length_m, 2 * length_m))
    assert twice == pytest.approx(2 * held)
    lost, more = (
        hose_pressure_loss(0.02, m, 10.0).amount.value for m in (length_m, 2 * length_m)
    )
    assert more == pytest.approx(2 * lost, abs=2 * 0.05)


def test_flow_of_nothing_is_refused() -> None:
    """No flow never replaces the water."""
    with pytest.raises(ValueError, match="flow"):
        hose_flush(0.02, 30.0, 0.0)


# Warmth


def test_a_dark_hose_in_full_sun() -> None:
    """Air 32 C, dark, full sun: 51 C; a thermometer read over 49 C in one (water-71)."""
    figure = hose_heat(0.75 * IN, 32.0, "full", "dark")
    assert figure.amount.value == pytest.approx(51.1, abs=0.05)
    assert hose_heat(0.75 * IN, 32.0, "1000 W/m2", "black").amount == figure.amount


@pytest.mark.parametrize(
    ("colour", "fahrenheit"),
    [
        ("dark", 124),
        ("green", 122),
        ("red", 122),
        ("blue", 122),
        ("white", 115),
        ("light", 105),
    ],
)
def test_colours(colour: str, fahrenheit: float) -> None:
    """At 90 F air: 124, 122, 115, 105 F by the share of sun taken up (water-125, water-126)."""
    found = hose_heat(0.625 * IN, celsius(90), "full", colour).amount
    assert units.convert(found, "us") == pytest.approx(fahrenheit, abs=0.6)


def test_less_sun_is_cooler() -> None:
    """Full sun, part sun, shade: each cooler than the one before, none cooler than the air."""
    found = [
        hose_heat(0.02, 30.0, sun, "dark").amount.value for sun in ("full", "part", "shade")
    ]
    assert sorted(found, reverse=True) == found
    assert min(found) > 30.0


def test_minutes_from_a_flush() -> None:
    """5/8 in from 68 F gains some 2.5 F a minute at first (derived): 86 F in 5 to 9 minutes."""
    figure = hose_heat(0.625 * IN, 32.0, "full", "dark", celsius(68))
    assert keys(figure) == ["ends", "tap", "less-after", "none-after"]
    minutes = {
        line.key: dict(line.values)["time"] for line in figure.working if "after" in line.key
    }
    less, none = minutes["less-after"], minutes["none-after"]
    assert isinstance(less, units.Amount)
    assert isinstance(none, units.Amount)
    # tau ln((51.10 - 20) / (51.10 - 30)) with tau 13.63 min; 37.78 C for the second
    assert less.value == pytest.approx(5.29, abs=0.02)
    assert none.value == pytest.approx(11.56, abs=0.03)
    assert printed([figure])


def test_a_cool_hose_says_so() -> None:
    """On a mild day in the shade water stays under both limits."""
    figure = hose_heat(0.02, 20.0, "shade", "light")
    assert keys(figure) == ["ends", "tap-assumed", "less-never", "none-never"]
    assert "our choice" in printed([figure])
    assert hose_cool(0.02, figure.amount.value) is None


def test_cool_minutes_carry_an_assumed_tap() -> None:
    """A tap temperature not recorded is our choice; a recorded one, even 0 C, is not."""
    assumed, recorded = hose_cool(0.02, 50.0), hose_cool(0.02, 50.0, 0.0)
    assert assumed is not None
    assert recorded is not None
    assert "our-choice" in assumed.sources
    assert "our-choice" not in recorded.sources
    assert recorded.amount.value > assumed.amount.value
    assert printed([assumed, recorded], "metric")


@pytest.mark.parametrize(
    ("inside_mm", "outside"),
    [
        (12.7, 18.8), (14.2875, 20.15), (25.4, 32.6),  # worked back from warming times, derived
        (10.0, 16.1), (32.0, 39.2),  # beyond: the wall of the nearest
    ],
)  # fmt: skip
def test_outside_of_a_hose(inside_mm: float, outside: float) -> None:
    """Between the tabled hoses a straight line, beyond them the wall of the nearest."""
    assert outside_mm(inside_mm / 1000) == pytest.approx(outside)


@pytest.mark.parametrize(
    ("litres_min", "fahrenheit"), [(0.5, 104), (1, 90), (2, 80), (5, 73), (10, 71)]
)
def test_flowing_water(litres_min: float, fahrenheit: float) -> None:
    """100 ft of dark 5/8 in, tap 68 F, air 95 F: 104, 90, 80, 73, 71 F by flow (derived)."""
    ends_c = warmth.still_c(celsius(95), warmth.sun_on("full", "dark"))
    figure = hose_outlet(0.625 * IN, 100 * FT, litres_min, ends_c, celsius(68))
    assert units.convert(figure.amount, "us") == pytest.approx(fahrenheit, abs=0.6)
    assert printed([figure])


@pytest.mark.parametrize(("depth_in", "share"), [(0, 1.0), (4, 0.45), (8, 0.20), (12, 0.09)])
def test_buried(depth_in: float, share: float) -> None:
    """The day's swing shrinks to 45, 20 and 9 % at 4, 8 and 12 in (water-79, derived)."""
    expected = pytest.approx(30.0 + 5.0 * share, abs=0.03)
    assert buried_c(35.0, 25.0, depth_in * IN) == expected
    figure = hose_buried(35.0, 25.0, depth_in * IN)
    assert figure.amount.value == expected
    depth = dict(figure.working[0].values)["depth"]
    assert isinstance(depth, units.Amount)
    assert units.convert(depth, "us") == pytest.approx(depth_in)


def test_the_day_of_a_hose() -> None:
    """Still water follows sun and air, an hour or less behind, and is the air's at night."""
    air = [25.0] * 6 + [35.0] * 12 + [25.0] * 6
    sun = [0.0] * 6 + [1000.0] * 12 + [0.0] * 6
    curve = hose_curve(0.625 * IN, 0.9, air, sun)
    assert len(curve) == 24
    assert curve[0] == 25.0
    assert 25.0 < curve[6] < curve[7] < 54.2
    assert max(curve) == pytest.approx(35 + 0.9 * 1000 / (3.14159265 * 15), abs=0.01)
    with pytest.raises(ValueError, match="zip"):
        hose_curve(0.02, 0.9, air, sun[1:])


@pytest.mark.parametrize(
    ("fahrenheit", "hours"),
    [(85.9, 24.0), (86.0, 4.0), (99.9, 4.0), (100.0, 2.0), (130.0, 2.0)],
)
def test_flush_interval(fahrenheit: float, hours: float) -> None:
    """Our choice: every 4 h from 86 F, every 2 h from 100 F (limits water-41), else daily."""
    figure = flush_every(celsius(fahrenheit))
    assert figure.value == units.Amount(hours, "h")
    assert printed([figure])


def test_what_is_not_known_is_refused() -> None:
    """A colour or a sun that is not known is refused with what would do."""
    with pytest.raises(NotPublishedError, match="expected one of"):
        hose_heat(0.02, 30.0, "full", "tartan")
    with pytest.raises(units.UnitError, match="W/m2"):
        hose_heat(0.02, 30.0, "bright", "dark")
    with pytest.raises(ValueError, match="inside"):
        hose_heat(0.0, 30.0, "full", "dark")


# Farm


def farm(hose_list: Sequence[dict[str, Any]], **more: Any) -> Farm:
    """Return a farm with hoses, two pens and what else is given."""
    pens = (
        {"id": "woods", "drinkers": [{"id": "d1", "kind": "nipple", "fed_by": "h2"}]},
        {"id": "barn", "drinkers": [{"id": "d2", "kind": "nipple", "fed_by": "t1"}]},
    )
    return written_farm(pens=pens, equipment={"hoses": hose_list, **more})


def plan(place: Farm) -> dict[str, HoseSheet]:
    """Return the hose sheets of a farm with eight growers in the woods."""
    animal = Animal.model_validate({"group": "Growers", "species": "pig"})
    herd = Herd(DAY, (Group(animal, "grower", 8, None, "woods"),))
    return dict(hose_plan.for_farm(place, drinking_water.for_farm(place, herd, HOT), HOT))


HOSE = {"inside": "3/4 in", "length": "250 ft"}


def test_the_farms_hoses() -> None:
    """A hose on the ground gets warmth, flush, interval and what would help."""
    place = farm(
        [
            {"id": "h1", "fed_by": "t1", "flow": "5 gal/min", **HOSE},
            {"id": "h2", "fed_by": "h1", "sun": "shade", "colour": "light", **HOSE},
            {"id": "h3", "runs": "buried", "buried_depth": "12 in", **HOSE},
            {"id": "h4", "runs": "buried", **HOSE},
        ],
        tanks=[{"id": "t1", "name": "Tank", "holds": "100 gal", "fed_by": "well"}],
        water_sources=[{"id": "well", "name": "Well", "kind": "well", "temperature": "66 F"}],
    )  # fmt: skip
    sheets = plan(place)
    first, second, third, fourth = (sheets[f"h{n}"] for n in (1, 2, 3, 4))
    assert first.pens == ("woods",)  # through h2, which it feeds
    assert not first.tap_assumed
    assert third.tap_assumed
    assert first.heat is not None
    assert first.heat.amount.value == pytest.approx(54.1, abs=0.05)
    assert first.heat.subject == "h1"
    assert first.flush is not None
    assert first.loss is not None
    assert second.flush is None  # its flow is not recorded
    assert second.loss is None
    assert first.interval is not None
    assert first.interval.amount.value == 2.0
    assert first.flush_water is not None
    # five flushes of 1.5 x 5.74 gal (our choice: every 2 h of the ten sunny hours)
    assert first.flush_water.amount.value == pytest.approx(5 * 1.5 * 5.737 * GAL, rel=2e-3)
    assert first.outlet is not None
    # 16 gal a day is a trickle: it leaves as hot as still water
    assert first.outlet.amount.value == pytest.approx(first.heat.amount.value, abs=0.1)
    assert first.cool is not None
    helps = [first.in_shade, first.in_light, first.if_buried]
    found = [each.amount.value for each in helps if each is not None]
    assert len(found) == 3
    assert max(found) < first.heat.amount.value
    assert second.in_shade is None
    assert second.in_light is None
    assert third.heat is third.cool is third.outlet is third.interval is third.in_shade is None
    assert third.buried is not None
    assert third.buried.amount.value == pytest.approx(29.0 + 6.0 * 0.0907, abs=0.01)
    assert fourth.buried is None
    every = [
        each
        for sheet in sheets.values()
        for each in vars_of(sheet)
    ]  # fmt: skip
    assert printed(every)
    assert printed(every, "metric")


def vars_of(sheet: HoseSheet) -> list[Figure]:
    """Return every figure of a sheet."""
    values = (getattr(sheet, name) for name in sheet.__slots__)
    return [value for value in values if isinstance(value, Figure)]


def test_a_hose_nobody_drinks_through() -> None:
    """Without drinkers, source and flow the rest still stands, and the tap is assumed."""
    sheet = plan(farm([{"id": "h9", **HOSE}]))["h9"]
    assert sheet.pens == ()
    assert sheet.outlet is None
    assert sheet.tap_assumed
    assert hose_plan.source_c(farm([{"id": "h9", "fed_by": "t9", **HOSE}]), "t9") is None


def test_hoses_in_a_circle_do_not_hang() -> None:
    """Hoses that feed each other lead to no source (the check of the farm refuses them)."""
    circle = [{"id": "h1", "fed_by": "h2", **HOSE}, {"id": "h2", "fed_by": "h1", **HOSE}]
    assert plan(farm(circle))["h1"].tap_assumed


# Command line


def test_figures_are_asked_for_by_name() -> None:
    """The arguments of the command line reach the figures, and each has a line of help."""
    found = {entry.name: entry for module in (hose_flow, warmth) for entry in module.ENTRIES}
    typed = {"inside": "5/8 in", "air": "32 C", "sun": "1000 W/m2", "colour": "dark"}
    entry = found["hose-heat"]
    assert entry.compute(**read_arguments(entry, typed)).amount.value == pytest.approx(
        51.1, abs=0.05
    )
    with pytest.raises(ProblemsError, match="did you mean green"):
        read_arguments(entry, {**typed, "colour": "gren"})
    assert all(words.load().has(f"{name}.help") for name in found)
