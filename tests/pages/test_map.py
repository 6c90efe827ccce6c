"""The sheet of the map: drawn, over a picture, or the way alone; nothing private on screens."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import combinations
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.pages.place.layout import Board, Box, frame
from tests import farm_data
from tests.pages.conftest import DAY

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from binder.pages.page import Book, Page

POINTS = ("at", "gate_at", "corners", "along")


def page(book: Book) -> Page:
    """Return the sheet of the map."""
    return next(one for one in book.pages if one.slug == "map")


def drawing(body: str) -> ET.Element:
    """Return the drawing of a sheet as XML."""
    found = re.search(r"<svg.*?</svg>", body, re.DOTALL)
    assert found
    return ET.fromstring(found[0])  # noqa: S314 -- of our own


def without_points(tree: object) -> None:
    """Take every point out of a farm."""
    if isinstance(tree, dict):
        for key in POINTS:
            tree.pop(key, None)
        for value in tree.values():
            without_points(value)
    elif isinstance(tree, list):
        for value in tree:
            without_points(value)


def test_the_example_is_drawn_and_leads_to_every_pen(books: Mapping[str, Book]) -> None:
    """Pens bear their sheets' numbers; the description names them in the round's order."""
    body = page(books["example"]).body
    root = drawing(body)
    links = [one.get("href") for one in root.iter("{http://www.w3.org/2000/svg}a")]
    pens = [one for one in books["example"].pages if one.kind == "pen"]
    assert links == [f"sheet:{one.slug}" for one in pens]
    label = root.get("aria-label") or ""
    places = [label.index(f"{one.sheet} {one.title}") for one in pens]
    assert places == sorted(places)
    assert "Brass valve on the post behind the barn" in body


def test_marks_do_not_cover_each_other(books: Mapping[str, Book]) -> None:
    """The rectangles with round corners that marks are drawn as stay apart."""
    root = drawing(page(books["example"]).body)
    boxes = []
    for one in root.iter("{http://www.w3.org/2000/svg}rect"):
        if one.get("rx"):
            x, y, width, height = (float(one.attrib[k]) for k in ("x", "y", "width", "height"))
            boxes.append((x, y, x + width, y + height))
    assert len(boxes) > 15
    for box, other in combinations(boxes, 2):
        apart = box[2] <= other[0] or other[2] <= box[0]
        assert apart or box[3] <= other[1] or other[3] <= box[1]


def test_a_frame_keeps_one_scale_and_up_is_up() -> None:
    """A point more to the right and higher lies right of and above the other."""
    laid = frame([(0.0, 0.0), (300.0, 100.0)])
    low, high = laid.at((0.0, 0.0)), laid.at((30.0, 10.0))
    assert high[0] - low[0] == pytest.approx(30 * laid.scale)
    assert low[1] - high[1] == pytest.approx(10 * laid.scale)


def test_a_mark_without_room_moves_and_a_name_without_room_is_left_out() -> None:
    """Two marks at one point; then a name where four marks stand around."""
    board = Board(200.0)
    assert board.put((100, 100), 20, 20) == (100, 100)
    assert board.put((100, 100), 20, 20) != (100, 100)
    full = Board(200.0, [Box(100, 100, 600, 180)])
    assert full.beside((100, 100), (20, 20), (60, 14)) is None


def test_without_points_the_way_is_drawn(tmp_path: Path) -> None:
    """From what is recorded: the order of the round, and words for where things are."""
    data = farm_data.read()
    for tree in data.values():
        without_points(tree)
    del data["farm.yaml"]["map"]
    body = page(book_of(farm_data.write(data, tmp_path / "farm"), DAY)).body
    assert "How far apart they lie is not recorded" in body
    assert len(drawing(body).findall("{http://www.w3.org/2000/svg}a")) == 7


def test_a_picture_bears_the_marks(tmp_path: Path) -> None:
    """In percent from the lower left corner, where a drawing counts from the upper left."""
    data = farm_data.read()
    for tree in data.values():
        without_points(tree)
    data["farm.yaml"]["map"] = {"picture": "creek-gate.png"}
    data["pens.yaml"][0]["at"] = "20 %, 30 %"
    book = book_of(farm_data.write(data, tmp_path / "farm"), DAY)
    body = page(book).body
    assert 'src="picture:creek-gate.png"' in body
    circle = drawing(body).find(".//{http://www.w3.org/2000/svg}circle")
    assert circle is not None
    assert (circle.get("cx"), circle.get("cy")) == ("20%", "70%")


def test_private_things_are_on_no_screen(tmp_path: Path) -> None:
    """A pen, a place and a line; on paper they stay, and the other pens keep their numbers."""
    data = farm_data.read()
    data["pens.yaml"][5] |= {"private": "yes", "name": "Hidden paddock"}
    data["farm.yaml"]["map"]["places"][0] |= {"private": "yes", "name": "Hidden gate"}
    data["farm.yaml"]["map"]["lines"][0] |= {"private": "yes", "name": "Hidden road"}
    book = book_of(farm_data.write(data, tmp_path / "farm"), DAY)
    assert book.screens
    assert "Hidden" not in page(book.screens).body
    assert ">P7</text>" in page(book.screens).body
    assert "Hidden paddock" in page(book).body
    assert "Hidden gate" in page(book).body


def test_marks_of_a_crowd_stand_around_it(books: Mapping[str, Book]) -> None:
    """Six marks at the barn lay over it: now each point is free, and marks stand apart."""
    board = Board(380.0)
    crowd = [(300.0 + 14 * (n % 3), 200.0 + 14 * (n // 3)) for n in range(6)]
    stood = [board.put(at, 26.0, 26.0, crowd) for at in crowd]
    boxes = [Box(*at, 26.0, 26.0) for at in stood]
    assert not any(one.hits(other) for one, other in combinations(boxes, 2))
    covered = [(at, box) for at in crowd for box in boxes if Box(*at, 0.0, 0.0).hits(box)]
    assert not covered
    names = "".join(drawing(page(books["example"]).body).itertext())
    for name in ("Goat lot", "Hen run", "Creek paddock", "Woods paddock"):
        assert name in names
