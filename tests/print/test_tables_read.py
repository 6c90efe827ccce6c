"""Tables that can be read as they are printed: no sliver of a column, nothing cut or broken."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from tests.print.cells import complaints
from tests.print.conftest import DAY, EXAMPLE
from tests.structures import EXTENTS, FEW

if TYPE_CHECKING:
    from pathlib import Path

    from binder.pages.page import Book, Page

pytestmark = pytest.mark.slow

FINCA = EXAMPLE.parent / "example-finca"
# Sheets with tables that the farm's own data fill.
FILLED = {
    EXAMPLE: frozenset({"figures", "pen", "visit", "start", "keys", "asking", "ground"}),
    FINCA: frozenset({"figures", "pen"}),
}


def wrong_on(book: Book, kinds: frozenset[str], extent: str) -> dict[str, list[str]]:
    """Return sheet -> what cannot be read on it: of all sheets, or the longest of a maker."""
    pages = [page for page in book.pages if page.kind in kinds]
    if extent == FEW:
        longest = {maker(page): page for page in sorted(pages, key=lambda page: len(page.body))}
        pages = list(longest.values())
    assert len(pages) > 8
    found = {page.sheet: complaints(page, book) for page in pages}
    return {sheet: said for sheet, said in found.items() if said}


def maker(page: Page) -> str:
    """Return what sheets of one maker share: pens, and the sheets of a visit by their sort."""
    if page.kind in {"pen", "visit"}:
        return f"{page.kind} {page.slug.partition('-')[0]}"
    return page.slug


@pytest.mark.parametrize("farm", [EXAMPLE, FINCA], ids=["letter", "a4"])
@EXTENTS
def test_the_examples_can_be_read(farm: Path, extent: str) -> None:
    """Tables that a farm's data fill: in the US on Letter, and metric on A4."""
    assert wrong_on(book_of(farm, DAY), FILLED[farm], extent) == {}


def test_a_fault_would_be_found() -> None:
    """A sliver of a column, a number that is too long, a telephone number in two lines."""
    book = book_of(EXAMPLE, DAY)
    page = next(page for page in book.pages if page.sheet == "C5")
    body = (
        '<table><tr><td style="width:3em">one two three four five six seven eight</td>'
        '<td style="width:90%">and the rest of the row with many words in it</td></tr></table>'
        '<p style="white-space:nowrap">' + "word " * 60 + "</p>"
        '<table style="table-layout:fixed;width:6em"><tr><td>912-<br>555-0110 '
        "912-555-0121</td></tr></table>"
    )
    said = " ".join(complaints(dataclasses.replace(page, body=body), book))
    assert "words in" in said
    assert "past the page's edge" in said
    assert "a broken number" in said
