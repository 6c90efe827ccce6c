"""The farm's pictures, judged by their first bytes: nothing is decoded, whatever it claims."""

from __future__ import annotations

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

_PNG = b"\x89PNG\r\n\x1a\n"
_JPEG = b"\xff\xd8\xff"
# Start of frame: the marker segments of a JPEG that give its size (ITU-T T.81, table B.1).
_FRAMES = frozenset(
    {0xC0, 0xC1, 0xC2, 0xC3, 0xC5, 0xC6, 0xC7, 0xC9, 0xCA, 0xCB, 0xCD, 0xCE, 0xCF}
)
_BARE = frozenset({0x01, *range(0xD0, 0xD8)})  # markers without a length
_MOST_SEGMENTS = 2_000  # our choice: a file that hides its size behind more is none we want


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
        with path.open("rb") as stream:
            found = _size(stream)
    except OSError as error:
        return Picture(fault=f"cannot be read: {error.strerror or error}")
    if found is None:
        return Picture(fault="is not a PNG or JPEG picture; save it as one of them")
    return Picture(*found, fault=_too_large(size, *found))


def _too_large(size_bytes: int, width: int, height: int) -> str:
    if size_bytes > LARGEST_BYTES:
        megabytes = size_bytes / 1024 / 1024
        return f"is {megabytes:,.0f} MB large; 20 MB are the most, so save it smaller"
    if max(width, height) > LONGEST_SIDE_PX or width * height > MOST_PIXELS:
        return f"measures {width:,} x {height:,} px; {LONGEST_SIDE_PX:,} a side are the most"
    if min(width, height) < 1:
        return "has no size; save it again as PNG or JPEG"
    return ""


def _size(stream: BinaryIO) -> tuple[int, int] | None:
    """Return width and height [px] as the file states them, None where it is neither kind."""
    head = stream.read(24)
    if head.startswith(_PNG):
        if len(head) < 24 or head[12:16] != b"IHDR":
            return None
        return int.from_bytes(head[16:20], "big"), int.from_bytes(head[20:24], "big")
    if head.startswith(_JPEG):
        stream.seek(2)
        return _jpeg_size(stream)
    return None


def _jpeg_size(stream: BinaryIO) -> tuple[int, int] | None:
    """Return the size that the first frame header states, skipping the segments before it."""
    for _ in range(_MOST_SEGMENTS):
        marker = stream.read(2)
        if len(marker) < 2 or marker[0] != 0xFF:
            return None
        if marker[1] == 0xFF:  # padding before a marker
            stream.seek(-1, 1)
            continue
        if marker[1] in _BARE:
            continue
        length = int.from_bytes(stream.read(2), "big")
        if marker[1] in _FRAMES:
            frame = stream.read(5)
            if len(frame) < 5:
                return None
            return int.from_bytes(frame[3:5], "big"), int.from_bytes(frame[1:3], "big")
        if length < 2:
            return None
        stream.seek(length - 2, 1)
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
