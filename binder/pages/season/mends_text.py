"""What mends buy and how a stay's plan would have held, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages.season import season_text
from binder.pages.season.season_text import TextTable, whole
from binder.pages.text.listing import upper_first
from binder.units import Amount

if TYPE_CHECKING:
    from binder.figures.season.mends import Mend
    from binder.figures.season.odds import Odds
    from binder.figures.season.whole_season import Season
    from binder.figures.season.worth import Worth
    from binder.pages.context import Context


def mends_table(context: Context, season: Season) -> TextTable:
    """Return what each mend would have saved, the best first; costs are the owner's own."""
    title, heads = context.w("season.mends.title"), context.words.many("season.mends.heads")
    rows = tuple(_worth(context, worth) for worth in season.worths)
    if not rows:
        return TextTable(title, heads, (), (context.w("season.mends.none"),))
    return TextTable(title, heads, rows, (context.w("season.mends.note"),))


def pairs_table(context: Context, season: Season) -> TextTable:
    """Return the pairs of mends that save more together than one by one."""
    heads = context.words.many("season.mends.heads")
    rows = tuple(_worth(context, worth) for worth in season.pairs)
    title = context.w("season.mends.pairs_title")
    return TextTable(title, heads, rows, (context.w("season.mends.pairs_note"),))


def _worth(context: Context, worth: Worth) -> tuple[str, ...]:
    costs = context.farm.about.costs
    told = [costs[key] for m in worth.mends if (key := m.key) in costs]
    return (
        worth_said(context, worth), whole(worth.animal_h), whole(worth.days),
        whole(worth.looks), " + ".join(told) or context.w("season.mends.no_cost"),
    )  # fmt: skip


def worth_said(context: Context, worth: Worth) -> str:
    """Return a mend, or two, in words."""
    said = [mend_said(context, mend) for mend in worth.mends]
    if len(said) == 1:
        return said[0]
    return context.w("season.mends.both", one=said[0], other=said[1])


def mend_said(context: Context, mend: Mend) -> str:
    """Return one mend in words: `Hen run: 250 sq ft of shade cloth`."""
    key = "waterers" if mend.key == "waterer" and mend.count > 1 else mend.key
    return context.w(
        f"season.mends.{key}", subject=upper_first(context.named(mend.subject)),
        count=mend.count,
        amount=context.both(mend.amount) if mend.amount else "",
    )  # fmt: skip


def odds_table(context: Context, season: Season) -> TextTable:
    """Return the odds of each stay: on how many of its days the plan would have held."""
    rows = tuple(_odds(context, odds) for odds in season.odds)
    return TextTable(
        context.w("season.odds.title"), context.words.many("season.odds.heads"), rows,
        (*(odds_said(context, odds) for odds in season.odds), context.w("season.odds.note")),
    )  # fmt: skip


def _odds(context: Context, odds: Odds) -> tuple[str, ...]:
    worst, watch_c = odds.worst, odds.watch_from_c
    none = context.w("season.odds.none")
    gap = none
    if worst is not None and worst.overdue_h:
        span = context.span(worst.overdue_h)
        gap = context.w("season.odds.gap", gap=span, day=context.short_day(worst.on))
    watch = context.w("season.odds.no_watch")
    if watch_c is not None:
        watch = context.w("season.odds.watch", high=Amount(watch_c, "degC"))
    return (
        stay_said(context, odds),
        whole(len(odds.days)),
        whole(odds.held),
        whole(len(odds.needed)),
        whole(sum(day.at_night for day in odds.days)),
        whole(sum(bool(day.nobody_h) for day in odds.days)),
        whole(sum(bool(day.attended) for day in odds.days)),
        gap,
        watch,
    )


def stay_said(context: Context, odds: Odds) -> str:
    """Return a stay as its owner knows it: who comes, and when."""
    stay = context.figures.stays[odds.stay].stay
    return context.w(
        "season.odds.stay", sitter=stay.sitter, dates=context.window(stay.first, stay.last)
    )


def odds_said(context: Context, odds: Odds) -> str:
    """Return `On 9 of 40 such days somebody was needed between 1 and 7 pm`."""
    stay, days = stay_said(context, odds), whole(len(odds.days))
    if odds.span_h is None:
        return context.w("season.odds.sentence_none", stay=stay, days=days)
    first, last = (context.clock(hour) for hour in odds.span_h)
    return context.w(
        "season.odds.sentence", stay=stay, days=days, needed=whole(len(odds.needed)),
        first=first, last=last,
    )  # fmt: skip


def tables_of_all(context: Context, season: Season) -> tuple[TextTable, ...]:
    """Return what all files say together: mends, pairs of them, the odds of the stays."""
    found = [mends_table(context, season)]
    if season.pairs:
        found.append(pairs_table(context, season))
    if season.odds:
        found.append(odds_table(context, season))
    return tuple(found)


def in_short(context: Context, season: Season) -> tuple[str, ...]:
    """Return what the weather says at once: days gone wrong, what to mend first, the stays."""
    lines = season_text.lines_of_all(context, season)
    return (*lines, *firsts(context, season), *(odds_said(context, o) for o in season.odds))


def firsts(context: Context, season: Season) -> tuple[str, ...]:
    """Return what to mend first, and two things together where they save more."""
    said = []
    if season.worths:
        said.append(_first(context, "answer", season.worths[0]))
    if season.pairs and (not season.worths or season.pairs[0].rank > season.worths[0].rank):
        said.append(_first(context, "answer_pair", season.pairs[0]))
    return tuple(said)


def _first(context: Context, key: str, worth: Worth) -> str:
    return context.w(
        f"season.mends.{key}", mend=worth_said(context, worth), saved=whole(worth.animal_h)
    )
