"""The tables of a season in words, the same on the terminal, on paper and on the site."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import Band
from binder.figures.day.day_load import LoadLevel
from binder.figures.rules import rule
from binder.figures.season.pen_season import KINDS, Wrong
from binder.figures.season.season_days import LINES
from binder.figures.weather.daylight import RULES as DAY_RULES
from binder.pages.text.listing import upper_first
from binder.units import Amount, show_number

if TYPE_CHECKING:
    from binder.figures.season.farm_season import FarmSeason
    from binder.figures.season.pen_season import PenSeason
    from binder.figures.season.season_days import FirstWrong
    from binder.figures.season.season_meals import SeasonMeals
    from binder.figures.season.whole_season import Season
    from binder.pages.context import Context

FULL_PCT = 100.0


@dataclass(frozen=True, slots=True)
class TextTable:
    """A table in words: its title, heads, rows, and notes below it."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...] = ()

    @property
    def amounts(self) -> tuple[int, ...]:
        """Return the columns of whole numbers: never the first, which says what a row is of."""
        return tuple(
            at
            for at in range(1, len(self.heads))
            if all(row[at].replace(",", "").isdigit() for row in self.rows)
        )


def whole(number: float) -> str:
    """Return a count with its thousands parted."""
    return show_number(number, 0)


def head_of(context: Context, season: Season) -> str:
    """Return whose animals are played, and when somebody is there."""
    visits = context.listed(context.clock(float(hour)) for hour in season.visits)
    return context.w(
        "season.cli_head", farm=context.farm.about.name, day=context.day(season.on),
        visits=str(visits),
    )  # fmt: skip


def lines_of(context: Context, one: FarmSeason) -> tuple[str, ...]:
    """Return what a file is, what it lacks, and on how many days something went wrong."""
    record = one.record
    site = record.site
    years = ""
    if record.is_typical:
        first, last = record.years[0], record.years[-1]
        years = context.w("season.file_typical", first=first, last=last)
    elif record.years:
        years = context.w("season.file_years", years=", ".join(map(str, record.years)))
    where = site.name if site else context.w("season.file_own")
    lines = [
        context.w(
            "season.file", file=record.file, where=where, hours=whole(len(record.hours)),
            years=years,
        )
    ]  # fmt: skip
    if one.is_elsewhere and one.km is not None:
        lines.append(context.w("season.elsewhere", far=Amount(one.km, "km")))
    if record.holes:
        left_out = len(one.air.days) - len(one.air.whole_days)
        lines.append(
            context.w(
                "season.holes", hours=whole(record.missing), holes=whole(len(record.holes)),
                first=f"{record.holes[0].first:%Y-%m-%d %H:%M}", days=whole(left_out),
            )
        )  # fmt: skip
    return (*lines, days_said(context, one))


def lines_of_all(context: Context, season: Season) -> tuple[str, ...]:
    """Return what `lines_of` says of each file, in their order."""
    return tuple(line for one in season.seasons for line in lines_of(context, one))


def days_said(context: Context, one: FarmSeason) -> str:
    """Return on how many days of a file something went wrong."""
    key = "season.days" if one.wrong else "season.days_none"
    return context.w(key, wrong=whole(len(one.wrong)), days=whole(len(one.air.whole_days)))


def pens_table(context: Context, one: FarmSeason) -> TextTable:
    """Return the pens of a season: hours at each number, days that went wrong, what, water."""
    rows = tuple(
        (
            context.pen_name(key),
            whole(pen.state.head),
            *(whole(pen.hours_at(band)) for band in (Band.HOT, Band.SEVERE, Band.ALL_HANDS)),
            whole(len(pen.days)),
            what_went_wrong(context, pen),
            context.show(Amount(pen.drunk_l, "L")),
        )
        for key, pen in one.pens.items()
    )
    return TextTable(
        context.w("season.pens.title"), context.words.many("season.pens.heads"), rows
    )


def what_went_wrong(context: Context, pen: PenSeason) -> str:
    """Return what went wrong in a pen with its hours, the longest first."""
    hours = {kind: pen.hours_of(kind) for kind in KINDS}
    told = [
        context.w("season.what_hours", what=context.w(f"season.wrong.{k.key}"), hours=whole(h))
        for k, h in sorted(hours.items(), key=lambda each: -each[1])
        if h
    ]
    return "; ".join(told) or context.w("season.nothing")


def kinds_said(context: Context, kinds: Wrong) -> str:
    """Return what went wrong in an hour, in the order of `Wrong`."""
    return "; ".join(context.w(f"season.wrong.{kind.key}") for kind in KINDS if kind & kinds)


def months_table(context: Context, one: FarmSeason) -> TextTable:
    """Return the months of a season: hours at each number, over each line of the index."""
    names = context.words.many("date.months")
    rows = tuple(
        (
            names[month.month - 1],
            whole(month.days),
            *map(whole, month.hours[Band.WARM :]),
            *map(whole, month.index),
            whole(sum(month.loads[LoadLevel.HOT :])),
            whole(month.wrong),
        )
        for month in one.months
    )
    people = dict(zip((band.key for band in Band), map(whole, one.people), strict=True))
    notes = [context.w("season.months.note"), context.w("season.people", **people)]
    if one.meals is not None:
        notes.append(meals_said(context, one.meals))
    heads = (
        *context.words.many("season.months.heads"),
        *(context.w("season.months.index_head", line=line) for line in LINES),
        *context.words.many("season.months.day_heads"),
    )
    return TextTable(context.w("season.months.title"), heads, rows, tuple(notes))


def meals_said(context: Context, meals: SeasonMeals) -> str:
    """Return by when and from when meals could be given through a season."""
    return context.w(
        "season.meals", days=whole(meals.days), dark=whole(meals.dark),
        waits=whole(meals.waits), by=context.clock(meals.earliest_by_h),
        start=context.clock(meals.latest_from_h),
    )  # fmt: skip


def spells_table(context: Context, one: FarmSeason) -> TextTable:
    """Return the hot spells of a season, and what went wrong first in each."""
    title, heads = context.w("season.spells.title"), context.words.many("season.spells.heads")
    least = whole(rule(DAY_RULES, "recovery hours", "time").value)
    longest = one.longest
    if longest is None:
        return TextTable(title, heads, (), (context.w("season.spells.none", least=least),))
    rows = tuple(
        (
            context.short_day(spell.first),
            context.short_day(spell.last),
            whole(spell.days),
            first_said(context, spell.wrong[0]) if spell.wrong else context.w("season.nothing"),
        )
        for spell in one.spells
    )
    first = context.short_day(one.spells[0].first)
    note = context.w("season.spells.note", least=least, first=first, days=longest.days)
    return TextTable(title, heads, rows, (note,))


def first_said(context: Context, first: FirstWrong) -> str:
    """Return `Waterer empty in Hen run, Jul 4 at 2 pm`."""
    return context.w(
        "season.spells.first", what=upper_first(kinds_said(context, first.kinds)),
        pen=context.pen_name(first.pen), day=context.short_day(first.on),
        clock=context.clock(float(first.hour)),
    )  # fmt: skip


def gear_table(context: Context, one: FarmSeason) -> TextTable:
    """Return the hoses and wallows of a season."""
    rows = [
        (
            context.named(key),
            context.w(
                "season.gear.hose", highest=Amount(hose.highest_c, "degC"),
                less=whole(hose.less_h), none=whole(hose.none_h),
            ),
        )
        for key, hose in one.hoses.items()
    ]  # fmt: skip
    for key, wallow in one.wallows.items():
        day = context.short_day(wallow.lowest_on)
        if wallow.dried_h:
            said = context.w("season.gear.wallow_dried", dried=whole(wallow.dried_h), day=day)
        else:
            said = context.w(
                "season.gear.wallow", left=context.show(Amount(wallow.lowest * FULL_PCT, "%")),
                day=day, most=Amount(wallow.most_mm_day, "mm"),
            )  # fmt: skip
        rows.append((context.named(key), said))
    key = "wallow_formula" if one.by_formula else "wallow_usual"
    notes = (context.w(f"season.gear.{key}"),) if one.wallows else ()
    heads = context.words.many("season.gear.heads")
    return TextTable(context.w("season.gear.title"), heads, tuple(rows), notes)


def tables(context: Context, one: FarmSeason) -> tuple[TextTable, ...]:
    """Return the tables of one file, in the order in which they are read."""
    found = (
        pens_table(context, one), months_table(context, one), spells_table(context, one),
        gear_table(context, one),
    )  # fmt: skip
    return tuple(table for table in found if table.rows or table.notes)
