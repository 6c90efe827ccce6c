"""Replaces the output folder as a whole: a reader finds the last binder or the new one.

The new one is built beside it and moved into place when it is complete. Only a folder that we
marked as ours is ever emptied, and never one that holds, or lies in, something we read from.
"""

from __future__ import annotations

import contextlib
import fcntl
import hashlib
import os
import shutil
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from binder.problems import Place, Problem, ProblemsError
from binder.writing import write_inside

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

MARK = ".written-by-binder"
_MARK_TEXT = (
    "binder build writes this folder and empties it each time. Keep nothing of your own here.\n"
)


@contextlib.contextmanager
def replaced(to: Path, sources: Sequence[Path]) -> Iterator[Path]:
    """Yield an empty folder that takes the place of `to` when the block ends without error.

    Args:
        to: the folder to replace; it need not exist.
        sources: folders we read from; they must have nothing in common with `to`.

    Raises:
        ProblemsError: `to` must not be emptied, another build is writing to it, or the disk
            refuses.
    """
    to = to.resolve()
    _check(to, sources)
    with _lock(to):
        new = _next_to(to, "new")
        with _told(to):
            _recover(to)
            _check_ours(to)
            new.mkdir(parents=True)  # whatever of this name is left now is not ours: refuse
        try:
            with _told(to):
                write_inside(new, MARK, _MARK_TEXT.encode())
                yield new
                _swap(to, new)
        finally:
            shutil.rmtree(new, ignore_errors=True)


@contextlib.contextmanager
def beside(to: Path, sources: Sequence[Path]) -> Iterator[Path]:
    """Yield `to` itself, marked as ours, to put a file among those of the last build.

    Args:
        to: the folder; it need not exist.
        sources: folders we read from; they must have nothing in common with `to`.

    Raises:
        ProblemsError: as for `replaced`.
    """
    to = to.resolve()
    _check(to, sources)
    with _lock(to), _told(to):
        _recover(to)
        _check_ours(to)
        to.mkdir(parents=True, exist_ok=True)
        write_inside(to, MARK, _MARK_TEXT.encode())
        yield to


def keep(old: Path, new: Path) -> None:
    """Carry a part of the last binder over into the new one, where there is any.

    Links are left behind: no build writes one.
    """

    def links(folder: str, names: list[str]) -> list[str]:
        return [name for name in names if (Path(folder) / name).is_symlink()]

    if old.is_dir() and not old.is_symlink():
        shutil.copytree(old, new, dirs_exist_ok=True, ignore=links)


def _check(to: Path, sources: Sequence[Path]) -> None:
    """Raise where `to` and a source have something in common.

    Raises:
        ProblemsError: they have.
    """
    for source in sources:
        here = source.resolve()
        if to.is_relative_to(here):
            raise _refused(to, f"lies in {source}, which is read, not written; choose another")
        if here.is_relative_to(to):
            raise _refused(to, f"holds {source}, and would be emptied; choose another")
    if to.exists() and not to.is_dir():
        raise _refused(to, "is a file; give the name of a folder")


def _check_ours(to: Path) -> None:
    """Raise for a folder with something in it that no build marked.

    Raises:
        ProblemsError: it is not ours to empty.
    """
    if to.is_dir() and any(to.iterdir()) and not (to / MARK).is_file():
        raise _refused(to, "holds files that no build wrote; choose an empty or a new folder")


@contextlib.contextmanager
def _lock(to: Path) -> Iterator[None]:
    """Hold `to` for one build; the system lets go when the process ends, however it ends.

    Raises:
        ProblemsError: another build holds it.
    """
    name = hashlib.sha256(str(to).encode()).hexdigest()[:16]
    path = Path(tempfile.gettempdir()) / f"binder-{os.getuid()}-{name}.lock"
    with _told(to):
        handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW, 0o600)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            message = "is being written by another build; wait until that one is done"
            raise _refused(to, message) from error
        yield
    finally:
        os.close(handle)


def _recover(to: Path) -> None:
    """Put back the last binder, or sweep up, where a build was stopped in the middle."""
    old = _next_to(to, "old")
    if old.is_dir() and not to.exists():
        old.rename(to)
    for left in (old, _next_to(to, "new")):
        if (left / MARK).is_file():
            shutil.rmtree(left, ignore_errors=True)


def _swap(to: Path, new: Path) -> None:
    """Move the new folder into place; a stop between the two moves is mended by `_recover`."""
    old = _next_to(to, "old")
    had_one = to.exists()
    if had_one:
        to.rename(old)
    try:
        new.rename(to)
    except OSError:
        if had_one:
            old.rename(to)  # the last binder stands again
        raise
    shutil.rmtree(old, ignore_errors=True)


def _next_to(to: Path, word: str) -> Path:
    return to.parent / f".{to.name}.{word}"


@contextlib.contextmanager
def _told(to: Path) -> Iterator[None]:
    """Turn what the disk refuses into a sentence about `to`."""
    try:
        yield
    except OSError as error:
        raise _refused(to, f"cannot be written: {error.strerror or error}") from error


def _refused(to: Path, message: str) -> ProblemsError:
    return ProblemsError([Problem(Place(str(to)), "", message)])
