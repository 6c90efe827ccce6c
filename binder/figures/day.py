"""The farm's day: sun, air by the hour, day load, meals; and all of it for a farm (step 3)."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from binder.figures import published
from binder.figures.band_rule import is_banded
from binder.figures.day_load import (
    DayLoad,
    Load,
    MonthCount,
    bands_of,
    count_loads,
    heat_waves,
    is_heat_wave,
    load_figure,
    load_of,
)
from binder.figures.daylight import (
    Day,
    HourAir,
    Position,
    SunTimes,
    clock,
    curve,
    day_of,
    sun_times,
    sunrise,
    sunset,
)
from binder.figures.entry import Argument, Entry
from binder.figures.feeding_hours import EVENING, MORNING, evening_meal, morning_meal
from binder.figures.weather import MONTHS, DayWeather, typical_days
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm, Month
    from binder.figures.band_rule import Band
    from binder.figures.figure import Figure
    from binder.figures.herd import Herd
    from binder.figures.weather import HourRow

__all__ = [
    "ENTRIES",
    "Day",
    "DayFigures",
    "DayLoad",
    "HourAir",
    "Load",
    "MonthCount",
    "MonthDay",
    "Position",
    "SunTimes",
    "clock",
    "count_loads",
    "curve",
    "day_of",
    "evening_meal",
    "for_farm",
    "heat_waves",
    "is_heat_wave",
    "load_figure",
    "load_of",
    "morning_meal",
    "position_of",
    "sun_times",
    "sunrise",
    "sunset",
]

_ASKED = "asked"  # origin of a day typed at the command line
_MIDDLE = 15  # the day of a month that stands for it
_SUBJECT = "hot day"


@dataclass(frozen=True, slots=True)
class MonthDay:
    """A typical day of a month.

    Attributes:
        month: its name.
        weather: high, low and dew point.
        day: its sun and air, on the 15th.
        loads: day load of each banded class.
    """

    month: Month
    weather: DayWeather
    day: Day
    loads: Mapping[str, DayLoad]


@dataclass(frozen=True, slots=True)
class DayFigures:
    """All that the day says about a farm; None or empty where it has no position.

    Attributes:
        weather: the hot day everything is drawn for.
        day: its sun and air on the binder's date.
        sunrise: on that date.
        sunset: on that date.
        curve: air temperature by the hour.
        bands: band of each hour, 0:00 to 23:00, by class.
        loads: day load, by class.
        morning: when the morning meal is done, by class.
        evening: from when the evening meal goes out, by class.
        months: typical day of each month that is known, January first.
        counts: days by load in the farm's own weather record, by month.
        heat_waves: heat waves in that record, as (first day, last day).
    """

    weather: DayWeather
    day: Day | None = None
    sunrise: Figure | None = None
    sunset: Figure | None = None
    curve: Figure | None = None
    bands: Mapping[str, tuple[Band, ...]] = field(default_factory=dict)
    loads: Mapping[str, Figure] = field(default_factory=dict)
    morning: Mapping[str, Figure] = field(default_factory=dict)
    evening: Mapping[str, Figure] = field(default_factory=dict)
    months: tuple[MonthDay, ...] = ()
    counts: tuple[MonthCount, ...] = ()
    heat_waves: tuple[tuple[dt.date, dt.date], ...] = ()


def position_of(farm: Farm) -> Position | None:
    """Return where the farm lies, None where latitude, longitude or time zone is missing."""
    spot = farm.about.place
    if spot.latitude is None or spot.longitude is None or spot.timezone is None:
        return None
    return Position(spot.latitude, spot.longitude, spot.timezone)


def for_farm(
    farm: Farm, herd: Herd, hot: DayWeather, rows: Sequence[HourRow] = ()
) -> DayFigures:
    """Return the hot day, the months and the weather record of a farm.

    Args:
        farm: the farm.
        herd: its herd on the day.
        hot: its typical hot day (`weather.hot_day`).
        rows: its weather record (`weather.parse_hours`), empty where it has none.

    Raises:
        ProblemsError: weather or a place for which no day can be drawn, such as an hour of the
            hottest air before noon or an unknown time zone.
    """
    own = farm.about.all_hands_index
    classes = tuple(cls for cls in herd.classes if is_banded(cls))
    position = position_of(farm)
    if position is None:
        counts = count_loads(rows, classes, own)
        return DayFigures(hot, counts=counts, heat_waves=heat_waves(rows))
    try:
        return _drawn(farm, position, herd, hot, rows, classes)
    except ValueError as error:
        raise ProblemsError([Problem(Place("farm.yaml"), "", str(error))]) from error


def _drawn(
    farm: Farm,
    position: Position,
    herd: Herd,
    hot: DayWeather,
    rows: Sequence[HourRow],
    classes: tuple[str, ...],
) -> DayFigures:
    own = farm.about.all_hands_index
    day = day_of(position, herd.on, hot)
    where = (position.latitude, position.longitude, position.timezone, herd.on)
    return DayFigures(
        weather=hot,
        day=day,
        sunrise=sunrise(*where, _SUBJECT),
        sunset=sunset(*where, _SUBJECT),
        curve=curve(day, _SUBJECT),
        bands={cls: bands_of(cls, day.hours, own) for cls in classes},
        loads={cls: load_figure(cls, day.hours, hot.low_c, own, cls) for cls in classes},
        morning={cls: morning_meal(day, cls, own, cls) for cls in classes},
        evening={cls: evening_meal(day, cls, own, cls) for cls in classes},
        months=_months(farm, position, herd.on.year, rows, classes),
        counts=count_loads(rows, classes, own),
        heat_waves=heat_waves(rows),
    )


def _months(
    farm: Farm,
    position: Position,
    year: int,
    rows: Sequence[HourRow],
    classes: tuple[str, ...],
) -> tuple[MonthDay, ...]:
    own = farm.about.all_hands_index
    found = []
    for month, weather in typical_days(farm, rows).items():
        on = dt.date(year, MONTHS.index(month) + 1, _MIDDLE)
        day = day_of(position, on, weather)
        loads = {cls: load_of(cls, day.hours, weather.low_c, own) for cls in classes}
        found.append(MonthDay(month, weather, day, loads))
    return tuple(found)


def _asked_day(
    date: dt.date,
    latitude: float,
    longitude: float,
    timezone: str,
    high: float,
    low: float,
    dew_point: float,
    hottest_at: float | None = None,
) -> Day:
    weather = DayWeather(high, low, dew_point, hottest_at, assumed=False, origin=_ASKED)
    return day_of(Position(latitude, longitude, timezone), date, weather)


def _asked_curve(**given: Any) -> Figure:
    return curve(_asked_day(**given))


def _asked_load(**given: Any) -> Figure:
    cls = given.pop("class")
    day = _asked_day(**given)
    return load_figure(cls, day.hours, day.weather.low_c)


def _asked_morning(**given: Any) -> Figure:
    cls = given.pop("class")
    return morning_meal(_asked_day(**given), cls)


def _asked_evening(**given: Any) -> Figure:
    cls = given.pop("class")
    return evening_meal(_asked_day(**given), cls)


_CLASS = Argument("class", "text", choices=tuple(
    row.text("class") for row in published.rows("classes")
))  # fmt: skip
_WHERE = (
    Argument("latitude", "degrees"),
    Argument("longitude", "degrees"),
    Argument("timezone", "text"),
    Argument("date", "date"),
)
_DAY = (
    *_WHERE,
    Argument("high", "temperature"),
    Argument("low", "temperature"),
    Argument("dew_point", "temperature"),
    Argument("hottest_at", "time of day", optional=True),
)

ENTRIES = (
    Entry("sunrise", _WHERE, sunrise),
    Entry("sunset", _WHERE, sunset),
    Entry("day-curve", _DAY, _asked_curve),
    Entry("day-load", (_CLASS, *_DAY), _asked_load),
    Entry(MORNING, (_CLASS, *_DAY), _asked_morning),
    Entry(EVENING, (_CLASS, *_DAY), _asked_evening),
)
