"""Wallows: how much water one holds, loses and needs, and how big it must be (step 3)."""

from __future__ import annotations

from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.published import formula
from binder.figures.rules import rule
from binder.science import evaporation as loss
from binder.science import volume
from binder.science.wallow import lying_area_m2
from binder.units import Amount

RULES = "wallow_rules"
FORMULAS = "wallow_formulas"
MM_PER_M = 1000.0
DOSING, FILLING = "dosing", "filling"
OVAL, ROUND, RECTANGLE = "oval", "round", "rectangle"

Form = tuple[str, float]  # name of a published form, litres it gives


def _forms(shape: str, length_m: float, width_m: float, depth_m: float) -> tuple[Form, ...]:
    """Return the published forms of a shape from the smallest to the largest."""
    if shape == RECTANGLE:
        return (
            ("pyramid", volume.pyramid_l(length_m, width_m, depth_m)),
            ("box", volume.box_l(length_m, width_m, depth_m)),
        )
    straight = (
        volume.round_tank_l(length_m, depth_m)
        if shape == ROUND
        else volume.oval_box_l(length_m, width_m, depth_m)
    )
    return (
        ("cone", volume.cone_l(length_m, width_m, depth_m)),
        ("depression", volume.elliptical_depression_l(length_m, width_m, depth_m)),
        ("straight", straight),
    )


def surface_m2(shape: str, length_m: float, width_m: float) -> float:
    """Return the open water of a wallow [m2]: its straight-sided form over a metre of depth.

    Args:
        shape: of its outline.
        length_m: across the water [m], above 0.
        width_m: across the water [m], above 0; of a round one its diameter.

    Returns:
        Surface [m2], not rounded.

    Raises:
        ValueError: a size that is not above 0.

    References:
        Geometry; wallow-60 (oval).
    """
    return _forms(shape, length_m, width_m, depth_m=1.0)[-1][1] / volume.L_PER_M3


def width_m(shape: str, length_m: float, width: float | None) -> float:
    """Return the width of a wallow [m]: the length of a round one is its diameter.

    Raises:
        ValueError: not round, and no width.
    """
    if shape == ROUND:
        return length_m
    if width is None:
        message = f"the width of the wallow is missing; only a {ROUND} one does without"
        raise ValueError(message)
    return width


def wallow_volume(
    shape: str,
    length: float,
    depth: float,
    width: float | None = None,
    use: str = DOSING,
    subject: str = "",
) -> Figure:
    """Return the water a wallow holds [L]: low for dosing, high for filling.

    Args:
        shape: `oval`, `round` (the length is the diameter) or `rectangle`.
        length: across the surface [m], above 0.
        depth: of water in the middle [m], 0 or more.
        width: across the surface [m], above 0; not asked for where round.
        use: `dosing` takes the smallest published form, so that a dose is never too strong;
            `filling` the largest, so that the water ordered is enough.
        subject: the wallow.

    Raises:
        ValueError: a size outside its range, or no width.

    References:
        wallow-60: cone, 4/9 rule, straight sides; the pyramid is geometry.
    """
    forms = _forms(shape, length, width_m(shape, length, width), depth)
    value = Amount(forms[0 if use == DOSING else -1][1], "L")
    sizes = step(
        f"sizes-{shape}",
        length=Amount(length, "m"),
        width=Amount(width_m(shape, length, width), "m"),
        depth=Amount(depth * MM_PER_M, "mm"),
    )
    lines = tuple(step(form, volume=Amount(held, "L")) for form, held in forms)
    return Figure(
        name="wallow-volume",
        value=value,
        working=(sizes, *lines, step(use, volume=value)),
        sources=formula(FORMULAS, "wallow-volume"),
        cautions=("measure",),
        subject=subject,
    )


def evaporation(area: float, rate: float, subject: str = "") -> Figure:
    """Return the water a surface loses in a day [L/day].

    Args:
        area: open water [m2], 0 or more.
        rate: loss [mm/day], 0 or more.
        subject: the wallow or tank.

    Raises:
        ValueError: a negative number.

    References:
        Arithmetic; usual rates water-114.
    """
    value = Amount(loss.surface_loss_l_per_day(area, rate), "L/day")
    line = step("loss", area=Amount(area, "m2"), rate=Amount(rate, "mm/day"), loss=value)
    sources = formula(FORMULAS, "evaporation")
    return Figure("evaporation", value, (line,), sources, subject=subject)


def wallow_area(count: int, weight: float, subject: str = "") -> Figure:
    """Return the surface a wallow needs [m2]: room for twice the pigs it serves.

    Args:
        count: pigs.
        weight: of one [kg], above 0.
        subject: the wallow.

    Raises:
        ValueError: a weight that is not above 0.

    References:
        wallow-48 for twice the pigs; extra-11 for the room a pig takes.
    """
    times = rule(RULES, "room for times the pigs", "number")
    each_m2 = lying_area_m2(weight)
    value = Amount(each_m2 * times.value * count, "m2")
    line = step(
        "area",
        count=count,
        weight=Amount(weight, "kg"),
        each=Amount(each_m2, "m2"),
        times=times.value,
        area=value,
    )
    sources = merge_sources(times.sources, formula(FORMULAS, "wallow-area"))
    return Figure("wallow-area", value, (line,), sources, ("lying",), subject)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "wallow-volume",
        (
            Argument("shape", "text", choices=(OVAL, ROUND, RECTANGLE)),
            Argument("length", "length"),
            Argument("width", "length", optional=True),
            Argument("depth", "length"),
            Argument("use", "text", choices=(DOSING, FILLING), default=DOSING),
        ),
        wallow_volume,
    ),
    Entry(
        "evaporation",
        (Argument("area", "area"), Argument("rate", "depth rate")),
        evaporation,
    ),
    Entry(
        "wallow-area",
        (Argument("count", "whole"), Argument("weight", "weight")),
        wallow_area,
    ),
)
