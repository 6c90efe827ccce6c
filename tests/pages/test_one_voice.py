"""What one sheet says no other contradicts: claims of all sheets, of the site and the finder.

A claim names its subject, quantity and condition; two claims of one thing have one value. That
each claim is printed is tested too, so that none is about something else than the reader sees.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.proof import one_voice

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book


@pytest.mark.parametrize("farm", ["example", "least", "every kind"])
def test_no_two_sheets_disagree(books: Mapping[str, Book], farm: str) -> None:
    """Of the example, of the least farm and of one that has every kind."""
    assert one_voice.disagreements(books[farm]) == []
