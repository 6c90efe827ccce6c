"""The sheets of a season: its calendar, month by month, and what mends buy. The owner's."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.bands.band_rule import PEOPLE, Band
from binder.figures.published import rests_on
from binder.pages.season import mends_text, season_charts, season_text
from binder.pages.season.season_charts import TICKS, CalendarDay, CalendarMonth, SpellRow
from binder.pages.season.season_text import TextTable, whole
from binder.pages.sheet import Block, Drawing, Heading, Paragraph, Points, Sheet, Table

if TYPE_CHECKING:
    from binder.figures.figures import Figures
    from binder.figures.season.farm_season import FarmSeason
    from binder.figures.season.season_air import SeasonDay
    from binder.figures.season.season_days import Spell
    from binder.figures.season.whole_season import Season
    from binder.pages.context import Context

MOST_MONTHS = 5  # of a calendar on one sheet
MOST_BARS = 8  # of mends in the drawing: our choice


def has(figures: Figures) -> bool:
    """Return whether a farm has weather to be played through."""
    return figures.season is not None


def has_calendar(figures: Figures) -> bool:
    """Return whether a season has a group of animals whose hours a calendar can show."""
    return has(figures) and bool(_charts(figures))


def has_mends(figures: Figures) -> bool:
    """Return whether any mend would have saved anything."""
    season = figures.season
    return season is not None and bool(season.worths or season.pairs)


def _season(context: Context) -> Season:
    season = context.figures.season
    assert season is not None  # noqa: S101 -- the registry asks `has` first
    return season


def _worst_file(season: Season) -> FarmSeason:
    """Return the file with the most days gone wrong, the first of those alike."""
    return max(season.seasons, key=lambda one: len(one.wrong))


def calendar(context: Context) -> Sheet:
    """Return the calendar of a season: each hour of its hot months, and the pens."""
    season = _season(context)
    one = _worst_file(season)
    chart = _hardest_chart(context, one)
    months = _months(context, one, chart)
    group = context.w(f"season.groups.{chart}")
    caption = context.w("season.calendar.caption", group=group)
    description = context.w(
        "season.calendar.description", group=group,
        months=str(context.listed(month.name for month in months)),
        wrong=whole(len(one.wrong)), days=whole(len(one.air.whole_days)),
    )  # fmt: skip
    clock = [context.clock(float(hour)) for hour in TICKS]
    blocks: list[Block] = [
        Drawing(season_charts.calendar(months, clock, description), caption),
        *_said(season_text.pens_table(context, one)),
        Paragraph(season_text.head_of(context, season), small=True),
        *(Paragraph(line, small=True) for line in season_text.lines_of_all(context, season)),
    ]
    return Sheet(
        title=context.w("season.title"),
        answer=(season_text.days_said(context, one), context.w("season.cli_counts")),
        blocks=tuple(blocks),
        summary=context.w("season.summary"),
        sources=rests_on("season"),
        words=context.w("found_by.season"),
    )


def _hardest_chart(context: Context, one: FarmSeason) -> str:
    """Return the group with the most hours at number 3 and over, then at 2."""

    def hours(chart: str) -> tuple[int, int]:
        bands = one.worst_of_chart(chart)
        severe = sum(band >= Band.SEVERE for band in bands)
        return severe, sum(band >= Band.HOT for band in bands)

    return max(_charts(context.figures), key=hours)


def _charts(figures: Figures) -> list[str]:
    """Return the groups of animals with a chart."""
    return [name for name in figures.bands.charts if name != PEOPLE]


def _months(context: Context, one: FarmSeason, chart: str) -> list[CalendarMonth]:
    """Return the months that are drawn: those with the most hot hours, in order."""
    bands = one.worst_of_chart(chart)
    hot: dict[int, int] = {}
    for day in one.air.days:
        part = bands[day.start : day.end]
        hot[day.on.month] = hot.get(day.on.month, 0) + sum(band >= Band.WARM for band in part)
    drawn = sorted(sorted(hot, key=lambda month: -hot[month])[:MOST_MONTHS])
    names = context.words.many("date.months")
    wrong = {first.on for first in one.wrong}
    return [
        CalendarMonth(
            names[month - 1],
            tuple(
                CalendarDay(day.on.day, _by_clock(one, bands, day), day.on in wrong)
                for day in one.air.days
                if day.on.month == month
            ),
        )
        for month in drawn
    ]


def _by_clock(one: FarmSeason, bands: bytes, day: SeasonDay) -> tuple[int | None, ...]:
    """Return the number of each hour of a day by the clock, None where it is not on record."""
    found: list[int | None] = [None] * HOURS_IN_DAY
    for at in range(day.start, day.end):
        hour = one.air.clock_h[at]
        found[hour] = max(found[hour] or 0, bands[at])
    return tuple(found)


def by_month(context: Context) -> Sheet:
    """Return a season month by month, its hot spells, hoses and wallows, odds of the stays."""
    season = _season(context)
    one = _worst_file(season)
    blocks: list[Block] = list(_said(season_text.months_table(context, one)))
    blocks += _said(season_text.spells_table(context, one))
    if one.longest is not None:
        blocks.append(_spell(context, one, one.longest))
    blocks += _said(season_text.gear_table(context, one))
    if season.odds:
        odds = mends_text.odds_table(context, season)
        blocks += [Heading(odds.title), Points(odds.notes[:-1])]
        heads = (odds.heads[0], *odds.heads[7:])
        rows = tuple((row[0], *row[7:]) for row in odds.rows)
        blocks += [Table(heads, rows, kind="wide"), Paragraph(odds.notes[-1], small=True)]
    return Sheet(
        title=context.w("season.by_month.title"),
        answer=(season_text.days_said(context, one),),
        blocks=tuple(blocks),
        summary=context.w("season.by_month.summary"),
        sources=rests_on("season"),
        words=context.w("found_by.season"),
    )


def _spell(context: Context, one: FarmSeason, spell: Spell) -> Drawing:
    """Return the longest hot spell drawn, with what lacked in each pen."""
    days = [day for day in one.air.days if spell.first <= day.on <= spell.last]
    start, end = days[0].start, days[-1].end
    rows = [
        SpellRow(
            context.pen_name(key),
            tuple(pen.bands[start:end]),
            tuple(bool(kinds) for kinds in pen.wrong[start:end]),
        )
        for key, pen in one.pens.items()
    ]
    names = [(day.start - start, context.short_day(day.on)) for day in days]
    every = max(1, len(names) // 6)
    lacked = [
        context.pen_name(key) for key, pen in one.pens.items() if any(pen.wrong[start:end])
    ]
    none = context.w("season.nothing")
    description = context.w(
        "season.spells.drawn", first=context.short_day(spell.first),
        last=context.short_day(spell.last), pens=str(context.listed(lacked)) or none,
    )  # fmt: skip
    return Drawing(
        season_charts.spell(rows, names[::every], description),
        context.w("season.spells.caption"),
    )


def mends(context: Context) -> Sheet:
    """Return what each mend buys: a bar for each, the table, and pairs."""
    season = _season(context)
    best = (*season.worths, *season.pairs)
    shown = sorted(best, key=lambda worth: worth.rank, reverse=True)[:MOST_BARS]
    rows = [(mends_text.worth_said(context, worth), worth.animal_h) for worth in shown]
    title = context.w("season.mends.title")
    blocks: list[Block] = [
        Drawing(season_charts.bars(rows, title), context.w("season.mends.caption")),
        *_said(mends_text.mends_table(context, season)),
    ]
    if season.pairs:
        blocks += _said(mends_text.pairs_table(context, season))
    return Sheet(
        title=title,
        answer=(*mends_text.firsts(context, season), context.w("season.cli_counts")),
        blocks=tuple(blocks),
        summary=context.w("season.mends.summary"),
        sources=rests_on("season-mends"),
        words=context.w("found_by.mends"),
    )


def _said(table: TextTable) -> tuple[Block, ...]:
    """Return a table in words as blocks: heading, rows, notes."""
    blocks: list[Block] = [Heading(table.title)]
    if table.rows:
        blocks.append(Table(table.heads, table.rows, kind="wide", amounts=table.amounts))
    return (*blocks, *(Paragraph(note, small=True) for note in table.notes))
