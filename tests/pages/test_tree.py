"""The tree that a page's HTML is read into: nothing is lost, and nothing is guessed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder.pages.text.tree import read

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book


def test_every_page_is_written_as_it_was_read(books: Mapping[str, Book]) -> None:
    """Sign by sign: links and pictures, charts, tables, entities, and the workings."""
    for book in books.values():
        bodies = (page.body for page in book.pages)
        for body in (*bodies, *book.workings.values()):
            assert read(body).html == body


@pytest.mark.parametrize(
    "html",
    [
        "a &amp; b &#39;c&#39; &nbsp;&#x2019;",
        '<svg viewBox="0 0 1 1"><clipPath id="c"><rect/></clipPath></svg>',
        '<p title=\'a "b"\'>x<br>y</p><!-- z --><img src="picture:a.png" alt>',
    ],
)
def test_what_nobody_changes_stays(html: str) -> None:
    """Entities, letters of names, signs round values."""
    assert read(html).html == html


def test_words_are_those_that_are_read() -> None:
    """Tags part words, entities are what they stand for."""
    tree = read("<h2>Feed<br>&amp; <b>water</b></h2><p>x</p>")
    assert next(tree.all("h2")).words == "Feed & water"
    assert [element.name for element in tree.everything] == ["h2", "br", "b", "p"]


def test_attributes_are_written_before_and_behind() -> None:
    """Those that stand already stay as they are."""
    cell = next(read('<td class="a">x</td>').all("td"))
    cell.first('role="cell"')
    cell.last('data-label="b"')
    assert cell.html == '<td role="cell" class="a" data-label="b">x</td>'
    cell.become("th", "<th>")
    assert cell.html == "<th>x</th>"


@pytest.mark.parametrize("html", ["<p><b>x</p></b>", "<p>", "x</p>", "<table><tr></table>"])
def test_what_is_not_closed_in_order_is_our_mistake(html: str) -> None:
    """Browsers would mend it, each in its own way."""
    with pytest.raises(ValueError, match=r"is not closed|is open where"):
        read(html)
