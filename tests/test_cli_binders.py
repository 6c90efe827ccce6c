"""`binder host` and `binder hand-over`, as typed: passphrase, and one composing each."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder import build, cli
from binder.output import write
from binder.output.host import serve
from binder.pages.page import Book, Foot

if TYPE_CHECKING:
    import datetime as dt

    from binder.output.host.serve import ServeOptions

ROOT = Path(__file__).resolve().parents[1]
WORD = "the word of the farm"


def run(*words: str) -> int:
    """Run a command in this process; return its exit code."""
    sys_argv, sys.argv = sys.argv, ["binder", *words]
    try:
        with pytest.raises(SystemExit) as stop:
            cli.main()
    finally:
        sys.argv = sys_argv
    code = stop.value.code
    assert isinstance(code, int)
    return code


@pytest.fixture
def farm(tmp_path: Path) -> Path:
    """Return a copy of the starter farm."""
    return Path(shutil.copytree(ROOT / "content" / "starter-farm", tmp_path / "farm"))


@pytest.fixture
def composed(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Return the folders that were composed; nothing is figured or written."""
    folders: list[Path] = []
    book = Book("Quiet Acre", "2026-06-01", "letter", "en", (), (), Foot("", "", ()))

    def book_of(folder: Path, _on: dt.date) -> Book:
        folders.append(folder)
        return book

    written = write.Built(Path("site"), Path("phone"), None, 0, ())
    monkeypatch.setattr(build, "book_of", book_of)
    monkeypatch.setattr(write, "write", lambda *_: written)
    return folders


@pytest.fixture
def served(monkeypatch: pytest.MonkeyPatch, composed: list[Path]) -> list[ServeOptions]:
    """Return how it was served; nothing listens."""
    del composed
    options: list[ServeOptions] = []
    monkeypatch.setattr(serve, "serve", lambda *arguments: options.append(arguments[3]))
    monkeypatch.delenv("BINDER_PASSPHRASE", raising=False)
    return options


def test_without_a_passphrase_everybody_may_read(
    farm: Path, served: list[ServeOptions], composed: list[Path]
) -> None:
    """And the farm is composed once before it is served."""
    assert run("host", str(farm)) == 0
    assert [options.passphrase for options in served] == [""]
    assert composed == [farm]


def test_a_passphrase_is_no_argument(farm: Path, served: list[ServeOptions]) -> None:
    """What stands on the command line is seen by every user of a computer, and kept."""
    assert run("host", str(farm), "--passphrase", WORD) == 2
    assert served == []


def test_a_passphrase_comes_from_a_file(
    farm: Path, served: list[ServeOptions], tmp_path: Path
) -> None:
    """Its first line, without the spaces around it."""
    file = tmp_path / "word.txt"
    file.write_text(f"{WORD}  \nsecond line\n", encoding="utf-8")
    assert run("host", str(farm), "--passphrase-file", str(file)) == 0
    assert served[0].passphrase == WORD


@pytest.mark.parametrize("content", [b"", b"\nsecond", b"\xff\xfe"])
def test_a_file_without_a_passphrase_is_refused(
    content: bytes, farm: Path, served: list[ServeOptions], tmp_path: Path
) -> None:
    """Rather than serving everybody."""
    file = tmp_path / "word.txt"
    file.write_bytes(content)
    assert run("host", str(farm), "--passphrase-file", str(file)) == 2
    assert served == []


def test_a_passphrase_comes_from_the_environment(
    farm: Path, served: list[ServeOptions], monkeypatch: pytest.MonkeyPatch
) -> None:
    """For a host that starts with the computer."""
    monkeypatch.setenv("BINDER_PASSPHRASE", WORD)
    assert run("host", str(farm)) == 0
    assert served[0].passphrase == WORD


def test_a_passphrase_is_asked_for_unseen(
    farm: Path, served: list[ServeOptions], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Twice over, and not shown."""
    asked: list[dict[str, object]] = []

    def prompt(_text: str, **how: object) -> str:
        asked.append(how)
        return WORD

    monkeypatch.setattr("click.prompt", prompt)
    assert run("host", str(farm), "--ask-passphrase") == 0
    assert served[0].passphrase == WORD
    assert asked == [{"hide_input": True, "confirmation_prompt": True}]


def test_a_hand_over_composes_once(farm: Path, composed: list[Path]) -> None:
    """What is written down in the ledger is what is printed."""
    assert run("hand-over", str(farm), "--to", "Dana", "--date", "2026-06-01") == 0
    assert composed == [farm]
    assert "Dana" in (farm / "ledger.yaml").read_text(encoding="utf-8")
