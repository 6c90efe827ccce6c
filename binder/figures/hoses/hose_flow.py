"""Hoses: what they hold, how long to flush them, what pressure they lose (step 3)."""

from __future__ import annotations

from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.published import formula
from binder.figures.rules import rule
from binder.science import pipe
from binder.units import Amount

RULES = "hose_rules"
FORMULAS = "hose_formulas"
MM_PER_M = pipe.MM_PER_M


def hose_volume(inside: float, length: float, subject: str = "") -> Figure:
    """Return the water standing in a hose [L].

    Args:
        inside: inside diameter [m], above 0.
        length: [m], 0 or more.
        subject: the hose.

    Raises:
        ValueError: a size outside its range.

    References:
        Geometry; water-75 prints 0.8 gal for 50 ft of 5/8 in.
    """
    value = Amount(pipe.held_volume_l(inside * MM_PER_M, length), "L")
    line = step("held", **_sizes(inside, length), held=value)
    sources = formula(FORMULAS, "hose-volume")
    return Figure("hose-volume", value, (line,), sources, subject=subject)


def hose_flush(inside: float, length: float, flow: float, subject: str = "") -> Figure:
    """Return how long to run a hose before animals or people use it [s].

    Args:
        inside: inside diameter [m], above 0.
        length: [m], 0 or more.
        flow: at the open end [L/min], above 0.
        subject: the hose.

    Raises:
        ValueError: a number outside its range.

    References:
        Derived: 1.5 times what it holds, then to a thermometer; water-50 flushes lines daily.
    """
    times = rule(RULES, "flush volumes", "number")
    held_l = pipe.held_volume_l(inside * MM_PER_M, length)
    value = Amount(pipe.flush_time_s(held_l, flow, times.value), "s")
    working = (
        step("held", **_sizes(inside, length), held=Amount(held_l, "L")),
        step("out", times=times.value, out=Amount(held_l * times.value, "L")),
        step("time", flow=Amount(flow, "L/min"), time=value),
    )
    sources = merge_sources(times.sources, formula(FORMULAS, "hose-flush"))
    return Figure("hose-flush", value, working, sources, ("thermometer", "scald"), subject)


def hose_run_out(inside: float, length: float, subject: str = "") -> Figure:
    """Return the water that one flush runs out [L]: flow times minutes, whatever the flow.

    Args:
        inside: inside diameter [m], above 0.
        length: [m], 0 or more.
        subject: the hose.

    Raises:
        ValueError: a number outside its range.

    References:
        As `hose_flush`, which says how long it takes.
    """
    times = rule(RULES, "flush volumes", "number")
    held_l = pipe.held_volume_l(inside * MM_PER_M, length)
    value = Amount(held_l * times.value, "L")
    working = (
        step("held", **_sizes(inside, length), held=Amount(held_l, "L")),
        step("out", times=times.value, out=value),
    )
    sources = merge_sources(times.sources, formula(FORMULAS, "hose-run-out"))
    return Figure("hose-run-out", value, working, sources, (), subject)


def hose_pressure_loss(inside: float, length: float, flow: float, subject: str = "") -> Figure:
    """Return the pressure lost along a hose [kPa].

    Args:
        inside: inside diameter [m], above 0.
        length: [m], 0 or more.
        flow: [L/min], 0 or more.
        subject: the hose.

    Raises:
        ValueError: a number outside its range.

    References:
        Hazen-Williams with 140 (water-76); water-74 reads 5 psi for 2 gal/min
        through 100 ft of 1/2 in.
    """
    rough = rule(RULES, "roughness", "number")
    lost = pipe.pressure_loss_kpa(flow, inside * MM_PER_M, length, rough.value)
    value = Amount(lost if lost >= _NO_LOSS_KPA else 0.0, "kPa")
    line = step("loss", **_sizes(inside, length), flow=Amount(flow, "L/min"), loss=value)
    sources = merge_sources(rough.sources, formula(FORMULAS, "hose-pressure-loss"))
    return Figure("hose-pressure-loss", value, (line,), sources, ("kinks",), subject)


# Our choice: what no gauge on a farm shows is none, and not 0.000006 psi.
_NO_LOSS_KPA = 0.05


def _sizes(inside: float, length: float) -> dict[str, Amount]:
    return {"inside": Amount(inside * MM_PER_M, "mm"), "length": Amount(length, "m")}


_SIZES = (Argument("inside", "length"), Argument("length", "length"))

ENTRIES: tuple[Entry, ...] = (
    Entry("hose-volume", _SIZES, hose_volume),
    Entry("hose-flush", (*_SIZES, Argument("flow", "flow")), hose_flush),
    Entry("hose-pressure-loss", (*_SIZES, Argument("flow", "flow")), hose_pressure_loss),
)
