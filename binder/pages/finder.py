"""The band finder's data: the look-up worked out in step 3, and the words beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.band_rule import Band

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.context import Context
    from binder.pages.views import PenView


def table(context: Context, pens: tuple[PenView, ...]) -> Mapping[str, object]:
    """Return everything the finder shows, as plain data for JSON.

    Returns:
        The look-up of `band_charts.finder_table`, and: `units` (`us` or `metric`), `bands` (the
        words of 0 to 4), `rows` (a pen each: `name`, `who`, `slug`, `sheet`, `tables` to take the
        worst of, `asks` of 0 to 4 as `do` and `back`), `you` (people: `asks`, and the `minutes`
        of work/rest as `shade` and `sun`, indexes into `minutes_words` by row and column),
        `start` (the hot day's temperature and humidity in whole degrees F and %).
    """
    bands = context.figures.bands
    looked_up = dict(bands.finder)
    classes = looked_up["classes"]
    assert isinstance(classes, dict)  # noqa: S101 -- as finder_table says
    rows = [_row(pen, classes) for pen in pens]
    return {
        **looked_up,
        "units": context.farm.about.units,
        "bands": [context.w(f"band.{band.key}") for band in Band],
        "rows": [row for row in rows if row["tables"]],
        "you": {
            "name": context.w("labels.you"),
            "slug": "work-and-rest",
            "sheet": context.sheets["work-and-rest"],
            "asks": [context.w(f"asks.do.people.{band.key}") for band in Band],
        },
        **context.figures.finder_minutes,
        "minutes_line": context.words.section("helper")["minutes_line"],
        "emergency": context.w("helper.finder_emergency"),
    }


def _row(pen: PenView, classes: Mapping[str, int]) -> dict[str, object]:
    return {
        "name": pen.name,
        "who": pen.who,
        "slug": pen.slug,
        "sheet": str(pen.sheet),
        "tables": sorted({classes[group.cls] for group in pen.groups if group.cls in classes}),
        "asks": [{"do": ask.do, "back": ask.back_in} for ask in pen.asks],
    }
