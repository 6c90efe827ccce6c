"""Tries thousands of farms that are wrong, odd or extreme: `python -m tests.proof.bad_input`.

Each must end in a list of problems with file and line, or in a binder without a leftover. Ends
with 1 where one did not; the number that is printed makes that one again (`--only`).
"""

from __future__ import annotations

import argparse
import resource
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

from tests.proof.mutant import write
from tests.proof.trial import BOOK, REFUSED, first_of_each, mutant, tried
from tests.proof.workers import outcomes

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tests.proof.trial import Outcome

SEED = 20260601
COUNT = 6000


def main() -> int:
    """Try what the command line asks for."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=COUNT)
    asked.add_argument("--first", type=int, default=0)
    asked.add_argument("--each", type=int, help="try that many of each family, and no more")
    asked.add_argument("--seed", type=int, default=SEED)
    asked.add_argument("--workers", type=int, default=2)
    asked.add_argument("--only", type=int, help="try one and leave its farm folder in place")
    given = asked.parse_args()
    if given.only is not None:
        return _one(given.seed, given.only)
    numbers: Sequence[int] = range(given.first, given.first + given.count)
    if given.each is not None:
        numbers = first_of_each(given.seed, given.each)
    return _report(outcomes(given.seed, numbers, given.workers))


def _one(seed: int, number: int) -> int:
    folder = Path(tempfile.gettempdir()) / f"binder-mutant-{number}"
    one = mutant(seed, number)
    write(one, folder)
    sys.stdout.write(f"{one.family}: {one.note}\nday {one.day}, in {folder}\n")
    outcome = tried(seed, number, folder)
    for line in (outcome.result, f"{outcome.cpu_s:.2f} s", *outcome.faults):
        sys.stdout.write(f"{line}\n")
    return bool(outcome.faults)


def _report(found: Iterable[Outcome]) -> int:
    """Print each failure as it comes, then the counts."""
    began = time.monotonic()
    families: dict[str, Counter[str]] = {}
    slowest: list[tuple[float, int, str]] = []
    failed = 0
    for outcome in found:
        failed += bool(outcome.faults)
        count = families.setdefault(outcome.family, Counter())
        count["failed" if outcome.faults else outcome.result] += 1
        slowest = sorted([*slowest, (outcome.cpu_s, outcome.number, outcome.note)])[-3:]
        if outcome.faults:
            sys.stdout.write(f"FAILED {outcome.number} {outcome.family}: {outcome.note}\n")
            for fault in outcome.faults[:6]:
                sys.stdout.write(f"    {fault}\n")
            sys.stdout.flush()
    line = "{:20} {:>7} {:>9} {:>7} {:>7}\n"
    sys.stdout.write(line.format("mutants", "all", REFUSED, BOOK, "failed"))
    total: Counter[str] = Counter()
    for family, count in sorted(families.items()):
        total += count
        sys.stdout.write(line.format(family, count.total(), *_three(count)))
    sys.stdout.write(line.format("all", total.total(), *_three(total)))
    for cpu_s, number, note in reversed(slowest):
        sys.stdout.write(f"slowest: {cpu_s:.1f} s, {number} {note}\n")
    memory_mb = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    sys.stdout.write(
        f"most memory {memory_mb:.0f} MB, {time.monotonic() - began:.0f} s in all\n"
    )
    return bool(failed)


def _three(count: Counter[str]) -> tuple[int, int, int]:
    return count[REFUSED], count[BOOK], count["failed"]


if __name__ == "__main__":
    sys.exit(main())
