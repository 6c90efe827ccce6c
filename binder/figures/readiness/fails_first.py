"""What fails first: the order in which things run out on a hot day, hour by hour (step 3).

Water and power are taken to stop at first light, and nobody to come: what follows is the time
there is. Bands and hoses need no failure; the sun does it.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY, MINUTES_IN_HOUR
from binder.figures.bands.band_rule import Band
from binder.figures.day.farm_day import position_of
from binder.figures.finding import Finding, finding
from binder.figures.hoses.hose_heat import DRINK_LESS, FULL, NO_WATER, sun_on
from binder.figures.hoses.hose_heat import RULES as HOSE_RULES
from binder.figures.hoses.hose_plan import hose_curve
from binder.figures.rules import rule
from binder.figures.stays.stay_load import worst_bands
from binder.figures.weather.daylight import RULES as DAY_RULES
from binder.science import sun

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from binder.figures.day.farm_day import Day
    from binder.figures.results import Results
    from binder.figures.weather.sun_times import Position

AREA = "fails"
RULES = "fails_first"
FULL_PCT = 100.0


@dataclass(frozen=True, slots=True)
class Failure:
    """Something that runs out or turns bad: the hour [h since midnight], and what it is.

    Hours above 24 are those of the next day. Its words stand under `fails-findings`.
    """

    hour: float
    finding: Finding


def fails_first(figures: Results, day: Day) -> tuple[Failure, ...]:
    """Return what fails on a day, soonest first, up to a day after first light.

    Args:
        figures: of the farm, worked out for the weather of that day.
        day: the day, hour by hour.
    """
    light_h = day.sunrise_h - rule(DAY_RULES, "first light before sunrise", "time").value
    found = [
        *_bands(day, light_h),
        *_hoses(figures, day),
        *_water(figures, light_h),
        *_wallows(figures, light_h),
        *_shade(figures, day),
        *_stalls(figures, day, light_h),
        *_fuel(figures, light_h),
    ]
    soon = [each for each in found if each.hour <= light_h + HOURS_IN_DAY]
    return tuple(sorted(soon, key=lambda each: each.hour))


def first_hour(bands: Sequence[int], band: Band, light_h: float = 0.0) -> int | None:
    """Return the first hour in a band or a worse one, None where there is none.

    Args:
        bands: of each hour of the day.
        band: the band.
        light_h: hours before that one are left out: what is left of the night before.
    """
    return next(
        (hour for hour, each in enumerate(bands) if each >= band and hour + 1 > light_h), None
    )


def _bands(day: Day, light_h: float) -> Iterator[Failure]:
    """Yield when each of the three worst bands is reached first, and by which classes."""
    for band in (Band.HOT, Band.SEVERE, Band.ALL_HANDS):
        at: dict[int, list[str]] = {}
        for cls, bands in day.bands.items():
            hour = first_hour(bands, band, light_h)
            if hour is not None:
                at.setdefault(hour, []).append(cls)
        for hour, classes in at.items():
            yield Failure(
                float(hour),
                finding(AREA, "band", "", band=band.key, classes="; ".join(classes)),
            )


def sunshine(position: Position, on: dt.date) -> tuple[float, ...]:
    """Return the sun of a clear day at 0:00, 1:00 ... 23:00 of the local clock [W/m2].

    Args:
        position: of the farm.
        on: the date there.

    Returns:
        24 values on a level surface [W/m2], not rounded; 0 while the sun is down.

    Raises:
        ValueError: a coordinate out of range or an unknown time zone.

    References:
        water-127 (clear sky), heat-69 (height of the sun).
    """
    where = (position.latitude, position.longitude)
    zone = sun.solar_noon(*where, on, position.timezone).tzinfo
    moments = (
        dt.datetime.combine(on, dt.time(hour), tzinfo=zone) for hour in range(HOURS_IN_DAY)
    )
    return tuple(sun.clear_sky_w_m2(sun.zenith_deg(*where, moment)) for moment in moments)


def _hoses(figures: Results, day: Day) -> Iterator[Failure]:
    position = position_of(figures.farm)
    if position is None:
        return
    clear = sunshine(position, day.air.on)
    air = [hour.temp_c for hour in day.hours]
    for key, sheet in figures.hoses.items():
        if sheet.heat is None or not sheet.pens:
            continue
        light = sun_on(sheet.hose.sun, sheet.hose.colour)
        share = light.watts_m2 / sun_on(FULL, sheet.hose.colour).watts_m2
        lit = [share * watts for watts in clear]
        water = hose_curve(sheet.hose.inside_m, light.absorbed, air, lit)
        for name, limit in (("hose-less", DRINK_LESS), ("hose-none", NO_WATER)):
            hour = passes_h(water, rule(HOSE_RULES, limit, "temperature").value)
            if hour is not None:
                yield Failure(hour, finding(AREA, name, key, sheet.heat, hoses=key))


def passes_h(water: Sequence[float], limit_c: float) -> float | None:
    """Return the hour at which water first warms up to a limit [h].

    Args:
        water: its temperature at 0:00, 1:00 and so on [C].
        limit_c: the limit [C].

    Returns:
        Hours since midnight [h], along a straight line between two hours; None where it never
        rises to the limit, or is above it from the start.

    References:
        Arithmetic.
    """
    for hour, (before, after) in enumerate(pairwise(water)):
        if before < limit_c <= after:
            return hour + (limit_c - before) / (after - before)
    return None


def _water(figures: Results, light_h: float) -> Iterator[Failure]:
    """Yield when each pen runs dry if its supply stops at first light."""
    at_once = [each for each in figures.stores.values() if not each.lasts.amount.value]
    if at_once:
        lasts = (each.lasts for each in at_once)
        pens = " ".join(each.pen.id for each in at_once)
        yield Failure(light_h, finding(AREA, "dry-at-once", pens, *lasts, pens=pens))
    for pen, store in figures.stores.items():
        if store not in at_once:
            hour = light_h + store.lasts.amount.value
            yield Failure(hour, finding(AREA, "dry", pen, store.lasts, pens=pen))


def _wallows(figures: Results, light_h: float) -> Iterator[Failure]:
    share = rule(RULES, "wallow gone when it has lost", "share")
    for sheet in figures.wallows.values():
        if sheet.top_up is None or sheet.low is None or not figures.herd.in_pen(sheet.pen):
            continue
        lost_l = sheet.low.amount.value * share.value / FULL_PCT
        hour = light_h + lost_l / sheet.top_up.amount.value * HOURS_IN_DAY
        yield Failure(hour, finding(AREA, "wallow", sheet.pen, sheet.top_up, pens=sheet.pen))


def _shade(figures: Results, day: Day) -> Iterator[Failure]:
    noon_h = (day.sunrise_h + day.sunset_h) / 2
    short = [each for each in figures.shade.findings if each.key in ("short", "none")]
    for each in short:
        yield Failure(
            noon_h, finding(AREA, "shade", each.subject, *each.figures, pens=each.subject)
        )


def _stalls(figures: Results, day: Day, light_h: float) -> Iterator[Failure]:
    """Yield when a closed stall without power is dangerous: minutes after number 2 begins."""
    worst = worst_bands(figures.farm, figures.herd, day)
    for pen, minutes in figures.power.barn_minutes.items():
        hour = first_hour(worst.get(pen, ()), Band.HOT, light_h)
        if hour is not None:
            late_h = max(light_h, float(hour)) + minutes.amount.value / MINUTES_IN_HOUR
            yield Failure(late_h, finding(AREA, "stall", pen, minutes, pens=pen))


def _fuel(figures: Results, light_h: float) -> Iterator[Failure]:
    for each in figures.power.generators.values():
        if each.hours is not None:
            name = each.generator.name
            hour = light_h + each.hours.amount.value
            yield Failure(
                hour, finding(AREA, "fuel", each.generator.id, each.hours, generator=name)
            )
