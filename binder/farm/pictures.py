"""The farm's pictures, judged by their heads: no picture is unpacked, whatever it claims."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from typing import TYPE_CHECKING, BinaryIO

from PIL.JpegImagePlugin import JpegImageFile
from PIL.PngImagePlugin import PngImageFile

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

# The kinds that browsers and print share; Pillow reads the head of each.
_KINDS = (PngImageFile, JpegImageFile)


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
        bytes_long = path.stat().st_size
        if bytes_long > LARGEST_BYTES:  # before a line of it is read
            megabytes = bytes_long / 1024 / 1024
            fault = f"is {megabytes:,.0f} MB large; 20 MB are the most, so save it smaller"
            return Picture(fault=fault)
        with path.open("rb") as stream:
            size = _size(stream)
    except OSError as error:
        return Picture(fault=f"cannot be read: {error.strerror or error}")
    if size is None:
        return Picture(fault="is not a PNG or JPEG picture; save it as one of them")
    return Picture(*size, fault=_too_large(*size))


def _too_large(width: int, height: int) -> str:
    if max(width, height) > LONGEST_SIDE_PX or width * height > MOST_PIXELS:
        return f"measures {width:,} x {height:,} px; {LONGEST_SIDE_PX:,} a side are the most"
    return ""


def _size(stream: BinaryIO) -> tuple[int, int] | None:
    """Return width and height [px] as the head states them, None where it is neither kind.

    The readers of each kind are asked by name: opened the usual way, a picture that claims too
    many pixels would be refused without telling its size.
    """
    for kind in _KINDS:
        stream.seek(0)
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")  # odd notes beside the picture
                return kind(stream).size
        except (SyntaxError, ValueError, OSError):
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
