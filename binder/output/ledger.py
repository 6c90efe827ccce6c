"""The ledger: which revision of each sheet is out, in whose binder, since when.

It lives in the farm folder as `ledger.yaml`. It is written to a file beside it, forced to the
disk and moved into place, so that at any moment either the old or the new ledger is there.
"""

from __future__ import annotations

import contextlib
import fcntl
import json
import os
import tempfile
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from binder import yamlfile
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

FILE = "ledger.yaml"
_NEW = ".ledger.yaml.new-"
_HEAD = """\
# Which revision of each sheet is out, and in whose binder. `binder hand-over` writes this file.
# Keep it with the farm's other files; without it nobody knows which sheets are old.
"""


@dataclass(frozen=True, slots=True)
class Revision:
    """One state of a sheet that was handed over: number, day, id, title, and its mark."""

    number: int
    date: str
    sheet: str
    title: str
    content: str


@dataclass(frozen=True, slots=True)
class HandOver:
    """One binder given to somebody.

    Attributes:
        name: to whom.
        date: the day.
        edition: what they got: sitter, helper, owner, vet, or empty for every sheet.
        foot: mark of the foot its sheets carry.
        sheets: slug -> revision of each sheet in it.
        returned: the day it came back, or empty while it is out.
    """

    name: str
    date: str
    edition: str
    foot: str
    sheets: Mapping[str, int]
    returned: str = ""


@dataclass(frozen=True, slots=True)
class Ledger:
    """Every revision of every sheet, oldest first, and every hand-over, in the order made."""

    revisions: Mapping[str, tuple[Revision, ...]] = field(default_factory=dict)
    hand_overs: tuple[HandOver, ...] = ()

    def last(self, slug: str) -> Revision | None:
        """Return the latest revision of a sheet, or None before its first."""
        known = self.revisions.get(slug, ())
        return known[-1] if known else None

    def revision(self, slug: str, number: int) -> Revision:
        """Return one revision of a sheet.

        Raises:
            KeyError: the ledger does not know it.
        """
        for each in self.revisions.get(slug, ()):
            if each.number == number:
                return each
        raise KeyError(slug, number)

    def binder_of(self, name: str) -> HandOver | None:
        """Return what `name` has now, or None: never given, or given back."""
        of_name = [each for each in self.hand_overs if same_name(each.name, name)]
        return of_name[-1] if of_name and not of_name[-1].returned else None

    def out(self) -> tuple[HandOver, ...]:
        """Return the binders that are out: the last of each name, unless it came back."""
        latest = {one_name(each.name): each for each in self.hand_overs}
        return tuple(each for each in latest.values() if not each.returned)


def one_name(name: str) -> str:
    """Return what all spellings of a name have in common: case and spaces do not count."""
    return " ".join(name.split()).casefold()


def same_name(one: str, other: str) -> bool:
    """Return whether two names mean one person."""
    return one_name(one) == one_name(other)


@contextlib.contextmanager
def held(folder: Path) -> Iterator[None]:
    """Keep other hand-overs of the farm waiting; the system lets go if the process dies."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def save(folder: Path, ledger: Ledger) -> None:
    """Put `ledger` in place of the one in `folder`, whole or not at all.

    Raises:
        ProblemsError: the disk refuses; the ledger is as it was.
    """
    try:
        _save(folder, ledger)
    except OSError as error:
        message = (
            f"cannot be written: {error.strerror or error}; it is as it was, and nothing was "
            "handed over"
        )
        raise ProblemsError([Problem(Place(FILE), "", message)]) from error


def _save(folder: Path, ledger: Ledger) -> None:
    for left in folder.glob(f"{_NEW}*"):  # a process that was stopped in the middle
        left.unlink(missing_ok=True)
    text = to_text(ledger)
    yamlfile.parse(text, FILE)  # what could not be read again never takes the place of what can
    handle, name = tempfile.mkstemp(prefix=_NEW, dir=folder)
    new = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        new.chmod(0o644)
        new.replace(folder / FILE)
    except BaseException:
        new.unlink(missing_ok=True)
        raise
    above = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(above)  # the move itself must survive a power cut
    finally:
        os.close(above)


def to_text(ledger: Ledger) -> str:
    """Return the file's text; texts are quoted as JSON, which YAML reads too."""
    lines = [_HEAD + "sheets:" + ("" if ledger.revisions else " {}")]
    for slug in sorted(ledger.revisions):
        lines.append(f"  {_quoted(slug)}:")
        for each in ledger.revisions[slug]:
            lines.append(
                f"    - {{revision: {each.number}, date: {each.date}, "
                f"sheet: {_quoted(each.sheet)}, title: {_quoted(each.title)}, "
                f"content: {_quoted(each.content)}}}"
            )
    lines.append("hand-overs:" + ("" if ledger.hand_overs else " []"))
    for hand_over in ledger.hand_overs:
        lines += [
            f"  - name: {_quoted(hand_over.name)}",
            f"    date: {hand_over.date}",
            f"    edition: {_quoted(hand_over.edition)}",
            f"    foot: {_quoted(hand_over.foot)}",
        ]
        if hand_over.returned:
            lines.append(f"    returned: {hand_over.returned}")
        lines.append("    sheets:" + ("" if hand_over.sheets else " {}"))
        lines += [f"      {_quoted(slug)}: {n}" for slug, n in sorted(hand_over.sheets.items())]
    return "\n".join(lines) + "\n"


def _quoted(text: str) -> str:
    """Return a text in double quotes; what cannot be printed as an escape that YAML reads."""
    quoted = json.dumps(text, ensure_ascii=False)
    return "".join(sign if sign.isprintable() else f"\\U{ord(sign):08x}" for sign in quoted)


def load(folder: Path) -> Ledger:
    """Return the ledger of the farm in `folder`; an empty one before the first hand-over.

    Raises:
        ProblemsError: the file is there but is not a ledger. It is left as it is.
    """
    path = folder / FILE
    if not path.exists():
        return Ledger()
    reader = _Reader(yamlfile.read(path, FILE))
    ledger = reader.ledger()
    if reader.problems:
        raise ProblemsError(reader.problems)
    return ledger


class _Reader:
    """Turns the file's plain values into a ledger, collecting what does not fit."""

    def __init__(self, document: yamlfile.Document) -> None:
        self.document = document
        self.problems: list[Problem] = []

    def ledger(self) -> Ledger:
        """Return what could be read; look at `problems` first."""
        root = self._mapping(self.document.data, ())
        sheets = self._mapping(root.get("sheets") or {}, ("sheets",))
        revisions = {
            slug: tuple(
                self._revision(each, ("sheets", slug, at))
                for at, each in enumerate(self._list(rows, ("sheets", slug)))
            )
            for slug, rows in sheets.items()
        }
        given = self._list(root.get("hand-overs") or [], ("hand-overs",))
        hand_overs = tuple(
            self._hand_over(each, ("hand-overs", at), revisions)
            for at, each in enumerate(given)
        )
        return Ledger(revisions, hand_overs)

    def _revision(self, raw: object, path: tuple[str | int, ...]) -> Revision:
        row = self._mapping(raw, path)
        return Revision(
            self._number(row, "revision", path),
            self._text(row, "date", path),
            self._text(row, "sheet", path),
            self._text(row, "title", path),
            self._text(row, "content", path),
        )

    def _hand_over(
        self,
        raw: object,
        path: tuple[str | int, ...],
        revisions: Mapping[str, tuple[Revision, ...]],
    ) -> HandOver:
        row = self._mapping(raw, path)
        sheets = self._mapping(row.get("sheets") or {}, (*path, "sheets"))
        numbers = {slug: self._number(sheets, slug, (*path, "sheets")) for slug in sheets}
        for slug, number in numbers.items():
            if all(each.number != number for each in revisions.get(slug, ())):
                self._complain((*path, "sheets", slug), f"no revision {number} stands above")
        return HandOver(
            self._text(row, "name", path),
            self._text(row, "date", path),
            self._text(row, "edition", path),
            self._text(row, "foot", path),
            numbers,
            str(row.get("returned") or ""),
        )

    def _mapping(self, raw: object, path: tuple[str | int, ...]) -> Mapping[str, object]:
        if isinstance(raw, dict):
            return raw
        self._complain(path, "names and values are expected here")
        return {}

    def _list(self, raw: object, path: tuple[str | int, ...]) -> list[object]:
        if isinstance(raw, list):
            return raw
        self._complain(path, "a list is expected here")
        return []

    def _text(self, row: Mapping[str, object], key: str, path: tuple[str | int, ...]) -> str:
        value = row.get(key)
        if isinstance(value, str):
            return value
        self._complain((*path, key), "a text is missing here")
        return ""

    def _number(self, row: Mapping[str, object], key: str, path: tuple[str | int, ...]) -> int:
        value = row.get(key)
        if isinstance(value, str) and value.isdecimal():
            return int(value)
        self._complain((*path, key), "a whole number is missing here")
        return 0

    def _complain(self, path: tuple[str | int, ...], message: str) -> None:
        where = " > ".join(str(part) for part in path)
        advice = f"{message}; take the file back from a copy, or move it away to start anew"
        self.problems.append(Problem(self.document.place(path), where, advice))


def with_return(ledger: Ledger, name: str, date: str) -> Ledger:
    """Return the ledger with the binder of `name` marked as back.

    Raises:
        ProblemsError: nobody of that name has one.
    """
    found = ledger.binder_of(name)
    if found is None:
        names = ", ".join(each.name for each in ledger.out()) or "nobody"
        message = f'no binder is out with "{name}"; out with: {names}'
        raise ProblemsError([Problem(Place(FILE), "", message)])
    rest = tuple(
        replace(each, returned=date) if each is found else each for each in ledger.hand_overs
    )
    return replace(ledger, hand_overs=rest)
