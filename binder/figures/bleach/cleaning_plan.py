"""The farm's bleach: its mixes, doses where the label allows, bleach to buy (step 3).

A wallow dose stands only where the owner states that the label names the use and the farm's
strips can show the gate.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures import published
from binder.figures.bleach.bleach_age import bleach_strength
from binder.figures.bleach.cleaning import MG_L_PER_PCT
from binder.figures.bleach.doses import ML_PER_L, RULES, bleach_dose
from binder.figures.bleach.mixes import BLEACH, WALLOW, MixRow, dilution_table, is_listed
from binder.figures.figure import (
    DERIVED,
    OUR_CHOICE,
    Figure,
    NotPublishedError,
    merge_sources,
    step,
)
from binder.figures.rules import at_least, quantity, rule
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.farm.model import Farm, Product
    from binder.figures.herd.groups import Herd
    from binder.figures.wallows.wallow_plan import WallowSheet
    from binder.figures.weather.hot_days import DayWeather

BOOT_BATH, WATERER = "boot bath", "waterer"


def bleach_to_buy(product: str, days: int, drinking_places: int) -> Figure:
    """Return the bleach for boot baths and waterers over some days [mL]: our choice of both.

    Args:
        product: id of a bleach; the recipes do not depend on its strength.
        days: of the stay, 1 or more.
        drinking_places: drinkers on the farm.
    """
    amounts = {
        key: rule(RULES, name, kind).value
        for key, name, kind in (
            ("boots", "boot bath", "volume"),
            ("every_h", "boot bath renewed every", "time"),
            ("waterer", "waterer mix for a drinking place", "volume"),
            ("clean_h", "waterers cleaned every", "time"),
        )
    }
    hours = days * HOURS_IN_DAY
    baths = math.ceil(hours / amounts["every_h"])
    cleanings = math.ceil(hours / amounts["clean_h"])
    boot_ml = _bleach_in(BOOT_BATH, amounts["boots"]) * baths
    waterer_ml = _bleach_in(WATERER, amounts["waterer"] * drinking_places) * cleanings
    value = Amount(boot_ml + waterer_ml, "mL")
    lines = (
        step(
            "boots",
            baths=baths,
            each=Amount(amounts["boots"], "L"),
            bleach=Amount(boot_ml, "mL"),
        ),
        step(
            "waterers",
            cleanings=cleanings,
            places=drinking_places,
            each=Amount(amounts["waterer"], "L"),
            bleach=Amount(waterer_ml, "mL"),
        ),
        step("sum", days=days, buy=value),
    )
    return Figure("bleach-to-buy", value, lines, (OUR_CHOICE,), ("fresh-bottle",), product)


def _bleach_in(use: str, mix_l: float) -> float:
    """Return the bleach in so much of a mix [mL]."""
    row = published.row("cleaning_uses", use=use)
    return (
        mix_l * quantity(row, "product", "volume") / quantity(row, "water", "volume") * ML_PER_L
    )


@dataclass(frozen=True, slots=True)
class WallowDose:
    """Whether a product may go into a wallow, and how much.

    Attributes:
        wallow, product: their ids.
        dose: `bleach-dose` for the published stock tank rate and the low volume [mL]; None
            where `reason` says why not.
        reason: empty, or the key of the words under `wallow-dose-reasons`: `label` (the owner
            does not state that the label names the use), `strips` (no strips that show the
            gate), `size` (the wallow's width is missing), `strength` (none is published).
    """

    wallow: str
    product: str
    dose: Figure | None
    reason: str


@dataclass(frozen=True, slots=True)
class CleaningFigures:
    """Everything about bleach on the farm.

    Attributes:
        table: the mixing sheet.
        doses: for every wallow and every bleach.
        aged: `bleach-strength` by product id on the binder's date; only products whose day of
            buying is recorded and that the table covers.
        too_old: ids of products older or warmer than the table covers: buy fresh.
        storage_assumed: ids of products whose storage heat is taken as the hot day's high.
        buy: `bleach-to-buy` by product id for a stay; empty where no days were given.
        strips_show_gate: whether the farm's strips show the gate; None where not recorded.
        gate_mg_l: the strip reading at which animals may come back [mg/L].
        harm_mg_l: the strength at which one farm reported harm [mg/L].
        stretch: `bleach-stretch` by product id: how many times the bleach a mix needs now.
    """

    table: tuple[MixRow, ...]
    doses: tuple[WallowDose, ...]
    aged: Mapping[str, Figure]
    too_old: tuple[str, ...]
    storage_assumed: tuple[str, ...]
    buy: Mapping[str, Figure]
    strips_show_gate: bool | None
    gate_mg_l: float
    harm_mg_l: float
    stretch: Mapping[str, Figure]


def for_farm(
    farm: Farm,
    herd: Herd,
    hot: DayWeather,
    wallows: Mapping[str, WallowSheet],
    days: int | None = None,
) -> CleaningFigures:
    """Return the farm's mixes, doses, ageing and shopping.

    Args:
        farm: the farm.
        herd: its herd; its date is the binder's.
        hot: the hot day, whose high stands for a storage heat that is not recorded.
        wallows: of `wallow_plan.for_farm`.
        days: of a stay, None for none.
    """
    bottles = [product for product in farm.equipment.products if product.kind == BLEACH]
    lowest_mg_l = farm.equipment.strips_read_from_mg_l
    gate_mg_l = rule(RULES, "strip gate", "strength").value * MG_L_PER_PCT
    shows = None if lowest_mg_l is None else at_least(gate_mg_l, lowest_mg_l)
    aged: dict[str, Figure] = {}
    too_old: list[str] = []
    for product in bottles:
        if product.bought is None or product.bought > herd.on:
            continue
        kept_c = hot.high_c if product.kept_at_c is None else product.kept_at_c
        hours = (herd.on - product.bought).days * HOURS_IN_DAY
        try:
            aged[product.id] = bleach_strength(product.strength_pct, hours, kept_c, product.id)
        except NotPublishedError:
            too_old.append(product.id)
    places = sum(drinker.count for pen in farm.pens for drinker in pen.drinkers)
    return CleaningFigures(
        table=dilution_table(bottles),
        doses=tuple(
            _dose(sheet, product, strips_show_gate=bool(shows))
            for sheet in wallows.values()
            for product in bottles
        ),
        aged=aged,
        too_old=tuple(too_old),
        storage_assumed=tuple(b.id for b in bottles if b.bought and b.kept_at_c is None),
        buy={b.id: bleach_to_buy(b.id, days, places) for b in bottles} if days else {},
        strips_show_gate=shows,
        gate_mg_l=gate_mg_l,
        harm_mg_l=rule(RULES, "harm reported at", "strength").value * MG_L_PER_PCT,
        stretch={
            product.id: bleach_stretch(product.strength_pct, aged[product.id])
            for product in bottles
            if product.id in aged
        },
    )


def bleach_stretch(label_pct: float, left: Figure) -> Figure:
    """Return how many times the bleach a mix needs, now that the bottle has weakened.

    Args:
        label_pct: strength on the label [%].
        left: `bleach-strength`, what is left of it [%].

    References:
        Arithmetic: the recipes were worked for the label's strength.
    """
    value = Amount(label_pct / left.amount.value, "ratio")
    line = step("times", label=Amount(label_pct, "%"), left=left.amount, times=value)
    sources = merge_sources((DERIVED,), left.sources)
    return Figure("bleach-stretch", value, (line,), sources, (), left.subject)


def _dose(sheet: WallowSheet, product: Product, *, strips_show_gate: bool) -> WallowDose:
    """Return the dose for the low volume, or why there is none."""
    wallow = sheet.wallow.id
    if not is_listed(product, WALLOW):
        return WallowDose(wallow, product.id, None, "label")
    if not strips_show_gate:
        return WallowDose(wallow, product.id, None, "strips")
    if sheet.low is None:
        return WallowDose(wallow, product.id, None, "size")
    rate = rule(RULES, "stock tank rate", "strength").value
    litres = sheet.low.amount.value
    try:
        subject = f"{wallow} {product.id}"
        dose = bleach_dose(product.strength_pct, rate, litres, product.basis, subject)
    except NotPublishedError:
        return WallowDose(wallow, product.id, None, "strength")
    return WallowDose(wallow, product.id, dose, "")
