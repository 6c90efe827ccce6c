"""Handing a binder over, and telling later which of its sheets to change."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from binder.output.handed import ledger_file, ledger_texts
from binder.output.handed.changes import (
    changes_since,
    file_part,
    kind,
    no_other_day,
)
from binder.output.handed.fingerprint import fingerprints, foot_mark, foot_seen, seen
from binder.output.handed.given import given_sheets, has_own_stay
from binder.output.handed.ledger import FILE, HandOver, Ledger, Revision, same_name, with_return
from binder.output.paper.sheet import CARDS
from binder.output.paper.sheet_list import LIST
from binder.pages.page import PRINT, SITTER
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping, Sequence
    from pathlib import Path

    from binder.output.handed.changes import AsOf, Changes
    from binder.pages.page import Book, Page


@dataclass(frozen=True, slots=True)
class Given:
    """A hand-over just made: the ledger with it, what changes in a binder they had before."""

    ledger: Ledger
    hand_over: HandOver
    changes: Changes | None


def hand_over(
    folder: Path,
    book: Book,
    name: str,
    date: dt.date,
    edition: str = "",
    *,
    by_pen: bool = True,
    as_of: AsOf = no_other_day,
) -> Given:
    """Fix the revision of every sheet given to `name` and write it into the farm's ledger.

    The same name on the same day is the same hand-over, mended. What is returned compares with
    the binder they had before that day. Where `by_pen`, few short values are corrected on their
    paper, now and later; else every sheet that changed is printed anew. `as_of` makes the
    binder of another day, so that a sheet stays where only days passed.

    Raises:
        ProblemsError: no usable name, or a ledger that cannot be read.
    """
    day, name = date.isoformat(), " ".join(name.split())
    with ledger_file.held(folder):
        before = ledger_file.load(folder)
        _check_name(before, name)
        kept = tuple(
            each
            for each in before.hand_overs
            if not (same_name(each.name, name) and each.date == day)
        )
        before = replace(before, hand_overs=kept)
        old = before.binder_of(name)
        own = has_own_stay(book, edition, name) or (old is not None and old.own_stays)
        own = own and edition == SITTER
        given = HandOver(name, day, edition, foot_mark(book.foot), {}, "", by_pen, {}, own)
        pages = given_sheets(book, edition, given.only)
        revisions = _revised(before, book, pages, day)
        after = replace(before, revisions=revisions)
        sheets = {page.slug: revisions[page.slug][-1].number for page in pages}
        given = replace(given, sheets=sheets)
        texts = ledger_texts.load(folder)
        told = None
        if old is not None:
            # What they had is compared with what they get now, for the edition they get now.
            then = replace(after, hand_overs=(*kept, given))
            had = replace(old, edition=edition, by_pen=by_pen, own_stays=own)
            told = replace(changes_since(then, book, had, texts, as_of), fixed=day)
            if not told.whole:
                given = _with_old_papers(given, old, told)
        after = replace(after, hand_overs=(*kept, given))
        texts |= _kept_texts(after, book)
        ledger_file.save(folder, after, _of_papers_out(after, texts))
    return Given(after, given, told)


def _kept_texts(ledger: Ledger, book: Book) -> dict[str, tuple[str, ...]]:
    """Return what the sheets of a book show by their marks, its foot too.

    Left out are lists, and what stands on no screen because it is private: keys and codes.
    """
    pages = (
        page
        for page in book.pages
        if PRINT in page.where
        and page.kind != LIST
        and (len(page.where) > 1 or page.kind in CARDS)
    )
    found = {}
    marked = fingerprints(book)
    for page in pages:
        last = ledger.last(page.slug)
        if last is not None and last.content == marked[page.slug]:
            found[last.content] = seen(page, book.pictures)
    return found | {foot_mark(book.foot): foot_seen(book.foot)}


def _with_old_papers(given: HandOver, old: HandOver, told: Changes) -> HandOver:
    """Return a hand-over in which papers that stay are told as they are."""
    penned = {line.slug for line in told.pens}
    aged = {slug: old.sheets[slug] for slug in told.stay if slug not in penned}
    paper = {slug: mark.revision for slug, mark in told.stay.items() if mark.pen}
    return replace(given, sheets={**given.sheets, **aged}, paper=paper)


@contextlib.contextmanager
def undone_if_it_fails(folder: Path, name: str) -> Iterator[None]:
    """Take the hand-over to `name` back when the block fails: no binder, no hand-over.

    Raises:
        ProblemsError: a ledger that cannot be read, or written back.
    """
    before = ledger_file.load(folder)
    try:
        yield
    except BaseException:  # also a stop by the keyboard: nothing was printed then either
        with ledger_file.held(folder):
            now = ledger_file.load(folder)
            ours = _new_ones(before, now, name)
            left = tuple(each for each in now.hand_overs if each not in ours)
            again = tuple(each for each in before.hand_overs if each not in left)
            ledger_file.save(
                folder, replace(now, hand_overs=(*again, *left) if again else left)
            )
        raise


def _new_ones(before: Ledger, now: Ledger, name: str) -> tuple[HandOver, ...]:
    """Return the hand-overs to `name` since `before`; those to others are not ours to undo."""
    return tuple(
        each
        for each in now.hand_overs
        if same_name(each.name, name) and each not in before.hand_overs
    )


def take_back(folder: Path, name: str, date: dt.date) -> Ledger:
    """Write into the farm's ledger that the binder of `name` came back.

    Raises:
        ProblemsError: nobody of that name has one, or a ledger that cannot be read.
    """
    with ledger_file.held(folder):
        after = with_return(ledger_file.load(folder), name, date.isoformat())
        ledger_file.save(folder, after)
    return after


def _revised(
    before: Ledger, book: Book, given: Sequence[Page], day: str
) -> dict[str, tuple[Revision, ...]]:
    """Return the revisions with a new one for every given sheet that differs from its last."""
    revisions = dict(before.revisions)
    content = fingerprints(book)
    for page in given:
        last = before.last(page.slug)
        if last and last.content == content[page.slug]:
            continue
        number = last.number + 1 if last else 1
        shown = content[page.slug]
        new = Revision(number, day, page.sheet, page.title, shown, kind(page))
        revisions[page.slug] = (*revisions.get(page.slug, ()), new)
    return revisions


def _of_papers_out(
    ledger: Ledger, texts: Mapping[str, tuple[str, ...]]
) -> dict[str, tuple[str, ...]]:
    """Return the texts of papers that are out; those of others nobody will ask for."""
    wanted = {binder.foot for binder in ledger.out()}
    for binder in ledger.out():
        for slug, number in (*binder.sheets.items(), *binder.paper.items()):
            wanted.add(ledger.revision(slug, number).content)
    return {mark: shown for mark, shown in texts.items() if mark in wanted}


def _check_name(ledger: Ledger, name: str) -> None:
    """Raise unless `name` makes a file name of its own.

    Raises:
        ProblemsError: empty, or too like another.
    """
    part = file_part(name)
    message = ""
    if not name.isprintable():
        message = f"{name!a} holds a sign that cannot be printed; write it like --to Dana"
    elif not part:
        message = f'"{name}" is no name; write letters, as in --to Dana'
    for other in {each.name for each in ledger.hand_overs}:
        if not same_name(other, name) and file_part(other).casefold() == part.casefold():
            message = f'"{name}" is too like "{other}", who has a binder; add a letter'
    if message:
        raise ProblemsError([Problem(Place(FILE), "", message)])
