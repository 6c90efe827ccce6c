"""A farm played through weather files: each file a season, then what they say together."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.bands.band_charts import chart_of
from binder.figures.bands.band_rule import Band, is_banded, people_band
from binder.figures.day.farm_day import position_of
from binder.figures.rules import rule
from binder.figures.season import pen_season
from binder.figures.season.pen_season import Around, PenSeason, bands_by_class, worst_of
from binder.figures.season.pen_state import PenState, states
from binder.figures.season.season_air import SeasonAir, air_of, kilometres
from binder.figures.season.season_days import (
    FirstWrong,
    SeasonMonth,
    Spell,
    first_wrongs,
    loads_of,
    months_of,
    spells_of,
)
from binder.figures.season.season_gear import (
    HoseSeason,
    WallowSeason,
    hose_seasons,
    losses,
    wallow_seasons,
)
from binder.figures.season.season_meals import SeasonMeals, meals_of
from binder.problems import Place, Problem, ProblemsError
from binder.science.heat import F_AT_0_C, F_PER_C
from binder.science.heat_index import REGRESSION_COOLEST_F

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm
    from binder.figures.day.day_load import DayLoad
    from binder.figures.herd.groups import Herd
    from binder.figures.stays.plan import Plan
    from binder.figures.wallows.wallow_plan import WallowSheet
    from binder.figures.weather.sun_times import Position
    from binder.weather.record import Record

RULES = "season_rules"
KM_PER_M = 0.001


@dataclass(frozen=True, slots=True)
class FarmSeason:
    """A farm through one record.

    Attributes:
        around: its hours, and what of them every pen is played with.
        km: how far from the farm they were measured [km], None where that is not known.
        is_elsewhere: whether that is another place.
        pens: by pen id.
        hoses, wallows: by id.
        by_formula: whether the loss of wallows follows wind and sun.
        loads: load of each whole day, for the class worst off.
        wrong: what went wrong first on each day.
        spells: hot spells, in order.
        months: January first.
        people: hours with the sun up at number 0 ... 4 for people [h].
        meals: when meals could be given; None without whole days or banded classes.
    """

    around: Around
    km: float | None
    is_elsewhere: bool
    pens: Mapping[str, PenSeason]
    hoses: Mapping[str, HoseSeason]
    wallows: Mapping[str, WallowSeason]
    by_formula: bool
    loads: Mapping[dt.date, DayLoad]
    wrong: tuple[FirstWrong, ...]
    spells: tuple[Spell, ...]
    months: tuple[SeasonMonth, ...]
    people: tuple[int, ...]
    meals: SeasonMeals | None

    @property
    def air(self) -> SeasonAir:
        """Return its hours."""
        return self.around.air

    @property
    def record(self) -> Record:
        """Return the file."""
        return self.air.record

    @property
    def longest(self) -> Spell | None:
        """Return the longest hot spell, the first of those alike; None without one."""
        return max(self.spells, key=lambda spell: spell.days, default=None)

    def worst_of_chart(self, chart: str) -> bytes:
        """Return the worst number of each hour among the classes of a chart."""
        series = [bands for cls, bands in self.around.bands.items() if chart_of(cls) == chart]
        return worst_of(series, len(self.air.temp_c))


@dataclass(frozen=True, slots=True)
class Played:
    """A farm through all of its weather files.

    Attributes:
        on: the date whose animals are played.
        visits: hours of the day at which waterers are filled and wallows topped up [h].
        seasons: one for each file.
        states: each pen with animals as it stands, by id.
    """

    on: dt.date
    visits: tuple[int, ...]
    seasons: tuple[FarmSeason, ...]
    states: Mapping[str, PenState]


def require_position(farm: Farm) -> Position:
    """Return where the farm lies.

    Raises:
        ProblemsError: latitude, longitude or time zone is missing.
    """
    position = position_of(farm)
    if position is None:
        message = "is needed to play a season: latitude, longitude and timezone"
        raise ProblemsError([Problem(Place("farm.yaml"), "place", message)])
    return position


def play_farm(
    farm: Farm,
    herd: Herd,
    plan: Plan,
    wallows: Mapping[str, WallowSheet],
    records: Sequence[Record],
) -> Played:
    """Return a farm played through its weather files, as its files and animals stand.

    Args:
        farm: the farm.
        herd: its animals of a date.
        plan: of an ordinary day: when somebody is there, and what is filled up then.
        wallows: of `wallow_plan.for_farm`.
        records: at least one.

    Raises:
        ProblemsError: the farm's place is missing.

    References:
        season_rules.csv (our choice); every rule of what a pen lacks is its own area's.
    """
    position = require_position(farm)
    visits = tuple(round(visit.hour) % HOURS_IN_DAY for visit in plan.visits)
    stand = states(farm, herd)
    top_ups = {key: one.amount.value for key, one in plan.top_ups.items()}
    known = _Known(farm, herd, position, visits, wallows, top_ups, stand)
    seasons = tuple(_season(known, record) for record in records)
    return Played(herd.on, visits, seasons, stand)


@dataclass(frozen=True, slots=True)
class _Known:
    """What every record is played with; the fields are those of `play_farm` and `Played`."""

    farm: Farm
    herd: Herd
    position: Position
    visits: tuple[int, ...]
    wallows: Mapping[str, WallowSheet]
    top_ups: Mapping[str, float]
    states: Mapping[str, PenState]


def _season(known: _Known, record: Record) -> FarmSeason:
    farm, position, visits = known.farm, known.position, known.visits
    air = air_of(record, position)
    bands = bands_by_class(air, _classes(known.herd), farm.about.all_hands_index)
    hoses = hose_seasons(farm.equipment.hoses, air)
    loss_mm, by_formula = losses(air, position, farm.about.evaporation_mm_day)
    wallows = wallow_seasons(known.wallows, known.top_ups, visits, air, loss_mm)
    around = Around(
        air, bands, {key: one.none for key, one in hoses.items()},
        {key: one.dried for key, one in wallows.items()}, visits,
    )  # fmt: skip
    pens = {key: pen_season.play(state, around) for key, state in known.states.items()}
    wrong = first_wrongs(pens.values())
    loads = loads_of(air, bands)
    worst = worst_of([pen.bands for pen in pens.values()], len(air.temp_c))
    km = kilometres(position, record)
    far_km = rule(RULES, "another place from", "length").value * KM_PER_M
    return FarmSeason(
        around=around,
        km=km,
        is_elsewhere=km is not None and km >= far_km,
        pens=pens,
        hoses=hoses,
        wallows=wallows,
        by_formula=by_formula,
        loads=loads,
        wrong=wrong,
        spells=spells_of(air, wrong),
        months=months_of(air, worst, loads, wrong),
        people=_people(air),
        meals=meals_of(air, bands),
    )


def _classes(herd: Herd) -> tuple[str, ...]:
    return tuple(cls for cls in herd.classes if is_banded(cls))


def _people(air: SeasonAir) -> tuple[int, ...]:
    """Return the hours with the sun up at each number for people, in the shade [h]."""
    found = [0] * len(Band)
    coolest_c = (REGRESSION_COOLEST_F - F_AT_0_C) / F_PER_C  # below it no air reaches number 1
    for temp_c, rh_pct, up in zip(air.temp_c, air.rh_pct, air.up, strict=True):
        if up and temp_c < coolest_c:
            found[Band.FINE] += 1
        elif up:
            found[people_band(temp_c, min(rh_pct, 100.0))] += 1
    return tuple(found)
