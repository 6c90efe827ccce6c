"""The HTML of one sheet for paper: the page's body with its head, foot and tab index."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from html import escape
from string import Template
from typing import TYPE_CHECKING

from binder.data import TEMPLATES
from binder.output.paper.paper_style import PAPERS
from binder.pages.text.tree import Element, read
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.pages.page import Book, Page, Tab
    from binder.pages.text.tree import Node

# Every label that print asks of `Book.labels`; the words stand in content/words/en/print.yaml.
LABELS = (
    "print.step",
    "print.page-of",
    "print.revision",
    "print.draft",
    "print.draft-new",
    "print.place",
    "print.cards",
    "print.sheets.title",
    "print.sheets.lead",
    "print.sheets.sheet",
    "print.sheets.name",
    "print.sheets.revision",
    "print.sheets.date",
    "print.sheets.pages",
    "print.sheets.file-page",
    "print.sheets.by-pen",
    "print.aged.months",
    "print.aged.noon",
    "print.aged.units",
    "print.changes.title",
    "print.changes.lead",
    "print.changes.pull",
    "print.changes.put",
    "print.changes.name",
    "print.changes.old",
    "print.changes.new",
    "print.changes.nothing",
    "print.changes.card",
    "print.changes.wall",
    "print.changes.hang",
    "print.changes.list",
    "print.changes.drafts",
    "print.changes.whole",
    "print.changes.many",
    "print.changes.foot",
    "print.changes.throw",
    "print.changes.keep-log",
    "print.changes.write",
    "print.changes.write-lead",
    "print.changes.on",
    "print.changes.says",
    "print.changes.becomes",
    "print.changes.cross",
    "print.changes.in-row",
    "print.changes.places",
    "print.changes.every-foot",
    "print.changes.swap",
    "print.changes.penned",
    "print.changes.kept-logs",
    "print.changes.whole-fix",
    "print.changes.remark",
    "print.changes.whole-remark",
    "print.changes.fix",
)

CARDS = frozenset({"card", "wall"})  # kinds printed apart from the ring binder, to laminate
WITHOUT_INDEX = CARDS | {"cover", "changes", "pocket"}
_TOP_MM, _BOTTOM_MM = 9.0, 17.0  # as in print.css
_INDEX_MM, _STEP_MM = 15.0, 17.0  # height of the tab index; the most it steps down
_INDEX_WIDE_MM = 12
_GUTTER_MM, _OUTER_MM = 22, 17  # as in print.css


@dataclass(frozen=True, slots=True)
class SheetAge:
    """What the foot says about a sheet's age.

    Attributes:
        revision: number of the last handed-over revision; 0 before the first.
        date: the day of that revision, or of the build for a draft.
        draft: whether the sheet differs from that revision.
        pen: whether it was corrected by pen since; its foot cannot say so.
    """

    revision: int = 0
    date: str = ""
    draft: bool = False
    pen: bool = False


@dataclass(frozen=True, slots=True)
class Setting:
    """How the whole binder is to be printed."""

    large: bool = False
    two_sided: bool = False


@dataclass(frozen=True, slots=True)
class PrintSheet:
    """One sheet ready to be drawn: its name, its HTML and the pictures it shows."""

    slug: str
    sheet: str
    title: str
    tab: str
    html: str
    pictures: Mapping[str, bytes]


def check_labels(labels: Mapping[str, str]) -> None:
    """Raise for every word that print needs and the book does not bring.

    Raises:
        ProblemsError: a label is missing.
    """
    missing = [name for name in LABELS if name not in labels]
    if missing:
        place = Place("words")
        raise ProblemsError([Problem(place, name, "this word is missing") for name in missing])


def sheet(page: Page, book: Book, mark: SheetAge, setting: Setting) -> PrintSheet:
    """Return the sheet of `page`, with its head, foot and tab index."""
    body = body_for_paper(page)
    html = Template(_template("print/sheet.html")).substitute(
        language=escape(book.language),
        size="large" if setting.large else "usual",
        title=escape(page.title),
        style=_page_style(book, page, setting),
        kind=escape(page.kind),
        calls=_calls(book),
        which=_which(book.labels, page.sheet, mark),
        place=_place(book),
        head=_head(page, book),
        body=body,
    )
    pictures = {name: book.pictures[name] for name in _pictures(body) if name in book.pictures}
    return PrintSheet(page.slug, page.sheet, page.title, page.tab, html, pictures)


def body_for_paper(page: Page) -> str:
    """Return the body as printed: letters that the font has, drawings with their words."""
    body = page.body.translate(_ALIKE)
    if "<svg" not in body:
        return body
    tree = read(body)
    for drawing in tree.all("svg"):
        _name(drawing)
    return tree.html


# The print font has no thin or unbreakable hyphen-like letters, nor primes; these look alike.
_ALIKE = str.maketrans(
    {"\u2009": "\u00a0", "\u202f": "\u00a0", "\u2011": "-", "\u2032": "'", "\u2033": '"'}
)
_PICTURE = "picture:"


def _name(drawing: Element) -> None:
    """Give a drawing the print font and, as a title, the description that the PDF looks for."""
    _unlink(drawing)
    is_named = any(child.name == "title" for child in drawing.elements[:1])
    if (said := drawing.given.get("aria-label")) is not None and not is_named:
        drawing.children.insert(0, Element("title", "<title>", children=[escape(said)]))
    if "font-family" not in drawing.given:
        drawing.first('font-family="Atkinson Hyperlegible"')


def _unlink(parent: Element) -> None:
    """Leave what links hold: the printer takes one for a text, and nobody taps on paper."""
    nodes: list[Node] = []
    for child in parent.children:
        if isinstance(child, Element):
            _unlink(child)
        nodes += child.children if isinstance(child, Element) and child.name == "a" else [child]
    parent.children = nodes


def _pictures(body: str) -> list[str]:
    """Return the names of the pictures that a body shows, each once, sorted."""
    if _PICTURE not in body:
        return []
    shown = (value for one in read(body).everything for value in one.given.values())
    return sorted({v.removeprefix(_PICTURE) for v in shown if v.startswith(_PICTURE)})


def _head(page: Page, book: Book) -> str:
    """Return eyebrow and title, unless the page brings its own."""
    if "<h1" in page.body:
        return ""
    names = {tab.letter: tab.name for tab in book.tabs}
    eyebrow = " · ".join(part for part in (page.sheet, names.get(page.tab, "")) if part)
    return f'<p class="eyebrow">{escape(eyebrow)}</p>\n<h1>{escape(page.title)}</h1>\n'


def _calls(book: Book) -> str:
    calls = " · ".join(f"{escape(who)} {escape(number)}" for who, number in book.foot.calls)
    return f"<b>{escape(book.foot.trouble)}</b> {calls}"


def _place(book: Book) -> str:
    return f"<b>{escape(book.labels['print.place'])}</b> {escape(book.foot.address)}"


def _which(labels: Mapping[str, str], name: str, mark: SheetAge) -> str:
    parts = [f"<span>{escape(name)}</span>"] if name else []
    return " · ".join([*parts, *_age(labels, mark), '<span class="pages"></span>'])


def _age(labels: Mapping[str, str], mark: SheetAge) -> list[str]:
    """Return the parts of the foot that tell the sheet's age."""
    said = age(labels, mark)
    kind = "draft" if mark.draft else "revision"
    parts = [f'<span class="{kind}">{escape(said)}</span>'] if said else []
    return [*parts, f"<span>{escape(mark.date)}</span>"] if mark.date else parts


def age(labels: Mapping[str, str], mark: SheetAge) -> str:
    """Return `revision 3` or `draft after revision 3`; nothing before the first hand-over."""
    if mark.draft:
        key = "print.draft" if mark.revision else "print.draft-new"
    elif mark.revision:
        key = "print.revision"
    else:
        return ""
    return labels[key].replace("{number}", str(mark.revision))


def _page_style(book: Book, page: Page, setting: Setting) -> str:
    """Return the CSS of one sheet's pages: gutter, tab index, words round the numbers."""
    rules = [f".foot .pages::after {{ content: {_page_of(book.labels['print.page-of'])}; }}"]
    tab = next((tab for tab in book.tabs if tab.letter == page.tab), None)
    if setting.two_sided:
        sides = f"margin-left: {_OUTER_MM}mm; margin-right: {_GUTTER_MM}mm;"
        rules.append(f"@page :left {{ {sides} }}")
    if tab is not None and page.kind not in WITHOUT_INDEX:
        top = f"{_index_top_mm(tab, book.tabs, book.paper):.1f}mm"
        off = _OUTER_MM - _INDEX_WIDE_MM
        right = _index(tab.letter, top, f"margin-left: {off}mm; padding-right: 3mm;")
        left = _index(tab.letter, top, f"margin-right: {off}mm; padding-left: 3mm;")
        rules.append(f"@page {{ @right-top {{ {right} }} }}")
        if setting.two_sided:
            empty = "@right-top { content: none; background: none; }"
            rules.append(f"@page :left {{ {empty} @left-top {{ {left} }} }}")
    return "\n".join(rules)


def _index(letter: str, top: str, side: str) -> str:
    return (
        f"content: {_css_string(letter)}; width: {_INDEX_WIDE_MM}mm; height: {_INDEX_MM}mm; "
        f"margin-top: {top}; "
        f"{side} background: var(--ink); color: var(--paper); "
        "font: bold 20pt 'Atkinson Hyperlegible'; text-align: center; vertical-align: middle;"
    )


def _index_top_mm(tab: Tab, tabs: Sequence[Tab], paper: str) -> float:
    """Return how far down the tab index stands [mm]: tabs share the edge evenly, in order."""
    orders = sorted(each.order for each in tabs)
    room = PAPERS[paper][1] - _TOP_MM - _BOTTOM_MM - _INDEX_MM
    step = min(_STEP_MM, room / max(1, len(orders) - 1))
    return orders.index(tab.order) * step


def _page_of(label: str) -> str:
    """Return `page {page} of {pages}` as CSS content."""
    parts = re.split(r"(\{pages?\})", label)
    counters = {"{page}": "counter(page)", "{pages}": "counter(pages)"}
    return " ".join(counters.get(part) or _css_string(part) for part in parts if part)


def _css_string(text: str) -> str:
    return '"' + "".join(f"\\{ord(c):x} " if c in '"\\\n<' else c for c in text) + '"'


@lru_cache(maxsize=16)
def _template(name: str) -> str:
    return (TEMPLATES / name).read_text(encoding="utf-8")
