"""Which air chart a pen is read from: said on its sheet, on the charts and in the finder."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.band_charts import chart_of
from binder.figures.band_rule import is_banded

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.farm.model import Pen
    from binder.figures.herd import Group
    from binder.pages.context import Context

# Of several pig charts for one pen the first of these counts: it warns soonest.
_SOONEST = ("sows with young or due", "sows and boars", "pigs")


def charts_of(groups: Iterable[Group]) -> tuple[str, ...]:
    """Return the charts a pen is read from: one for its pigs, one for each other kind."""
    found = dict.fromkeys(chart_of(group.cls) for group in groups if is_banded(group.cls))
    pigs = [chart for chart in _SOONEST if chart in found]
    return tuple(chart for chart in found if chart not in pigs[1:])


def pens_on(context: Context, chart: str) -> tuple[Pen, ...]:
    """Return the pens that are read from a chart, in the order of the round."""
    herd = context.figures.herd
    return tuple(pen for pen in context.pens if chart in charts_of(herd.in_pen(pen.id)))
