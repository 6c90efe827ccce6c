"""A farm folder, an output folder and the real command, for doing harm to them."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.data import CONTENT

if TYPE_CHECKING:
    from pathlib import Path

FARM = CONTENT / "starter-farm"  # small, so that a build takes a second or two
ROOT = CONTENT.parent
CACHE = "BINDER_PROOF_CACHE"  # names a folder of drawn sheets for all sandboxes to share
LONGEST_S = 300  # of one command, on a machine with other work


@dataclass(frozen=True, slots=True)
class Sandbox:
    """Where a trial takes place: all of it below one folder.

    Attributes:
        root: that folder.
        farm: a copy of the starter farm.
        out: where binders are built.
        options: of every build.
    """

    root: Path
    farm: Path
    out: Path
    options: tuple[str, ...] = ()

    def start(self, *arguments: str, **more: str) -> subprocess.Popen[str]:
        """Start `binder` with these arguments, its words kept."""
        return subprocess.Popen(
            [sys.executable, "-P", "-m", "binder", *arguments],
            cwd=ROOT,
            env=self._environment() | more,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            start_new_session=True,  # so that its drawing processes can be ended with it
        )

    def run(self, *arguments: str, **more: str) -> tuple[int, str]:
        """Run `binder` to its end; return its exit code and what it said."""
        process = self.start(*arguments, **more)
        said, _ = process.communicate(timeout=LONGEST_S)
        return process.returncode, said

    def build(self, day: str, *options: str) -> tuple[int, str]:
        """Build the farm's binder for a day."""
        return self.run(*self.building(day), *options)

    def building(self, day: str) -> tuple[str, ...]:
        """Return the arguments that build the farm's binder for a day."""
        where = (str(self.farm), "--to", str(self.out))
        return "build", *where, *self.options, "--date", day

    def giving(self, name: str, day: str) -> tuple[str, ...]:
        """Return the arguments that hand the binder over to somebody on a day."""
        into = str(self.root / "given")
        return "hand-over", str(self.farm), "--to", name, "--date", day, "--into", into

    def _environment(self) -> dict[str, str]:
        cache = os.environ.get(CACHE, str(self.root / "cache"))
        return os.environ | {"XDG_CACHE_HOME": cache, "PYTHONWARNINGS": ""}


def sandbox(
    root: Path, farm: Path | None = None, out: Path | None = None, options: tuple[str, ...] = ()
) -> Sandbox:
    """Return a sandbox below `root` with a fresh farm; its folders may lie elsewhere."""
    made = Sandbox(root, farm or root / "farm", out or root / "out", options)
    shutil.copytree(FARM, made.farm, dirs_exist_ok=True)
    return made


def digest(folder: Path) -> str:
    """Return one mark of all names and bytes in a folder, empty where there is none."""
    if not folder.is_dir():
        return ""
    found = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        found.update(str(path.relative_to(folder)).encode() + b"\0")
        found.update(path.read_bytes() if path.is_file() else b"/")
    return found.hexdigest()


def is_told(code: int, said: str, *words: str) -> list[str]:
    """Return what is wrong with a refusal: code 1, no trace, and some of these words."""
    found = []
    if code != 1:
        found.append(f"ended with {code}, not 1: {said[-400:]}")
    if "Traceback" in said:
        found.append(f"ended in a trace: {said[-600:]}")
    if not any(word in said for word in words):
        found.append(f"does not say {' or '.join(words)}: {said[-400:]}")
    return found
