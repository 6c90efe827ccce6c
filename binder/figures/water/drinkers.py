"""Drinkers: how many a group needs, and whether one gives enough (step 3)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import SECONDS_IN_MINUTE
from binder.figures import published
from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, NotPublishedError, step
from binder.figures.rules import at_least, quantity
from binder.science import drinking
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.farm.model import Farm, Pen
    from binder.figures.herd.groups import Herd
    from binder.figures.published import Row

TABLE = "drinkers"
PASS, FAIL = "pass", "fail"
BY_AGE = "by age"
FLOWING = ("nipple", "bowl")  # a trough that fills slowly still gives all at once
PER_EDGE = 100  # head the published trough edge is for
OLDEST_WEEKS = 8.0  # the last age the nipple rule is worked for [water-44]
H_PER_WEEK = 168.0
ML_PER_L = 1000.0


def drinkers(cls: str, count: int, subject: str = "") -> Figure:
    """Return the drinkers a group needs [count], for ducks the trough edge [m].

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        count: head.
        subject: the pen.

    Raises:
        NotPublishedError: no such class.

    References:
        Row by row in `drinkers.csv`; two places where no figure is published: our choice.
    """
    row = published.row(TABLE, **{"class": cls})
    if row.has("edge"):
        edge_m = quantity(row, "edge", "length")
        value = Amount(edge_m * count / PER_EDGE, "m")
        line = step("edge", count=count, edge=Amount(edge_m, "m"), per=PER_EDGE, need=value)
        return Figure("drinkers", value, (line,), row.sources, ("head-under",), subject)
    least = min(count, int(row.number("least")))
    if not row.has("share"):
        line = step("two", count=count, least=least)
        return Figure(
            "drinkers", Amount(least, "count"), (line,), row.sources, ("queue",), subject
        )
    share = row.number("share")
    need = max(least, math.ceil(count / share))
    line = step("share", count=count, share=share, least=least, need=need)
    return Figure("drinkers", Amount(need, "count"), (line,), row.sources, ("apart",), subject)


def flow_test(
    cls: str, caught_l: float, seconds: float, age_h: float | None = None, subject: str = ""
) -> Figure:
    """Return `pass` or `fail`: does a drinker give enough for a class?

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        caught_l: water caught in a cup [L], 0 or more.
        seconds: time it ran [s], above 0.
        age_h: age of chicks and broilers [h], up to 8 weeks; None counts as 8 weeks.
        subject: the drinker.

    Raises:
        NotPublishedError: no flow is published for that class, or birds are older.
        ValueError: a number outside its range.

    References:
        Row by row in `drinkers.csv`; water-14 for the test.
    """
    row = published.row(TABLE, **{"class": cls})
    flow_l_min = drinking.flow_l_min(caught_l, seconds)
    least_l_min = _least_l_min(row, age_h)
    value = PASS if at_least(flow_l_min, least_l_min) else FAIL
    lines = [
        step(
            "flow",
            caught=Amount(caught_l * ML_PER_L, "mL"),
            seconds=Amount(seconds, "s"),
            flow=Amount(flow_l_min * ML_PER_L, "mL/min"),
        ),
        step(value, least=Amount(least_l_min * ML_PER_L, "mL/min"), cls=cls),
    ]
    if row.has("better"):
        better_l_min = quantity(row, "better", "flow")
        lines.append(step("better", better=Amount(better_l_min * ML_PER_L, "mL/min")))
    return Figure("flow-test", value, tuple(lines), row.sources, ("far-end",), subject)


def _least_l_min(row: Row, age_h: float | None) -> float:
    cls = row.text("class")
    if not row.has("flow"):
        message = f"no drinker flow is published for a {cls}; look that none waits for water"
        raise NotPublishedError(message)
    if row.text("flow") != BY_AGE:
        return quantity(row, "flow", "flow")
    weeks = OLDEST_WEEKS if age_h is None else age_h / H_PER_WEEK
    if weeks > OLDEST_WEEKS:
        message = f"the flow of nipples is published to {OLDEST_WEEKS:g} weeks of age"
        raise NotPublishedError(message)
    return drinking.nipple_flow_ml_min(weeks) / ML_PER_L


def least_of(test: Figure) -> Amount | None:
    """Return the least flow that a flow test was held against [mL/min], None without one."""
    found = (dict(line.values).get("least") for line in test.working)
    return next((least for least in found if isinstance(least, Amount)), None)


@dataclass(frozen=True, slots=True)
class DrinkerFigures:
    """Drinkers against need.

    Attributes:
        need: `drinkers` by (pen id, class).
        there: drinking places by pen id, every drinker of the pen counted.
        short: pen ids with fewer places than their neediest class needs (ducks aside). A pen
            with a trough, bell or tank, where many drink at once, needs no more than the least.
        tests: `flow-test` by drinker id for the neediest class in its pen; only drinkers whose
            flow is recorded and whose class has a published flow.
    """

    need: Mapping[tuple[str, str], Figure]
    there: Mapping[str, int]
    short: tuple[str, ...]
    tests: Mapping[str, Figure]


def for_farm(farm: Farm, herd: Herd) -> DrinkerFigures:
    """Return the drinkers of every pen with animals, against their need."""
    need: dict[tuple[str, str], Figure] = {}
    there: dict[str, int] = {}
    short: list[str] = []
    tests: dict[str, Figure] = {}
    for pen in farm.pens:
        heads: dict[str, int] = {}
        for group in herd.in_pen(pen.id):
            heads[group.cls] = heads.get(group.cls, 0) + group.count
        if not heads:
            continue
        found = {cls: drinkers(cls, n, f"{pen.id} {cls}") for cls, n in heads.items()}
        need.update({(pen.id, cls): figure for cls, figure in found.items()})
        there[pen.id] = sum(drinker.count for drinker in pen.drinkers)
        if there[pen.id] < places_needed(pen, found):
            short.append(pen.id)
        for drinker in pen.drinkers:
            if drinker.kind in FLOWING and drinker.flow_l_min is not None:
                test = _neediest(heads, drinker.flow_l_min, drinker.id)
                tests.update({drinker.id: test} if test else {})
    return DrinkerFigures(need, there, tuple(short), tests)


def places_needed(pen: Pen, found: Mapping[str, Figure]) -> float:
    """Return the places a pen needs: classes share them, so the neediest decides."""
    needs = {cls: f.amount.value for cls, f in found.items() if f.amount.unit == "count"}
    if any(drinker.kind not in FLOWING for drinker in pen.drinkers):
        for cls, need in needs.items():
            needs[cls] = min(need, published.row(TABLE, **{"class": cls}).number("least"))
    return max(needs.values(), default=0)


def _neediest(heads: Mapping[str, int], flow_l_min: float, subject: str) -> Figure | None:
    """Return the flow test for the class that needs most, None where none has a flow."""
    rows = [published.row(TABLE, **{"class": cls}) for cls in heads]
    with_flow = [row for row in rows if row.has("flow")]
    if not with_flow:
        return None
    row = max(with_flow, key=lambda row: _least_l_min(row, None))
    return flow_test(row.text("class"), flow_l_min, SECONDS_IN_MINUTE, None, subject)


def _asked_drinkers(count: int, **given: str) -> Figure:
    return drinkers(given["class"], count)


def _asked_flow_test(caught: float, seconds: float, age: float | None, **given: str) -> Figure:
    return flow_test(given["class"], caught, seconds, age)


_CLASS = Argument(
    "class", "text", known=tuple(each.text("class") for each in published.rows("drinkers"))
)
ENTRIES: tuple[Entry, ...] = (
    Entry("drinkers", (_CLASS, Argument("count", "whole")), _asked_drinkers),
    Entry(
        "flow-test",
        (
            _CLASS,
            Argument("caught", "volume"),
            Argument("seconds", "number"),
            Argument("age", "time", optional=True),
        ),
        _asked_flow_test,
    ),
)
