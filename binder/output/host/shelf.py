"""What the host shows: every file of the site and the phone file, held in memory.

A request is answered from here by its exact name or not at all, so that no path, however
written, can reach the disk; and a rebuild changes what is shown in one step.
"""

from __future__ import annotations

import gzip
import hashlib
import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

_KINDS = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".woff2": "font/woff2",
}
_PRESSED = (".html", ".css", ".js", ".svg")
FRONT = "index.html"


@dataclass(frozen=True, slots=True)
class Item:
    """One file: its bytes, the same pressed (empty where that gains nothing), kind and seal."""

    content: bytes
    pressed: bytes
    kind: str
    etag: str
    whole_page: bool  # carries its own scripts: the phone file


@dataclass(frozen=True, slots=True)
class Shelf:
    """All files of one build.

    Attributes:
        items: by the path that asks for them, without the first `/`.
        version: changes when any of them does.
    """

    items: Mapping[str, Item]
    version: str


EMPTY = Shelf({}, "")


def read(build: Path) -> Shelf:
    """Return the site and the phone file of an output folder.

    Links to other places and kinds of files that no build writes are left out.
    """
    raw = {
        **_files(build / "site", ""),
        **_files(build / "phone", "phone/"),
    }
    digest = hashlib.sha256()
    for name in sorted(raw):
        digest.update(f"{name} {len(raw[name])} ".encode() + raw[name])
    version = digest.hexdigest()[:16]
    items = {name: _item(name, content, version) for name, content in raw.items()}
    if FRONT in items:
        items[""] = items[FRONT]
    return Shelf(items, version)


def _files(folder: Path, prefix: str) -> dict[str, bytes]:
    found: dict[str, bytes] = {}
    for place, folders, names in os.walk(folder, followlinks=False):
        here = Path(place)
        folders[:] = [name for name in folders if not (here / name).is_symlink()]
        for name in names:
            path = here / name
            if path.suffix in _KINDS and path.is_file() and not path.is_symlink():
                found[prefix + path.relative_to(folder).as_posix()] = path.read_bytes()
    return found


def _item(name: str, content: bytes, version: str) -> Item:
    suffix = Path(name).suffix
    if suffix == ".html" and not name.startswith("phone/"):
        # By this a page knows its own age, and that somebody is there to ask for news.
        content = content.replace(b"<html ", f'<html data-version="{version}" '.encode(), 1)
    pressed = gzip.compress(content, 6, mtime=0) if suffix in _PRESSED else b""
    return Item(
        content=content,
        pressed=pressed if len(pressed) < len(content) else b"",
        kind=_KINDS[suffix],
        etag=f'"{hashlib.sha256(content).hexdigest()[:24]}"',
        whole_page=name.startswith("phone/"),
    )
