"""What the sheets that are out show, kept beside the ledger, so that a pen can mend them.

The file may be lost or spoiled without harm: a text counts only where its mark is the one in
the ledger, and a sheet without its text is printed anew.
"""

from __future__ import annotations

import gzip
import json
import zlib
from typing import TYPE_CHECKING

from binder.output.handed.fingerprint import mark_of
from binder.writing import leads_inside, write_inside

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

FILE = "ledger-sheets.json.gz"
Texts = dict[str, tuple[str, ...]]  # mark -> what `fingerprint.seen` noted
_MOST = 1 << 26  # bytes read: our choice, sixty times the example's


def load(folder: Path) -> Texts:
    """Return the kept texts by their marks; none where there is no file that can be read."""
    path = folder / FILE
    if not path.is_file() or not leads_inside(folder, path):
        return {}
    try:
        with gzip.open(path) as stream:
            raw = json.loads(stream.read(_MOST))
    except (OSError, EOFError, ValueError, zlib.error, RecursionError):
        return {}
    if not isinstance(raw, dict):
        return {}
    return {
        mark: tuple(shown)
        for mark, shown in raw.items()
        if isinstance(shown, list)
        and all(isinstance(part, str) for part in shown)
        and mark_of(shown) == mark
    }


def save(folder: Path, texts: Mapping[str, tuple[str, ...]]) -> None:
    """Keep texts in place of those that were kept.

    Raises:
        OSError: the disk refuses; the file is as it was.
    """
    raw = json.dumps({mark: texts[mark] for mark in sorted(texts)}, ensure_ascii=False)
    write_inside(folder, FILE, gzip.compress(raw.encode(), mtime=0), durable=True)
