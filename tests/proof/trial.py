"""One mutant, tried: made from its number, written, composed, judged."""

from __future__ import annotations

import random
import time
import traceback
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.build import book_of
from binder.farm.load import read_folder
from binder.problems import ProblemsError
from tests.proof import bulk, damage, folders, judge, shapes
from tests.proof.mutant import Mutant, write

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from binder.yamlfile import Plain

LONGEST_CPU_S = 10.0  # of one mutant, from reading to pages: what we promise

# Each generator with its share of the mutants.
FAMILIES: tuple[tuple[Callable[[random.Random], Mutant], int], ...] = (
    (damage.cut_and_pasted, 12),
    (damage.scalar_overwritten, 16),
    (damage.lines_moved, 6),
    (damage.encoded, 5),
    (damage.yaml_tricks, 5),
    (damage.misshapen, 8),
    (folders.files_amiss, 3),
    (folders.strays, 2),
    (folders.pictures, 5),
    (folders.protocols, 7),
    (folders.weather, 4),
    (folders.references, 4),
    (shapes.owner_text, 5),
    (shapes.private_text, 3),
    (shapes.extreme_values, 18),
    (shapes.left_out, 6),
    (shapes.optional_left_out, 3),
    (shapes.new_herd, 6),
    (shapes.new_things, 5),
    (shapes.other_days, 4),
    (bulk.bulk, 1),
)
REFUSED, BOOK = "refused", "book"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a mutant.

    Attributes:
        number: its number; with the seed it makes the same mutant again.
        family, note: what it was.
        result: `refused`, `book`, or empty where neither came about.
        faults: all that must not be; empty for a mutant that was answered rightly.
        cpu_s: what it took [s].
    """

    number: int
    family: str
    note: str
    result: str
    faults: tuple[str, ...]
    cpu_s: float


def mutant(seed: int, number: int) -> Mutant:
    """Return the mutant of that number; number 0 is the farm with ten thousand animals."""
    if number == 0:
        return bulk.ten_thousand_animals()
    rng = random.Random(f"{seed}-{number}")
    generators, weights = zip(*FAMILIES, strict=True)
    made: Mutant = rng.choices(generators, weights)[0](rng)
    return made


def first_of_each(seed: int, count: int) -> list[int]:
    """Return the numbers of the first `count` mutants of each family: a small fixed sample."""
    generators, weights = zip(*FAMILIES, strict=True)
    left = dict.fromkeys(generators, count)
    found, number = [], 0
    while any(left.values()):
        number += 1
        # Drawn as `mutant` draws it, and not made: that takes longer.
        family = random.Random(f"{seed}-{number}").choices(generators, weights)[0]
        if left[family]:
            left[family] -= 1
            found.append(number)
    return found


def tried(seed: int, number: int, folder: Path) -> Outcome:
    """Return what comes of a mutant, tried in `folder`."""
    one = mutant(seed, number)
    write(one, folder)
    start = time.process_time()
    result, faults = _answer(one, folder)
    cpu_s = time.process_time() - start
    if cpu_s > LONGEST_CPU_S:
        faults.append(f"took {cpu_s:.1f} s")
    return Outcome(number, one.family, one.note, result, tuple(faults), cpu_s)


def owner_texts(folder: Path) -> list[str]:
    """Return every text that stands in the files of a farm."""
    read = read_folder(folder)
    found: list[str] = list(read.protocols.values())
    waiting: list[Plain] = [document.data for document in read.documents.values()]
    while waiting:
        data = waiting.pop()
        if isinstance(data, str):
            found.append(data)
        elif data is not None:
            waiting += data.values() if isinstance(data, dict) else data
    return found


def _answer(one: Mutant, folder: Path) -> tuple[str, list[str]]:
    try:
        book = book_of(folder, one.day)
    except ProblemsError as error:
        return REFUSED, judge.faults_of_problems(error.problems)
    except BaseException as error:  # whatever comes is what we look for
        if isinstance(error, KeyboardInterrupt):
            raise
        frames = traceback.extract_tb(error.__traceback__)
        ours = [frame for frame in frames if "/binder/" in frame.filename] or frames[-1:]
        where = " < ".join(f"{f.filename.rpartition('/')[2]}:{f.lineno}" for f in ours[:-5:-1])
        return "", [f"{type(error).__name__}: {str(error)[:300]} at {where}"]
    faults = judge.faults_of_book(book, owner_texts(folder), one.shown)
    faults += judge.faults_of_screens(book, owner_texts(folder), one.hidden)
    return BOOK, [*faults, *(["should have been refused"] if one.must_fail else [])]
