"""Tries generated farms for two sheets that disagree: `python -m tests.proof.one_voice`.

Ends with 1 where the claims of one farm's sheets, site, phone file and finder disagree; the
number that is printed makes that farm again (`--only`).
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import TYPE_CHECKING

from binder.build import book_of
from binder.farm import start
from binder.pages.claims.claim import disagreeing
from binder.problems import ProblemsError
from tests.proof import shapes
from tests.proof.farm import Farm
from tests.proof.mutant import write

if TYPE_CHECKING:
    from binder.pages.claims.claim import Claim
    from binder.pages.page import Book

SEED = 20260710
COUNT = 200  # farms that are right; a generated one that is refused is not counted
FAMILIES = (
    shapes.new_herd,
    shapes.extreme_values,
    shapes.new_things,
    shapes.optional_left_out,
    shapes.other_days,
    shapes.private_text,
)


def disagreements(book: Book) -> list[str]:
    """Return a line for each thing that two sheets of a binder say in two ways.

    Screens show the public part of a farm. Where amounts leave something out there, and say so,
    they are held against each other and not against the printed ones.
    """
    screens = book.screens
    books = [book] if screens is None else [book, screens]
    if screens is not None and not screens.partial:
        return _told([*book.claims(), *screens.claims()])
    return [line for each in books for line in _told(list(each.claims()))]


def starter(folder: Path) -> Path:
    """Return the folder that now holds the starter farm."""
    start.start(folder)
    return folder


def metric(folder: Path) -> Path:
    """Return the folder that now holds the example farm, shown in metric measures."""
    farm = Farm(random.Random(0))
    for spot in farm.spots():
        if spot.path == ("units",):
            farm.set(spot, "metric")
    write(farm.mutant("one voice", ""), folder)
    return folder


def _told(found: list[tuple[str, Claim]]) -> list[str]:
    by_sheet: dict[str, list[Claim]] = {}
    for sheet, claim in found:
        by_sheet.setdefault(sheet, []).append(claim)
    return [
        f"{', '.join(filter(None, what))}: {values}"
        for what, values in disagreeing(by_sheet).items()
    ]


def tried(seed: int, number: int, folder: Path | None = None) -> list[str] | None:
    """Return the disagreements of a generated farm, None where the program refuses it."""
    rng = random.Random(f"one voice {seed}-{number}")
    mutant = FAMILIES[number % len(FAMILIES)](rng)
    with tempfile.TemporaryDirectory() as scratch:
        at = folder or Path(scratch) / "farm"
        write(mutant, at)
        try:
            book = book_of(at, mutant.day)
        except ProblemsError:
            return None
    return disagreements(book)


def _numbered(number: int) -> tuple[int, list[str] | None]:
    return number, tried(SEED, number)


def main() -> int:
    """Try what the command line asks for."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=COUNT)
    asked.add_argument("--workers", type=int, default=2)
    asked.add_argument("--only", type=int, help="try one and leave its farm folder in place")
    given = asked.parse_args()
    if given.only is not None:
        folder = Path(tempfile.gettempdir()) / f"binder-voice-{given.only}"
        found = tried(SEED, given.only, folder)
        sys.stdout.write(f"{folder}\n{found}\n")
        return bool(found)
    right = failed = first = 0
    with ProcessPoolExecutor(given.workers) as pool:
        while right < given.count:
            numbers = range(first, first + given.count - right)
            first = numbers.stop
            for number, lines in pool.map(_numbered, numbers):
                right += lines is not None
                failed += bool(lines)
                for line in lines or ():
                    sys.stdout.write(f"{number}: {line}\n")
    sys.stdout.write(f"{right} farms, {failed} with sheets that disagree, {first} tried\n")
    return bool(failed)


if __name__ == "__main__":
    sys.exit(main())
