"""HTML of our own, read into the tree that the printing library works on.

Its reader mends everything that may be wrong with a page of the web, letter by letter. Ours is
closed in order and has few kinds of element, so most of it can be read in one go. Whatever is
not so plain is left to the library: `body` says so, and nothing is guessed.
"""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element, SubElement

if TYPE_CHECKING:
    from collections.abc import Iterator

_PART = re.compile(
    r"""<(?P<end>/?)(?P<name>[A-Za-z][A-Za-z0-9]*)"""
    r"""(?P<given>(?:\s+[A-Za-z][\w-]*=(?:"[^"]*"|'[^']*'))*)\s*(?P<closed>/?)>|(?P<text>[^<]+)"""
)
_GIVEN = re.compile(r"""([A-Za-z][\w-]*)=(?:"([^"]*)"|'([^']*)')""")
_SVG = "{http://www.w3.org/2000/svg}"
_VOID = frozenset({"br", "img", "hr"})
_HEADS = frozenset({"h1", "h2", "h3", "h4"})
_BLOCKS = _HEADS | {
    *("div", "section", "main", "p", "ul", "ol", "table", "figure", "figcaption", "dl"),
    *("hr", "svg"),
}
_WORDS = frozenset({"span", "a", "b", "strong", "small", "em", "i", "li", "dt", "dd"})
_HTML = _VOID | _BLOCKS | _WORDS
_SECTION = frozenset({"tr"})
_ROWS = {
    "table": frozenset({"thead", "tbody", "tr"}),
    "thead": _SECTION,
    "tbody": _SECTION,
    "tr": frozenset({"td", "th"}),
}
_IN_ROWS = frozenset({"thead", "tbody", "tr", "td", "th"})
_DRAWN = frozenset(
    {
        *("g", "path", "rect", "circle", "line", "polyline", "polygon", "text", "tspan"),
        *("defs", "pattern", "title"),
    }
)
_DRAWN_GIVEN = {
    "viewbox": "viewBox",
    "patternunits": "patternUnits",
    "preserveaspectratio": "preserveAspectRatio",
    "xmlns": "{http://www.w3.org/2000/xmlns/}xmlns",
}
_MENDED = re.compile("[\r\f\0]")  # letters that HTML has read as others
_NO_SELF = frozenset({"a", "li", "dt", "dd", "p"})  # of these none stands in another


class NotPlainError(ValueError):
    """This is to be read by the library."""


def body(html: str, root: Element) -> None:
    """Read what a body holds into it.

    Raises:
        NotPlainError: something that is not as plain as this reader takes it.
    """
    after, root.text = root.text or "", None  # behind the body's end, which counts as in it
    open_: list[Element] = [root]
    names = [""]  # of the open ones; an empty one for the body and for what is implied
    at = 0
    for part in _PART.finditer(html):
        if part.start() != at:
            raise NotPlainError
        at = part.end()
        if text := part["text"]:
            _say(open_[-1], names[-1], text)
        elif part["end"]:
            _close(open_, names, part["name"])
        else:
            _open(open_, names, part)
    if at != len(html) or len(open_) > 1 or _MENDED.search(html):
        raise NotPlainError
    _say(root, "", after)


def _say(element: Element, name: str, text: str) -> None:
    """Put a text behind what an element holds so far."""
    if name in _ROWS and text.strip():
        raise NotPlainError
    said = unescape(text)
    if len(element):
        last = element[-1]
        last.tail = (last.tail or "") + said
    else:
        element.text = (element.text or "") + said


def _close(open_: list[Element], names: list[str], name: str) -> None:
    if names[-1] == _IMPLIED:
        open_.pop()
        names.pop()
    if len(names) == 1 or names[-1] != name:
        raise NotPlainError
    open_.pop()
    names.pop()


_IMPLIED = "tbody "  # a table's body that nobody wrote


def _open(open_: list[Element], names: list[str], part: re.Match[str]) -> None:
    name, closed = part["name"], bool(part["closed"])
    drawn = open_[-1].tag.startswith(_SVG)
    if drawn:
        if name not in _DRAWN or names[-1] == "title":
            raise NotPlainError
    else:
        _fits(open_, names, name)
        closed = name in _VOID or (closed and name == "svg")
        if part["closed"] and not closed:
            raise NotPlainError
    is_svg = drawn or name == "svg"
    tag = f"{_SVG}{name}" if is_svg else name
    element = SubElement(open_[-1], tag, dict(_attributes(part["given"], drawn=is_svg)))
    if not closed:
        open_.append(element)
        names.append(name)


def _fits(open_: list[Element], names: list[str], name: str) -> None:
    """See that an element may stand here as it is; a row gets the body that it stands in."""
    if name not in _HTML and name not in _IN_ROWS:
        raise NotPlainError
    if names[-1] == _IMPLIED and name != "tr":
        open_.pop()
        names.pop()
    above = names[-1].strip()
    if above in _ROWS:
        if name not in _ROWS[above]:
            raise NotPlainError
        if above == "table" and name == "tr":
            open_.append(SubElement(open_[-1], "tbody"))
            names.append(_IMPLIED)
        return
    if name in _IN_ROWS:
        raise NotPlainError
    around = names[_cell(names) :]
    if (
        ("p" in around and name in _BLOCKS)
        or (name in _NO_SELF and name in around)
        or (name in _HEADS and names[-1] in _HEADS)
    ):
        raise NotPlainError


def _cell(names: list[str]) -> int:
    """Return where the cell is that stands around, or the body."""
    for at in range(len(names) - 1, 0, -1):
        if names[at] in ("td", "th"):
            return at
        if names[at] in ("ul", "ol"):  # a list in an item may have items of its own
            return at
    return 0


def _attributes(given: str, *, drawn: bool) -> Iterator[tuple[str, str]]:
    for name, double, single in _GIVEN.findall(given):
        low = name.lower()
        yield (_DRAWN_GIVEN.get(low, low) if drawn else low), unescape(double or single)
