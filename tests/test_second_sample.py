"""A sample of the second generator: farms by chance, warm against cold, change packs.

`sh script/proof second`, `warm` and `packs` run thousands; see DEVELOPERS.md, "What we proved".
"""

from __future__ import annotations

import subprocess
import sys

import pytest

from binder.pages.page import Page
from tests.proof.sandbox import ROOT
from tests.proof.second import reader

# Seeds of farms that were printed wrong once, or not at all.
ONCE_BROKEN = ("539", "558", "567", "719", "1356")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("program", "asked"),
    [
        ("run", ("--count", "12")), ("run", ("--only", *ONCE_BROKEN)),
        ("warm", ("--count", "8")), ("packs", ("--count", "3")),
    ],
    ids=["run", "once broken", "warm", "packs"],
)  # fmt: skip
def test_nothing_is_found(program: str, asked: tuple[str, ...]) -> None:
    """The first farms, edits and sequences of each, always the same."""
    words = [sys.executable, "-m", f"tests.proof.second.{program}", *asked]
    ran = subprocess.run(
        words, cwd=ROOT, capture_output=True, text=True, check=False, timeout=600
    )
    assert ran.returncode == 0, ran.stdout[-4000:] + ran.stderr[-2000:]


@pytest.mark.parametrize(
    "body",
    [
        "<p>Give None a day.</p>", "<p>Holds nan gal.</p>", "<p>Lost: 0.00006 psi.</p>",
        "<p>Pull the pin..</p>", "<p>Pull it!.</p>", "<p>not recorded. .</p>", "<p>-0 gal</p>",
        "<p>1.5e-07 gal</p>", "<p>0.102444 %</p>", "<p>1,000,000,000,000,000 gal</p>",
        "<p>{need}</p>", "<p>Amount(3)</p>", "<p>Kept ()</p>",
        "<table><tr><td></td></tr></table>",
        "<ul><li> </li></ul>",
    ],
)  # fmt: skip
def test_the_reader_sees(body: str) -> None:
    """Each sort of fault, so that silence about a farm means something."""
    page = Page("a", "A1", "A", "A title", f"<p>Fine.</p>{body}")
    assert len(list(reader.faults(page))) == 1


@pytest.mark.parametrize(
    "body",
    [
        "<p>Wait... then go.</p>", "<p>None of them, 2.5 gal, 1,200 head.</p>", "<p>-10 °F</p>",
        "<table class='log'><tr><td></td></tr></table>",
        "<table><tr><td><img></td></tr></table>",
    ],
)  # fmt: skip
def test_the_reader_passes(body: str) -> None:
    """What may stand on a sheet."""
    page = Page("a", "A1", "A", "A title", body)
    assert list(reader.faults(page)) == []
