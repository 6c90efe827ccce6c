"""Throws farms by chance at `check` and `build`, in this one process: `--count`, `--first`.

Each farm is checked and built through the command line's own `main`, everything composed: the
sheets, site, phone file, change pages and packs. Sheets are drawn for one farm in `--draw`.
What both commands compose from the same files is composed once, save for one farm in twenty.
"""

from __future__ import annotations

import argparse
import collections
import contextlib
import hashlib
import io
import os
import re
import shutil
import signal
import sys
import tempfile
import time
import traceback
from pathlib import Path
from typing import TYPE_CHECKING, Any
from unittest import mock

import binder.build
import binder.cli
import binder.day
import binder.output.write
from binder.output.handed.changes import all_changes, marks
from binder.output.handed.ledger_file import load
from binder.output.paper.sheet import Setting, SheetAge, sheet
from binder.output.print import PrintResult
from tests.proof.second import outside, reader
from tests.proof.second.farm import Given, farm, write

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from binder.pages.page import Book, Page

LONGEST_S = 30  # our choice: processor time of one command; nothing takes a third of it
LONGEST_WAIT_S = 600  # our choice: by the clock, on a busy machine
_LINE = re.compile(r"^\S.{0,520}?  .*\S", re.DOTALL)
_OURS = re.compile(r"Traceback|NoneType|object at 0x|\bpydantic\b|KeyError|\.py\b")


class Hang(BaseException):
    """A command that does not end."""


class Once:
    """Composes a farm once for both commands, and keeps what came of it to be judged."""

    def __init__(self, real: Callable[..., Any]) -> None:
        """Wrap the real composing."""
        self.real, self.every_time = real, False
        self.kept: dict[Any, tuple[Any, Exception | None]] = {}
        self.book: Book | None = None

    def __call__(self, folder: Path, on: Any, language: str = "") -> Any:
        """Return what is composed, or raise what was raised."""
        key = (folder, on, language)
        if key not in self.kept or self.every_time:
            self.book = None
            try:
                self.kept = {key: (self.real(folder, on, language), None)}
            except Exception as error:  # noqa: BLE001 -- raised again, just below
                self.kept = {key: (None, error)}
        made, raised = self.kept[key]
        if raised is not None:
            raise raised
        self.book = made.book
        return made

    def refusal(self) -> object:
        """Return what the last composing raised."""
        return next((error for _, error in self.kept.values()), None)


class Drawn:
    """Stands where the binder is printed: makes every sheet's HTML and draws none."""

    def __init__(self) -> None:
        """Begin without pages."""
        self.pages: list[Page] = []
        self.sheets = 0

    def __call__(
        self, book: Book, new: Path, folder: Path, options: Any, _progress: Any
    ) -> tuple[PrintResult, tuple[Any, ...]]:
        """Compose what would be drawn; return what the printing returns."""
        ledger = load(folder)
        ages = marks(ledger, book)
        changes = (*options.changes, *all_changes(ledger, book))
        for each in (book, *(paper.book for paper in book.papers)):
            for page in each.pages:
                sheet(page, each, ages.get(page.slug, SheetAge(date=book.date)), Setting())
                self.sheets += 1
            self.pages += each.pages
        return PrintResult(new / "binder.pdf", 0, (), (), 0), changes


def command(*words: str) -> tuple[int, str, str]:
    """Return exit code, what was said and what was complained of, as for somebody who types.

    Raises:
        Hang: it did not end in time.
    """
    said, complained = io.StringIO(), io.StringIO()

    def stop(*_: object) -> None:
        raise Hang

    signal.signal(signal.SIGALRM, stop)
    signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_REAL, LONGEST_WAIT_S)
    signal.setitimer(signal.ITIMER_PROF, LONGEST_S)
    try:
        with (
            mock.patch.object(sys, "argv", ["binder", *words]),
            contextlib.redirect_stdout(said),
            contextlib.redirect_stderr(complained),
        ):
            binder.cli.main()
    except SystemExit as end:
        code = int(end.code or 0)
    except Hang:
        return 99, "", f"did not end\n{traceback.format_exc(limit=-4)}"
    except BaseException:  # noqa: BLE001 -- that is what we look for
        return 98, "", traceback.format_exc(limit=-4)
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.setitimer(signal.ITIMER_PROF, 0)
    return code, said.getvalue(), complained.getvalue()


def around(folder: Path, but: str) -> dict[str, str]:
    """Return a mark of each file below a folder, save those below one part of it."""
    found = {}
    for path in sorted(folder.rglob("*")):
        name = str(path.relative_to(folder))
        if name == but or name.startswith(f"{but}/"):
            continue
        if path.is_symlink() or not path.is_file():
            found[name] = str(path.readlink()) if path.is_symlink() else "no file"
        else:
            found[name] = hashlib.sha256(path.read_bytes()).hexdigest()
    return found


def judge(code: int, complained: str, what: str) -> Iterator[str]:
    """Yield what is wrong with the end of one command."""
    if code in {98, 99}:
        yield f"{what}: {complained}"
    elif code not in {0, 1}:
        yield f"{what} ends with {code}: {complained}"
    elif code and not complained.strip():
        yield f"{what} refuses without a word"
    if code and "content/" in complained:
        yield f"{what} blames what the owner cannot mend: {complained}"
    for line in complained.splitlines() if code == 1 else ():
        if _OURS.search(line) or not (_LINE.match(line) or line.startswith("and ")):
            yield f"{what} says: {line}"


def trial(seed: int, at: Path, once: Once, *, draw: bool) -> tuple[list[str], bool, int]:
    """Return what is wrong with one farm, whether it became a binder, and its sheets."""
    made = farm(seed)
    outside.lay(made)
    outside.decoys(at)
    write(made, at / "farm")
    outside.links(made, at / "farm")
    before = around(at, "out")
    drawn = Drawn()
    day = ("--date", made.on.isoformat())
    with contextlib.ExitStack() as stack:
        for module in (binder.build, binder.day):
            stack.enter_context(mock.patch.object(module, "composed", once))
        if not draw:
            put = mock.patch.object(binder.output.write, "print_binder", drawn)
            stack.enter_context(put)
        checked, _, why = command("check", str(at / "farm"), *day)
        built, _, why_not = command("build", str(at / "farm"), "--to", str(at / "out"), *day)
    found = [*judge(checked, why, "check"), *judge(built, why_not, "build")]
    if checked != built:
        found.append(f"check ends with {checked}, build with {built}: {why}{why_not}")
    if around(at, "out") != before:
        found.append("something outside was written")
    if built == 0 and once.book is not None:
        found += _read(made, once.book, drawn)
    if b"FAMILY SECRET" in b"".join(
        path.read_bytes() for path in (at / "out").rglob("*") if path.is_file()
    ):
        found.append("what lies outside the farm is shown")
    return found, built == 0, drawn.sheets


def _read(made: Given, book: Book, drawn: Drawn) -> list[str]:
    """Return what no reader should find on any page."""
    own = {
        re.sub(r"^([a-z]\d\d-)?(.*)\.md$", r"\2", name.partition("/")[2])
        for name in made.others
        if name.startswith("protocols/")
    }
    screens = book.screens.pages if book.screens else ()
    pages = [*book.pages, *screens, *drawn.pages]
    words = made.hand in {"plain", "letters"}
    return reader.all_faults(pages, words=words, but=frozenset(own))


def say(line: str) -> None:
    """Say a line at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def _sort(fault: str) -> str:
    """Return the sort of a fault: without names and numbers of this very farm."""
    head = " ".join(fault.splitlines()[-1 if "Traceback" in fault else 0].split(": ")[:2])
    return re.sub(r"\d+", "N", head)[:90]


def main() -> int:
    """Run the trials and say what came of them; 1 where anything was wrong."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--count", type=int, default=10_000)
    parser.add_argument("--first", type=int, default=0, help="the first seed")
    parser.add_argument("--only", type=int, nargs="+", help="these seeds and no others")
    parser.add_argument("--draw", type=int, default=0, help="draw one farm in so many")
    parser.add_argument("--say", action="store_true", help="say why farms are refused")
    parser.add_argument("--until", help="stop at this time of day, like 12:50")
    asked = parser.parse_args()
    once = Once(binder.build.composed)
    ran = whole = sheets = drawn = 0
    slowest, bad = 0.0, 0
    sorts: collections.Counter[str] = collections.Counter()
    refused: collections.Counter[str] = collections.Counter()
    with tempfile.TemporaryDirectory() as folder:
        os.environ["XDG_CACHE_HOME"] = f"{folder}/cache"
        for seed in asked.only or range(asked.first, asked.first + asked.count):
            if asked.until and time.strftime("%H:%M") >= asked.until:
                break
            at = Path(folder) / "trial"
            at.mkdir()
            begun = time.process_time()
            once.kept, once.every_time = {}, seed % 20 == 0
            draw = bool(asked.draw) and seed % asked.draw == 0
            found, built, made = trial(seed, at, once, draw=draw)
            refused[_sort(str(once.refusal()))] += not built
            slowest = max(slowest, time.process_time() - begun)
            shutil.rmtree(at)
            ran, whole, sheets, drawn = ran + 1, whole + built, sheets + made, drawn + draw
            bad += bool(found)
            for fault in dict.fromkeys(found):
                sort = _sort(fault)
                sorts[sort] += 1
                if sorts[sort] <= 3:
                    say(f"seed {seed}: {fault[:1500]}")
            if ran % 500 == 0:
                say(f"{time.strftime('%H:%M')} {ran} farms, {bad} bad")
    for why, count in refused.most_common() if asked.say else ():
        say(f"{count:6} refused: {why}")
    for sort, count in sorts.most_common():
        say(f"{count:6} {sort}")
    say(
        f"{ran} farms, {whole} whole binders, {ran - whole} refused, {bad} with a fault; "
        f"{sheets} sheets composed, {drawn} farms drawn; slowest {slowest:.1f} s"
    )
    return bool(bad)


if __name__ == "__main__":
    sys.exit(main())
