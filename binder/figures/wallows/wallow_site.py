"""Where and how a wallow is dug: depth, ramp, distance from wells and water (step 3)."""

from __future__ import annotations

from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, step
from binder.figures.rules import at_least, rule
from binder.science.wallow import ramp_length_m
from binder.units import Amount

RULES = "wallow_rules"
MM_PER_M = 1000.0
PASS, FAIL = "pass", "fail"
WELL, SHALLOW_WELL, DOWNHILL = "well", "shallow well", "water downhill"


def wallow_ramp(depth: float, slope: float, subject: str = "") -> Figure:
    """Return the length of the ramp into a wallow [m].

    Args:
        depth: of water in the middle [m], 0 or more.
        slope: length for one of depth; 4 is the steepest published, 6 to 10 ideal.
        subject: the wallow.

    Raises:
        ValueError: a negative depth, or a ramp steeper than the steepest published.

    References:
        wallow-71, ramps for cattle.
    """
    steepest = rule(RULES, "steepest ramp", "number")
    if not at_least(slope, steepest.value):
        message = (
            f"a ramp is no steeper than 1 in {steepest.value:g}; 1 in {slope:g} is steeper"
        )
        raise ValueError(message)
    value = Amount(ramp_length_m(depth, slope), "m")
    line = step("ramp", depth=Amount(depth * MM_PER_M, "mm"), slope=slope, ramp=value)
    return Figure("wallow-ramp", value, (line,), steepest.sources, ("cattle",), subject)


def wallow_setback(distance: float, source: str, subject: str = "") -> Figure:
    """Return `pass` or `fail`: is a wallow far enough from a well or from water downhill?

    Args:
        distance: to it [m].
        source: `well`, `shallow well` or `water downhill`.
        subject: the wallow.

    References:
        wallow-67, wallow-68, wallow-69: rules for pens and feedlots; for wallows our choice.
    """
    least = rule(RULES, f"setback from {source}", "length")
    value = PASS if at_least(distance, least.value) else FAIL
    line = step(value, distance=Amount(distance, "m"), least=Amount(least.value, "m"))
    return Figure("wallow-setback", value, (line,), least.sources, ("county",), subject)


def wallow_depth(depth: float, subject: str = "") -> Figure:
    """Return `pass` or `fail`: is a wallow shallow enough?

    Args:
        depth: of water in the middle [m].
        subject: the wallow.

    References:
        wallow-54: 12 in; never over 18 in (old handbooks, grade C).
    """
    deepest, never = (rule(RULES, name, "length") for name in ("deepest", "never deeper"))
    value = PASS if at_least(deepest.value, depth) else FAIL
    key = value if at_least(never.value, depth) else "never"
    line = step(
        key,
        depth=Amount(depth * MM_PER_M, "mm"),
        deepest=Amount(deepest.value * MM_PER_M, "mm"),
        never=Amount(never.value * MM_PER_M, "mm"),
    )
    return Figure("wallow-depth", value, (line,), deepest.sources, ("ramp",), subject)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "wallow-ramp",
        (Argument("depth", "length"), Argument("slope", "ratio", default="6")),
        wallow_ramp,
    ),
    Entry(
        "wallow-setback",
        (
            Argument("distance", "length"),
            Argument("source", "text", choices=(WELL, SHALLOW_WELL, DOWNHILL)),
        ),
        wallow_setback,
    ),
    Entry("wallow-depth", (Argument("depth", "length"),), wallow_depth),
)
