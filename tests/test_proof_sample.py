"""A sample of `sh script/proof`: wrong farms of each sort and a few faults, always the same.

The whole proof throws thousands; see DEVELOPERS.md, "What we proved".
"""

from __future__ import annotations

import datetime as dt
import os
import re
import subprocess
import sys
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.data import CONTENT
from binder.problems import Place, Problem
from tests.proof import clocks, disks, judge, kills
from tests.proof.sandbox import CACHE, ROOT, sandbox
from tests.proof.trial import FAMILIES

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from binder.pages.page import Book

SCREENS = ("--site-only",)
EACH = 1  # of the 21 families


@pytest.mark.slow
def test_wrong_and_odd_farms_end_in_problems_or_in_whole_pages() -> None:
    """None in a trace, a hang, a leftover on a page or a refusal without its place."""
    ran = subprocess.run(
        [sys.executable, "-m", "tests.proof.bad_input", "--each", str(EACH)],
        cwd=ROOT, capture_output=True, text=True, check=False, timeout=600,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stdout[-6000:] + ran.stderr[-2000:]
    counts = re.findall(rf"^\S.* +{EACH}(?: +\d+){{3}}$", ran.stdout, re.MULTILINE)
    assert len(counts) == len(FAMILIES), ran.stdout


@pytest.mark.slow
@pytest.mark.parametrize(
    "trial",
    [
        # Screens alone and hand-overs of one day: what they draw is drawn for each day anew.
        pytest.param(lambda at: kills.builds(at, 4, 1, *SCREENS), id="builds killed"),
        pytest.param(
            lambda at: kills.hand_overs(at, 2, 1, kills.DAYS[:1]), id="hand-overs killed"
        ),
        pytest.param(lambda at: kills.at_once(sandbox(at, options=SCREENS)), id="two at once"),
        pytest.param(disks.full_hand_over, id="disk full"),
        pytest.param(
            lambda at: clocks.changing_days(at / "farm", clocks.PLACES[:1]), id="other days"
        ),
        pytest.param(lambda at: clocks.leap_births(at / "farm"), id="leap-day births"),
    ],
)
def test_the_last_binder_and_the_ledger_survive(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, trial: Callable[[Path], list[str] | None]
) -> None:
    """Whatever is done to a run, what was there before it or what it was to make is whole."""
    monkeypatch.setenv(CACHE, os.environ["XDG_CACHE_HOME"])
    found = trial(tmp_path)
    if found is None:
        pytest.skip("only root may mount a small disk")
    assert found == []


@pytest.fixture(scope="module")
def book() -> Book:
    """Return the example farm's binder."""
    return book_of(CONTENT / "example-farm", dt.date(2026, 6, 1))


def with_body(book: Book, body: str) -> Book:
    """Return the binder with something added to its first page."""
    first, *others = book.pages
    return replace(book, pages=(replace(first, body=first.body + body), *others))


def test_the_judge_passes_the_example(book: Book) -> None:
    """What it finds in a mutant it must not find everywhere."""
    assert judge.faults_of_book(book) == []


@pytest.mark.parametrize(
    ("body", "owner"),
    [
        ("<p>Give None a day.</p>", ()),
        ("<p>It holds nan gal.</p>", ()),
        ("<p>It holds inf gal.</p>", ()),
        ("<p>About {need} a day</p>", ()),
        ("<p>Amount(value=3)</p>", ()),
        ("<p>1.5e-07 gal</p>", ()),
        ("<p>{need}</p>", ("{other}",)),
        ("<table class='facts'><tr><td></td></tr></table>", ()),
        ("<ol><li> </li></ol>", ()),
        ("<a href='sheet:nowhere'>X1</a>", ()),
        ("<a href='working:no-such.figure'>3 gal</a>", ()),
        ("<script>alert(1)</script>", ()),
        ("<p onclick='x'>x</p>", ()),
    ],
)
def test_the_judge_sees(book: Book, body: str, owner: tuple[str, ...]) -> None:
    """Each sort of leftover, so that its silence about a mutant means something."""
    assert len(judge.faults_of_book(with_body(book, body), owner)) == 1


def test_the_judge_leaves_the_owner_their_braces(book: Book) -> None:
    """Signs in the owner's own text are no leftovers; a text that is lost is a fault."""
    own = "Latch {left}, then None"
    assert judge.faults_of_book(with_body(book, f"<p>{own}.</p>"), (own,), own) == []
    assert len(judge.faults_of_book(book, (own,), own)) == 1


@pytest.mark.parametrize(
    ("problem", "right"),
    [
        (Problem(Place("pens.yaml", 4, 1), "creek", "is wrong"), True),
        (Problem(Place("pens.yaml"), "", "is missing; write one"), True),
        (Problem(Place("pens.yaml"), "", "is wrong"), False),
        (Problem(Place("", 4, 1), "", "is wrong"), False),
        (Problem(Place("pens.yaml", 4, 1), "", ""), False),
        (Problem(Place("pens.yaml", 4, 1), "", "is wr\x07ng"), False),
        (Problem(Place("pens.yaml", 4, 1), "", "'NoneType' object is not"), False),
        (Problem(Place("content/words/en", 4, 1), "", "has no words"), False),
    ],
)
def test_the_judge_reads_refusals(problem: Problem, right: bool) -> None:  # noqa: FBT001
    """A refusal names a file of the farm and a line, and speaks in sentences."""
    assert (judge.faults_of_problems((problem,)) == []) is right


def test_no_reason_is_no_refusal() -> None:
    """An empty list of problems helps nobody."""
    assert judge.faults_of_problems(()) != []
