"""The HTML of a page as a tree of elements and texts, for those who change what is in it.

What nobody changes is written as it was read, sign by sign. It is our own HTML, so what is not
closed in order is a mistake of the program and not mended.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from html import unescape
from html.parser import HTMLParser
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

VOID = frozenset({"br", "hr", "img", "col", "wbr", "input"})  # of HTML's, those that we write


@dataclass(slots=True, eq=False)
class Element:
    """One element.

    Attributes:
        name: of its tag, as written: `clipPath`.
        start: its start tag as written, `<a class="sheet" href="sheet:hoses">`.
        given: its attributes, entities turned into what they stand for.
        children: elements, and texts as written.
        is_open: whether it has an end tag.
    """

    name: str
    start: str
    given: dict[str, str] = field(default_factory=dict)
    children: list[Element | str] = field(default_factory=list)
    is_open: bool = True

    @property
    def classes(self) -> frozenset[str]:
        """Return its classes."""
        return frozenset(self.given.get("class", "").split())

    def all(self, *names: str) -> Iterator[Element]:
        """Yield the elements of these names below it, in their order."""
        for child in self.elements:
            if child.name in names:
                yield child
            yield from child.all(*names)

    @property
    def everything(self) -> Iterator[Element]:
        """Yield every element below it."""
        for child in self.elements:
            yield child
            yield from child.everything

    @property
    def elements(self) -> list[Element]:
        """Return the elements right below it."""
        return [child for child in self.children if isinstance(child, Element)]

    @property
    def html(self) -> str:
        """Return it as HTML."""
        parts: list[str] = []
        _write(self, parts)
        return "".join(parts)

    @property
    def inner(self) -> str:
        """Return what it holds as HTML."""
        return written(self.children)

    @property
    def words(self) -> str:
        """Return its words, one space between two; a tag parts words."""
        return unescape(self.escaped)

    @property
    def escaped(self) -> str:
        """Return its words as HTML has them."""
        parts: list[str] = []
        _say(self, parts)
        return " ".join(" ".join(parts).split())

    def first(self, attribute: str) -> None:
        """Write an attribute before the others, `role="row"`."""
        self.start = f"<{self.name} {attribute}{self.start[len(self.name) + 1 :]}"

    def last(self, attribute: str) -> None:
        """Write an attribute behind the others."""
        self.start = f"{self.start[:-1]} {attribute}>"

    def become(self, name: str, start: str) -> None:
        """Turn it into another element that holds the same."""
        self.name, self.start = name, start


Node = Element | str


def read(html: str) -> Element:
    """Return the tree of a page's HTML, in an element without a name.

    Raises:
        ValueError: an element is not closed, or another is closed before it.
    """
    reader = _Reader()
    reader.feed(html)
    reader.close()
    if len(reader.open) > 1:
        message = f"{reader.open[-1].start} is not closed"
        raise ValueError(message)
    return reader.open[0]


def written(nodes: Iterable[Node]) -> str:
    """Return nodes as HTML."""
    parts: list[str] = []
    for node in nodes:
        _write(node, parts)
    return "".join(parts)


def _write(node: Node, parts: list[str]) -> None:
    if isinstance(node, str):
        parts.append(node)
        return
    parts.append(node.start)
    for child in node.children:
        _write(child, parts)
    if node.is_open and node.name:
        parts.append(f"</{node.name}>")


def _say(node: Node, parts: list[str]) -> None:
    if isinstance(node, str):
        parts.append(node)
        return
    for child in node.children:
        _say(child, parts)


class _Reader(HTMLParser):
    """Builds the tree; texts keep their entities."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.open = [Element("", "")]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = self._begun(tag, attrs)
        if tag in VOID:
            element.is_open = False
        else:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._begun(tag, attrs).is_open = False

    def _begun(self, tag: str, attrs: list[tuple[str, str | None]]) -> Element:
        start = self.get_starttag_text() or ""
        given = {name: value or "" for name, value in attrs}
        element = Element(start[1 : len(tag) + 1], start, given)
        self.open[-1].children.append(element)
        return element

    def handle_endtag(self, tag: str) -> None:
        closed = self.open.pop()
        if closed.name.lower() != tag:
            message = f"{closed.start or 'nothing'} is open where </{tag}> stands"
            raise ValueError(message)

    def handle_data(self, data: str) -> None:
        children = self.open[-1].children
        if children and isinstance(children[-1], str):
            children[-1] += data
        else:
            children.append(data)

    def handle_entityref(self, name: str) -> None:
        self.handle_data(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self.handle_data(f"&#{name};")

    def handle_comment(self, data: str) -> None:
        self.handle_data(f"<!--{data}-->")
