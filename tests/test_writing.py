"""Files are written below the folder they were meant for, or not at all."""

from __future__ import annotations

import ast
import datetime as dt
import io
import os
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from binder.build import book_of
from binder.farm.load import read_folder
from binder.output.handed import ledger_file
from binder.output.handed.changes import pack_name
from binder.output.handed.ledger import FILE
from binder.output.screens.site import files, write_site
from binder.output.write import Options, write
from binder.problems import ProblemsError
from binder.writing import OutsideError, is_plain, write_inside
from tests.farm_data import EXAMPLE
from tests.test_layers import MODULES, parsed

if TYPE_CHECKING:
    from tests.conftest import FarmFolder

DAY = dt.date(2026, 6, 1)
LEAST = {
    "farm.yaml": "name: Small Place\nplace: Nowhere, Georgia\n",
    "animals.yaml": "- {name: Clementine, species: pig, sex: sow, pen: creek}\n",
    "pens.yaml": "- {id: creek, name: Creek, kind: run}\n",
    "contacts.yaml": "- {name: Ann Example, role: owner, phone: 555-0100}\n",
}
OWN = "---\ntitle: Ours\nsheet: W40\nreviewed: 2026-11-25\nsummary: Ours.\n---\nOurs.\n\n"

OUTSIDE = [
    "../x", "a/../../x", "a/../x", "/x", "//x", "", ".", "..", "a/", "/", "a//x", "./x",
    "..\\x", "a\\x", "a\0x", "a/./x",
]  # fmt: skip


def picture(size: tuple[int, int] = (30, 20)) -> bytes:
    """Return a picture."""
    stream = io.BytesIO()
    Image.new("RGB", size, "white").save(stream, "PNG")
    return stream.getvalue()


@pytest.mark.parametrize("name", OUTSIDE)
def test_names_that_lead_out_are_refused(tmp_path: Path, name: str) -> None:
    """Nothing is written, inside or outside, and no folder is made."""
    folder = tmp_path / "in"
    folder.mkdir()
    with pytest.raises(OutsideError, match="leads out of this folder"):
        write_inside(folder, name, b"x")
    assert list(tmp_path.iterdir()) == [folder]
    assert list(folder.iterdir()) == []


def test_a_folder_that_is_a_link_out_is_refused(tmp_path: Path) -> None:
    """Neither a file nor a folder is made behind it."""
    folder, other = tmp_path / "in", tmp_path / "other"
    folder.mkdir()
    other.mkdir()
    (folder / "pictures").symlink_to(other)
    for name in ("pictures/a.png", "pictures/deep/a.png"):
        with pytest.raises(OutsideError):
            write_inside(folder, name, b"x")
    assert list(other.iterdir()) == []


def test_a_link_in_the_place_of_a_file_is_replaced(tmp_path: Path) -> None:
    """What it led to stays as it is."""
    folder, other = tmp_path / "in", tmp_path / "other.png"
    folder.mkdir()
    other.write_bytes(b"family")
    (folder / "a.png").symlink_to(other)
    assert write_inside(folder, "a.png", b"new") == folder / "a.png"
    assert other.read_bytes() == b"family"
    assert not (folder / "a.png").is_symlink()
    assert (folder / "a.png").read_bytes() == b"new"


def test_a_hard_link_keeps_its_other_name(tmp_path: Path) -> None:
    """A file that has a second name elsewhere is not written through."""
    folder, other = tmp_path / "in", tmp_path / "other.png"
    folder.mkdir()
    other.write_bytes(b"family")
    os.link(other, folder / "a.png")
    write_inside(folder, "a.png", b"new")
    assert other.read_bytes() == b"family"


def test_folders_are_made_and_nothing_is_left(tmp_path: Path) -> None:
    """Also where the disk refuses to put the whole file into its place."""
    assert write_inside(tmp_path, "a/b/c.txt", b"x", durable=True).read_bytes() == b"x"
    (tmp_path / "taken").mkdir()
    with pytest.raises(OSError, match="taken"):
        write_inside(tmp_path, "taken", b"x")
    assert {path.name for path in tmp_path.iterdir()} == {"a", "taken"}
    assert {path.name for path in (tmp_path / "a/b").iterdir()} == {"c.txt"}


def test_a_folder_reached_by_a_link_may_be_written(tmp_path: Path) -> None:
    """The owner chose it; only what lies below is judged."""
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    write_inside(tmp_path / "link", "x", b"x")
    assert (tmp_path / "real/x").is_file()


# What makes or changes a file, and which module may: the writer, those that move whole folders
# of ours, and those whose streams are memory.
WRITES = frozenset({
    "write_text", "write_bytes", "mkstemp", "NamedTemporaryFile", "copyfile", "copy", "copy2",
    "touch", "symlink_to", "hardlink_to", "fdopen", "write_pdf",
})  # fmt: skip
MAY_WRITE = {
    "writing": {"fdopen"},
    "output.paper.render": {"write_pdf"},  # returns bytes: no target is named
}


def test_nobody_else_writes() -> None:
    """Every file of the program goes through one function."""
    found = []
    for name in MODULES:
        for node in ast.walk(parsed(name)):
            if not isinstance(node, ast.Call):
                continue
            called = node.func.attr if isinstance(node.func, ast.Attribute) else ""
            plain = node.func.id if isinstance(node.func, ast.Name) else ""
            if called in WRITES - MAY_WRITE.get(name, set()):
                found.append(f"{name}: line {node.lineno}: {called}")
            if "open" in {called, plain} and any(
                isinstance(each, ast.Constant) and set("wax+") & set(str(each.value))
                for each in [*node.args, *(k.value for k in node.keywords if k.arg == "mode")]
            ):
                found.append(f"{name}: line {node.lineno}: opens to write")
    assert found == []


def album(folder: Path) -> Path:
    """Return a family picture that lies outside a farm, two folders up."""
    path = folder.parent / "album" / "family.png"
    path.parent.mkdir()
    path.write_bytes(picture((3000, 2000)))
    return path


STRANGE = [
    "../../album/family.png", "../album/family.png", "/etc/passwd", "a/b.png", "..",
    "..\\album\\family.png", "%2e%2e/album/family.png", "..%2falbum%2ffamily.png",
    "pictures/a.png",    "gone.png", "./a.png", "&#46;&#46;/album/family.png",
]  # fmt: skip


@pytest.mark.parametrize("name", STRANGE)
def test_a_protocol_shows_pictures_of_the_farm_alone(
    farm_folder: FarmFolder, name: str
) -> None:
    """A name that leads elsewhere ends the build with the line; the picture is as it was."""
    text = f"{OWN}![a](picture:{name})\n"
    folder = farm_folder(LEAST | {"protocols/ours.md": text})
    (folder / "pictures").mkdir()
    (folder / "pictures/a.png").write_bytes(picture())
    family = album(folder)
    with pytest.raises(ProblemsError, match="is not in pictures/") as caught:
        book_of(folder, DAY)
    (problem,) = caught.value.problems
    assert problem.place.file == "protocols/ours.md"
    assert problem.place.line == (9 if "&" not in name else 7)
    assert family.read_bytes() == picture((3000, 2000))


def test_a_protocol_shows_a_picture_of_the_farm(farm_folder: FarmFolder) -> None:
    """A plain name in pictures/ is shown, spaces and signs in it too."""
    name = "a gate & 'b.png"
    folder = farm_folder(LEAST | {"protocols/ours.md": f"{OWN}![a](<picture:{name}>)\n"})
    (folder / "pictures").mkdir()
    (folder / "pictures" / name).write_bytes(picture())
    book = book_of(folder, DAY)
    assert f"pictures/{name}" in dict(files(book))


@pytest.mark.parametrize("name", [*STRANGE[:8], "~/x.png", "link.png", "deep"])
def test_no_picture_key_leads_out(farm_folder: FarmFolder, name: str) -> None:
    """A `picture:` of the farm's files names a file in pictures/, and no link out of it."""
    pens = f"- {{id: creek, name: Creek, kind: run, picture: '{name}'}}\n"
    folder = farm_folder(LEAST | {"pens.yaml": pens})
    (folder / "pictures/deep").mkdir(parents=True)
    (folder / "pictures/link.png").symlink_to(album(folder))
    with pytest.raises(ProblemsError, match=r"pens\.yaml:1:") as caught:
        book_of(folder, DAY)
    assert len(caught.value.problems) == 1 + (name != "link.png")  # the link is told anyway


@pytest.mark.parametrize("name", ["pictures", "pictures/a.png"])
def test_pictures_are_not_read_through_links_out(farm_folder: FarmFolder, name: str) -> None:
    """Neither the folder nor a file of it may stand for something elsewhere."""
    pens = "- {id: creek, name: Creek, kind: run, picture: a.png}\n"
    folder = farm_folder(LEAST | {"pens.yaml": pens})
    elsewhere = folder.parent / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "a.png").write_bytes(picture())
    (folder / name).parent.mkdir(exist_ok=True)
    (folder / name).symlink_to(elsewhere / name.removeprefix("pictures").strip("/"))
    with pytest.raises(ProblemsError, match="a link that leads out of the farm folder"):
        book_of(folder, DAY)


def test_a_link_within_the_farm_is_fine(farm_folder: FarmFolder) -> None:
    """One picture may have two names, and a farm folder may itself be a link."""
    pens = "- {id: creek, name: Creek, kind: run, picture: b.png}\n"
    folder = farm_folder(LEAST | {"pens.yaml": pens})
    (folder / "pictures").mkdir()
    (folder / "pictures/a.png").write_bytes(picture())
    (folder / "pictures/b.png").symlink_to("a.png")
    (folder.parent / "link").symlink_to(folder)
    assert "b.png" in book_of(folder.parent / "link", DAY).pictures


@pytest.mark.parametrize(
    "name", ["protocols/ours.md", "stays.yaml", "weather.csv", "private.yaml", "farm.yaml"]
)
def test_no_text_is_read_through_a_link_out(farm_folder: FarmFolder, name: str) -> None:
    """What stands elsewhere on the disk does not come into a binder that is handed out."""
    folder = farm_folder(LEAST)
    path = folder / name
    path.parent.mkdir(exist_ok=True)
    path.unlink(missing_ok=True)
    secret = folder.parent / "secret"
    secret.write_text("secret: 4711\n", encoding="utf-8")
    path.symlink_to(secret)
    problems = [str(each) for each in read_folder(folder).problems]
    assert any(line.startswith(name) and "leads out" in line for line in problems)
    assert "4711" not in "".join(problems)


def test_the_ledger_is_not_read_through_a_link_out(farm_folder: FarmFolder) -> None:
    """Nor written through it."""
    folder = farm_folder(LEAST)
    other = folder.parent / "other.yaml"
    other.write_text("sheets: {}\nhand-overs: []\n", encoding="utf-8")
    (folder / FILE).symlink_to(other)
    with pytest.raises(ProblemsError, match="leads out of the farm folder"):
        ledger_file.load(folder)


def test_a_picture_name_in_a_book_cannot_leave_the_site(
    farm_folder: FarmFolder, tmp_path: Path
) -> None:
    """Though every reader before were fooled, the writer refuses."""
    pens = "- {id: creek, name: Creek, kind: run, picture: a.png}\n"
    folder = farm_folder(LEAST | {"pens.yaml": pens})
    (folder / "pictures").mkdir()
    (folder / "pictures/a.png").write_bytes(picture())
    book, strange = book_of(folder, DAY), "../../stolen.png"
    pages = tuple(
        replace(page, body=page.body.replace("picture:a.png", f"picture:{strange}"))
        for page in book.pages
    )
    fooled = replace(book, pages=pages, pictures={strange: picture()})
    with pytest.raises(OutsideError):
        write_site(fooled, tmp_path)
    assert list(tmp_path.rglob("stolen.png")) == []


@pytest.mark.parametrize(
    "name", ["../../x", "/etc/x", "a/../b", "..", "a\\b", "Dana\tB", "C:x", "-", "x" * 200]
)
def test_the_name_on_a_binder_makes_a_plain_file_name(name: str) -> None:
    """Whoever gets it may be called anything."""
    assert is_plain(pack_name(name, "2026-06-01"))


@pytest.mark.parametrize("name", ["a b.md", "W.md", "é.md", "con .md"])
def test_a_protocol_file_gives_a_plain_slug(farm_folder: FarmFolder, name: str) -> None:
    """The slug becomes the name of a page: letters, digits and dashes, or it is refused."""
    folder = farm_folder(LEAST | {f"protocols/{name}": OWN})
    with pytest.raises(ProblemsError, match="is not named like"):
        book_of(folder, DAY)


@pytest.mark.parametrize("text", ["'../x'", "/x", "'..'", "a/b", "'a\\b'", "'.'"])
@pytest.mark.parametrize(
    ("file", "line"),
    [
        ("pens.yaml", "- {{id: {}, name: Creek, kind: run}}\n"),
        ("stays.yaml", "- {{id: {}, name: Away, from: 2026-07-01, to: 2026-07-04}}\n"),
    ],
)
def test_ids_cannot_be_paths(farm_folder: FarmFolder, file: str, line: str, text: str) -> None:
    """Ids of pens and stays name pages, so they hold letters, digits and dashes."""
    folder = farm_folder(LEAST | {file: line.format(text)})
    with pytest.raises(ProblemsError, match=rf"{file}:1:"):
        book_of(folder, DAY)


def test_a_link_to_a_full_folder_is_no_place_to_build(tmp_path: Path) -> None:
    """`--to` that leads, by a link, to files that no build wrote is refused."""
    full = tmp_path / "full"
    full.mkdir()
    (full / "letter.txt").write_text("mine", encoding="utf-8")
    (tmp_path / "build").symlink_to(full)
    book = book_of(EXAMPLE, DAY)
    with pytest.raises(ProblemsError, match="no build wrote"):
        write(book, tmp_path / "build", EXAMPLE, Options(site_only=True), lambda *_: None)
    assert [path.name for path in full.iterdir()] == ["letter.txt"]


def test_every_name_of_the_site_is_inside_it(tmp_path: Path) -> None:
    """The example's whole site lies where it belongs."""
    write_site(book_of(EXAMPLE, DAY), tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["site"]
