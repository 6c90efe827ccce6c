"""A warm cache against an empty one: random edits, and both print the same.

A sheet is not drawn but sealed: what the drawing is given, HTML, style and pictures, stands for
what it draws, so that any two that could print unlike each other are told apart. All else is
the program's: which sheets the cache gives, the list of sheets, the joining. One edit in twenty
is composed again in a process of its own, where nothing is remembered.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Any
from unittest import mock

import binder.output.print
from binder.cache import Cache
from binder.output.handed.fingerprint import fingerprints
from binder.output.paper.sheet import Setting
from binder.output.paper.workers import Drawn
from binder.output.print import PrintOptions, render_book
from binder.pages.page import EDITIONS
from tests.proof.second.dice import Dice
from tests.proof.second.edits import Edited
from tests.proof.second.run import say

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from binder.output.paper.join import Piece
    from binder.output.paper.workers import PrintJob
    from binder.pages.page import Book

_ALONE = (
    "import sys, json, pathlib, datetime as dt; from binder.build import composed; "
    "from binder.output.handed.fingerprint import fingerprints; "
    "made = composed(pathlib.Path(sys.argv[1]), dt.date.fromisoformat(sys.argv[2])); "
    "sys.stdout.write(json.dumps(fingerprints(made.book)))"
)


class Sealing:
    """Stands for the drawing processes: returns a seal of what was to be drawn."""

    drawn = 0

    def __init__(self, _most: int) -> None:
        """Start nothing."""

    def __enter__(self) -> Sealing:
        """Return itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """Leave nothing."""

    def dismiss(self) -> None:
        """Do nothing."""

    def draw(self, jobs: Mapping[str, PrintJob]) -> Iterator[tuple[str, Drawn]]:
        """Yield each sheet sealed; its name says how many pages, so that the list settles."""
        for name, job in jobs.items():
            Sealing.drawn += 1
            seal = hashlib.sha256(
                repr((job.html, job.css, sorted(job.pictures.items()))).encode()
            )
            yield name, Drawn(seal.digest(), 1 + len(name) % 2)


class _Joined:
    def __init__(self, pieces: Sequence[Piece], **about: Any) -> None:
        about.pop("fonts")
        self.pages = len(pieces)
        self.pdf = repr(([vars_of(each) for each in pieces], sorted(about.items()))).encode()


def vars_of(piece: Piece) -> tuple[object, ...]:
    """Return all that one piece of a file says."""
    return tuple(getattr(piece, name) for name in piece.__slots__)


def printed(book: Book, cache: Cache, dice: Dice) -> dict[str, bytes]:
    """Return the files of a binder, by name."""
    setting = Setting(large=dice.yes(0.1), two_sided=dice.yes(0.2))
    options = PrintOptions(dice.one(("", *EDITIONS)), setting, 1, cache)
    with (
        tempfile.TemporaryDirectory() as folder,
        mock.patch.object(binder.output.print, "Workers", Sealing),
        mock.patch.object(binder.output.print, "join", _Joined),
    ):
        render_book(book, Path(folder), options=options)
        return {path.name: path.read_bytes() for path in sorted(Path(folder).iterdir())}


def main() -> int:
    """Edit, print twice, compare; 1 where anything differs."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--count", type=int, default=500)
    asked = parser.parse_args()
    farms = max(1, asked.count // 50)
    bad = alone = warm_drawn = cold_drawn = 0
    with tempfile.TemporaryDirectory() as at:
        cache = Cache(Path(at) / "warm")
        edited = Edited(0, Path(at))
        for number in range(asked.count):
            if number and number % (asked.count // farms) == 0:
                edited = Edited(number, Path(at))
            book = edited.edit()
            choice = edited.dice.randrange(10**6)
            Sealing.drawn = 0
            warm = printed(book, cache, Dice(choice))
            warm_drawn += Sealing.drawn
            Sealing.drawn = 0
            with tempfile.TemporaryDirectory() as empty:
                cold = printed(book, Cache(Path(empty)), Dice(choice))
            cold_drawn += Sealing.drawn
            if warm != cold:
                bad += 1
                unlike = [name for name in {*warm, *cold} if warm.get(name) != cold.get(name)]
                say(f"edit {number}: warm and cold differ in {unlike}")
            if number % 20 == 0:
                alone += 1
                if fingerprints(book) != _in_own_process(edited):
                    bad += 1
                    say(f"edit {number}: another process composes other sheets")
    say(f"{asked.count} edits on {farms} farms, {bad} unlike")
    say(f"sheets made: {warm_drawn} with the warm cache, {cold_drawn} with an empty one")
    say(f"{alone} were composed in a process of their own")
    return bool(bad) or warm_drawn >= cold_drawn


def _in_own_process(edited: Edited) -> object:
    words = (str(edited.folder / "farm"), edited.now.on.isoformat())
    ran = subprocess.run(
        [sys.executable, "-c", _ALONE, *words], capture_output=True, text=True, check=True
    )
    return json.loads(ran.stdout)


if __name__ == "__main__":
    sys.exit(main())
