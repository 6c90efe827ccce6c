"""Which charts a pen is read from, and what counts where it has more than one kind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.bands.band_charts import chart_of, charts_of
from binder.figures.bands.band_rule import is_banded
from binder.pages import slugs
from binder.pages.text.rich import joined, rich

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.pages.context import Context
    from binder.pages.text.rich import Text


def line(context: Context, classes: Iterable[str]) -> Text:
    """Return the sheets of a pen's charts.

    Of several, whose each is and that the worst number counts; of pigs of several kinds, that
    one chart is for all of them, as it warns soonest.

    Args:
        context: of the farm or a pack.
        classes: of the animals in the pen.
    """
    every = [cls for cls in classes if is_banded(cls)]
    charts = charts_of(every)
    if not charts:
        return context.w("pen.no_chart")
    sheets = {name: context.sheet(slugs.chart(name)) for name in charts}
    soonest = len({chart_of(cls) for cls in every}) > len(charts)
    if len(charts) == 1:
        (sheet,) = sheets.values()
        return context.say("pen.chart_soonest", sheet=sheet) if soonest else sheet
    said = [
        rich(sheet, " (", context.w(f"asks.head.{name}").lower(), ")")
        for name, sheet in sheets.items()
    ]
    return context.say("pen.charts_worst", charts=joined(said, ", "))
