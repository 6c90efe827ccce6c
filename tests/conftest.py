"""What tests in every folder may ask for."""

from __future__ import annotations

import os
from textwrap import dedent
from typing import TYPE_CHECKING, Protocol

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

# A slow machine is no failure. Shared checks try the same examples every time, so that a change
# is judged by what it changed; on one's own machine each run tries new ones.
settings.register_profile("binder", deadline=None, derandomize="CI" in os.environ)
settings.load_profile("binder")


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
