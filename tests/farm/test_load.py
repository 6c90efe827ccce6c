"""What is read from a farm folder, and what cannot be."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder.farm.load import read_folder
from binder.problems import Place, Problem, ProblemsError
from tests.farm.conftest import SMALL

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


@pytest.mark.parametrize(
    ("name", "advice"),
    [("protocols/x1-long.md", "keep what a sitter may need"), ("animals.yaml", "as a group")],
)
def test_what_is_too_large_is_told_for_what_it_is(
    farm_folder: FarmFolder, name: str, advice: str
) -> None:
    """A protocol of two megabytes is no crowd of animals."""
    folder = farm_folder({**SMALL, name: "# long\n" * 300_000})
    [problem] = read_folder(folder).problems
    assert problem.place.file == name
    assert advice in problem.message


def test_a_ledger_is_not_a_stray_file(farm_folder: FarmFolder) -> None:
    """The ledger that a hand-over writes lies beside the farm's files and is no mistake."""
    folder = farm_folder({**SMALL, "ledger.yaml": "sheets: {}\n"})
    blamed = {each.place.file for each in read_folder(folder).problems}
    assert "ledger.yaml" not in blamed


# --- what newcomers do -----------------------------------------------------------------------


@pytest.mark.parametrize(
    "table",
    [
        "name,species,pen\nDaisy,pig,creek\n",
        "name;species;pen\r\nDaisy;pig;creek\r\n",
        "name\tspecies\nDaisy\tpig\n",
        '"name","species"\n"Daisy","pig"\n',
    ],
)
def test_a_spreadsheets_table_is_known(said: Said, table: str) -> None:
    """Rows of cells (RFC 4180, or with semicolons or tabs) are named as what they are."""
    assert said({"animals.yaml": table}) == [
        (
            "animals.yaml:1:1  is a table as a spreadsheet saves it; list your animals in it, "
            "like - {name: Clementine, species: pig, sex: sow}"
        )
    ]


def test_a_spreadsheets_own_file_is_known(farm_folder: FarmFolder) -> None:
    """A workbook is a ZIP file (PK, APPNOTE 4.3.7), whatever its name ends in."""
    folder = farm_folder(SMALL)
    (folder / "animals.yaml").write_bytes(b"PK\x03\x04\x14\x00\x06\x00")
    [problem] = read_folder(folder).problems
    assert problem.message.startswith("was saved by a spreadsheet or word processor")


@pytest.mark.parametrize(
    "name", ["animals.yaml.txt", "animals.txt", "Animals.yaml.TXT", "animals.csv"]
)
def test_another_ending_is_named_once(farm_folder: FarmFolder, name: str) -> None:
    """The file is not called missing as well."""
    files = {key: text for key, text in SMALL.items() if key != "animals.yaml"}
    [problem] = read_folder(farm_folder({**files, name: "x"})).problems
    assert str(problem) == (
        f"{name}  is not read; a farm's file is plain text and its whole name is animals.yaml "
        "(your computer may hide the ending)"
    )


def test_a_folder_that_is_no_farm_says_so_once(farm_folder: FarmFolder) -> None:
    """One sentence with the way out, not a list of all that is missing."""
    folder = farm_folder({"letter.txt": "x"})
    with pytest.raises(
        ProblemsError, match=r"is no farm: none of .*; binder start writes a new"
    ):
        read_folder(folder)
    farm_folder({"my-farm/farm.yaml": "name: x"})
    with pytest.raises(ProblemsError, match="; my-farm in it is one"):
        read_folder(folder)
