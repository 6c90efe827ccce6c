"""The whole binder is no thicker than it need be, and few of its pages are half empty."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest

if TYPE_CHECKING:
    from pathlib import Path

    from tests.print.conftest import Example

pytestmark = pytest.mark.slow

# Our choice, all four.
MOST_PAGES, HALF_EMPTY, MOST_HALF_EMPTY = 170, 0.45, 0.05
FORMS = ("L", "K")  # blank forms, and codes that share no page with anything
MM = 72 / 25.4
LEFT_MM, TOP_MM, RIGHT_MM, FOOT_MM = 20, 9, 18, 17.5  # print.css, the tab index left out
DARK = 235  # of 255: lighter is paper


def fills(path: Path) -> list[tuple[str, float]]:
    """Return of each page its sheet, and how far down there is ink above the foot, 0 to 1."""
    found = []
    with pdfium.PdfDocument(path) as document:
        for at, page in enumerate(document):
            picture = page.render(scale=0.5, grayscale=True).to_pil()
            wide, high = (size * 0.5 for size in page.get_size())
            left, top, right, foot = (
                mm * MM * 0.5 for mm in (LEFT_MM, TOP_MM, RIGHT_MM, FOOT_MM)
            )
            box = tuple(round(side) for side in (left, top, wide - right, high - foot))
            ink = picture.crop(box).point(lambda grey: 255 if grey < DARK else 0).getbbox()
            label = document.get_page_label(at) or ""
            found.append((label.partition(".")[0], ink[3] / (box[3] - box[1]) if ink else 0.0))
    return found


def test_the_binder_is_thin_and_its_pages_are_full(example: Example) -> None:
    """170 pages, and one in twenty less than 45 % full; forms aside (all of them: `every`)."""
    found = fills(example.result.file)
    assert len(found) == example.result.pages <= MOST_PAGES
    empty = [sheet for sheet, fill in found if fill < HALF_EMPTY and sheet[0] not in FORMS]
    assert len(empty) <= MOST_HALF_EMPTY * len(found), empty


def test_the_charts_are_two_pages(example: Example) -> None:
    """All of them, and what each number asks is a third."""
    pages = {line.sheet: line.pages for line in example.result.lines if line.tab == "H"}
    assert pages["H2"] == 2
    assert pages["H12"] == 1
    assert "H5" not in pages
