"""The search against what people would type, written before the index was looked at."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import PHONE, visit

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from tests.browser.conftest import Built, Visit

pytestmark = pytest.mark.browser

QUERIES = Path(__file__).with_name("queries.csv")
FIRST = 5  # our choice: what shows on a phone without scrolling


def queries() -> list[dict[str, str]]:
    """Return the questions, each with the sheets that answer it."""
    lines = QUERIES.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def test_every_question_finds_its_sheet(example: Built, phone: Visit) -> None:
    """150 questions and more: none finds nothing, each shows its sheet among the first five."""
    rows = queries()
    assert len(rows) >= 150
    slugs = {page.slug for page in example.book.pages}
    assert [row for row in rows if not slugs & set(row["wanted"].split())] == []
    phone.page.goto(example.url("find"))
    found = phone.page.evaluate(
        "(asked) => asked.map(one => window.findSheet(one))", [row["query"] for row in rows]
    )
    missed = {
        row["query"]: shown[:FIRST]
        for row, shown in zip(rows, found, strict=True)
        if not set(row["wanted"].split()) & set(shown[:FIRST])
    }
    assert missed == {}


def test_back_keeps_the_word(example: Built, browser: Browser) -> None:
    """From a sheet that was found, back leads to the same word and the same list."""
    with visit(browser, viewport=PHONE, has_touch=True) as visited:
        page = visited.page
        for start in (example.url("find"), f"{example.phone}#find"):
            page.goto(start)
            page.get_by_label("Find a sheet").fill("snake")
            first = page.locator("#results a").first
            title = first.inner_text()
            first.tap()
            page.wait_for_function(
                "() => !document.querySelector('#results')?.checkVisibility()"
            )
            page.go_back()
            page.wait_for_function(
                "() => document.querySelector('#results')?.checkVisibility()"
            )
            assert page.get_by_label("Find a sheet").input_value() == "snake"
            assert page.locator("#results a").first.inner_text() == title


def test_back_keeps_the_place(example: Built, browser: Browser) -> None:
    """In the phone file too, back leads to where the reader was on the page."""
    with visit(browser, viewport=PHONE, has_touch=True) as visited:
        page = visited.page
        page.goto(f"{example.phone}#what-each-band-asks")
        page.evaluate("() => window.scrollTo(0, 700)")
        page.wait_for_timeout(250)
        page.get_by_role("link", name="Pens", exact=True).first.tap()
        page.wait_for_function("() => document.title.startsWith('Pens')")
        assert page.evaluate("() => window.scrollY") == 0
        page.go_back()
        page.wait_for_function("() => window.scrollY > 600")
        assert abs(page.evaluate("() => window.scrollY") - 700) < 5
