"""The farm's pictures, judged by their heads: nothing is decoded, whatever it claims."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from typing import TYPE_CHECKING, BinaryIO

from binder.problems import Place, Problem, did_you_mean, quotable
from binder.yamlfile import named

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from binder.yamlfile import Document, Path_, Plain

FOLDER = "pictures"

# All three are our choice: more than a phone's camera makes, less than fills a memory.
LARGEST_BYTES = 20 * 1024 * 1024
LONGEST_SIDE_PX = 12_000
MOST_PIXELS = 120_000_000
_MOST_SUGGESTED = 200  # pictures among which the nearest name is looked for: our choice
ENDINGS = (".png", ".jpg", ".jpeg")


@dataclass(frozen=True, slots=True)
class Picture:
    """A file in pictures/: its size in pixels, or why it cannot be used."""

    width_px: int = 0
    height_px: int = 0
    fault: str = ""


def look(path: Path) -> Picture:
    """Return what the file is."""
    if not path.is_file():
        return Picture(fault="is not a file")
    try:
        size = path.stat().st_size
        if size > LARGEST_BYTES:
            megabytes = size / 1024 / 1024
            most = f"{LARGEST_BYTES / 1024 / 1024:.0f} MB are the most"
            return Picture(fault=f"is {megabytes:,.0f} MB large; {most}, so save it smaller")
        with path.open("rb") as stream:
            found = _size(stream)
    except OSError as error:
        return Picture(fault=f"cannot be read: {error.strerror or error}")
    if found is None:
        return Picture(fault="is not a PNG or JPEG picture; save it as one of them")
    return Picture(*found, fault=_too_large(*found))


def _too_large(width: int, height: int) -> str:
    if max(width, height) > LONGEST_SIDE_PX or width * height > MOST_PIXELS:
        return f"measures {width:,} x {height:,} px; {LONGEST_SIDE_PX:,} a side are the most"
    return ""


def _size(stream: BinaryIO) -> tuple[int, int] | None:
    """Return width and height [px] as the file states them, None where it is neither kind.

    Only the head is read. The readers are used by themselves: `Image.open` would refuse by
    its own limit what `_too_large` refuses by ours, with the size in the message.
    """
    from PIL.JpegImagePlugin import JpegImageFile  # when a farm has pictures: it takes long
    from PIL.PngImagePlugin import PngImageFile

    for reader in (PngImageFile, JpegImageFile):
        stream.seek(0)
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")  # of odd notes in a picture
                return reader(stream).size
        except (SyntaxError, ValueError, OSError):  # at a head that is not theirs
            continue
    return None


def problems(
    documents: Mapping[str, Document], pictures: Mapping[str, Picture]
) -> list[Problem]:
    """Return pictures that are named and not there, and those that cannot be printed."""
    used: set[str] = set()
    found = []
    for document in documents.values():
        for path, name in _named(document.data, ()):
            used.add(name)
            fault = _fault(pictures, name)
            if fault:
                where = named(document.data, path)
                found.append(
                    Problem(document.place(path), where, f'"{quotable(name)}" {fault}')
                )
    return found + [
        Problem(Place(f"{FOLDER}/{quotable(name)}"), "", picture.fault)
        for name, picture in pictures.items()
        if picture.fault and name not in used and name.lower().endswith(ENDINGS)
    ]


def _fault(pictures: Mapping[str, Picture], name: str) -> str:
    """Return why a picture that is named cannot be shown, empty where it can."""
    if name in pictures:
        return pictures[name].fault
    if len(pictures) > _MOST_SUGGESTED:
        return f"is not in {FOLDER}/"
    return f"is not in {FOLDER}/{did_you_mean(name, pictures)}"


def _named(data: Plain, path: Path_) -> Iterator[tuple[Path_, str]]:
    """Yield what every `picture` key of a file names, with its path."""
    if isinstance(data, list):
        for number, item in enumerate(data):
            yield from _named(item, (*path, number))
    elif isinstance(data, dict):
        for key, item in data.items():
            if key == "picture" and isinstance(item, str):
                yield (*path, key), item.strip()
            else:
                yield from _named(item, (*path, key))
