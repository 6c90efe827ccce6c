"""Sheets and protocols as the HTML of a page: eyebrow, title, body, sources."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from binder.letters import lacking, told_lacking
from binder.pages.book.registry import TABS
from binder.pages.claims import claim as claims
from binder.pages.claims.named import named_claims
from binder.pages.page import Page
from binder.pages.sheet import Filled
from binder.pages.text import protocol as protocols
from binder.pages.text import template
from binder.pages.text.protocol import plain_text
from binder.pages.text.rich import Link, rich
from binder.problems import Place, Problem, ProblemsError, did_you_mean, quotable
from binder.sources import all_sources

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from binder.pages.book.registry import Planned
    from binder.pages.context import Context
    from binder.pages.sheet import Sheet
    from binder.pages.text.protocol_file import Protocol

_PICTURE = re.compile(r'src="picture:([^"]+)"')
_LEADS_TO = re.compile(r'href="(sheet|working):([^"#]*)')
# Names of a protocol that say another thing on another day: meals, who is due where.
_OF_A_DAY = re.compile(r"\{[{%][^}]*\b(?:meals|one\.(?:window|pen)|feeds?|litters?)\b")
_LISTS_STAYS = "start-here"  # so that a new stay changes one sheet, not every dated one
_WITHOUT_SOURCES = "N"  # the Numbers tab names the sources number by number


def head(context: Context, number: str, title: str) -> Markup:
    """Return the eyebrow and title that every sheet starts with."""
    return Markup('<p class="eyebrow">{} · {}</p>\n<h1>{}</h1>\n').format(
        number, context.w(f"tab.{number[0]}"), title
    )


def dated(context: Context) -> Markup:
    """Return that in a stay its cards are right; the day of the sheet stands in its foot.

    Empty on a farm without a stay to come: then nothing else is said of another day.
    """
    if not context.figures.stays:
        return Markup("")
    line = context.say("page.dated", sheet=context.sheet(_LISTS_STAYS))
    return Markup('<span class="dated">{}</span>').format(line)


def with_date(context: Context, body: str) -> str:
    """Return the HTML of a sheet with its day in the line over its title."""
    return re.sub(
        r'(<p class="eyebrow">.*?)(</p>)',
        lambda found: f"{found[1]} {dated(context)}{found[2]}",
        body, count=1, flags=re.DOTALL,
    )  # fmt: skip


def source_line(context: Context, ids: Iterable[str]) -> Markup:
    """Return the small line that says what a sheet rests on.

    It is empty where that is nothing, and where no sheet of sources is at hand.
    """
    known = all_sources()
    named = [source for source in dict.fromkeys(ids) if known[source].grade]
    if not named or "sources" not in context.sheets:
        return Markup("")
    links = rich(Link(context.sheets["sources"], "sheet:sources"))
    line = context.say("page.sources", ids=", ".join(named), sheet=links)
    return Markup('<p class="sources">{}</p>\n').format(line)


def page_of(context: Context, planned: Planned, made: Sheet | Filled) -> Page:
    """Return a sheet that the program makes as a page."""
    body = made.body if isinstance(made, Filled) else _body(context, planned, made)
    if planned.dated:
        body = with_date(context, body)
    return Page(
        slug=planned.slug,
        sheet=planned.number,
        tab=planned.tab,
        title=made.title,
        body=body,
        where=planned.where,
        summary=made.summary,
        words=made.words,
        kind=made.kind,
        editions=planned.editions,
        reader=planned.reader,
        claims=(*claims.of_figures(body), *made.stated),
    )


def _body(context: Context, planned: Planned, sheet: Sheet) -> str:
    """Return the HTML of a sheet's blocks, with its head and its sources."""
    inner = template.page(
        "parts/sheet.html", {"w": context.w, "answer": sheet.answer, "blocks": sheet.blocks}
    )
    tail = (
        Markup("") if planned.tab == _WITHOUT_SOURCES else source_line(context, sheet.sources)
    )
    return str(head(context, planned.number, sheet.title) + Markup(inner) + tail)  # noqa: S704 -- our template


def page_of_protocol(context: Context, one: Protocol, names: Mapping[str, object]) -> Page:
    """Return a protocol as a page, the farm's facts put in.

    Raises:
        ProblemsError: it names what is not there; with its file and line.
    """
    written = one.text if one.owner_version else context.words.ours(one.text)
    text = template.protocol(written, one.file, one.first_line, names)
    title = one.title if one.owner_version else context.words.ours(one.title)
    signals = {signal: context.w(f"signal.{signal}") for signal in protocols.SIGNALS}
    try:
        inner = protocols.to_html(text, kind=one.kind, signals=signals)
    except protocols.ProtocolTextError as error:
        where = Place(one.file, one.line_of(error.words), 1)
        raise ProblemsError([Problem(where, "", str(error))]) from error
    _refuse_strange_pictures(one, inner, context.farm.pictures)
    missing = lacking(plain_text(inner))
    if missing:
        where = Place(one.file, one.line_of(missing[0]), 1)
        raise ProblemsError([Problem(where, "", told_lacking(missing))])
    own = (
        Markup('<p class="own">{}</p>\n').format(escape(context.w("page.own_version")))
        if one.owner_version
        else Markup("")
    )
    top = head(context, one.sheet, title)
    if one.kind != "emergency" and _OF_A_DAY.search(one.text):
        top = Markup(with_date(context, str(top)))  # noqa: S704 -- escaped in head
    body = (
        top
        + own
        + Markup(inner)  # noqa: S704 -- made from Markdown with raw HTML switched off
        + source_line(context, one.sources)
    )
    return Page(
        slug=one.slug,
        sheet=one.sheet,
        tab=one.sheet[0],
        title=title,
        body=str(body),
        summary=one.summary if one.owner_version else context.words.ours(one.summary),
        words=f"{one.words} {plain_text(inner)[:400]}",
        kind=one.kind,
        editions=TABS[one.sheet[0]],
        owner_version=one.owner_version,
        claims=(*claims.of_figures(inner), *named_claims(context, one.text, plain_text(inner))),
    )


def shown_pictures(html: str) -> tuple[str, ...]:
    """Return the names of the pictures that a page shows, each once."""
    return tuple(dict.fromkeys(unescape(name) for name in _PICTURE.findall(html)))


def _refuse_strange_pictures(one: Protocol, html: str, pictures: Iterable[str]) -> None:
    """Refuse a picture that the farm does not have: nothing outside pictures/ is shown.

    Raises:
        ProblemsError: with the line that names it, for each.
    """
    known = tuple(pictures)
    problems = [
        Problem(
            Place(one.file, one.line_of(f"picture:{name}"), 1),
            "",
            f'"{quotable(name)}" is not in pictures/{did_you_mean(name, known)}',
        )
        for name in shown_pictures(html)
        if name not in known
    ]
    if problems:
        raise ProblemsError(problems)


def dead_links(
    one: Protocol, html: str, sheets: Iterable[str], workings: Iterable[str]
) -> list[Problem]:
    """Return a problem for each link of a protocol to a sheet or working that is not there."""
    there = {"sheet": tuple(sheets), "working": tuple(workings)}
    found = []
    for kind, address in dict.fromkeys(_LEADS_TO.findall(html)):
        name = unescape(address)
        if name not in there[kind]:
            near = did_you_mean(name, there[kind])
            message = f'"{kind}:{quotable(name)}" leads nowhere{near}'
            where = Place(one.file, one.line_of(f"{kind}:{name}"), 1)
            found.append(Problem(where, "", message))
    return found
