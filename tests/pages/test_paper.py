"""The computed sheets on paper: as few pages as one can keep in the head, none near empty."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace
from html import unescape
from typing import TYPE_CHECKING

import pypdfium2
import pytest

from binder.build import book_of
from binder.output.paper.sheet import Setting
from binder.output.print import PrintOptions, render_book
from tests import farm_data
from tests.structures import EXTENTS, FEW

if TYPE_CHECKING:
    from pathlib import Path

    from binder.output.print import PrintResult
    from binder.pages.page import Book

pytestmark = pytest.mark.slow

DAY = dt.date(2026, 6, 1)
HEADS = r'<(?:h2|th scope="col")>(.*?)</(?:h2|th)>'
WRITTEN = {"protocol", "emergency"}
# The most pages of each computed sheet of the example farm, by its kind or its slug.
MOST = {
    "cover": 1,
    "hand-over": 1,
    "start-here": 2,
    "pen": 2,  # where boar and sow live together; the others are one
    "chart": 1,
    "what-each-band-asks": 2,
    "typical-days": 2,
    "water-today": 1,
    "hoses": 1,
    "wallows": 1,
    "mixing-bleach": 2,
    "shade-and-air": 1,
    "feed-today": 2,
    "calendar": 1,
    "equipment": 2,
    "contacts": 1,
    "work-and-rest": 1,
    "keys-and-codes": 1,
    "round-log": 1,
    "medicine-log": 1,
    "loss-log": 1,
    "hand-back": 1,
}
FEWEST_PART = 9  # our choice: a heading, some lines, and the foot
FEW_LONGEST = 16  # of the 53 written sheets
FEWEST_LINES = 4  # our choice: less is not worth turning a page for


@pytest.fixture(scope="module", params=["letter", pytest.param("a4", marks=pytest.mark.every)])
def printed(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Book, PrintResult]:
    """Return the computed sheets of the example farm, printed on one kind of paper."""
    folder = tmp_path_factory.mktemp("paper")
    whole = book_of(farm_data.EXAMPLE, DAY)
    pages = tuple(
        page
        for page in whole.pages
        if page.kind not in WRITTEN and (page.slug in MOST or page.kind in MOST)
    )
    book = replace(whole, pages=pages, paper=request.param)
    return book, render_book(book, folder)


def test_sheets_keep_to_their_paper(printed: tuple[Book, PrintResult]) -> None:
    """A pen is two pages at most, a chart is one, and so on."""
    book, result = printed
    kinds = {page.slug: page.kind for page in book.pages}
    too_long = {
        line.sheet: line.pages
        for line in result.lines
        if line.slug in kinds
        and line.pages > MOST.get(line.slug, MOST.get(kinds[line.slug], 0))
    }
    assert too_long == {}


def test_no_page_is_near_empty(printed: tuple[Book, PrintResult]) -> None:
    """The last page of a sheet has more on it than a line or two."""
    _, result = printed
    document = pypdfium2.PdfDocument(result.file)
    short = {}
    for line in result.lines:
        if line.pages == 1:
            continue
        text = document[line.start + line.pages - 2].get_textpage().get_text_range()
        lines = [said for said in text.splitlines() if said.strip()]
        foot = 3  # the tab's letter, whom to call, the address and page
        if len(lines) - foot < FEWEST_LINES:
            short[line.sheet] = lines
    assert short == {}


@EXTENTS
def test_written_sheets_turn_over_for_a_whole_part(tmp_path: Path, extent: str) -> None:
    """The last page of a written sheet has a heading, or a table's head again, and is no scrap.

    A sheet turns over because it is long: `few` are the longest of them. In 12 pt each has
    one page today, so those few are looked at in large print.
    """
    whole = book_of(farm_data.EXAMPLE, DAY)
    protocols = [page for page in whole.pages if page.kind == "protocol"]
    longest = sorted(protocols, key=lambda page: -len(page.body))
    pages = tuple(longest[:FEW_LONGEST] if extent == FEW else protocols)
    titles = {
        page.slug: [unescape(one) for one in re.findall(HEADS, page.body)] for page in pages
    }
    large = PrintOptions(setting=Setting(large=extent == FEW))
    result = render_book(replace(whole, pages=pages), tmp_path, options=large)
    document = pypdfium2.PdfDocument(result.file)
    scraps, turned = {}, 0
    for line in result.lines:
        if line.pages == 1 or line.slug not in titles:
            continue
        turned += 1
        text = document[line.start + line.pages - 2].get_textpage().get_text_range()
        if len(text.splitlines()) < FEWEST_PART or not any(
            title in text for title in titles[line.slug]
        ):
            scraps[line.sheet] = text.splitlines()
    assert scraps == {}
    assert turned > 1 or extent != FEW
