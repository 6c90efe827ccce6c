"""Processes that draw sheets, started when the first one is wanted.

They are plain children that talk in pickles over their own pipes: the program that prints is
neither imported nor run again in them (as multiprocessing would), nor does it load WeasyPrint.
"""

from __future__ import annotations

import contextlib
import pickle
import queue
import subprocess
import sys
import threading
from dataclasses import dataclass
from typing import TYPE_CHECKING, BinaryIO

from binder.safe_path import environment

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from types import TracebackType

_EACH = 3  # our choice: so few sheets are drawn sooner than another process starts


@dataclass(frozen=True, slots=True)
class PrintJob:
    """One sheet to draw: its name, unlike any other's; its HTML, CSS, the pictures it shows."""

    name: str
    html: str
    css: str
    pictures: Mapping[str, bytes]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawn sheet, or the faults that forbid it (then `pdf` is empty)."""

    pdf: bytes
    pages: int
    faults: tuple[str, ...] = ()


class WorkerError(RuntimeError):
    """A drawing process ended without an answer."""


class Workers:
    """At most so many processes; use it in a `with`, which ends them."""

    def __init__(self, most: int) -> None:
        """Start nothing yet."""
        self._most = most
        self._children: list[subprocess.Popen[bytes]] = []

    def __enter__(self) -> Workers:
        """Return itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """End the processes: at once after an error, else when they have nothing left to do."""
        for child in self._children:
            if kind is not None:
                child.kill()
        self.dismiss()
        for child in self._children:
            child.wait()
            _pipe(child.stdout).close()
        self._children.clear()

    def dismiss(self) -> None:
        """Tell the processes that nothing more will come; they end while others work on."""
        for child in self._children:
            with contextlib.suppress(OSError):
                _pipe(child.stdin).close()

    def draw(self, jobs: Mapping[str, PrintJob]) -> Iterator[tuple[str, Drawn]]:
        """Yield each job's name and result as soon as it is drawn, the longest begun first.

        Raises:
            WorkerError: a process died, for instance for want of memory.
        """
        if not jobs:
            return
        waiting: queue.SimpleQueue[str] = queue.SimpleQueue()
        for name in sorted(jobs, key=lambda each: -len(jobs[each].html)):
            waiting.put(name)
        done: queue.SimpleQueue[tuple[str, Drawn | None]] = queue.SimpleQueue()
        for child in self._start(-(-len(jobs) // _EACH)):
            threading.Thread(
                target=_feed, args=(child, jobs, waiting, done), daemon=True
            ).start()
        for _ in jobs:
            name, drawn = done.get()
            if drawn is None:
                raise WorkerError(name)
            yield name, drawn

    def _start(self, wanted: int) -> list[subprocess.Popen[bytes]]:
        while len(self._children) < min(wanted, self._most):
            command = [sys.executable, "-P", "-m", "binder.output.paper.render"]
            self._children.append(
                subprocess.Popen(  # noqa: S603 -- our own module, and nothing from where we stand
                    command,
                    stdin=subprocess.PIPE,
                    stdout=subprocess.PIPE,
                    env=environment(),
                )
            )
        return self._children


def _feed(
    child: subprocess.Popen[bytes],
    jobs: Mapping[str, PrintJob],
    waiting: queue.SimpleQueue[str],
    done: queue.SimpleQueue[tuple[str, Drawn | None]],
) -> None:
    """Hand one process a job after the other until none waits."""
    while True:
        try:
            name = waiting.get_nowait()
        except queue.Empty:
            return
        try:
            pickle.dump(jobs[name], _pipe(child.stdin))
            _pipe(child.stdin).flush()
            done.put((name, pickle.load(_pipe(child.stdout))))  # noqa: S301 -- from our own child
        except (OSError, EOFError, pickle.UnpicklingError):
            done.put((name, None))
            return


def _pipe(stream: object) -> BinaryIO:
    """Return a child's pipe, which is there because it was asked for."""
    return stream  # type: ignore[return-value]
