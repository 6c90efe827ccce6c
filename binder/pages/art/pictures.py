"""The farm's pictures made ready for the pages (the only module that knows Pillow)."""

from __future__ import annotations

import io
import warnings
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import PIL
from PIL import Image, ImageFile, ImageOps

from binder.cache import Cache, default_folder, key_of
from binder.problems import Place, Problem, ProblemsError, quotable
from binder.writing import is_plain, leads_inside

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

LONGEST_PX = 1400  # our choice: sharp across a printed column, small enough for a phone
QUALITY = 82
# For the phone file, which carries all of them inside: longest side [px] and quality, the first
# pair with which they fit together. Our choice: the whole file stays below 3 MB.
POCKET = ((800, 65), (560, 60), (400, 55), (280, 45))
POCKET_BYTES = 1_400_000
# An animal's picture: the same frame for all, so that they stand side by side. Our choice: four
# to three as a camera takes it, sharp at a third of a column; a little above the middle, where
# the head is.
FACE_PX, FACE_AT = (480, 360), (0.5, 0.4)
_FACE = ".face.jpg"
_FACE_SAVED = (max(FACE_PX), QUALITY)


def face(name: str) -> str:
    """Return the name under which a picture is asked for in the frame that faces have."""
    return name + _FACE


def ready(folder: Path, names: Iterable[str]) -> Mapping[str, bytes]:
    """Return each named picture upright, small, without what a camera writes beside it.

    Place and time that a camera stores are left out: a binder is handed to strangers.

    Args:
        folder: the farm's pictures/.
        names: file names in it.

    Raises:
        ProblemsError: names of files elsewhere, pictures that cannot be opened; all of them.
    """
    found: dict[str, bytes] = {}
    problems: list[Problem] = []
    for name in names:
        path = folder / name.removesuffix(_FACE)
        if not is_plain(name) or not leads_inside(folder.parent, path):
            message = f"is no name of a picture in {folder.name}/"
            problems.append(Problem(Place(f"pictures/{quotable(name)}"), "", message))
            continue
        try:
            framed = name.endswith(_FACE)
            found[name] = _once(
                path.read_bytes(), str(framed), partial(_small, path, framed=framed)
            )
        except (OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
            place = Place(f"pictures/{path.name}")
            problems.append(Problem(place, "", f"cannot be opened as a picture: {error}"))
    if problems:
        raise ProblemsError(problems)
    return found


def _once(raw: bytes, how: str, make: Callable[[], bytes]) -> bytes:
    """Return a picture made of another, kept from the last time."""
    store = Cache(default_folder())
    key = key_of("picture", Path(__file__).read_bytes(), PIL.__version__, how, raw)
    found = store.get(key)
    if found is None:
        found = make()
        store.put(key, found)
    return found


def _small(path: Path, *, framed: bool) -> bytes:
    with warnings.catch_warnings():
        # It warns of large pictures, which were measured when read, and of odd notes in them.
        warnings.simplefilter("ignore")
        # The printing library, where it was loaded, lets pictures pass that were cut off.
        ImageFile.LOAD_TRUNCATED_IMAGES = False
        return _framed(path) if framed else _opened(path)


def _opened(path: Path) -> bytes:
    with Image.open(path) as opened:
        kind = "PNG" if opened.format == "PNG" else "JPEG"
        return _saved(ImageOps.exif_transpose(opened), kind, LONGEST_PX, QUALITY)


def _framed(path: Path) -> bytes:
    """Return a picture cut to the frame of a face; what can be seen through becomes white."""
    with Image.open(path) as opened:
        upright = ImageOps.exif_transpose(opened).convert("RGBA")
        ground = Image.new("RGBA", upright.size, "white")
        picture = Image.alpha_composite(ground, upright).convert("RGB")
        return _saved(ImageOps.fit(picture, FACE_PX, centering=FACE_AT), "JPEG", *_FACE_SAVED)


def pocket(pictures: Mapping[str, bytes]) -> Mapping[str, bytes]:
    """Return pictures that are `ready`, small enough to be carried in the phone file.

    Args:
        pictures: name -> file.
    """
    found: dict[str, bytes] = {}
    for longest_px, quality in POCKET:
        found = {
            name: _once(
                raw, f"{longest_px} {quality}", partial(_smaller, raw, longest_px, quality)
            )
            for name, raw in pictures.items()
        }
        if sum(map(len, found.values())) <= POCKET_BYTES:
            break
    return found


def _smaller(raw: bytes, longest_px: int, quality: int) -> bytes:
    with Image.open(io.BytesIO(raw)) as opened:
        seen_through = "A" in opened.getbands() or "transparency" in opened.info
        kind = "PNG" if opened.format == "PNG" and seen_through else "JPEG"
        return min(_saved(opened, kind, longest_px, quality), raw, key=len)


def _saved(picture: Image.Image, kind: str, longest_px: int, quality: int) -> bytes:
    picture.thumbnail((longest_px, longest_px))
    if kind == "JPEG" and picture.mode != "RGB":
        picture = picture.convert("RGB")
    stream = io.BytesIO()
    picture.save(stream, kind, quality=quality, optimize=True)
    return stream.getvalue()
