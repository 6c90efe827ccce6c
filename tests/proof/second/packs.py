"""Change packs: a binder less what is pulled, with what is put in, is the new binder.

Sheet by sheet, for random edits: what is written in by pen makes the old sheet say what a new
one says, and where only days passed nothing else differs. Sheets are read by `paper`.
"""

from __future__ import annotations

import argparse
import collections
import datetime as dt
import sys
import tempfile
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from binder.build import composed
from binder.output.handed import ledger_file, ledger_texts
from binder.output.handed.changes import changes
from binder.output.handed.given import given_sheets
from binder.output.handed.hand_over import hand_over, take_back
from binder.pages.page import EDITIONS
from binder.problems import ProblemsError
from tests.proof.second import paper
from tests.proof.second.edits import Edited
from tests.proof.second.run import say

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from binder.output.handed.changes import Change, Changes
    from binder.pages.page import Book
    from tests.proof.second.paper import Paper

# How many binders were compared, of them whole anew; sheets put in, corrected, grown older.
Count = collections.Counter[str]


def papers(book: Book, edition: str, only: str) -> dict[str, Paper]:
    """Return what a binder holds, by slug."""
    return {page.slug: paper.of_page(page) for page in given_sheets(book, edition, only)}


class Held:
    """A binder in somebody's hands."""

    def __init__(self, book: Book, edition: str, only: str) -> None:
        """Hand it over."""
        self.edition, self.only = edition, only
        self.sheets = papers(book, edition, only)
        self.foot = paper.of_foot(book.foot)

    def do(self, told: Changes, book: Book, count: Count) -> list[str]:
        """Do what a change page says; return what is wrong with the binder then."""
        new, foot = papers(book, self.edition, self.only), paper.of_foot(book.foot)
        count["binders"] += 1
        count["whole"] += told.whole
        if told.whole:
            self.sheets, self.foot = new, foot
            return []
        self.foot, found = paper.written_on(self.foot, told.foot_pens)
        if self.foot.text != foot.text:
            found.append(f"the foot says {self.foot.text!r}, a new one {foot.text!r}")
        for line in told.lines:
            found += self._line(line, new, count)
        asked = {line.slug for line in told.lines}
        for slug in sorted({*self.sheets, *new}):
            had, wanted = self.sheets.get(slug), new.get(slug)
            if had is None or wanted is None or had.number != wanted.number:
                found.append(f"{slug}: the binder has {had}, a new one {wanted}")
            elif had.text != wanted.text and slug not in asked and slug in told.stay:
                count["older"] += 1
                found += [f"{slug}: {fault}" for fault in paper.grown_older(had, wanted)]
            elif had.text != wanted.text:
                found.append(f"{slug}: the binder says {had.text!r}, a new one {wanted.text!r}")
        return found

    def _line(self, line: Change, new: Mapping[str, Paper], count: Count) -> list[str]:
        """Do one line of the page; return what cannot be done."""
        had = self.sheets.get(line.slug)
        if line.pulled and (had is None or had.number != line.pulled):
            return [f"{line.slug}: pull {line.pulled}, but the binder has {had}"]
        if line.pens and had is not None:
            count["pens"] += 1
            self.sheets[line.slug], found = paper.written_on(had, line.pens)
            return found
        self.sheets.pop(line.slug, None)
        if line.put:
            count["sheets"] += 1
            if line.slug not in new or new[line.slug].number != line.put:
                return [f"{line.slug}: put in {line.put}, which is none"]
            self.sheets[line.slug] = new[line.slug]
        return []

    def copy(self) -> Held:
        """Return another one like it, to try a pack on."""
        other = Held.__new__(Held)
        other.edition, other.only = self.edition, self.only
        other.sheets, other.foot = dict(self.sheets), self.foot
        return other


def sequence(seed: int, at: Path) -> tuple[list[str], Count]:
    """Return what is wrong in one sequence of edits, and what was compared."""
    edited = Edited(seed, at)
    dice, folder = edited.dice, at / "farm"
    ledger, texts = None, {}
    held: dict[str, Held] = {}
    found: list[str] = []
    count: Count = collections.Counter()
    for step in range(dice.randint(2, 6)):
        if ledger is not None:
            ledger_file.save(folder, ledger, texts)
        if step == 0 or dice.yes(0.3):
            found += _given(edited, folder, held, count)
        elif dice.yes(0.1) and held:
            name = dice.one(sorted(held))
            take_back(folder, name, edited.now.on)
            del held[name]
        ledger, texts = ledger_file.load(folder), ledger_texts.load(folder)
        book = edited.days_pass(dice.one((1, 3, 7, 30))) if dice.yes(0.3) else edited.edit()
        for name, binder in held.items():
            told = changes(ledger, book, name, texts, _as_of(folder))
            if told is None:
                found.append(f"{name} has a binder that the ledger does not know")
                continue
            found += binder.copy().do(told, book, count)
    return found, count


def _given(edited: Edited, folder: Path, held: dict[str, Held], count: Count) -> list[str]:
    """Hand a binder over, whole to whoever has none, else by what its pack says."""
    dice = edited.dice
    stays = [stay.get("sitter") for stay in edited.now.files.get("stays", [])]
    name = dice.one(("Dana", "Sam", *(who for who in stays if isinstance(who, str) and who)))
    name = " ".join(name.split())
    edition = held[name].edition if name in held else dice.one(("", "sitter", *EDITIONS))
    try:
        given = hand_over(
            folder, edited.book, name, edited.now.on, edition,
            by_pen=dice.yes(0.8), as_of=_as_of(folder),
        )  # fmt: skip
    except ProblemsError:  # a name too like another, or no name for a file
        return []
    only = given.hand_over.only
    if name in held and given.changes is not None and held[name].only == only:
        return held[name].do(given.changes, edited.book, count)
    held[name] = Held(edited.book, edition, only)
    return []


def _as_of(folder: Path) -> Callable[[str], Book | None]:
    """Return what makes the binder of the farm as it is now for another day."""

    @cache
    def made(day: str) -> Book | None:
        try:
            return composed(folder, dt.date.fromisoformat(day)).book
        except ProblemsError:
            return None

    return made


def main() -> int:
    """Run the sequences and say what came of them; 1 where a sheet was wrong."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--first", type=int, default=0)
    asked = parser.parse_args()
    bad = 0
    total: Count = collections.Counter()
    for seed in range(asked.first, asked.first + asked.count):
        with tempfile.TemporaryDirectory() as at:
            found, count = sequence(seed, Path(at))
        total += count
        bad += bool(found)
        for fault in found[:3]:
            say(f"sequence {seed}: {fault}")
    say(
        f"{asked.count} sequences, {total['binders']} binders compared "
        f"({total['whole']} whole anew), {total['sheets']} sheets put in, {total['pens']} "
        f"corrected by pen, {total['older']} only older, {bad} wrong"
    )
    return bool(bad)


if __name__ == "__main__":
    sys.exit(main())
