"""Bleach: its true strength, doses and dilutions (step 3).

Arithmetic, not permission: the product's label says where it may be used. Every dose is before
demand; a strip decides when animals come back, never this module.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, NotPublishedError, merge_sources, step
from binder.figures.rules import rule
from binder.science import chlorine
from binder.science.ranges import require_positive
from binder.units import Amount

if TYPE_CHECKING:
    from binder.figures.figure import Step

RULES = "chlorine_rules"
FORMULAS = "bleach_formulas"
WEIGHT, VOLUME = "weight", "volume"
MG_L_PER_PCT = chlorine.MG_L_PER_PCT
ML_PER_L = 1000.0

# In the order they are printed: the label is the law, then how to keep animals safe.
DOSE_CAUTIONS = ("label", "bedded", "gate", "bloom", "mixing", "drain", "honest")
MIX_CAUTIONS = ("label", "never-on-animals", "clean-first", "mixing", "plain", "fresh")


@dataclass(frozen=True, slots=True)
class Strength:
    """The trade strength of a product: grams of available chlorine in 100 mL [%].

    Attributes:
        label_pct: as the label prints it [%].
        trade_pct: what the arithmetic uses [%].
        basis: `weight` or `volume`, as stated or as assumed.
        assumed: whether the label did not say, so that the stronger was taken.
        sources: ids it rests on.
    """

    label_pct: float
    trade_pct: float
    basis: str
    assumed: bool
    sources: tuple[str, ...]


def trade_strength(label_pct: float, basis: str | None = None) -> Strength:
    """Return the trade strength of a bleach [%].

    Args:
        label_pct: strength on the label [%], above 0; by weight to 12.5, by volume to 15.
        basis: `weight`, `volume`, or None: then by weight, the stronger of the two.

    Raises:
        NotPublishedError: by weight, and stronger than the table of densities; by volume, and
            stronger than any bleach that is sold.

    References:
        wallow-8: trade % = weight % / 1.05 x specific gravity. The same label reads
        2 to 14 % stronger by weight than by volume.
    """
    strength = published.formula(FORMULAS, "bleach-strength")
    if basis == VOLUME:
        if label_pct > chlorine.STRONGEST_TRADE_PCT:
            message = (
                f"bleach is sold up to {chlorine.STRONGEST_TRADE_PCT:g} % by volume, not with "
                f"{label_pct:g} %; read the strength off its label again"
            )
            raise NotPublishedError(message)
        return Strength(label_pct, label_pct, VOLUME, assumed=False, sources=strength)
    gravity, sources = _specific_gravity(label_pct)
    return Strength(
        label_pct=label_pct,
        trade_pct=chlorine.trade_pct(label_pct, gravity),
        basis=WEIGHT,
        assumed=basis is None,
        sources=merge_sources(strength, sources),
    )


def _specific_gravity(weight_pct: float) -> tuple[float, tuple[str, ...]]:
    table = [
        (row.number("weight_pct"), row.number("specific_gravity"), row.sources)
        for row in published.rows("bleach_density")
    ]
    if weight_pct <= table[0][0]:
        return table[0][1], table[0][2]
    for (low_pct, low, below), (high_pct, high, above) in pairwise(table):
        if weight_pct <= high_pct:
            share = (weight_pct - low_pct) / (high_pct - low_pct)
            return low + share * (high - low), merge_sources(below, above)
    message = (
        f"the density of bleach is published up to {table[-1][0]:g} % by weight, not for "
        f"{weight_pct:g} %; if the label says trade or volume %, write basis=volume"
    )
    raise NotPublishedError(message)


def bleach_dose(
    strength: float,
    target: float,
    volume: float,
    basis: str | None = None,
    subject: str = "",
) -> Figure:
    """Return the bleach that brings clean water to a target before any demand [mL].

    Args:
        strength: on the label [%].
        target: free chlorine wanted [%, weight in volume: 5 ppm is 0.0005].
        volume: water [L], the low estimate of a wallow.
        basis: `weight`, `volume` or None where the label does not say (the stronger is taken,
            so that the dose is the smaller).
        subject: the wallow or tank it is for.

    Raises:
        ValueError: a number outside its range; the message names it.

    References:
        Derived from wallow-8 and wallow-10, the exact form.
    """
    require_positive(target, "target", "%")
    product = trade_strength(strength, basis)
    target_mg_l = target * MG_L_PER_PCT
    dose_ml = chlorine.bleach_for_target_l(product.trade_pct, target_mg_l, volume) * ML_PER_L
    dose = Amount(dose_ml, "mL")
    rate = rule(RULES, "stock tank rate", "strength")
    return Figure(
        name="bleach-dose",
        value=dose,
        working=(
            strength_step(product),
            step(
                "dose",
                volume=Amount(volume, "L"),
                target=Amount(target_mg_l, "mg/L"),
                dose=dose,
            ),
        ),
        sources=merge_sources(
            product.sources, rule(RULES, "strip gate", "strength").sources, rate.sources
        ),
        cautions=DOSE_CAUTIONS + (("strong",) if target > rate.value else ()),
        subject=subject,
    )


def strength_step(product: Strength) -> Step:
    """Return the line of working that says how strong a product is, and whether assumed."""
    key = "assumed" if product.assumed else product.basis
    return step(key, label=Amount(product.label_pct, "%"), trade=Amount(product.trade_pct, "%"))


def dilution(strength: float, target: float, subject: str = "") -> Figure:
    """Return the parts of water to one part of product, as public tables work it out [ratio].

    Args:
        strength: on the label [%], up to 100.
        target: wanted [%], above 0, not above the strength.
        subject: the use it is for.

    Raises:
        ValueError: a strength outside its range.

    References:
        wallow-1 (CDC): strength / wanted - 1. For surfaces and tools, never for animals.
    """
    parts = chlorine.parts_water(strength, target)
    ratio = Amount(parts, "ratio")
    return Figure(
        name="dilution",
        value=ratio,
        working=(
            step("parts", label=Amount(strength, "%"), target=Amount(target, "%"), parts=ratio),
            step("ppm", target=Amount(target * MG_L_PER_PCT, "mg/L")),
        ),
        sources=published.formula(FORMULAS, "dilution"),
        cautions=MIX_CAUTIONS,
        subject=subject,
    )


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "bleach-dose",
        (
            Argument("strength", "strength"),
            Argument("target", "strength"),
            Argument("volume", "volume"),
            Argument("basis", "text", optional=True, choices=(WEIGHT, VOLUME)),
        ),
        bleach_dose,
    ),
    Entry(
        "dilution",
        (Argument("strength", "strength"), Argument("target", "strength")),
        dilution,
    ),
)
