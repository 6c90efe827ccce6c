"""What a protocol states by the names it uses, such as `{{ meals.morning_by }}`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import Band
from binder.figures.rounds.care_times import care_times
from binder.pages import facts
from binder.pages.claims import stated
from binder.pages.claims.claim import FARM, Claim, plain

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.context import Context


def named_claims(context: Context, source: str, shown: str) -> tuple[Claim, ...]:
    """Return the claims of a protocol besides its figures.

    Args:
        context: what composing knows.
        source: its text, names and all.
        shown: its text as the reader sees it; what a condition left out is not stated.
    """
    text = plain(shown)
    return tuple(
        claim
        for name, claim in context.once(_claims).items()
        if re.search(name, source) and plain(claim.value) in text
    )


def _claims(context: Context) -> Mapping[str, Claim]:
    """Return what each name states, by the pattern that finds the name."""
    figures = context.figures
    condition = stated.hot_day(None, figures.on)
    by_name: dict[str, Claim] = {}
    meals = stated.feeding(context, figures.day.meals, condition)
    by_name |= dict(zip((r"meals\.morning_by", r"meals\.evening_from"), meals, strict=False))
    day = figures.day.day
    if day is not None:
        sun = stated.sun(context, figures.on, day.sunrise_h, day.sunset_h)
        by_name |= dict(zip((r"day\.sunrise", r"day\.sunset"), sun, strict=True))
    for band in Band:
        said = context.span(figures.rounds.farm_intervals_h[band.key])
        by_name[rf"(?<!\.)every\(.{band.key}.\)"] = Claim(FARM, "back in", band.key, said)
    for name, amount in context.words.limits.items():
        by_name[rf"limit\(.{name}.\)"] = Claim(FARM, "limit", name, context.both(amount))
    for name in care_times():
        by_name[rf"care\(.{name}.\)"] = Claim(FARM, "care", name, facts.care(context, name))
    return by_name
