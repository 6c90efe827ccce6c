"""What a reader of a page may not find: leftovers of the program, numbers nobody writes."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from binder.pages.page import Page

_BLOCKS = frozenset((
    "p", "div", "td", "th", "li", "dt", "dd", "h1", "h2", "h3", "h4", "h5", "h6", "tr",
    "table", "ul", "ol", "dl", "section", "figure", "figcaption", "caption", "text",
    "tspan", "title", "desc", "summary", "details", "header", "footer", "nav", "aside",
    "thead", "tbody", "main", "article",
))  # fmt: skip
_FILLED = frozenset(
    [
        "td",
        "th",
        "li",
        "dt",
        "dd",
        "h1",
        "h2",
        "h3",
        "h4",
        "h5",
        "h6",
        "p",
        "caption",
        "figcaption",
        "summary",
    ]
)
_SHOWS = frozenset(
    ("img", "svg", "input", "select", "textarea", "button", "canvas", "use", "hr")
)
_VOID = frozenset(("br", "hr", "img", "col", "wbr", "input", "meta", "link"))
_FAULTS = {
    "None": re.compile(r"\bNone\b(?! (?:of|here|yet|in|at|to|is|are|was|has|can))"),
    "nan": re.compile(r"\b(?:nan|NaN|inf|-inf|infinity)\b"),
    "tiny number": re.compile(r"(?<![\d.,])-?0[.,]0000+\d"),
    "negative nought": re.compile(r"(?<![\w.,–-])-0(?![\w.,:-])"),
    "power of ten": re.compile(r"\d[eE][+-]?\d{2}\b"),
    "long tail": re.compile(r"\d\.\d{6,}"),
    "huge number": re.compile(r"\d{1,3}(?:,\d{3}){4,}|\d{13,}"),
    "two dots": re.compile(r"(?<!\.)\.\.(?!\.)"),
    "doubled stop": re.compile(r"[!?…]\.(?!\d)|\.\s+\.(?!\d)"),
    "open brace": re.compile(r"\{[a-z_.]*\}|\{\{|\}\}|\{%"),
    "code": re.compile(r"\b(?:Amount|Decimal|datetime|PosixPath|Markup)\(|<[a-z]+ object at "),
    "unfilled": re.compile(r"\(\s*\)|\[\s*\]|(?<!\w)\$\{"),
}  # fmt: skip


class _Words(HTMLParser):
    """Gathers the text of each block, and the elements that hold nothing."""

    def __init__(self) -> None:
        super().__init__()
        self.blocks: list[str] = []
        self.empty: list[str] = []
        self._text: list[str] = []
        self._open: list[tuple[str, str, int]] = []  # tag, what it says of itself, signs before
        self._signs = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _BLOCKS or tag == "br":
            self._flush()
        if tag in _SHOWS:
            self._signs += 1
        if tag not in _VOID:
            shown = " ".join(f"{name}={value}" for name, value in attrs)
            self._open.append((tag, shown, self._signs))

    def handle_endtag(self, tag: str) -> None:
        if tag in _BLOCKS:
            self._flush()
        while self._open:
            name, shown, before = self._open.pop()
            blank = name in _FILLED and self._signs == before
            if blank and not any(self._is_blank_form(each) for each in self._open):
                self.empty.append(f"<{name} {shown}>")
            if name == tag:
                return

    def _is_blank_form(self, element: tuple[str, str, int]) -> bool:
        """Return whether a table is to be written in, or a chart that ends within its frame."""
        tag, shown, _ = element
        return tag == "table" and any(word in shown for word in ("log", "bands", "matrix"))

    def handle_data(self, data: str) -> None:
        self._signs += len(data.strip())
        self._text.append(data)

    def _flush(self) -> None:
        said = " ".join("".join(self._text).split())
        if said:
            self.blocks.append(said)
        self._text = []


def faults(page: Page, *, words: bool = True) -> Iterator[str]:
    """Yield what is wrong on one page: its sort and the words around it.

    Args:
        page: to read.
        words: whether the words count; where the owner wrote signs like ours they do not.
    """
    read = _Words()
    read.feed(page.body)
    read.close()
    for tag in read.empty:
        yield f"empty cell: {page.slug}: {tag}"
    for block in (page.title, *read.blocks) if words else ():
        for sort, pattern in _FAULTS.items():
            found = pattern.search(block)
            if found:
                around = block[max(0, found.start() - 50) : found.end() + 30]
                yield f"{sort}: {page.slug}: …{around}…"


def all_faults(pages: Iterable[Page], *, words: bool, but: frozenset[str]) -> list[str]:
    """Return the faults of several pages; pages of those slugs are the owner's own."""
    return [
        fault for page in pages if page.slug not in but for fault in faults(page, words=words)
    ]
