"""Handing a binder over, and telling later which of its sheets to change."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from binder.output import ledger_file, ledger_texts
from binder.output.changes import (
    changes_since,
    file_part,
    for_edition,
    given_sheets,
    kept_texts,
    kind,
)
from binder.output.fingerprint import fingerprints, foot_mark
from binder.output.ledger import FILE, HandOver, Ledger, Revision, same_name, with_return
from binder.output.sheet_list import LIST
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from binder.output.changes import Changes
    from binder.pages.page import Book


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
) -> Given:
    """Fix the revision of every sheet given to `name` and write it into the farm's ledger.

    The same name on the same day is the same hand-over, mended. What is returned compares with
    the binder they had before that day. Where `by_pen`, few short values are corrected on their
    paper, now and later; else every sheet that changed is printed anew.

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
        revisions = _revised(before, book, edition, day)
        after = replace(before, revisions=revisions)
        sheets = {
            page.slug: revisions[page.slug][-1].number for page in given_sheets(book, edition)
        }
        given = HandOver(name, day, edition, foot_mark(book.foot), sheets, by_pen=by_pen)
        old = before.binder_of(name)
        texts = ledger_texts.load(folder)
        told = None
        if old is not None:
            # What they had is compared with what they get now, for the edition they get now.
            seen = replace(after, hand_overs=(*kept, given))
            had = replace(old, edition=edition, by_pen=by_pen)
            told = replace(changes_since(seen, book, had, texts), fixed=day)
            if not told.whole:
                paper = {slug: mark.revision for slug, mark in told.by_pen.items()}
                given = replace(given, paper=paper)
        after = replace(after, hand_overs=(*kept, given))
        texts |= kept_texts(after, book)
        ledger_file.save(folder, after, _of_papers_out(after, texts))
    return Given(after, given, told)


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
    before: Ledger, book: Book, edition: str, day: str
) -> dict[str, tuple[Revision, ...]]:
    """Return the revisions with a new one for every given sheet that differs from its last."""
    revisions = dict(before.revisions)
    content = fingerprints(book)
    for page in for_edition(book.pages, edition):
        last = before.last(page.slug)
        if page.kind == LIST or (last and last.content == content[page.slug]):
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
