"""The mixing sheet: what each use takes of each bleach, and what its label names.

One sheet shows the strong mixes for surfaces beside the weak wallow rate, product by product,
so that nobody confuses them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures import published
from binder.figures.bleach.cleaning import MG_L_PER_PCT, mix_strength
from binder.figures.bleach.doses import ML_PER_L, RULES
from binder.figures.figure import Figure, NotPublishedError, step
from binder.figures.rules import quantity, rule
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.farm.model import Product
    from binder.figures.published import Row

BLEACH = "bleach"
WALLOW = "wallow"
REFUSES = re.compile(r"\b(not|no|never|except)\b|n't\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class MixRow:
    """One line of the mixing sheet: a use and a product.

    Attributes:
        use: `surface`, `boot bath`, `waterer`, `wallow`; a key of the words `cleaning-uses`.
        product: id of the product.
        bleach: in the recipe [mL]; None for a wallow.
        water: in the recipe [L]; None for a wallow.
        wet_min: minutes it stays wet; None for a wallow.
        ppm: `mix-strength`, or for a wallow `wallow-strength`, the published stock tank rate;
            None where the product's strength is not published.
        listed: whether the owner states that the label names this use.
    """

    use: str
    product: str
    bleach: Amount | None
    water: Amount | None
    wet_min: Amount | None
    ppm: Figure | None
    listed: bool


def is_listed(product: Product, use: str) -> bool:
    """Return whether the owner states that the product's label names a use.

    A line such as "not for ponds" names no use.
    """
    words = published.row("cleaning_uses", use=use).text("listed_as")
    names = re.compile(rf"\b({words})s?\b", re.IGNORECASE)
    return any(names.search(line) and not REFUSES.search(line) for line in product.label_lists)


def dilution_table(products: Iterable[Product]) -> tuple[MixRow, ...]:
    """Return the mixing sheet: every use for every bleach, strongest mix first."""
    bottles = [product for product in products if product.kind == BLEACH]
    return tuple(
        _mix_row(use, product) for use in published.rows("cleaning_uses") for product in bottles
    )


def _mix_row(use: Row, product: Product) -> MixRow:
    name = use.text("use")
    listed = is_listed(product, name)
    if name == WALLOW:
        return MixRow(name, product.id, None, None, None, _stock_tank_rate(product.id), listed)
    bleach_l, water_l = quantity(use, "product", "volume"), quantity(use, "water", "volume")
    wet_min = quantity(use, "wet", "time") * MINUTES_IN_HOUR
    try:
        subject = f"{product.id} {name}"
        ppm = mix_strength(product.strength_pct, bleach_l, water_l, product.basis, subject)
    except NotPublishedError:
        ppm = None
    return MixRow(
        use=name,
        product=product.id,
        bleach=Amount(bleach_l * ML_PER_L, "mL"),
        water=Amount(water_l, "L"),
        wet_min=Amount(wet_min, "min"),
        ppm=ppm,
        listed=listed,
    )


def _stock_tank_rate(subject: str) -> Figure:
    rate = rule(RULES, "stock tank rate", "strength")
    value = Amount(rate.value * MG_L_PER_PCT, "mg/L")
    line = step("rate", rate=value)
    return Figure("wallow-strength", value, (line,), rate.sources, ("label", "gate"), subject)
