"""What draws electricity on the farm: fans, pumps, and what else hangs on a circuit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.rules import rule

if TYPE_CHECKING:
    from binder.farm.model import Circuit, Farm

RULES = "power_rules"


@dataclass(frozen=True, slots=True)
class Load:
    """One thing that draws electricity.

    Attributes:
        id: of the fan or water source, or of the circuit for what else hangs on it.
        running_w: while it runs [W]; None where not recorded.
        circuit: the circuit's id; None where not recorded.
        voltage_v: of its circuit, else of an outlet [V].
        is_fan: whether it is a fan, which stands near water and animals.
    """

    id: str
    running_w: float | None
    circuit: str | None
    voltage_v: float
    is_fan: bool = False


def all_loads(farm: Farm) -> tuple[Load, ...]:
    """Return every load on the farm: fans by pen, then pumps, then the rest of each circuit.

    A water source without a pump's power and without a circuit is no load, unless something
    names it as one.
    """
    volts = {circuit.id: circuit.voltage_v for circuit in farm.equipment.circuits}
    usual = rule(RULES, "voltage where not recorded", "voltage").value
    found = [
        Load(fan.id, fan.power_w, fan.circuit, volts.get(fan.circuit or "", usual), is_fan=True)
        for pen in farm.pens
        for fan in pen.fans
    ]
    found += [
        Load(source.id, source.pump_w, source.circuit, volts.get(source.circuit or "", usual))
        for source in farm.equipment.water_sources
    ]
    return (*found, *(_rest(circuit) for circuit in farm.equipment.circuits))


def _rest(circuit: Circuit) -> Load:
    """Return what else hangs on a circuit; nothing written means nothing there."""
    return Load(circuit.id, circuit.other_w or 0.0, circuit.id, circuit.voltage_v)


def on_circuit(farm: Farm, circuit_id: str) -> tuple[Load, ...]:
    """Return the loads of one circuit."""
    return tuple(load for load in all_loads(farm) if load.circuit == circuit_id)


def named(farm: Farm, names: tuple[str, ...]) -> tuple[Load, ...]:
    """Return the loads that ids name, a circuit's all at once, each load once."""
    circuits = {circuit.id for circuit in farm.equipment.circuits}
    every = all_loads(farm)
    wanted = [
        load
        for name in names
        for load in every
        if (load.circuit == name if name in circuits else load.id == name)
    ]
    return tuple(dict.fromkeys(wanted))


def known_w(loads: tuple[Load, ...]) -> tuple[tuple[str, float], ...]:
    """Return id and running power [W] of the loads whose power is recorded and not nothing."""
    return tuple((load.id, load.running_w) for load in loads if load.running_w)


def amps_of(load: Load) -> float:
    """Return what a load of known power draws [A]: its watts over volts and power factor.

    References:
        Power factor 0.8 where no plate gives amps: our choice (power_rules.csv).
    """
    factor = rule(RULES, "power factor", "number").value
    return (load.running_w or 0.0) / (load.voltage_v * factor)


def is_wired_in(load: Load) -> bool:
    """Return whether a load runs on more than an outlet's voltage, so that no cord feeds it."""
    return load.voltage_v > rule(RULES, "outlet voltage at most", "voltage").value


def unknown(loads: tuple[Load, ...]) -> tuple[str, ...]:
    """Return the ids of loads whose power is not recorded."""
    return tuple(load.id for load in loads if load.running_w is None)
