"""A sheet read once and laid out several times, no further than it is of use."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import weasyprint
from weasyprint import html, layout
from weasyprint.css import cssselect2

from binder.output.paper.quick.matching import Rules, fewer_rules, found_on
from binder.output.paper.quick.reading import NotPlainError, body

if TYPE_CHECKING:
    from collections.abc import Iterator

_make_all_pages = layout.make_all_pages
_MARGIN_BOX = re.compile("@((?:top|bottom|left|right)-[a-z-]+)")
_COUNTERS = re.compile(r"@counter-style[^{]*\{[^}]*\}")
# The library asks for these even where nothing stands in them.
_ALWAYS = frozenset({"footnote", "note-area"})


class TooLongError(Exception):
    """The sheet takes more pages than it may."""


class Sheet(weasyprint.HTML):  # type: ignore[misc] # the library ships no types
    """One sheet's HTML, with the rules that can hold on it.

    Attributes:
        own_style: every text in which its pages may be styled.
        reads_itself: whether what a body holds is read by `reading`, where it is plain.
    """

    own_style = ""
    reads_itself = False
    _most = 0
    _has: frozenset[str] = frozenset()

    def __init__(self, html: str, **more: Any) -> None:
        """Read the sheet; `more` as the library takes it."""
        start, end = html.find(">", html.find("<body")) + 1, html.rfind("</body>")
        if self.reads_itself and 0 < start <= end:
            super().__init__(string=html[:start] + html[end:], **more)
            root = self.etree_element.find("body")
            try:
                body(html[start:end], root)
            except NotPlainError:
                pass
            else:
                return
        super().__init__(string=html, **more)

    def begin(self, step: str, most: int) -> None:
        """Make ready to be laid out, with one more class, on so many pages; 0 for any."""
        root = self.etree_element
        self._classes = getattr(self, "_classes", root.get("class", ""))
        root.set("class", f"{step} {self._classes}".strip())
        # What was asked of the elements before is remembered in what wraps them.
        self.wrapper_element = cssselect2.ElementWrapper.from_html_root(root)
        self._most, self._has = most, found_on(root)

    def held(self, style: Any) -> Any:
        """Return a style without the rules that cannot hold here."""
        return fewer_rules(style, self._has)

    def _ua_stylesheets(self, *_: Any) -> list[Any]:
        named = _ALWAYS | frozenset(_MARGIN_BOX.findall(self.own_style))
        return [fewer_rules(_browser_style(), self._has, named)]


@lru_cache(maxsize=1)
def _browser_style() -> Any:
    """Return the library's style for plain HTML; its ways to count are read already."""
    return weasyprint.CSS(string=_COUNTERS.sub("", html.UA), matcher=Rules())


def _as_many_as_may_be(context: Any, root_box: Any, source: Any, pages: Any) -> Iterator[Any]:
    """Yield the laid out pages, and stop where there is one too many to come."""
    most = getattr(source, "_most", 0)
    for number, page in enumerate(_make_all_pages(context, root_box, source, pages), 1):
        if number == most and context.page_maker[number][0] is not None:
            raise TooLongError
        yield page


def install() -> None:
    """Use it."""
    Sheet.reads_itself = True
    layout.make_all_pages = _as_many_as_may_be
