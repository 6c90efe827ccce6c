"""A small build, served."""

from __future__ import annotations

from pathlib import Path

import pytest

from binder.output.host import snapshot
from binder.output.host.app import SiteState
from tests.output.host.asking import HIDDEN


@pytest.fixture
def build(tmp_path: Path) -> Path:
    """Return an output folder with a small site, a phone file, and what must not be served."""
    site = tmp_path / "build" / "site"
    (site / "pictures").mkdir(parents=True)
    (tmp_path / "build" / "phone").mkdir()
    (site / "index.html").write_text(
        '<!doctype html>\n<html lang="en"><title>Front</title><p>' + "Front " * 200,
        encoding="utf-8",
    )
    (site / "find.html").write_text("<html lang='en'>Find", encoding="utf-8")
    (site / "site.js").write_text("1;", encoding="utf-8")
    (site / "pictures" / "a b.png").write_bytes(b"\x89PNG picture")
    (site / "notes.yaml").write_text(HIDDEN, encoding="utf-8")
    (tmp_path / "secret.html").write_text(HIDDEN, encoding="utf-8")
    (site / "link.html").symlink_to(tmp_path / "secret.html")
    (site / "elsewhere").symlink_to(tmp_path, target_is_directory=True)
    (tmp_path / "build" / "phone" / "binder.html").write_text(
        '<html lang="en"><style></style>', encoding="utf-8"
    )
    return tmp_path / "build"


@pytest.fixture
def state(build: Path) -> SiteState:
    """Return that build as shown."""
    return SiteState(snapshot.take(build))
