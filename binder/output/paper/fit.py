"""Brings a sheet onto fewer pages where a little less room or smaller type does it.

Space is tightened first, then type made smaller, within limits that the style sheet states
(`print.css`, "to fit"). A sheet is laid out again only where the words on it could fit.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

# Class of the page -> about how much of the room its words take then, measured on the example
# farm's sheets. Large print keeps its letters: only its space may go.
STEPS = {"snug": 0.95, "small": 0.86, "smaller": 0.76, "smallest": 0.57}
MOST = 6  # pages of a sheet that is worth it: our choice
TRIES = 2  # our choice
STEPS_LARGE = {"snug": 0.92}
_LARGE = ' class="large '
# What is written into keeps its room; workings are as tight as they may be already.
_AS_THEY_ARE = (' log"', ' numbers"')
_PACK = " pack "
STEPS_PACK = {"snug": 0.96}  # they are tight already
_POCKET = ' pocket"'
STEPS_POCKET = {"snug": 0.84}  # to letters of 9 pt
_HEAD = 200  # the root and its class stand in so many letters
# Words cannot be parted at will, so a guess may be wrong by this much of a page: our choice.
_DOUBT = 0.06


def fitted(html: str, lay_out: Callable[[str, int], Any]) -> Any:
    """Return the layout of a sheet on the fewest pages, as little changed as does that.

    A layout takes longer than the drawing, so few are tried, and none for long sheets.

    Args:
        html: the sheet; a class of its root says how tight it is.
        lay_out: lays the sheet out with one more class and returns the document of the printing
            library, or None where it takes more pages than the second argument; 0 for any.
    """
    first = lay_out("", 0)
    if len(first.pages) == 1 or len(first.pages) > MOST or _as_it_is(html):
        return first
    words = sum(_used(page) for page in first.pages)
    steps = _steps(html[:_HEAD])
    fewest = _pages(words, min(steps.values()))
    for most in range(max(1, fewest), len(first.pages)):
        hopeful = [step for step, share in steps.items() if _pages(words, share) <= most]
        # A guess may be a step too mild; the last step tells whether any does it.
        for step in dict.fromkeys((*hopeful[:TRIES], *hopeful[-1:])):
            if (tried := lay_out(step, most)) is not None:
                return tried
    return first


def _pages(words: float, share: float) -> int:
    """Return how many pages words may take that filled so many, at a step's share of room."""
    return math.ceil(words * share - _DOUBT)


def _as_it_is(html: str) -> bool:
    return any(kind in html[:_HEAD] for kind in _AS_THEY_ARE)


def _steps(head: str) -> dict[str, float]:
    """Return how a sheet may be tightened, by the class of its root."""
    if _POCKET in head:
        return STEPS_POCKET
    if _PACK in head:
        return STEPS_PACK
    return STEPS_LARGE if _LARGE in head else STEPS


def _used(page: Any) -> float:
    """Return how much of a page's height has something on it, 0 to 1."""
    box = page._page_box  # the library has no other way to tell
    top, height = float(box.content_box_y()), float(box.height)
    body = next(child for child in box.children if type(child).__name__ != "MarginBox")
    lowest = max((bottom for bottom in _bottoms(body)), default=top)
    return min(1.0, (lowest - top) / height)


_INKED = frozenset({"LineBox", "TableCellBox", "BlockReplacedBox", "InlineReplacedBox"})


def _bottoms(box: Any) -> Iterator[float]:
    """Yield where lines, cells and pictures below a box end [px]."""
    if type(box).__name__ in _INKED:
        yield box.position_y + box.margin_height()
    else:
        for child in getattr(box, "children", ()):
            yield from _bottoms(child)
