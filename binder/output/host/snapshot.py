"""A snapshot of one build: every file of the site and the phone file, held in memory.

A request is answered from here by its exact name or not at all, so that no path, however
written, can reach the disk; and a rebuild changes what is served in one step.
"""

from __future__ import annotations

import gzip
import hashlib
import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

_MEDIA_TYPES = {
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
_COMPRESSIBLE = (".html", ".css", ".js", ".svg")
FRONT_PAGE = "index.html"


@dataclass(frozen=True, slots=True)
class StaticFile:
    """One file as it is sent.

    Attributes:
        content: its bytes.
        gzipped: the same compressed, empty where that gains nothing.
        media_type: the `Content-Type` header.
        etag: the `ETag` header, made from the bytes.
        self_contained: carries its own scripts and styles: the phone file.
    """

    content: bytes
    gzipped: bytes
    media_type: str
    etag: str
    self_contained: bool


@dataclass(frozen=True, slots=True)
class Snapshot:
    """All files of one build.

    Attributes:
        files: by URL path, without the first `/`.
        version: changes when any of them does.
    """

    files: Mapping[str, StaticFile]
    version: str


EMPTY = Snapshot({}, "")


def take(build: Path) -> Snapshot:
    """Return the site and the phone file of an output folder.

    Links to other places and kinds of files that no build writes are left out.
    """
    contents = {
        **_read_tree(build / "site", ""),
        **_read_tree(build / "phone", "phone/"),
    }
    digest = hashlib.sha256()
    for name in sorted(contents):
        digest.update(f"{name} {len(contents[name])} ".encode() + contents[name])
    version = digest.hexdigest()[:16]
    files = {name: _static_file(name, content, version) for name, content in contents.items()}
    if FRONT_PAGE in files:
        files[""] = files[FRONT_PAGE]
    return Snapshot(files, version)


def _read_tree(top: Path, prefix: str) -> dict[str, bytes]:
    contents: dict[str, bytes] = {}
    for folder, subfolders, names in os.walk(top, followlinks=False):
        here = Path(folder)
        subfolders[:] = [name for name in subfolders if not (here / name).is_symlink()]
        for name in names:
            path = here / name
            if path.suffix in _MEDIA_TYPES and path.is_file() and not path.is_symlink():
                contents[prefix + path.relative_to(top).as_posix()] = path.read_bytes()
    return contents


def _static_file(name: str, content: bytes, version: str) -> StaticFile:
    suffix = Path(name).suffix
    if suffix == ".html" and not name.startswith("phone/"):
        # By this a page knows its own age, and that somebody is there to ask for news.
        content = content.replace(b"<html ", f'<html data-version="{version}" '.encode(), 1)
    gzipped = gzip.compress(content, 6, mtime=0) if suffix in _COMPRESSIBLE else b""
    return StaticFile(
        content=content,
        gzipped=gzipped if len(gzipped) < len(content) else b"",
        media_type=_MEDIA_TYPES[suffix],
        etag=f'"{hashlib.sha256(content).hexdigest()[:24]}"',
        self_contained=name.startswith("phone/"),
    )
