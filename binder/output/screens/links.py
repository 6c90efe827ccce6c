"""The links in a sheet's body, made into those of a screen.

Pages write `sheet:SLUG`, `working:KEY` and `picture:NAME`; a screen says where these are. A
link to what it does not show becomes plain text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html import escape
from typing import TYPE_CHECKING

from binder.output.screens.tables import movable
from binder.pages.text.tree import Element

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from binder.pages.text.tree import Node

_PICTURE, _SHEET, _WORKING = "picture:", "sheet:", "working:"
_MOVED = frozenset({"timeline", "map"})  # drawings that are wider than a phone
# As printed on US poison and safety lines: the protocols name them in running text.
_TOLL_FREE = re.compile(r"(?<![\w-])1-8\d\d-\d{3}-\d{4}(?![\w-])")
# Inside these no text is turned into a link: links, controls and drawings.
_QUIET = frozenset({"a", "button", "svg", "title"})
# A number to call in an emergency is short: no amount, and not the name of an address.
_NO_AMOUNT = r"(?![\w-])(?!\.\d)(?!\s*(?:address|lb|gal|kg|g|L|ft|in|W|A|min|h|%)\b)"
_NUMBER = re.compile(r"\+?[0-9(][0-9 ().-]*")
_NAMES_AN_ID = ("aria-labelledby", "aria-describedby", "for", "href", "xlink:href")


@dataclass(frozen=True, slots=True)
class Links:
    """Where things are on one screen.

    Attributes:
        sheet: gives the address of a sheet by its slug, empty where it is not shown.
        picture: gives the address of a picture by its name.
        workings: key -> HTML of each number's working.
        numbers: gives the address of a working in the Numbers tab and the id of its sheet, both
            empty without one.
        table: what to call a table that moves sideways.
        phones: every phone number of the book, as it is shown.
        emergency: the number to call where life is in danger, empty without one.
        places: addresses of places that running text names, such as `tab E`.
    """

    sheet: Callable[[str], str]
    picture: Callable[[str], str]
    workings: Mapping[str, str]
    numbers: Callable[[str], tuple[str, str]]
    table: str
    phones: frozenset[str] = frozenset()
    emergency: str = ""
    places: Mapping[str, str] = field(default_factory=dict)

    @property
    def named(self) -> re.Pattern[str]:
        """Return what finds, in running text, all that leads somewhere."""
        parts = [_TOLL_FREE.pattern]
        parts += [
            rf"(?<![\w-]){re.escape(one)}(?![\w-])"
            for one in sorted(self.phones, key=len)[::-1]
        ]
        if self.emergency:
            parts.append(rf"(?<![\w.,$-]){re.escape(self.emergency)}{_NO_AMOUNT}")
        parts += [rf"\b{re.escape(name)}\b" for name in self.places]
        return re.compile("|".join(parts))


def working_id(key: str) -> str:
    """Return the id of the box that shows a working; two keys never share one."""
    return "of-" + "".join(
        sign if sign.isalnum() and sign.isascii() else f"_{ord(sign):x}_" for sign in key
    )


def resolve(tree: Element, links: Links) -> tuple[str, ...]:
    """Change a body so that all its links lead somewhere; return the workings it shows."""
    keys: dict[str, None] = {}
    if not any(tree.all("h2")):  # no level of headings may be left out on the way down
        for heading in tree.all("h3"):
            heading.become("h2", '<h2 class="minor">')
    _settle(tree, _Resolving(links, links.named, keys), quiet=False)
    return tuple(keys)


@dataclass(frozen=True, slots=True)
class _Resolving:
    """What the elements of a body are changed by; `keys` fills with the workings shown."""

    links: Links
    named: re.Pattern[str]
    keys: dict[str, None]


def _settle(parent: Element, by: _Resolving, *, quiet: bool) -> None:
    """Change what an element holds; `quiet` where no text in it may become a link."""
    nodes: list[Node] = []
    for child in parent.children:
        if isinstance(child, str):
            nodes += [child] if quiet else _led(child, by)
            continue
        for node in _changed(child, by):
            if isinstance(node, Element):
                _settle(node, by, quiet=quiet or node.name in _QUIET)
                nodes.append(movable(node, by.links.table) if node.name == "table" else node)
            else:
                nodes.append(node)
    parent.children = nodes


def _changed(element: Element, by: _Resolving) -> list[Node]:
    """Return what stands in place of an element, before what it holds is changed."""
    href = element.given.get("href", "")
    if element.name == "a" and href.startswith(_SHEET):
        return [_sheet(element, href, by)]
    if element.name == "a" and href.startswith(_WORKING):
        return _working(element, href.removeprefix(_WORKING), by)
    if element.given.get("src", "").startswith(_PICTURE):
        _picture(element, by)
    elif element.start == "<span>":
        return [_phrase(element, by)]
    elif (
        element.name == "th" and element.given == {"scope": "row"} and not element.inner.strip()
    ):
        return [Element("td", "<td>")]
    elif element.name == "figure" and element.classes == {"drawing"}:
        drawn = element.children[0] if element.children else ""
        if isinstance(drawn, Element) and drawn.given.get("class") in _MOVED:
            element.start = _scrolled("figure", "drawing scroll", by.links.table)
    return [element]


def _scrolled(name: str, classes: str, label: str) -> str:
    """Return the start of what moves sideways, and can be reached by key to do so."""
    return f'<{name} class="{classes}" tabindex="0" role="group" aria-label="{label}">'


def _sheet(element: Element, href: str, by: _Resolving) -> Element:
    address = by.links.sheet(href.removeprefix(_SHEET).partition("#")[0])
    if address:
        element.start = f'<a class="sheet" href="{escape(address)}">'
    else:
        element.become("span", '<span class="sheet">')
    return element


def _phrase(span: Element, by: _Resolving) -> Element:
    """Return what goes wrong at a pen with its sheet as one link: the whole phrase leads there.

    It is a `span` without a class that ends with the link; any other stays.
    """
    *before, link = span.children or [""]
    words = before[0] if len(before) == 1 else ""
    if isinstance(link, str) or isinstance(words, Element) or len(before) > 1:
        return span
    if not link.given.get("href", "").startswith(_SHEET):
        return span
    if (link := _sheet(link, link.given["href"], by)).name != "a":
        return span
    link.start = link.start.replace('class="sheet"', 'class="sheet phrase"', 1)
    link.children.insert(0, words)
    return link


def _working(element: Element, key: str, by: _Resolving) -> list[Node]:
    """Return a number that opens its working, and the link for browsers without pop-ups."""
    if key not in by.links.workings:
        element.become("span", '<span class="number">')
        return [element]
    by.keys[key] = None
    start = f'<button type="button" class="number" popovertarget="{working_id(key)}">'
    element.become("button", start)
    address, sheet = by.links.numbers(key)
    if not address:
        return [element]
    more = Element("a", f'<a class="at" href="{escape(address)}">')
    more.children.append(escape(sheet))
    return [element, more]


def _picture(element: Element, by: _Resolving) -> None:
    before, _, rest = element.start.partition(f'src="{_PICTURE}')
    after = rest.partition('"')[2]
    address = escape(by.links.picture(element.given["src"].removeprefix(_PICTURE)))
    element.start = f'{before}loading="lazy" src="{address}"{after}'


def _led(text: str, by: _Resolving) -> Iterator[Node]:
    """Yield a text in which every phone number can be dialled and every named place tapped."""
    done = 0
    for found in by.named.finditer(text):
        yield text[done : found.start()]
        done = found.end()
        address = by.links.places.get(found[0])
        start = f'<a class="sheet" href="{escape(address)}">' if address else _dial(found[0])
        yield Element("a", start, children=[found[0]])
    yield text[done:]


def _dial(number: str) -> str:
    """Return the start of a link that dials a number."""
    head = _NUMBER.match(number)  # an extension behind it is said, not dialled
    digits = "".join(sign for sign in head[0] if sign.isdigit() or sign == "+") if head else ""
    return f'<a class="phone" href="tel:{digits}">'


def apart(tree: Element, prefix: str) -> None:
    """Change a body so that its ids cannot meet those of other sheets in the same file."""
    ids = {one.given["id"] for one in tree.everything if "id" in one.given}
    if not ids:
        return
    for element in tree.everything:
        for name, value in element.given.items():
            named = value.removeprefix("#") if name in _NAMES_AN_ID else ""
            if name == "id" or named in ids:
                own = value.replace(named or value, f"{prefix}--{named or value}")
                element.start = element.start.replace(f'{name}="{value}"', f'{name}="{own}"', 1)
            elif "url(#" in value:
                drawn = value.partition("url(#")[2].partition(")")[0]
                if drawn in ids:
                    there = f"url(#{prefix}--{drawn})"
                    element.start = element.start.replace(f"url(#{drawn})", there)
