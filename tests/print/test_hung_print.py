"""What hangs outside the binder fits one side, and large print keeps within its sheets."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import pypdfium2
import pytest

from binder.build import book_of
from binder.output.paper.sheet import CARDS, Setting
from binder.output.print import PrintOptions, render_papers
from binder.pages.page import Paper
from tests.print.conftest import EXAMPLE

if TYPE_CHECKING:
    from collections.abc import Callable

    from binder.pages.page import Book, Page

JULY = dt.date(2026, 7, 5)
EDGE_MM, MM_PER_POINT = 17.0, 25.4 / 72


@pytest.fixture(scope="module")
def book() -> Book:
    """Return the example's binder five days before a stay."""
    return book_of(EXAMPLE, JULY)


def drawn(book: Book, wanted: Callable[[Page], bool], *, large: bool) -> bytes:
    """Return some sheets of a binder in one file."""
    some = replace(book, pages=tuple(filter(wanted, book.pages)))
    options = PrintOptions(setting=Setting(large=large))
    (file,) = render_papers((Paper("some", "Some", some),), options).values()
    return file[0]


@pytest.mark.parametrize("large", [False, True])
def test_cards_and_wall_charts_fit_one_side(book: Book, *, large: bool) -> None:
    """They are laminated and hung up: nobody turns them over."""
    file = drawn(book, lambda page: page.kind in CARDS and page.sheet != "H2", large=large)
    document = pypdfium2.PdfDocument(file)
    labels = [document.get_page_label(at) for at in range(len(document))]
    assert len(labels) > 10
    assert not [label for label in labels if label.endswith(".2")]


def test_no_form_runs_off_in_large_print(book: Book) -> None:
    """The log of a stay has eleven columns; its last ones stood beside the paper."""
    file = drawn(book, lambda page: page.kind == "log", large=True)
    over: Counter[str] = Counter()
    document = pypdfium2.PdfDocument(file)
    for at, page in enumerate(document):
        text = page.get_textpage()
        right = page.get_size()[0] - EDGE_MM / MM_PER_POINT + 1
        for place in range(text.count_rects()):
            left, _, edge, _ = text.get_rect(place)
            if left < right < edge:
                over[document.get_page_label(at)] += 1
        assert len(text.get_text_range()) > 0
    assert over == Counter()
