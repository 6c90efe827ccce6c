"""What screens keep of a sheet from one build to the next never tells of another book."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from binder import cache as cache_module
from binder.cache import Cache
from binder.output.screens.phone import phone_file
from binder.output.screens.site import files
from binder.pages.page import working_anchor
from tests.output.screens.test_site import labels

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from binder.pages.page import Book
    from tests.output.conftest import MakeBook


BODY = """<p><a class="number" href="working:day-load">3</a> Call 911 or see tab E.
<a class="sheet" href="sheet:pen-woods">P2</a> 555-0104</p>
<table class="facts"><tbody><tr><td>1</td><td>2</td></tr></tbody></table>"""


@pytest.fixture
def shown(made: MakeBook) -> Book:
    """Return the invented binder; a sheet leads to all that a sheet can lead to."""
    book = made({"water": BODY, "workings": f'<p id="{working_anchor("day-load")}">3</p>'})
    workings = {"day-load": "<h2>Load</h2><p>3</p>"}
    return replace(book, labels={**book.labels, **labels()}, workings=workings)


def _without_a_sheet(book: Book) -> Book:
    return replace(book, pages=tuple(page for page in book.pages if page.slug != "pen-woods"))


def _other_phone(book: Book) -> Book:
    calls = (("Owner", "555-0199"), *book.foot.calls[1:])
    return replace(book, foot=replace(book.foot, calls=calls))


def _other_emergency(book: Book) -> Book:
    return replace(book, labels={**book.labels, "site.emergency_number": "112"})


def _other_place(book: Book) -> Book:
    return replace(book, labels={**book.labels, "site.reading.tab_e": "pigs"})


def _other_table_word(book: Book) -> Book:
    return replace(book, labels={**book.labels, "site.table": "Another word"})


def _other_workings(book: Book) -> Book:
    return replace(book, workings={})


def _other_number(book: Book) -> Book:
    pages = tuple(
        replace(page, sheet="N7") if page.kind == "numbers" else page for page in book.pages
    )
    return replace(book, pages=pages)


@pytest.mark.parametrize(
    "change",
    [
        _without_a_sheet, _other_phone, _other_emergency, _other_place, _other_table_word,
        _other_workings, _other_number,
    ],
)  # fmt: skip
def test_a_changed_book_shows_as_without_a_cache(
    change: Callable[[Book], Book],
    shown: Book,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """All that a link depends on makes a kept sheet another one."""

    def screens(book: Book, cache: str) -> tuple[dict[str, bytes], str]:
        monkeypatch.setattr(cache_module, "texts", lambda: Cache(tmp_path / cache))
        return {name: text for name, text in files(book) if name == "water.html"}, phone_file(
            book
        )

    before = screens(shown, "warm")
    assert screens(shown, "warm") == before
    changed = change(shown)
    assert screens(changed, "warm") == screens(changed, "empty")
    assert screens(changed, "warm") != before
