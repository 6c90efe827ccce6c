"""How the sun heats a hose, and how soon after a flush its water is too warm (step 3).

A model: hoses measured in the sun agree with it within about 3 C. A thermometer decides.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from binder import units
from binder.clock import MINUTES_IN_HOUR, SECONDS_IN_MINUTE
from binder.figures import published
from binder.figures.entry import Argument, Entry
from binder.figures.figure import DERIVED, OUR_CHOICE, Figure, merge_sources, step
from binder.figures.rules import quantity, rule
from binder.science import pipe, pipe_heat
from binder.science.ranges import require_positive
from binder.units import Amount

if TYPE_CHECKING:
    from binder.figures.figure import Step

RULES = "hose_rules"
FORMULAS = "hose_formulas"
FULL, PART, SHADE = "full", "part", "shade"
COLOURS = ("black", "dark", "green", "blue", "red", "brown", "white", "light")
DRINK_LESS, NO_WATER = "drink less from", "no water from"
MM_PER_M = pipe.MM_PER_M


@dataclass(frozen=True, slots=True)
class Sun:
    """What warms a hose: sunlight [W/m2] and the share of it that the colour takes up."""

    watts_m2: float
    absorbed: float
    sources: tuple[str, ...]


def sun_on(sun: str, colour: str) -> Sun:
    """Return the sun a hose takes up.

    Args:
        sun: `full`, `part`, `shade`, or watts such as `1000 W/m2`.
        colour: a name of `hose_colours.csv`.

    Raises:
        NotPublishedError: a colour that is not published.
        units.UnitError: a sun that is neither a word nor watts.
    """
    tone = published.row_if_told("hose_colours", colour=colour)
    for row in published.rows("hose_sun"):
        if row.text("sun") == sun:
            sources = merge_sources(row.sources, tone.sources)
            return Sun(row.number("watts"), tone.number("absorbed"), sources)
    return Sun(units.parse(sun, "sunlight"), tone.number("absorbed"), tone.sources)


def outside_mm(inside_m: float) -> float:
    """Return the outside width of a hose from its inside width [mm].

    Args:
        inside_m: inside width [m], above 0.

    Returns:
        Outside width [mm], not rounded: along a straight line between the sizes of the table;
        beyond it with the wall of the nearest size.

    References:
        hose_sizes.csv (derived).
    """
    sizes = [
        (
            quantity(row, "inside", "length") * MM_PER_M,
            quantity(row, "outside", "length") * MM_PER_M,
        )
        for row in published.rows("hose_sizes")
    ]
    inside_mm = inside_m * MM_PER_M
    for (low, low_out), (high, high_out) in pairwise(sizes):
        if low <= inside_mm <= high:
            return low_out + (inside_mm - low) / (high - low) * (high_out - low_out)
    nearest, nearest_out = sizes[0] if inside_mm < sizes[0][0] else sizes[-1]
    return inside_mm + nearest_out - nearest


def still_c(air_c: float, sun: Sun) -> float:
    """Return the temperature still water ends at in a hose on the ground [C].

    Args:
        air_c: air temperature [C], -60 to 100.
        sun: what falls on the hose, and the share its colour takes up.

    Returns:
        Temperature [C], not rounded; a model, good to about 3 C.

    Raises:
        ValueError: a number outside its range.

    References:
        water-77 (heat balance), water-78 (film).
    """
    film = rule(RULES, "film", "number").value
    return pipe_heat.still_water_c(air_c, sun.absorbed, sun.watts_m2, film)


def tap_c(recorded_c: float | None) -> float:
    """Return the temperature at the tap [C].

    Args:
        recorded_c: as the owner wrote it [C]; None where not recorded, which takes our choice.
    """
    if recorded_c is not None:
        return recorded_c
    return rule(RULES, "tap where not recorded", "temperature").value


def tap_sources(recorded_c: float | None) -> tuple[str, ...]:
    """Return the ids an assumed tap temperature rests on, none for a recorded one."""
    return (
        rule(RULES, "tap where not recorded", "temperature").sources
        if recorded_c is None
        else ()
    )


def minutes_until(limit: str, inside_m: float, start_c: float, ends_c: float) -> float:
    """Return the minutes from a flush until still water passes a limit, infinity for never.

    Args:
        limit: `drink less from` or `no water from`, rows of `hose_rules.csv`.
        inside_m: inside diameter [m], above 0.
        start_c: at the tap [C].
        ends_c: where still water ends [C].

    References:
        Derived: first-order warming with the hose's time constant.
    """
    film = rule(RULES, "film", "number").value
    constant_s = pipe_heat.time_constant_s(inside_m * MM_PER_M, outside_mm(inside_m), film)
    limit_c = rule(RULES, limit, "temperature").value
    return pipe_heat.seconds_until_c(start_c, limit_c, ends_c, constant_s) / SECONDS_IN_MINUTE


def _warm_line(limit: str, key: str, inside_m: float, start_c: float, ends_c: float) -> Step:
    """Return the line that says when still water passes a limit, or that it does not."""
    limit_c = Amount(rule(RULES, limit, "temperature").value, "degC")
    minutes = minutes_until(limit, inside_m, start_c, ends_c)
    if math.isinf(minutes):
        return step(f"{key}-never", limit=limit_c)
    return step(f"{key}-after", limit=limit_c, time=Amount(minutes, "min"))


def hose_heat(
    inside: float,
    air: float,
    sun: str,
    colour: str,
    source: float | None = None,
    subject: str = "",
) -> Figure:
    """Return the temperature still water in a hose ends at in the sun [degC].

    The working says how long after a flush animals drink less of it, and when it is no water.

    Args:
        inside: inside diameter [m], above 0.
        air: temperature of the air [C].
        sun: `full`, `part`, `shade`, or watts such as `1000 W/m2`.
        colour: of the hose.
        source: temperature at the tap [C]; None: our choice, and the working says so.
        subject: the hose.

    Raises:
        ValueError: a number outside its range, a colour or a sun that is not known.

    References:
        water-77 (balance), water-126 (colours), water-71 measured over 120 F at 90 F air.
    """
    require_positive(inside, "inside diameter", "m")
    light = sun_on(sun, colour)
    ends_c, start_c = still_c(air, light), tap_c(source)
    value = Amount(ends_c, "degC")
    working = (
        step(
            "ends",
            air=Amount(air, "degC"),
            sun=Amount(light.watts_m2, "W/m2"),
            absorbed=light.absorbed,
            ends=value,
        ),
        step("tap-assumed" if source is None else "tap", tap=Amount(start_c, "degC")),
        _warm_line(DRINK_LESS, "less", inside, start_c, ends_c),
        _warm_line(NO_WATER, "none", inside, start_c, ends_c),
    )
    sources = merge_sources(
        published.formula(FORMULAS, "hose-heat"), light.sources,
        rule(RULES, "film", "number").sources,
        rule(RULES, DRINK_LESS, "temperature").sources, (OUR_CHOICE,),
    )  # fmt: skip
    return Figure("hose-heat", value, working, sources, ("model", "scald", "run-cool"), subject)


def hose_cool(
    inside: float, ends_c: float, source: float | None = None, subject: str = ""
) -> Figure | None:
    """Return the minutes a flushed hose gives cool water [min], None where it always does.

    Args:
        inside: inside diameter [m], above 0.
        ends_c: where its still water ends [C].
        source: temperature at the tap [C]; None: our choice.
        subject: the hose.
    """
    start_c = tap_c(source)
    minutes = minutes_until(DRINK_LESS, inside, start_c, ends_c)
    if math.isinf(minutes):
        return None
    limit = rule(RULES, DRINK_LESS, "temperature")
    line = step(
        "cool",
        tap=Amount(start_c, "degC"),
        ends=Amount(ends_c, "degC"),
        limit=Amount(limit.value, "degC"),
        time=Amount(minutes, "min"),
    )
    sources = merge_sources(limit.sources, (DERIVED,), tap_sources(source))
    return Figure("hose-cool", Amount(minutes, "min"), (line,), sources, ("model",), subject)


def hose_outlet(
    inside: float,
    length: float,
    flow: float,
    ends_c: float,
    source: float | None = None,
    subject: str = "",
) -> Figure:
    """Return the temperature of water that runs slowly through a hose in the sun [degC].

    Args:
        inside: inside diameter [m], above 0.
        length: [m], 0 or more.
        flow: what the animals draw [L/min], above 0.
        ends_c: where its still water ends [C].
        source: temperature at the tap [C]; None: our choice.
        subject: the hose.

    Raises:
        ValueError: a number outside its range.

    References:
        Derived; water-49: a slow line takes on the warmth around it within 40 to 60 ft.
    """
    film = rule(RULES, "film", "number")
    start_c = tap_c(source)
    out_c = pipe_heat.outlet_c(start_c, ends_c, flow, length, outside_mm(inside), film.value)
    value = Amount(out_c, "degC")
    line = step(
        "outlet",
        tap=Amount(start_c, "degC"),
        length=Amount(length, "m"),
        ends=Amount(ends_c, "degC"),
        flow=Amount(flow * MINUTES_IN_HOUR, "L/h"),
        outlet=value,
    )
    rests_on = published.formula(FORMULAS, "hose-outlet")
    sources = merge_sources(rests_on, film.sources, tap_sources(source))
    return Figure("hose-outlet", value, (line,), sources, ("model", "run-cool"), subject)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "hose-heat",
        (
            Argument("inside", "length"),
            Argument("air", "temperature"),
            Argument("sun", "text"),
            Argument("colour", "text", choices=COLOURS),
            Argument("source", "temperature", optional=True),
        ),
        hose_heat,
    ),
)
