"""Pictures are judged by their heads.

Pillow writes and reads them; that it does so by the book is held by two heads typed from the
standards: PNG (W3C, third edition, 11.2.1) and JPEG (ITU-T T.81, B.2.2 and B.2.3).
"""

from __future__ import annotations

import io
import zlib
from typing import TYPE_CHECKING, Literal

import pytest
from PIL import Image

from binder.farm import pictures

if TYPE_CHECKING:
    from pathlib import Path

    from tests.conftest import FarmFolder
    from tests.farm.conftest import Checked, Said

PENS = "- {{id: creek, name: Creek, kind: run, picture: {name}}}\n"


def made(
    kind: Literal["PNG", "JPEG", "GIF"], size: tuple[int, int], **options: object
) -> bytes:
    """Return a picture that Pillow wrote."""
    stream = io.BytesIO()
    Image.new("RGB", size, "white").save(stream, kind, **options)
    return stream.getvalue()


def png_claiming(width: int, height: int) -> bytes:
    """Return the first bytes of a PNG that says it is so large, and nothing after."""
    whole = made("PNG", (1, 1))
    head = b"IHDR" + width.to_bytes(4, "big") + height.to_bytes(4, "big") + whole[24:29]
    return whole[:12] + head + zlib.crc32(head).to_bytes(4, "big") + whole[33:]


def kept(folder: Path, name: str, data: bytes) -> Path:
    """Return a file that holds the bytes."""
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    return path


@pytest.mark.parametrize("size", [(1, 1), (640, 480), (3, 12_000)])
def test_sizes_are_read_from_the_head(tmp_path: Path, size: tuple[int, int]) -> None:
    """Width and height come out as they were put in, also behind other segments."""
    exif = Image.Exif()
    exif[0x010E] = "x" * 30_000
    for data in (
        made("PNG", size),
        made("JPEG", size),
        made("JPEG", size, progressive=True),
        made("JPEG", size, exif=exif.tobytes(), comment=b"c" * 50_000),
    ):
        found = pictures.look(kept(tmp_path, "picture", data))
        assert (found.width_px, found.height_px, found.fault) == (*size, "")


def test_heads_typed_from_the_standards_are_read(tmp_path: Path) -> None:
    """Both state 300 x 200 pixels: 0x012C and 0x00C8; in a JPEG the height comes first."""
    ihdr = b"IHDR" + bytes.fromhex("0000012C 000000C8 08 02 00 00 00")
    crc = zlib.crc32(ihdr).to_bytes(4, "big")
    png = b"\x89PNG\r\n\x1a\n" + (13).to_bytes(4, "big") + ihdr + crc
    png += bytes(4) + b"IDAT" + zlib.crc32(b"IDAT").to_bytes(4, "big")
    frame = "FFC0 0011 08 00C8 012C 03 01 11 00 02 11 00 03 11 00"
    scan = "FFDA 000C 03 01 00 02 00 03 00 00 3F 00"
    jpeg = bytes.fromhex(f"FFD8 {frame} {scan}")
    for data in (png, jpeg):
        found = pictures.look(kept(tmp_path, "picture", data))
        assert (found.width_px, found.height_px, found.fault) == (300, 200, "")


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\x89PNG\r\n\x1a\n",
        b"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIDAT\x00\x00\x00\x01\x00\x00\x00\x01",
        b"\xff\xd8\xff",
        b"\xff\xd8\xff\xe0\x00\x01",
        b"\xff\xd8\xff\xe0\x00\x02\x00\x00",
        b"\xff\xd8\xff\xc0\x00\x11\x08\x00",
        b"\xff\xd8\xff\xff\xff\xff",
        b"\xff\xd8" + b"\xff\xd0" * 3_000,
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        made("GIF", (4, 4)),
    ],
)
def test_what_is_no_picture_is_refused(tmp_path: Path, data: bytes) -> None:
    """Other kinds, and heads that end too early, are not PNG or JPEG."""
    found = pictures.look(kept(tmp_path, "picture.png", data))
    assert found.fault == "is not a PNG or JPEG picture; save it as one of them"


def test_padding_before_a_marker_is_skipped(tmp_path: Path) -> None:
    """Any number of fill bytes may stand before a marker (T.81, B.1.1.2)."""
    data = made("JPEG", (7, 5))
    padded = data[:2] + b"\xff\xff\xff" + data[2:]
    found = pictures.look(kept(tmp_path, "picture.jpg", padded))
    assert (found.width_px, found.height_px) == (7, 5)


@pytest.mark.parametrize(
    ("width", "height", "fault"),
    [
        (12_000, 10_000, ""),
        (12_001, 1, "measures 12,001 x 1 px; 12,000 a side are the most"),
        (12_000, 10_001, "measures 12,000 x 10,001 px; 12,000 a side are the most"),
        (2**31 - 1, 2**31 - 1, "measures 2,147,483,647 x 2,147,483,647 px; 12,000 a side"),
        (0, 5, "is not a PNG or JPEG picture"),  # W3C PNG 11.2.1: nought is no width
    ],
)
def test_a_picture_that_would_fill_the_memory_is_refused(
    tmp_path: Path, width: int, height: int, fault: str
) -> None:
    """What it claims is believed and nothing is unpacked."""
    found = pictures.look(kept(tmp_path, "picture.png", png_claiming(width, height)))
    assert found.fault.startswith(fault)
    assert bool(found.fault) == bool(fault)


def test_a_file_of_more_than_20_mb_is_refused(tmp_path: Path) -> None:
    """The size of the file counts, not of the picture."""
    path = kept(tmp_path, "picture.png", made("PNG", (4, 4)))
    with path.open("ab") as stream:
        stream.truncate(21 * 1024 * 1024)
    assert pictures.look(path).fault == "is 21 MB large; 20 MB are the most, so save it smaller"


def test_a_folder_is_no_picture(tmp_path: Path) -> None:
    """A folder in pictures/ is left alone unless something names it."""
    assert pictures.look(tmp_path).fault == "is not a file"


def test_a_picture_that_cannot_be_opened_says_why(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The system's own reason is passed on."""
    path = kept(tmp_path, "picture.png", b"")

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(type(path), "open", refuse)
    assert pictures.look(path).fault == "cannot be read: Permission denied"


def test_good_pictures_are_listed(farm_folder: FarmFolder, checked: Checked) -> None:
    """The farm knows the pictures it may show, named or not."""
    folder = farm_folder({}) / "pictures"
    kept(folder, "gate.png", made("PNG", (4, 4)))
    kept(folder, "trough.jpg", made("JPEG", (4, 4)))
    kept(folder, "notes.txt", b"x")
    farm = checked({"pens.yaml": PENS.format(name="gate.png")})
    assert farm.pictures == ("gate.png", "trough.jpg")


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("gat.png", '"gat.png" is not in pictures/; did you mean gate.png?'),
        ("../farm.yaml", '"../farm.yaml" is not in pictures/; expected one of gate.png'),
        ("notes.txt", '"notes.txt" is not a PNG or JPEG picture; save it as one of them'),
    ],
)
def test_a_picture_that_is_named_must_be_there(
    farm_folder: FarmFolder, said: Said, name: str, expected: str
) -> None:
    """Names lead to files in pictures/ and nowhere else."""
    folder = farm_folder({}) / "pictures"
    kept(folder, "gate.png", made("PNG", (4, 4)))
    kept(folder, "notes.txt", b"x")
    found = said({"pens.yaml": PENS.format(name=name)})
    assert len(found) == 1
    assert found[0].startswith(f"pens.yaml:1:48  creek > picture: {expected}")


def test_a_picture_without_a_folder_is_said(said: Said) -> None:
    """Without pictures/ there is nothing to suggest."""
    assert said({"pens.yaml": PENS.format(name="gate.png")}) == [
        'pens.yaml:1:48  creek > picture: "gate.png" is not in pictures/'
    ]


def test_among_very_many_pictures_none_is_suggested(
    farm_folder: FarmFolder, said: Said
) -> None:
    """Looking for the nearest of thousands would take long."""
    folder = farm_folder({}) / "pictures"
    for number in range(201):
        kept(folder, f"{number}.png", made("PNG", (1, 1)))
    assert said({"pens.yaml": PENS.format(name="7.pn")}) == [
        'pens.yaml:1:48  creek > picture: "7.pn" is not in pictures/'
    ]


def test_a_bad_picture_that_nothing_names_is_said(farm_folder: FarmFolder, said: Said) -> None:
    """A file that calls itself a picture will be wanted on a page sooner or later."""
    kept(farm_folder({}) / "pictures", "gate.PNG", b"x")
    assert said({}) == [
        "pictures/gate.PNG  is not a PNG or JPEG picture; save it as one of them"
    ]
