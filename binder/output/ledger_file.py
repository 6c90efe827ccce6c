"""The ledger's file in the farm folder: read whole, and replaced whole or not at all.

It is written to a file beside it, forced to the disk and moved into place, so that at any
moment either the old or the new ledger is there.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import fcntl
import hashlib
import json
import os
from typing import TYPE_CHECKING

from binder import yamlfile
from binder.output import ledger_texts
from binder.output.ledger import FILE, HandOver, Ledger, Revision
from binder.pages.page import EDITIONS
from binder.problems import Place, Problem, ProblemsError, did_you_mean, quotable
from binder.writing import DRAFT, leads_inside, write_inside

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

_HEAD = """\
# Which revision of each sheet is out, and in whose binder. `binder hand-over` writes this file.
# Keep it with the farm's other files; without it nobody knows which sheets are old.
"""
_SEAL = 16  # hexadecimal digits: chance will not make two alike
_ROOT_FIELDS = ("sheets", "hand-overs")
_REVISION_FIELDS = ("revision", "date", "sheet", "title", "content", "kind")
_HAND_OVER_FIELDS = (
    "name",
    "date",
    "edition",
    "foot",
    "returned",
    "by-pen",
    "seal",
    "sheets",
    "paper",
)
_TWO_LEDGERS = (
    "two ledgers were put together here; keep one of them, and hand the binders that only the "
    "other knows over again"
)


@contextlib.contextmanager
def held(folder: Path) -> Iterator[None]:
    """Keep other hand-overs of the farm waiting; the system lets go if the process dies."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def save(folder: Path, ledger: Ledger, texts: ledger_texts.Texts | None = None) -> None:
    """Put `ledger` in place of the one in `folder`, whole or not at all.

    `texts` of its sheets are kept first: those that no ledger asks for do no harm.

    Raises:
        ProblemsError: the disk refuses; the ledger is as it was.
    """
    try:
        if texts is not None:
            ledger_texts.save(folder, texts)
        _save(folder, ledger)
    except OSError as error:
        message = (
            f"cannot be written: {error.strerror or error}; it is as it was, and nothing was "
            "handed over"
        )
        raise ProblemsError([Problem(Place(FILE), "", message)]) from error


def _save(folder: Path, ledger: Ledger) -> None:
    for left in folder.glob(f"{DRAFT}*"):  # a process that was stopped in the middle
        left.unlink(missing_ok=True)
    text = to_text(ledger)
    yamlfile.parse(text, FILE)  # what could not be read again never takes the place of what can
    write_inside(folder, FILE, text.encode(), durable=True)


def to_text(ledger: Ledger) -> str:
    """Return the file's text; texts are quoted as JSON, which YAML reads too."""
    lines = [_HEAD + "sheets:" + ("" if ledger.revisions else " {}")]
    for slug in sorted(ledger.revisions):
        lines.append(f"  {_quoted(slug)}:")
        for each in ledger.revisions[slug]:
            lines.append(
                f"    - {{revision: {each.number}, date: {each.date}, "
                f"sheet: {_quoted(each.sheet)}, title: {_quoted(each.title)}, "
                f"content: {_quoted(each.content)}{_kind(each)}}}"
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
        if not hand_over.by_pen:
            lines.append("    by-pen: no")
        lines.append(f"    seal: {_quoted(_seal(hand_over.sheets, ledger.revisions))}")
        lines.append("    sheets:" + ("" if hand_over.sheets else " {}"))
        lines += _numbers(hand_over.sheets)
        if hand_over.paper:
            lines += ["    paper:", *_numbers(hand_over.paper)]
    return "\n".join(lines) + "\n"


def _numbers(sheets: Mapping[str, int]) -> list[str]:
    return [f"      {_quoted(slug)}: {number}" for slug, number in sorted(sheets.items())]


def _kind(revision: Revision) -> str:
    return f", kind: {_quoted(revision.kind)}" if revision.kind else ""


def _seal(sheets: Mapping[str, int], revisions: Mapping[str, tuple[Revision, ...]]) -> str:
    """Return a mark of what the sheets of a binder said: numbers alone may mean two things."""
    given = [
        [
            slug,
            number,
            *(each.content for each in revisions.get(slug, ()) if each.number == number),
        ]
        for slug, number in sorted(sheets.items())
    ]
    return hashlib.sha256(json.dumps(given).encode()).hexdigest()[:_SEAL]


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
    if not leads_inside(folder, path):
        message = "is a link that leads out of the farm folder; put the file itself there"
        raise ProblemsError([Problem(Place(FILE), "", message)])
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
        root = self._fields(self.document.data, (), _ROOT_FIELDS)
        sheets = self._mapping(root.get("sheets") or {}, ("sheets",))
        revisions = {
            slug: self._revisions(self._list(rows, ("sheets", slug)), ("sheets", slug))
            for slug, rows in sheets.items()
        }
        given = self._list(root.get("hand-overs") or [], ("hand-overs",))
        hand_overs = tuple(
            self._hand_over(each, ("hand-overs", at), revisions)
            for at, each in enumerate(given)
        )
        return Ledger(revisions, hand_overs)

    def _revisions(self, rows: list[object], path: tuple[str, ...]) -> tuple[Revision, ...]:
        """Return a sheet's revisions; numbers that do not rise tell of two ledgers."""
        found: list[Revision] = []
        for at, row in enumerate(rows):
            each = self._revision(row, (*path, at))
            if found and each.number <= found[-1].number:
                name = f"{quotable(each.sheet)} {quotable(each.title)}"
                after = f"revision {each.number} of {name} after {found[-1].number}"
                self._complain((*path, at), f"{after}: {_TWO_LEDGERS}")
            found.append(each)
        return tuple(found)

    def _revision(self, raw: object, path: tuple[str | int, ...]) -> Revision:
        row = self._fields(raw, path, _REVISION_FIELDS)
        return Revision(
            self._number(row, "revision", path),
            self._date(row, "date", path),
            self._text(row, "sheet", path),
            self._text(row, "title", path),
            self._text(row, "content", path),
            self._text(row, "kind", path) if "kind" in row else "",
        )

    def _hand_over(
        self,
        raw: object,
        path: tuple[str | int, ...],
        revisions: Mapping[str, tuple[Revision, ...]],
    ) -> HandOver:
        row = self._fields(raw, path, _HAND_OVER_FIELDS)
        sheets = self._mapping(row.get("sheets") or {}, (*path, "sheets"))
        numbers = self._known(sheets, (*path, "sheets"), revisions)
        paper = self._mapping(row.get("paper") or {}, (*path, "paper"))
        on_paper = self._known(paper, (*path, "paper"), revisions)
        if row.get("seal") and self._text(row, "seal", path) != _seal(numbers, revisions):
            what = "the sheets above are not those that were given"
            self._complain((*path, "seal"), f"{what}: {_TWO_LEDGERS}")
        return HandOver(
            self._text(row, "name", path),
            self._date(row, "date", path),
            self._edition(row, path),
            self._text(row, "foot", path),
            numbers,
            self._date(row, "returned", path) if row.get("returned") else "",
            row.get("by-pen") != "no",
            on_paper,
        )

    def _known(
        self,
        sheets: Mapping[str, object],
        path: tuple[str | int, ...],
        revisions: Mapping[str, tuple[Revision, ...]],
    ) -> dict[str, int]:
        """Return the revision of each sheet; one that stands nowhere tells of damage."""
        numbers = {slug: self._number(sheets, slug, path) for slug in sheets}
        for slug, number in numbers.items():
            if all(each.number != number for each in revisions.get(slug, ())):
                self._damaged((*path, slug), f"no revision {number} stands above")
        return numbers

    def _edition(self, row: Mapping[str, object], path: tuple[str | int, ...]) -> str:
        value = self._text(row, "edition", path)
        if value and value not in EDITIONS:
            message = f'"{quotable(value)}" is no edition{did_you_mean(value, EDITIONS)}'
            self._complain((*path, "edition"), message)
        return value

    def _fields(
        self, raw: object, path: tuple[str | int, ...], known: tuple[str, ...]
    ) -> Mapping[str, object]:
        """Return a mapping; a key that no ledger has is told, with the nearest that it has."""
        row = self._mapping(raw, path)
        for key in row:
            if key not in known:
                where = self.document.key_place((*path, key))
                message = f'"{quotable(key)}" is not a field{did_you_mean(key, known)}'
                self.problems.append(Problem(where, _joined(path), message))
        return row

    def _mapping(self, raw: object, path: tuple[str | int, ...]) -> Mapping[str, object]:
        if isinstance(raw, dict):
            return raw
        self._damaged(path, "names and values are expected here")
        return {}

    def _list(self, raw: object, path: tuple[str | int, ...]) -> list[object]:
        if isinstance(raw, list):
            return raw
        self._damaged(path, "a list is expected here")
        return []

    def _text(self, row: Mapping[str, object], key: str, path: tuple[str | int, ...]) -> str:
        value = row.get(key)
        if isinstance(value, str):
            return value
        self._damaged((*path, key), "a text is missing here")
        return ""

    def _date(self, row: Mapping[str, object], key: str, path: tuple[str | int, ...]) -> str:
        value = row.get(key)
        if not isinstance(value, str):
            self._damaged((*path, key), "a date is missing here")
            return ""
        if not _is_date(value):
            message = f'"{quotable(value)}" is not a date; write it like 2026-05-20'
            self._complain((*path, key), message)
            return ""
        return value

    def _number(self, row: Mapping[str, object], key: str, path: tuple[str | int, ...]) -> int:
        value = row.get(key)
        if isinstance(value, str) and value.isdecimal():
            return int(value)
        self._damaged((*path, key), "a whole number is missing here")
        return 0

    def _damaged(self, path: tuple[str | int, ...], message: str) -> None:
        """Complain of what nobody can mend by hand."""
        advice = "take the file back from a copy, or move it away to start anew"
        self._complain(path, f"{message}; {advice}")

    def _complain(self, path: tuple[str | int, ...], message: str) -> None:
        self.problems.append(Problem(self.document.place(path), _joined(path), message))


def _joined(path: tuple[str | int, ...]) -> str:
    return " > ".join(str(part) for part in path)


def _is_date(text: str) -> bool:
    """Return whether a text is a day as this program writes it, `2026-05-20`."""
    try:
        return dt.date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
