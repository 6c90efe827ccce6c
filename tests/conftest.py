"""What tests in every folder may ask for."""

from __future__ import annotations

import fcntl
import os
import pickle
from textwrap import dedent
from typing import TYPE_CHECKING, Protocol, TypeVar

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping
    from pathlib import Path

T = TypeVar("T")

# A slow machine is no failure. Shared checks try the same examples every time, so that a change
# is judged by what it changed; on one's own machine each run tries new ones.
settings.register_profile("binder", deadline=None, derandomize="CI" in os.environ)
settings.load_profile("binder")


# Where the system keeps caches, before a run has its own (`drawn_once`).
CACHES = os.environ.get("XDG_CACHE_HOME")


class Once(Protocol):
    """Makes a thing once in a run, whichever of its processes asks first."""

    def __call__(self, name: str, make: Callable[[Path], T]) -> T:
        """Return what `make` returns, given a folder of that name which stays to the end."""


@pytest.fixture(scope="session")
def run_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder that all processes of this run share."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@pytest.fixture(scope="session")
def once(run_folder: Path) -> Once:
    """Return a function that makes a thing once in a run; a binder takes seconds."""

    def call(name: str, make: Callable[[Path], T]) -> T:
        folder, kept = run_folder / f"once-{name}", run_folder / f"once-{name}.pickle"
        with (run_folder / f"once-{name}.lock").open("w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            if not kept.exists():
                folder.mkdir()
                kept.write_bytes(pickle.dumps(make(folder)))
            made: T = pickle.loads(kept.read_bytes())  # noqa: S301 -- written by this very run
        return made

    return call


@pytest.fixture(scope="session", autouse=True)
def drawn_once(run_folder: Path) -> Iterator[None]:
    """Keep drawn sheets for this run alone: each is drawn once, whoever prints it.

    Nor is the cache of whoever runs the tests read or filled. A test of the cache itself, or
    of the drawing, takes one of its own.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(run_folder / "cache"))
        yield


class FarmFolder(Protocol):
    """Writes a farm folder and tells where it is."""

    def __call__(self, files: Mapping[str, str]) -> Path:
        """Return the folder that now holds `files`, path to text."""


@pytest.fixture
def farm_folder(tmp_path: Path) -> FarmFolder:
    """Return a function that writes a farm from a literal mapping of path to text.

    Texts may be indented like the code around them: the shared indentation goes, and so does
    the line break after the opening quotes, so that the first line of text is line 1 of the
    file. A second call adds to the same folder.
    """
    folder = tmp_path / "farm"

    def write(files: Mapping[str, str]) -> Path:
        folder.mkdir(exist_ok=True)
        for name, text in files.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(dedent(text).removeprefix("\n"), encoding="utf-8")
        return folder

    return write
