"""What is done at a pen on a visit: minutes, water that runs, who may do it and from where."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR, SECONDS_IN_MINUTE
from binder.figures import published
from binder.figures.bands.band_charts import chart_of, charts_of
from binder.figures.bands.band_rule import Band
from binder.figures.rounds.pen_care import is_filled
from binder.figures.rounds.running_water import flow_l_min, is_waited_for, run_min
from binder.figures.rounds.visits import RULES as STAY_RULES
from binder.figures.rules import quantity, rule

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from binder.farm.model import Drinker, Farm, Pen
    from binder.figures.figure import Figure
    from binder.figures.herd.groups import Herd
    from binder.figures.hoses.hose_plan import HoseSheet

TASKS, WHO, BY_NUMBER, RUNNING = "round_tasks", "task_who", "number_tasks", "running"
ALONE, TWO, OWNER = "alone", "two", "owner"
BIRDS, COOP, DUSK = "poultry", "coop", "dusk"  # who goes in at dusk, behind a door
INSIDE, OUTSIDE = "inside", "outside"
HALF = 0.5  # of a step: from here on it is the next one


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do at a pen on each visit.

    Attributes:
        key: which task; its words stand under `task: KEY:`.
        minutes: how long it takes a person [min], in steps that a card can show.
        amount: how much, None where there is nothing to measure.
        count: how many things or head; 0 where it does not apply.
        carried: whether some of its water comes in buckets, as no hose reaches it.
        pens: ids of the pens whose soaked feed is cleared, for `leftovers`.
        holds: of water to fill, each kind of place: how many, what one holds [L], None where it
            is not recorded, and whether it is emptied first.
        young: how many of those head are young at the side.
        text: the owner's own words, for `own`, `eggs` and `dusk`.
        hose: id of the hose it is about, else empty.
        runs_min: how long its water runs by itself [min]: the tap is opened, and closed when
            the round is over; 0 where nothing is left running.
        who: `alone`, `two` or `owner`.
        where: `outside` or `inside` the pen.
        at_number: the number from which on it is done; 0 for every visit.
        light: whether it can be done in air that allows light work only.
    """

    key: str
    minutes: float
    amount: Figure | None = None
    count: int = 0
    young: int = 0
    text: str = ""
    hose: str = ""
    runs_min: float = 0.0
    who: str = ALONE
    where: str = OUTSIDE
    at_number: int = 0
    light: bool = False
    holds: tuple[tuple[int, float | None, bool], ...] = ()
    carried: bool = False
    pens: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Needs:
    """What the tasks of a pen rest on.

    Attributes:
        guarded: whether nobody goes in alone.
        hoses: by hose id.
        top_up: water for the wallow at one visit [L], None without a wallow of known size.
        drunk_l: what the pen drinks between two visits [L], 0 where it is not known.
        slow: whether a waterer gives less than they need: a pan stands beside it.
    """

    guarded: bool
    hoses: Mapping[str, HoseSheet]
    top_up: Figure | None = field(default=None)
    drunk_l: float = 0.0
    slow: bool = False


def task_minutes(key: str, count: int = 0) -> float:
    """Return how long a task takes, for so many things or head [min]: our choice."""
    row = published.row(TASKS, task=key)
    once = row.number("minutes") if row.has("minutes") else 0.0
    each = row.number("each") if row.has("each") else 0.0
    return in_steps(once + each * count)


def in_steps(minutes: float) -> float:
    """Return minutes to the nearest step that a card shows, at least one step [min].

    Rows that are rounded one by one add up only where nothing else was counted.
    """
    steps = round(rule(STAY_RULES, "steps of a minute on a card", "number").value)
    return max(1, math.floor(minutes * steps + HALF)) / steps


def may(key: str, *, guarded: bool) -> published.Row:
    """Return the row that says who may do a task, and from where: our choice."""
    return published.row(WHO, task=key, guarded="yes" if guarded else "no")


def allotted(task: Task, *, guarded: bool) -> Task:
    """Return a task with who may do it and from where."""
    row = may(task.key, guarded=guarded)
    light = row.text("effort") == "light"
    return replace(task, who=row.text("who"), where=row.text("where"), light=light)


def safe(tasks: tuple[Task, ...], *, guarded: bool) -> tuple[Task, ...]:
    """Return tasks as one person alone may do them, from outside where it is dangerous."""
    found = []
    for task in tasks:
        row = may(task.key, guarded=guarded)
        one = replace(task, key=row.text("instead")) if row.has("instead") else task
        found.append(allotted(one, guarded=guarded))
    return tuple(found)


def owners(tasks: tuple[Task, ...], *, guarded: bool) -> tuple[Task, ...]:
    """Return the tasks that are left to the owner, because they are done inside."""
    every = (allotted(task, guarded=guarded) for task in tasks)
    return tuple(task for task in every if task.who != ALONE)


def tasks(farm: Farm, pen: Pen, herd: Herd, needs: Needs) -> tuple[Task, ...]:
    """Return what is done at a pen on every visit, in order, whoever does it."""
    young = sum(group.litter for group in herd.in_pen(pen.id))
    head = young + sum(group.count for group in herd.in_pen(pen.id))
    found: list[Task] = []
    if head:
        found.append(Task("see", task_minutes("see", head), count=head, young=young))
    found += _flushes(pen, needs.hoses)
    found += _water(farm, pen, needs)
    cloths = sum(shade.kind == "cloth" for shade in pen.shade)
    if cloths:
        found.append(Task("cloth", task_minutes("cloth", cloths), count=cloths))
    if pen.fans:
        found.append(Task("fans", task_minutes("fans", len(pen.fans)), count=len(pen.fans)))
    found += [Task("own", task_minutes("own"), text=text) for text in pen.tasks]
    birds = sum(one.count for one in herd.in_pen(pen.id) if chart_of(one.cls) == BIRDS)
    if birds and pen.kind == COOP:
        found.append(Task(DUSK, task_minutes(DUSK), count=birds, text=pen.night or ""))
    return tuple(found)


def _flushes(pen: Pen, hoses: Mapping[str, HoseSheet]) -> Iterator[Task]:
    for sheet in hoses.values():
        if pen.id in sheet.pens and sheet.interval:
            run = sheet.flush.amount.value / SECONDS_IN_MINUTE if sheet.flush else 0.0
            minutes = in_steps(task_minutes("flush") + run)
            yield Task("flush", minutes, sheet.run_out, hose=sheet.hose.id)


def _water(farm: Farm, pen: Pen, needs: Needs) -> Iterator[Task]:
    """Yield what is done for water to drink and to lie in."""
    on_hand = sum(drinker.count for drinker in pen.drinkers if not is_filled(drinker))
    if on_hand:
        yield Task("drinkers", task_minutes("drinkers", on_hand), count=on_hand)
    if needs.slow:
        yield Task("pan", task_minutes("pan"))
    open_water = [drinker for drinker in pen.drinkers if is_filled(drinker)]
    if open_water:
        yield _fill(farm, open_water, needs.drunk_l)
    if pen.wallow is not None:
        volume_l = needs.top_up.amount.value if needs.top_up else 0.0
        hands, runs = _poured(farm, pen.wallow.fed_by, volume_l)
        minutes = in_steps(task_minutes("wallow") + hands)
        yield Task("wallow", minutes, needs.top_up, runs_min=runs)


def _poured(farm: Farm, fed_by: str | None, volume_l: float) -> tuple[float, float]:
    """Return minutes of a person, and minutes that a tap runs by itself, for a volume [min]."""
    flow = flow_l_min(farm, fed_by)
    minutes = run_min(volume_l, flow)
    if flow is None or is_waited_for(minutes):
        return minutes, 0.0
    return 0.0, minutes


def _fill(farm: Farm, places: list[Drinker], drunk_l: float) -> Task:
    """Return the filling of open water: small ones tipped out, large ones topped up."""
    tipped_l = rule(RUNNING, "tipped out up to", "volume").value
    count = sum(one.count for one in places)
    hands, runs = 0.0, 0.0
    share_l = drunk_l / count
    holds = tuple((one.count, one.holds_l, (one.holds_l or 0.0) <= tipped_l) for one in places)
    for one in places:
        holds_l = one.holds_l or 0.0
        each_l = holds_l if holds_l <= tipped_l else min(share_l, holds_l)
        by_hand, by_itself = _poured(farm, one.fed_by, each_l * one.count)
        hands, runs = hands + by_hand, max(runs, by_itself)
    minutes = in_steps(task_minutes("fill", count) + hands)
    small = any(one.fed_by is None and (one.holds_l or 0.0) <= tipped_l for one in places)
    return Task("fill", minutes, count=count, runs_min=runs, holds=holds, carried=small)


def asked_by_number(pen: Pen, herd: Herd, *, guarded: bool) -> tuple[Task, ...]:
    """Return what the number asks in a pen on top of the round, each with its number."""
    found: dict[str, Task] = {}
    inside = herd.in_pen(pen.id)
    there = {"fan": bool(pen.fans), "hose": has_hose(pen)}
    for row in published.rows(BY_NUMBER):
        groups = [each for each in inside if row.text("chart") in charts_of([each.cls])]
        if not groups or not there.get(row.text("needs"), True):
            continue
        key, number = row.text("task"), int(Band[row.text("from").upper()])
        head = sum(group.count for group in groups)
        known = found.get(key)
        if known is not None:
            head, number = head + known.count, min(number, known.at_number)
        task = Task(key, task_minutes(key, head), count=head, at_number=number)
        found[key] = allotted(task, guarded=guarded)
    return tuple(found.values())


def has_hose(pen: Pen) -> bool:
    """Return whether a hose ends at a pen."""
    return any(one.fed_by for one in pen.drinkers)


def look_minutes(head: int) -> float:
    """Return how long a short look at a pen takes [min]: our choice."""
    most = quantity(published.row("look_rules", rule="a pen at most"), "amount", "time")
    return min(task_minutes("look", head), most * MINUTES_IN_HOUR)
