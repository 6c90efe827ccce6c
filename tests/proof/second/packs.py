"""Change packs: a binder less what is pulled, with what is put in, is the new binder.

Sheet by sheet, for random edits. What a paper shows is read off its HTML by a reader of our own
here, so that a change which the program does not see is seen.
"""

from __future__ import annotations

import argparse
import hashlib
import re
import sys
import tempfile
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING

from binder.output import ledger_file
from binder.output.changes import changes
from binder.output.given import given_sheets
from binder.output.hand_over import hand_over, take_back
from binder.output.sheet import body_for_paper
from binder.pages.page import EDITIONS
from tests.proof.second.edits import Edited
from tests.proof.second.run import say

if TYPE_CHECKING:
    from binder.output.changes import Changes
    from binder.pages.page import Book, Foot, Page

Paper = tuple[str, str]  # the sheet's number, and what it shows


class _Shown(HTMLParser):
    """Gathers words and bands; what only says when it was printed is left out."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: list[str] = []
        self._passing = 0
        self._open: list[bool] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        classes = (dict(attrs).get("class") or "").split()
        self.seen += [name for name in classes if re.fullmatch("b[0-4]", name)]
        if tag not in {"br", "hr", "img", "col", "wbr", "input"}:
            self._open.append("passing" in classes)
            self._passing += self._open[-1]

    def handle_endtag(self, tag: str) -> None:
        if tag not in {"br", "hr", "img", "col", "wbr", "input"} and self._open:
            self._passing -= self._open.pop()

    def handle_data(self, data: str) -> None:
        if not self._passing and data.strip():
            self.seen.append(" ".join(data.split()))


def shows(page: Page) -> Paper:
    """Return a sheet's number and a seal of what it shows."""
    read = _Shown()
    read.feed(body_for_paper(page))
    read.close()
    text = " ".join((page.title, *read.seen))
    return page.sheet, hashlib.sha256(text.encode()).hexdigest()


def papers(book: Book, edition: str) -> dict[str, Paper]:
    """Return what a binder of an edition holds, by slug."""
    return {page.slug: shows(page) for page in given_sheets(book, edition)}


class Held:
    """A binder in somebody's hands."""

    def __init__(self, book: Book, edition: str) -> None:
        """Hand it over."""
        self.edition = edition
        self.sheets = papers(book, edition)
        self.foot: Foot = book.foot

    def faults(self, told: Changes, book: Book) -> list[str]:
        """Do what a change page says and return what is wrong with the binder then."""
        new = papers(book, self.edition)
        if (self.foot != book.foot) and not told.foot:
            return ["the foot of every sheet changed, and nobody is told"]
        if told.whole:
            return []
        made, found = dict(self.sheets), []
        for line in told.lines:
            if line.pulled:
                had = made.pop(line.slug, None)
                if had is None or had[0] != line.pulled:
                    found.append(f"{line.slug}: pull {line.pulled}, but the binder has {had}")
            if line.put:
                made[line.slug] = new.get(line.slug, ("", "a sheet that is none"))
                if made[line.slug][0] != line.put:
                    found.append(f"{line.slug}: put in {line.put}, which is none")
        found += [
            f"{slug}: the binder has {made.get(slug)}, a new one {new.get(slug)}"
            for slug in sorted({*made, *new})
            if made.get(slug) != new.get(slug)
        ]
        return found


def sequence(seed: int, at: Path) -> tuple[list[str], int, int]:
    """Return what is wrong in one sequence of edits, the binders compared, and whole ones."""
    edited = Edited(seed, at)
    dice, folder = edited.dice, at / "farm"
    ledger = None
    held: dict[str, Held] = {}
    found, checks, whole = [], 0, 0
    for step in range(dice.randint(2, 6)):
        if ledger is not None:
            ledger_file.save(folder, ledger)
        if step == 0 or dice.yes(0.25):
            name, edition = dice.one(("Dana", "Sam")), dice.one(("", *EDITIONS))
            hand_over(folder, edited.book, name, edited.now.on, edition, by_pen=False)
            held[name] = Held(edited.book, edition)
        elif dice.yes(0.1) and held:
            name = dice.one(sorted(held))
            take_back(folder, name, edited.now.on)
            del held[name]
        ledger = ledger_file.load(folder)
        book = edited.edit()
        for name, binder in held.items():
            told = changes(ledger, book, name)
            if told is None:
                found.append(f"{name} has a binder that the ledger does not know")
                continue
            checks, whole = checks + 1, whole + told.whole
            found += binder.faults(told, book)
    return found, checks, whole


def main() -> int:
    """Run the sequences and say what came of them; 1 where a sheet was wrong."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--count", type=int, default=300)
    asked = parser.parse_args()
    bad = checks = whole = 0
    for seed in range(asked.count):
        with tempfile.TemporaryDirectory() as at:
            found, compared, anew = sequence(seed, Path(at))
        checks, whole, bad = checks + compared, whole + anew, bad + bool(found)
        for fault in found[:3]:
            say(f"sequence {seed}: {fault}")
    say(f"{asked.count} sequences, {checks} binders compared ({whole} whole anew), {bad} wrong")
    return bool(bad)


if __name__ == "__main__":
    sys.exit(main())
