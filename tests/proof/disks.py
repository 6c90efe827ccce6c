"""Disks that are full or may not be written: a small file system of its own."""

from __future__ import annotations

import contextlib
import os
import subprocess
from typing import TYPE_CHECKING

from binder.output.handed import ledger
from tests.proof.sandbox import Sandbox, digest, is_told, sandbox

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

DAY, LATER = "2026-06-01", "2026-07-15"


@contextlib.contextmanager
def small_disk(at: Path, size_kb: int) -> Iterator[bool]:
    """Yield whether a file system of that size is mounted at a folder: only root may do so."""
    at.mkdir(parents=True, exist_ok=True)
    options = f"size={size_kb}k"
    done = os.geteuid() == 0 and _mounts("-t", "tmpfs", "-o", options, "tmpfs", str(at))
    try:
        yield done
    finally:
        if done:
            subprocess.run(["umount", str(at)], check=False, capture_output=True)


def _mounts(*arguments: str) -> bool:
    made = subprocess.run(["mount", *arguments], check=False, capture_output=True)
    return made.returncode == 0


def full_build(root: Path) -> list[str] | None:
    """Build onto a disk with room for one binder and a half; None where none can be mounted."""
    here = sandbox(root, out=root / "disk" / "out")
    code, said = sandbox(root / "measure").build(DAY)
    if code:
        return [f"the build before the trial failed: {said[-400:]}"]
    files = (path for path in (root / "measure" / "out").rglob("*") if path.is_file())
    size_kb = sum(path.stat().st_size // 1024 + 4 for path in files)
    with small_disk(root / "disk", size_kb * 3 // 2) as mounted:
        if not mounted:
            return None
        code, said = here.build(DAY)
        if code:
            return [f"the build before the trial failed: {said[-400:]}"]
        before = digest(here.out)
        found = is_told(*here.build(LATER), "No space left", "full")
        if digest(here.out) != before:
            found.append("a full disk took the last binder")
        left = [path.name for path in (root / "disk").iterdir() if path.name != "out"]
        return found + [f"a full disk: {name} is left" for name in left]


def full_hand_over(root: Path) -> list[str] | None:
    """Hand over from a farm on a full disk: the ledger stands and the message says why."""
    with small_disk(root / "disk", 160) as mounted:
        if not mounted:
            return None
        here = sandbox(root, farm=root / "disk" / "farm")
        code, said = here.run(*here.giving("Dana", DAY))
        if code:
            return [f"the hand-over before the trial failed: {said[-400:]}"]
        before = (here.farm / ledger.FILE).read_bytes()
        with contextlib.suppress(OSError), (root / "disk" / "filler").open("wb") as filler:
            while True:
                filler.write(b"x" * 1024)
                filler.flush()
        found = is_told(*here.run(*here.giving("Robin", LATER)), "No space left", "full")
        if (here.farm / ledger.FILE).read_bytes() != before:
            found.append("a full disk changed the ledger")
        return found


def read_only(root: Path) -> list[str] | None:
    """Build into, and hand over from, folders that may not be written."""
    with small_disk(root / "disk", 40_000) as mounted:
        if not mounted:
            return None
        here = sandbox(root, farm=root / "disk" / "farm", out=root / "disk" / "out")
        code, said = here.build(DAY)
        if code:
            return [f"the build before the trial failed: {said[-400:]}"]
        before = digest(here.out)
        _mounts("-o", "remount,ro", str(root / "disk"))
        found = is_told(*here.build(LATER), "Read-only", "cannot be written")
        found += is_told(*here.run(*here.giving("Dana", DAY)), "Read-only", "cannot be written")
        elsewhere = Sandbox(root, here.farm, root / "out")
        code, said = elsewhere.build(DAY)
        found += [f"a farm that may only be read is not built: {said[-400:]}"] if code else []
        return found if digest(here.out) == before else [*found, "the last binder changed"]
