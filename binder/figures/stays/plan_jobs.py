"""What is not the sitter's alone, births in a plan, and the numbers of its pens (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import Band
from binder.figures.feed import farm_feed
from binder.figures.herd import groups as herds
from binder.figures.herd.breeding import last_day
from binder.figures.rounds.round_tasks import ALONE, OWNER, TWO, may, task_minutes
from binder.figures.rounds.running_water import flow_l_min, run_min
from binder.figures.rules import rule
from binder.figures.stays.plan_parts import Birth, Job, Numbers
from binder.figures.stays.stay_days import FAN, FLOW_TEST, ONE_DAY, WALLOW, births_in
from binder.figures.stays.stay_load import HOT
from binder.figures.wallows import wallow_plan
from binder.figures.water import drinkers, drinking_water
from binder.figures.weather.daylight import RULES as DAY_RULES

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from binder.farm.model import Farm
    from binder.figures.feed.farm_feed import GroupFeed
    from binder.figures.figure import Figure
    from binder.figures.herd.groups import Herd
    from binder.figures.stays.basis import Basis
    from binder.figures.stays.stay_days import Due, StayDay
    from binder.figures.weather.hot_days import DayWeather

REFILL = "refill"
TASK_OF = {WALLOW: REFILL, FLOW_TEST: "flow-test", FAN: "clean-fan"}
HELP_OF = {"refill": "wallow", "moving": "moving"}
WARM_NIGHT = "warm-night"


def jobs_of(basis: Basis) -> tuple[Job, ...]:
    """Return the work that is not the sitter's alone, what is done before day one first.

    What is done inside a pen that nobody enters alone is the owner's before leaving; what falls
    due on a day and takes two is an appointment with a helper, where one is recorded.
    """
    return (*_before(basis), *_due(basis), *_moves(basis))


def _before(basis: Basis) -> Iterator[Job]:
    for pen in basis.pens:
        for task in basis.rounds.pens[pen].owners:
            yield Job(task.key, pen, task.who, None, "", task.minutes)


def _due(basis: Basis) -> Iterator[Job]:
    for day in basis.days:
        for due in day.due:
            if due.key in TASK_OF:
                yield from _due_job(basis, due)


def job_of(basis: Basis, due: Due, pen: str | None) -> Job:
    """Return a job that falls due at a pen, who may do it, and how long it takes."""
    key = TASK_OF[due.key]
    guarded = pen is not None and basis.rounds.pens[pen].care.guarded
    who = may(key, guarded=guarded).text("who")
    count = sum(one.count for one in basis.farm.pen(pen).drinkers) if pen else 0
    runs = _refill_min(basis.farm, basis.herd, pen) if key == "refill" and pen else 0.0
    helper = helper_for(basis.farm, HELP_OF[key]) if who == TWO else ""
    on = due.first if who != OWNER else None
    return Job(key, pen, who, on, helper, task_minutes(key, count), runs)


def _due_job(basis: Basis, due: Due) -> Iterator[Job]:
    pens = (due.pen,) if due.pen is not None else basis.pens
    for pen in pens:
        job = job_of(basis, due, pen)
        if job.who != ALONE or job.runs_min:
            yield job


def _moves(basis: Basis) -> Iterator[Job]:
    """Yield the moves that the owner has planned for days of the stay: always for two."""
    for animal in basis.farm.animals:
        for move in animal.moves:
            if basis.stay.first <= move.on <= basis.stay.last:
                helper = helper_for(basis.farm, "moving")
                yield Job("moving", move.to, TWO, move.on, helper, task_minutes("moving"))


def helper_for(farm: Farm, what: str) -> str:
    """Return the first contact who helps with something, empty where nobody is recorded."""
    return next((one.name for one in farm.contacts if what in one.helps), "")


def _refill_min(farm: Farm, herd: Herd, pen_id: str) -> float:
    """Return how long a wallow fills from empty [min]; 0 where its size is not known."""
    wallow = farm.pen(pen_id).wallow
    if wallow is None:
        return 0.0
    full = wallow_plan.for_farm(farm, herd)[wallow.id].high
    return run_min(full.amount.value, flow_l_min(farm, wallow.fed_by)) if full else 0.0


def births_of(basis: Basis, hot: DayWeather) -> tuple[Birth, ...]:
    """Return the births that may fall into the plan, with what holds before and after each."""
    return tuple(_birth(basis.farm, due, hot) for due in births_in(basis.days))


def fed_with_young(farm: Farm, days: tuple[StayDay, ...]) -> Mapping[str, tuple[int, Figure]]:
    """Return who may give birth in a stay: with young for how many days at most, fed how.

    By name: days [days], from the day after the first on which the young may come, and the
    ration of one head then [kg/day].
    """
    found = {}
    for due in births_in(days):
        fed = _fed(farm, due)
        if fed is not None and fed.ration is not None:
            born = max(due.first, days[0].on - ONE_DAY)
            found[due.who] = (days[-1].on - born).days, fed.ration
    return found


def _fed(farm: Farm, due: Due) -> GroupFeed | None:
    """Return what a mother is fed once her young are born."""
    after = herds.for_farm(farm, _last_day(farm, due) + ONE_DAY)
    feeds = farm_feed.for_farm(farm, after).groups
    return next((one for one in feeds if one.group.animal.called == due.who), None)


def _birth(farm: Farm, due: Due, hot: DayWeather) -> Birth:
    last = _last_day(farm, due)
    before, after = (herds.for_farm(farm, on) for on in (due.first - ONE_DAY, last + ONE_DAY))
    pen = next((one.pen for one in after.groups if one.animal.called == due.who), due.pen)
    water_before, water_after = (_water(farm, herd, hot, pen) for herd in (before, after))
    fed = _fed(farm, due)
    return Birth(
        due.who, pen, due.first, last, min(due.last, last), water_before, water_after,
        _head(before, pen), _head(after, pen), fed if fed and fed.morning else None,
        _slow(farm, after, pen),
    )  # fmt: skip


def _last_day(farm: Farm, due: Due) -> dt.date:
    """Return the last day on which the young may come: overdue days count."""
    ends = [
        last_day(one.species, one.bred)
        for one in farm.animals
        if one.called == due.who and one.bred
    ]
    return max((due.last, *ends))


def _water(farm: Farm, herd: Herd, hot: DayWeather, pen: str | None) -> Figure | None:
    return drinking_water.for_farm(farm, herd, hot).pens.get(pen) if pen else None


def _slow(farm: Farm, herd: Herd, pen_id: str | None) -> bool:
    """Return whether a waterer of a pen gives less than a herd there needs."""
    if not pen_id:
        return False
    tests = drinkers.for_farm(farm, herd).tests
    found = (tests.get(one.id) for one in farm.pen(pen_id).drinkers)
    return any(test is not None and test.value == drinkers.FAIL for test in found)


def _head(herd: Herd, pen: str | None) -> int:
    return sum(one.count + one.litter for one in herd.in_pen(pen)) if pen else 0


def numbers_of(basis: Basis) -> Mapping[str, Numbers]:
    """Return each pen's numbers on the hot day while the sun is up, and what moves them."""
    hot = basis.loads.get(HOT)
    if hot is None or hot.day is None:
        return {}
    up, down = int(hot.day.sunrise_h), int(hot.day.sunset_h)
    limit_c = rule(DAY_RULES, "warm night", "temperature").value
    found = {}
    for pen, bands in hot.worst.items():
        least, most = min(bands[up : down + 1]), max(bands)
        moved = most < Band.SEVERE  # going one higher stops at 3: our choice
        found[pen] = Numbers(
            least, most, WARM_NIGHT if moved else "", limit_c if moved else None
        )
    return found
