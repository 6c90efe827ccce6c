"""The hot day, the months and the weather record of a farm (step 3)."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from binder.figures.bands.band_charts import chart_of
from binder.figures.bands.band_rule import Band, is_banded
from binder.figures.day.day_load import (
    bands_of,
    count_loads,
    heat_waves,
    is_warm_night,
    load_figure,
    load_of,
)
from binder.figures.day.feeding_hours import Meals, meal_times
from binder.figures.weather.daylight import curve, day_of, sunrise, sunset
from binder.figures.weather.hot_days import MONTHS, DayWeather, typical_days
from binder.figures.weather.sun_times import NoDayError, Position, day_times
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm, Month
    from binder.figures.day.day_load import DayLoad, MonthCount
    from binder.figures.figure import Figure
    from binder.figures.herd.groups import Herd
    from binder.figures.weather.daylight import DayAir, HourAir
    from binder.figures.weather.hot_days import Hour

MIDDLE = 15  # the day of a month that stands for it
SUBJECT = "hot day"


@dataclass(frozen=True, slots=True)
class Day:
    """A day on the farm: its air, and what that is for the farm's classes.

    Attributes:
        air: its sun and air by the hour.
        bands: band of each hour, 0:00 to 23:00, by class.
        loads: day load, by class.
    """

    air: DayAir
    bands: Mapping[str, tuple[Band, ...]]
    loads: Mapping[str, DayLoad]

    @property
    def weather(self) -> DayWeather:
        """Return the high, low and dew point it was drawn from."""
        return self.air.weather

    @property
    def hours(self) -> tuple[HourAir, ...]:
        """Return the air at 0:00, 1:00 ... 23:00."""
        return self.air.hours

    @property
    def sunrise_h(self) -> float:
        """Return sunrise on the local clock [h]."""
        return self.air.sunrise_h

    @property
    def sunset_h(self) -> float:
        """Return sunset on the local clock [h]."""
        return self.air.sunset_h

    @property
    def night_recovers(self) -> bool:
        """Return whether the night gets cool enough for animals to recover."""
        return not is_warm_night(self.weather.low_c)

    @property
    def worst_hours(self) -> tuple[float, float] | None:
        """Return first and last hour of the day's worst band on the farm [h].

        None where all classes stay at number 0 all day.
        """
        by_hour = [max(bands) for bands in zip(*self.bands.values(), strict=True)]
        worst = max(by_hour, default=Band.FINE)
        if worst is Band.FINE:
            return None
        at = [hour for hour, band in enumerate(by_hour) if band is worst]
        return float(at[0]), float(at[-1] + 1)

    def bands_of(self, chart: str) -> tuple[Band, ...]:
        """Return the worst band of each hour among the farm's classes of a chart."""
        group = [bands for cls, bands in self.bands.items() if chart_of(cls) == chart]
        return tuple(max(bands) for bands in zip(*group, strict=True))

    def hours_from(self, chart: str, band: Band) -> int:
        """Return the hours that a chart's group spends in a band or a worse one [h]."""
        return sum(each >= band for each in self.bands_of(chart))


@dataclass(frozen=True, slots=True)
class DayFigures:
    """All that the day says about a farm; None or empty where it has no position.

    Attributes:
        weather: the hot day everything is drawn for.
        day: that day on the binder's date.
        sunrise: on that date.
        sunset: on that date.
        curve: air temperature by the hour.
        loads: day load, by class.
        meals: the two feeding times, one for all; None too where nothing is banded.
        months: typical day of each month that is known, January first.
        sunless: months that are known and have no such day: in the middle of them the sun does
            not rise and set on one date.
        counts: days by load in the farm's own weather record, by month.
        heat_waves: heat waves in that record, as (first day, last day).
    """

    weather: DayWeather
    day: Day | None = None
    sunrise: Figure | None = None
    sunset: Figure | None = None
    curve: Figure | None = None
    loads: Mapping[str, Figure] = field(default_factory=dict)
    meals: Meals | None = None
    months: Mapping[Month, Day] = field(default_factory=dict)
    sunless: tuple[Month, ...] = ()
    counts: tuple[MonthCount, ...] = ()
    heat_waves: tuple[tuple[dt.date, dt.date], ...] = ()


def position_of(farm: Farm) -> Position | None:
    """Return where the farm lies, None where latitude, longitude or time zone is missing."""
    spot = farm.about.place
    if spot.latitude is None or spot.longitude is None or spot.timezone is None:
        return None
    return Position(spot.latitude, spot.longitude, spot.timezone)


def farm_day(
    position: Position,
    on: dt.date,
    weather: DayWeather,
    classes: Sequence[str],
    all_hands_index: int | None = None,
    air: DayAir | None = None,
) -> Day:
    """Return a day of that weather, or of air known by the hour, for banded classes.

    Raises:
        NotPublishedError: a class that has no band, or a dew point above the high.
        ValueError: weather or a place for which no day can be drawn.
    """
    air = air or day_of(position, on, weather)
    return Day(
        air,
        {cls: _bands(cls, air, all_hands_index) for cls in classes},
        {cls: load_of(cls, air.hours, weather.low_c, all_hands_index) for cls in classes},
    )


def _bands(cls: str, air: DayAir, all_hands_index: int | None) -> tuple[Band, ...]:
    """Return the band of each hour, in the hottest hour that of the day's peak if it is worse.

    The air is hottest between two whole hours; whoever reads it then must find the day's worst
    number on the paper too.
    """
    found = list(bands_of(cls, air.hours, all_hands_index))
    at = int(air.peak_h) % len(found)
    peak = bands_of(cls, (air.air_at(air.peak_h),), all_hands_index)[0]
    found[at] = max(found[at], peak)
    return tuple(found)


def for_farm(
    farm: Farm,
    herd: Herd,
    hot: DayWeather,
    rows: Sequence[Hour] = (),
    known_air: DayAir | None = None,
) -> DayFigures:
    """Return the hot day, the months and the weather record of a farm.

    Args:
        farm: the farm.
        herd: its herd on the day.
        hot: its typical hot day (`weather.hot_day`).
        rows: its weather record (`weather.parse_hours`), empty where it has none.
        known_air: the air of that hot day where it is known by the hour, as from a forecast.

    Raises:
        ProblemsError: weather or a place for which no day can be drawn, such as an hour of the
            hottest air before noon or an unknown time zone.
    """
    own = farm.about.all_hands_index
    classes = tuple(cls for cls in herd.classes if is_banded(cls))
    try:
        counts = count_loads(rows, classes, own)
        position = position_of(farm)
        if position is None:
            return DayFigures(hot, counts=counts, heat_waves=heat_waves(rows))
        day = farm_day(position, herd.on, hot, classes, own, known_air)
        typical = typical_days(farm, rows)
        middles = {month: _middle(herd.on.year, month) for month in typical}
        sunless = tuple(month for month in typical if not _has_day(position, middles[month]))
        months = {
            month: farm_day(position, middles[month], weather, classes, own)
            for month, weather in typical.items()
            if month not in sunless
        }
    except ProblemsError:
        raise
    except ValueError as error:
        message = f"no day can be drawn here on {herd.on}: {error}; check place and time zone"
        raise ProblemsError([Problem(Place("farm.yaml"), "place", message)]) from error
    spot = (position.latitude, position.longitude, position.timezone, herd.on)
    air = day.air
    return DayFigures(
        weather=hot,
        day=day,
        sunrise=sunrise(*spot, SUBJECT),
        sunset=sunset(*spot, SUBJECT),
        curve=curve(air, SUBJECT),
        loads={cls: load_figure(cls, air.hours, hot.low_c, own, cls) for cls in classes},
        meals=meal_times(air, classes, own),
        months=months,
        sunless=sunless,
        counts=counts,
        heat_waves=heat_waves(rows),
    )


def _has_day(position: Position, on: dt.date) -> bool:
    """Return whether the sun rises and sets on a date; a wrong time zone is still told."""
    try:
        day_times(position, on)
    except NoDayError as error:
        if error.field == "timezone":
            raise
        return False
    return True


def _middle(year: int, month: Month) -> dt.date:
    return dt.date(year, MONTHS.index(month) + 1, MIDDLE)
