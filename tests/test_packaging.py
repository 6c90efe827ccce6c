"""What is shipped, and what it is made of."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tomllib
import zipfile
from importlib.metadata import distribution
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))

DIRECT = PROJECT["project"]["dependencies"]
DEV = PROJECT["dependency-groups"]["dev"]
BUILD = PROJECT["build-system"]["requires"]
BUILDERS = "requirements-build.lock"
LOCKS = ("requirements.lock", "requirements-dev.lock")

# A pin: a name, perhaps its extras, two equals signs, a version; no address, marker or file.
PIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*(\[[a-z,]+\])?==[0-9][A-Za-z0-9.+]*")
# The pin in a lock goes on with the hash of each file of that version, one at least.
LOCKED = re.compile(rf"{PIN.pattern}( --hash=sha256:[0-9a-f]{{64}})+")

HOT = ("--high", "101F", "--low", "76F", "--dew-point", "71F")

# What pip says when the machine has no network, and not when a part does not exist.
OFFLINE = re.compile(
    "NewConnectionError|NameResolutionError|ConnectTimeout|Network is unreachable"
)


def pins(file: str) -> dict[str, str]:
    """Return name and version of each pin of a lock file."""
    return dict(split(pin.partition(" ")[0]) for pin in locked(file))


def locked(file: str) -> list[str]:
    """Return the pins of a lock file, each with its hashes in one line, the head left out."""
    text = (ROOT / file).read_text(encoding="utf-8")
    return re.sub(r" \\\n +", " ", text).splitlines()[1:]


def split(pin: str) -> tuple[str, str]:
    """Return name and version of a pin, the name as package indexes compare it."""
    name, _, version = re.sub(r"\[.*\]", "", pin).partition("==")
    return re.sub("[-_.]+", "-", name).lower(), version


@pytest.mark.parametrize("pin", [*DIRECT, *DEV, *BUILD])
def test_direct_parts_are_pinned(pin: str) -> None:
    """Each part that pyproject.toml asks for has one exact version and no address."""
    assert PIN.fullmatch(pin)


def test_a_lock_names_the_extras_that_are_asked_for() -> None:
    """A pin without them fails on the day a newer version is out, which no lock has a hash for.

    Against pip's own metadata: every requirement with extras of every locked part.
    """
    locked_names = {
        pin.partition("=")[0] for file in (BUILDERS, *LOCKS) for pin in locked(file)
    }
    plain = {name.partition("[")[0] for name in locked_names}
    asked = {
        (canonicalize_name(below.name), ",".join(sorted(below.extras)))
        for name in plain
        for below in map(Requirement, distribution(name).requires or [])
        if below.extras and (not below.marker or below.marker.evaluate({"extra": ""}))
    }
    asked |= {
        (canonicalize_name(direct.name), ",".join(sorted(direct.extras)))
        for direct in map(Requirement, [*DIRECT, *DEV])
        if direct.extras
    }
    assert asked  # coverage[toml] and fonttools[woff] at least
    assert {f"{name}[{extras}]" for name, extras in asked} <= locked_names


@pytest.mark.parametrize("file", [BUILDERS, *LOCKS])
def test_a_lock_holds_pins_with_hashes_and_nothing_else(file: str) -> None:
    """Each is an exact version of known files; where they come from is the machine's affair."""
    assert [pin for pin in locked(file) if not LOCKED.fullmatch(pin)] == []
    assert locked(file)


@pytest.mark.parametrize(
    ("asked", "locks"),
    [(DIRECT, LOCKS[:1]), (BUILD, (BUILDERS,)), (DEV, LOCKS)],
    ids=["direct", "build", "dev"],
)
def test_the_locks_agree_with_the_project(asked: list[str], locks: tuple[str, ...]) -> None:
    """The locks hold the same version of each direct part as pyproject.toml."""
    locked = {name: version for file in locks for name, version in pins(file).items()}
    wanted = dict(map(split, asked))
    # A version may be written 1.6 or 1.006: the packaging standard calls them equal.
    found = {name: plain(locked.get(name, "missing")) for name in wanted}
    assert found == {name: plain(version) for name, version in wanted.items()}


def plain(version: str) -> str:
    """Return a version with the leading zeros of its parts removed."""
    return re.sub(r"(?<![0-9])0+(?=[0-9])", "", version)


def run(*command: str | Path, where: Path, cache: str = "") -> subprocess.CompletedProcess[str]:
    """Run a command in a folder, with no trace of this checkout in its environment."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    kept.pop("VIRTUAL_ENV", None)
    kept |= {"XDG_CACHE_HOME": str(where / cache)} if cache else {}
    return subprocess.run(
        [str(part) for part in command],
        cwd=where,
        env=kept,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the project's wheel, built from this checkout with the tools at hand."""
    folder = tmp_path_factory.mktemp("wheel")
    built = run(
        sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "--no-build-isolation",
        "--wheel-dir", folder, ROOT, where=folder,
    )  # fmt: skip
    assert built.returncode == 0, built.stderr
    (found,) = folder.glob("*.whl")
    return found


def tracked(folder: str) -> set[str]:
    """Return the files under a folder that git holds or would hold, as written below it."""
    listed = run(
        "git", "ls-files", "--cached", "--others", "--exclude-standard", folder, where=ROOT
    )
    assert listed.returncode == 0, listed.stderr
    there = {line for line in listed.stdout.splitlines() if (ROOT / line).is_file()}
    assert there, f"{folder} is empty"
    return there


@pytest.mark.slow
@pytest.mark.parametrize("folder", ["content", "templates"])
def test_the_wheel_carries_all_data(wheel: Path, folder: str) -> None:
    """The wheel holds every file of content/ and templates/, and no file that git ignores."""
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    start = "binder/_data/"
    carried = {n.removeprefix(start) for n in names if n.startswith(f"{start}{folder}/")}
    assert carried == tracked(folder)


@pytest.mark.slow
def test_the_wheel_carries_the_package_alone(wheel: Path) -> None:
    """The wheel holds the package, its data, its licence, and no tests."""
    with zipfile.ZipFile(wheel) as archive:
        tops = {name.partition("/")[0] for name in archive.namelist()}
        licence = archive.read("binder-0.1.0.dist-info/licenses/LICENSE").decode()
    assert tops == {"binder", "binder-0.1.0.dist-info"}
    assert licence.startswith("MIT License")


@pytest.mark.slow
def test_the_installed_wheel_builds_the_example_farm(wheel: Path, tmp_path: Path) -> None:
    """Installed in an empty environment away from the checkout, it makes a site and a print."""
    made = run(sys.executable, "-m", "venv", tmp_path / "env", where=tmp_path)
    assert made.returncode == 0, made.stderr
    python = tmp_path / "env" / "bin" / "python"
    for asked in (
        ("--require-hashes", "--only-binary", ":all:", "-r", ROOT / BUILDERS),
        ("--require-hashes", "--no-build-isolation", "--use-pep517", "-r", ROOT / LOCKS[0]),
        ("--no-deps", wheel),
    ):
        installed = run(
            python, "-m", "pip", "install", "-q", "--no-compile", *asked, where=tmp_path
        )
        if installed.returncode and OFFLINE.search(installed.stderr):
            pytest.skip("this machine is offline: the wheel's parts cannot be fetched")
        assert installed.returncode == 0, installed.stderr
    agreed = run(python, "-m", "pip", "check", where=tmp_path)
    assert agreed.returncode == 0, agreed.stdout  # the lock held all that the wheel asks for

    where = run(python, "-c", "import binder.data as d; print(d.CONTENT)", where=tmp_path)
    assert where.returncode == 0, where.stderr
    content = Path(where.stdout.strip())
    assert content.is_relative_to(tmp_path), "the program reads the checkout's content"

    program, farm = python.with_name("binder"), content / "example-farm"
    for words in (("build", farm, "--site-only"), ("day", farm, "--to", "day", *HOT)):
        done = run(program, *words, "--date", "2026-06-01", where=tmp_path, cache="cache")
        assert done.returncode == 0, done.stdout + done.stderr
    assert "</html>" in (tmp_path / "build/site/index.html").read_text(encoding="utf-8")
    (printed,) = (tmp_path / "day").glob("*.pdf")  # drawn there: nothing was kept before
    assert printed.read_bytes().startswith(b"%PDF-")
