"""Handing a binder over, and telling later which of its sheets to change."""

from __future__ import annotations

import contextlib
import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from binder.output import ledger_file
from binder.output.fingerprint import fingerprints, foot_mark
from binder.output.ledger import FILE, HandOver, Ledger, Revision, same_name, with_return
from binder.output.sheet import CARDS, SheetAge
from binder.output.sheet_list import LIST
from binder.pages.page import PRINT
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from binder.pages.page import Book, Page

WHOLE_SHARE = 0.6  # our choice: above this share of changed sheets a new binder is less work


@dataclass(frozen=True, slots=True)
class Change:
    """One sheet to change: what to pull and what to put in; either may be empty.

    Attributes:
        slug: of the sheet.
        title: as it is now, or was.
        pulled: sheet id on the old paper, and its revision; empty and 0 for a new sheet.
        pulled_revision: see `pulled`.
        put: sheet id on the new paper; empty where the sheet is gone.
        mark: what the new paper's foot says.
        kind: of a card or chart that hangs outside the binder; empty for a sheet in it.
    """

    slug: str
    title: str
    pulled: str
    pulled_revision: int
    put: str
    mark: SheetAge
    kind: str = ""


@dataclass(frozen=True, slots=True)
class Changes:
    """What to do to one binder that is out.

    Attributes:
        name: who has it.
        since: the day they got it.
        edition: what they got.
        lines: the sheets to change, in binder order, gone ones last.
        whole: whether a whole new binder is less work.
        foot: whether the foot changed, which is on every sheet (then `whole` too).
    """

    name: str
    since: str
    edition: str
    lines: tuple[Change, ...]
    whole: bool
    foot: bool

    @property
    def any(self) -> bool:
        """Return whether anything has to be done."""
        return bool(self.lines) or self.foot

    @property
    def drafts(self) -> bool:
        """Return whether some of the new sheets are not fixed by a hand-over yet."""
        return any(line.mark.draft for line in self.lines)

    @property
    def file_name(self) -> str:
        """Return the name of the file that tells it."""
        return f"changes-{file_part(self.name)}.pdf"


@dataclass(frozen=True, slots=True)
class Given:
    """A hand-over just made: the ledger with it, what changes in a binder they had before."""

    ledger: Ledger
    hand_over: HandOver
    changes: Changes | None


def file_part(name: str) -> str:
    """Return a name as it stands in file names: letters, digits and dashes."""
    return re.sub(r"[^\w-]+", "-", name).strip("-_")


def given_sheets(book: Book, edition: str) -> list[Page]:
    """Return what is handed over for an edition (empty: all), what hangs outside it last."""
    pages = [page for page in for_edition(book.pages, edition) if page.kind != LIST]
    return sorted(pages, key=lambda page: page.kind in CARDS)


def for_edition(pages: Sequence[Page], edition: str) -> list[Page]:
    """Return the pages that are printed for an edition, cards and list too."""
    return [
        page
        for page in pages
        if PRINT in page.where and (not edition or edition in page.editions)
    ]


def marks(ledger: Ledger, book: Book) -> dict[str, SheetAge]:
    """Return what each sheet's foot says of its age; nothing before the first hand-over."""
    if not ledger.hand_overs:
        return {}
    return {
        slug: _mark(ledger, slug, content, book) for slug, content in fingerprints(book).items()
    }


def _mark(ledger: Ledger, slug: str, content: str, book: Book) -> SheetAge:
    last = ledger.last(slug)
    if last is None:
        return SheetAge(0, book.date, draft=True)
    if last.content == content:
        return SheetAge(last.number, last.date)
    return SheetAge(last.number, book.date, draft=True)


def changes(ledger: Ledger, book: Book, name: str) -> Changes | None:
    """Return what to change in the binder of `name`, or None when none is out with them."""
    binder = ledger.binder_of(name)
    return None if binder is None else _changes_since(ledger, book, binder)


def all_changes(ledger: Ledger, book: Book) -> tuple[Changes, ...]:
    """Return what to change in each binder that is out, where anything is."""
    found = (_changes_since(ledger, book, binder) for binder in ledger.out())
    return tuple(each for each in found if each.any)


def _changes_since(ledger: Ledger, book: Book, binder: HandOver) -> Changes:
    now = marks(ledger, book)
    sheets = given_sheets(book, binder.edition)
    lines = []
    for page in sheets:
        mark, had = now[page.slug], binder.sheets.get(page.slug, 0)
        if mark.draft or mark.revision != had:
            old = ledger.revision(page.slug, had).sheet if had else ""
            change = Change(page.slug, page.title, old, had, page.sheet, mark, _kind(page))
            lines.append(change)
    present = {page.slug for page in sheets}
    for slug, had in binder.sheets.items():
        if slug not in present:
            old_sheet = ledger.revision(slug, had)
            gone = Change(slug, old_sheet.title, old_sheet.sheet, had, "", SheetAge())
            lines.append(replace(gone, kind=old_sheet.kind))
    foot = binder.foot != foot_mark(book.foot)
    whole = foot or len(lines) > WHOLE_SHARE * max(1, len(binder.sheets))
    return Changes(binder.name, binder.date, binder.edition, tuple(lines), whole, foot)


def hand_over(folder: Path, book: Book, name: str, date: dt.date, edition: str = "") -> Given:
    """Fix the revision of every sheet given to `name` and write it into the farm's ledger.

    The same name on the same day is the same hand-over, mended. What is returned compares with
    the binder they had before that day.

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
        given = HandOver(name, day, edition, foot_mark(book.foot), sheets)
        old = before.binder_of(name)
        told = None
        if old is not None:
            # What they had is compared with what they get now, for the edition they get now.
            seen = replace(after, hand_overs=(*kept, given))
            told = _changes_since(seen, book, replace(old, edition=edition))
        after = replace(after, hand_overs=(*kept, given))
        ledger_file.save(folder, after)
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
        new = Revision(number, day, page.sheet, page.title, shown, _kind(page))
        revisions[page.slug] = (*revisions.get(page.slug, ()), new)
    return revisions


def _kind(page: Page) -> str:
    """Return the kind of what hangs outside the binder, empty for a sheet in it."""
    return page.kind if page.kind in CARDS else ""


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
