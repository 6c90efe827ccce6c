"""The one plan: what is asked of whom, day by day, visit by visit (step 3).

Everything that is printed, shown or ticked about a day with animals is a view of a `Plan`. It
is built once and whole (`stay_plan`); nothing is added to it later.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder.figures.nested import APART
from binder.figures.weather.sun_times import clock

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.farm.model import Stay
    from binder.figures.day.feeding_hours import Meals
    from binder.figures.feed.farm_feed import FarmFeed, GroupFeed, Meal
    from binder.figures.figure import Figure
    from binder.figures.herd.groups import Herd
    from binder.figures.rounds.farm_rounds import RoundFigures
    from binder.figures.rounds.looks import Look
    from binder.figures.rounds.round_tasks import Task
    from binder.figures.rounds.visits import Gap
    from binder.figures.stays.basis import Basis
    from binder.figures.stays.plan_parts import Birth, Call, Job, Numbers
    from binder.figures.stays.stay_days import StayDay
    from binder.figures.stays.stay_load import StayLoad
    from binder.figures.water.drinking_water import WaterFigures

ORDINARY = "ordinary"  # the id of the plan of a farm without a sitter: an ordinary hot day


@dataclass(frozen=True, slots=True)
class PlanMeal:
    """One meal of one group, as it goes out at a visit.

    Attributes:
        pen: pen id.
        fed: what the group is fed on the plan's last day.
        meal: dry feed and water to soak it, none where nobody is there to clear it in time;
            None for hay, or where no ration is on record.
        soaked: whether it goes out soaked.
        out_h: the visit at which it goes out [h since midnight].
        clear_after_h: how long after it is given what is left is cleared [h]; None for dry
            feed. No hour of the day, as each pen is reached later than the visit begins.
        born: the meal in its place from the day after a birth; None where none may come.
    """

    pen: str
    fed: GroupFeed
    meal: Meal | None
    soaked: bool
    out_h: float
    clear_after_h: float | None
    born: Meal | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of a visit between two rests: when it begins [h], its pens, its minutes."""

    start_h: float
    pens: tuple[str, ...]
    minutes: float


@dataclass(frozen=True, slots=True)
class Fit:
    """Whether a visit can be done by one person in the air of a sort of day.

    Attributes:
        key: `fits`, `split` (rests between its parts), `move` (another start), `look` (light
            work in shade only: the round is done at the first visit) or `stop`.
        word: minutes of work and rest in the hour, `45/15`, `normal` or `caution`; of light
            work in shade where only that is left.
        need_min: minutes of work, with what the number asks [min].
        takes_min: the same with its rests [min]; equal where no rest is asked.
        start_h: when it begins: moved where the hour given is too hot [h].
        parts: its parts where it is split, else one.
    """

    key: str
    word: str
    need_min: float
    takes_min: float
    start_h: float
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Visit:
    """One visit, the same each day. Pens stand in walking order in each mapping.

    Attributes:
        hour: when it begins [h since midnight].
        meal: `morning` or `evening` where animals are fed, else empty.
        work: `visit-work` [min]: the minutes of every task, of feeding and of walking.
        tasks: by pen id, in order; the owner's own only at the visits they are for.
        asked: by pen id, what the number asks on top; pens where nothing is are left out.
        fed: by pen id, who is fed; pens where nobody is are left out.
        meals: each meal that goes out, in walking order.
        feed_min: for each pen where animals are fed [min].
        last: when the round is done: eggs, leftovers, taps to close, boots, and the walk.
        fits: by sort of day, whether one person can do it; empty without a position.
        light: whether it has light work only, as the air of no day allows more.
    """

    hour: float
    meal: str
    work: Figure
    # The figures in these are those of the plan's rounds and feed.
    tasks: Mapping[str, tuple[Task, ...]] = field(metadata={APART: True})
    asked: Mapping[str, tuple[Task, ...]] = field(metadata={APART: True})
    fed: Mapping[str, tuple[GroupFeed, ...]] = field(metadata={APART: True})
    meals: tuple[PlanMeal, ...] = field(metadata={APART: True})
    feed_min: float
    last: tuple[Task, ...]
    fits: Mapping[str, Fit]
    light: bool = False

    @property
    def clock(self) -> str:
        """Return `06:30`."""
        return clock(self.hour)

    @property
    def order(self) -> tuple[str, ...]:
        """Return the pens in the order they are walked at this hour."""
        return tuple(self.tasks)


@dataclass(frozen=True, slots=True)
class Watch:
    """The short looks of a sort of day, and what does not hold all the same.

    Attributes:
        looks: in order.
        minutes: how long each takes, walking between pens included [min], by place in `looks`.
        attended: when somebody has to stay, because a pen is at All hands, as (from, to) [h].
        overdue: for each pen, when it is first overdue with visits alone [h], None for never.
        gaps: between its visits, by the hours at which they are done on such a day.
    """

    looks: tuple[Look, ...]
    minutes: tuple[float, ...]
    attended: tuple[tuple[float, float], ...]
    overdue: Mapping[str, float | None]
    gaps: tuple[Gap, ...] = ()

    @property
    def holds(self) -> bool:
        """Return whether somebody can do every look, and nobody has to stay."""
        return not self.attended and all(look.by for look in self.looks)


@dataclass(frozen=True, slots=True)
class Plan:
    """What a stay asks. Figures that differ from the binder's day carry the stay's id.

    Attributes:
        stay: as the owner wrote it; of the id `ordinary` for a farm without a sitter.
        days: first to last.
        herd: the herd of the last day, without its figures.
        loads: by key, those that are known; mildest first.
        meals: feeding hours of the hot day that suit every class; None without a position.
        visits: in the order of the day; empty where the owner gave no times.
        gaps: the gaps between them, the night last.
        gap: `longest-gap` [h]; None without visits.
        rounds: tasks by pen on the last day.
        water: drinking water on a hot last day.
        feed: feed on the last day, with the stock to lay in for the stay.
        top_ups: `wallow-visit` [L] by wallow id: its share of a day's top-up at each visit.
        wallow_low_l: the low estimate of each such wallow's volume [L].
        bleach: `bleach-to-buy` [mL] by product id.
        numbers: by pen id, the numbers of the hot day; empty without a position.
        watches: the short looks, by key of the load.
        calls: what the sitter is told where looks are not theirs to do, by the number found.
        buys: short looks of a hot day that mending a pen would save, by pen id.
        jobs: what is not the sitter's alone.
        births: those that fall into it.
        pens: ids of the pens with animals, in the order of their numbers.
        fed_more_before: who is fed more on an earlier day than on the last.
        basis: what all this rests on, to ask it of another sort of day.
    """

    stay: Stay
    days: tuple[StayDay, ...]
    herd: Herd
    loads: Mapping[str, StayLoad]
    meals: Meals | None
    visits: tuple[Visit, ...]
    gaps: tuple[Gap, ...]
    gap: Figure | None
    rounds: RoundFigures
    water: WaterFigures
    feed: FarmFeed
    top_ups: Mapping[str, Figure]
    wallow_low_l: Mapping[str, float]
    bleach: Mapping[str, Figure]
    numbers: Mapping[str, Numbers]
    watches: Mapping[str, Watch]
    calls: tuple[Call, ...]
    buys: Mapping[str, int]
    jobs: tuple[Job, ...]
    births: tuple[Birth, ...]
    pens: tuple[str, ...]
    fed_more_before: tuple[str, ...]
    basis: Basis = field(metadata={APART: True})

    @property
    def has_looks(self) -> bool:
        """Return whether a sheet of looks has anything to say: a look, or to stay there."""
        return any(watch.looks or watch.attended for watch in self.watches.values())

    @property
    def is_ordinary(self) -> bool:
        """Return whether it is the day of a farm without a sitter."""
        return self.stay.id == ORDINARY
