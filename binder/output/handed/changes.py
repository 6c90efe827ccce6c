"""What to change in the binders that are out: sheets to pull, to put in, to correct by pen."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from binder.output.handed.aged import only_aged, reading
from binder.output.handed.by_pen import corrections
from binder.output.handed.fingerprint import (
    fingerprint,
    fingerprints,
    foot_mark,
    foot_seen,
    seen,
)
from binder.output.handed.given import given_sheets
from binder.output.paper.sheet import CARDS, SheetAge
from binder.pages.page import Book

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.output.handed.by_pen import Pen
    from binder.output.handed.ledger import HandOver, Ledger, Revision
    from binder.pages.page import Page

WHOLE_SHARE = 0.6  # our choice: above this share of changed sheets a new binder is less work
LOG = "log"  # the kind of sheet that somebody writes on
NO_TEXTS: Mapping[str, tuple[str, ...]] = {}
# Returns the binder of the farm as it is written today, made for a day gone by; None where the
# farm cannot be made for it.
AsOf = Callable[[str], Book | None]


def no_other_day(_day: str) -> Book | None:
    """Make no binder of another day: then every difference counts."""
    return None


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
        kind: of a card or chart that hangs outside the binder, of a log that may be written
            on; empty for another sheet.
        pens: what to write into the old paper, which then stays; empty where it is pulled.
        penned: whether the old paper was corrected by pen before.
    """

    slug: str
    title: str
    pulled: str
    pulled_revision: int
    put: str
    mark: SheetAge
    kind: str = ""
    pens: tuple[Pen, ...] = ()
    penned: bool = False


@dataclass(frozen=True, slots=True)
class Changes:
    """What to do to one binder that is out.

    Attributes:
        name: who has it.
        since: the day they got it.
        edition: what they got.
        lines: the sheets to change, in binder order, gone ones last.
        whole: whether a whole new binder is less work.
        foot: whether the foot changed, which is on every sheet.
        foot_pens: what to write into every foot; empty where it did not change, or by more.
        stay: slug -> revision and day of a paper that stays though it would be printed another
            way today: the pen corrects it, or did before, or only days passed.
        unfixed_foot: whether a new foot is in no hand-over to them yet.
        fixed: the day of the hand-over that fixed it; empty for what a build finds.
        only: the sitter whose stays alone are in the binder; empty where all stays are.
    """

    name: str
    since: str
    edition: str
    lines: tuple[Change, ...]
    whole: bool
    foot: bool
    foot_pens: tuple[Pen, ...] = ()
    stay: Mapping[str, SheetAge] = field(default_factory=dict)
    unfixed_foot: bool = False
    fixed: str = ""
    only: str = ""

    @property
    def any(self) -> bool:
        """Return whether anything has to be done."""
        return bool(self.lines) or self.foot

    @property
    def sheets(self) -> tuple[Change, ...]:
        """Return the lines that pull a sheet or put one in."""
        return tuple(line for line in self.lines if not line.pens)

    @property
    def pens(self) -> tuple[Change, ...]:
        """Return the lines that are written into a sheet."""
        return tuple(line for line in self.lines if line.pens)

    @property
    def drafts(self) -> bool:
        """Return whether some of the new sheets are not fixed by a hand-over yet."""
        return any(line.mark.draft for line in self.lines)

    @property
    def file_name(self) -> str:
        """Return the name of the file that tells it."""
        return pack_name(self.name, self.fixed)


def pack_name(name: str, fixed: str = "") -> str:
    """Return the name of a change set; one that a hand-over fixed carries its day."""
    return "-".join(part for part in ("changes", file_part(name), fixed) if part) + ".pdf"


def file_part(name: str) -> str:
    """Return a name as it stands in file names: letters, digits and dashes."""
    return re.sub(r"[^\w-]+", "-", name).strip("-_")


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


def changes(
    ledger: Ledger,
    book: Book,
    name: str,
    texts: Mapping[str, tuple[str, ...]] = NO_TEXTS,
    as_of: AsOf = no_other_day,
) -> Changes | None:
    """Return what to change in the binder of `name`, or None when none is out with them.

    `texts` and `as_of` as for `changes_since`.
    """
    binder = ledger.binder_of(name)
    return None if binder is None else changes_since(ledger, book, binder, texts, as_of)


def all_changes(
    ledger: Ledger,
    book: Book,
    texts: Mapping[str, tuple[str, ...]] = NO_TEXTS,
    as_of: AsOf = no_other_day,
) -> tuple[Changes, ...]:
    """Return what to change in each binder that is out, where anything is."""
    found = (changes_since(ledger, book, binder, texts, as_of) for binder in ledger.out())
    return tuple(each for each in found if each.any)


def changes_since(
    ledger: Ledger,
    book: Book,
    binder: HandOver,
    texts: Mapping[str, tuple[str, ...]],
    as_of: AsOf = no_other_day,
) -> Changes:
    """Return what to change in one binder.

    Args:
        ledger: of the farm.
        book: what would be printed today.
        binder: what they have.
        texts: those kept beside the ledger; without them nothing is corrected by pen.
        as_of: makes the binder of another day, to see where only days passed.
    """
    now = marks(ledger, book)
    sheets = given_sheets(book, binder.edition, binder.only)
    lines = []
    left = dict(binder.paper)
    for page in sheets:
        mark, had = now[page.slug], binder.sheets.get(page.slug, 0)
        if mark.draft or mark.revision != had:
            if had and _only_days_passed(ledger.revision(page.slug, had), book, page, as_of):
                left.setdefault(page.slug, had)
                continue
            old = ledger.revision(page.slug, had).sheet if had else ""
            paper = binder.paper.get(page.slug, had)
            pens = _pens(ledger, book, binder, page, texts) if had and binder.by_pen else ()
            line = Change(page.slug, page.title, old, paper, page.sheet, mark, kind(page), pens)
            lines.append(replace(line, penned=paper != had))
    present = {page.slug for page in sheets}
    for slug, had in binder.sheets.items():
        if slug not in present:
            gone = ledger.revision(slug, had)
            paper = binder.paper.get(slug, had)
            lines.append(Change(slug, gone.title, gone.sheet, paper, "", SheetAge(), gone.kind))
    foot = binder.foot != foot_mark(book.foot)
    was = texts.get(binder.foot) if foot and binder.by_pen else None
    foot_pens = (corrections(was, foot_seen(book.foot)) or ()) if was else ()
    printed = sum(not line.pens for line in lines)
    many = printed > WHOLE_SHARE * max(1, len(binder.sheets))
    whole = many or (foot and not foot_pens)
    gone_or_new = {line.slug for line in lines if not line.pens}
    left |= {line.slug: line.pulled_revision for line in lines if line.pens}
    penned = {*binder.paper, *(line.slug for line in lines if line.pens)}
    stay = {
        slug: SheetAge(number, ledger.revision(slug, number).date, pen=slug in penned)
        for slug, number in left.items()
        if slug in present and slug not in gone_or_new
    }
    last = ledger.binder_of(binder.name)
    unfixed = foot and (last is None or last.foot == binder.foot)
    return Changes(
        binder.name,
        binder.date,
        binder.edition,
        tuple(lines),
        whole,
        foot,
        foot_pens,
        stay,
        unfixed,
        only=binder.only,
    )


def _only_days_passed(revision: Revision, book: Book, page: Page, as_of: AsOf) -> bool:
    """Return whether the farm as it is today gave this paper on its own day, and it holds."""
    then = None if revision.date == book.date else as_of(revision.date)
    if then is None:
        return False
    was = next((each for each in then.pages if each.slug == page.slug), None)
    if was is None or fingerprint(was, then.pictures) != revision.content:
        return False
    before, after = seen(was, then.pictures), seen(page, book.pictures)
    return only_aged(before, after, reading(book.labels))


def _pens(
    ledger: Ledger,
    book: Book,
    binder: HandOver,
    page: Page,
    texts: Mapping[str, tuple[str, ...]],
) -> tuple[Pen, ...]:
    """Return what to write into the paper of a sheet, nothing where it is printed anew.

    What was written into it before counts too: a paper never carries more than a sheet may.
    """
    had = binder.sheets[page.slug]
    now = seen(page, book.pictures)
    found: tuple[Pen, ...] | None = None
    for number in (binder.paper.get(page.slug, had), had):
        was = texts.get(ledger.revision(page.slug, number).content)
        if was is None or (was[0], was[2]) != (now[0], now[2]):
            return ()
        found = corrections((was[1], *was[3:]), (now[1], *now[3:]))
        if found is None:
            return ()
    return found or ()


def kind(page: Page) -> str:
    """Return the kind of what hangs outside the binder or is written on, else nothing."""
    return page.kind if page.kind in CARDS or page.kind == LOG else ""
