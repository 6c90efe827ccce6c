"""Generators: what they must run and start, and how long the fuel lasts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.entry import Argument, Entry, renamed
from binder.figures.figure import Figure, step
from binder.figures.finding import Finding, falls_short, finding
from binder.figures.power.loads import RULES, Load, is_wired_in, known_w, named, unknown
from binder.figures.rules import rule
from binder.science import power
from binder.units import Amount

if TYPE_CHECKING:
    from binder.farm.model import Farm, Generator

AREA = "power"
CANNOT = ("generator-cannot", "generator-wired-in")  # findings: left out, not run one by one
CAUTIONS = ("outdoors", "no-backfeed", "refuel")


@dataclass(frozen=True, slots=True)
class GeneratorPower:
    """One generator against what it must run.

    Attributes:
        generator: as the owner wrote it.
        running: all of it running at once [W]; None where no power is recorded.
        starting: the highest draw while all is started one by one, the largest first [W]; None
            with `running`.
        hours: how long the fuel lasts [h]; None where the owner has not timed it.
        unknown: ids of what it must run whose power is not recorded.
        findings: what is missing or too much, `power-findings` in the words.
    """

    generator: Generator
    running: Figure | None
    starting: Figure | None
    hours: Figure | None
    unknown: tuple[str, ...]
    findings: tuple[Finding, ...]


def starting_load(running_w: float, subject: str = "") -> Figure:
    """Return what a motor draws while it starts [W], where its plate does not say.

    Args:
        running_w: while it runs [W], 0 or more.
        subject: the motor.

    References:
        husbandry-46: three times the running load; 450 W start with 1,350 W.
    """
    factor = rule(RULES, "starting over running", "number")
    value = Amount(power.starting_w(running_w, factor.value), "W")
    working = (step("start", running=Amount(running_w, "W"),
                    factor=Amount(factor.value, "ratio"), starting=value),)  # fmt: skip
    return Figure("starting-load", value, working, factor.sources, ("plate",), subject)


def fuel_hours(fuel_l: float, rate_l_h: float, subject: str = "") -> Figure:
    """Return how long the fuel lasts [h].

    Args:
        fuel_l: fuel in hand [L], 0 or more.
        rate_l_h: what the owner timed, or the manual's figure [L/h], more than 0.
        subject: the generator.

    References:
        Arithmetic; published rates are grade C (husbandry-39), so only the owner's is used.
    """
    value = Amount(power.fuel_hours(fuel_l, rate_l_h), "h")
    working = (
        step("fuel", fuel=Amount(fuel_l, "L"), rate=Amount(rate_l_h, "L/h"), hours=value),
    )
    return Figure("fuel-hours", value, working, (), CAUTIONS, subject)


def generator_power(farm: Farm, generator: Generator) -> GeneratorPower:
    """Return a generator of the farm against what it must run."""
    loads = named(farm, generator.runs)
    known = known_w(loads)
    running = _running(known, generator.id) if known else None
    starting = _starting(known, generator.id) if known else None
    hours = None
    if generator.fuel_l is not None and generator.fuel_l_h is not None:
        hours = fuel_hours(generator.fuel_l, generator.fuel_l_h, generator.id)
    not_known = unknown(loads)
    findings = (
        *(cannot := _cannot(generator, loads)),
        *(() if cannot else _load_findings(generator, running, starting)),
        *_record_findings(generator, not_known, known=bool(known)),
    )
    return GeneratorPower(generator, running, starting, hours, not_known, findings)


def _running(known: tuple[tuple[str, float], ...], subject: str) -> Figure:
    total = Amount(sum(watts for _, watts in known), "W")
    lines = tuple(step("part", what=name, watts=Amount(watts, "W")) for name, watts in known)
    return Figure(
        "generator-running", total, (*lines, step("sum", total=total)), (), (), subject
    )


def _starting(known: tuple[tuple[str, float], ...], subject: str) -> Figure:
    """Return the highest draw while the loads start one by one, the largest first.

    Every load is taken for a motor: what else hangs on a circuit may be a refrigerator.
    """
    running_w = highest_w = 0.0
    lines = []
    largest_first = sorted(known, key=lambda load: -load[1])
    for name, watts in largest_first:
        start = starting_load(watts)
        draw = Amount(running_w + start.amount.value, "W")
        lines.append(
            step(
                "start",
                what=name,
                running=Amount(running_w, "W"),
                start=start.amount,
                draw=draw,
            )
        )
        running_w += watts
        highest_w = max(highest_w, draw.value)
    highest = Amount(highest_w, "W")
    sources = starting_load(0.0).sources
    working = (*lines, step("highest", highest=highest))
    return Figure("generator-starting", highest, working, sources, ("largest-first",), subject)


def _cannot(generator: Generator, loads: tuple[Load, ...]) -> list[Finding]:
    """Return what a generator cannot run at all: too much to start alone, or wired in."""
    may_start = Amount(generator.starting_w or generator.running_w, "W")
    found = []
    for load in loads:
        if not load.running_w:
            continue
        need = starting_load(load.running_w).amount
        if falls_short(may_start, need):
            found.append(
                finding(AREA, "generator-cannot", generator.id, generator=generator.name,
                        what=load.id, need=need, have=may_start)
            )  # fmt: skip
        if is_wired_in(load) and not generator.transfer_switch:
            volts = Amount(load.voltage_v, "V")
            found.append(
                finding(AREA, "generator-wired-in", generator.id, generator=generator.name,
                        what=load.id, volts=volts)
            )  # fmt: skip
    return found


def _load_findings(
    generator: Generator, running: Figure | None, starting: Figure | None
) -> list[Finding]:
    if running is None or starting is None:
        return []
    may_run = Amount(generator.running_w, "W")
    # Without a starting figure on its plate it is only sure of what it can run.
    may_start = Amount(generator.starting_w or generator.running_w, "W")
    for need, have in ((running, may_run), (starting, may_start)):
        if falls_short(have, need.amount):
            name = generator.name
            return [
                finding(
                    AREA,
                    need.name,
                    generator.id,
                    need,
                    generator=name,
                    need=need.amount,
                    have=have,
                )
            ]
    return []


def _record_findings(
    generator: Generator, not_known: tuple[str, ...], *, known: bool
) -> list[Finding]:
    found = []
    name = generator.name
    if not known and not not_known:
        found.append(finding(AREA, "generator-runs-nothing", generator.id, generator=name))
    if not_known:
        what = ", ".join(not_known)
        found.append(
            finding(AREA, "generator-load-unknown", generator.id, generator=name, what=what)
        )
    if generator.fuel_l is None or generator.fuel_l_h is None:
        found.append(finding(AREA, "fuel-not-timed", generator.id, generator=name))
    if generator.connection is None:
        found.append(finding(AREA, "connection-unknown", generator.id, generator=name))
    return found


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "starting-load",
        (Argument("running", "power"),),
        renamed(starting_load, running="running_w"),
    ),
    Entry(
        "fuel-hours",
        (Argument("fuel", "volume"), Argument("rate", "fuel rate")),
        renamed(fuel_hours, fuel="fuel_l", rate="rate_l_h"),
    ),
)
