"""Hoses and wallows through the hours of a record (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.hoses.hose_heat import DRINK_LESS, FULL, NO_WATER, sun_on
from binder.figures.hoses.hose_heat import RULES as HOSE_RULES
from binder.figures.hoses.hose_plan import BURIED, hose_curve
from binder.figures.rules import rule
from binder.figures.wallows.wallow_size import RULES as WALLOW_RULES
from binder.science import evaporation, sun
from binder.weather.record import LOGGER

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping

    from binder.farm.model import Hose
    from binder.figures.season.season_air import SeasonAir
    from binder.figures.wallows.wallow_plan import WallowSheet
    from binder.figures.weather.sun_times import Position

RULES = "season_rules"
FULL_PCT = 100.0


@dataclass(frozen=True, slots=True)
class HoseSeason:
    """The still water of a hose on the ground through a record.

    Attributes:
        hose: as the owner wrote it.
        highest_c: the warmest it got [C].
        less_h: hours from which animals drink less of it [h].
        none_h: of these, hours in which it is no water [h].
        none: whether it is no water, by hour.
    """

    hose: Hose
    highest_c: float
    less_h: int
    none_h: int
    none: bytes


def hose_seasons(hoses: Iterable[Hose], air: SeasonAir) -> Mapping[str, HoseSeason]:
    """Return each hose that lies in the sun through a record, by id; buried ones are left out.

    References:
        As `hose_curve`: water that nobody draws or lets out. The limits: water-41, water-128.
    """
    return {hose.id: _hose(hose, air) for hose in hoses if hose.runs != BURIED}


def _hose(hose: Hose, air: SeasonAir) -> HoseSeason:
    light = sun_on(hose.sun, hose.colour)
    share = light.watts_m2 / sun_on(FULL, hose.colour).watts_m2
    lit = [share * watts for watts in air.sun_w_m2]
    water = hose_curve(hose.inside_m, light.absorbed, air.temp_c, lit)
    less_c, none_c = (
        rule(HOSE_RULES, name, "temperature").value for name in (DRINK_LESS, NO_WATER)
    )
    none = bytes(each >= none_c for each in water)
    less_h = sum(each >= less_c for each in water)
    return HoseSeason(hose, max(water), less_h, sum(none), none)


@dataclass(frozen=True, slots=True)
class WallowSeason:
    """A wallow through a record, topped up as planned and by no rain.

    Attributes:
        wallow: its id.
        pen: the pen it lies in.
        lowest: the least that was left of its water, as a share of it.
        lowest_on: the day on which it was.
        most_mm_day: the most that a day took from it to the air [mm].
        dried_h: hours in which it had lost too much [h].
        dried: the same by hour.
    """

    wallow: str
    pen: str
    lowest: float
    lowest_on: dt.date
    most_mm_day: float
    dried_h: int
    dried: bytes


def wallow_seasons(
    sheets: Mapping[str, WallowSheet],
    top_ups_l: Mapping[str, float],
    visits: tuple[int, ...],
    air: SeasonAir,
    loss_mm: tuple[float, ...],
) -> Mapping[str, WallowSeason]:
    """Return each wallow that is topped up by plan through a record, by id.

    Args:
        sheets: of `wallow_plan.for_farm`.
        top_ups_l: what each visit brings to each [L].
        visits: hours of the day at which somebody is there.
        air: the hours.
        loss_mm: what open water loses in each [mm] (`losses`).
    """
    return {
        key: _wallow(key, sheet, top_ups_l[key], visits, air, loss_mm)
        for key, sheet in sheets.items()
        if key in top_ups_l and sheet.low and sheet.surface and sheet.top_up
    }


def _wallow(
    key: str,
    sheet: WallowSheet,
    top_up_l: float,
    visits: tuple[int, ...],
    air: SeasonAir,
    loss_mm: tuple[float, ...],
) -> WallowSeason:
    assert sheet.low and sheet.surface  # noqa: S101, PT018 -- asked before
    holds_l, area_m2 = sheet.low.amount.value, sheet.surface.amount.value
    used_l = sheet.used_l_day / HOURS_IN_DAY
    gone = 1 - rule(RULES, "wallow gone when it has lost", "share").value / FULL_PCT
    level_l, lowest_l, lowest_at = holds_l, holds_l, 0
    dried = bytearray(len(loss_mm))
    for at, lost_mm in enumerate(loss_mm):
        if not air.follows[at]:
            level_l = holds_l
        level_l = max(0.0, level_l - lost_mm * area_m2 - used_l)
        if air.clock_h[at] in visits:
            level_l = min(holds_l, level_l + top_up_l)
        if level_l < lowest_l:
            lowest_l, lowest_at = level_l, at
        dried[at] = level_l < gone * holds_l
    on = air.record.hours[lowest_at].when.date()
    most = max((sum(loss_mm[day.start : day.end]) for day in air.days), default=0.0)
    return WallowSeason(key, sheet.pen, lowest_l / holds_l, on, most, sum(dried), bytes(dried))


def losses(
    air: SeasonAir, position: Position, rate_mm_day: float | None
) -> tuple[tuple[float, ...], bool]:
    """Return what open water loses in each hour [mm], and whether by the formula.

    By the formula of FAO 56 where the file knows wind and sun of every hour, else a day's usual
    loss spread evenly.

    Args:
        air: the hours.
        position: of the farm, for the sun of a clear sky.
        rate_mm_day: the farm's own rate [mm/day], None where not recorded.

    References:
        extra-190, extra-191 (formula); water-114 (usual loss).
    """
    hours = air.record.hours
    if any(hour.wind_m_s is None or hour.sun_w_m2 is None for hour in hours):
        usual = rule(WALLOW_RULES, "evaporation where not recorded", "depth rate").value
        rate = usual if rate_mm_day is None else rate_mm_day
        return (rate / HOURS_IN_DAY,) * len(hours), False
    sky = 1.0
    gauge = "logger" if air.record.format == LOGGER else "airfield"
    gauge_m = rule(RULES, f"wind measured by {gauge} at", "length").value
    height = evaporation.wind_at_2_m(1.0, gauge_m)
    low_w_m2 = rule(RULES, "low sun up to", "sunlight").value
    found: list[float] = []
    clear = _clear_by_day(air, position)
    for at, hour in enumerate(hours):
        full = clear[at]
        if full > low_w_m2:  # with the sun low the share says little: that of before stays
            share = (hour.sun_w_m2 or 0.0) / full
            sky = min(max(share, evaporation.CLOUDIEST), evaporation.CLEAREST)
        found.append(
            evaporation.open_water_mm_per_h(
                air.temp_c[at], min(air.rh_pct[at], FULL_PCT), height * (hour.wind_m_s or 0.0),
                hour.sun_w_m2 or 0.0, sky,
            )
        )  # fmt: skip
    return tuple(found), True


def _clear_by_day(air: SeasonAir, position: Position) -> list[float]:
    """Return the sun of a clear sky in each hour [W/m2], as a half wave between rise and set.

    Its height at noon is that of the formula; by hours the wave is close enough to tell a clear
    sky from a cloudy one, which is all it is for.
    """
    found: list[float] = []
    for day in air.days:
        noon_h = (day.sunrise_h + day.sunset_h) / 2
        noon = sun.solar_noon(*position.on(day.on))
        peak = sun.clear_sky_w_m2(sun.zenith_deg(position.latitude, position.longitude, noon))
        half_h = (day.sunset_h - day.sunrise_h) / 2
        for at in range(day.start, day.end):
            off = abs(air.clock_h[at] + 0.5 - noon_h) / half_h
            found.append(peak * max(0.0, 1 - off * off))
    return found
