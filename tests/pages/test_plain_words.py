"""Plain farm English: no sheet says what the word list in DEVELOPERS.md strikes out."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book, Page

LIST = Path(__file__).parents[2] / "DEVELOPERS.md"
NUMBERS = "N"  # workings, and sources with their own titles
SOURCES = re.compile(r'<p class="sources">.*?</p>', re.DOTALL)


def struck_out() -> list[str]:
    """Return the words of the second column."""
    table = LIST.read_text("utf-8").partition("### Words on the sheets")[2].partition("## ")[0]
    rows = [line.split("|") for line in table.splitlines() if line.startswith("| ")]
    return [word.strip() for row in rows[1:] for word in row[2].split(",") if word.strip()]


def said(page: Page) -> str:
    """Return the words of a sheet as they are read."""
    words = re.sub(r"<[^>]*>", " ", SOURCES.sub(" ", page.body))
    return " ".join(f"{page.title} {unescape(words)}".split())


def found(text: str, word: str) -> str:
    """Return where a text says a word, or nothing."""
    hit = re.search(rf"(?<![\w-]){re.escape(word)}(?!\w)", text, re.IGNORECASE)
    return text[max(0, hit.start() - 40) : hit.end() + 40] if hit else ""


def test_the_list_is_read() -> None:
    """The columns are where this test looks for them."""
    words = struck_out()
    assert {"drinker", "one in all", "nature does not read it", "and/or"} <= set(words)
    assert found("Try each drinker.", "drinker")
    assert not found("Try each waterer.", "drinker")


@pytest.mark.parametrize("farm", ["example", "least", "every kind"])
def test_no_sheet_says_it(books: Mapping[str, Book], farm: str) -> None:
    """Every sheet but the Numbers, which quote."""
    told = [
        f"{page.sheet}: {word}: {where}"
        for page in books[farm].pages
        if page.tab != NUMBERS
        for word in struck_out()
        if (where := found(said(page), word))
    ]
    assert told == []


@pytest.mark.parametrize("farm", ["example", "every kind"])
def test_our_choice_is_said_in_numbers_alone(books: Mapping[str, Book], farm: str) -> None:
    """Whoever reads a limit at a gate does not weigh where it comes from."""
    marked = [
        page.sheet
        for page in books[farm].pages
        if "sitter" in page.editions and page.tab != NUMBERS and "our choice" in said(page)
    ]
    assert marked == []


def test_young_are_counted_beside_their_mother(books: Mapping[str, Book]) -> None:
    """`1 sow, 9 piglets`, on the cover and in her pen."""
    pages = {page.slug: said(page) for page in books["example"].pages}
    assert "1 sow, 9 piglets, 1 boar" in pages["cover"]
    assert "Marigold (sow, 9 piglets)" in pages["pen-stall-1"]
