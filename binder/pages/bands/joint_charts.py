"""Every air chart of a farm on one sheet of paper, side by side; a screen shows each alone."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.figures.bands.band_charts import damper_columns
from binder.figures.figure import merge_sources
from binder.pages import slugs
from binder.pages.bands.charts import bands_table
from binder.pages.sheet import Block, Paragraph, Raw, Sheet
from binder.pages.text.rich import joined

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from binder.figures.bands.band_charts import Chart
    from binder.figures.bands.band_rule import Band
    from binder.pages.context import Context
    from binder.pages.text.rich import Text

# Our choice: half a page is wide enough for every second column, the dampest among them.
# Whoever is between two columns takes the damper one, as on the charts of all columns.
COLUMNS = 2
LABOR, ASKS, LISTED = "sow-farrowing-in-heat", "what-each-band-asks", "reading-the-air"


def sheet(context: Context) -> Sheet:
    """Return the sheet of all charts."""
    w = context.w
    charts = sorted(context.figures.bands.charts.values(), key=partial(_place, context))
    numbers = [context.sheets[slugs.chart(chart.name)] for chart in charts]
    dew_c = context.figures.hot.dew_point_c
    grids = Markup("").join(_grid(context, same, dew_c) for same in alike(charts))
    lines = [context.say("chart.joint.do", asks=context.sheet(ASKS))]
    if LISTED in context.sheets:
        lines.append(context.say("chart.joint.pens", sheet=context.sheet(LISTED)))
    blocks: tuple[Block, ...] = (
        Raw(Markup('<div class="halves">{}</div>').format(grids)),
        Paragraph(joined(_notes(context, charts, dew_c), " "), small=True),
    )
    title = w("chart.joint.title", first=numbers[0], last=numbers[-1])
    return Sheet(
        title=title if len(numbers) > 1 else w("chart.joint.title_one"),
        answer=(
            context.say(
                "chart.answer", thermometer=context.or_missing(context.farm.about.thermometer)
            ),
            w("chart.joint.between"),
            joined(lines, " "),
        ),
        blocks=blocks,
        summary=w("chart.joint.summary"),
        sources=merge_sources(*(chart.sources for chart in charts)),
        kind="charts",
    )


def _place(context: Context, chart: Chart) -> int:
    return int(context.sheets[slugs.chart(chart.name)][1:])


def alike(charts: Iterable[Chart]) -> list[list[Chart]]:
    """Return charts whose cells agree together, in the order of the first of them."""
    found: dict[tuple[object, ...], list[Chart]] = {}
    for chart in charts:
        found.setdefault((chart.temps, chart.humidities, chart.cells), []).append(chart)
    return list(found.values())


def grid(chart: Chart, *, rows: int, dew_c: float | None = None) -> Markup:
    """Return a chart with every second column, counted from the dampest.

    Args:
        chart: the chart.
        rows: every so many rows are shown, the hottest among them.
        dew_c: the dew point whose cells are framed [C]; None for no frames.
    """
    degree = "°F" if chart.system == "us" else "°C"
    across = sorted(range(len(chart.humidities) - 1, -1, -COLUMNS))
    shown = tuple(chart.humidities[at] for at in across)
    found = list(zip(chart.temps, chart.temps_c, chart.cells, strict=True))[::rows]
    cells = [(f"{temp}°", [_digit(row[at]) for at in across]) for temp, _, row in found]
    framed = None if dew_c is None else _framed([t for _, t, _ in found], dew_c, shown)
    return bands_table(degree, [f"{rh}%" for rh in shown], cells, framed)


def _framed(
    temps_c: Sequence[float], dew_c: float, shown: Sequence[int]
) -> frozenset[tuple[int, int]]:
    """Return row and place of the cells of a dew point."""
    columns = damper_columns(temps_c, dew_c, shown)
    return frozenset((row, at) for row, at in enumerate(columns) if at is not None)


def _digit(band: Band | None) -> int | None:
    return None if band is None else int(band)


def _grid(context: Context, same: Sequence[Chart], dew_c: float) -> Markup:
    """Return charts whose cells agree as one, under the numbers and names of all of them."""
    heads = Markup(" · ").join(
        Markup('<span id="{}"><b class="id">{}</b> {}</span>').format(
            slugs.chart(chart.name),
            context.sheets[slugs.chart(chart.name)],
            context.w(f"asks.head.{chart.name}"),
        )
        for chart in same
    )
    classes = ", ".join(
        context.words.text(f"classes.{cls}") for chart in same for cls in chart.classes
    )
    said = context.w("chart.for", classes=classes) if classes else context.w("chart.for_people")
    return Markup('<div class="half"><h3>{}</h3><p class="whom">{}</p>{}</div>').format(
        heads, said, grid(same[0], rows=1, dew_c=dew_c)
    )


def _notes(context: Context, charts: Sequence[Chart], dew_c: float) -> list[Text]:
    """Return what holds for all charts, each thing once."""
    w = context.w
    found: list[Text] = [
        w("chart.sun"),
        w("chart.joint.dew", dew=context.degrees(dew_c)),
        w("chart.empty", dew=context.degrees(charts[0].dampest_c)),
    ]
    if any(chart.classes for chart in charts):
        found.append(w("chart.base"))
    found.append(w("chart.joint.people_base"))
    if LABOR in context.sheets and any("sow" in " ".join(chart.classes) for chart in charts):
        found.append(context.say("chart.due", sheet=context.sheet(LABOR)))
    return found
