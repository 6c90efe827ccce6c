"""The ledger's file in the farm folder: read whole, and replaced whole or not at all.

It is written to a file beside it, forced to the disk and moved into place, so that at any
moment either the old or the new ledger is there.
"""

from __future__ import annotations

import contextlib
import fcntl
import hashlib
import json
import os
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from binder import yamlfile
from binder.explain import problem
from binder.fit import fit
from binder.output.handed import ledger_texts
from binder.output.handed.ledger import FILE, Ledger
from binder.output.handed.ledger_model import KEYS, LedgerFile, meant, written
from binder.problems import Place, Problem, ProblemsError, quotable
from binder.writing import DRAFT, leads_inside, write_inside

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from binder.fit import Mistake
    from binder.output.handed.ledger import Revision

_HEAD = """\
# Which revision of each sheet is out, and in whose binder. `binder hand-over` writes this file.
# Keep it with the farm's other files; without it nobody knows which sheets are old.
"""
_SEAL = 16  # hexadecimal digits: chance will not make two alike
_FROM_A_COPY = "take the file back from a copy, or move it away to start anew"
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
    seals = tuple(_seal(each.sheets, ledger.revisions) for each in ledger.hand_overs)
    said = written(ledger, seals).model_dump(by_alias=True, exclude_defaults=True)
    return "\n".join([_HEAD.rstrip("\n"), *_lines(said)]) + "\n"


def _lines(said: Mapping[str, object]) -> Iterator[str]:
    """Yield the lines of a mapping; a row of plain values stands on one."""
    for key, value in said.items():
        name = f"{_scalar(key)}:"
        if isinstance(value, dict) and value:
            yield name
            yield from (f"  {line}" for line in _lines(value))
        elif isinstance(value, (list, tuple)) and value:
            yield name
            for row in value:
                first, *rest = _row(row)
                yield f"  - {first}"
                yield from (f"    {line}" for line in rest)
        else:
            yield f"{name} {_scalar(value)}"


def _row(row: Mapping[str, object]) -> list[str]:
    if any(isinstance(value, dict) for value in row.values()):
        return list(_lines(row))
    return ["{" + ", ".join(f"{_scalar(key)}: {_scalar(row[key])}" for key in row) + "}"]


def _scalar(value: object) -> str:
    """Return a value as YAML writes it; our own keys need no quotes."""
    if isinstance(value, str):
        return value if value in KEYS else _quoted(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


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
    document = yamlfile.read(path, FILE)
    found = fit(LedgerFile, {} if document.data is None else document.data)
    problems = [_explained(document, mistake) for mistake in found.mistakes]
    if problems or found.value is None:
        raise ProblemsError(problems)
    ledger = meant(found.value)
    if problems := list(_disagreements(document, ledger, found.value)):
        raise ProblemsError(problems)
    return ledger


def _explained(document: yamlfile.Document, mistake: Mistake) -> Problem:
    """Return the problem of a mistake; what nobody can mend by hand comes from a copy."""
    told = problem(document, LedgerFile, (), mistake)
    if mistake.sort in {"missing", "list", "mapping"}:
        return replace(told, message=f"{told.message}; {_FROM_A_COPY}")
    return told


def _disagreements(
    document: yamlfile.Document, ledger: Ledger, file: LedgerFile
) -> Iterator[Problem]:
    """Yield what does not go together: signs of damage, or of two ledgers made into one."""
    for slug, known in ledger.revisions.items():
        for at, (earlier, each) in enumerate(pairwise(known), start=1):
            if each.number <= earlier.number:
                name = f"{quotable(each.sheet)} {quotable(each.title)}"
                after = f"revision {each.number} of {name} after {earlier.number}"
                yield _at(document, ("sheets", slug, at), f"{after}: {_TWO_LEDGERS}")
    for at, row in enumerate(file.hand_overs):
        here = ("hand-overs", at)
        for slug, number in _not_known(row.sheets, ledger):
            yield _at(document, (*here, "sheets", slug), _no_revision(number))
        for slug, number in _not_known(row.paper, ledger):
            yield _at(document, (*here, "paper", slug), _no_revision(number))
        if row.seal and row.seal != _seal(row.sheets, ledger.revisions):
            what = "the sheets of this hand-over are not those that were given"
            yield _at(document, (*here, "seal"), f"{what}: {_TWO_LEDGERS}")


def _at(document: yamlfile.Document, path: yamlfile.Path_, message: str) -> Problem:
    return Problem(document.place(path), yamlfile.named(document.data, path), message)


def _not_known(sheets: Mapping[str, int], ledger: Ledger) -> list[tuple[str, int]]:
    """Return the sheets of a hand-over whose revision stands nowhere."""
    return [
        (slug, number)
        for slug, number in sheets.items()
        if all(each.number != number for each in ledger.revisions.get(slug, ()))
    ]


def _no_revision(number: int) -> str:
    return f"no revision {number} stands above; {_FROM_A_COPY}"
