"""How hard a whole day is for a class, and when hard days make a heat wave (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from itertools import groupby
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.bands.band_rule import PLACES, Band, band
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.rules import rule
from binder.figures.weather.daylight import RULES, HourAir
from binder.science import heat
from binder.science.humidity import relative_humidity_pct
from binder.units import Amount

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping, Sequence

    from binder.figures.weather.hot_days import Hour


class LoadLevel(IntEnum):
    """How hard a day is."""

    LIGHT = 0
    HOT = 1
    EXTREME = 2

    @property
    def key(self) -> str:
        """Return the key in words and CSS: `extreme`."""
        return self.name.lower()

    @property
    def word(self) -> str:
        """Return the word that `binder figure` gives: `Extreme`."""
        return self.name.capitalize()


@dataclass(frozen=True, slots=True)
class DayLoad:
    """A day's load and what led to it.

    Attributes:
        load: how hard the day is.
        by_hours: the same before the night is asked.
        hours: hours in each band, number 0 first [h].
        low_c: coolest air of the day [C].
        warm_night: whether the night stayed above the line at which animals recover.
        recovery_h: hours in which they shed heat [h].
    """

    load: LoadLevel
    by_hours: LoadLevel
    hours: tuple[int, ...]
    low_c: float
    warm_night: bool
    recovery_h: int


def bands_of(
    cls: str, hours: Iterable[HourAir], all_hands_index: int | None = None
) -> tuple[Band, ...]:
    """Return the band of each hour for a class; colder air than the index goes is number 0."""
    return tuple(band(cls, air.temp_c, air.rh_pct, all_hands_index) for air in hours)


def is_warm_night(low_c: float) -> bool:
    """Return whether a night stays too warm to recover in.

    Args:
        low_c: its lowest air temperature [C]; the line itself counts as warm.

    References:
        heat-98 (75 F); air below it has an index of 74 or less, at which heat-21 counts hours
        of recovery. From cattle.
    """
    return low_c >= rule(RULES, "warm night", "temperature").value


def load_of(
    cls: str, hours: Sequence[HourAir], low_c: float, all_hands_index: int | None = None
) -> DayLoad:
    """Return how hard a day is for a class.

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        hours: the air of each hour of the day.
        low_c: coolest air of the day [C].
        all_hands_index: the owner's own start of All hands on the index; None for ours.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.
        ValueError: air hotter than the index goes.

    References:
        day_load.csv (our choice); heat-98 and heat-21 (warm night); heat-91 (recovery).
    """
    found = bands_of(cls, hours, all_hands_index)
    counts = tuple(found.count(each) for each in Band)
    return load_by_hours(counts, low_c, recovery_hours(hours))


def load_by_hours(hours: tuple[int, ...], low_c: float, recovery_h: int) -> DayLoad:
    """Return how hard a day is from the hours of it in each band.

    Args:
        hours: in each band, number 0 first [h].
        low_c: coolest air of the day [C].
        recovery_h: hours in which animals shed heat [h].

    References:
        As `load_of`.
    """
    by_hours = max(
        (
            LoadLevel[row.text("load").upper()]
            for row in published.rows("day_load")
            if sum(hours[Band[row.text("band").upper()] :]) >= row.number("hours")
        ),
        default=LoadLevel.LIGHT,
    )
    warm = is_warm_night(low_c)
    load = LoadLevel(min(by_hours + warm, max(LoadLevel)))
    return DayLoad(load, by_hours, hours, low_c, warm, recovery_h)


def recovery_hours(hours: Iterable[HourAir]) -> int:
    """Return the hours of a day in which animals shed heat [h]: index below 72 [heat-91]."""
    return recovery_by_index(
        heat.livestock_index(max(air.temp_c, heat.COLDEST_C), air.rh_pct) for air in hours
    )


def recovery_by_index(index: Iterable[float | None]) -> int:
    """Return the same from the livestock index of each hour, None in air too cold for it."""
    known = (heat.LOWEST_THI if each is None else each for each in index)
    # Rounded against what binary arithmetic leaves; frost lies below the scale.
    return heat.recovery_hours([max(round(each, PLACES), heat.LOWEST_THI) for each in known])


def load_figure(
    cls: str,
    hours: Sequence[HourAir],
    low_c: float,
    all_hands_index: int | None = None,
    subject: str = "",
) -> Figure:
    """Return the day load of a class as a figure, with the hours that make it.

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        hours: the air of each hour of the day.
        low_c: coolest air of the day [C].
        all_hands_index: the owner's own start of All hands on the index; None for ours.
        subject: what on the farm it is about.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.
        ValueError: air hotter than the index goes.

    References:
        As `load_of`.
    """
    found = load_of(cls, hours, low_c, all_hands_index)
    night = rule(RULES, "warm night", "temperature")
    wanted = rule(RULES, "recovery hours", "time")
    by_band = {each.key: found.hours[each] for each in Band}
    low = Amount(low_c, "degC")
    working = (
        step("hours", cls=cls, **by_band),
        step("by_hours", load=found.by_hours.word),
        step(
            "warm_night" if found.warm_night else "cool_night",
            low=low,
            line=Amount(night.value, "degC"),
        ),
        step("recovery", hours=found.recovery_h, wanted=round(wanted.value)),
        step("load", load=found.load.word),
    )
    sources = merge_sources(
        published.formula("day_formulas", "day-load"), night.sources, wanted.sources
    )
    short = found.recovery_h < wanted.value
    cautions = ("no_recovery", "first") if short else ("first",)
    return Figure("day-load", found.load.word, working, sources, cautions, subject)


def is_heat_wave(recovery_h: Iterable[int]) -> bool:
    """Return whether days running, given by their recovery hours, hold a heat wave.

    References:
        heat-91: at least three days running with fewer than ten recovery hours each.
    """
    wanted = rule(RULES, "recovery hours", "time").value
    days = rule(RULES, "heat wave days", "number").value
    return any(
        short and sum(1 for _ in run) >= days
        for short, run in groupby(recovery_h, key=lambda hours: hours < wanted)
    )


def heat_waves(rows: Iterable[Hour]) -> tuple[tuple[dt.date, dt.date], ...]:
    """Return the heat waves of a weather record as (first day, last day), by `is_heat_wave`."""
    return waves_in({date: recovery_hours(hours) for date, hours in days_of(rows).items()})


def waves_in(recovery_h: Mapping[dt.date, int]) -> tuple[tuple[dt.date, dt.date], ...]:
    """Return the heat waves as (first day, last day), by `is_heat_wave`.

    Args:
        recovery_h: of each day that is known, in order [h]; one that is missing ends a wave.
    """
    wanted = rule(RULES, "recovery hours", "time").value
    least = rule(RULES, "heat wave days", "number").value
    short = [date for date, hours in recovery_h.items() if hours < wanted]
    # Days that follow each other keep their distance to their place in the list.
    runs = [
        [date for _, date in run]
        for _, run in groupby(enumerate(short), key=lambda at: at[1].toordinal() - at[0])
    ]
    return tuple((run[0], run[-1]) for run in runs if len(run) >= least)


@dataclass(frozen=True, slots=True)
class MonthCount:
    """Days of a month in the farm's own weather record.

    Attributes:
        month: 1 to 12.
        days: whole days on record.
        loads: for each class, days that were light, hot, extreme.
    """

    month: int
    days: int
    loads: Mapping[str, tuple[int, ...]]


def days_of(rows: Iterable[Hour]) -> dict[dt.date, tuple[HourAir, ...]]:
    """Return the whole days of a weather record; each hour by its hottest reading.

    A day counts with 20 hours on record (our choice).
    """
    hottest: dict[tuple[dt.date, int], Hour] = {}
    for row in rows:
        key = (row.when.date(), row.when.hour)
        if key not in hottest or row.temp_c > hottest[key].temp_c:
            hottest[key] = row
    days: dict[dt.date, tuple[HourAir, ...]] = {}
    for date, keys in groupby(sorted(hottest), key=lambda key: key[0]):
        days[date] = tuple(_air(hottest[key]) for key in keys)
    whole = rule(RULES, "whole day", "time").value
    return {date: hours for date, hours in days.items() if len(hours) >= whole}


def _air(row: Hour) -> HourAir:
    rh_pct = relative_humidity_pct(row.temp_c, row.dew_point_c)
    return HourAir(float(row.when.hour), row.temp_c, rh_pct)


def count_loads(
    rows: Iterable[Hour], classes: Sequence[str], all_hands_index: int | None = None
) -> tuple[MonthCount, ...]:
    """Return how many days of each month on record were light, hot and extreme.

    Args:
        rows: the weather record (`weather.parse_hours`).
        classes: banded classes to count for.
        all_hands_index: the owner's own start of All hands on the index; None for ours.
    """
    by_month: dict[int, list[tuple[HourAir, ...]]] = {}
    for date, hours in days_of(rows).items():
        by_month.setdefault(date.month, []).append(hours)
    return tuple(
        MonthCount(
            month, len(days), {cls: _tally(cls, days, all_hands_index) for cls in classes}
        )
        for month, days in sorted(by_month.items())
    )


def _tally(
    cls: str, days: Sequence[tuple[HourAir, ...]], all_hands_index: int | None
) -> tuple[int, ...]:
    loads = [
        load_of(cls, hours, min(air.temp_c for air in hours), all_hands_index).load
        for hours in days
    ]
    return tuple(loads.count(load) for load in LoadLevel)
