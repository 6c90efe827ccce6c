"""The printed files can be read aloud: the tags that PDF/UA-1 (ISO 14289-1) asks for.

Clause numbers are those of ISO 14289-1:2014, the structures those of ISO 32000-1:2008, 14.7.
"""

from __future__ import annotations

import subprocess
import sys
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pikepdf
import pytest

from binder.output.paper.sheet import SheetAge
from binder.output.print import PrintOptions, render_book

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tests.output.conftest import MakeBook, Printed

TEXT = frozenset({"Tj", "TJ", "'", '"'})
PAINT = TEXT | frozenset({"S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "Do", "sh", "BI"})


@pytest.fixture(scope="session")
def files(printed: Printed) -> Iterator[list[pikepdf.Pdf]]:
    """Return the binder and the cards, open."""
    opened = [pikepdf.open(path) for path in printed.result.files]
    yield opened
    for file in opened:
        file.close()


def elements(file: pikepdf.Pdf) -> Iterator[tuple[Any, Any]]:
    """Yield each structure element with its parent, in reading order."""
    waiting = [(file.Root.StructTreeRoot.K[0], file.Root.StructTreeRoot)]
    while waiting:
        element, parent = waiting.pop()
        yield element, parent
        kids = [kid for kid in element.get("/K", []) if is_element(kid)]
        waiting += [(kid, element) for kid in reversed(kids)]


def is_element(kid: object) -> bool:
    """Return whether a kid is an element, not a number or a reference to a link."""
    return isinstance(kid, pikepdf.Dictionary) and "/S" in kid


def parents(file: pikepdf.Pdf) -> dict[int, Any]:
    """Return the list that leads from pages and links to elements (14.7.4.4)."""
    listed = list(file.Root.StructTreeRoot.ParentTree.Nums)
    return {int(key): value for key, value in zip(listed[::2], listed[1::2], strict=True)}


def marked(page: pikepdf.Page) -> Iterator[tuple[str, int | None, bool]]:
    """Yield operator, content number and whether it is an artifact, for all that is painted."""
    stack: list[tuple[int | None, bool]] = []
    for instruction in pikepdf.parse_content_stream(page):
        operands, name = instruction.operands, str(instruction.operator)
        if name in {"BMC", "BDC"}:
            number = None
            if name == "BDC" and "/MCID" in operands[1]:
                number = int(operands[1].MCID)
            stack.append((number, str(operands[0]) == "/Artifact"))
        elif name == "EMC":
            stack.pop()
        elif name in PAINT:
            numbers = [number for number, _ in stack if number is not None]
            artifact = any(is_artifact for _, is_artifact in stack)
            yield name, numbers[-1] if numbers else None, artifact


def test_file_declares_itself(files: list[pikepdf.Pdf]) -> None:
    """The file says that it is tagged and to which standard (clauses 5, 6.2, 7.1)."""
    for file in files:
        assert bool(file.Root.MarkInfo.Marked)
        assert bool(file.Root.ViewerPreferences.DisplayDocTitle)
        assert str(file.Root.Lang) == "en"
        with file.open_metadata() as metadata:
            assert metadata["pdfuaid:part"] == "1"
            assert metadata["dc:title"] == str(file.docinfo["/Title"])
        assert file.pdf_version == "1.7"


def test_everything_painted_is_text_of_a_tag_or_an_artifact(files: list[pikepdf.Pdf]) -> None:
    """No mark on the page is left out of the tags (7.1): it is content or decoration."""
    for file in files:
        for page in file.pages:
            painted = list(marked(page))
            assert painted
            for operator, number, artifact in painted:
                assert (number is not None) != artifact, (page.label, operator)


def test_every_piece_of_content_leads_into_the_tree(files: list[pikepdf.Pdf]) -> None:
    """From each content number the list leads to an element in the tree that holds it."""
    for file in files:
        tree = {element.objgen for element, _ in elements(file)}
        listed = parents(file)
        for page in file.pages:
            row = listed[int(page.obj.StructParents)]
            used = {number for _, number, _ in marked(page) if number is not None}
            for number in used:
                element = row[number]
                assert element.objgen in tree
                assert number in [kid for kid in element.K if isinstance(kid, int)]
                assert element.Pg.objgen == page.obj.objgen


def test_elements_know_their_parent(files: list[pikepdf.Pdf]) -> None:
    """The tree can be climbed as well as descended (14.7.2)."""
    for file in files:
        for element, parent in elements(file):
            assert element.P.objgen == parent.objgen


def test_each_sheet_is_a_section_with_one_title(files: list[pikepdf.Pdf]) -> None:
    """A sheet is a section; it has one H1, first, and skips no level (7.4.2)."""
    for file in files:
        sections = list(file.Root.StructTreeRoot.K[0].K)
        assert sections
        for section in sections:
            assert str(section.S) == "/Sect"
            levels = [level for level in map(heading, below(section)) if level]
            assert levels[0] == 1
            assert levels.count(1) == 1
            assert all(b - a <= 1 for a, b in pairwise(levels))


def below(element: Any) -> Iterator[Any]:
    """Yield an element and all below it, in reading order."""
    yield element
    for kid in element.get("/K", []):
        if is_element(kid):
            yield from below(kid)


def heading(element: Any) -> int:
    """Return the level of a heading, 0 for anything else."""
    kind = str(element.S)
    return int(kind[2]) if len(kind) == 3 and kind.startswith("/H") and kind[2].isdigit() else 0


def test_header_cells_point_and_cells_know_their_headers(files: list[pikepdf.Pdf]) -> None:
    """Header cells say which way they point, cells name headers that exist (7.5)."""
    for file in files:
        names = list(file.Root.StructTreeRoot.IDTree.Names)
        ids = {str(key): value for key, value in zip(names[::2], names[1::2], strict=True)}
        assert list(ids) == sorted(ids)
        seen = 0
        for element, _ in elements(file):
            if str(element.S) == "/TH":
                assert str(element.A.Scope) in {"/Row", "/Column"}
                assert ids[str(element.ID)].objgen == element.objgen
            if str(element.S) == "/TD" and "/Headers" in element.A:
                for header in element.A.Headers:
                    assert str(header) in ids
                    seen += 1
        assert seen > 0


def test_drawings_have_words(files: list[pikepdf.Pdf]) -> None:
    """Each drawing and picture has alternative text (7.3)."""
    alts = [
        str(element.get("/Alt", ""))
        for file in files
        for element, _ in elements(file)
        if str(element.S) == "/Figure"
    ]
    assert alts == ["Air through a hot day: lowest at 6 am, highest at 4 pm"]


def test_links_are_in_the_tree_and_say_where_they_lead(files: list[pikepdf.Pdf]) -> None:
    """Each link belongs to a Link element and has a description (7.18.5)."""
    for file in files:
        listed = parents(file)
        for page in file.pages:
            assert str(page.obj.Tabs) == "/S"
            for link in page.obj.get("/Annots", []):
                element = listed[int(link.StructParent)]
                assert str(element.S) == "/Link"
                references = [kid for kid in element.K if isinstance(kid, pikepdf.Dictionary)]
                assert link.objgen in [kid.Obj.objgen for kid in references if "/Obj" in kid]
                assert str(link.Contents)


def test_foot_is_decoration(files: list[pikepdf.Pdf]) -> None:
    """The foot is read by eye, not aloud on every page (7.8): its text is an artifact."""
    for file in files:
        for page in file.pages:
            texts = [each for each in marked(page) if each[0] in TEXT]
            assert any(artifact for _, _, artifact in texts)


def test_link_to_an_absent_sheet_becomes_plain_text(
    made: MakeBook, printed: Printed, tmp_path: Path
) -> None:
    """Without sheet B1 the words `B1` stay on E1, the link goes, and the tags stay whole."""
    options = PrintOptions(cache=printed.cache)
    marks = {"contacts": SheetAge(1, "2026-05-01")}
    result = render_book(made(without=("due-dates",)), tmp_path, options=options, marks=marks)
    with pikepdf.open(result.file) as file:
        starts = {line.sheet: line.start for line in result.lines}
        page = file.pages[starts["E1"] - 1]
        contents = [str(link.Contents) for link in page.obj.Annots]
        assert not any("B1" in text or "due-dates" in text for text in contents)
        test_every_piece_of_content_leads_into_the_tree([file])
        test_links_are_in_the_tree_and_say_where_they_lead([file])


def test_outside_checker_finds_no_error(printed: Printed) -> None:
    """`pdfua check` (the machine-checkable part of PDF/UA-1) has nothing to say of any file."""
    for path in printed.result.files:
        command = [sys.executable, "-m", "pdfua", "check", str(path)]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stdout
