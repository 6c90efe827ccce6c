"""Published limits that any words may name, such as `{gate}`, so that none is typed twice."""

from __future__ import annotations

from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from binder.clock import MINUTES_IN_HOUR
from binder.figures.bleach.doses import ML_PER_L
from binder.figures.rules import rule
from binder.science.chlorine import MG_L_PER_PCT
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping

# name in words: table, rule, kind of quantity, unit it is kept in.
_RULES: Final = {
    "deepest": ("wallow_rules", "deepest", "length", "m"),
    "setback": ("wallow_rules", "setback from well", "length", "m"),
    "refresh_soonest": ("wallow_rules", "refresh soonest", "number", "count"),
    "refresh_latest": ("wallow_rules", "refresh latest", "number", "count"),
    "bleach_weakest": ("chlorine_rules", "weakest household bleach", "strength", "%"),
    "bleach_strongest": ("chlorine_rules", "strongest household bleach", "strength", "%"),
    "wet_from": ("water_rules", "wetting from", "temperature", "degC"),
    "phone_after": ("water_rules", "phone the vet after", "time", "h"),
    "store_fewest": ("water_rules", "store fewest days", "number", "count"),
    "store_most": ("water_rules", "store most days", "number", "count"),
    "warm_night": ("day_rules", "warm night", "temperature", "degC"),
    "generator_away": ("power_rules", "generator from openings at least", "length", "m"),
    "drink_most": ("drinking", "never more an hour", "volume", "L"),
}
_STRENGTHS: Final = {"gate": "strip gate", "harm": "harm reported at"}
_BETWEEN_CUPS: Final = {"cups_least": "least", "cups_most": "most"}


@lru_cache(maxsize=1)
def limits() -> Mapping[str, Amount]:
    """Return each limit by the name that words use for it.

    Raises:
        MissingRowError: a table has lost the row.
    """
    found = {
        name: Amount(rule(table, row, kind).value, unit)
        for name, (table, row, kind, unit) in _RULES.items()
    }
    strengths = {
        name: Amount(rule("chlorine_rules", row, "strength").value * MG_L_PER_PCT, "mg/L")
        for name, row in _STRENGTHS.items()
    }
    cups = {
        name: Amount(
            rule("drinking", f"{which} minutes between cups", "time").value * MINUTES_IN_HOUR,
            "min",
        )
        for name, which in _BETWEEN_CUPS.items()
    }
    cups["cup"] = Amount(rule("drinking", "cup", "volume").value * ML_PER_L, "mL")
    return MappingProxyType({**found, **strengths, **cups})
