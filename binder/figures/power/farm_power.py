"""Electricity: circuits at 80 %, cords, generators, and how long a closed barn is safe.

Planning figures: the label, the local code and a licensed electrician decide.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.entry import Argument, Entry, renamed
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.finding import Finding, falls_short, finding
from binder.figures.power import cords, generators
from binder.figures.power.cords import CordPower, cord_power
from binder.figures.power.generators import GeneratorPower, generator_power
from binder.figures.power.loads import RULES, Load, amps_of, on_circuit, unknown
from binder.figures.published import formula, rows
from binder.figures.rules import rule
from binder.science import power
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.farm.model import Circuit, Farm, Pen
    from binder.figures.herd.groups import Herd

AREA = "power"
CLOSED = frozenset({"stall", "coop"})
BIRDS = ("chicken", "turkey", "duck")
FORMULAS = "power_formulas"


@dataclass(frozen=True, slots=True)
class CircuitPower:
    """One circuit.

    Attributes:
        circuit: as the owner wrote it.
        limit: what it may carry for three hours or more [A], figure `circuit-limit`.
        draw: all that hangs on it at once [A]; None where nothing is recorded.
        unknown: ids of what hangs on it whose power is not recorded.
        findings: what is missing or too much, `power-findings` in the words.
    """

    circuit: Circuit
    limit: Figure
    draw: Figure | None
    unknown: tuple[str, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class FarmPower:
    """Electricity on the farm on one date.

    Attributes:
        circuits: by id.
        cords: by id.
        generators: by id.
        barn_minutes: until a closed stall without power is dangerous [min], by pen id; stalls
            without animals are left out.
    """

    circuits: Mapping[str, CircuitPower]
    cords: Mapping[str, CordPower]
    generators: Mapping[str, GeneratorPower]
    barn_minutes: Mapping[str, Figure]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Return the findings of circuits, cords and generators, in that order."""
        return (
            *(found for circuit in self.circuits.values() for found in circuit.findings),
            *(found for used in self.cords.values() for found in used.findings),
            *(found for each in self.generators.values() for found in each.findings),
        )


def for_farm(farm: Farm, herd: Herd) -> FarmPower:
    """Return the electricity of `farm` for the herd of one date."""
    equipment = farm.equipment
    closed = {pen.id: herd.in_pen(pen.id) for pen in farm.pens if _is_closed(pen)}
    return FarmPower(
        circuits={each.id: _circuit_power(farm, each) for each in equipment.circuits},
        cords={each.id: cord_power(farm, each) for each in equipment.cords},
        generators={each.id: generator_power(farm, each) for each in equipment.generators},
        barn_minutes={
            pen_id: barn_minutes(
                "birds" if groups[0].animal.species in BIRDS else "pigs", pen_id
            )
            for pen_id, groups in closed.items()
            if groups
        },
    )


def circuit_load(breaker_a: float, volts: float, subject: str = "") -> Figure:
    """Return the load a circuit may carry for three hours or more [W].

    Args:
        breaker_a: rating of its breaker [A], more than 0.
        volts: its voltage [V], more than 0.
        subject: the circuit's id.

    Raises:
        ValueError: a number that is not above 0.

    References:
        husbandry-45 (NEC 210.20(A)): 80 %; 15 A at 120 V carry 1,440 W, 20 A 1,920 W.
    """
    limit = Amount(power.continuous_limit_w(breaker_a, volts), "W")
    working = (
        step("limit", breaker=Amount(breaker_a, "A"), volts=Amount(volts, "V"),
             share=Amount(power.CONTINUOUS_SHARE * 100, "%"), limit=limit),
    )  # fmt: skip
    sources = formula(FORMULAS, "circuit-load")
    cautions = ("electrician", "add-nothing")
    return Figure("circuit-load", limit, working, sources, cautions, subject)


def circuit_limit(breaker_a: float, subject: str = "") -> Figure:
    """Return the current a circuit may carry for three hours or more [A].

    Args:
        breaker_a: rating of its breaker [A], more than 0.
        subject: the circuit's id.

    References:
        husbandry-45 (NEC 210.20(A)): 80 %, as `circuit_load`.
    """
    limit = Amount(breaker_a * power.CONTINUOUS_SHARE, "A")
    working = (
        step("limit", breaker=Amount(breaker_a, "A"),
             share=Amount(power.CONTINUOUS_SHARE * 100, "%"), limit=limit),
    )  # fmt: skip
    sources = formula(FORMULAS, "circuit-limit")
    cautions = ("electrician", "add-nothing")
    return Figure("circuit-limit", limit, working, sources, cautions, subject)


def breaker_needed(continuous_a: float, other_a: float, subject: str = "") -> Figure:
    """Return the least rating of a breaker [A], not rounded up to a size that is sold.

    Args:
        continuous_a: loads of three hours or more [A], 0 or more.
        other_a: all other loads at once [A], 0 or more.
        subject: the circuit's id.

    Raises:
        ValueError: a negative number.

    References:
        husbandry-45 (NEC 210.20(A)): other load + 125 % of the continuous load.
    """
    needed = Amount(power.breaker_needed_a(continuous_a, other_a), "A")
    working = (
        step("needed", other=Amount(other_a, "A"), continuous=Amount(continuous_a, "A"),
             share=Amount(power.CONTINUOUS_MARGIN * 100, "%"), needed=needed),
    )  # fmt: skip
    sources = formula(FORMULAS, "breaker-needed")
    return Figure("breaker-needed", needed, working, sources, ("electrician",), subject)


def barn_minutes(who: str, subject: str = "") -> Figure:
    """Return the minutes until a closed barn without power is dangerous [min].

    The shortest that was read for any closed barn, or for the kind where that is shorter.

    Args:
        who: `pigs` or `birds`.
        subject: the pen.

    References:
        husbandry-22 (birds in still air 20-30 minutes), husbandry-88 (pigs 30).
    """
    table = {each.text("who"): each for each in rows("barn_minutes")}
    fastest, own = table["any"], table[who]
    any_barn, this_kind = (Amount(each.number("minutes"), "min") for each in (fastest, own))
    value = min(any_barn, this_kind, key=lambda amount: amount.value)
    working = (step("any", minutes=any_barn), step(who, minutes=this_kind))
    sources = merge_sources(fastest.sources, own.sources)
    return Figure("barn-minutes", value, working, sources, ("open-up",), subject)


def _is_closed(pen: Pen) -> bool:
    """Return whether a house has no open side; one that is not recorded counts as closed."""
    open_ends = pen.shelter.open_ends if pen.shelter else None
    return pen.kind in CLOSED and not open_ends


def _circuit_power(farm: Farm, circuit: Circuit) -> CircuitPower:
    loads = on_circuit(farm, circuit.id)
    limit = circuit_limit(circuit.breaker_a, circuit.id)
    draw = _draw(loads, circuit.id)
    not_known = unknown(loads)
    found = []
    label = circuit.label or circuit.id
    if draw is not None and falls_short(limit.amount, draw.amount):
        found.append(
            finding(AREA, "circuit-over", circuit.id, draw, limit, circuit=label,
                    draw=draw.amount, limit=limit.amount)
        )  # fmt: skip
    if not_known:
        what = ", ".join(not_known)
        found.append(finding(AREA, "load-unknown", circuit.id, circuit=label, what=what))
    if any(load.is_fan for load in loads) and not circuit.gfci:
        key = "gfci-unknown" if circuit.gfci is None else "no-gfci"
        found.append(finding(AREA, key, circuit.id, circuit=label))
    return CircuitPower(circuit, limit, draw, not_known, tuple(found))


def _draw(loads: tuple[Load, ...], circuit_id: str) -> Figure | None:
    known = [load for load in loads if load.running_w]
    if not known:
        return None
    factor = rule(RULES, "power factor", "number")
    total = Amount(sum(map(amps_of, known)), "A")
    lines = tuple(
        step("other" if load.id == circuit_id else "part", what=load.id,
             watts=Amount(load.running_w or 0.0, "W"), amps=Amount(amps_of(load), "A"),
             volts=Amount(load.voltage_v, "V"), factor=Amount(factor.value, "ratio"))
        for load in known
    )  # fmt: skip
    working = (*lines, step("sum", total=total))
    return Figure("circuit-draw", total, working, factor.sources, (), circuit_id)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "circuit-load",
        (
            Argument("breaker", "current"),
            Argument("volts", "voltage", optional=True, default="120 V", unit="V"),
        ),
        renamed(circuit_load, breaker="breaker_a"),
    ),
    Entry(
        "breaker-needed",
        (
            Argument("continuous", "current"),
            Argument("other", "current", optional=True, default="0 A"),
        ),
        renamed(breaker_needed, continuous="continuous_a", other="other_a"),
    ),
    *cords.ENTRIES,
    *generators.ENTRIES,
    Entry("barn-minutes", (Argument("who", "text", choices=("pigs", "birds")),), barn_minutes),
)
