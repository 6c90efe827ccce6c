"""The sheet of each pen, and the table of who lives where."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from binder.farm.model import SPECIES
from binder.figures.bands.band_rule import Band
from binder.pages.claims import stated
from binder.pages.claims.claim import Claim
from binder.pages.sheet import Filled
from binder.pages.text import template
from binder.pages.text.listing import chip, upper_first

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.context import Context
    from binder.pages.views import PenView

# What can go wrong at a pen, and the sheet that says what to do; shown where the farm has it.
_WRONG = (
    ("panting", "pig-in-heat-trouble", ("pig",)),
    ("panting", "other-animal-in-heat-trouble",
     ("goat", "sheep", "dog", "cattle", "horse", "donkey", "mule",
      "rabbit")),
    ("bird", "bird-down", ("chicken", "turkey", "duck")),
    ("boar", "boar-will-not-come-away", ("boar",)),
    ("labor", "sow-farrowing-in-heat",
     ("gestating sow", "late-gestation sow", "lactating sow")),
    ("piglets", "piglets-too-hot-or-cold", ("lactating sow",)),
    ("dry", "no-water-now", ()),
    ("fan", "fan-failed", ("fan",)),
    ("scum", "scum-on-water", ("wallow",)),
    ("out", "animal-out", ()),
)  # fmt: skip


def sheet(context: Context, pen: PenView) -> Filled:
    """Return the sheet of one pen."""
    number = context.sheets[pen.slug]
    known = {"w": context.w, "pen": pen, "number": number, "wrong": wrong(context, pen)}
    return Filled(
        title=pen.name,
        body=template.page("parts/pen.html", known),
        summary=pen.who or context.w("pen.nobody"),
        words=" ".join((*(group.name for group in pen.groups), pen.notes)),
        kind="pen",
        claims=stated.pen(context, pen),
    )


def wrong(context: Context, pen: PenView) -> tuple[Mapping[str, object], ...]:
    """Return what can go wrong at a pen, and the sheet that says what to do: text, sheet."""
    tags = {group.cls for group in pen.groups}
    tags |= {group.animal.species for group in context.figures.herd.in_pen(pen.id)}
    if pen.fans:
        tags.add("fan")
    if pen.wallow:
        tags.add("wallow")
    return tuple(
        {
            "text": context.w(f"pen.wrongs.{key}", animal=_animal(context, tags, wanted)),
            "sheet": context.sheet(target),
        }
        for key, target, wanted in _WRONG
        if target in context.sheets and (not wanted or tags.intersection(wanted))
    )


def _animal(context: Context, tags: set[str], wanted: tuple[str, ...]) -> str:
    """Return which of the wanted animals lives here, for `Goat panting:`; else nothing."""
    here = (one for one in wanted if one in tags and one in SPECIES)
    return next((upper_first(context.w(f"species.{one}")) for one in here), "")


def today(context: Context, pens: tuple[PenView, ...]) -> tuple[Mapping[str, Any], ...]:
    """Return, for each pen with animals, its band at the hottest hour and when to be back."""
    words = {band.word: band for band in Band}
    rows = []
    for pen in pens:
        bands = [
            words[str(context.figures.bands.hot_day[group.cls].value)]
            for group in pen.groups
            if group.cls in context.figures.bands.hot_day
        ]
        if not bands:
            continue
        band = max(bands)
        rows.append(
            {
                "pen": pen,
                "chip": chip(band, context.w(f"band.{band.key}")),
                "back": pen.every(band.key),
                "claims": (
                    Claim(pen.id, "number", stated.HOTTEST, str(int(band))),
                    *stated.back_in(pen.id, {band.key: pen.every(band.key)}),
                ),
            }
        )
    return tuple(rows)
