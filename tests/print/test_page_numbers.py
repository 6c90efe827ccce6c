"""The foot says which page of the file each is; the list of sheets leads to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pikepdf
import pypdfium2 as pdfium
import pytest

from binder.letters import PDF_FILES, digit_shapes
from binder.output.paper.join import Numbered, Piece, join
from binder.output.paper.paper_style import stylesheet
from binder.output.paper.render import draw
from binder.output.paper.workers import PrintJob

if TYPE_CHECKING:
    from tests.print.conftest import Example

pytestmark = pytest.mark.slow

MM = 72 / 25.4
OUTER_MM, FOOT_MM, EDGE_MM = 17.0, 17.0, 5.0  # print.css; what a home printer leaves white


def boxed(page: pdfium.PdfPage, *, left: bool = False) -> str:
    """Return what stands in the outer margin at the height of the foot."""
    wide, _ = page.get_size()
    first, last = (
        (EDGE_MM * MM, OUTER_MM * MM) if left else (wide - OUTER_MM * MM, wide - EDGE_MM * MM)
    )
    text = page.get_textpage().get_text_bounded(first, 0, last, FOOT_MM * MM)
    return str(text).strip()


def test_every_page_has_its_number_in_the_foot(example: Example) -> None:
    """Counted from 1, as the list counts them."""
    with pdfium.PdfDocument(example.result.file) as document:
        assert [boxed(page) for page in document] == [
            str(at + 1) for at in range(len(document))
        ]
        for line in example.result.lines:
            assert boxed(document[line.start - 1]) == str(line.start)


def test_the_number_is_no_part_of_what_is_read_aloud(example: Example) -> None:
    """It stands in an artifact of the page, and the file's fonts are whole."""
    with pikepdf.open(example.result.file) as file:
        for page in file.pages:
            last = page.obj.Contents[-1].read_bytes()
            assert last.strip().startswith(b"Q")
            assert b"/Artifact <</Type /Pagination /Subtype /Footer>> BDC" in last
            assert last.count(b"BDC") == last.count(b"EMC") == 1
            font = page.obj.Resources.Font["/FileNumber"]
            assert list(font.Widths) == list(digit_shapes().widths)
            assert (
                font.FontDescriptor.FontFile2.Length1
                == PDF_FILES[digit_shapes().name].stat().st_size
            )


def test_a_leaf_has_its_number_at_the_outer_edge_on_both_sides() -> None:
    """An even page has it on the left, an empty back none; a drawn sheet is as it was."""
    html = (
        '<!doctype html><html lang="en" class="usual"><title>t</title>'
        '<body><p>a</p><h1 style="break-before:page">b</h1>'
    )
    pdf = draw(PrintJob("x", html, stylesheet("letter"), {})).pdf
    pieces = [Piece("a", "A1", "a", "", pdf), Piece("b", "A2", "b", "", pdf, blank_after=True)]
    fonts = {name: file.read_bytes() for name, file in PDF_FILES.items()}

    def said(numbered: Numbered) -> list[str]:
        made = join(
            pieces, title="t", language="en", date="2026-06-01", fonts=fonts, numbered=numbered
        )
        with pdfium.PdfDocument(made.pdf) as document:
            return [boxed(page, left=at % 2 == 1) for at, page in enumerate(document)]

    assert said(Numbered.NO) == [""] * 5
    assert said(Numbered.TWO_SIDED) == ["1", "2", "3", "4", ""]
