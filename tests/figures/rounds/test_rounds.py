"""The round: how soon to be back at a pen, what is done there, how long it takes.

No source gives looks a day by band, nor minutes for a task: both are our choice. The tests hold
them to what the law and government advice do say, and to themselves.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from binder import sources
from binder.farm.model import Farm, FarmFile, Pen
from binder.farm.model.equipment import EquipmentFile
from binder.figures import catalogue
from binder.figures.bands.band_rule import Band
from binder.figures.figure import OWNER_RECORD
from binder.figures.herd.groups import Group, Herd
from binder.figures.hoses import hose_plan
from binder.figures.published import rows
from binder.figures.rounds import farm_rounds
from binder.figures.rules import quantity
from binder.figures.wallows import wallow_plan
from binder.figures.water import drinking_water
from binder.figures.weather.hot_days import DayWeather
from binder.pages.text import words
from tests.figures.water.test_water import DAY, group

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

HOT = DayWeather(35.0, 23.0, 22.0, None, assumed=False, origin="hot_day")
CREEK = {"id": "creek", "name": "Creek", "kind": "pasture"}


def farm(
    pens: Sequence[Mapping[str, Any]], about: Mapping[str, Any] | None = None, **gear: Any
) -> Farm:
    """Return a farm with pens and equipment, written as the owner would."""
    return Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}, **(about or {})}),
        animals=(),
        pens=tuple(Pen.model_validate({**CREEK, **pen}) for pen in pens),
        equipment=EquipmentFile.model_validate(gear),
        contacts=(),
        stays=(),
    )


def walked(a_farm: Farm, *groups: Group) -> farm_rounds.RoundFigures:
    """Return the round of a farm with these animals."""
    herd = Herd(DAY, groups)
    hoses = hose_plan.for_farm(a_farm, drinking_water.for_farm(a_farm, herd, HOT), HOT)
    return farm_rounds.for_farm(a_farm, herd, hoses, wallow_plan.for_farm(a_farm, herd))


def every_h(found: farm_rounds.RoundFigures, pen: str = "creek") -> dict[str, float]:
    """Return the interval of each band in a pen [h]."""
    return {key: one.amount.value for key, one in found.pens[pen].intervals.items()}


# --- how soon to be back -------------------------------------------------------------------


def test_a_worse_band_never_waits_longer() -> None:
    """Intervals only shrink from Normal to All hands, in both columns of the table."""
    for column in ("interval", "exposed"):
        hours = [quantity(row, column, "time") for row in rows("round_intervals")]
        assert [row.text("band") for row in rows("round_intervals")] == [b.key for b in Band]
        assert hours == sorted(hours, reverse=True)


def test_the_law_is_met_three_times_over() -> None:
    """Law asks for one look a day at least (husbandry-106); Normal asks for three."""
    assert 24 / every_h(walked(farm([{}])))["fine"] >= 3


def test_an_exposed_pen_is_never_looked_at_less() -> None:
    """Without a wallow or shade no interval is longer than with them (husbandry-94: often)."""
    for row in rows("round_intervals"):
        exposed = quantity(row, "exposed", "time")
        assert exposed <= quantity(row, "interval", "time")


def test_pigs_without_a_wallow_are_exposed() -> None:
    """Two hours in Danger become one and a half without a wallow (round_intervals.csv)."""
    shade = {"shade": [{"kind": "trees", "area": "900 sqft"}]}
    wallow = {"wallow": {"id": "w1", "shape": "round", "length": "8 ft", "depth": "8 in"}}
    pig = group("gilt", 2, "creek")
    assert every_h(walked(farm([shade]), pig))["hot"] == 1.5
    assert every_h(walked(farm([{**shade, **wallow}]), pig))["hot"] == 2.0


def test_no_recorded_shade_is_exposed_for_any_animal() -> None:
    """Goats without shade on record count as exposed; a shelter is shade enough for this."""
    goats = group("goat", 4, "creek")
    assert every_h(walked(farm([{}]), goats))["hot"] == 1.5
    shelter = {"shelter": {"area": "120 sqft"}}
    assert every_h(walked(farm([shelter]), goats))["hot"] == 2.0


def test_a_stall_needs_no_wallow() -> None:
    """A sow in a roofed stall is not exposed for want of mud."""
    stall = {"kind": "stall", "shelter": {"area": "140 sqft"}}
    assert every_h(walked(farm([stall]), group("dry sow", 1, "creek")))["hot"] == 2.0


def test_an_empty_pen_is_not_exposed() -> None:
    """Nobody suffers in a pen without animals."""
    assert every_h(walked(farm([{}])))["hot"] == 2.0


def test_the_owner_wins_over_us_and_the_pen_over_the_farm() -> None:
    """Danger: ours 2 h, the farm says 3 h, the pen says 1 h."""
    about = {"round_intervals": {"hot": "3 h"}}
    assert every_h(walked(farm([{}], about)))["hot"] == 3.0
    assert every_h(walked(farm([{"round_intervals": {"hot": "1 h"}}], about)))["hot"] == 1


def test_the_farms_interval_does_not_lengthen_an_exposed_pen() -> None:
    """3 h for the whole farm is not meant for pigs without mud: ours, 1.5 h, stands."""
    about = {"round_intervals": {"hot": "3 h"}}
    assert every_h(walked(farm([{}], about), group("gilt", 2, "creek")))["hot"] == 1.5
    shorter = {"round_intervals": {"hot": "1 h"}}
    assert every_h(walked(farm([{}], shorter), group("gilt", 2, "creek")))["hot"] == 1.0


def test_a_farms_interval_that_is_ours_too_is_the_farms() -> None:
    """1.5 h is what we ask of an exposed pen: the sheet says that the owner wrote it."""
    about = {"round_intervals": {"hot": "1.5 h"}}
    found = walked(farm([{}], about), group("gilt", 2, "creek")).pens["creek"]
    assert found.intervals["hot"].sources == (OWNER_RECORD,)


def test_the_farm_wide_interval_is_for_no_pen() -> None:
    """The table of actions shows the farm's own figure where there is one, else ours."""
    found = walked(farm([{}], {"round_intervals": {"warm": "6 h"}}))
    assert found.farm_intervals_h["warm"] == 6.0
    assert found.farm_intervals_h["severe"] == 1.0


@pytest.mark.parametrize(
    ("given", "hours", "said"),
    [
        ({"band": "hot"}, 2.0, "Hot: every 2 h. Our choice"),
        ({"band": "hot", "exposed": "yes"}, 1.5, "sooner because there is no wallow"),
    ],
)
def test_the_interval_can_be_asked_for(given: dict[str, str], hours: float, said: str) -> None:
    """`binder figure round-interval` gives ours, with or without wallow and shade."""
    found = catalogue.compute("round-interval", given)
    assert found.amount.value == hours
    assert said in " ".join(words.load().working(found)).replace("\N{NO-BREAK SPACE}", " ")
    assert set(found.sources) <= set(sources.all_sources())


# --- what is done at a pen -----------------------------------------------------------------


def keys(found: farm_rounds.RoundFigures) -> list[str]:
    """Return the tasks of the pen, in order."""
    return [task.key for task in found.pens["creek"].tasks]


def test_a_pen_with_everything_has_every_task_in_order() -> None:
    """See them, cool the hose, try what they drink from, then mud, shade, fans, the owner's."""
    pen = {
        "shade": [{"kind": "cloth", "area": "200 sqft"}, {"kind": "trees", "area": "9 sqft"}],
        "wallow": {"id": "w1", "shape": "round", "length": "8 ft", "depth": "8 in"},
        "drinkers": [
            {"id": "d1", "kind": "nipple", "count": "2", "fed_by": "h1"},
            {"id": "d2", "kind": "trough"},
        ],
        "fans": [{"id": "f1"}],
        "tasks": ["Look at the fence"],
    }
    hose = {"id": "h1", "inside": "3/4 in", "length": "250 ft", "flow": "5 gal/min"}
    found = walked(farm([pen], hoses=[hose]), group("gilt", 2, "creek"))
    assert keys(found) == [
        "see", "flush", "drinkers", "fill", "wallow", "cloth", "fans", "own",
    ]  # fmt: skip
    assert found.pens["creek"].tasks[-1].text == "Look at the fence"
    assert {task.young for task in found.pens["creek"].tasks} == {0}  # none at anybody's side


def test_an_empty_pen_has_nothing_to_see() -> None:
    """No animals, no drinkers: no task at all, and no minutes."""
    found = walked(farm([{}]))
    assert keys(found) == []
    assert found.pens["creek"].minutes.amount.value == 0


@pytest.mark.parametrize(
    ("drinker", "task"),
    [
        ({"kind": "nipple"}, "drinkers"),
        ({"kind": "bowl"}, "drinkers"),
        ({"kind": "bell", "fed_by": "h1"}, "drinkers"),
        ({"kind": "bell", "holds": "3 gal"}, "fill"),
        ({"kind": "bucket"}, "fill"),
        ({"kind": "trough", "fed_by": "h1"}, "fill"),
    ],
)
def test_what_is_pressed_and_what_is_filled(drinker: dict[str, str], task: str) -> None:
    """A bell without a pipe is filled by hand; one on a pipe is looked into."""
    found = walked(farm([{"drinkers": [{"id": "d1", **drinker}]}]))
    assert keys(found) == [task]


def test_a_flush_takes_as_long_as_the_water_runs() -> None:
    """Half a minute of walking and the run itself: 8.6 gal at 5 gal/min, 103 s; in halves.

    250 ft of 3/4 in hold 5.74 gal (water-75: 2.29 gal for 100 ft); one and a half times that.
    """
    hose = {"id": "h1", "inside": "3/4 in", "length": "250 ft", "flow": "5 gal/min"}
    pen = {"drinkers": [{"id": "d1", "kind": "nipple", "fed_by": "h1"}]}
    found = walked(farm([pen], hoses=[hose]), group("gilt", 2, "creek"))
    flush = found.pens["creek"].tasks[1]
    assert flush.hose == "h1"
    assert flush.minutes == round((0.5 + 2.29 * 2.5 * 1.5 / 5) * 2) / 2 == 2.0
    # 0.75 in x 250 ft: 8.606 gal; at 4.9 gal/min 105.4 s, with the walk 2.26 min
    slower = walked(
        farm([pen], hoses=[{**hose, "flow": "4.9 gal/min"}]), group("gilt", 2, "creek")
    )
    assert slower.pens["creek"].tasks[1].minutes == 2.5


def test_a_hose_of_unknown_flow_is_flushed_too() -> None:
    """Without a measured flow only the walking counts."""
    hose = {"id": "h1", "inside": "3/4 in", "length": "250 ft"}
    pen = {"drinkers": [{"id": "d1", "kind": "nipple", "fed_by": "h1"}]}
    found = walked(farm([pen], hoses=[hose]), group("gilt", 2, "creek"))
    assert found.pens["creek"].tasks[1].minutes == 0.5


def test_young_at_the_side_are_counted_with_their_mother() -> None:
    """A sow and nine piglets are ten head to see: 0.5 + 10 x 0.1 min (round_tasks.csv)."""
    found = walked(farm([{}]), replace(group("lactating sow", 1, "creek"), litter=9))
    (see,) = found.pens["creek"].tasks
    assert (see.count, see.young, see.minutes) == (10, 9, 1.5)
    assert found.pens["creek"].head == 10
    assert walked(farm([{}])).pens["creek"].head == 0


@pytest.mark.parametrize(
    ("minutes", "shown"), [(0.0, 0.5), (0.6, 0.5), (0.74, 0.5), (0.75, 1.0), (2.2175, 2.0)]
)
def test_minutes_go_in_halves(minutes: float, shown: float) -> None:
    """To the nearest half, at least one: rows that a card shows add up (our choice)."""
    assert farm_rounds.in_steps(minutes) == shown


def test_minutes_are_the_sum_of_the_tasks() -> None:
    """45 hens: 0.5 + 45 x 0.1; one bell by hand: 1 min (round_tasks.csv)."""
    pen = {"drinkers": [{"id": "d1", "kind": "bell", "holds": "3 gal"}]}
    found = walked(farm([pen]), group("laying hen", 45, "creek"))
    minutes = found.pens["creek"].minutes
    assert minutes.amount.value == pytest.approx(0.5 + 4.5 + 1.0)
    assert "2 tasks" in words.load().working(minutes)[0]
