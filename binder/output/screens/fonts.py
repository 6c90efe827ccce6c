"""The binder's letters as small web fonts (the only module that knows fonttools).

They come from the font package, never from the machine. Packing them takes a third of a second,
so the result is kept beside the drawn sheets.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from binder.cache import Cache, default_folder, key_of
from binder.letters import OWN_FAMILY as FAMILY
from binder.letters import OWN_FILES, WEIGHTS

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

__all__ = ["FAMILY", "WEIGHTS", "files", "name"]

_PACKED_AS = "woff2 1"  # counts up when this module packs otherwise than before


def files(cache: Cache | None = None) -> Mapping[str, bytes]:
    """Return file name -> WOFF2, one for each weight.

    Args:
        cache: where packed fonts are kept; None for the system's place.
    """
    kept = cache or Cache(default_folder())
    return {name(weight): _packed(path, kept) for weight, path in OWN_FILES.items()}


def name(weight: int) -> str:
    """Return the file name of a weight."""
    return f"atkinson-hyperlegible-{WEIGHTS[weight].lower()}.woff2"


def _packed(path: Path, kept: Cache) -> bytes:
    raw = path.read_bytes()
    key = key_of(_PACKED_AS, raw)
    found = kept.get(key)
    if found is None:
        found = _pack(raw)
        kept.put(key, found)
    return found


def _pack(raw: bytes) -> bytes:
    from fontTools.ttLib import TTFont  # noqa: PLC0415 -- most builds find it packed already

    stream = io.BytesIO()
    # Without this the time of packing would go into the file.
    with TTFont(io.BytesIO(raw), recalcTimestamp=False) as font:
        font.flavor = "woff2"
        font.save(stream)
    return stream.getvalue()
