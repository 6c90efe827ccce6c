"""Reads logs/*.csv, as the phone saves them: a line for each pen at each visit or look."""

from __future__ import annotations

import csv
import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder import yamlfile
from binder.problems import Place, Problem, ProblemsError, did_you_mean, quotable
from binder.writing import leads_inside

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping
    from pathlib import Path

FOLDER = "logs"
COLUMNS = (
    "date", "visit", "written", "pen", "number", "air", "counted", "of", "breathing", "water",
    "notes", "initials",
)  # fmt: skip
NEEDED = ("date", "pen")
EASY, FAST, OPEN_MOUTH = "easy", "fast", "open-mouth"
GOOD, WARM, FAILED = "good", "warm", "failed"
CHOICES: Mapping[str, tuple[str, ...]] = {
    "breathing": (EASY, FAST, OPEN_MOUTH),
    "water": (GOOD, WARM, FAILED),
    "number": tuple("01234"),
}
WHOLE = ("counted", "of")
MOST_BYTES = 2_000_000  # our choice: years of lines
LED_OUT = "is a link that leads out of the farm folder; put the file itself there"


@dataclass(frozen=True, slots=True)
class Noted:
    """One line of a log; None and empty where nothing was written.

    Attributes:
        on: the day.
        visit: `13:00`, or `look 15:10`.
        pen: pen id.
        number: 0 to 4.
        counted, of: head seen, and head there should be.
        breathing: `easy`, `fast` or `open-mouth`.
        water: `good`, `warm` or `failed`.
        notes: in the writer's words.
    """

    on: dt.date
    visit: str
    pen: str
    number: int | None
    counted: int | None
    of: int | None
    breathing: str
    water: str
    notes: str


def read_logs(folder: Path, pens: Collection[str] | None) -> tuple[Noted, ...]:
    """Return every line of a farm's logs, by day; a line that two files hold counts once.

    Args:
        folder: the farm folder.
        pens: ids of its pens; None where they are not known, and then none is refused.

    Raises:
        ProblemsError: everything unreadable, with file and line.
    """
    found: dict[Noted, None] = {}
    problems: list[Problem] = []
    logs = folder / FOLDER
    paths = sorted(logs.iterdir()) if logs.is_dir() else []
    for path in paths:
        if path.suffix.lower() != ".csv" or path.name[0] == ".":
            continue
        name = f"{FOLDER}/{quotable(path.name)}"
        try:
            lines, wrong = _parse(_text(folder, path, name), name, pens)
        except ProblemsError as error:
            problems += error.problems
            continue
        found |= dict.fromkeys(lines)
        problems += wrong
    if problems:
        raise ProblemsError(problems)
    return tuple(sorted(found, key=lambda one: (one.on, one.visit, one.pen)))


def _text(folder: Path, path: Path, name: str) -> str:
    if not leads_inside(folder, path):
        raise ProblemsError([Problem(Place(name), "", LED_OUT)])
    if path.stat().st_size > MOST_BYTES:
        message = f"is larger than {MOST_BYTES:,} bytes: no log of a farm is"
        raise ProblemsError([Problem(Place(name), "", message)])
    return yamlfile.text_of(path, name)


def _parse(
    text: str, name: str, pens: Collection[str] | None
) -> tuple[list[Noted], list[Problem]]:
    lines = text.removeprefix("\ufeff").splitlines()
    reader = csv.reader(lines)
    head = [cell.strip().lower() for cell in next(reader, [])]
    wrong = list(_head_problems(head, name))
    found: list[Noted] = []
    if wrong:
        return found, wrong
    for cells in reader:
        if not any(cell.strip() for cell in cells):
            continue
        row = dict(zip(head, (cell.strip() for cell in cells), strict=False))
        faults = list(_faults(row, Place(name, reader.line_num, 1), pens))
        wrong += faults
        if not faults:
            found.append(_noted(row))
    return found, wrong


def _head_problems(head: list[str], name: str) -> Iterator[Problem]:
    place = Place(name, 1, 1)
    for needed in NEEDED:
        if needed not in head:
            message = f"is missing in the first line; expected {','.join(COLUMNS)}"
            yield Problem(place, needed, message)
    for cell in head:
        if cell not in COLUMNS:
            hint = did_you_mean(cell, COLUMNS)
            yield Problem(place, quotable(cell), f"is no column of a log{hint}")


def _faults(
    row: Mapping[str, str], place: Place, pens: Collection[str] | None
) -> Iterator[Problem]:
    try:
        dt.date.fromisoformat(row.get("date", ""))
    except ValueError:
        message = f'"{quotable(row.get("date", ""))}" is no day; write it like 2026-07-12'
        yield Problem(place, "date", message)
    pen = row.get("pen", "")
    if not pen or (pens is not None and pen not in pens):
        hint = did_you_mean(pen, pens or ())
        yield Problem(place, "pen", f'"{quotable(pen)}" is no pen of this farm{hint}')
    for column, allowed in CHOICES.items():
        said = row.get(column, "")
        if said and said not in allowed:
            message = f'"{quotable(said)}" is none of {", ".join(allowed)}'
            yield Problem(place, column, message)
    for column in WHOLE:
        said = row.get(column, "")
        if said and not (said.isascii() and said.isdigit()):
            yield Problem(place, column, f'"{quotable(said)}" is no whole number of head')


def _noted(row: Mapping[str, str]) -> Noted:
    def whole(column: str) -> int | None:
        said = row.get(column, "")
        return int(said) if said else None

    return Noted(
        on=dt.date.fromisoformat(row["date"]),
        visit=row.get("visit", ""),
        pen=row["pen"],
        number=whole("number"),
        counted=whole("counted"),
        of=whole("of"),
        breathing=row.get("breathing", ""),
        water=row.get("water", ""),
        notes=row.get("notes", ""),
    )
