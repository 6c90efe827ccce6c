"""Large print is large: all that is read is 18 pt or more, and stays on the paper."""

from __future__ import annotations

import ctypes
import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pypdfium2.raw as raw
import pytest

from binder.build import book_of
from binder.output.paper.sheet import CARDS, Setting
from binder.output.print import PrintOptions, render_papers
from binder.pages.page import PRINT, Paper
from tests.print.conftest import EXAMPLE
from tests.structures import few_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.pages.page import Page

pytestmark = pytest.mark.slow

# Our choice. Feet are smaller, as their numbers stand in full size on A1 and C1; so are letters
# within drawings; a form one writes in keeps its columns.
LEAST_PT, LEAST_FORM_PT = 18.0, 14.0
ROUNDED = 0.05
MM = 72 / 25.4
FOOT_MM, OUTER_MM, EDGE_MM = 17.0, 17.0, 12.0  # print.css
DRAWN = ("<svg", "<img", '<table class="sheets"')


@pytest.fixture(scope="module")
def large() -> tuple[dict[str, Page], pdfium.PdfDocument]:
    """Return sheets that have every structure, and the charts, in large print."""
    book = book_of(EXAMPLE, dt.date(2026, 6, 1))
    more = {"all-charts", "what-happened", "what-each-band-asks", "visit-july-0630", "log-july"}
    few = {page.slug for page in few_of(book).pages} | more
    pages = tuple(
        page
        for page in book.pages
        if page.slug in few and PRINT in page.where and page.kind not in {*CARDS, "list"}
    )
    paper = Paper("some", "Some", replace(book, pages=pages))
    (file,) = render_papers((paper,), PrintOptions(setting=Setting(large=True))).values()
    return {page.sheet: page for page in pages}, pdfium.PdfDocument(file[0])


def letters(page: pdfium.PdfPage) -> Iterator[tuple[float, float]]:
    """Yield size and right end of each text above the foot [pt]."""
    size = ctypes.c_float()
    for text in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT]):
        left, low, right, _ = text.get_bounds()
        raw.FPDFTextObj_GetFontSize(text.raw, size)
        if low > FOOT_MM * MM and left < page.get_width() - EDGE_MM * MM - 1:
            yield size.value * abs(text.get_matrix().d), right


def test_all_that_is_read_is_large(
    large: tuple[dict[str, Page], pdfium.PdfDocument],
) -> None:
    """18 pt; forms 14."""
    pages, document = large
    small = {}
    for at, printed in enumerate(document):
        page = pages[(document.get_page_label(at) or "").partition(".")[0]]
        if any(sign in page.body for sign in DRAWN):
            continue
        least = LEAST_FORM_PT if "log" in page.kind.split() else LEAST_PT
        sizes = {round(size, 1) for size, _ in letters(printed) if size < least - ROUNDED}
        if sizes:
            small[page.sheet] = sizes
    assert len(pages) > 20
    assert small == {}


def test_nothing_large_runs_off(large: tuple[dict[str, Page], pdfium.PdfDocument]) -> None:
    """No letter is beyond the text; a space at a line's end leaves no ink."""
    _, document = large
    off = []
    for at, printed in enumerate(document):
        text = printed.get_textpage()
        limit = printed.get_width() - OUTER_MM * MM + 1
        edge = printed.get_width() - EDGE_MM * MM - 1
        for index in range(text.count_chars()):
            left, low, right, _ = text.get_charbox(index)
            if low < FOOT_MM * MM or not right > limit or left > edge:
                continue
            if text.get_text_range(index, 1).strip():
                off.append((document.get_page_label(at), text.get_text_range(index, 12)))
    assert off == []
