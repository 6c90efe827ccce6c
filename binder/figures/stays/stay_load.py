"""The sorts of day a stay may bring, and how bad each gets in each pen (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import is_banded
from binder.figures.day.farm_day import farm_day, position_of
from binder.figures.weather.hot_days import MONTHS, typical_days

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm, Stay
    from binder.figures.day.farm_day import Day
    from binder.figures.herd.groups import Herd
    from binder.figures.rounds.farm_rounds import RoundFigures
    from binder.figures.weather.hot_days import DayWeather, Hour

TYPICAL, HOT, EXTREME, TODAY = "typical", "hot", "extreme", "today"
PLANNED_FOR = (HOT, TODAY)  # the days that water, wallows and meals are worked out for


@dataclass(frozen=True, slots=True)
class StayLoad:
    """A sort of day the stay may bring: `typical` of its month, `hot`, `extreme`, or `today`.

    Attributes:
        key: which.
        weather: its high, low and dew point.
        day: bands by class and hour in the middle of the stay; None without a position.
        allowed: for each pen with banded animals, by hour, how long it may go unseen [h].
        worst: for each such pen, by hour, its worst band.
    """

    key: str
    weather: DayWeather
    day: Day | None
    allowed: Mapping[str, tuple[float, ...]]
    worst: Mapping[str, tuple[int, ...]]


def for_stay(
    farm: Farm,
    stay: Stay,
    herd: Herd,
    weathers: Mapping[str, DayWeather],
    rows: Sequence[Hour],
    walked: RoundFigures,
) -> dict[str, StayLoad]:
    """Return the sorts of day that are known, by key, mildest first.

    Args:
        farm: the farm.
        stay: whose middle day's sun and month stand for all of its days.
        herd: of the plan, so that its pens are those which the looks are planned for.
        weathers: the farm's `hot` and `extreme` day.
        rows: its weather record, empty where it has none.
        walked: the round, with the interval of each band by pen.
    """
    middle = stay.first + (stay.last - stay.first) / 2
    typical = typical_days(farm, rows).get(MONTHS[middle.month - 1])
    known = ({TYPICAL: typical} if typical else {}) | dict(weathers)
    return {
        key: _load(farm, middle, herd, key, weather, walked) for key, weather in known.items()
    }


def _load(
    farm: Farm,
    on: dt.date,
    herd: Herd,
    key: str,
    weather: DayWeather,
    walked: RoundFigures,
) -> StayLoad:
    position = position_of(farm)
    if position is None:
        return StayLoad(key, weather, None, {}, {})
    classes = tuple(cls for cls in herd.classes if is_banded(cls))
    day = farm_day(position, on, weather, classes, farm.about.all_hands_index)
    return load_of(farm, herd, key, day, walked)


def load_of(farm: Farm, herd: Herd, key: str, day: Day, walked: RoundFigures) -> StayLoad:
    """Return a day as a stay sees it: how bad it gets in each pen, how long each may wait.

    Args:
        farm: the farm.
        herd: its herd on that day.
        key: which sort of day it is.
        day: its bands by class and hour.
        walked: the round, with the interval of each band by pen.
    """
    worst = worst_bands(farm, herd, day)
    return StayLoad(key, day.weather, day, allowed_hours(walked, worst), worst)


def worst_bands(farm: Farm, herd: Herd, day: Day) -> dict[str, tuple[int, ...]]:
    """Return the worst band of each hour in each pen with banded animals, by pen id."""
    found: dict[str, tuple[int, ...]] = {}
    for pen in farm.pens:
        inside = [day.bands[g.cls] for g in herd.in_pen(pen.id) if g.cls in day.bands]
        if inside:
            found[pen.id] = tuple(int(max(bands)) for bands in zip(*inside, strict=True))
    return found


def allowed_hours(
    walked: RoundFigures, worst: Mapping[str, Sequence[int]]
) -> dict[str, tuple[float, ...]]:
    """Return, for each hour, how long each pen may go unseen in its worst band [h]."""
    found = {}
    for pen, bands in worst.items():
        by_band = [figure.amount.value for figure in walked.pens[pen].intervals.values()]
        found[pen] = tuple(by_band[band] for band in bands)
    return found
