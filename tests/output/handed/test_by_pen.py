"""Corrections by pen: what they offer, and that they make the old paper say what is new."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.output.handed import ledger_file, ledger_texts
from binder.output.handed.by_pen import Pen, corrected, corrections, shown
from binder.output.handed.changes import all_changes, changes
from binder.output.handed.fingerprint import foot_seen, seen
from binder.output.handed.hand_over import hand_over
from binder.output.handed.pen_words import LONGEST
from binder.pages.page import Page

if TYPE_CHECKING:
    from pathlib import Path

    from binder.output.handed.changes import Changes
    from binder.pages.page import Book

MAY, JUNE, JULY = dt.date(2026, 5, 1), dt.date(2026, 6, 1), dt.date(2026, 7, 1)
ROWS = (("Poppy", "6 1/4 scoops", "2 gal"), ("Fern", "6 1/4 scoops", "3 gal"))


def table(rows: tuple[tuple[str, ...], ...], lead: str = "Feed early and late.") -> list[str]:
    """Return a sheet with one table as `seen` notes it."""
    html = "".join(
        f'<tr><th scope="row">{row[0]}</th>' + "".join(f"<td>{cell}</td>" for cell in row[1:])
        for row in rows
    )
    page = Page("p", "P1", "P", "Pen", f"<h1>Pen</h1><p>{lead}</p><table>{html}</table>")
    return list(seen(page, {}))


def test_one_amount_is_one_line() -> None:
    """The value in its row, old and new."""
    new = (ROWS[0], ("Fern", "6 scoops", "3 gal"))
    assert corrections(table(ROWS), table(new)) == (Pen("6 1/4 scoops", "6 scoops", "Fern"),)


def test_nothing_to_write_where_nothing_changed() -> None:
    """Equal sheets need no pen."""
    assert corrections(table(ROWS), table(ROWS)) == ()


def test_a_row_that_goes_is_crossed_out() -> None:
    """Rows alike but for the name are told apart."""
    pens = corrections(table(ROWS), table(ROWS[:1]))
    assert pens == (Pen("Fern · 6 1/4 scoops · 3 gal", ""),)


def test_a_name_everywhere_is_one_value() -> None:
    """One new name in several places is one line, with how often it stands."""
    old = (("Creek paddock", "trough"), ("Woods", "from Creek paddock"))
    new = (("Brook paddock", "trough"), ("Woods", "from Brook paddock"))
    assert corrections(table(old), table(new)) == (Pen("Creek", "Brook", places=2),)


def test_five_values_are_printed_anew() -> None:
    """Four are written in, each in its row; more are easily slipped."""
    old = (*ROWS, ("Olive", "2 scoops", "5 gal"))
    new = (("Poppy", "7 scoops", "1 gal"), ("Fern", "8 scoops", "4 gal"), old[2])
    pens = corrections(table(old), table(new))
    assert pens is not None
    assert {(pen.row, pen.old, pen.new) for pen in pens} == {
        ("Poppy", "6 1/4 scoops", "7 scoops"),
        ("Poppy", "2 gal", "1 gal"),
        ("Fern", "6 1/4 scoops", "8 scoops"),
        ("Fern", "3 gal", "4 gal"),
    }
    more = (*new[:2], ("Olive", "9 scoops", "5 gal"))
    assert corrections(table(old), table(more)) is None


BRACKETS = [
    ("Water: 16 gal (61 L) a day, more in heat", "Water: 22 gal (83 L) a day, more in heat"),
    (
        "On hot days they drink 16 gal (61 L) a day",
        "On hot days they drink 16 gal (62 L) a day",
    ),
    (
        "All day long the sow (old and lame) stays in here",
        "All day long the sow (big and lame) stays in here",
    ),
    (
        "Who: 4 goats (the Does), Juniper (a goat), dog",
        "Who: 4 goats (the Does), Bramble (a goat), dog",
    ),
]


@pytest.mark.parametrize(("old", "new"), BRACKETS)
def test_a_value_does_not_end_inside_a_bracket(old: str, new: str) -> None:
    """`16 gal (61 L)`, never `16 gal (61`: who writes it in should not look for the rest."""
    pens = corrections(table(ROWS, old), table(ROWS, new))
    assert pens
    for pen in pens:
        for said in (pen.old, pen.new):
            assert said.count("(") == said.count(")"), said


def test_where_a_link_leads_is_not_written() -> None:
    """A sheet that is named now and was not is a word on paper, not a link."""
    old = table(ROWS, "Pens on this chart: none.")
    new = table(ROWS, 'Pens on this chart: <a class="sheet" href="sheet:p7">P7</a>')
    assert corrections(old, new) == (Pen("none.", "P7"),)


@pytest.mark.parametrize(
    "new",
    [
        (*ROWS, ("Juniper", "1 scoop", "2 gal")),
        (ROWS[0], ("Fern", "x" * (LONGEST + 1), "3 gal")),
        (ROWS[0], ("Fern", "6 1/4 scoops")),
    ],
)
def test_what_no_pen_does_is_printed_anew(new: tuple[tuple[str, ...], ...]) -> None:
    """A new row, a long text, a cell that is gone."""
    assert corrections(table(ROWS), table(new)) is None


def test_the_same_number_elsewhere_is_left_alone() -> None:
    """The number of a warning is not the number of scoops: the row tells which."""
    old, new = (("Poppy", "2"), ("Fern", "2")), (("Poppy", "2"), ("Fern", "3"))
    pens = corrections(table(old), table(new))
    assert pens == (Pen("2", "3", "Fern"),)
    assert corrected(table(old), pens) == shown(table(new))


WORDS = st.sampled_from(["2", "3", "6 1/4", "gal", "Fern", "of", "Creek paddock", ""])
TEXT = st.lists(WORDS, min_size=1, max_size=4).map(" ".join)
SHEETS = st.lists(st.tuples(TEXT, TEXT, TEXT), min_size=1, max_size=4).map(tuple)


@given(SHEETS, SHEETS, TEXT, TEXT)
def test_the_pen_makes_the_old_sheet_the_new_one(
    old: tuple[tuple[str, ...], ...], new: tuple[tuple[str, ...], ...], lead: str, other: str
) -> None:
    """Whatever changes: either it is printed anew, or writing it in gives the new sheet."""
    was, now = table(old, lead), table(new, other)
    pens = corrections(was, now)
    if pens is not None:
        assert corrected(was, pens) == shown(now)


def sow(book: Book, *weights: str, kind: str | None = None) -> Book:
    """Return the book with other words on the creek's pen, a pair at a time."""
    pages = []
    for page in book.pages:
        body = page.body
        if page.slug == "pen-creek":
            for old, new in zip(weights[::2], weights[1::2], strict=True):
                assert old in body
                body = body.replace(old, new)
            pages.append(replace(page, body=body, kind=kind or page.kind))
        else:
            pages.append(page)
    return replace(book, pages=tuple(pages))


def found(folder: Path, book: Book) -> Changes | None:
    """Return what to change in Dana's binder."""
    return changes(ledger_file.load(folder), book, "Dana", ledger_texts.load(folder))


def test_a_pen_stands_in_place_of_a_reprint(tmp_path: Path, book: Book) -> None:
    """The owner may choose a reprint; the ledger knows what he chose."""
    hand_over(tmp_path, book, "Dana", MAY)
    heavier = sow(book, "420 lb", "431 lb")
    told = found(tmp_path, heavier)
    assert told is not None
    assert [line.put for line in told.pens] == ["P1"]
    assert not told.sheets
    hand_over(tmp_path, book, "Dana", MAY, by_pen=False)
    told = found(tmp_path, heavier)
    assert told is not None
    assert [line.put for line in told.sheets] == ["P1"]


def test_the_ledger_knows_what_the_paper_says(tmp_path: Path, book: Book) -> None:
    """After a pen the binder is up to date, and the next reprint pulls the old paper."""
    hand_over(tmp_path, book, "Dana", MAY)
    heavier = sow(book, "420 lb", "431 lb")
    given = hand_over(tmp_path, heavier, "Dana", JUNE).hand_over
    assert (given.sheets["pen-creek"], given.paper) == (2, {"pen-creek": 1})
    assert not all_changes(ledger_file.load(tmp_path), heavier, ledger_texts.load(tmp_path))
    again = hand_over(tmp_path, sow(book, "420 lb", "440 lb"), "Dana", JULY)
    assert again.changes is not None
    assert [line.pulled_revision for line in again.changes.pens] == [1], "a pen over a pen"
    assert again.changes.stay["pen-creek"].pen
    told = found(tmp_path, sow(book, "420 lb", "440 lb", kind="other"))
    assert told is not None
    (line,) = told.sheets
    assert (line.pulled_revision, line.penned) == (1, True)


def test_a_lost_or_spoiled_text_only_costs_paper(tmp_path: Path, book: Book) -> None:
    """Without the text of the old sheet it is printed anew."""
    hand_over(tmp_path, book, "Dana", MAY)
    path = tmp_path / ledger_texts.FILE
    for spoiled in (b"", b"no gzip", path.read_bytes()[:-20]):
        path.write_bytes(spoiled)
        told = found(tmp_path, sow(book, "420 lb", "431 lb"))
        assert told is not None
        assert [line.put for line in told.sheets] == ["P1"]


def test_codes_are_not_kept(tmp_path: Path, book: Book) -> None:
    """What stands on no screen stands in no text beside the ledger."""
    hand_over(tmp_path, book, "Dana", MAY)
    codes = next(page for page in book.pages if page.slug == "gate-codes")
    kept = ledger_texts.load(tmp_path)
    assert kept
    assert seen(codes, book.pictures) not in kept.values()


def test_a_phone_in_every_foot_is_one_line(tmp_path: Path, book: Book) -> None:
    """No whole new binder for one number."""
    hand_over(tmp_path, book, "Dana", MAY)
    (who, phone), *rest = book.foot.calls
    foot = replace(book.foot, calls=((who, phone[:-2] + "99"), *rest))
    told = found(tmp_path, replace(book, foot=foot))
    assert told is not None
    assert not told.whole
    assert corrected(foot_seen(book.foot), told.foot_pens) == shown(foot_seen(foot))
    given = hand_over(tmp_path, replace(book, foot=foot), "Dana", JUNE)
    assert given.changes is not None
    assert given.changes.foot_pens == told.foot_pens
    assert found(tmp_path, replace(book, foot=foot)) is not None
    assert not all_changes(ledger_file.load(tmp_path), replace(book, foot=foot))
