"""The index behind search as you type: a line a sheet, built in, asked of nobody."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.output.screens.finder_form import as_script
from binder.output.screens.frame import EMERGENCY_TAB
from binder.output.screens.screen import NUMBERS

if TYPE_CHECKING:
    from binder.output.screens.screen import Screen
    from binder.pages.page import Page

_MOST_WORDS = 120  # a sheet: our choice, keeps the index small on a farm of hundreds of pens


def index_script(screen: Screen) -> str:
    """Return the index as a script that only sets two values.

    A line a sheet: slug, title, other words, 1 for an emergency; and how people ask.
    """
    lines = [
        [
            page.slug,
            f"{page.sheet} {page.title}",
            _words(screen, page),
            int(page.tab == EMERGENCY_TAB),
        ]
        for page in screen.pages
    ]
    ways = screen.book.ways_to_ask or {"dropped": [], "synonyms": []}
    return f"window.binderSheets={as_script(lines)};\nwindow.binderSearch={as_script(ways)};\n"


def _words(screen: Screen, page: Page) -> str:
    """Return the words that lead to a sheet besides its title, each once."""
    headings = () if page.kind == NUMBERS else screen.bodies[page.slug].headings
    text = " ".join((page.summary, page.words, *headings)).casefold()
    return " ".join(list(dict.fromkeys(text.split()))[:_MOST_WORDS])
