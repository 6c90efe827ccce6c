"""The heat tab: a chart for each group of classes, what each number asks, typical days."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.figures.bands.band_charts import charts_of
from binder.figures.bands.band_rule import PEOPLE, Band
from binder.figures.published import rests_on
from binder.pages import slugs
from binder.pages.bands.charts import Mark, Strip, Timeline, bands_table, timeline
from binder.pages.claims import stated
from binder.pages.claims.claim import FARM
from binder.pages.sheet import Block, Drawing, Heading, Paragraph, Raw, Sheet, Table
from binder.pages.text import template
from binder.pages.text.listing import chip, upper_first
from binder.pages.text.rich import rich
from binder.units import Amount, convert

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.figures.bands.band_charts import Chart
    from binder.figures.day.farm_day import Day
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich, Text

LABOR = "sow-farrowing-in-heat"
LISTED = "reading-the-air"  # lists pens with their charts


def air_chart(context: Context, name: str, *, hung: bool = False) -> Sheet:
    """Return an air chart: the farm's own groups have one each, and people.

    Args:
        context: of the farm.
        name: of the chart.
        hung: whether it hangs on a wall, where no list of pens is at hand.
    """
    w = context.w
    chart = context.figures.bands.charts[name]
    degree = "°F" if chart.system == "us" else "°C"
    rows = [
        (f"{temp}°", [None if band is None else int(band) for band in cells])
        for temp, cells in zip(chart.temps, chart.cells, strict=True)
    ]
    grid = bands_table(
        w("chart.corner", degree=degree), [f"{rh}%" for rh in chart.humidities], rows
    )
    people = chart.name == PEOPLE
    notes: list[Block] = [Raw(grid), _legend_boxes(context, _asked(context, chart.name))]
    lines = [w("chart.sun"), w("chart.people_base" if people else "chart.base")]
    names = ", ".join(context.words.text(f"classes.{cls}") for cls in chart.classes)
    if chart.classes:
        lines.insert(0, w("chart.for", classes=names))
    lines.append(w("chart.empty", dew=context.degrees(chart.dampest_c)))
    notes.append(Paragraph(rich(" ".join(lines), _in_labor(context, chart)), small=True))
    about = context.farm.about
    return Sheet(
        title=w(f"chart.title.{chart.name}"),
        answer=(
            w("chart.answer", thermometer=context.or_missing(about.thermometer))
            + " "
            + w("chart.answer_2"),
            _whose(context, chart.name, hung=hung),
        ),
        blocks=tuple(notes),
        summary=w("chart.summary", name=w(f"asks.head.{chart.name}").lower()),
        sources=chart.sources,
        words=w("found_by.chart", classes=names),
        kind="chart",
    )


def _whose(context: Context, chart: str, *, hung: bool) -> Text:
    """Return which pens are read from a chart, where it hangs on a wall far from their sheets.

    In the binder one sheet lists it for all charts, so that a move changes that sheet alone.
    """
    if chart == PEOPLE:
        return context.w("chart.for_people")
    if not hung and LISTED in context.sheets:
        return context.say("chart.pens_listed", sheet=context.sheet(LISTED))
    herd = context.figures.herd
    found = [
        rich(pen.name, " ", context.sheet(slugs.pen(pen.id)))
        for pen in context.pens
        if chart in charts_of(group.cls for group in herd.in_pen(pen.id))
    ]
    if not found:
        return context.w("chart.no_pen")
    return context.say("chart.pens", pens=context.listed(found))


def _in_labor(context: Context, chart: Chart) -> Rich:
    """Return the line that keeps labor from being read as heat, where sows are on a chart."""
    if LABOR not in context.sheets or "sow" not in " ".join(chart.classes):
        return rich()
    return rich(" ", context.say("chart.due", sheet=context.sheet(LABOR)))


def _legend_boxes(context: Context, lines: Mapping[str, str]) -> Raw:
    """Return five boxes in a row: number, word, and a line for each."""
    boxes = Markup("").join(
        Markup("<li>{} <span>{}</span></li>").format(
            chip(band, context.w(f"band.{band.key}")), lines[band.key]
        )
        for band in Band
    )
    return Raw(Markup('<ul class="legend">{}</ul>').format(boxes))


def _asked(context: Context, chart: str) -> Mapping[str, str]:
    return {band.key: context.w(f"asks.do.{chart}.{band.key}") for band in Band}


def _legend(context: Context, chart: str) -> Table:
    """Return what each number asks of this group, beside its pattern."""
    rows = tuple(
        (chip(band, context.w(f"band.{band.key}")), context.w(f"asks.do.{chart}.{band.key}"))
        for band in Band
    )
    return Table((), rows, kind="facts tight keep")


def what_each_band_asks(context: Context) -> Sheet:
    """Return the table of actions: a part for each group of classes, a row for each number."""
    w = context.w
    blocks: list[Block] = []
    for chart in context.figures.bands.charts:
        blocks.append(Heading(w(f"asks.head.{chart}")))
        blocks.append(_legend(context, chart))
    intervals = context.figures.rounds.farm_intervals_h
    every = {
        band.key: w(
            "asks.every_all_hands" if band is Band.ALL_HANDS else "asks.every",
            hours=context.span(intervals[band.key]),
        )
        for band in Band
    }
    blocks = [
        _legend_boxes(context, every),
        Paragraph(w("asks.pen_rule"), small=True),
        template.halves(w, blocks),
    ]
    return Sheet(
        title=w("asks.title"),
        answer=(w("asks.answer"),),
        blocks=tuple(blocks),
        summary=w("asks.summary"),
        sources=rests_on("what-each-band-asks"),
        words=w("found_by.asks"),
        claims=stated.back_in(FARM, {key: context.span(h) for key, h in intervals.items()}),
        kind="asking",
    )


def typical_days(context: Context) -> Sheet:
    """Return the hot day as a timeline, and a typical day of each month."""
    w = context.w
    figures = context.figures
    blocks: list[Block] = []
    hot, extreme = figures.hot, figures.extreme
    day = figures.day.day
    if day is not None:
        blocks.append(Drawing(hot_day_drawing(context, day), w("typical.drawing")))
        night = "typical.night_cool" if day.night_recovers else "typical.night_warm"
        blocks.append(Paragraph(w(night)))
    for key, weather in (("hot", hot), ("extreme", extreme)):
        line = w(
            f"typical.{key}",
            high=context.degrees(weather.high_c),
            low=context.degrees(weather.low_c),
            dew=context.degrees(weather.dew_point_c),
        )
        blocks.append(Paragraph(line))
    months = _months(context)
    if months:
        heads = tuple(w(f"typical.{key}") for key in ("month", "high", "low"))
        heads += tuple(w(f"asks.head.{chart}") for chart in _animal_charts(context))
        columns = tuple(range(1, len(heads)))
        table = Table(heads, months, kind="facts tight keep", amounts=columns)
        blocks += [Heading(w("typical.bands")), table]
    sunless = context.figures.day.sunless
    if sunless:
        named = context.listed(upper_first(month) for month in sunless)
        blocks.append(Paragraph(w("typical.sunless", months=str(named))))
    worst = day.worst_hours if day is not None else None
    answer = (
        w(
            "typical.answer",
            worst=w("date.window", first=context.clock(worst[0]), last=context.clock(worst[1])),
        )
        if worst
        else w("typical.answer_unknown")
    )
    return Sheet(
        title=w("typical.title"),
        answer=(answer,),
        blocks=tuple(blocks),
        summary=w("typical.summary"),
        sources=rests_on("typical-days"),
        words=w("found_by.climate"),
    )


def _animal_charts(context: Context) -> tuple[str, ...]:
    return tuple(name for name in context.figures.bands.charts if name != PEOPLE)


def _months(context: Context) -> tuple[tuple[Text, ...], ...]:
    rows: list[tuple[Text, ...]] = []
    for name, day in context.figures.day.months.items():
        cells = [context.degrees(day.weather.high_c), context.degrees(day.weather.low_c)]
        for chart in _animal_charts(context):
            hours = day.hours_from(chart, Band.HOT)
            cells.append(str(hours) if hours else "–")
        rows.append((upper_first(name), *cells))
    return tuple(rows)


def hot_day_drawing(context: Context, day: Day, visits: Sequence[float] = ()):  # type: ignore[no-untyped-def]
    """Return the day as a drawing, in the farm's units."""
    system = context.words.system
    w = context.w
    meals = context.figures.day.meals
    marks = [Mark(visit, w("typical.visit"), "round") for visit in visits]
    if meals is not None:
        if meals.morning_by_h is not None:
            marks.append(Mark(meals.morning_by_h, w("typical.feed_by"), "meal"))
        if meals.evening_from_h is not None:
            marks.append(Mark(meals.evening_from_h, w("typical.feed_from"), "meal"))
    strips = tuple(
        Strip(w(f"asks.head.{chart}"), tuple(int(band) for band in day.bands_of(chart)))
        for chart in _animal_charts(context)
    )
    return timeline(
        Timeline(
            temperatures=tuple(
                convert(Amount(hour.temp_c, "degC"), system) for hour in day.hours
            ),
            degree="°",
            strips=strips,
            marks=tuple(marks),
            sunrise_h=day.sunrise_h,
            sunset_h=day.sunset_h,
            clock=context.words.many(
                "typical.clock_24" if context.words.clock_24 else "typical.clock"
            ),
            description=w("typical.drawing"),
        )
    )


__all__ = [
    "air_chart",
    "hot_day_drawing",
    "typical_days",
    "what_each_band_asks",
]
