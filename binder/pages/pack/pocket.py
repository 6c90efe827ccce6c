"""Two leaves for the pocket, four sides: numbers, charts, rounds, emergencies and a log."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.figures.bands.band_rule import Band
from binder.pages import slugs
from binder.pages.book import names
from binder.pages.book.our_choice import unmarked
from binder.pages.pack import numbers_page
from binder.pages.pack.pocket_rounds import rounds
from binder.pages.page import Page
from binder.pages.people.contacts_sheet import calls
from binder.pages.text.listing import sentence, upper_first

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.text.protocol_file import Protocol
    from binder.pages.views import PenView

_FIRST_STEP = re.compile(r'<ol class="steps">\s*<li>\s*<p>(.*?)</p>', re.DOTALL)
_TAG = re.compile(r"<[^>]+>")
_ROLES = ("owner", "backup", "vet", "night vet", "neighbor")
_MOST_CHARTS = 5  # our choice: what fits one side, two beside each other
_FREE_LINES = 6  # our choice: of the log, for looks


def sides(
    context: Context,
    plan: Plan,
    pens: Sequence[PenView],
    urgent: Sequence[tuple[Protocol, Page]],
) -> tuple[Page, ...]:
    """Return the four sides.

    Args:
        context: of the stay's pack.
        plan: of the stay.
        pens: every pen, ready to print.
        urgent: each emergency as written, and as a page.
    """
    used = tuple(pen for pen in pens if pen.groups)
    bodies = (
        _asks(context, used),
        numbers_page.charts(context, used, _MOST_CHARTS)
        + Markup("<p>{}</p><p>{}</p><p>{}</p>").format(
            context.w("pocket.between"),
            names.one_higher(context),
            numbers_page.own_number(context, "pocket.you"),
        ),
        rounds(context, plan),
        _emergencies(urgent) + _log(context, plan),
    )
    dates = context.window(plan.stay.first, plan.stay.last)
    return tuple(_side(context, at, dates, body) for at, body in enumerate(bodies, 1))


def _side(context: Context, at: int, dates: str, body: Markup) -> Page:
    title = context.w(f"pocket.titles.{at}")
    head = Markup('<p class="eyebrow">{}</p><h1>{}</h1>').format(
        context.w("pocket.eyebrow", n=at, dates=dates), title
    )
    return Page(
        slug=f"pocket-{at}",
        sheet=context.w("pocket.side", n=at),
        tab="",
        title=title,
        body=unmarked(context.words, str(head + body)),
        kind="pocket",
    )


# --- side 1: whom to phone, what each number asks, when to be back --------------------------


def _asks(context: Context, pens: Sequence[PenView]) -> Markup:
    return _phones(context) + _asked(context, pens) + _back(context, pens)


def _phones(context: Context) -> Markup:
    """Return whom to phone, and what to say where."""
    lines = [
        Markup("<b>{}</b> {}").format(
            context.emergency,
            context.or_missing(context.farm.about.place.address),
        )
    ]
    lines += [
        Markup("<b>{}</b> {} {}{}").format(
            upper_first(one.role), one.name, one.phone,
            Markup(", {} {}").format(context.w("contacts.nights"), one.nights)
            if one.nights else "",
        )
        for one in calls(context, _ROLES)
    ]  # fmt: skip
    signal = context.farm.about.place.phone_signal
    if signal:
        lines.append(Markup("<b>{}</b> {}").format(context.w("contacts.signal"), signal))
    said = Markup("").join(Markup("<p>{}</p>").format(line) for line in lines)
    return Markup('<div class="answer phones">{}</div>').format(said)


def _asked(context: Context, pens: Sequence[PenView]) -> Markup:
    """Return what each number asks; pens that are asked the same share a row."""
    alike: dict[tuple[str, ...], list[PenView]] = {}
    for pen in pens:
        alike.setdefault(tuple(ask.do for ask in pen.asks), []).append(pen)
    heads = (context.w("pen.pen"), *(_chip(context, band) for band in Band))
    rows = [
        (", ".join(pen.name for pen in together), *asked) for asked, together in alike.items()
    ]
    return table(heads, rows, "asked")


def _back(context: Context, pens: Sequence[PenView]) -> Markup:
    """Return how soon to be back, a row for each pen with who is in it."""
    heads = (context.w("pocket.back"), *(_chip(context, band) for band in Band))
    rows = [
        (
            Markup("{} <span class='more'>{}</span>").format(pen.name, pen.who),
            *(pen.every(band.key) for band in Band),
        )
        for pen in pens
    ]
    return table(heads, rows, "back")


def _chip(context: Context, band: Band) -> Markup:
    return Markup('<span class="band b{0}">{0}</span> {1}').format(
        int(band), context.w(f"band.{band.key}")
    )


def table(heads: Sequence[str | Markup], rows: Sequence[Sequence[object]], kind: str) -> Markup:
    """Return a small table with real heads."""
    top = Markup("").join(Markup('<th scope="col">{}</th>').format(head) for head in heads)
    body = Markup("").join(
        Markup('<tr><th scope="row">{}</th>{}</tr>').format(
            first, Markup("").join(Markup("<td>{}</td>").format(cell) for cell in rest)
        )
        for first, *rest in rows
    )
    return Markup(
        '<table class="{}"><thead><tr>{}</tr></thead><tbody>{}</tbody></table>'
    ).format(kind, top, body)


# --- side 4: see this, do that; today's log -------------------------------------------------


def _emergencies(urgent: Sequence[tuple[Protocol, Page]]) -> Markup:
    """Return a line for each emergency: what one sees, what to do first, its sheet."""
    lines = Markup("").join(
        Markup("<p><b>{}</b> {} <b class='do'>{}</b></p>").format(page.sheet, seen, first)
        for page, seen, first in _lines(urgent)
    )
    return Markup('<div class="two lines">{}</div>').format(lines)


def _lines(urgent: Sequence[tuple[Protocol, Page]]) -> Iterator[tuple[Page, str, str]]:
    for one, page in urgent:
        step = _FIRST_STEP.search(page.body)
        first = unescape(_TAG.sub("", step[1])) if step else page.summary
        yield page, sentence(upper_first(one.when or page.title)), first


def _log(context: Context, plan: Plan) -> Markup:
    """Return one day's log to write on: a line for each visit, free ones for looks."""
    heads = (
        context.w("pocket.log"),
        *(context.sheets[slugs.pen(pen)] for pen in plan.pens),
        context.w("pocket.notes"),
    )
    times = [context.clock(visit.hour) for visit in plan.visits] + [""] * _FREE_LINES
    rows = [(time, *[""] * (len(plan.pens) + 1)) for time in times]
    return table(heads, rows, "log")
