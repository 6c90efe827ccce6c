"""The odds of a plan: the days of a stay in every year of weather there is (step 3).

Each day is judged as `binder day` judges one: the same air by the hour, the same looks, the
same check of the plan.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures import published
from binder.figures.bands.band_rule import Band, is_banded
from binder.figures.day.farm_day import farm_day
from binder.figures.rounds.looks import NOBODY
from binder.figures.stays import stay_check
from binder.figures.stays.plan_watch import needs_in, watch_of
from binder.figures.stays.stay_load import TODAY, load_of
from binder.figures.weather.forecast import day_air

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from binder.farm.model import Farm
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.rounds.visits import Gap
    from binder.figures.season.farm_season import FarmSeason
    from binder.figures.season.season_air import SeasonAir, SeasonDay
    from binder.figures.stays.plan import Plan
    from binder.figures.stays.stay_load import StayLoad
    from binder.figures.weather.sun_times import Position

AREA, WITHIN_HOURS = "stay", "hours"
SEVERITIES = "readiness_rules"  # how soon each shortfall of a plan hurts an animal


@dataclass(frozen=True, slots=True)
class StayDayPlayed:
    """A day of a stay in a year of weather.

    Attributes:
        on: the date.
        high_c: its hottest hour [C].
        holds: whether the plan of the stay would have held.
        why: keys of `stay-findings` that it did not hold for.
        looks_h: hours at which a look between the visits was asked for [h].
        nobody_h: those of them for which nobody can come [h].
        attended: stretches in which somebody had to stay, as (from, to) [h].
        overdue_h: the longest that any pen was overdue with the visits alone [h].
    """

    on: dt.date
    high_c: float
    holds: bool
    why: tuple[str, ...]
    looks_h: tuple[float, ...]
    nobody_h: tuple[float, ...]
    attended: tuple[tuple[float, float], ...]
    overdue_h: float

    @property
    def needed_h(self) -> tuple[float, float] | None:
        """Return from when to when somebody was needed by day, None for never [h]."""
        hours = [each for each in self.looks_h if each < HOURS_IN_DAY]
        hours += [edge for span in self.attended for edge in span]
        return (min(hours), max(hours)) if hours else None

    @property
    def at_night(self) -> bool:
        """Return whether a look was asked for at night."""
        return any(each >= HOURS_IN_DAY for each in self.looks_h)


@dataclass(frozen=True, slots=True)
class Odds:
    """The days of a stay in all years of weather; none where no file has its dates.

    Attributes:
        stay: its id.
        days: all of them.
    """

    stay: str
    days: tuple[StayDayPlayed, ...]

    @property
    def held(self) -> int:
        """Return on how many the plan would have held."""
        return sum(day.holds for day in self.days)

    @property
    def needed(self) -> tuple[StayDayPlayed, ...]:
        """Return the days on which somebody was needed between the visits."""
        return tuple(day for day in self.days if day.needed_h is not None)

    @property
    def span_h(self) -> tuple[float, float] | None:
        """Return from when to when somebody was needed, of all days; None for never."""
        spans = [day.needed_h for day in self.days if day.needed_h is not None]
        if not spans:
            return None
        return min(first for first, _ in spans), max(last for _, last in spans)

    @property
    def worst(self) -> StayDayPlayed | None:
        """Return the day with the longest gap, the hottest of those alike."""
        return max(self.days, key=lambda day: (day.overdue_h, day.high_c), default=None)

    @property
    def watch_from_c(self) -> float | None:
        """Return the coolest high of a day on which the plan failed [C], None for none."""
        return min((day.high_c for day in self.days if not day.holds), default=None)


def odds_of(
    farm: Farm,
    position: Position,
    plans: Mapping[str, Plan],
    hoses: Mapping[str, HoseSheet],
    seasons: Sequence[FarmSeason],
) -> tuple[Odds, ...]:
    """Return the odds of the plan of each stay, by what every year brought on its dates.

    Args:
        farm: the farm.
        position: where it lies.
        plans: of the stays to come, by id.
        hoses: of `hose_plan.for_farm`.
        seasons: one for each file.
    """
    found = []
    for key, plan in plans.items():
        days = [
            _played(farm, position, plan, hoses, one.air, day)
            for one in seasons
            for day in _dates(plan, one.air)
        ]
        if days:
            found.append(Odds(key, tuple(days)))
    return tuple(found)


def _dates(plan: Plan, air: SeasonAir) -> Iterator[SeasonDay]:
    """Yield the days of a record that bear a date of the stay."""
    length = (plan.stay.last - plan.stay.first).days + 1
    dates = [plan.stay.first + dt.timedelta(days=n) for n in range(length)]
    wanted = {(date.month, date.day) for date in dates}
    return (day for day in air.whole_days if (day.on.month, day.on.day) in wanted)


def _played(
    farm: Farm,
    position: Position,
    plan: Plan,
    hoses: Mapping[str, HoseSheet],
    air: SeasonAir,
    day: SeasonDay,
) -> StayDayPlayed:
    hours = air.record.hours[day.start : day.end]
    known = day_air(position, day.on, hours)
    classes = tuple(cls for cls in plan.herd.classes if is_banded(cls))
    drawn = farm_day(
        position, day.on, known.weather, classes, farm.about.all_hands_index, known
    )
    load = load_of(farm, plan.herd, TODAY, drawn, plan.rounds)
    watch = watch_of(plan.basis, load, plan.visits)
    why = tuple(
        found.key
        for found in stay_check.on_day(farm, plan, load, hoses)
        if _is_within_hours(found.key)
    )
    alone = _alone(load).values()
    overdue = [_overdue_h(gap, allowed) for gap in watch.gaps for allowed in alone]
    return StayDayPlayed(
        on=day.on,
        high_c=day.high_c,
        holds=not why,
        why=tuple(dict.fromkeys(why)),
        looks_h=tuple(look.hour for look in watch.looks),
        nobody_h=tuple(look.hour for look in watch.looks if look.by == NOBODY),
        attended=watch.attended,
        overdue_h=max(overdue, default=0.0),
    )


def _alone(load: StayLoad) -> Mapping[str, tuple[float, ...]]:
    """Return how long each pen may go unseen by hour, where nobody stays at All hands [h]."""
    return {
        pen: tuple(
            hours if band == Band.ALL_HANDS else need
            for hours, band, need in zip(load.allowed[pen], load.worst[pen], needs, strict=True)
        )
        for pen, needs in needs_in(load).items()
    }


def _overdue_h(gap: Gap, allowed: Sequence[float]) -> float:
    """Return how long in a gap a pen is overdue [h]."""
    found, at = 0.0, gap.start_h
    while at < gap.end_h:
        hour = math.floor(at)
        until = min(hour + 1.0, gap.end_h)
        due = gap.start_h + allowed[hour % HOURS_IN_DAY]
        found += max(0.0, until - max(at, due))
        at = until
    return found


def _is_within_hours(key: str) -> bool:
    row = published.row(SEVERITIES, area=AREA, key=key)
    return row.text("severity") == WITHIN_HOURS
