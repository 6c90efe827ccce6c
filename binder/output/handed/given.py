"""Which sheets somebody is given: those of their edition, and of the stays only their own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.output.handed.ledger import same_name
from binder.output.paper.sheet import CARDS
from binder.output.paper.sheet_list import LIST
from binder.pages.page import PRINT, SITTER

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.pages.page import Book, Page


def given_sheets(book: Book, edition: str, only: str = "") -> list[Page]:
    """Return what is handed over for an edition (empty: all), what hangs outside it last.

    `only` as for `for_edition`.
    """
    pages = [page for page in for_edition(book.pages, edition, only) if page.kind != LIST]
    return sorted(pages, key=lambda page: page.kind in CARDS)


def for_edition(pages: Sequence[Page], edition: str, only: str = "") -> list[Page]:
    """Return the pages that are printed for an edition, cards and list too.

    `only` is the sitter whose stays alone are printed; empty prints the sheets of all stays.
    """
    return [
        page
        for page in pages
        if PRINT in page.where
        and (not edition or edition in page.editions)
        and (not only or not page.reader or same_name(page.reader, only))
    ]


def has_own_stay(book: Book, edition: str, name: str) -> bool:
    """Return whether a stay is that of `name`: then a sitter's binder needs no other stay's."""
    return edition == SITTER and any(
        same_name(page.reader, name) for page in book.pages if page.reader
    )
