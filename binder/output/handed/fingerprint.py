"""What a sheet shows, as a short mark: equal marks, equal sheets on the table.

Only what meets the eye counts: words, band patterns, drawings, pictures. Where links lead, ids,
the foot and parts of class `passing` (the day of the build) do not, so that a change which
shows on no sheet makes no new revision.
"""

from __future__ import annotations

import hashlib
from html.parser import HTMLParser
from typing import TYPE_CHECKING

from binder.output.paper.sheet import body_for_paper
from binder.pages.page import PRINT

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.pages.page import Book, Foot, Page

PASSING = "passing"
_LENGTH = 16  # hexadecimal digits: chance never makes two of a farm's sheets equal
_SHOWN = frozenset({"class", "colspan", "rowspan", "style", "start"})
_VOID = frozenset({"br", "hr", "img", "col", "wbr", "input"})


def fingerprints(book: Book) -> dict[str, str]:
    """Return slug -> mark of every printed sheet."""
    return {
        page.slug: fingerprint(page, book.pictures)
        for page in book.pages
        if PRINT in page.where
    }


def fingerprint(page: Page, pictures: Mapping[str, bytes]) -> str:
    """Return the mark of one sheet."""
    return mark_of(seen(page, pictures))


def seen(page: Page, pictures: Mapping[str, bytes]) -> tuple[str, ...]:
    """Return what meets the eye on a sheet: its id, title and kind, then tags and texts."""
    eye = _Eye(pictures)
    eye.feed(body_for_paper(page))
    eye.close()
    return (page.sheet, page.title, page.kind, *eye.seen)


def mark_of(shown: Sequence[str]) -> str:
    """Return the mark of what `seen` or `foot_seen` noted."""
    text = " ".join("\n".join(shown).split(" "))
    return hashlib.sha256(text.encode()).hexdigest()[:_LENGTH]


def foot_seen(foot: Foot) -> tuple[str, ...]:
    """Return the texts of the foot that all sheets share."""
    return (foot.trouble, foot.address, *(part for call in foot.calls for part in call))


def foot_mark(foot: Foot) -> str:
    """Return the mark of the foot that all sheets share."""
    return mark_of(foot_seen(foot))


class _Eye(HTMLParser):
    """Notes what a reader would see of a body."""

    def __init__(self, pictures: Mapping[str, bytes]) -> None:
        super().__init__()
        self.pictures = pictures
        self.seen: list[str] = []
        self.drawing = 0  # how many <svg> are open
        self.passing: list[str] = []  # the open elements inside a passing part

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if self.passing or PASSING in given.get("class", "").split():
            if tag not in _VOID:
                self.passing.append(tag)
            return
        if tag == "svg":
            self.drawing += 1
        shown = {name: value for name, value in given.items() if self.drawing or name in _SHOWN}
        if "src" in given:
            name = given["src"].removeprefix("picture:")
            shown["src"] = hashlib.sha256(self.pictures.get(name, b"")).hexdigest()
        self.seen.append(f"<{tag} {sorted(shown.items())}>")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Read `<path/>` as `<path></path>`."""
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        if self.passing:
            if tag == self.passing[-1]:
                self.passing.pop()
            return
        if tag == "svg":
            self.drawing -= 1

    def handle_data(self, data: str) -> None:
        words = " ".join(data.split())
        if words and not self.passing:
            self.seen.append(words)
