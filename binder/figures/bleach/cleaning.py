"""How strong a mix is, when animals may go back in, green algae or blue-green (step 3)."""

from __future__ import annotations

from binder.figures import published
from binder.figures.bleach.doses import (
    MIX_CAUTIONS,
    ML_PER_L,
    RULES,
    VOLUME,
    WEIGHT,
    strength_step,
    trade_strength,
)
from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, NotPublishedError, merge_sources, step
from binder.figures.rules import at_least, rule
from binder.science import chlorine
from binder.units import Amount

ANIMALS, SOWS = "pigs and birds", "sows due or piglets"
IN, OUT = "in", "out"
MG_L_PER_PCT = chlorine.MG_L_PER_PCT
GREEN, KEEP_OUT = "green", "keep out"


def mix_strength(
    strength: float, product: float, water: float, basis: str | None = None, subject: str = ""
) -> Figure:
    """Return the free chlorine of a mix before any demand [mg/L].

    Args:
        strength: on the label [%].
        product: bleach [L], 0 or more.
        water: before the bleach [L], above 0.
        basis: `weight`, `volume`, or None where the label does not say.
        subject: the use.

    Raises:
        ValueError: a number outside its range.

    References:
        wallow-8, wallow-10: definition of trade strength.
    """
    bottle = trade_strength(strength, basis)
    value = Amount(chlorine.free_chlorine_mg_l(bottle.trade_pct, product, water), "mg/L")
    line = step(
        "mix", product=Amount(product * ML_PER_L, "mL"), water=Amount(water, "L"), ppm=value
    )
    working = (strength_step(bottle), line)
    return Figure("mix-strength", value, working, bottle.sources, MIX_CAUTIONS, subject)


def strip_gate(reading: float, animals: str, subject: str = "") -> Figure:
    """Return `in` or `out`: may animals go back to treated water on a strip reading?

    Args:
        reading: free chlorine on the strip [%, weight in volume: 0.5 ppm is 0.00005].
        animals: `pigs and birds`, or `sows due or piglets` (no color at all).
        subject: the wallow.

    References:
        Our choice, stricter than anything published: wallow-24, wallow-66.
    """
    name = "strip gate for sows and piglets" if animals == SOWS else "strip gate"
    gate = rule(RULES, name, "strength")
    value = IN if at_least(gate.value, reading) else OUT
    line = step(
        value,
        reading=Amount(reading * MG_L_PER_PCT, "mg/L"),
        gate=Amount(gate.value * MG_L_PER_PCT, "mg/L"),
    )
    return Figure("strip-gate", value, (line,), gate.sources, ("clean-water", "strip"), subject)


def algae(stick: str, jar: str, scum: str, subject: str = "") -> Figure:
    """Return `keep out` or `green`: what two field tests and a look say about a bloom.

    Args:
        stick: `strands`, `paint` or `clean`.
        jar: `sinks` or `floats`.
        scum: `yes` or `no`.
        subject: the wallow.

    References:
        wallow-36, wallow-37: any scum or doubt counts as blue-green.
    """
    seen = [
        published.row("algae", test=test, result=result)
        for test, result in (("scum", scum), ("stick", stick), ("jar", jar))
    ]
    value = GREEN if all(row.text("means") == GREEN for row in seen) else KEEP_OUT
    lines = tuple(step(f"{row.text('test')}-{row.text('result')}") for row in seen)
    sources = merge_sources(*(row.sources for row in seen))
    return Figure("algae", value, lines, sources, ("no-proof", "sick", "never-treat"), subject)


def peroxide_level(strength: float, product: float, water: float, subject: str = "") -> Figure:
    """Return the peroxide in water after household peroxide is poured in [mg/L]: information.

    Args:
        strength: on the label [%], above 0 to 9: household strength.
        product: [L], 0 or more.
        water: [L], above 0.
        subject: what it is for.

    Raises:
        NotPublishedError: stronger than household peroxide.
        ValueError: a number outside its range.

    References:
        wallow-43 for strengths; arithmetic, with the product as heavy as water.
    """
    strongest = rule(RULES, "strongest household peroxide", "strength")
    if strength > strongest.value:
        message = f"worked up to {strongest.value:g} % only; stronger peroxide burns on contact"
        raise NotPublishedError(message)
    level = chlorine.peroxide_mg_l(strength, chlorine.WATER_SG, product, water)
    value = Amount(level, "mg/L")
    line = step(
        "level",
        label=Amount(strength, "%"),
        product=Amount(product * ML_PER_L, "mL"),
        water=Amount(water, "L"),
        level=value,
    )
    cautions = ("information", "never-with-bleach", "mud")
    return Figure("peroxide-level", value, (line,), strongest.sources, cautions, subject)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "mix-strength",
        (
            Argument("strength", "strength"),
            Argument("product", "volume"),
            Argument("water", "volume"),
            Argument("basis", "text", optional=True, choices=(WEIGHT, VOLUME)),
        ),
        mix_strength,
    ),
    Entry(
        "strip-gate",
        (
            Argument("reading", "strength"),
            Argument("animals", "text", choices=(ANIMALS, SOWS), default=ANIMALS),
        ),
        strip_gate,
    ),
    Entry(
        "algae",
        (
            Argument("stick", "text", choices=("strands", "paint", "clean")),
            Argument("jar", "text", choices=("sinks", "floats")),
            Argument("scum", "text", choices=("yes", "no")),
        ),
        algae,
    ),
    Entry(
        "peroxide-level",
        (
            Argument("strength", "strength"),
            Argument("product", "volume"),
            Argument("water", "volume"),
        ),
        peroxide_level,
    ),
)
