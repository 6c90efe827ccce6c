"""Runs mutants in processes of their own, each held to a time and to an amount of memory."""

from __future__ import annotations

import multiprocessing
import resource
import tempfile
import time
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from pathlib import Path
from typing import TYPE_CHECKING

from tests.proof.trial import Outcome, mutant, tried

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from multiprocessing.context import SpawnProcess

LONGEST_WALL_S = 90.0  # of one mutant; a machine with other work is slow, a hang is for ever
MOST_MEMORY_BYTES = 2 * 1024**3  # of address space, for a worker and all it loads


@dataclass(slots=True)
class _Worker:
    """A process, the line to it, and what it is at."""

    process: SpawnProcess
    line: Connection
    number: int = -1
    since: float = 0.0


def outcomes(seed: int, numbers: Iterable[int], count: int) -> Iterator[Outcome]:
    """Yield what comes of each mutant, in the order they are done.

    Args:
        seed: of all of them.
        numbers: which.
        count: of processes.
    """
    waiting = iter(numbers)
    with tempfile.TemporaryDirectory(prefix="binder-proof-") as root:
        workers: list[_Worker] = []
        for place in range(count):
            worker = _started(seed, Path(root) / str(place))
            if _give(worker, waiting):
                workers.append(worker)
        try:
            while workers:
                yield from _round(seed, Path(root), workers, waiting)
        finally:
            for worker in workers:
                worker.process.kill()


def _started(seed: int, folder: Path) -> _Worker:
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe()
    process = context.Process(target=_work, args=(seed, folder, theirs), daemon=True)
    process.start()
    theirs.close()
    return _Worker(process, ours)


def _give(worker: _Worker, waiting: Iterator[int]) -> bool:
    """Give a worker its next mutant; False, and its end, where there is none."""
    number = next(waiting, None)
    worker.line.send(number)
    if number is None:
        worker.process.join(10)
        return False
    worker.number, worker.since = number, time.monotonic()
    return True


def _round(
    seed: int, root: Path, workers: list[_Worker], waiting: Iterator[int]
) -> Iterator[Outcome]:
    ready = wait([worker.line for worker in workers], timeout=1.0)
    for worker in list(workers):
        if worker.line in ready:
            try:
                yield worker.line.recv()
            except EOFError:
                yield _lost(seed, worker, f"the process ended ({worker.process.exitcode})")
                workers.remove(worker)
                worker = _started(seed, root / f"again-{worker.number}")  # noqa: PLW2901
                workers.append(worker)
        elif time.monotonic() - worker.since > LONGEST_WALL_S:
            worker.process.kill()
            yield _lost(seed, worker, f"no answer in {LONGEST_WALL_S:g} s")
            workers.remove(worker)
            worker = _started(seed, root / f"again-{worker.number}")  # noqa: PLW2901
            workers.append(worker)
        else:
            continue
        if not _give(worker, waiting):
            workers.remove(worker)


def _lost(seed: int, worker: _Worker, what: str) -> Outcome:
    one = mutant(seed, worker.number)
    return Outcome(worker.number, one.family, one.note, "", (what,), LONGEST_WALL_S)


def _work(seed: int, folder: Path, line: Connection) -> None:
    """Try mutants until none comes any more."""
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY_BYTES, MOST_MEMORY_BYTES))
    while True:
        number = line.recv()
        if number is None:
            return
        line.send(tried(seed, number, folder))
