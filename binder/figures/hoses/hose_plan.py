"""The farm's hoses: warmth, flushing, what would help (step 3)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_DAY, SECONDS_IN_HOUR
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.hoses.hose_flow import (
    hose_flush,
    hose_pressure_loss,
    hose_run_out,
    hose_volume,
)
from binder.figures.hoses.hose_heat import (
    DRINK_LESS,
    MM_PER_M,
    NO_WATER,
    RULES,
    SHADE,
    hose_cool,
    hose_heat,
    hose_outlet,
    outside_mm,
    still_c,
    sun_on,
)
from binder.figures.published import formula
from binder.figures.rules import at_least, rule
from binder.science import pipe_heat
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm, Hose
    from binder.figures.water.drinking_water import WaterFigures
    from binder.figures.weather.hot_days import DayWeather

LIGHT = "light"
BURIED, OVERHEAD = "buried", "overhead"


def buried_c(high_c: float, low_c: float, depth_m: float) -> float:
    """Return the highest temperature in a day of a hose buried in the ground [C].

    Args:
        high_c: the day's highest air [C], taken for the ground's surface in shade.
        low_c: the day's lowest air [C].
        depth_m: depth [m], 0 or more.

    References:
        water-79: the day's wave shrinks as exp(-z/D); D is the hotter of those derived.
    """
    damping_m = rule(RULES, "damping depth", "length").value
    mean_c, swing_c = (high_c + low_c) / 2, (high_c - low_c) / 2
    return mean_c + swing_c * pipe_heat.daily_wave_left(depth_m, damping_m)


def hose_buried(high_c: float, low_c: float, depth_m: float, subject: str = "") -> Figure:
    """Return the warmest a hose gets in a day when it is buried [degC].

    Args:
        high_c: the day's highest air [C], taken for the ground's surface in shade.
        low_c: the day's lowest air [C].
        depth_m: depth [m], 0 or more.
        subject: the hose.

    Raises:
        ValueError: a negative depth.

    References:
        water-79, as `buried_c`.
    """
    value = Amount(buried_c(high_c, low_c, depth_m), "degC")
    line = step(
        "buried",
        depth=Amount(depth_m * MM_PER_M, "mm"),
        high=Amount(high_c, "degC"),
        low=Amount(low_c, "degC"),
        warmest=value,
    )
    sources = formula("hose_formulas", "hose-buried")
    return Figure("hose-buried", value, (line,), sources, ("season",), subject)


def hose_curve(
    inside: float, absorbed: float, air_c: Sequence[float], sun_w_m2: Sequence[float]
) -> tuple[float, ...]:
    """Return still water in a hose hour by hour through a day without a flush [C].

    Args:
        inside: inside diameter [m], above 0.
        absorbed: share of the sun its colour takes up, 0 to 1.
        air_c: air, a temperature an hour [C].
        sun_w_m2: sun, as many [W/m2].

    Raises:
        ValueError: lists of different length, or a number outside its range.
    """
    film = rule(RULES, "film", "number").value
    constant_s = pipe_heat.time_constant_s(inside * MM_PER_M, outside_mm(inside), film)
    water: list[float] = []
    for air, sun in zip(air_c, sun_w_m2, strict=True):
        ends_c = pipe_heat.still_water_c(air, absorbed, sun, film)
        before_c = water[-1] if water else ends_c
        water.append(pipe_heat.water_after_c(before_c, ends_c, SECONDS_IN_HOUR, constant_s))
    return tuple(water)


def flush_every(ends_c: float, subject: str = "") -> Figure:
    """Return how often to write a flush on the round [h]: our choice.

    Args:
        ends_c: where the hose's still water ends on the day [C].
        subject: the hose.

    References:
        Our choice, by the limits of water-41; common practice is every couple of hours.
    """
    less, none = (rule(RULES, name, "temperature") for name in (DRINK_LESS, NO_WATER))
    if at_least(ends_c, none.value):
        key, name = "none", "flush every where it is no water"
    elif at_least(ends_c, less.value):
        key, name = "less", "flush every where drinking falls"
    else:
        key, name = "cool", "flush every otherwise"
    every = rule(RULES, name, "time")
    value = Amount(every.value, "h")
    limit = Amount((none if key == "none" else less).value, "degC")
    line = step(key, ends=Amount(ends_c, "degC"), limit=limit, every=value)
    return Figure("hose-interval", value, (line,), every.sources, ("between",), subject)


@dataclass(frozen=True, slots=True)
class HoseSheet:
    """One hose on the hot day. None: not recorded, or it does not apply.

    Attributes:
        hose: as the owner wrote it.
        pens: ids of the pens that drink through it.
        volume: `hose-volume` [L].
        run_out: `hose-run-out`, what one flush takes [L].
        flush: `hose-flush` [s]; None where the flow is not recorded.
        loss: `hose-pressure-loss` at that flow [kPa]; None likewise.
        heat: `hose-heat` [degC]; None for a buried hose.
        buried: `hose-buried` [degC], for a buried hose whose depth is recorded.
        cool: `hose-cool`, minutes of cool water after a flush; None where it never warms up,
            or is buried.
        outlet: `hose-outlet` [degC] at the herd's mean drinking flow; None without drinkers.
        interval: `hose-interval` [h] to write on the round; None for a buried hose.
        flush_water: `hose-flush-water` [L/day] for those flushes; 0 for a buried hose.
        in_shade, in_light, if_buried: still water [degC] if it lay in shade, in a light sleeve,
            or buried; None where it does already, or is buried.
        tap_assumed: whether the temperature at the tap is our choice.
    """

    hose: Hose
    pens: tuple[str, ...]
    volume: Figure
    run_out: Figure
    flush: Figure | None
    loss: Figure | None
    heat: Figure | None
    buried: Figure | None
    cool: Figure | None
    outlet: Figure | None
    interval: Figure | None
    flush_water: Figure | None
    in_shade: Figure | None
    in_light: Figure | None
    if_buried: Figure | None
    tap_assumed: bool


def for_farm(farm: Farm, water: WaterFigures, hot: DayWeather) -> Mapping[str, HoseSheet]:
    """Return a sheet of figures for every hose of the farm, by hose id, for a hot day."""
    return {hose.id: _sheet(farm, hose, water, hot) for hose in farm.equipment.hoses}


def pens_fed(farm: Farm, hose_id: str) -> tuple[str, ...]:
    """Return the ids of the pens that drink through a hose, through hoses it feeds too."""
    through = {hose_id}
    for _ in farm.equipment.hoses:
        through |= {hose.id for hose in farm.equipment.hoses if hose.fed_by in through}
    return tuple(
        pen.id
        for pen in farm.pens
        if any(drinker.fed_by in through for drinker in pen.drinkers)
    )


def source_c(farm: Farm, fed_by: str | None) -> float | None:
    """Return the recorded temperature of the source behind a hose or tank [C], or None."""
    gear = farm.equipment
    upstream = {hose.id: hose.fed_by for hose in gear.hoses}
    upstream |= {tank.id: tank.fed_by for tank in gear.tanks}
    known = {source.id: source.temperature_c for source in gear.water_sources}
    here = fed_by
    for _ in upstream:
        here = upstream.get(here, here) if here is not None else None
    return known.get(here) if here is not None else None


def _sheet(farm: Farm, hose: Hose, water: WaterFigures, hot: DayWeather) -> HoseSheet:
    size = (hose.inside_m, hose.length_m)
    flow = hose.flow_l_min
    tap = source_c(farm, hose.fed_by)
    pens = pens_fed(farm, hose.id)
    volume = hose_volume(*size, hose.id)
    heat = in_shade = in_light = if_buried = cool = outlet = interval = flush_water = buried = (
        None
    )
    if hose.runs == BURIED:
        if hose.buried_depth_m is not None:
            buried = hose_buried(hot.high_c, hot.low_c, hose.buried_depth_m, hose.id)
    else:
        heat = hose_heat(hose.inside_m, hot.high_c, hose.sun, hose.colour, tap, hose.id)
        ends_c = heat.amount.value
        cool = hose_cool(hose.inside_m, ends_c, tap, hose.id)
        interval = flush_every(ends_c, hose.id)
        flush_water = _flush_water(volume, interval)
        in_shade, in_light, if_buried = _fixes(hose, hot)
        drunk = sum(water.pens[pen].amount.value for pen in pens if pen in water.pens)
        if drunk:
            outlet = hose_outlet(*size, drunk / MINUTES_IN_DAY, ends_c, tap, hose.id)
    return HoseSheet(
        hose=hose,
        pens=pens,
        volume=volume,
        run_out=hose_run_out(*size, hose.id),
        flush=None if flow is None else hose_flush(*size, flow, hose.id),
        loss=None if flow is None else hose_pressure_loss(*size, flow, hose.id),
        heat=heat,
        buried=buried,
        cool=cool,
        outlet=outlet,
        interval=interval,
        flush_water=flush_water,
        in_shade=in_shade,
        in_light=in_light,
        if_buried=if_buried,
        tap_assumed=tap is None,
    )


def _fixes(hose: Hose, hot: DayWeather) -> tuple[Figure | None, Figure | None, Figure]:
    """Return still water if the hose lay in shade, wore a light sleeve, or was buried."""
    air = hot.high_c
    shade = _instead("hose-in-shade", hose, air, SHADE, hose.colour)
    light = _instead("hose-in-light", hose, air, hose.sun, LIGHT)
    depth_m = rule(RULES, "bury at", "length").value
    return (
        None if hose.sun == SHADE else shade,
        None if hose.colour == LIGHT else light,
        hose_buried(hot.high_c, hot.low_c, depth_m, hose.id),
    )


def _instead(name: str, hose: Hose, air_c: float, sun: str, colour: str) -> Figure:
    light = sun_on(sun, colour)
    now = Amount(still_c(air_c, sun_on(hose.sun, hose.colour)), "degC")
    value = Amount(still_c(air_c, light), "degC")
    return Figure(
        name, value, (step("instead", now=now, then=value),), light.sources, (), hose.id
    )


def _flush_water(volume: Figure, interval: Figure) -> Figure:
    """Return what a day's flushes run out [L/day]: one an interval while the sun heats."""
    times = rule(RULES, "flush volumes", "number")
    sunny = rule(RULES, "flushing hours in a day", "time")
    flushes = max(1, math.ceil(sunny.value / interval.amount.value))
    each = Amount(volume.amount.value * times.value, "L")
    value = Amount(each.value * flushes, "L/day")
    line = step("day", flushes=flushes, each=each, water=value)
    sources = merge_sources(times.sources, sunny.sources)
    return Figure("hose-flush-water", value, (line,), sources, ("to-use",), volume.subject)
