"""Extension cords: the gauge a load needs, and what is lost along the way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder import units
from binder.figures.entry import Argument, Entry, renamed
from binder.figures.figure import Figure, NotPublishedError, step
from binder.figures.finding import Finding, finding
from binder.figures.noise import NOISE
from binder.figures.power.loads import RULES, amps_of, known_w, named
from binder.figures.published import row_if_told, rows
from binder.figures.rules import quantity, rule
from binder.science import power
from binder.science.ranges import require_positive
from binder.units import Amount

if TYPE_CHECKING:
    from binder.farm.model import Cord, Farm
    from binder.figures.published import Row

AREA = "power"
_KM_PER_1000_FT = 0.3048
CAUTIONS = ("never-through-water", "one-cord", "gfci")


@dataclass(frozen=True, slots=True)
class CordPower:
    """One extension cord in use.

    Attributes:
        cord: as the owner wrote it.
        current: what runs through it [A]; None where the load is not recorded.
        needed: the thinnest gauge that will do [AWG]; None where the current is unknown, or
            where no cord will do at that length.
        drop: volts lost along it as it is [V]; None where current or gauge is not known.
        findings: what is wrong with it, `power-findings` in the words.
    """

    cord: Cord
    current: Figure | None
    needed: Figure | None
    drop: Figure | None
    findings: tuple[Finding, ...]


def cord(amps: float, length_m: float, subject: str = "") -> Figure:
    """Return the thinnest extension cord for a load [AWG]; a smaller number is thicker.

    Args:
        amps: current [A], more than 0, to 20.
        length_m: of the cord [m], more than 0, to 45.7 (150 ft).
        subject: the cord's id.

    Raises:
        NotPublishedError: do not: too much current for a cord, or a cord too long for it.
        ValueError: a number that is not above 0.

    References:
        husbandry-40, husbandry-46: the strictest of three makers' tables. Planning only: the
        tool's label and a licensed electrician decide.
    """
    require_positive(amps, "current", "A")
    require_positive(length_m, "length of the cord", "m")
    table = rows("cords")
    fitting = [
        each for each in table if amps <= quantity(each, "up_to", "current") * (1 + NOISE)
    ]
    if not fitting:
        most = quantity(table[-1], "up_to", "current")
        message = (
            f"do not run {amps:g} A through an extension cord; the table ends at {most:g} A"
        )
        raise NotPublishedError(message)
    limit = fitting[0]
    column = _column(limit, length_m)
    if column is None or not limit.has(column):
        most_m = units.parse(_longest(limit), "length")
        asked, longest = (
            units.show_both(Amount(value, "m"), "us") for value in (length_m, most_m)
        )
        message = (
            f"do not run {amps:g} A through {asked} of cord; the longest for it is {longest}. "
            "Have an outlet put nearer"
        )
        raise NotPublishedError(message)
    gauge = Amount(limit.number(column), "AWG")
    working = (
        step("load", amps=Amount(amps, "A"), length=Amount(length_m, "m")),
        step("row", most=Amount(quantity(limit, "up_to", "current"), "A"),
             length=Amount(units.parse(column, "length"), "m"), gauge=gauge),
    )  # fmt: skip
    return Figure("cord", gauge, working, limit.sources, CAUTIONS, subject)


def _lengths(limit: Row) -> tuple[str, ...]:
    return tuple(name for name in limit.cells if name not in {"up_to", "sources"})


def _column(limit: Row, length_m: float) -> str | None:
    """Return the first column that covers a length, None past the longest."""
    for name in _lengths(limit):
        if length_m <= units.parse(name, "length") * (1 + NOISE):
            return name
    return None


def _longest(limit: Row) -> str:
    return [name for name in _lengths(limit) if limit.has(name)][-1]


def voltage_drop(amps: float, length_m: float, gauge: int, subject: str = "") -> Figure:
    """Return the volts lost along a cord, out and back [V].

    Args:
        amps: current [A], 0 or more.
        length_m: of the cord [m], 0 or more.
        gauge: of its wires [AWG]: 16, 14, 12 or 10.
        subject: the cord's id.

    Raises:
        NotPublishedError: another gauge.

    References:
        husbandry-46: 10 A over 100 ft loses 8.0 V in 16 AWG, 3.1 V in 12 AWG.
    """
    wire = row_if_told("wire", gauge=str(gauge))
    length = Amount(length_m, "m")
    lost = power.volts_lost(amps, units.convert(length, "us"), wire.number("ohms"))
    working = (
        step("drop", amps=Amount(amps, "A"), length=length, gauge=Amount(gauge, "AWG"),
             ohms=wire.number("ohms"), ohms_km=wire.number("ohms") / _KM_PER_1000_FT,
             lost=Amount(lost, "V")),
    )  # fmt: skip
    return Figure("voltage-drop", Amount(lost, "V"), working, wire.sources, subject=subject)


def cord_power(farm: Farm, used: Cord) -> CordPower:
    """Return what runs through a cord of the farm, and whether it may."""
    current = _current(farm, used)
    if current is None:
        unknown = finding(AREA, "cord-load-unknown", used.id, cord=used.id)
        return CordPower(used, None, None, None, (unknown,))
    amps = current.amount.value
    drop = None
    if any(each.text("gauge") == str(used.gauge_awg) for each in rows("wire")):
        drop = voltage_drop(amps, used.length_m, used.gauge_awg, used.id)
    length = Amount(used.length_m, "m")
    try:
        needed = cord(amps, used.length_m, used.id)
    except NotPublishedError:
        too_long = finding(
            AREA,
            "cord-do-not",
            used.id,
            current,
            cord=used.id,
            amps=current.amount,
            length=length,
        )
        return CordPower(used, current, None, drop, (too_long,))
    if used.gauge_awg <= needed.amount.value:
        return CordPower(used, current, needed, drop, ())
    thin = finding(
        AREA, "cord-thin", used.id, current, needed, cord=used.id, amps=current.amount,
        length=length, gauge=Amount(used.gauge_awg, "AWG"), needed=needed.amount,
    )  # fmt: skip
    return CordPower(used, current, needed, drop, (thin,))


def _current(farm: Farm, used: Cord) -> Figure | None:
    loads = named(farm, (used.feeds,)) if used.feeds else ()
    known = known_w(loads)
    if not known or any(load.running_w is None for load in loads):
        return None
    watts, volts = sum(watts for _, watts in known), loads[0].voltage_v
    factor = rule(RULES, "power factor", "number")
    amps = Amount(sum(map(amps_of, loads)), "A")
    working = (
        step("current", watts=Amount(watts, "W"), volts=Amount(volts, "V"),
             factor=Amount(factor.value, "ratio"), amps=amps),
    )  # fmt: skip
    return Figure("cord-current", amps, working, factor.sources, subject=used.id)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "cord",
        (Argument("amps", "current", unit="A"), Argument("length", "length")),
        renamed(cord, length="length_m"),
    ),
    Entry(
        "voltage-drop",
        (
            Argument("amps", "current", unit="A"),
            Argument("length", "length"),
            Argument("gauge", "whole"),
        ),
        renamed(voltage_drop, length="length_m"),
    ),
)
