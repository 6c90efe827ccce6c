"""The starter farm: a path to a first binder for somebody new to YAML."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from binder.farm import schema, start
from binder.farm.check import check
from binder.farm.load import FILES, read_folder
from binder.problems import ProblemsError


def test_a_started_farm_is_right_as_it_is(tmp_path: Path) -> None:
    """Name, place, three animals, one pen, one phone, and nothing to mend."""
    started = start.start(tmp_path / "my farms" / "first")
    farm = check(read_folder(started.folder))
    assert len(farm.animals) == 3
    assert len(farm.pens) == len(farm.contacts) == 1
    assert sorted(started.files) == sorted(FILES)
    assert sorted(path.name for path in started.folder.iterdir()) == sorted(
        [".schemas", *FILES]
    )


def test_a_started_farm_brings_its_schemas(tmp_path: Path) -> None:
    """Each file names a schema that lies where the name says."""
    folder = start.start(tmp_path / "farm").folder
    for name in FILES:
        first = (folder / name).read_text("utf-8").splitlines()[0]
        named = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)
        assert named is not None
        text = (folder / named[1]).read_text("utf-8")
        assert text == schema.schemas()[schema.file_name(name.removesuffix(".yaml"))]


def test_what_to_do_next_is_said_not_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The caller gets the next steps; the terminal gets nothing."""
    started = start.start(tmp_path / "farm")
    assert [step.split()[0] for step in started.next_steps] == ["Open", "Go", "Type:", "Type:"]
    assert str(tmp_path / "farm") in started.next_steps[-1]
    assert capsys.readouterr() == ("", "")


def test_files_and_next_steps_say_the_commands_as_typed(tmp_path: Path) -> None:
    """The program by the path it was called by, and this very folder, ready for a shell."""
    started = start.start(tmp_path / "my farm", typed=("../.venv/bin/binder",))
    text = (started.folder / "farm.yaml").read_text("utf-8")
    for name in ("check", "build"):
        line = f"../.venv/bin/binder {name} '{tmp_path / 'my farm'}'"
        assert f" Type: {line}\n" in text
        assert f"Type: {line}" in started.next_steps
    assert "my-farm" not in text


def test_the_starter_farm_says_the_commands_as_the_readme_does() -> None:
    """So `start` finds them, and who reads the starter farm itself can type them."""
    readme = (start.STARTER.parents[1] / "README.md").read_text("utf-8")
    text = (start.STARTER / "farm.yaml").read_text("utf-8")
    said = re.findall(r"Type: (\S*binder (?:check|build) \S+)\n", text)
    assert len(said) == 2
    assert [line for line in said if f"`{line}`" not in readme] == []


def test_every_line_that_is_ready_to_use_can_be_used(tmp_path: Path) -> None:
    """With the # taken away from all lines that have no space after it, the farm is right.

    So each of them is an example that works, names what exists and is indented as it must be.
    """
    folder = start.start(tmp_path / "farm").folder
    used = 0
    for name in FILES:
        path = folder / name
        text, count = re.subn(r"(?m)^( *)#(?=[^ #\n])", r"\1", path.read_text("utf-8"))
        path.write_text(text, encoding="utf-8")
        used += count
    assert used > 40
    farm = check(read_folder(folder))
    assert farm.about.hot_day is not None
    assert farm.pens[0].wallow is not None
    assert len(farm.stays) == len(farm.codes) == 1
    assert farm.equipment.hoses[0].flow_l_min is not None


def test_every_line_is_one_or_the_other() -> None:
    """A # has one space after it (to read), none (to use), or ends the line."""
    for name in FILES:
        for line in (start.STARTER / name).read_text("utf-8").splitlines():
            if line.strip().startswith("#"):
                assert re.fullmatch(r" *#( {1,3}\S.*|[^ #].*|)", line), line


def test_an_empty_folder_is_filled(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever stands in an empty folder stands in the farm afterwards."""
    folder = tmp_path / "farm"
    folder.mkdir()
    monkeypatch.chdir(folder)
    start.start(Path())
    assert sorted(path.name for path in Path().iterdir()) == sorted([".schemas", *FILES])
    assert [path.name for path in tmp_path.iterdir()] == ["farm"]


@pytest.mark.parametrize("name", ["notes.txt", ".hidden"])
def test_a_folder_that_holds_something_is_left_alone(tmp_path: Path, name: str) -> None:
    """Nobody's farm is written over."""
    (tmp_path / name).write_text("x", encoding="utf-8")
    with pytest.raises(ProblemsError, match="is not empty; name a new folder"):
        start.start(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_a_file_in_its_place_is_left_alone(tmp_path: Path) -> None:
    """A file, or a link that leads nowhere, is no folder to begin in."""
    (tmp_path / "farm").write_text("x", encoding="utf-8")
    (tmp_path / "link").symlink_to(tmp_path / "gone")
    for name in ("farm", "link"):
        with pytest.raises(ProblemsError, match="is not a folder; name a new one"):
            start.start(tmp_path / name)


@pytest.mark.parametrize("there", [True, False])
def test_a_failure_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, there: bool
) -> None:
    """A full disk half way gives one problem and a folder as it was."""
    folder = tmp_path / "farm"
    if there:
        folder.mkdir()
    rename, moved = Path.rename, []

    def fail_at_the_third(path: Path, target: Path) -> Path:
        moved.append(path)
        if not there or len(moved) == 3:
            raise OSError(28, "No space left on device")
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", fail_at_the_third)
    with pytest.raises(ProblemsError, match="cannot be written: No space left on device"):
        start.start(folder)
    assert folder.exists() == there
    assert [path.name for path in tmp_path.iterdir()] == (["farm"] if there else [])
    assert not there or list(folder.iterdir()) == []
