"""Two short emergencies on one page, where both are short enough to be read so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.pages.page import Page
from binder.pages.text.protocol import plain_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

# Our choice: the first are those of heat and water, where one page each is found and read
# fastest; of the others two stand on a page if neither has more letters than a half holds.
ALONE = 12
_MOST_LETTERS = 1900
_LINE = 44  # letters of a line in a half


def paired(pages: Sequence[Page]) -> tuple[Page, ...]:
    """Return emergencies in their order, neighbours together where both are short."""
    return tuple(_pairs(pages))


def leads(pages: Sequence[Page]) -> Mapping[str, str]:
    """Return, for each emergency that stands on another's page, that page's slug."""
    return {
        second.slug: first.slug for first, second in _neighbours(pages) if second is not None
    }


def _pairs(pages: Sequence[Page]) -> Iterator[Page]:
    for first, second in _neighbours(pages):
        yield first if second is None else _together(first, second)


def _neighbours(pages: Sequence[Page]) -> Iterator[tuple[Page, Page | None]]:
    waiting = list(pages)
    while waiting:
        first = waiting.pop(0)
        if int(first.sheet[1:]) > ALONE and waiting and _short(first) and _short(waiting[0]):
            yield first, waiting.pop(0)
        else:
            yield first, None


def _short(page: Page) -> bool:
    return length(page) <= _MOST_LETTERS


def length(page: Page) -> int:
    """Return about how many letters a page takes in a half: its words, and its lines' ends."""
    steps = page.body.count("<li>") + page.body.count("<p")
    return len(plain_text(page.body)) + steps * _LINE // 2


def _together(first: Page, second: Page) -> Page:
    half = Markup('<div class="half">{}</div>')
    bodies = (Markup(page.body) for page in (first, second))  # noqa: S704 -- pages are HTML
    body = Markup('<div class="halves">{}</div>').format(
        Markup("").join(half.format(one) for one in bodies)
    )
    return Page(
        slug=first.slug,
        sheet=f"{first.sheet} {second.sheet}",
        tab=first.tab,
        title=f"{first.title} · {second.title}",
        body=str(body),
        summary=f"{first.summary} {second.summary}",
        kind="pack emergency pair",
        claims=(*first.claims, *second.claims),
    )
