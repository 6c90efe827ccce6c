"""Keeps what takes long to make between builds: drawn sheets, texts and tables already read.

A thing is kept under a name made from everything that it is made from, so a stale one cannot be
asked for. The folder is safe to delete at any time, also during a build; a damaged entry, one
that lies under another name, and one that another user wrote count as absent.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import stat
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar, cast

import platformdirs

from binder.writing import OutsideError, write_inside

if TYPE_CHECKING:
    from collections.abc import Callable

Plain = TypeVar("Plain")

LARGEST_BYTES = 200_000_000  # our choice: some 5,000 sheets
_LARGEST_TEXTS = 30_000_000  # bytes, our choice: all that twenty farms read and compose
_SWEEP = "00"  # a name that ends so, one in 256, has its folder trimmed
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
    return _folder() / "sheets"


def texts() -> Cache:
    """Return where small things are kept that are read or made anew by every command."""
    return Cache(_folder() / "texts", _LARGEST_TEXTS, sweeps=True)


def kept(
    made_by: str | bytes, parts: tuple[str | bytes, ...], make: Callable[[], Plain]
) -> Plain:
    """Return what `make` makes, kept from the last time that it was asked for.

    Args:
        made_by: the code that makes it, such as the text of its module.
        parts: all else that it is made from.
        make: makes it: texts, lists and dictionaries of texts, as JSON knows them.
    """
    store, key = texts(), key_of(made_by, *parts)
    found = store.get(key)
    if found is not None:
        with contextlib.suppress(ValueError):
            return cast("Plain", json.loads(found))
    made = make()
    store.put(key, json.dumps(made).encode())
    return made


def _folder() -> Path:
    return Path(platformdirs.user_cache_dir("binder", appauthor=False))


class Cache:
    """Things in a folder, each sealed with the checksum of its name and itself."""

    def __init__(
        self, folder: Path, largest: int = LARGEST_BYTES, *, sweeps: bool = False
    ) -> None:
        """Use `folder`, made when first written; `trim` leaves at most `largest` [bytes].

        Where it `sweeps` it trims by itself, now and then.
        """
        self.folder = folder
        self.largest = largest
        self.sweeps = sweeps

    def get(self, key: str, *, alone: bool = False) -> bytes | None:
        """Return what was put under `key`, or None when it is absent, damaged or another's.

        `alone` refuses what any other user of the computer could have changed.
        """
        path = self._path(key)
        try:
            with path.open("rb") as stream:
                if not _is_ours(os.fstat(stream.fileno()), alone=alone):
                    return None
                raw = stream.read()
        except OSError:
            return None
        with contextlib.suppress(OSError):  # a disk that may only be read
            os.utime(path)  # used now: the last to go when the folder is trimmed
        seal, content = raw[:_SEAL], raw[_SEAL:]
        return content if _seal(key, content) == seal else None

    def put(self, key: str, content: bytes) -> None:
        """Keep `content`; a folder that cannot be written costs time, never a binder."""
        with contextlib.suppress(OSError, OutsideError):
            write_inside(self.folder, _name(key), _seal(key, content) + content, mode=_MINE)
        if self.sweeps and key.endswith(_SWEEP):
            self.trim()

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


def _seal(key: str, content: bytes) -> bytes:
    return hashlib.sha256(key.encode() + content).digest()


def _is_ours(status: os.stat_result, *, alone: bool) -> bool:
    """Return whether a file is the user's own; Windows keeps others out of the folder."""
    if os.name == "nt":
        return True
    others = alone and bool(status.st_mode & (stat.S_IWGRP | stat.S_IWOTH))
    return status.st_uid == os.geteuid() and not others
