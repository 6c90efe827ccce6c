"""Joining drawn sheets: order, links across sheets, blank backs, the same bytes each time."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pikepdf
import pytest

from binder.output.paper.join import Joined, Piece, join
from binder.output.paper.render import draw
from binder.output.paper.workers import PrintJob

if TYPE_CHECKING:
    from collections.abc import Sequence

CSS = """
@font-face { font-family: F; src: url(font:AtkinsonHyperlegible-Regular.ttf) }
body { font-family: F }
@page { size: 100mm 100mm; font-family: F; @bottom-left { content: "foot" } }
"""


def drawn(name: str, body: str) -> bytes:
    """Return a small sheet, drawn."""
    html = f'<html lang="en"><title>{name}</title><body><h1>{name}</h1>{body}</body></html>'
    made = draw(PrintJob(name, html, CSS, {}))
    assert made.faults == ()
    return made.pdf


@pytest.fixture(scope="module")
def pieces() -> list[Piece]:
    """Return three sheets that point at each other, at a working and at what is not there."""
    table = '<table><tr><th scope="row">a</th><td>b</td></tr></table>'
    first = f'<p><a href="sheet:last">L1</a> <a href="sheet:gone">X1</a></p>{table}'
    second = (
        f'<p id="w-pen-water-creek">15 gal</p>{table}<div style="break-before: page">2</div>'
    )
    third = (
        '<p><a href="working:pen-water.Creek">15</a> <a href="https://example.org">e</a></p>'
    )
    return [
        Piece("first", "A1", "First", "A  Front", drawn("first", first)),
        Piece("second", "W1", "Second", "W  Water", drawn("second", second)),
        Piece("last", "L1", "Last", "", drawn("last", third)),
    ]


def made(pieces: Sequence[Piece]) -> Joined:
    """Return them joined."""
    return join(pieces, title="Title", language="en", date="2026-06-01")


def links(file: pikepdf.Pdf, page: int) -> list[pikepdf.Object]:
    """Return the links of a page."""
    return list(file.pages[page].obj.get("/Annots", []))


def test_sheets_follow_each_other(pieces: list[Piece]) -> None:
    """Each sheet begins where the last one ended."""
    joined = made(pieces)
    assert joined.pages == 4
    assert joined.starts == {"first": 1, "second": 2, "last": 4}


def test_back_of_the_last_leaf_stays_blank(pieces: list[Piece]) -> None:
    """A blank back moves what follows and holds nothing."""
    first = Piece("first", "A1", "First", "", pieces[0].pdf, blank_after=True)
    joined = made([first, *pieces[1:]])
    assert joined.starts == {"first": 1, "second": 3, "last": 5}
    with pikepdf.open(io.BytesIO(joined.pdf)) as file:
        blank = file.pages[1]
        assert blank.mediabox == file.pages[0].mediabox
        assert "/Annots" not in blank.obj
        assert "/StructParents" not in blank.obj


def test_links_jump_to_the_sheet_or_lose_themselves(pieces: list[Piece]) -> None:
    """`sheet:last` opens the last page; `sheet:gone` is plain text, in the tree a span."""
    with pikepdf.open(io.BytesIO(made(pieces).pdf)) as file:
        (link,) = links(file, 0)
        assert link.Dest[0].objgen == file.pages[3].obj.objgen
        assert str(link.Contents) == "L1 Last"
        assert "/A" not in link


def test_numbers_jump_to_their_working(pieces: list[Piece]) -> None:
    """A number opens the page of its working, at its height; the web stays the web."""
    with pikepdf.open(io.BytesIO(made(pieces).pdf)) as file:
        number, web = links(file, 3)
        assert number.Dest[0].objgen == file.pages[1].obj.objgen
        assert 0 < float(number.Dest[3]) < float(file.pages[1].mediabox[3])
        assert str(number.Contents) == "W1 Second"
        assert str(web.A.URI) == "https://example.org"


def test_header_cells_of_two_sheets_keep_apart(pieces: list[Piece]) -> None:
    """Two sheets with the same table have header cells of different names."""
    with pikepdf.open(io.BytesIO(made(pieces).pdf)) as file:
        names = [str(name) for name in list(file.Root.StructTreeRoot.IDTree.Names)[::2]]
    assert len(names) == len(set(names)) == 2
    assert names == sorted(names)


def test_keys_of_the_tree_are_all_different(pieces: list[Piece]) -> None:
    """Pages and links of all sheets have keys of their own, in order (ISO 32000-1, 7.9.7)."""
    with pikepdf.open(io.BytesIO(made(pieces).pdf)) as file:
        keys = [int(key) for key in list(file.Root.StructTreeRoot.ParentTree.Nums)[::2]]
        used = [int(page.obj.StructParents) for page in file.pages]
        used += [int(link.StructParent) for at in range(4) for link in links(file, at)]
        assert keys == sorted(set(keys))
        assert sorted(used) == sorted(set(used))
        assert set(used) <= set(keys)
        assert int(file.Root.StructTreeRoot.ParentTreeNextKey) > max(keys)


def test_a_group_is_a_closed_bookmark(pieces: list[Piece]) -> None:
    """Tabs are closed bookmarks with their sheets; a sheet without a tab stands alone."""
    with (
        pikepdf.open(io.BytesIO(made(pieces).pdf)) as file,
        file.open_outline() as outline,
    ):
        told = [(each.title, [below.title for below in each.children]) for each in outline.root]
    assert told == [
        ("A  Front", ["A1  First"]),
        ("W  Water", ["W1  Second"]),
        ("L1  Last", []),
    ]


def test_same_input_same_bytes(pieces: list[Piece]) -> None:
    """No clock and no chance gets into the file."""
    assert made(pieces).pdf == made(pieces).pdf


def test_drawing_twice_gives_the_same_bytes() -> None:
    """Nor into a single sheet."""
    assert drawn("same", "<p>x</p>") == drawn("same", "<p>x</p>")
