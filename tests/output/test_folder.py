"""Replacing the output folder: the last binder or the new one, and nothing that is not ours."""

from __future__ import annotations

import contextlib
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from binder.output.folder import MARK, keep, replaced
from binder.problems import ProblemsError


def fill(to: Path, text: str, sources: tuple[Path, ...] = ()) -> None:
    """Build a folder with one file in it."""
    with replaced(to, sources) as new:
        (new / "index.html").write_text(text, encoding="utf-8")


def fill_half(to: Path) -> None:
    """Begin a build that goes wrong."""
    with contextlib.ExitStack() as stack:
        new = stack.enter_context(replaced(to, ()))
        (new / "index.html").write_text("half", encoding="utf-8")
        message = "went wrong"
        raise RuntimeError(message)


def names(folder: Path) -> set[str]:
    """Return what lies in a folder, hidden files too."""
    return {path.name for path in folder.iterdir()}


def test_a_new_folder_is_made_and_marked(tmp_path: Path) -> None:
    """It appears whole, with the mark for the next build, and leaves nothing beside it."""
    fill(tmp_path / "deep" / "build", "one")
    assert names(tmp_path / "deep" / "build") == {"index.html", MARK}
    assert names(tmp_path / "deep") == {"build"}


def test_the_next_build_leaves_nothing_of_the_last(tmp_path: Path) -> None:
    """A page that is gone from the book is gone from the folder."""
    to = tmp_path / "build"
    fill(to, "one")
    (to / "old-page.html").write_text("old", encoding="utf-8")
    fill(to, "two")
    assert names(to) == {"index.html", MARK}
    assert (to / "index.html").read_text(encoding="utf-8") == "two"


def test_a_failed_build_leaves_the_last_binder(tmp_path: Path) -> None:
    """When anything goes wrong while writing, the last binder is as it was."""
    to = tmp_path / "build"
    fill(to, "one")
    with pytest.raises(RuntimeError, match="went wrong"):
        fill_half(to)
    assert (to / "index.html").read_text(encoding="utf-8") == "one"
    assert names(tmp_path) == {"build"}


def test_while_it_is_built_readers_see_the_last_binder(tmp_path: Path) -> None:
    """Nothing moves until the new one is complete."""
    to = tmp_path / "build"
    fill(to, "one")
    with replaced(to, ()) as new:
        (new / "index.html").write_text("two", encoding="utf-8")
        assert (to / "index.html").read_text(encoding="utf-8") == "one"


def test_a_folder_with_other_files_is_not_emptied(tmp_path: Path) -> None:
    """Only a folder that a build marked is emptied; an empty one may be used."""
    (tmp_path / "mine").mkdir()
    fill(tmp_path / "mine", "one")
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "pig.jpg").write_text("pig", encoding="utf-8")
    with pytest.raises(ProblemsError, match="holds files that no build wrote"):
        fill(tmp_path / "photos", "one")
    assert names(tmp_path / "photos") == {"pig.jpg"}


@pytest.mark.parametrize("to", ["farm", "farm/build", "farm/../farm/x", "link/build", "."])
def test_farm_folder_is_never_written(tmp_path: Path, to: str) -> None:
    """Neither the farm folder, nor inside it, nor around it, nor through a link."""
    farm = tmp_path / "farm"
    farm.mkdir()
    (farm / "farm.yaml").write_text("name: x", encoding="utf-8")
    (tmp_path / "link").symlink_to(farm)
    (tmp_path / MARK).write_text("", encoding="utf-8")
    with pytest.raises(ProblemsError, match=r"which is read, not written|would be emptied"):
        fill(tmp_path / to, "one", (farm,))
    assert names(farm) == {"farm.yaml"}


def test_a_name_that_only_begins_alike_is_another_folder(tmp_path: Path) -> None:
    """`farm-binder` is not inside `farm`."""
    (tmp_path / "farm").mkdir()
    fill(tmp_path / "farm-binder", "one", (tmp_path / "farm",))
    assert (tmp_path / "farm-binder" / "index.html").exists()


def test_a_file_is_not_a_folder(tmp_path: Path) -> None:
    """The name of a file is refused with what would do."""
    (tmp_path / "build").write_text("x", encoding="utf-8")
    with pytest.raises(ProblemsError, match="is a file; give the name of a folder"):
        fill(tmp_path / "build", "one")


def test_a_second_build_is_told_to_wait(tmp_path: Path) -> None:
    """Two builds into one folder do not mix: the second ends with a clear sentence."""
    to = tmp_path / "build"
    with (
        replaced(to, ()),
        pytest.raises(ProblemsError, match="being written by another build"),
    ):
        fill(to, "two")
    fill(to, "three")


KILLED = """
import sys, time
from pathlib import Path
from binder.output.folder import replaced
with replaced(Path(sys.argv[1]), ()) as new:
    (new / "index.html").write_text("half")
    print("begun", flush=True)
    time.sleep(60)
"""


def test_a_killed_build_is_swept_up(tmp_path: Path) -> None:
    """After a kill the last binder is there, the lock is free and the next build cleans up."""
    to = tmp_path / "build"
    fill(to, "one")
    writer = subprocess.Popen(
        [sys.executable, "-c", KILLED, str(to)], stdout=subprocess.PIPE, text=True
    )
    assert writer.stdout is not None
    assert writer.stdout.readline() == "begun\n"
    writer.send_signal(signal.SIGKILL)
    writer.wait()
    writer.stdout.close()
    assert (to / "index.html").read_text(encoding="utf-8") == "one"
    time.sleep(0.01)
    fill(to, "two")
    assert names(tmp_path) == {"build"}


def test_a_stop_between_the_two_moves_is_mended(tmp_path: Path) -> None:
    """The last binder was moved aside, the new one not yet in place: it comes back."""
    to = tmp_path / "build"
    fill(to, "one")
    to.rename(tmp_path / ".build.old")
    with pytest.raises(KeyboardInterrupt), replaced(to, ()):
        raise KeyboardInterrupt
    assert (to / "index.html").read_text(encoding="utf-8") == "one"


def test_a_full_disk_is_said_in_words(tmp_path: Path) -> None:
    """What the disk refuses names the folder and the reason."""
    with (
        pytest.raises(ProblemsError, match="cannot be written: No space left"),
        replaced(tmp_path / "build", ()),
    ):
        raise OSError(28, "No space left on device")


def test_a_part_can_be_carried_over(tmp_path: Path) -> None:
    """`--site-only` keeps the printed binder of the last build."""
    to = tmp_path / "build"
    with replaced(to, ()) as new:
        (new / "print").mkdir()
        (new / "print" / "binder.pdf").write_bytes(b"pdf")
    with replaced(to, ()) as new:
        keep(to / "print", new / "print")
        keep(to / "none", new / "none")
    assert (to / "print" / "binder.pdf").read_bytes() == b"pdf"
    assert names(to) == {"print", MARK}


def test_somebody_elses_folder_beside_it_stays(tmp_path: Path) -> None:
    """A folder of the owner's that has our temporary name is refused, never emptied."""
    theirs = tmp_path / ".build.new"
    theirs.mkdir()
    (theirs / "photos.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(ProblemsError), replaced(tmp_path / "build", ()):
        pass
    assert (theirs / "photos.txt").read_text(encoding="utf-8") == "mine"


def test_a_swap_that_fails_puts_the_last_binder_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk refuses the second of the two moves: the last binder stands."""
    to = tmp_path / "build"
    with replaced(to, ()) as new:
        (new / "a.txt").write_text("first", encoding="utf-8")
    rename = Path.rename

    def refuse(self: Path, target: Path) -> Path:
        if self.name == ".build.new":
            raise OSError(28, "No space left on device")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", refuse)
    with pytest.raises(ProblemsError, match="No space left"), replaced(to, ()) as new:
        (new / "a.txt").write_text("second", encoding="utf-8")
    assert (to / "a.txt").read_text(encoding="utf-8") == "first"
