"""The index behind search as you type: a line a sheet, built in, asked of nobody."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from binder.output.finder_form import as_script
from binder.output.frame import EMERGENCY_TAB
from binder.output.screen import plain

if TYPE_CHECKING:
    from binder.output.screen import Screen
    from binder.pages.page import Page

_HEADING = re.compile(r"<h[23]\b[^>]*>(.*?)</h[23]>", re.DOTALL)
_MOST_WORDS = 120  # a sheet: our choice, keeps the index small on a farm of hundreds of pens


def index_script(screen: Screen) -> str:
    """Return the index as a script that only sets two values.

    A line a sheet: slug, title, other words, 1 for an emergency; and how people ask.
    """
    lines = [
        [page.slug, f"{page.sheet} {page.title}", _words(page), int(page.tab == EMERGENCY_TAB)]
        for page in screen.pages
    ]
    ways = screen.book.ways_to_ask or {"dropped": [], "synonyms": []}
    return f"window.binderSheets={as_script(lines)};\nwindow.binderSearch={as_script(ways)};\n"


def _words(page: Page) -> str:
    """Return the words that lead to a sheet besides its title, each once."""
    headings = " ".join(_HEADING.findall(page.body)) if page.kind != "numbers" else ""
    text = plain(f"{page.summary} {page.words} {headings}").casefold()
    return " ".join(list(dict.fromkeys(text.split()))[:_MOST_WORDS])
