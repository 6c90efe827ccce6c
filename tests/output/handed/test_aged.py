"""Sheets that only grew older stay; those whose counts or words changed do not."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from binder import yamlfile
from binder.data import CONTENT
from binder.output.handed import ledger_file, ledger_texts
from binder.output.handed.aged import only_aged, reading
from binder.output.handed.changes import all_changes, changes
from binder.output.handed.fingerprint import seen
from binder.output.handed.hand_over import hand_over
from binder.pages.page import Page

if TYPE_CHECKING:
    from pathlib import Path

    from binder.pages.page import Book

MAY, JUNE = dt.date(2026, 5, 1), dt.date(2026, 6, 1)
WORDS = reading(
    {
        "print.aged.months": "May|June",
        "print.aged.units": "gal|lb|scoops|sq ft|min",
        "print.aged.noon": "am|pm",
    }
)


def aged(old: str, new: str) -> bool:
    """Return whether a sheet with one body only grew into another."""
    was, now = (seen(Page("p", "P1", "P", "Pen", body), {}) for body in (old, new))
    return only_aged(was, now, WORDS)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("<p>Amounts as of 31 May.</p>", "<p>Amounts as of 7 June.</p>"),
        ("<p>8.7 lb = 4 1/4 scoops</p>", "<p>7 lb = 3 1/2 scoops</p>"),
        ("<p>288 gal (1,090 L)</p>", "<p>289 gal (1,090 L)</p>"),
        ("<p>out from 7 pm.</p>", "<p>out from 7:05 pm.</p>"),
        ("<p>out from 11:55 pm</p>", "<p>out from 12:05 am</p>"),
        (
            "<table><tr><th>When<tr><td>28 May<td>haul<tr><td>2 June<td>wean</table>",
            "<table><tr><th>When<tr><td>2 June<td>wean</table>",
        ),
    ],
)
def test_what_days_do_changes_no_sheet(old: str, new: str) -> None:
    """Dates, rows that are past, a little more feed, a sunset a little later."""
    assert aged(old, new)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("<p>See all 10 stand</p>", "<p>See all 9 stand</p>"),
        ("<p>8 growers</p>", "<p>8 finishers</p>"),
        ("<p>6 lb</p>", "<p>9 lb</p>"),
        ("<p>1/2 scoops</p>", "<p>3/4 scoops</p>"),
        ("<p>out from 7 pm.</p>", "<p>out from 7:20 pm.</p>"),
        ("<p>out from 7 pm.</p>", "<p>out from 7 am.</p>"),
        ("<ul><li>water<li>feed</ul>", "<ul><li>water</ul>"),
        ("<ul><li>water</ul>", "<ul><li>water<li>feed on 2 June</ul>"),
    ],
)
def test_what_a_sitter_would_do_wrong_is_replaced(old: str, new: str) -> None:
    """A count, a class, an amount or a time that moved far, a line that came or went."""
    assert not aged(old, new)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("<p>Be back in 3 hours</p>", "<p>Be back in 2 hours</p>"),
        ("<p>Look every 40 min</p>", "<p>Look every 30 min</p>"),
        ("<p>The lamp keeps 90°F</p>", "<p>The lamp keeps 85°F</p>"),
        ("<p>bleach of 7.5 %</p>", "<p>bleach of 6 %</p>"),
    ],
)
def test_what_does_not_grow_may_not_drift(old: str, new: str) -> None:
    """Three hours to be back are not two, as 16 gal are 18; the content says which."""
    words = yamlfile.read(CONTENT / "words" / "en" / "print.yaml").data
    units = yamlfile.value_at(words, ("print", "aged", "units"))
    assert isinstance(units, str)
    labels = {
        "print.aged.units": units,
        "print.aged.months": "June",
        "print.aged.noon": "am|pm",
    }
    was, now = (seen(Page("p", "P1", "P", "Pen", body), {}) for body in (old, new))
    assert not only_aged(was, now, reading(labels))
    less, more = (seen(Page("p", "P1", "P", "Pen", f"<p>{n} gal</p>"), {}) for n in (16, 18))
    assert only_aged(less, more, reading(labels))


def older(book: Book, old: str, new: str) -> Book:
    """Return the book with other words on the creek's pen, made for June."""
    pages = tuple(
        replace(page, body=page.body.replace(old, new)) if page.slug == "pen-creek" else page
        for page in book.pages
    )
    return replace(book, pages=pages, date=JUNE.isoformat())


def test_nothing_to_do_when_only_days_passed(tmp_path: Path, book: Book) -> None:
    """The farm as it is today gave the old paper on its day: the paper stays."""
    then = replace(book, date=MAY.isoformat())
    hand_over(tmp_path, then, "Dana", MAY)
    ledger, texts = ledger_file.load(tmp_path), ledger_texts.load(tmp_path)
    labels = {"print.aged.months": "June", "print.aged.noon": "am|pm", "print.aged.units": "lb"}
    now = older(replace(book, labels={**book.labels, **labels}), "420 lb", "431 lb")
    assert all_changes(ledger, now, texts, lambda _day: then) == ()
    assert all_changes(ledger, now, texts, lambda _day: None), "no such day, no such mercy"
    assert all_changes(ledger, now, texts, lambda _day: now), "the farm itself changed"
    given = hand_over(tmp_path, now, "Dana", JUNE, as_of=lambda _day: then)
    assert given.changes is not None
    assert not given.changes.any
    assert given.hand_over.sheets["pen-creek"] == 1, "the ledger knows that the paper stayed"
    later = changes(ledger_file.load(tmp_path), older(book, "420 lb", "790 lb"), "Dana")
    assert later is not None
    assert [line.pulled_revision for line in later.lines] == [1]
