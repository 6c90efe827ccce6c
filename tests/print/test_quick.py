"""The printing library's parts that we do quicker: the file is the same to the byte."""

from __future__ import annotations

import datetime as dt
import pickle
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.output.paper import quick
from binder.output.paper.paper_style import stylesheet
from binder.output.paper.render import draw
from binder.output.paper.sheet import Setting, SheetAge, sheet
from binder.output.paper.workers import Drawn, PrintJob
from tests.structures import EVERY, EXTENTS

if TYPE_CHECKING:
    from binder.pages.page import Book

EXAMPLE = Path(__file__).resolve().parents[2] / "content" / "example-farm"
DAY = dt.date(2026, 6, 1)
# A chart, an emergency, a log, a sheet that is tightened, pictures and columns, formulas.
FEW_OF = ("cover", "chart-people", "no-water-now", "pen-creek", "contacts", "who-is-who", "map")

ALONE = """
import pickle, sys
from binder.output.paper import quick
quick._same_to_the_byte = lambda: None
from binder.output.paper.render import draw
jobs = pickle.load(sys.stdin.buffer)
sys.stdout.buffer.write(pickle.dumps([draw(job) for job in jobs]))
"""


def jobs(book: Book, extent: str) -> list[PrintJob]:
    """Return what the drawing is given for sheets of a book."""
    made = []
    for page in book.pages:
        if extent == EVERY or page.slug in FEW_OF:
            done = sheet(page, book, SheetAge(date=book.date), Setting())
            made.append(PrintJob(page.slug, done.html, stylesheet(book.paper), done.pictures))
    return made


def by_the_library_alone(asked: list[PrintJob]) -> list[Drawn]:
    """Return sheets as they are drawn without the parts that change nothing."""
    done = subprocess.run(
        [sys.executable, "-c", ALONE],
        input=pickle.dumps(asked),
        capture_output=True,
        check=True,
    )
    return pickle.loads(done.stdout)  # type: ignore[no-any-return] # noqa: S301 -- our own


@EXTENTS
def test_sheets_are_the_same_with_and_without(extent: str) -> None:
    """Drawn one after the other in a process, as the program does, kept lines and all."""
    book = book_of(EXAMPLE, DAY)
    asked = jobs(book, extent)
    assert len(asked) >= len(FEW_OF)
    without = by_the_library_alone(asked)
    unlike = [
        job.name
        for job, alone in zip(asked, without, strict=True)
        if draw(job) != alone or alone.faults
    ]
    assert unlike == []


def test_they_are_used_here() -> None:
    """The releases in use are those that it was tried with, or it would be slow in silence."""
    assert quick.install()


def test_unknown_releases_are_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """What leans on a library's insides is not used with insides that nobody looked at."""
    monkeypatch.setitem(quick.TRIED_WITH, "pydyf", "0.0")
    assert not quick.install()
