"""What is read from a farm folder, and what cannot be."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder.farm.load import read_folder
from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from tests.conftest import FarmFolder
    from tests.farm.conftest import Said


def test_everything_in_the_folder_is_found(farm_folder: FarmFolder) -> None:
    """Files, pictures, protocols and the weather file are listed by name."""
    folder = farm_folder(
        {
            "farm.yaml": "name: Quiet Acre\n",
            "protocols/water.md": "# Water\n",
            "protocols/.draft.md": "x",
            "protocols/notes.txt": "x",
            "pictures/gate.jpg": "x",
            "weather.csv": "day,high\n",
        }
    )
    written = read_folder(folder)
    assert list(written.documents) == ["farm.yaml"]
    assert written.documents["farm.yaml"].data == {"name": "Quiet Acre"}
    assert dict(written.protocols) == {"water.md": "# Water\n"}
    assert list(written.pictures) == ["gate.jpg"]
    assert written.weather == "day,high\n"
    assert written.folder == folder


def test_what_was_read_cannot_be_changed(farm_folder: FarmFolder) -> None:
    """The mappings of what was read take no new entries."""
    written = read_folder(farm_folder({"farm.yaml": "name: Quiet Acre\n"}))
    assert written.weather is None
    for mapping in (written.documents, written.pictures, written.protocols):
        with pytest.raises(TypeError):
            mapping["x"] = 1  # type: ignore[index]


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("pen.yaml", "pen.yaml  is not a file of a farm; did you mean pens.yaml?"),
        ("pens.yml", "pens.yml  is not a file of a farm; did you mean pens.yaml?"),
        ("Stays.YAML", "Stays.YAML  is not a file of a farm; did you mean stays.yaml?"),
        (
            "q.yaml",
            (
                "q.yaml  is not a file of a farm; expected one of farm.yaml, animals.yaml, "
                "pens.yaml, equipment.yaml, contacts.yaml, stays.yaml, private.yaml"
            ),
        ),
    ],
)
def test_a_file_that_nobody_would_read_is_refused(said: Said, name: str, expected: str) -> None:
    """What is written into a misnamed file would be missing from the binder."""
    assert said({name: "x: y\n"}) == [expected]


def test_files_that_cannot_be_read_do_not_hide_the_rest(
    said: Said, farm_folder: FarmFolder
) -> None:
    """A folder in a file's place, bytes that are no text, and a wrong unit come together."""
    folder = farm_folder({"protocols/a.md": "x", "stays.yaml/x": ""})
    (folder / "protocols" / "a.md").write_bytes(b"# Caf\xe9\n")
    (folder / "weather.csv").write_bytes(b"day,high\n1,\xb0\n")
    (folder / "private.yaml").write_bytes(b"codes:\n  - {what: \xff}\n")
    assert said({"animals.yaml": "- {name: Daisy, species: pig, weight: 420}\n"}) == [
        'animals.yaml:1:39  Daisy > weight: "420" has no unit; write it like 420 lb or 190 kg',
        "private.yaml:2:12  is not UTF-8 text; save it again as UTF-8",
        "protocols/a.md:1:6  is not UTF-8 text; save it again as UTF-8",
        "stays.yaml  is not a file; a plain text file is needed here",
        "weather.csv:2:3  is not UTF-8 text; save it again as UTF-8",
    ]


def test_a_file_is_not_a_folder(farm_folder: FarmFolder) -> None:
    """The name of a file in place of the folder's is answered like a missing folder."""
    folder = farm_folder({"farm.yaml": "name: Quiet Acre\n"})
    with pytest.raises(ProblemsError, match=r"farm\.yaml  is not a folder"):
        read_folder(folder / "farm.yaml")


def test_a_later_problem_finds_its_line(farm_folder: FarmFolder) -> None:
    """A step that knows no lines names the file and the keys; a line it knows stays."""
    folder = farm_folder({"farm.yaml": "name: Quiet Acre\nplace:\n  latitude: 80\n"})
    written = read_folder(folder)
    for path, line in (("place > latitude", 3), ("place > longitude", 3), ("name", 1)):
        assert written.located(Problem(Place("farm.yaml"), path, "x")).place.line == line
    known = Problem(Place("farm.yaml", 7, 1), "place", "x")
    assert written.located(known) is known
    elsewhere = Problem(Place("weather.csv"), "place", "x")
    assert written.located(elsewhere) is elsewhere


def test_a_ledger_is_not_a_stray_file(farm_folder: FarmFolder) -> None:
    """The ledger that a hand-over writes lies beside the farm's files and is no mistake."""
    folder = farm_folder({"ledger.yaml": "sheets: {}\n"})
    blamed = {each.place.file for each in read_folder(folder).problems}
    assert "ledger.yaml" not in blamed
