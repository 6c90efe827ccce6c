"""The one way in which the program writes a file: below a folder, whole, and nowhere else.

Names of files come from farm folders, and those from others. Whatever a name says, nothing is
written outside the folder that it was meant for, and no link is followed out of it.
"""

from __future__ import annotations

import contextlib
import itertools
import os
from pathlib import Path, PurePosixPath

from binder.problems import Place, Problem, ProblemsError, quotable

DRAFT = ".binder-new-"  # what a file is called until it is whole
_COUNT = itertools.count()


class OutsideError(ProblemsError):
    """A name that leads out of the folder it was meant for."""


def write_inside(
    folder: Path, name: str, content: bytes, *, durable: bool = False, mode: int = 0o666
) -> Path:
    """Write a file below `folder`, in place of what has its name, and return where it lies.

    It is written beside its place and moved there when it is whole, so a link of that name is
    replaced and never followed. Folders between are made.

    Args:
        folder: an existing folder; it may be a link itself.
        name: of the file, with `/` between folders.
        content: all of it.
        durable: force it to the disk, so that it survives a power cut.
        mode: rights before the user's mask.

    Raises:
        OutsideError: the name leads out of the folder.
        OSError: the disk refuses.
    """
    target = inside(folder, name)
    target.parent.mkdir(parents=True, exist_ok=True)
    draft, handle = _draft(target.parent, mode)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            if durable:
                stream.flush()
                os.fsync(stream.fileno())
        draft.replace(target)
    except BaseException:
        draft.unlink(missing_ok=True)
        raise
    if durable:
        _settle(target.parent)
    return target


def inside(folder: Path, name: str) -> Path:
    """Return where `name` lies below `folder`.

    Raises:
        OutsideError: it is no plain name or path, or a link on the way leads out.
    """
    parts = name.split("/")
    path = folder.joinpath(*parts)
    if not all(map(is_plain, parts)) or not leads_inside(folder, path.parent):
        message = f'"{quotable(name)}" leads out of this folder; nothing was written there'
        raise OutsideError([Problem(Place(quotable(str(folder), longest=500)), "", message)])
    return path


def is_plain(name: str) -> bool:
    """Return whether a name is that of a file in the folder where one looks for it."""
    return (
        name not in {"", ".", ".."}
        and not {"/", "\\", "\0"} & set(name)
        and PurePosixPath(name).name == name
    )


def leads_inside(folder: Path, path: Path) -> bool:
    """Return whether a path, all links followed, ends in `folder` or below it."""
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError, ValueError):  # a link to itself, a name that cannot be
        return False


def _draft(folder: Path, mode: int) -> tuple[Path, int]:
    """Return a new empty file under a name of its own, open."""
    while True:
        path = folder / f"{DRAFT}{os.getpid()}-{next(_COUNT)}"
        with contextlib.suppress(FileExistsError):
            return path, os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)


def _settle(folder: Path) -> None:
    """Force the move itself to the disk."""
    above = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(above)
    finally:
        os.close(above)
