"""When meals can be given through a season, each day by the rule of a single day (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import Band
from binder.figures.day.feeding_hours import eaten_by_h, low_sun_h, turned_h, who_waits
from binder.figures.season.pen_season import worst_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.season.season_air import SeasonAir, SeasonDay


@dataclass(frozen=True, slots=True)
class SeasonMeals:
    """The meals of a season's whole days, for the classes that heat keeps from feed.

    Attributes:
        days: whole days on record.
        earliest_by_h: the earliest hour by which a morning meal had to be eaten [h].
        dark: days that were warm already by first light or within the time that a meal heats.
        latest_from_h: the latest hour from which an evening meal could go out [h].
        waits: days on which it still was number 2 or more then.
    """

    days: int
    earliest_by_h: float
    dark: int
    latest_from_h: float
    waits: int


def meals_of(air: SeasonAir, bands: Mapping[str, bytes]) -> SeasonMeals | None:
    """Return when meals could be given on the days of a record, None without days or classes.

    Hours as they are on record, without what lies between: an hour counts as its reading.

    Args:
        air: the hours.
        bands: the number of each hour by class.

    References:
        As `morning_by_h` and `evening_from_h` of a single day.
    """
    asked = who_waits(bands)
    days = air.whole_days
    if not asked or not days:
        return None
    worst = worst_of([bands[cls] for cls in asked], len(air.temp_c))
    mornings = [_morning(air, worst, day) for day in days]
    evenings = [_evening(air, worst, day) for day in days]
    return SeasonMeals(
        days=len(days),
        earliest_by_h=min(by_h for by_h, _ in mornings),
        dark=sum(dark for _, dark in mornings),
        latest_from_h=max(from_h for from_h, _ in evenings),
        waits=sum(waits for _, waits in evenings),
    )


def _hottest(air: SeasonAir, day: SeasonDay) -> int:
    return max(range(day.start, day.end), key=lambda at: air.temp_c[at])


def _morning(air: SeasonAir, worst: bytes, day: SeasonDay) -> tuple[float, bool]:
    """Return by when a meal is eaten [h], and whether that is later than the air asks."""
    peak = _hottest(air, day)
    low = min(range(day.start, peak + 1), key=lambda at: air.temp_c[at])
    passed = (at for at in range(low, peak + 1) if worst[at] > Band.FINE)
    at = next(passed, None)
    return eaten_by_h(None if at is None else float(air.clock_h[at]), day.sunrise_h)


def _evening(air: SeasonAir, worst: bytes, day: SeasonDay) -> tuple[float, bool]:
    """Return from when a meal goes out [h], and whether it still is number 2 or more then."""
    by_clock = {air.clock_h[at]: worst[at] for at in range(day.start, day.end)}
    from_h = turned_h(float(air.clock_h[_hottest(air, day)]), day.sunset_h)
    if by_clock.get(int(from_h), Band.FINE) >= Band.HOT:
        from_h = low_sun_h(from_h, day.sunset_h)
    return from_h, by_clock.get(int(from_h), Band.FINE) >= Band.HOT
