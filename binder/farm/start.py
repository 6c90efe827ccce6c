"""Writes a new farm folder: the starter farm, and the schemas that its editor reads."""

from __future__ import annotations

import os
import shlex
import shutil
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.data import CONTENT
from binder.farm import schema
from binder.problems import Place, Problem, ProblemsError, quotable
from binder.writing import write_inside

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

STARTER = CONTENT / "starter-farm"
SCHEMAS = ".schemas"
# The program and the folder as the starter farm's own text has them, which is the README's way.
_TYPED, _FOLDER = ".venv/bin/binder", "my-farm"


@dataclass(frozen=True, slots=True)
class Started:
    """What was written, and what to do with it.

    Attributes:
        folder: the farm folder.
        files: the names of its files, in the order they are best filled in.
        next_steps: what the owner does now, a sentence each.
    """

    folder: Path
    files: tuple[str, ...]
    next_steps: tuple[str, ...]


ORDER = ("farm", "contacts", "pens", "animals", "equipment", "stays", "private")


def start(folder: Path, typed: Sequence[str] = ("binder",)) -> Started:
    """Write the starter farm into a new or empty folder, all of it or nothing.

    Args:
        folder: where to.
        typed: the program as its user types it, a word each; files and next steps say it so.

    Raises:
        ProblemsError: the folder holds something, or cannot be written.
    """
    where = quotable(str(folder), longest=500)
    commands = {name: shlex.join([*typed, name, where]) for name in ("check", "build")}
    try:
        _refuse_if_taken(folder)
        _place(folder, commands)
    except OSError as error:
        raise _cannot(folder, f"cannot be written: {error.strerror or error}") from error
    return Started(
        folder=folder,
        files=tuple(f"{name}.yaml" for name in ORDER),
        next_steps=(
            f"Open {where}/farm.yaml and put in the name and the address of your farm.",
            "Go on with contacts.yaml, pens.yaml and animals.yaml. Leave the rest for later.",
            f"Type: {commands['check']}",
            f"Type: {commands['build']}",
        ),
    )


def _refuse_if_taken(folder: Path) -> None:
    """Raise where something is already there: nobody's farm is written over."""
    if folder.is_dir():
        if any(folder.iterdir()):
            raise _cannot(folder, "is not empty; name a new folder, nothing was written")
    elif folder.exists() or folder.is_symlink():
        raise _cannot(folder, "is not a folder; name a new one, nothing was written")


def _cannot(folder: Path, message: str) -> ProblemsError:
    return ProblemsError([Problem(Place(quotable(str(folder), longest=500)), "", message)])


def _place(folder: Path, commands: dict[str, str]) -> None:
    """Write everything beside the folder first and move it there when it is whole."""
    target = folder.resolve()
    target.parent.mkdir(parents=True, exist_ok=True)
    draft = target.parent / f".{target.name}.{os.getpid()}.draft"
    draft.mkdir()
    try:
        _write(draft, commands)
        if target.exists():  # somebody may stand in it, so the folder itself stays
            _move_into(target, draft)
        else:
            draft.rename(target)
    finally:
        shutil.rmtree(draft, ignore_errors=True)


def _move_into(target: Path, draft: Path) -> None:
    """Move all that the draft holds; what went before a failure goes back."""
    moved: list[Path] = []
    try:
        for path in sorted(draft.iterdir()):
            path.rename(target / path.name)
            moved.append(path)
    except OSError:
        for path in moved:
            (target / path.name).rename(path)
        raise


def _write(folder: Path, commands: dict[str, str]) -> None:
    """Write the starter farm and the schemas; the files name these where they now lie.

    Args:
        folder: where to.
        commands: what the owner types, by the name of the command.
    """
    for name in ORDER:
        text = (STARTER / f"{name}.yaml").read_text(encoding="utf-8")
        text = text.replace("$schema=../schemas/", f"$schema={SCHEMAS}/", 1)
        for command, line in commands.items():
            text = text.replace(f"{_TYPED} {command} {_FOLDER}", line)
        write_inside(folder, f"{name}.yaml", text.encode())
    schema.write(folder / SCHEMAS)
