"""The calendar: who is due, what to check, in order of days."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.published import rests_on
from binder.pages import facts
from binder.pages.claims.claim import FARM, Claim
from binder.pages.sheet import Block, Heading, Paragraph, Sheet, Table
from binder.pages.text.rich import Link, rich

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from binder.figures.herd.groups import Group
    from binder.pages.context import Context

_QUIET = frozenset({"late gestation"})  # a stage, not something to do


Event = tuple["dt.date", "dt.date", str, str, str]


def calendar(context: Context) -> Sheet:
    """Return what falls due, soonest first; what is past is left out."""
    w = context.w
    on = context.figures.on
    events: list[Event] = []
    for group in context.figures.herd.groups:
        events += [
            (first, last, group.animal.called, _place(context, group, first), event)
            for event, first, last in group.dates
            if last >= on and event not in _QUIET
        ]
    # A plan ends the watch for labor where the days of the birth begin: no second event.
    known = {(first, who, event) for first, _, who, _, event in events}
    later = {one for one in _expected(context) if (one[0], one[2], one[4]) not in known}
    rows = tuple(
        (context.window(first, last), who, pen, _what(context, event, expected=one in later))
        for one in sorted({*events, *later})
        for first, last, who, pen, event in (one,)
    )
    heads = tuple(w(f"calendar.head.{key}") for key in ("when", "who", "where", "what"))
    blocks: list[Block] = [Table(heads, rows), Paragraph(w("calendar.past"), small=True)]
    if later:
        blocks.append(Paragraph(w("calendar.expected_how"), small=True))
    if context.has("boar"):
        weeks = facts.care(context, "boar after heat")
        text = w("calendar.boar_text", weeks=weeks)
        claim = Claim(FARM, "care", "boar after heat", weeks)
        blocks += [Heading(w("calendar.boar")), Paragraph(text, claims=(claim,))]
    for who, figure in context.figures.boars.items():
        until = context.short_day(context.date_of(figure))
        line = w("calendar.boar_until", who=who, day=until)
        blocks.append(Paragraph(rich(Link(line, f"working:{figure.key}"))))
    answer = w("calendar.answer" if rows else "calendar.answer_none")
    return Sheet(
        title=w("calendar.title"),
        answer=(answer,),
        blocks=tuple(blocks),
        summary=w("calendar.summary"),
        sources=rests_on("calendar"),
        words=w("found_by.calendar"),
    )


def _place(context: Context, group: Group, first: dt.date) -> str:
    """Return the pen in which an animal is on the first day of what falls due, or is by now."""
    return context.pen_name(group.animal.pen_on(max(first, context.figures.on)))


def _expected(context: Context) -> Iterable[Event]:
    """Yield what the plans of the stays count on after a birth that is still to come."""
    for plan in context.figures.stays.values():
        for day in plan.days:
            for due in day.due:
                if context.words.has(f"event.{due.key}") and due.key not in _QUIET:
                    yield due.first, due.last, due.who, context.pen_name(due.pen), due.key


def _what(context: Context, event: str, *, expected: bool) -> str:
    said = context.w(f"event.{event}")
    return context.w("calendar.expected", what=said) if expected else said
