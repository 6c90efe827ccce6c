"""The example farm's binder: every sheet keeps to its paper and can be read aloud."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest

if TYPE_CHECKING:
    from tests.print.conftest import Example

pytestmark = pytest.mark.slow

POINTS_PER_MM = 72 / 25.4
GLANCE = {"cover", "ground", "asking"}
STAMP_PT = 33  # below this the page of the file stands, in its box beside the foot
OUTER_MM, EDGE_MM = 17.0, 12.0  # print.css: the outer margin, and the tab index in it


def test_each_emergency_is_one_page(example: Example) -> None:
    """Nobody turns a page with a pig down in front of them."""
    pages = {line.sheet: line.pages for line in example.result.lines if line.tab == "E"}
    assert len(pages) == sum(page.tab == "E" for page in example.book.pages)
    assert set(pages.values()) == {1}, pages


def test_what_is_taken_in_at_a_glance_is_one_page(example: Example) -> None:
    """The cover, the map, and what each number asks are not torn in two."""
    glance = {page.slug for page in example.book.pages if page.kind in GLANCE}
    pages = {line.sheet: line.pages for line in example.result.lines if line.slug in glance}
    assert len(pages) == len(glance) == len(GLANCE)
    assert set(pages.values()) == {1}, pages


def test_nothing_runs_off_the_text_area(example: Example) -> None:
    """No letter stands in the outer margin, but for the tab index and the page of the file."""
    strays = []
    with pdfium.PdfDocument(example.result.file) as document:
        for at, page in enumerate(document, start=1):
            text = page.get_textpage()
            limit = page.get_width() - OUTER_MM * POINTS_PER_MM + 1
            edge = page.get_width() - EDGE_MM * POINTS_PER_MM - 1
            for index in range(text.count_chars()):
                left, _, right, top = text.get_charbox(index)
                if top < STAMP_PT and text.get_text_range(index, 1).isdigit():
                    continue
                if text.get_text_range(index, 1).strip() and right > limit and left < edge:
                    strays.append((at, text.get_text_range(index, 12)))
                    break
    assert strays == []


@pytest.mark.parametrize("name", ["binder.pdf", "cards.pdf"])
def test_outside_checker_finds_no_error(example: Example, name: str) -> None:
    """`pdfua check` has nothing to say of what is printed."""
    path = example.result.file.parent / name
    command = [sys.executable, "-m", "pdfua", "check", str(path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout


def test_private_words_stay_out_of_other_editions(example: Example) -> None:
    """Every sheet of the keys tab is for paper only."""
    keys = [page for page in example.book.pages if page.tab == "K"]
    assert keys
    assert all(page.where == frozenset({"print"}) for page in keys)
