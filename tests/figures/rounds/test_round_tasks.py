"""What is done at a pen, and how long it takes: minutes for a task are our choice."""

from __future__ import annotations

from dataclasses import replace

import pytest

from binder.figures.rounds import farm_rounds
from binder.pages.text import words
from tests.figures.rounds.walks import farm, walked
from tests.figures.water.test_water import group


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
    """45 hens: 0.5 + 45 x 0.1; a bell of 3 gal: 1, and 1.5 to carry (2 gal/min, rounded up)."""
    pen = {"drinkers": [{"id": "d1", "kind": "bell", "holds": "3 gal"}]}
    found = walked(farm([pen]), group("laying hen", 45, "creek"))
    minutes = found.pens["creek"].minutes
    assert minutes.amount.value == pytest.approx(0.5 + 4.5 + 1.0 + 2.0)
    assert "2 tasks" in words.load().working(minutes)[0]
