"""Who is who: marks and pictures side by side, every picture in the same frame."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from binder.build import book_of
from binder.pages.art.pictures import FACE_PX, face, ready
from tests import farm_data
from tests.pages.conftest import DAY

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from binder.pages.page import Book


def body(book: Book) -> str:
    """Return the sheet's HTML."""
    return next(one.body for one in book.pages if one.slug == "who-is-who")


@pytest.mark.parametrize(("size", "mode"), [((900, 300), "RGB"), ((200, 800), "RGBA")])
def test_every_face_has_one_frame(tmp_path: Path, size: tuple[int, int], mode: str) -> None:
    """Wide and high pictures alike; what one can see through becomes white, not black."""
    folder = tmp_path / "pictures"
    folder.mkdir()
    Image.new(mode, size, (0, 0, 0, 0) if mode == "RGBA" else "red").save(folder / "a.png")
    (name,) = found = ready(folder, [face("a.png")])
    with Image.open(io.BytesIO(found[name])) as seen:
        assert (seen.format, seen.size) == ("JPEG", FACE_PX)
        corner = seen.convert("RGB").getpixel((0, 0))
        assert (corner == (255, 255, 255)) == (mode == "RGBA")


def test_marks_and_temper_stand_beside_the_picture(books: Mapping[str, Book]) -> None:
    """Without a picture the drawing of its kind."""
    book = books["example"]
    hector = next(part for part in body(book).split("<li>") if "<b>Hector</b>" in part)
    assert f'src="picture:{face("hector.png")}"' in hector
    assert "Black with one white foot. Friendly and very strong." in hector
    fern = next(part for part in body(book).split("<li>") if "<b>Fern</b>" in part)
    assert 'class="animal"' in fern
    assert face("hector.png") in book.pictures
    assert "who-is-who" not in {page.slug for page in books["least"].pages}


def test_a_private_animal_is_on_no_screen(tmp_path: Path) -> None:
    """Nor is its picture among those of the site."""
    data = farm_data.read()
    hector = next(one for one in data["animals.yaml"] if one.get("name") == "Hector")
    hector["private"] = "yes"
    book = book_of(farm_data.write(data, tmp_path / "farm"), DAY)
    assert book.screens
    assert "Hector" in body(book)
    assert "Hector" not in body(book.screens)
    assert face("hector.png") not in book.screens.pictures


def test_an_animal_without_marks_has_no_empty_line(tmp_path: Path) -> None:
    """A picture alone is told of too: nothing stands beside it that says nothing."""
    data = farm_data.read()
    hector = next(one for one in data["animals.yaml"] if one.get("name") == "Hector")
    del hector["mark"], hector["temper"]
    book = book_of(farm_data.write(data, tmp_path / "farm"), DAY)
    assert "<b>Hector</b>" in body(book)
    assert "<p></p>" not in body(book)


def test_an_unknown_sex_is_said(tmp_path: Path) -> None:
    """The workings had `goat, ?, on`."""
    data = farm_data.read()
    pepper = next(one for one in data["animals.yaml"] if one.get("name") == "Pepper")
    del pepper["sex"]
    book = book_of(farm_data.write(data, tmp_path / "farm"), DAY)
    said = " ".join(page.body for page in book.pages if page.sheet.startswith("N"))
    assert "sex not recorded, on" in said
    assert ", ?, " not in said
