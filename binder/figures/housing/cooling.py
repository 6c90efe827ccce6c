"""Fans and drip: what dirt takes, how far apart, when they stop helping, minutes on and off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder import units
from binder.clock import MINUTES_IN_HOUR
from binder.figures.entry import Argument, Entry, renamed
from binder.figures.figure import Figure, NotPublishedError, merge_sources, step
from binder.figures.published import row_if_told, rows
from binder.figures.rules import quantity, rule
from binder.science.ranges import require_not_negative
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from binder.figures.published import Row

RULES = "air_rules"
PEOPLE = "people"
_SAME_M = 0.005  # diameters are sold in whole inches; half a centimetre tells them apart


def dirty_fan(air_m3_h: float, subject: str = "") -> Figure:
    """Return what a fan still moves when blades and shutters are dirty [m3/h].

    Args:
        air_m3_h: what it moves clean [m3/h], 0 or more.
        subject: the fan or stall.

    References:
        husbandry-26, husbandry-33: 30 % or more is lost, 400 ft/min becomes 280.
    """
    require_not_negative(air_m3_h, "air of the fan", "m3/h")
    usual = rule(RULES, "lost to dirt", "share")
    worst = rule(RULES, "lost to much dirt", "share")
    left, least = (
        Amount(air_m3_h * (1 - lost / 100), "m3/h") for lost in (usual.value, worst.value)
    )
    clean = Amount(air_m3_h, "m3/h")
    working = (
        step("dirty", clean=clean, lost=Amount(usual.value, "%"), left=left),
        step("very-dirty", lost=Amount(worst.value, "%"), left=least),
    )
    sources = merge_sources(usual.sources, worst.sources)
    return Figure("dirty-fan", left, working, sources, subject=subject)


def fan_limit(who: str) -> Figure:
    """Return the air temperature above which a fan no longer cools [C].

    Args:
        who: a species, or `people`.

    Raises:
        NotPublishedError: nothing was read for the species.

    References:
        husbandry-22 (birds), husbandry-30 (people); for pigs from memory, beside husbandry-29.
    """
    limit = row_if_told("fan_limits", who=who)
    value = Amount(quantity(limit, "limit", "temperature"), "degC")
    cautions = tuple(limit.text("cautions").split())
    working = (step("limit", limit=value),)
    return Figure("fan-limit", value, working, limit.sources, cautions, who)


def fan_limits(species: Iterable[str]) -> Mapping[str, Figure]:
    """Return the limit of each species for whom one is known, and of people."""
    known = {each.text("who") for each in rows("fan_limits")}
    return {who: fan_limit(who) for who in (*species, PEOPLE) if who in known}


def fan_spacing(diameter_m: float) -> Figure:
    """Return the distance between circulating fans [m].

    Args:
        diameter_m: of the fan [m].

    Raises:
        NotPublishedError: no distance was read for that diameter.

    References:
        husbandry-31: 36 in every 30 ft, 48 in every 40 ft.
    """
    table = rows("fan_spacing")
    for each in table:
        if abs(quantity(each, "diameter", "length") - diameter_m) < _SAME_M:
            value = Amount(quantity(each, "spacing", "length"), "m")
            working = (step("published", diameter=each.text("diameter"), spacing=value),)
            return Figure("fan-spacing", value, working, each.sources)
    known = " and ".join(each.text("diameter") for each in table)
    message = f"the distance between fans is published for {known} only"
    raise NotPublishedError(message)


def drip_cycle(temperature_c: float) -> Figure:
    """Return minutes on and minutes off of drip cooling over a sow [min].

    Args:
        temperature_c: air temperature [C].

    Raises:
        NotPublishedError: cooler air than the table starts with.

    References:
        water-95 up to 86 F, water-91 (grade C) above: the owner decides whether to drip at all.
    """
    table = rows("drip")
    for each in table:
        low = quantity(each, "from", "temperature")
        below = quantity(each, "below", "temperature") if each.has("below") else None
        if low <= temperature_c and (below is None or temperature_c < below):
            return _cycle(each, low)
    start = units.show_both(Amount(quantity(table[0], "from", "temperature"), "degC"), "us")
    message = f"no drip cooling is published for air below {start}"
    raise NotPublishedError(message)


def drip_cycles() -> tuple[Figure, ...]:
    """Return the whole table of drip cooling, coolest air first.

    Each figure is the minutes on and off [min] from an air temperature [C] up.

    References:
        drip.csv: water-91, water-95.
    """
    return tuple(_cycle(each, quantity(each, "from", "temperature")) for each in rows("drip"))


def _cycle(each: Row, low_c: float) -> Figure:
    on, off = (
        Amount(quantity(each, name, "time") * MINUTES_IN_HOUR, "min") for name in ("on", "off")
    )
    start = Amount(low_c, "degC")
    if each.has("below"):
        end = Amount(quantity(each, "below", "temperature"), "degC")
        line = step("between", start=start, end=end, on=on, off=off)
    else:
        line = step("above", start=start, on=on, off=off)
    cautions = ("owner-only", "large-drops", "collapsed")
    return Figure("drip-cycle", (on, off), (line,), each.sources, cautions, each.text("from"))


ENTRIES: tuple[Entry, ...] = (
    Entry("dirty-fan", (Argument("air", "air flow"),), renamed(dirty_fan, air="air_m3_h")),
    Entry(
        "fan-limit",
        (
            Argument(
                "who", "text", choices=tuple(each.text("who") for each in rows("fan_limits"))
            ),
        ),
        fan_limit,
    ),
    Entry(
        "fan-spacing",
        (Argument("diameter", "length"),),
        renamed(fan_spacing, diameter="diameter_m"),
    ),
    Entry(
        "drip-cycle",
        (Argument("temperature", "temperature"),),
        renamed(drip_cycle, temperature="temperature_c"),
    ),
)
