"""How soon to be back at a pen.

No source gives looks a day by band: it is our choice. The tests hold it to what the law and
government advice do say, and to itself.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from binder import sources
from binder.figures import catalogue
from binder.figures.bands.band_rule import Band
from binder.figures.figure import OWNER_RECORD
from binder.figures.herd.groups import Group
from binder.figures.published import rows
from binder.figures.rounds import farm_rounds
from binder.figures.rounds.running_water import (
    assumed_flow_l_min,
    flow_l_min,
    is_waited_for,
    run_min,
)
from binder.figures.rules import quantity
from binder.pages.text import words
from tests.figures.rounds.walks import farm, walked
from tests.figures.water.test_water import group

if TYPE_CHECKING:
    from collections.abc import Mapping


def every_h(found: farm_rounds.RoundFigures, pen: str = "creek") -> dict[str, float]:
    """Return the interval of each band in a pen [h]."""
    return {key: one.amount.value for key, one in found.pens[pen].intervals.items()}


STATUSES = ("protected", "unprotected", "at_risk")

SHADED = {"shade": [{"kind": "trees", "area": "900 sqft"}]}

WATERED = {"drinkers": [{"id": "d1", "kind": "nipple", "count": "2"}]}

MUD = {"wallow": {"id": "w1", "shape": "round", "length": "8 ft", "depth": "8 in"}}


def test_a_worse_band_never_waits_longer() -> None:
    """Intervals only shrink from Normal to All hands, in each column of the table."""
    for column in STATUSES:
        hours = [quantity(row, column, "time") for row in rows("round_intervals")]
        assert [row.text("band") for row in rows("round_intervals")] == [b.key for b in Band]
        assert hours == sorted(hours, reverse=True)


def test_the_law_is_met_three_times_over() -> None:
    """Law asks for one look a day at least (husbandry-106); Normal asks for three."""
    assert 24 / every_h(walked(farm([{}])))["fine"] >= 3


def test_a_pen_that_lacks_something_never_waits_longer() -> None:
    """Unprotected or at risk no interval is longer than protected (husbandry-94: often)."""
    for row in rows("round_intervals"):
        protected = quantity(row, "protected", "time")
        assert quantity(row, "unprotected", "time") <= protected
        assert quantity(row, "at_risk", "time") <= protected


def test_a_protected_pen_may_wait_two_hours_at_three() -> None:
    """Every couple of hours (common practice, no source); unprotected or at risk one hour."""
    row = next(row for row in rows("round_intervals") if row.text("band") == "severe")
    assert [quantity(row, column, "time") for column in STATUSES] == [2.0, 1.0, 1.0]


def status(pen: Mapping[str, Any], *groups: Group) -> str:
    """Return what the pen counts as with these animals."""
    return walked(farm([pen]), *groups).pens["creek"].care.status


def test_pigs_need_shade_water_and_wet() -> None:
    """Each of the three alone makes the pen unprotected: what it lacks is named."""
    pig = group("gilt", 2, "creek")
    whole = {**SHADED, **WATERED, **MUD}
    assert status(whole, pig) == "protected"
    for key, lack in (("shade", "shade"), ("drinkers", "water"), ("wallow", "wet")):
        found = walked(farm([{k: v for k, v in whole.items() if k != key}]), pig)
        assert found.pens["creek"].care.lacks == (lack,)
        assert found.pens["creek"].care.status == "unprotected"
        assert every_h(found)["severe"] == 1.0


def test_goats_need_no_mud_and_a_shelter_is_shade() -> None:
    """No shade at all is unprotected; a roof to lie under will do."""
    goats = group("goat", 4, "creek")
    assert status(WATERED, goats) == "unprotected"
    assert status({**WATERED, "shelter": {"area": "120 sqft"}}, goats) == "protected"


@pytest.mark.parametrize(
    ("drinkers", "sure"),
    [
        ([{"id": "a", "kind": "nipple", "count": "2"}], True),
        ([{"id": "a", "kind": "nipple"}], False),
        ([{"id": "a", "kind": "nipple", "fed_by": "tank"}], True),
        ([{"id": "a", "kind": "trough", "holds": "50 gal"}], True),
        ([{"id": "a", "kind": "bucket", "holds": "5 gal", "can_tip": "yes"}], False),
    ],
)
def test_what_sure_water_is(drinkers: list[dict[str, str]], *, sure: bool) -> None:
    """Two places, a tank by gravity, or water that stands and cannot be tipped."""
    tank = {"id": "tank", "name": "Tank", "holds": "275 gal", "needs_power": "no"}
    pen = {**SHADED, **MUD, "drinkers": drinkers}
    found = walked(farm([pen], tanks=[tank]), group("gilt", 2, "creek"))
    assert (found.pens["creek"].care.lacks == ()) is sure


@pytest.mark.parametrize(
    ("who", "risk"),
    [
        (group("boar", 1, "creek"), "boar"),
        (group("lactating sow", 1, "creek", litter=9), "nursing"),
        (group("late-gestation sow", 1, "creek"), "near-term"),
        (group("broiler", 25, "creek", weight_kg=2.5), "market-weight"),
    ],
)
def test_who_falls_first_puts_a_pen_at_risk(who: Group, risk: str) -> None:
    """However good its shade and water are: our choice (risks.csv)."""
    found = walked(farm([{**SHADED, **WATERED, **MUD}]), who).pens["creek"]
    assert risk in found.care.risks
    assert found.care.status == "at_risk"


def test_a_single_fan_is_a_risk_and_two_are_not() -> None:
    """One breaker or belt is all that stands between a closed stall and the heat."""
    stall = {"kind": "stall", "shelter": {"area": "140 sqft"}, **WATERED}
    sow = group("dry sow", 1, "creek")
    one, two = [{"id": "f1"}], [{"id": "f1"}, {"id": "f2"}]
    assert status({**stall, "fans": one}, sow) == "at_risk"
    assert status({**stall, "fans": two}, sow) == "protected"


def test_an_empty_pen_lacks_nothing() -> None:
    """Nobody suffers in a pen without animals."""
    assert status({}) == "protected"


def test_where_nobody_goes_in_alone_all_is_done_from_outside() -> None:
    """A boar, grown pigs: drinkers and cloth are looked at, and their work is the owner's."""
    pen = {**WATERED, "shade": [{"kind": "cloth", "area": "200 sqft"}]}
    grown = group("grower", 8, "creek", weight_kg=80.0)
    small = group("grower", 8, "creek", weight_kg=30.0)
    for who in (group("boar", 1, "creek"), grown):
        found = walked(farm([pen]), who).pens["creek"]
        assert [task.key for task in found.tasks] == [
            "see",
            "drinkers-outside",
            "cloth-outside",
        ]
        assert {(task.who, task.where) for task in found.tasks} == {("alone", "outside")}
        assert [task.key for task in found.owners] == ["drinkers", "cloth"]
    free = walked(farm([pen]), small).pens["creek"]
    assert [task.key for task in free.tasks] == ["see", "drinkers", "cloth"]
    assert free.owners == ()


def test_no_task_of_one_person_is_inside_a_dangerous_pen() -> None:
    """Row by row: what one person may do there is done from outside."""
    for row in rows("task_who"):
        if row.text("guarded") == "yes" and row.text("who") == "alone":
            assert row.text("where") == "outside"
        assert row.text("who") == "alone" or row.text("where") == "inside"


def test_every_task_of_a_visit_is_said_for_guarded_pens_too() -> None:
    """A rabbit beside a boar in the heat: bottles had no row, and no binder could be made."""
    told = {(row.text("task"), row.text("guarded")) for row in rows("task_who")}
    asked = {row.text("task") for row in rows("number_tasks")}
    assert {(task, guarded) for task in asked for guarded in ("yes", "no")} <= told


GAL = 3.785411784


def test_water_takes_its_volume_over_the_flow() -> None:
    """29 gal through 2 gal/min: 15 min, the tap open meanwhile; 6 gal: stood by for 3 min."""
    assert run_min(29 * GAL, 2 * GAL) == 15.0
    assert [is_waited_for(minutes) for minutes in (3.0, 4.0)] == [True, False]
    assert run_min(6 * GAL, 2 * GAL) == 3.0
    assert run_min(10 * GAL, None) == 5.0  # carried: 2 gal/min, our choice


def test_the_flow_is_that_of_the_last_hose() -> None:
    """Its own where measured, else the least known behind it, else what is assumed."""
    gear: dict[str, Any] = {
        "water_sources": [{"id": "well", "name": "Well", "kind": "well", "flow": "8 gal/min"}],
        "hoses": [
            {"id": "h1", "inside": "3/4 in", "length": "9 ft", "flow": "5 gal/min",
             "fed_by": "well"},
            {"id": "h2", "inside": "3/4 in", "length": "9 ft", "fed_by": "h1"},
            {"id": "h3", "inside": "3/4 in", "length": "9 ft"},
        ],
    }  # fmt: skip
    a_farm = farm([{}], None, **gear)
    flows = [flow_l_min(a_farm, key) for key in ("h1", "h2", "h3", None)]
    assert flows[:2] == [pytest.approx(5 * GAL), pytest.approx(5 * GAL)]
    assert flows[2:] == [assumed_flow_l_min(), None]


def test_what_a_number_asks_stands_with_its_minutes() -> None:
    """Pigs are wetted from 2 on (sheet H2), a fan is on from 1 on where there is one."""
    found = walked(farm([{"fans": [{"id": "f1"}]}]), group("gilt", 2, "creek")).pens["creek"]
    assert [(task.key, task.at_number) for task in found.asked] == [("fan-on", 1), ("wet", 2)]
    assert all(task.minutes > 0 for task in found.asked)
    hens = walked(farm([{}]), group("laying hen", 45, "creek")).pens["creek"]
    assert [(task.key, task.at_number) for task in hens.asked] == [("tub", 2)]


def test_the_owner_wins_over_us_and_the_pen_over_the_farm() -> None:
    """Danger: ours 2 h, the farm says 3 h, the pen says 1 h."""
    about = {"round_intervals": {"hot": "3 h"}}
    assert every_h(walked(farm([{}], about)))["hot"] == 3.0
    assert every_h(walked(farm([{"round_intervals": {"hot": "1 h"}}], about)))["hot"] == 1


def test_the_farms_interval_does_not_lengthen_an_unprotected_pen() -> None:
    """3 h for the whole farm is not meant for pigs without mud: ours, 2 h, stands."""
    about = {"round_intervals": {"hot": "3 h"}}
    assert every_h(walked(farm([{}], about), group("gilt", 2, "creek")))["hot"] == 2.0
    shorter = {"round_intervals": {"hot": "1 h"}}
    assert every_h(walked(farm([{}], shorter), group("gilt", 2, "creek")))["hot"] == 1.0


def test_a_farms_interval_that_is_ours_too_is_the_farms() -> None:
    """2 h is what we ask of an unprotected pen: the sheet says that the owner wrote it."""
    about = {"round_intervals": {"hot": "2 h"}}
    found = walked(farm([{}], about), group("gilt", 2, "creek")).pens["creek"]
    assert found.intervals["hot"].sources == (OWNER_RECORD,)


def test_the_farm_wide_interval_is_for_no_pen() -> None:
    """The table of actions shows the farm's own figure where there is one, else ours."""
    found = walked(farm([{}], {"round_intervals": {"warm": "6 h"}}))
    assert found.farm_intervals_h["warm"] == 6.0
    assert found.farm_intervals_h["severe"] == 2.0


@pytest.mark.parametrize(
    ("given", "hours", "said"),
    [
        ({"band": "hot"}, 3.0, "Hot: every 3 h. Shade for all"),
        (
            {"band": "hot", "pen": "unprotected"},
            2.0,
            "sooner because shade, sure water",
        ),
        ({"band": "hot", "pen": "at risk"}, 2.0, "an animal here falls first"),
    ],
)
def test_the_interval_can_be_asked_for(given: dict[str, str], hours: float, said: str) -> None:
    """`binder figure round-interval` gives ours, for each of the three."""
    found = catalogue.compute("round-interval", given)
    assert found.amount.value == hours
    assert said in " ".join(words.load().working(found)).replace("\N{NO-BREAK SPACE}", " ")
    assert set(found.sources) <= set(sources.all_sources())
