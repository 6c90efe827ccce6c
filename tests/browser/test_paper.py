"""A page printed from the browser: that page, and no further one with only whom to call."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pypdfium2
import pytest

from tests.structures import EVERY, EXTENTS

if TYPE_CHECKING:
    from playwright.sync_api import Browser, PdfMargins

    from tests.browser.conftest import Built

# What browsers leave around a page unless told otherwise: about a centimetre.
MARGIN: PdfMargins = {"top": "10mm", "bottom": "10mm", "left": "10mm", "right": "10mm"}


def printed(browser: Browser, address: str) -> list[str]:
    """Return the words of each page that the browser prints."""
    page = browser.new_page()
    try:
        page.goto(address)
        pdf = pypdfium2.PdfDocument(page.pdf(format="Letter", margin=MARGIN))
    finally:
        page.close()
    try:
        texts = [pdf[place].get_textpage().get_text_range() for place in range(len(pdf))]
    finally:
        pdf.close()
    return ["".join(text.split()) for text in texts]


@pytest.mark.slow
@EXTENTS
def test_no_printed_page_has_only_whom_to_call(
    browser: Browser, example: Built, extent: str
) -> None:
    """The numbers stand once, on the first page, before the sheet.

    `few` are the longest sheet of each kind, which turns over if any does, and the pages that
    are no sheet.
    """
    words = example.book.foot.trouble + example.book.labels["site.life"]
    trouble = "".join(words.split())
    texts, kinds = example.texts(), {page.slug: page.kind for page in example.book.pages}
    longest = {
        kinds.get(name, name): name for name in sorted(texts, key=lambda n: len(texts[n]))
    }
    for name in example.names if extent == EVERY else longest.values():
        first, *others = printed(browser, example.url(name))
        assert trouble in first, name
        assert not [text for text in others if trouble in text or not text], name


def test_a_short_sheet_is_one_page(browser: Browser, example: Built) -> None:
    """An emergency, which prints on one side in the ring binder too."""
    (page,) = printed(browser, example.url("animal-out"))
    call = example.book.foot.calls[0][1]
    assert call.replace(" ", "") in page
