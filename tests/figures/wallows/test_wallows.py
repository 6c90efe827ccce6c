"""Wallows: volume, room, care, and the farm's wallows put together.

Published rows run in `tests/published/wallow_*.csv` and `evaporation.csv`. Distances and the
day to move are our choice or common practice: held still, not proved.
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
from binder.figures.figure import Figure
from binder.figures.herd.groups import Group, Herd
from binder.figures.wallows import wallow_plan, wallow_site, wallow_size
from binder.figures.wallows.wallow_plan import wallow_move, wallow_refresh, wallow_use
from binder.figures.wallows.wallow_site import wallow_depth, wallow_ramp, wallow_setback
from binder.figures.wallows.wallow_size import (
    evaporation,
    surface_m2,
    wallow_area,
    wallow_volume,
)
from binder.figures.weather.hot_days import DayWeather
from binder.pages.text import words
from tests.figures.written import printed, written_farm

if TYPE_CHECKING:
    from binder.figures.wallows.wallow_plan import WallowSheet

FT, IN, GAL, FL_OZ_ML = 0.3048, 0.0254, 3.785411784, 29.5735295625
PPM = 1e-4  # in %, weight in volume
MONTH_H = 365.25 * 24 / 12
DAY = dt.date(2026, 7, 14)
HOT = DayWeather(32.0, 23.0, 22.0, None, assumed=False, origin="hot_day")


# Volume and surface


@pytest.mark.parametrize(
    ("shape", "low", "high"),
    [
        # 10 x 8 ft, 1 ft in the middle: cone 157 gal, straight sides 470 (worked, wallow-60)
        ("oval", 156.7, 470.0),
        # 80 cu ft of box at 7.4805 gal, and a third of it
        ("rectangle", 199.5, 598.4),
        # 10 ft across: 78.54 cu ft, and a third of it; the width is not asked for
        ("round", 195.8, 587.5),
    ],
)
def test_low_for_dosing_high_for_filling(shape: str, low: float, high: float) -> None:
    """A dose takes the smallest published form, filling the largest; both are shown."""
    sizes = (shape, 10 * FT, 1 * FT, 8 * FT)
    dosing, filling = wallow_volume(*sizes), wallow_volume(*sizes, use="filling")
    assert dosing.amount.value == pytest.approx(low * GAL, rel=1e-3)
    assert filling.amount.value == pytest.approx(high * GAL, rel=1e-3)
    depth = dict(dosing.working[0].values)["depth"]
    assert isinstance(depth, units.Amount)
    assert units.convert(depth, "us") == pytest.approx(12)  # a foot, in inches
    text = printed([dosing, filling])
    assert text.count("never too strong") == 1
    for each in (dosing.amount, filling.amount):
        assert units.show(each, "us") in printed([dosing])


@given(
    shape=st.sampled_from(["oval", "round", "rectangle"]),
    sizes=st.tuples(st.floats(0.5, 20), st.floats(0.001, 2), st.floats(0.5, 20)),
)
def test_dosing_is_a_third_of_filling_or_near(
    shape: str, sizes: tuple[float, float, float]
) -> None:
    """The low volume is never above the high one, and never less than a quarter of it."""
    low = wallow_volume(shape, *sizes).amount.value
    high = wallow_volume(shape, *sizes, use="filling").amount.value
    assert high / 4 <= low <= high


def test_a_width_is_asked_for() -> None:
    """Only a round wallow does without a width."""
    assert wallow_volume("round", 3.0, 0.3).amount.value > 0
    with pytest.raises(ValueError, match="width"):
        wallow_volume("oval", 3.0, 0.3)


@pytest.mark.parametrize(
    ("shape", "area"), [("oval", 0.785 * 6), ("round", 7.0686), ("rectangle", 6.0)]
)
def test_surface(shape: str, area: float) -> None:
    """3 by 2 m of water: 0.785, a circle, the whole (wallow-60, geometry)."""
    assert surface_m2(shape, 3.0, 2.0) == pytest.approx(area, rel=1e-4)


def test_evaporation_prints() -> None:
    """A millimetre off a square metre is a litre."""
    figure = evaporation(10.0, 6.0)
    assert figure.amount.value == 60.0
    assert printed([figure])


def test_room_for_twice_the_pigs() -> None:
    """Two pigs of 200 kg: 2 x 2 x 1.6 m2 (wallow-48; extra-11 for the lying area)."""
    figure = wallow_area(2, 200.0)
    assert figure.amount.value == pytest.approx(6.44, abs=0.01)
    assert "extra-11" in figure.sources
    assert "the largest figure published" in printed([figure])


# Site


@pytest.mark.parametrize(
    ("feet", "source", "verdict"),
    [
        (100.0, "well", "pass"), (99.9, "well", "fail"),
        (200.0, "shallow well", "pass"), (199.9, "shallow well", "fail"),
        (100.0, "water downhill", "pass"), (99.9, "water downhill", "fail"),
    ],
)  # fmt: skip
def test_setback(feet: float, source: str, verdict: str) -> None:
    """100 ft from wells and downhill water, 200 from a shallow well (wallow-67, -69)."""
    figure = wallow_setback(feet * FT, source)
    assert figure.value == verdict
    assert "County rules win" in printed([figure])


@pytest.mark.parametrize(
    ("inches", "verdict", "key"),
    [
        (12.0, "pass", "pass"),
        (12.1, "fail", "fail"),
        (18.0, "fail", "fail"),
        (18.1, "fail", "never"),
    ],
)  # fmt: skip
def test_depth(inches: float, verdict: str, key: str) -> None:
    """12 in is deep enough; never over 18 (wallow-54)."""
    figure = wallow_depth(inches * IN)
    assert (figure.value, figure.working[0].key) == (verdict, key)
    assert printed([figure])


def test_ramp() -> None:
    """A foot deep at 1 in 4 takes 4 ft; steeper is refused (wallow-71)."""
    figure = wallow_ramp(FT, 4.0)
    assert figure.amount.value == pytest.approx(4 * FT)
    assert printed([figure])
    with pytest.raises(ValueError, match="1 in 3"):
        wallow_ramp(FT, 3.0)


# Care


def test_a_sow_takes_67_litres() -> None:
    """60,000 L a day for 900 sows is 67 L each (wallow-50); a smaller pig less."""
    assert wallow_use(900, 200.0).amount.value == pytest.approx(60_300)
    assert wallow_use(1, 50.0).amount.value == pytest.approx(67 * (50 / 200) ** 0.667)
    assert printed([wallow_use(2, 100.0)])


def test_refresh_within_five_days() -> None:
    """Water is changed every 5 to 7 days, before a mosquito is grown (wallow-57)."""
    figure = wallow_refresh(dt.date(2026, 6, 28))
    assert figure.value == "2026-07-03"
    assert "every 5 to 7 days" in printed([figure])


@pytest.mark.parametrize(
    ("dug", "verdict"), [(dt.date(2025, 12, 31), "move"), (dt.date(2026, 1, 1), "keep")]
)
def test_a_new_wallow_each_year(dug: dt.date, verdict: str) -> None:
    """A wallow of an earlier year is dug anew a few feet over (common practice)."""
    for place in ("by the oak", None):
        figure = wallow_move(dug, DAY, place)
        assert figure.value == verdict
        assert (place or "not recorded") in printed([figure])


# Farm


def farm(wallow: dict[str, Any], equipment: dict[str, Any] | None = None, **about: Any) -> Farm:
    """Return a farm with one wallow in the woods."""
    pens = (
        {"id": "woods", "wallow": {"id": "w1", **wallow},
         "drinkers": [{"id": "d1", "kind": "nipple", "count": "3"}]},
        {"id": "barn"},
    )  # fmt: skip
    return written_farm(pens=pens, equipment=equipment, **about)


def herd(*weights_kg: float | None) -> Herd:
    """Return growers of these weights in the woods; a piglet and a dog do not count."""
    pig = Animal.model_validate({"group": "Growers", "species": "pig"})
    dog = Animal.model_validate({"name": "Rex", "species": "dog"})
    return Herd(DAY, (
        *(Group(pig, "grower", 4, weight, "woods") for weight in weights_kg),
        Group(pig, "suckling piglet", 9, 2.0, "woods"),
        Group(dog, "dog", 1, 45.0, "woods"),
    ))  # fmt: skip


OVAL = {"shape": "oval", "length": "12 ft", "width": "8 ft", "depth": "10 in"}


def sheet(place: Farm, animals: Herd) -> WallowSheet:
    """Return the sheet of the farm's one wallow."""
    return wallow_plan.for_farm(place, animals)["w1"]


def every(found: WallowSheet) -> list[Figure]:
    """Return every figure of a sheet."""
    values = (getattr(found, name) for name in found.__slots__)
    return [value for value in values if isinstance(value, Figure)]


def test_a_wallow_fully_recorded() -> None:
    """Room, water, refresh day, depth, distances and the next place."""
    place = farm(
        OVAL | {"dug": "2025-05-01", "last_refreshed": "2026-07-01", "to_well": "120 ft",
                "to_stream": "80 ft", "next_place": "by the oak"},
        evaporation="0.25 in/day",
    )  # fmt: skip
    found = sheet(place, herd(50.0, 100.0))
    assert found.pen == "woods"
    assert found.low is not None
    assert found.high is not None
    assert found.low.amount.value < found.high.amount.value
    assert found.surface is not None
    assert found.surface.amount.value == pytest.approx(0.785 * 12 * 8 * FT**2)
    assert found.need is not None
    # 4 pigs of 50 and 4 of 100 kg, twice the room: 8 x 0.639 + 8 x 1.014
    assert found.need.amount.value == pytest.approx(13.22, abs=0.01)
    assert found.enough is False
    assert found.top_up is not None
    lost = 0.785 * 96 * FT**2 * 6.35
    carried = sum(4 * 67 * (kg / 200) ** 0.667 for kg in (50, 100))
    assert found.top_up.amount.value == pytest.approx(lost + carried)
    assert not found.rate_assumed
    assert found.top_up.working[0].key == "air"
    assert found.refresh is not None
    assert found.refresh.value == "2026-07-06"
    assert found.overdue
    assert found.depth.value == "pass"
    assert found.ramp.amount.value == pytest.approx(6 * 10 * IN)
    assert found.well is not None
    assert found.well.value == "pass"
    assert found.water is not None
    assert found.water.value == "fail"
    assert found.move is not None
    assert found.move.value == "move"
    assert printed(every(found))
    assert printed(every(found), "metric")


def test_a_wallow_hardly_recorded() -> None:
    """What is missing is None: no volume without a width, no need without weights."""
    bare = {"shape": "oval", "length": "12 ft", "depth": "10 in"}
    found = sheet(farm(bare), herd(50.0, None))
    missing = (found.low, found.high, found.surface, found.need, found.enough, found.top_up,
               found.refresh, found.well, found.water, found.move)  # fmt: skip
    assert set(missing) == {None}
    assert not found.overdue
    assert found.rate_assumed


def test_rate_and_dates_fall_back() -> None:
    """Half an inch a day where no rate is recorded (water-114); dug counts as refreshed."""
    found = sheet(farm(OVAL | {"dug": "2026-07-10"}), herd())
    assert found.need is None
    assert found.top_up is not None
    assert found.top_up.amount.value == pytest.approx(0.785 * 96 * FT**2 * 12.7)
    assert found.top_up.working[0].key == "air-assumed"
    assert found.refresh is not None
    assert found.refresh.value == "2026-07-15"
    assert not found.overdue
    assert "not recorded" in printed(every(found))


def test_a_wallow_big_enough() -> None:
    """A large wallow has room."""
    big = {"shape": "round", "length": "30 ft", "depth": "10 in"}
    assert sheet(farm(big), herd(50.0)).enough is True


def test_a_wallow_that_reads_as_big_as_it_must_be_is_no_lack() -> None:
    """`Too small: 55, needed 55` helps nobody; 4 pigs of 50 kg, 8 x 0.639 m2 = 55.0 sq ft."""
    just = farm({"shape": "round", "length": "8.36 ft", "depth": "10 in"}, units="us")
    almost = sheet(just, herd(50.0))
    assert almost.surface is not None
    assert almost.need is not None
    assert almost.surface.amount.value < almost.need.amount.value
    assert almost.enough is True
    less = farm({"shape": "round", "length": "8.2 ft", "depth": "10 in"}, units="us")
    assert sheet(less, herd(50.0)).enough is False


# Command line


def test_figures_are_asked_for_by_name() -> None:
    """The arguments of the command line reach the figures, and each has a line of help."""
    modules = (wallow_size, wallow_site, wallow_plan)
    found = {entry.name: entry for module in modules for entry in module.ENTRIES}
    typed: dict[str, dict[str, str]] = {
        "wallow-volume": {"shape": "oval", "length": "10 ft", "width": "8 ft", "depth": "1 ft"},
        "wallow-ramp": {"depth": "12 in"},
        "wallow-refresh": {"last": "2026-07-01"},
    }
    got = {
        name: found[name].compute(**read_arguments(found[name], given))
        for name, given in typed.items()
    }
    assert units.convert(got["wallow-volume"].amount, "us") == pytest.approx(156.7, abs=0.1)
    assert units.convert(got["wallow-ramp"].amount, "us") == pytest.approx(6.0)
    assert got["wallow-refresh"].value == "2026-07-06"
    assert all(words.load().has(f"{name}.help") for name in found)
