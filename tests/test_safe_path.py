"""Nothing is imported from the folder one stands in: farm folders come from strangers."""

from __future__ import annotations

import ast
import os
import re
import shutil
import socket
import subprocess
import sys
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

from binder import safe_path
from binder.data import CONTENT

ROOT = Path(__file__).resolve().parent.parent
COMMAND = str(Path(sys.executable).with_name("binder"))
DAY = ("--date", "2026-06-01")
# A site and pages, and a sheet that is drawn: all that a whole binder imports.
MAKING = (
    ("build", ".", "--site-only"),
    ("day", ".", "--high", "101F", "--low", "76F", "--dew-point", "71F"),
)
DECOY = """\
import pathlib
pathlib.Path(__file__).with_suffix(".ran").touch()
raise SystemExit(9)
"""
LIBRARIES = sorted(
    name for name in packages_distributions() if name.isidentifier() and name != "binder"
)
# `python -m` looks for these before a line of ours runs: there only `python -P -m` helps.
STANDARD = sorted(sys.stdlib_module_names - {"__main__"} - set(sys.builtin_module_names))


def decoyed(folder: Path, names: list[str]) -> Path:
    """Return the example farm with a module of each name in it that tells when it is run."""
    farm = folder / "farm"
    shutil.copytree(CONTENT / "example-farm", farm)
    for name in names:
        (farm / f"{name}.py").write_text(DECOY, encoding="utf-8")
    return farm


def run(farm: Path, *command: str, **more: str) -> subprocess.CompletedProcess[str]:
    """Run a command with the farm as current folder, so that nothing is drawn before."""
    own = {"XDG_CACHE_HOME": str(farm.parent / "cache")}
    kept = {name: text for name, text in os.environ.items() if name != "PYTHONPATH"}
    return subprocess.run(
        command,
        cwd=farm,
        env=kept | own | more,
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )


def ran(farm: Path) -> list[str]:
    """Return the decoys that were run."""
    return sorted(path.stem for path in farm.glob("*.ran"))


@pytest.mark.skipif(not Path(COMMAND).is_file(), reason="the command is not installed")
def test_the_command_draws_with_the_libraries_installed(tmp_path: Path) -> None:
    """It builds and prints, though each library and all of Python has a namesake there."""
    farm = decoyed(tmp_path, ["binder", *LIBRARIES, *STANDARD])
    for words in MAKING:
        done = run(farm, COMMAND, *words, "--to", str(tmp_path / "out"), *DAY)
        assert ran(farm) == []
        assert done.returncode == 0, done.stderr
    assert len(list((tmp_path / "out").rglob("*.pdf"))) == 1


@pytest.mark.parametrize("module", ["binder", "binder.cli"])
def test_a_module_call_imports_no_namesake_of_a_library(tmp_path: Path, module: str) -> None:
    """`python -m binder` runs none of them; `binder.cli` has nothing to run and says so."""
    farm = decoyed(tmp_path, LIBRARIES)
    done = run(farm, sys.executable, "-m", module, "check", ".", *DAY)
    assert ran(farm) == []
    assert done.returncode == (0 if module == "binder" else 1), done.stderr


def test_an_empty_entry_of_the_path_is_no_way_in(tmp_path: Path) -> None:
    """`PYTHONPATH=:` means the current folder to Python: the libraries are still ours."""
    hooks = {"_distutils_hack", "_virtualenv"}  # Python's own start looks for these
    farm = decoyed(tmp_path, [name for name in LIBRARIES if name not in hooks])
    call = "from binder.__main__ import main; main()"
    for words in MAKING:
        done = run(
            farm, sys.executable, "-c", call, *words, "--to", str(tmp_path / "out"), *DAY,
            PYTHONPATH=os.pathsep,
        )  # fmt: skip
        assert ran(farm) == []
        assert done.returncode == 0, done.stderr
    assert len(list((tmp_path / "out").rglob("*.pdf"))) == 1


def test_the_host_imports_no_namesake(tmp_path: Path) -> None:
    """`binder host .` comes as far as its door, which is taken, with its own libraries."""
    farm = decoyed(tmp_path, LIBRARIES)
    with socket.create_server(("127.0.0.1", 0)) as taken:
        done = run(
            farm, sys.executable, "-m", "binder", "host", ".", "--only-this-machine",
            "--port", str(taken.getsockname()[1]), "--to", str(tmp_path / "out"), *DAY,
        )  # fmt: skip
    assert ran(farm) == []
    assert "choose another with --port" in done.stderr


def test_a_worker_gets_whole_paths_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Entries of PYTHONPATH that depend on where one stands are not passed on."""
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join(["", "here", "/whole"]))
    assert safe_path.environment()["PYTHONPATH"] == "/whole"
    monkeypatch.setenv("PYTHONPATH", "")
    assert "PYTHONPATH" not in safe_path.environment()


def test_the_checkout_keeps_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    """Standing in the checkout, the path stays: the program comes from there."""
    monkeypatch.chdir(ROOT)
    monkeypatch.setattr(sys, "path", ["", str(ROOT), *sys.path])
    before = list(sys.path)
    safe_path.leave_out_current_folder()
    assert sys.path == before


def test_only_entries_before_pythons_own_go(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Where libraries lie, behind Python's own, one may stand and still find them."""
    monkeypatch.chdir(tmp_path)
    pythons = str(Path(os.__file__).parent)
    monkeypatch.setattr(sys, "path", ["", str(tmp_path), "/x", pythons, str(tmp_path)])
    safe_path.leave_out_current_folder()
    assert sys.path == ["/x", pythons, str(tmp_path)]


def test_a_folder_that_is_gone_is_no_error(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Whoever stands in a deleted folder still gets an answer."""
    gone = tmp_path / "gone"
    gone.mkdir()
    monkeypatch.chdir(gone)
    gone.rmdir()
    before = list(sys.path)
    safe_path.leave_out_current_folder()
    assert sys.path == before


def sources() -> list[Path]:
    """Return every file of Python that may start another Python."""
    named = [
        path
        for top in ("binder", "tests/proof", "tests/bench")
        for path in (ROOT / top).rglob("*.py")
    ]
    scripts = [
        path
        for path in (ROOT / "script").iterdir()
        if path.is_file() and re.match(r"#!.*python", path.read_text(encoding="utf-8"))
    ]
    return [path for path in (*named, *scripts) if "_data" not in path.parts]


def starts(path: Path) -> list[list[str]]:
    """Return the words after `sys.executable` in every list of a source file."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.List):
            continue
        first, *others = [ast.unparse(each) for each in node.elts] or [""]
        if first == "sys.executable":
            found.append([each.strip("'") for each in others])
    return found


def test_whatever_starts_the_program_starts_it_safely() -> None:
    """Each Python started to run `binder` is told -P; others run the checkout's own tests."""
    ours = [words for path in sources() for words in starts(path) if "-m" in words]
    of_binder = [
        words for words in ours if words[words.index("-m") + 1].partition(".")[0] == "binder"
    ]
    assert len(of_binder) >= 4
    assert [words for words in of_binder if "-P" not in words] == []
