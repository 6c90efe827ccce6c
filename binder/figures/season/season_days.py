"""Days, months and hot spells of a record for a whole farm (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.bands.band_lines import Band, index_lines
from binder.figures.day.day_load import DayLoad, LoadLevel, load_by_hours, waves_in
from binder.figures.figure import OUR_CHOICE
from binder.figures.season.pen_season import Wrong

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping

    from binder.figures.season.pen_season import PenSeason
    from binder.figures.season.season_air import SeasonAir

# Where the published classes of the livestock index start: 75, 79, 84 (livestock_bands.csv).
LINES = tuple(round(each.start) for each in index_lines() if OUR_CHOICE not in each.sources)


@dataclass(frozen=True, slots=True)
class FirstWrong:
    """What went wrong first on a day: the hour [h], the pen, and what."""

    on: dt.date
    hour: int
    pen: str
    kinds: Wrong


@dataclass(frozen=True, slots=True)
class Spell:
    """Days running in which the animals could not recover, the first and the last.

    Attributes:
        first, last: its days.
        wrong: what went wrong in it, the first of each day, in order.
    """

    first: dt.date
    last: dt.date
    wrong: tuple[FirstWrong, ...]

    @property
    def days(self) -> int:
        """Return its length [days]."""
        return (self.last - self.first).days + 1


@dataclass(frozen=True, slots=True)
class SeasonMonth:
    """A month of a record.

    Attributes:
        month: 1 to 12.
        days: whole days on record.
        hours: hours at number 0, 1 ... 4 in the pen that is worst off, of all hours.
        index: hours with the livestock index at or over each of `LINES`.
        loads: whole days that were light, hot, extreme for the class worst off.
        wrong: days on which anything went wrong in any pen.
    """

    month: int
    days: int
    hours: tuple[int, ...]
    index: tuple[int, ...]
    loads: tuple[int, ...]
    wrong: int


def first_wrongs(pens: Iterable[PenSeason]) -> tuple[FirstWrong, ...]:
    """Return what went wrong first on each day, all pens together; the days in order."""
    by_day: dict[dt.date, FirstWrong] = {}
    for pen in pens:
        for day in pen.days:
            one = FirstWrong(day.on, day.hour, pen.state.pen.id, day.kinds)
            before = by_day.get(day.on)
            if before is None or one.hour < before.hour:
                by_day[day.on] = one
    return tuple(by_day[on] for on in sorted(by_day))


def loads_of(air: SeasonAir, bands: Mapping[str, bytes]) -> Mapping[dt.date, DayLoad]:
    """Return the load of each whole day for the class worst off, by `load_by_hours`."""
    found = {}
    distinct = tuple(dict.fromkeys(bands.values()))
    for day in air.whole_days:
        loads = []
        for series in distinct:
            part = series[day.start : day.end]
            counts = tuple(part.count(int(band)) for band in Band)
            loads.append(load_by_hours(counts, day.low_c, day.recovery_h))
        if loads:
            found[day.on] = max(loads, key=lambda load: (load.load, load.hours[::-1]))
    return found


def spells_of(air: SeasonAir, wrong: Iterable[FirstWrong]) -> tuple[Spell, ...]:
    """Return the hot spells of a record, in order.

    References:
        As `waves_in`.
    """
    every = tuple(wrong)
    return tuple(
        Spell(first, last, tuple(one for one in every if first <= one.on <= last))
        for first, last in waves_in({day.on: day.recovery_h for day in air.whole_days})
    )


def months_of(
    air: SeasonAir,
    worst: bytes,
    loads: Mapping[dt.date, DayLoad],
    wrong: Iterable[FirstWrong],
) -> tuple[SeasonMonth, ...]:
    """Return each month on record, January first.

    Args:
        air: the hours.
        worst: the number of each hour in the pen worst off.
        loads: of `loads_of`.
        wrong: of `first_wrongs`.
    """
    bad_days = [one.on.month for one in wrong]
    found = []
    for month in sorted({day.on.month for day in air.whole_days}):
        days = [day for day in air.days if day.on.month == month]
        at = [i for day in days for i in range(day.start, day.end)]
        bands = [worst[i] for i in at]
        index = [air.whole[i] or 0 for i in at]
        levels = [loads[day.on].load for day in days if day.on in loads]
        found.append(
            SeasonMonth(
                month=month,
                days=sum(day.is_whole for day in days),
                hours=tuple(bands.count(int(band)) for band in Band),
                index=tuple(sum(each >= line for each in index) for line in LINES),
                loads=tuple(levels.count(level) for level in LoadLevel),
                wrong=bad_days.count(month),
            )
        )
    return tuple(found)
