"""A pen played through the hours of a record: its numbers, what went wrong when (step 3)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import IntFlag
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.bands.band_lines import ladder_of
from binder.figures.bands.band_rule import Band
from binder.figures.noise import NOISE
from binder.figures.rounds.looks import RULES as LOOK_RULES
from binder.figures.rules import rule

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from binder.figures.season.pen_state import PenState
    from binder.figures.season.season_air import SeasonAir

RULES = "season_rules"


class Wrong(IntFlag):
    """What goes wrong in an hour, in the order in which it is told."""

    DRY = 1
    HOT_WATER = 2
    PLACES = 4
    AIR = 8
    SHADE = 16
    WET = 32

    @property
    def key(self) -> str:
        """Return the key in words: `hot_water`."""
        return (self.name or "").lower()


KINDS = tuple(Wrong)


@dataclass(frozen=True, slots=True)
class DayWrong:
    """The first thing that went wrong in a pen on a day.

    Attributes:
        on: the date.
        hour: when [h since midnight].
        kinds: what, at that hour.
        hours: hours of the day in which anything was wrong [h].
    """

    on: dt.date
    hour: int
    kinds: Wrong
    hours: int


@dataclass(frozen=True, slots=True)
class PenSeason:
    """A pen through a record.

    Attributes:
        state: the pen.
        bands: its worst number of each hour.
        wrong: what goes wrong in each hour, as `Wrong`.
        days: the days on which anything did.
        drunk_l: what its animals drank on the whole days [L].
        looks: short looks that its numbers ask for in all.
        fan_h: hours its fans run [h].
    """

    state: PenState
    bands: bytes
    wrong: bytes
    days: tuple[DayWrong, ...]
    drunk_l: float
    looks: float
    fan_h: int

    @property
    def bad_h(self) -> int:
        """Return the hours in which anything goes wrong [h]."""
        return len(self.wrong) - self.wrong.count(0)

    @property
    def animal_h(self) -> int:
        """Return the same times its animals [animal-hours]."""
        return self.bad_h * self.state.head

    @property
    def has_run_dry(self) -> bool:
        """Return whether a waterer was empty in any hour."""
        return self.hours_of(Wrong.DRY) > 0

    def hours_of(self, kind: Wrong) -> int:
        """Return the hours in which one thing goes wrong [h]."""
        return sum(self.wrong.count(mask) for mask in range(1, max(KINDS) * 2) if mask & kind)

    def hours_at(self, band: Band) -> int:
        """Return the hours at a number [h]."""
        return self.bands.count(int(band))


def bands_by_class(
    air: SeasonAir, classes: Sequence[str], all_hands_index: int | None
) -> Mapping[str, bytes]:
    """Return the number of each hour for each class; classes of one ladder are worked once."""
    by_ladder = {}
    found = {}
    for cls in classes:
        ladder = ladder_of(cls, all_hands_index)
        if ladder not in by_ladder:
            by_ladder[ladder] = bytes(map(ladder.band, air.temp_c, air.whole, air.rh_pct))
        found[cls] = by_ladder[ladder]
    return found


def worst_of(bands: Sequence[bytes], hours: int) -> bytes:
    """Return the worst number of each hour among several classes; 0 where there is none."""
    if not bands:
        return bytes(hours)
    if len(bands) == 1:
        return bands[0]
    return bytes(map(max, *bands))


@dataclass(frozen=True, slots=True)
class Around:
    """What a pen is played with.

    Attributes:
        air: the hours.
        bands: number of each hour by class.
        hot_water: for each hose on the ground, whether each hour's still water is no water.
        dried: for each wallow, whether it has lost too much in each hour.
        visits: hours of the day at which waterers are filled.
    """

    air: SeasonAir
    bands: Mapping[str, bytes]
    hot_water: Mapping[str, bytes]
    dried: Mapping[str, bytes]
    visits: tuple[int, ...]


def play(state: PenState, around: Around) -> PenSeason:
    """Return a pen played through a record, as its state stands.

    References:
        season_rules.csv (our choice); the rules of each area for what the pen lacks.
    """
    air = around.air
    bands = worst_of([around.bands[cls] for cls in state.classes], len(air.temp_c))
    dry, drunk_l = _dry(state, around)
    tripped, fan_h = _tripped(state, bands, air)
    wallow = state.pen.wallow
    mud = around.dried.get(wallow.id, b"") if wallow is not None else b""
    wrong = bytearray(dry)
    for key in state.hoses:
        _mark(wrong, Wrong.HOT_WATER, around.hot_water.get(key, b""))
    _lacking(wrong, state, bands, air)
    from_band = int(rule(RULES, "bad from number", "number").value)
    for kind, series in ((Wrong.AIR, tripped), (Wrong.WET, mud)):
        _mark(wrong, kind, [bad and bands[at] >= from_band for at, bad in enumerate(series)])
    return PenSeason(
        state, bands, bytes(wrong), _days(air, wrong), drunk_l,
        _looks(state, bands, air), fan_h,
    )  # fmt: skip


def _mark(wrong: bytearray, kind: Wrong, series: Sequence[int]) -> None:
    """Put one thing that goes wrong into the hours in which it does."""
    mask = int(kind)
    for at, bad in enumerate(series):
        if bad:
            wrong[at] |= mask


def _lacking(wrong: bytearray, state: PenState, bands: bytes, air: SeasonAir) -> None:
    """Put what a pen always lacks into the hours in which it counts."""
    always = int(
        (Wrong.PLACES if state.few else 0)
        | (Wrong.AIR if state.no_air else 0)
        | (Wrong.WET if state.lacks_wet else 0)
    )
    sunny = always | int(Wrong.SHADE if state.lacks_shade else 0)
    if not sunny:
        return
    from_band = int(rule(RULES, "bad from number", "number").value)
    for at, band in enumerate(bands):
        if band >= from_band:
            wrong[at] |= sunny if air.up[at] else always


def _dry(state: PenState, around: Around) -> tuple[bytes, float]:
    """Return the hours without water in a pen filled by hand, and what was drunk [L]."""
    air = around.air
    dry = bytearray(len(air.temp_c))
    drunk_l = 0.0
    level_l = full_l = state.fill_l or 0.0
    for day in air.days:
        need_l = state.need_l(day.high_c)
        if day.is_whole:
            drunk_l += need_l
        if state.fill_l is None:
            continue
        light_h = sum(air.up[day.start : day.end]) or HOURS_IN_DAY
        draw_l = need_l / light_h
        for at in range(day.start, day.end):
            if air.clock_h[at] in around.visits:
                level_l = full_l
            if not air.up[at]:
                continue
            if level_l < draw_l * (1 - NOISE):
                dry[at] = Wrong.DRY
                level_l = 0.0
            else:
                level_l -= draw_l
    return bytes(dry), drunk_l


def _tripped(state: PenState, bands: bytes, air: SeasonAir) -> tuple[bytes, int]:
    """Return the hours in which the breaker of the fans has tripped, and those they run."""
    if not state.pen.fans:
        return b"", 0
    from_band = int(rule(RULES, "fans run from number", "number").value)
    trips_h = rule(RULES, "breaker trips after", "time").value
    tripped = bytearray(len(bands))
    run = fan_h = 0
    for at, band in enumerate(bands):
        run = run + 1 if band >= from_band and air.follows[at] else int(band >= from_band)
        if state.over and run > trips_h:
            tripped[at] = 1
        elif run:
            fan_h += 1
    return bytes(tripped) if state.over else b"", fan_h


def _looks(state: PenState, bands: bytes, air: SeasonAir) -> float:
    """Return the short looks that the numbers of a pen ask for, 1 an interval.

    As a plan asks for them (`plan_watch.needs_in`): with the sun down number 1 for none and
    number 2 for few.
    """
    dark_h = rule(LOOK_RULES, "dark at number 2", "time").value
    light = [0.0, *(1 / hours for hours in state.allowed_h[1:])]
    dark = list(light)
    dark[Band.WARM] = 0.0
    dark[Band.HOT] = min(light[Band.HOT], 1 / dark_h)
    return math.fsum(
        (light if up else dark)[band] for band, up in zip(bands, air.up, strict=True) if band
    )


def _days(air: SeasonAir, wrong: bytearray) -> tuple[DayWrong, ...]:
    found = []
    for day in air.days:
        part = wrong[day.start : day.end]
        if any(part):
            at = next(at for at, kinds in enumerate(part) if kinds)
            hours = len(part) - part.count(0)
            found.append(DayWrong(day.on, air.clock_h[day.start + at], Wrong(part[at]), hours))
    return tuple(found)
