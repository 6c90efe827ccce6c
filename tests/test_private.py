"""What the owner keeps private reaches no screen: not one byte of site or phone file."""

from __future__ import annotations

import datetime as dt
import itertools
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from binder import day
from binder.build import book_of
from binder.output import day as day_output
from binder.output import print as print_step
from binder.output.host import serve, snapshot
from binder.output.print import PrintResult
from binder.output.screens.phone import phone_file
from binder.output.screens.site import files
from tests import farm_data
from tests.test_cli_binders import run

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.pages.page import Book

DAY = dt.date(2026, 6, 1)
MARK = "zqx-hid"  # in no word of ours, and the dash in no packed picture or font
REFERENCES = ("pen", "to", "feed", "fed_by", "circuit", "feeds", "runs")


def things(data: farm_data.Data) -> list[tuple[str, farm_data.Path_]]:
    """Return file and path of everything that may be marked private, files as a whole aside."""
    found: list[tuple[str, farm_data.Path_]] = []

    def walk(name: str, tree: Any, path: farm_data.Path_) -> None:
        if isinstance(tree, dict):
            if path and path[-1] not in ("climate", "round_intervals"):
                found.append((name, path))
            for key, value in tree.items():
                walk(name, value, (*path, key))
        elif isinstance(tree, list):
            for place, value in enumerate(tree):
                walk(name, value, (*path, place))

    for name, tree in data.items():
        walk(name, tree, ())
    return found


def hide(data: farm_data.Data, chosen: list[tuple[str, farm_data.Path_]]) -> set[str]:
    """Mark things private, give each text and name in them a mark, and return those marks.

    What names one of them elsewhere is changed along, so that the farm stays sound.
    """
    marks = (f"{MARK}{number}q" for number in itertools.count(1))
    given: set[str] = set()
    renamed: dict[str, str] = {}
    for name, path in [*chosen, ("private.yaml", ())]:
        thing = farm_data.at(data[name], path)
        if path:
            thing["private"] = "yes"
        for inner, text in _to_mark(name, path, thing):
            given.add(new := next(marks))
            farm_data.put(thing, inner, new)
            if inner[-1] == "id":
                renamed[text] = new
    for tree in data.values():
        for path, text in list(farm_data.leaves(tree)):
            if text in renamed and any(part in REFERENCES for part in path):
                farm_data.put(tree, path, renamed[text])
    return given


def _to_mark(name: str, path: farm_data.Path_, thing: Any) -> list[tuple[farm_data.Path_, str]]:
    """Return the texts of a thing that the owner chose, those marked already left out."""
    return [
        (inner, text)
        for inner, text in farm_data.leaves(thing)
        if MARK not in text and (inner[-1] == "id" or farm_data.is_free(name, (*path, *inner)))
    ]


def on_screens(book: Book) -> Iterator[tuple[str, bytes]]:
    """Yield every file that a screen gets to see, with its name."""
    shown = book.screens or book
    yield from files(shown)
    yield "phone/binder.html", phone_file(shown).encode()


def leaks(book: Book) -> list[str]:
    """Return where a mark shows, with the letters around it."""
    found = []
    for name, content in on_screens(book):
        where = (name.encode() + b" " + content).lower()
        if (at := where.find(MARK.encode())) >= 0:
            found.append(f"{name}: {where[max(0, at - 60) : at + 40]!r}")
    return found


ALL = things(farm_data.read())


@pytest.mark.slow
@settings(max_examples=5, suppress_health_check=[HealthCheck.too_slow])
@given(chosen=st.lists(st.sampled_from(ALL), max_size=12, unique=True))
def test_nothing_private_reaches_a_screen(
    chosen: list[tuple[str, farm_data.Path_]], tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Whatever is marked private, and the codes: no text, name or id of it in any byte."""
    data = json.loads(json.dumps(farm_data.read()))
    assert hide(data, chosen)
    folder = farm_data.write(data, tmp_path_factory.mktemp("farm"))
    assert leaks(book_of(folder, DAY)) == []


def build(tmp_path: Path, chosen: list[tuple[str, farm_data.Path_]]) -> tuple[Book, set[str]]:
    """Return the example's binder with some of it private, and the marks of that."""
    data = json.loads(json.dumps(farm_data.read()))
    marks = hide(data, chosen)
    return book_of(farm_data.write(data, tmp_path / "farm"), DAY), marks


def of(name: str) -> list[tuple[str, farm_data.Path_]]:
    """Return every thing of a file that stands in its list, not inside another."""
    return [(file, path) for file, path in ALL if file == name and len(path) == 1]


@pytest.mark.parametrize("name", ["animals.yaml", "pens.yaml", "contacts.yaml", "stays.yaml"])
def test_a_whole_file_may_be_private(tmp_path: Path, name: str) -> None:
    """A farm that hides all its animals, pens, contacts or stays still has a site."""
    book, _ = build(tmp_path, of(name))
    assert leaks(book) == []
    assert (book.screens or book).pages


def test_all_equipment_may_be_private(tmp_path: Path) -> None:
    """So does a farm that hides every hose, tank, fan and product."""
    chosen = [each for each in ALL if each[0] == "equipment.yaml" or "fans" in each[1]]
    book, _ = build(tmp_path, chosen)
    assert leaks(book) == []


def test_the_place_may_be_private(tmp_path: Path) -> None:
    """An address marked private stands on paper alone."""
    book, marks = build(tmp_path, [("farm.yaml", ("place",))])
    assert leaks(book) == []
    assert any(mark in book.foot.address for mark in marks)


def test_print_shows_what_screens_do_not(tmp_path: Path) -> None:
    """Codes and private contacts print on the keys sheet, private animals on their pen's."""
    animal, contact = of("animals.yaml")[0], of("contacts.yaml")[-1]
    book, marks = build(tmp_path, [animal, contact])
    printed = " ".join(page.body for page in book.pages if "print" in page.where)
    assert sum(mark in printed for mark in marks) >= 6
    keys = next(page for page in book.pages if page.slug == "keys-and-codes")
    assert MARK in keys.body
    assert keys.where == {"print"}


def test_pens_keep_their_numbers(tmp_path: Path) -> None:
    """With the first pen private, the others have the same sheet ids on screen and paper."""
    pens = of("pens.yaml")
    book, _ = build(tmp_path, pens[:1])
    assert book.screens is not None
    assert book.screens.partial
    printed = {page.slug: page.sheet for page in book.pages}
    shown = [page for page in book.screens.pages if page.tab == "P" and page.kind == "pen"]
    assert len(shown) == len(pens) - 1
    assert all(printed[page.slug] == page.sheet for page in shown)


def test_an_own_protocol_that_names_something_private_stays_on_paper(tmp_path: Path) -> None:
    """The owner's sheet about a private pen prints, and is left out on screens."""
    data = json.loads(json.dumps(farm_data.read()))
    creek = next(pen for pen in data["pens.yaml"] if pen["id"] == "creek")
    creek["private"] = "yes"
    folder = farm_data.write(data, tmp_path / "farm")
    (folder / "protocols").mkdir()
    (folder / "protocols" / "w90-creek-gate.md").write_text(
        "---\ntitle: The creek gate\nsheet: W90\nreviewed: 2026-05-01\n"
        "summary: How it opens.\n---\n"
        "Go to {{ pens[6].name }}.\n",  # seven pens on paper, six on screens
        encoding="utf-8",
    )
    book = book_of(folder, DAY)
    assert "creek-gate" in [page.slug for page in book.pages]
    assert book.screens is not None
    assert "creek-gate" not in [page.slug for page in book.screens.pages]


# --- every command ----------------------------------------------------------------------------

HOT_DAY = day.Asked(dt.date(2026, 7, 14), high="101F", low="76F", dew_point="71F")


@pytest.fixture
def unprinted(monkeypatch: pytest.MonkeyPatch) -> None:
    """Draw nothing: paper may show what is private."""
    nothing = PrintResult(Path("binder.pdf"), 0, (), (), 0)
    monkeypatch.setattr(print_step, "render_book", lambda *_: nothing)
    monkeypatch.setattr(day_output, "render_loose", lambda *_: (b"%PDF", 2))


def files_with_marks(folder: Path) -> list[str]:
    """Return the files below a folder that hold a mark, or bear one as their name."""
    return [
        path.name
        for path in sorted(folder.rglob("*"))
        if path.is_file() and MARK.encode() in (path.name.encode() + path.read_bytes()).lower()
    ]


ON = ("--date", "2026-06-01")
HOT = ("--high", "101F", "--low", "76F", "--dew-point", "71F", "--date", "2026-07-14")


@pytest.mark.slow
@pytest.mark.usefixtures("unprinted")
@pytest.mark.parametrize(
    ("chosen", "commands"),
    [
        # The second build knows of a binder that is out, and what changed in it.
        (ALL[::2], [("hand-over", "--to", "Dana", *ON), ("build", "--date", "2026-07-14")]),
        (ALL[1::2], [("day", *HOT), ("host", *ON)]),
    ],
    ids=["every other thing", "the others"],
)
def test_no_command_writes_what_is_private_for_screens(
    chosen: list[tuple[str, farm_data.Path_]],
    commands: list[tuple[str, ...]],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A mark in every private text: in no page, script, feed or other file of any command."""
    data = json.loads(json.dumps(farm_data.read()))
    assert hide(data, chosen)
    farm = farm_data.write(data, tmp_path / "farm")
    hosted: list[snapshot.Snapshot] = []
    monkeypatch.setattr(serve, "serve", lambda *given: hosted.append(snapshot.take(given[1])))
    for name, *words in commands:
        to = tmp_path / "to" / name
        into = "--into" if name == "hand-over" else "--to"
        assert run(name, str(farm), *words, into, str(to)) == 0, name
        assert list(to.rglob("*.html")), name
    assert files_with_marks(tmp_path / "to") == []
    for shown in hosted:
        assert shown.files
        assert all(MARK.encode() not in file.content for file in shown.files.values())


@pytest.mark.usefixtures("unprinted")
def test_a_day_hides_animals_and_pens(tmp_path: Path) -> None:
    """On the page of a day; on its paper they stand."""
    data = json.loads(json.dumps(farm_data.read()))
    hide(data, [*of("animals.yaml")[:2], *of("pens.yaml")[:1]])
    folder = farm_data.write(data, tmp_path / "farm")
    page, _, _ = day.write_sheet(folder, tmp_path / "to", HOT_DAY)
    assert page is not None
    assert files_with_marks(tmp_path / "to") == []
    assert "Amounts here leave it out" in page.read_text(encoding="utf-8")


@pytest.mark.usefixtures("unprinted")
def test_a_day_of_a_private_place_is_paper_alone(tmp_path: Path) -> None:
    """Its hours tell where the sun rises; a page of an earlier day goes too."""
    data = json.loads(json.dumps(farm_data.read()))
    folder = farm_data.write(data, tmp_path / "farm")
    before, _, _ = day.write_sheet(folder, tmp_path / "to", HOT_DAY)
    assert before is not None
    assert before.is_file()
    hide(data, [("farm.yaml", ("place",))])
    farm_data.write(data, folder)
    page, paper, _ = day.write_sheet(folder, tmp_path / "to", HOT_DAY)
    assert page is None
    assert [path.name for path in (tmp_path / "to").iterdir()] == [paper.name]


def test_a_leak_would_be_found(tmp_path: Path) -> None:
    """With the screens made from the whole farm, the same marks are seen."""
    book, _ = build(tmp_path, of("animals.yaml")[:2])
    files_with_marks = [name for name, content in files(book) if MARK.encode() in content]
    assert files_with_marks
