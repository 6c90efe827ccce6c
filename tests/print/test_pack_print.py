"""The example's July pack on paper: how many pages, one page each, how small the type."""

from __future__ import annotations

import datetime as dt
import html
import io
import re
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pikepdf
import pypdfium2
import pytest

from binder import packs
from binder.build import checked
from binder.output.print import PrintOptions, render_papers
from tests.print.conftest import EXAMPLE

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from binder.pages.page import Paper
    from tests.conftest import Once

DAY = dt.date(2026, 7, 5)
MOST_PAGES = 45  # as the pack was asked for
SMALLEST_PT = 9.5  # the same; the foot of every sheet has 9
FOOT_PT = 50.0  # from the edge of the paper up to the line above the foot, and a little
FOOT_SIZE_PT = 9.0


@dataclass(frozen=True)
class Printed:
    """The papers of the July stay, and their files by name."""

    papers: tuple[Paper, ...]
    files: dict[str, bytes]

    def pages(self, name: str) -> Iterator[tuple[str, pypdfium2.PdfPage]]:
        """Yield each page of a file with its label."""
        document = pypdfium2.PdfDocument(self.files[name])
        for at, page in enumerate(document):
            yield document.get_page_label(at), page


@pytest.fixture(scope="session")
def july(once: Once) -> Printed:
    """Return the papers of the example's July stay, printed."""
    return once("july-papers", _printed)


def _printed(_folder: Path) -> Printed:
    owner, farm = checked(EXAMPLE, DAY)
    papers = packs.named(owner, farm, DAY, "july")
    drawn = render_papers(papers, PrintOptions())
    return Printed(papers, {name: pdf for name, (pdf, _) in drawn.items()})


STAMP = "/FileNumber"  # the page of the file, put on in points
PX = 0.75  # [pt]: all else is drawn in CSS pixels, 1/96 in


def sizes(pdf: bytes) -> list[tuple[str, set[float]]]:
    """Return the sizes of type that each page of a file uses [pt], by its label."""
    labels = pypdfium2.PdfDocument(pdf)
    with pikepdf.open(io.BytesIO(pdf)) as file:
        return [
            (
                labels.get_page_label(at),
                {
                    round(float(each.operands[1]) * (1 if each.operands[0] == STAMP else PX), 2)
                    for each in pikepdf.parse_content_stream(page)
                    if str(each.operator) == "Tf"
                },
            )
            for at, page in enumerate(file.pages)
        ]


def joined(text: str) -> str:
    """Return text without the hyphens inside words: one at the end of a line may be either."""
    return re.sub(r"(?<=\w)-(?=\w)", "", text)


def test_it_has_at_most_forty_five_pages(july: Printed) -> None:
    """A short book: the sitter's binder had 186."""
    assert 30 < len(list(july.pages("stay-july.pdf"))) <= MOST_PAGES


def test_visits_pens_and_emergencies_have_one_page_each(july: Printed) -> None:
    """Only the numbers and the log have two."""
    pages = Counter(label.partition(".")[0] for label, _ in july.pages("stay-july.pdf"))
    assert {label: count for label, count in pages.items() if count > 1} == {"H20": 2, "L10": 2}


def test_no_word_is_lost_or_hidden(july: Printed) -> None:
    """Every word of a sheet stands above the foot of its pages: none runs off or under it."""
    (pack,) = [one for one in july.papers if one.stem == "stay-july"]
    drawn: dict[str, Counter[str]] = {}
    for label, page in july.pages("stay-july.pdf"):
        width, height = page.get_size()
        text = page.get_textpage().get_text_bounded(0, FOOT_PT, width, height)
        whole = joined(re.sub(r"[\ufffe\xad\x02]\s*", "", text))
        found = drawn.setdefault(label.partition(".")[0], Counter())
        found += Counter(re.findall(r"[A-Za-z]{3,}", whole))
    for sheet in pack.book.pages:
        body = re.sub(r'<svg.*?</svg>|<p class="eyebrow">.*?</p>|<h2>(See|Do|Call)</h2>', " ",
                      sheet.body, flags=re.DOTALL)  # fmt: skip
        words = Counter(
            re.findall(r"[A-Za-z]{3,}", joined(html.unescape(re.sub(r"<[^>]+>", " ", body))))
        )
        assert words - drawn[sheet.sheet] == Counter(), sheet.sheet


def test_type_is_large_enough(july: Printed) -> None:
    """Tightened to fit one page, never below 9.5 pt; a drawing has letters of its own."""
    for label, found in sizes(july.files["stay-july.pdf"]):
        if label != "A6":  # the map
            assert {size for size in found if size < SMALLEST_PT} <= {FOOT_SIZE_PT}, label


def test_the_pocket_is_two_leaves(july: Printed) -> None:
    """Both sides of two leaves: four pages, whatever stands on them."""
    assert len(list(july.pages("pocket-july.pdf"))) == 4


def test_the_pocket_can_be_read(july: Printed) -> None:
    """Nothing in it is smaller than 9 pt, as it was asked for."""
    for label, found in sizes(july.files["pocket-july.pdf"]):
        assert min(found) >= 9.0, label
