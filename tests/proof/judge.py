"""What a binder, or a refusal, must never hold."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.pages.page import Book
    from binder.problems import Problem

# What a program leaves behind where a value is missing or was not made into words.
_LEFTOVERS = re.compile(
    r"\bNone\b(?! is | of | has )|\b(NaN|nan|-?inf|Infinity|[Uu]ndefined|NotImplemented)\b"
    r"|[{}]|%[sd]\b|\bAmount\(|\bStep\(|\bdatetime\.|<binder\.|object at 0x"
    r"|&lt;(?:class|function)"
    r"|(?<![\w-])\d+(?:\.\d+)?[eE][+-]\d+\b|\bBand\.[A-Z]|\[\]|\(\)|(?<![\w-])-0(?![\w.:-])"
)
_ATTRIBUTES = ("alt", "title", "aria-label", "href", "id")
_UNSEEN = ("style", "script")
_VOID = frozenset({"br", "hr", "img", "input", "meta", "link", "col", "wbr", "source"})
# Cells that are a pattern, lines to write on, and the owner's own tasks, which have no amount.
_MAY_BE_EMPTY = ("bands", "log", "hand-over", "tasks")
_OURS = ("content", "templates", "words", "binder")  # a farm is refused for its own mistakes
_TRACE = re.compile(
    r"Traceback|\bpydantic\b|\bError\(|object at 0x|<class|<function|\bNoneType\b"
)
# Where no line can be named: the file is not there or is no text, is no YAML, or has no lines.
_LINELESS = ("is missing", "cannot be", "is not a file", "is not named", "is larger than",
             "is empty", "is not a PNG", "measures ", "has no size", "MB large",
             "is the sheet of", "is not a farm", "is not a folder", "does not hold",
             "is a link that leads out", "holds ")  # fmt: skip


def faults_of_problems(problems: tuple[Problem, ...]) -> list[str]:
    """Return what is wrong with a refusal: it must name a place and speak in sentences."""
    found = [] if problems else ["refused without a reason"]
    for problem in problems:
        line = str(problem)
        if not problem.place.file or problem.place.file.startswith(_OURS):
            found.append(f"names no file of the farm: {line}")
        if problem.place.line < 1 and not any(word in problem.message for word in _LINELESS):
            found.append(f"names no line: {line}")
        if not problem.message.strip() or not line.isprintable():
            found.append(f"is no printable sentence: {line!r}")
        if _TRACE.search(line):
            found.append(f"speaks of the program: {line}")
    return found


def faults_of_book(book: Book, owner: Iterable[str] = (), shown: str = "") -> list[str]:
    """Return what is wrong with a composed binder.

    Args:
        book: the binder.
        owner: every text of the owner's; what looks like a leftover in them is none.
        shown: a text of the owner's that must stand on a page just as written; empty for none.
    """
    found: list[str] = []
    slugs = {page.slug for page in book.pages}
    own = sorted({_flat(text) for text in owner if _LEFTOVERS.search(text)}, key=len)[::-1]
    everything: list[str] = []
    for page in book.pages:
        reader = _read(page.body, page.kind)
        texts = [page.title, page.summary, *reader.texts]
        everything += texts
        where = f"{page.sheet} {page.slug}"
        found += [
            f"{where}: {fault}"
            for fault in reader.faults
            if not (page.owner_version and fault.startswith("an empty"))
        ]
        found += _leftovers(where, [*texts, _uncut(page.words, own)], own)
        links = [link for link in reader.links if not page.owner_version or _is_ours(link)]
        found += _links(where, links, slugs, book)
        if not page.title.strip() or not page.summary.strip():
            found.append(f"{where}: has no title or no summary")
    for key, body in book.workings.items():
        found += _leftovers(f"working {key}", _read(body, "working").texts, own)
    foot = [
        book.foot.trouble,
        book.foot.address,
        *(part for call in book.foot.calls for part in call),
    ]
    found += _leftovers("foot", foot, own)
    found += _finder(book)
    if shown and not any(_flat(shown) in text for text in map(_flat, (*everything, *foot))):
        found.append(f"the owner's text is on no page as written: {shown!r}")
    return found


def faults_of_screens(book: Book, owner: Iterable[str], hidden: str) -> list[str]:
    """Return what is wrong with what site and phone show, where that is a binder of its own.

    Args:
        book: the binder.
        owner: every text of the owner's.
        hidden: a text that may be on no screen; empty for none.
    """
    screens = book.screens or book
    found = [f"on screens: {fault}" for fault in faults_of_book(screens, owner)]
    texts = [text for page in screens.pages if page.where & {"site", "phone"} for text in (
        page.title, page.summary, page.words, page.body)]  # fmt: skip
    if hidden and any(hidden in text for text in (*texts, *screens.workings.values())):
        found.append(f"what is private shows on a screen: {hidden}")
    return found if book.screens or hidden else []


def _read(body: str, kind: str) -> _Reader:
    reader = _Reader(kind)
    reader.feed(body)
    reader.close()
    return reader


def _uncut(words: str, own: list[str]) -> str:
    """Return words for search, which may end in half a text of the owner's, without it."""
    flat = _flat(words)
    for each in own:
        cut = next((n for n in range(len(each), 0, -1) if flat.endswith(each[:n])), 0)
        if cut and _LEFTOVERS.search(each[:cut]):
            flat = flat[:-cut]
    return flat


def _flat(text: str) -> str:
    return " ".join(text.split())


def _leftovers(where: str, texts: list[str], own: list[str]) -> list[str]:
    found = []
    for text in texts:
        if not _LEFTOVERS.search(text):
            continue
        bare = _flat(text)
        for each in own:
            bare = bare.replace(each, "...").replace(each[:1].upper() + each[1:], "...")
        match = _LEFTOVERS.search(bare)
        if match:
            around = bare[max(0, match.start() - 60) : match.end() + 40]
            found.append(f"{where}: {match[0]!r} in ...{around}...")
    return found


def _is_ours(link: str) -> bool:
    """Return whether a link on a sheet of the owner's is none that the owner wrote."""
    return not link.startswith("sheet:")


def _links(where: str, links: list[str], slugs: set[str], book: Book) -> list[str]:
    found = []
    for link in links:
        scheme, _, target = link.partition(":")
        known = {"sheet": slugs, "working": set(book.workings), "picture": set(book.pictures)}
        if scheme == "sheet":
            # A working's key holds the name of an animal, and that may hold a `#`.
            target = target.partition("#")[0]
        if scheme in known and target not in known[scheme]:
            found.append(f"{where}: link {link} leads nowhere")
    return found


def _finder(book: Book) -> list[str]:
    try:
        json.dumps(dict(book.finder), allow_nan=False)
    except (TypeError, ValueError) as error:
        return [f"finder: {error}"]
    return []


class _Reader(HTMLParser):
    """Gathers the text a reader sees, the links, and cells with nothing in them."""

    def __init__(self, kind: str) -> None:
        super().__init__(convert_charrefs=True)
        self.kind = kind
        self.texts: list[str] = []
        self.links: list[str] = []
        self.faults: list[str] = []
        self._open: list[tuple[str, str]] = []
        self._cell = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Open an element."""
        given = {key: value or "" for key, value in attrs}
        if tag in _UNSEEN:
            self.faults.append(f"holds a <{tag}> element")
        self.texts += [given[key] for key in _ATTRIBUTES if given.get(key)]
        self.links += [given[key] for key in ("href", "src") if key in given]
        if any(key.startswith("on") for key in given):
            self.faults.append(f"<{tag}> carries a script")
        if tag in {"td", "th", "dd", "li", "h1", "h2"}:
            self._cell = ""
        if tag in {"img", "svg", "input"} or "tick" in given.get("class", "").split():
            self._cell += "picture"
        if tag not in _VOID:
            self._open.append((tag, given.get("class", "")))

    def handle_endtag(self, tag: str) -> None:
        """Close an element; an empty cell is a fault where a value belongs."""
        if tag in {"td", "th", "dd", "li", "h1", "h2"} and not self._cell.strip():
            classes = " ".join(name for _, name in self._open)
            if not any(word in f"{classes} {self.kind}" for word in _MAY_BE_EMPTY):
                self.faults.append(f"an empty <{tag}> in {classes!r}")
        while self._open and self._open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        """Keep text."""
        if data.strip():
            self.texts.append(data)
            self._cell += data
