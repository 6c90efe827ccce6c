"""The list of sheets in front of the binder: revision, pages, where each begins in the file."""

from __future__ import annotations

from dataclasses import dataclass, replace
from html import escape
from typing import TYPE_CHECKING

from binder.pages.page import PRINT_ONLY, Page

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.output.paper.sheet import SheetAge
    from binder.pages.page import Book

LIST = "list"  # the kind of page that is the list
_HEADS = ("sheet", "name", "revision", "date", "pages", "file-page")
_AMOUNT = ("", ' class="amount"')
_A_PAGE = 50  # lines with the heads of their tabs, about, where the type is small


@dataclass(frozen=True, slots=True)
class Line:
    """One sheet in the list.

    Attributes:
        slug, sheet, title, tab: of the page.
        mark: its revision and date.
        pages: how many it has.
        start: the page of the file on which it begins, from 1.
    """

    slug: str
    sheet: str
    title: str
    tab: str
    mark: SheetAge
    pages: int
    start: int


def place_of_list(pages: Sequence[Page]) -> tuple[int, Page | None]:
    """Return where the list goes among the other sheets, and the page that asks for it.

    A page of kind `list` stands for the list: its title, words and place are kept. Without one
    the list takes the first free number of the first tab.
    """
    for at, page in enumerate(pages):
        if page.kind == LIST:
            return at, page
    front = [page for page in pages if page.tab == pages[0].tab]
    numbers = [page.sheet.removeprefix(page.tab) for page in front]
    at = next((at for at, number in enumerate(numbers) if number != str(at + 1)), len(front))
    return at, None


def usual_pages(sheets: int) -> int:
    """Return how many pages a list of so many sheets has, about.

    It counts itself, so it is drawn with a guess first, and again where that was wrong: the
    drawing takes as long as that of twenty sheets.
    """
    return max(1, -(-sheets // _A_PAGE))


def list_page(lines: Sequence[Line], book: Book, at: int, given: Page | None) -> Page:
    """Return the list as a page, a table with a head for each tab.

    Args:
        lines: one for each other sheet.
        book: for its words and tabs.
        at: the list's place among the sheets, from 0; tells its number.
        given: the page that asks for the list and brings its words, if any.
    """
    table = _table(lines, book)
    if given is not None:
        return replace(given, body=given.body + table)
    lead = f'<p class="lead">{escape(book.labels["print.sheets.lead"])}</p>'
    title = book.labels["print.sheets.title"]
    front = book.tabs[0].letter if book.tabs else ""
    number = f"{front}{at + 1}"
    body = lead + table
    return Page("list-of-sheets", number, front, title, body, where=PRINT_ONLY, kind=LIST)


def _table(lines: Sequence[Line], book: Book) -> str:
    names = {tab.letter: tab.name for tab in book.tabs}
    labels = {name: escape(book.labels[f"print.sheets.{name}"]) for name in _HEADS}
    head = "".join(
        f'<th scope="col"{_AMOUNT[n > 1]}>{labels[h]}</th>' for n, h in enumerate(_HEADS)
    )
    by_pen = book.labels["print.sheets.by-pen"]
    parts = []
    for letter in dict.fromkeys(line.tab for line in lines):
        rows = "".join(_row(line, by_pen) for line in lines if line.tab == letter)
        name = escape(names.get(letter, book.name))
        group = f'<tr class="tab"><th scope="rowgroup" colspan="{len(_HEADS)}">{name}</th></tr>'
        parts.append(f"<tbody>{group}{rows}</tbody>")
    return f'<table class="sheets"><thead><tr>{head}</tr></thead>{"".join(parts)}</table>'


def _row(line: Line, by_pen: str) -> str:
    revision = str(line.mark.revision or "–") + ("*" if line.mark.draft else "")
    if line.mark.pen:
        revision = by_pen.replace("{revision}", revision)
    cells = (revision, line.mark.date or "–", str(line.pages), str(line.start))
    rest = "".join(f'<td class="amount">{escape(cell)}</td>' for cell in cells)
    link = f'<a class="sheet" href="sheet:{escape(line.slug)}">{escape(line.sheet)}</a>'
    return f'<tr><th scope="row">{link}</th><td>{escape(line.title)}</td>{rest}</tr>'
