"""Few pages that have among them every structure that all pages have.

What a checker of pages looks at is how elements stand in each other and what style they get.
Where a hundred pages are made of the same blocks, those few show all there is to see; the rest
is left to `sh script/proof`, which looks at every page.
"""

from __future__ import annotations

from dataclasses import replace
from html.parser import HTMLParser
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from binder.pages.page import Book

ONE_SIDE = frozenset({"emergency", "cover", "chart"})  # kinds of sheet that must fit one side
FEW, EVERY = "few", "every"
EXTENTS = pytest.mark.parametrize("extent", [FEW, pytest.param(EVERY, marks=pytest.mark.every)])
_VOID = frozenset({"br", "hr", "img", "input", "meta", "link", "col", "wbr", "source"})


class _Elements(HTMLParser):
    """Notes each kind of element, with the kind of element it stands in."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.above = [""]
        self.kinds: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        classes = ".".join(sorted((named.get("class") or "").split()))
        more = " ".join(sorted(name for name in named if name not in ("class", "id")))
        kind = f"{tag}.{classes}[{more}]"
        self.kinds.add(f"{self.above[-1]} > {kind}")
        if tag not in _VOID:
            self.above.append(kind)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.above.pop()

    def handle_endtag(self, tag: str) -> None:
        while len(self.above) > 1:
            if self.above.pop().partition(".")[0] == tag:
                return


def structures(html: str) -> frozenset[str]:
    """Return each kind of element of a page: tag, classes, attributes, what it stands in."""
    reader = _Elements()
    reader.feed(html)
    reader.close()
    return frozenset(reader.kinds)


def cover(pages: Mapping[str, str], always: Iterable[str] = ()) -> tuple[str, ...]:
    """Return the names of few pages, and short ones, that have all structures of `pages`.

    Args:
        pages: name -> HTML.
        always: names that are among them in any case.
    """
    found = {name: structures(html) for name, html in pages.items()}
    chosen = list(dict.fromkeys(always))
    missing = frozenset().union(*found.values()).difference(*(found[name] for name in chosen))
    while missing:
        best = max(
            sorted(found), key=lambda name: len(found[name] & missing) / len(pages[name])
        )
        chosen.append(best)
        missing -= found[best]
    return tuple(chosen)


def few_of(book: Book, always: Iterable[str] = ONE_SIDE) -> Book:
    """Return a binder with few of its sheets: all of some kinds, those of each structure."""
    bodies = {page.slug: page.body for page in book.pages}
    kinds = set(always)
    wanted = cover(bodies, [page.slug for page in book.pages if page.kind in kinds])
    return replace(book, pages=tuple(page for page in book.pages if page.slug in wanted))
