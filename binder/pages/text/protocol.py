"""Protocols as pages: their Markdown made into the HTML of a sheet.

The only module that knows `markdown`. A protocol goes Jinja -> Markdown -> our page vocabulary
(answer box, numbered steps, see/do/call sections, cautions).
"""

from __future__ import annotations

import html as entities
import re
import sys
import xml.etree.ElementTree as ET
from functools import lru_cache
from typing import TYPE_CHECKING, Final

import markdown
from markdown.extensions import Extension
from markdown.treeprocessors import Treeprocessor

from binder.cache import kept
from binder.pages.text.programs import made_by
from binder.pages.text.rich import link_class
from binder.pages.text.stops import one_stop

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

SECTIONS: Final = {"See": "see", "Do": "do", "Call": "call"}
SIGNALS: Final = ("danger", "warning", "caution", "notice")
_ENTITY = re.compile(r"&(?:amp;)?#(\d{1,7});")
# An indented detail straight before the next step: Markdown wants an empty line between.
_LAZY = re.compile(r"(?m)^(\s{3,}\S.*)\n(?=\d+\. )")
_LEADS = ("sheet:", "working:", "tel:", "https:", "http:", "mailto:")
_HTML_SIGNS = "<>&\"'"
_FIRST_SIGN = 32  # below are controls
_SURROGATES = range(0xD800, 0xE000)  # halves of signs, none themselves (Unicode, chapter 3.8)
# Signs that no sheet shows; two of them are how `markdown` marks its own places.
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
# Both are our choice: `markdown` tries each [ against all that follows in the paragraph.
_MOST_OPEN = 200
_DEEPEST = 20  # elements inside each other
_TOO_DEEP = "nests too deep; a list inside a list is enough"


class ProtocolTextError(ValueError):
    """A protocol that cannot be made into a sheet.

    Attributes:
        words: where it is wrong, as it stands in the text; empty where that cannot be said.
    """

    def __init__(self, message: str, words: str = "") -> None:
        """Keep both."""
        self.words = words
        super().__init__(message)


def to_html(text: str, *, kind: str, signals: Mapping[str, str]) -> str:
    """Return a protocol's Markdown as the HTML of a sheet's body, below its title.

    Args:
        text: Markdown in which the farm's facts already stand.
        kind: `emergency` or `protocol`.
        signals: the printed word of each signal (`warning` -> `WARNING`).

    Raises:
        ProtocolTextError: what no sheet can show, or what takes for ever to read.
    """
    _refuse_strange(text)
    return _once(text, kind, tuple(signals.items()))


@lru_cache(maxsize=256)  # the whole library: of most sheets nothing changes between two builds
def _once(text: str, kind: str, signals: tuple[tuple[str, str], ...]) -> str:
    """Return the HTML, converted once in a run and kept for the next."""
    parts = (markdown.__version__, text, kind, *(part for signal in signals for part in signal))
    return kept(f"html {made_by()}", parts, lambda: _converted(text, kind, signals))


def _converted(text: str, kind: str, signals: tuple[tuple[str, str], ...]) -> str:
    converter = markdown.Markdown(
        extensions=["tables", "admonition", "sane_lists", _Vocabulary(kind, dict(signals))],
        output_format="html",
    )
    try:
        return one_stop(_settle(converter.convert(_LAZY.sub(r"\1\n\n", text))))
    except RecursionError as error:
        raise ProtocolTextError(_TOO_DEEP) from error


def _refuse_strange(text: str) -> None:
    """Refuse signs that no sheet shows, and paragraphs that take for ever to read.

    Raises:
        ProtocolTextError: there are some.
    """
    control = _CONTROL.search(text)
    if control:
        message = f"holds a sign that cannot be printed (U+{ord(control[0]):04X})"
        raise ProtocolTextError(message, control[0])
    for paragraph in re.split(r"\n\s*\n", text):
        if paragraph.count("[") > _MOST_OPEN:
            message = f"has more than {_MOST_OPEN} [ in one paragraph"
            raise ProtocolTextError(message, paragraph.strip().partition("\n")[0])


def _refuse_depth(root: ET.Element) -> None:
    """Refuse lists in lists without end: no paper is wide enough.

    Raises:
        ProtocolTextError: it nests too deep.
    """
    level = list(root)
    for _ in range(_DEEPEST):
        level = [below for element in level for below in element]
    if level:
        raise ProtocolTextError(_TOO_DEEP)


def plain_text(html: str) -> str:
    """Return the words of `html` for search and for measuring, one space between them."""
    without = re.sub(r"<(script|style|svg)\b.*?</\1>|<[^>]+>", " ", html, flags=re.DOTALL)
    return " ".join(entities.unescape(without).split())


def _settle(html: str) -> str:
    """Return `html` with the numeric entities of `rich.inert` turned back where harmless."""

    def turn(match: re.Match[str]) -> str:
        number = int(match[1])
        harmless = _FIRST_SIGN <= number <= sys.maxunicode and number not in _SURROGATES
        sign = chr(number) if harmless else "&"
        return f"&#{number};" if sign in _HTML_SIGNS else sign

    return _ENTITY.sub(turn, html)


class _Vocabulary(Extension):
    """Turns Markdown's plain tree into the vocabulary of `templates/sheet.css`."""

    def __init__(self, kind: str, signals: Mapping[str, str]) -> None:
        super().__init__()
        self.kind = kind
        self.signals = signals

    def extendMarkdown(self, md: markdown.Markdown) -> None:  # noqa: N802 -- markdown's own name
        """Hook our tree step in after all of markdown's own, and forbid raw HTML."""
        md.preprocessors.deregister("html_block")
        md.inlinePatterns.deregister("html")
        md.treeprocessors.register(_Shape(md, self.kind, self.signals), "vocabulary", 0)


class _Shape(Treeprocessor):
    def __init__(self, md: markdown.Markdown, kind: str, signals: Mapping[str, str]) -> None:
        super().__init__(md)
        self.kind = kind
        self.signals = signals

    def run(self, root: ET.Element) -> None:
        """Rewrite the tree in place: markdown asks for that."""
        _refuse_depth(root)
        _drop_empty_tables(root)
        for element in root.iter():
            self._shape(element)
        if self.kind == "emergency":
            _sections(root)
            return
        if len(root) and root[0].tag == "p":
            answer = ET.Element("div", {"class": "answer"})
            answer.append(root[0])
            root[0] = answer
        _parts(root)

    def _shape(self, element: ET.Element) -> None:
        classes = element.get("class", "").split()
        if element.tag == "div" and "admonition" in classes:
            self._caution(element, classes)
        elif element.tag == "ol":
            element.set("class", "steps")
            for item in element:
                _step(item)
        elif element.tag == "a":
            _link(element)
        elif element.tag == "img":
            _picture(element)
        elif element.tag == "table":
            element.set("class", "facts")
            _heads(element)

    def _caution(self, element: ET.Element, classes: Iterable[str]) -> None:
        signal = next((name for name in classes if name in SIGNALS), "notice")
        element.set("class", f"caution {signal}")
        heading = element.find("p[@class='admonition-title']")
        if heading is not None:
            heading.tag = "strong"
            heading.attrib.clear()
            heading.text = self.signals[signal]


def _link(element: ET.Element) -> None:
    """Class a link by where it leads; one that leads anywhere odd becomes plain words."""
    href = element.get("href", "")
    if href.startswith(_LEADS):
        element.set("class", link_class(href))
    else:
        element.tag = "span"
        element.attrib.clear()


def _picture(element: ET.Element) -> None:
    """Keep a picture of the farm's own; turn any other into its words."""
    if element.get("src", "").startswith("picture:") and element.get("alt"):
        return
    words = element.get("alt", "")
    element.tag = "span"
    element.attrib.clear()
    element.text = words


def _step(item: ET.Element) -> None:
    """Give a list item its action as the first paragraph and the rest as detail."""
    if (
        not len(item)
        or item[0].tag not in {"p", "ul", "ol", "div"}
        or (item.text or "").strip()
    ):
        action = ET.Element("p")
        action.text, item.text = item.text, None
        while len(item) and item[0].tag not in {"p", "ul", "ol", "div", "table"}:
            child = item[0]
            item.remove(child)
            action.append(child)
        item.insert(0, action)
    for more in list(item)[1:]:
        if more.tag == "p":
            more.set("class", "more")


def _drop_empty_tables(root: ET.Element) -> None:
    """Take away a table whose lines all fell to conditions, with a heading only for it."""
    for table in root.findall("table"):
        for body in table.iter("tbody"):
            for line in list(body):
                if not "".join(line.itertext()).strip():
                    body.remove(line)
        if any(len(body) for body in table.iter("tbody")):
            continue
        at = list(root).index(table)
        above, below = (
            root[at - 1] if at else None,
            root[at + 1] if at + 1 < len(root) else None,
        )
        root.remove(table)
        if above is not None and above.tag == "h2" and (below is None or below.tag == "h2"):
            root.remove(above)


def _heads(table: ET.Element) -> None:
    """Mark header cells: the first row heads columns, the first cell of a row heads the row."""
    for head in table.iter("th"):
        head.set("scope", "col")
    for body in table.iter("tbody"):
        for line in body:
            if len(line):
                line[0].tag = "th"
                line[0].set("scope", "row")


def _parts(root: ET.Element) -> None:
    """Gather each heading with all that follows it, so that paper can keep it together."""
    children = list(root)
    for child in children:
        root.remove(child)
    current = root
    for child in children:
        if child.tag == "h2":
            current = ET.SubElement(root, "section", {"class": "part"})
        current.append(child)


def _sections(root: ET.Element) -> None:
    """Gather what follows See, Do and Call into a section each; cautions stay beside them."""
    children = list(root)
    for child in children:
        root.remove(child)
    current = root
    heads = [child for child in children if child.tag == "h2"]
    places = (
        dict(zip(heads, SECTIONS.values(), strict=False)) if len(heads) == len(SECTIONS) else {}
    )
    for child in children:
        name = "".join(child.itertext()).strip() if child.tag == "h2" else ""
        section = SECTIONS.get(name) or places.get(child)  # another language: by their order
        if section:
            current = ET.SubElement(root, "section", {"class": section})
        if "caution" in child.get("class", ""):
            root.append(child)
        else:
            current.append(child)
