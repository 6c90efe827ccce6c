"""The farm's pictures made ready for the pages (the only module that knows Pillow)."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from PIL import Image, ImageOps

from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

LONGEST_PX = 1400  # our choice: sharp across a printed column, small enough for a phone
QUALITY = 82


def ready(folder: Path, names: Iterable[str]) -> Mapping[str, bytes]:
    """Return each named picture upright, small, without what a camera writes beside it.

    Place and time that a camera stores are left out: a binder is handed to strangers.

    Args:
        folder: the farm's pictures/.
        names: file names in it.

    Raises:
        ProblemsError: pictures that cannot be opened, all of them.
    """
    found: dict[str, bytes] = {}
    problems: list[Problem] = []
    for name in names:
        try:
            found[name] = _small(folder / name)
        except (OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
            place = Place(f"pictures/{name}")
            problems.append(Problem(place, "", f"cannot be opened as a picture: {error}"))
    if problems:
        raise ProblemsError(problems)
    return found


def _small(path: Path) -> bytes:
    with Image.open(path) as opened:
        kind = "PNG" if opened.format == "PNG" else "JPEG"
        picture = ImageOps.exif_transpose(opened)
        picture.thumbnail((LONGEST_PX, LONGEST_PX))
        if kind == "JPEG" and picture.mode != "RGB":
            picture = picture.convert("RGB")
        stream = io.BytesIO()
        picture.save(stream, kind, quality=QUALITY, optimize=True)
    return stream.getvalue()
