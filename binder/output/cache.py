"""Keeps drawn sheets between builds, so that only changed ones are drawn again.

A sheet is kept under a name made from everything that can change its look, so a stale one
cannot be asked for. The folder is safe to delete at any time, also during a build; a damaged
entry counts as absent.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from pathlib import Path

import platformdirs

from binder.writing import OutsideError, write_inside

LARGEST_BYTES = 200_000_000  # our choice: some 5,000 sheets
_MINE = 0o600  # what a sheet says may be private
_SEAL = 32  # bytes of SHA-256 in front of each entry


def key_of(*parts: str | bytes) -> str:
    """Return a name for what is made from `parts` (lengths count, so none can run over)."""
    digest = hashlib.sha256()
    for part in parts:
        raw = part.encode() if isinstance(part, str) else part
        digest.update(f"{len(raw)}:".encode())
        digest.update(raw)
    return digest.hexdigest()


def default_folder() -> Path:
    """Return the system's place for things that may be deleted."""
    return Path(platformdirs.user_cache_dir("binder", appauthor=False)) / "sheets"


class Cache:
    """Drawn sheets in a folder, each sealed with its own checksum."""

    def __init__(self, folder: Path, largest: int = LARGEST_BYTES) -> None:
        """Use `folder`, made when first written; `trim` leaves at most `largest` [bytes]."""
        self.folder = folder
        self.largest = largest

    def get(self, key: str) -> bytes | None:
        """Return what was put under `key`, or None when it is absent or damaged."""
        path = self._path(key)
        try:
            raw = path.read_bytes()
            os.utime(path)  # used now: the last to go when the folder is trimmed
        except OSError:
            return None
        seal, content = raw[:_SEAL], raw[_SEAL:]
        return content if hashlib.sha256(content).digest() == seal else None

    def put(self, key: str, content: bytes) -> None:
        """Keep `content`; a folder that cannot be written costs time, never a binder."""
        sealed = hashlib.sha256(content).digest() + content
        with contextlib.suppress(OSError, OutsideError):
            write_inside(self.folder, _name(key), sealed, mode=_MINE)

    def trim(self) -> None:
        """Delete the longest unused entries until the rest fits."""
        entries = []
        for path in self.folder.glob("*/*"):
            with contextlib.suppress(OSError):
                status = path.stat()
                entries.append((status.st_mtime_ns, status.st_size, path))
        total = sum(size for _, size, _ in entries)
        for _, size, path in sorted(entries):
            if total <= self.largest:
                return
            with contextlib.suppress(OSError):
                path.unlink()
            total -= size

    def _path(self, key: str) -> Path:
        return self.folder / _name(key)


def _name(key: str) -> str:
    return f"{key[:2]}/{key}"
