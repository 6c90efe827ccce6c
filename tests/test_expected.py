"""The example farm's whole site, byte for byte, so that a change of words is read as pages.

    sh script/refresh-expected    # after a change that is meant, to be committed with it

What stands under every sheet (whom to call, every emergency) is kept once, in the front page;
the other pages show where it was. Style, scripts and fonts are not kept: they have tests of
their own.
"""

from __future__ import annotations

import datetime as dt
import difflib
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from binder.build import book_of
from binder.data import CONTENT
from binder.output.screens.site import files

EXPECTED = Path(__file__).resolve().parent / "expected" / "site"
DAY = dt.date(2026, 6, 1)
_FOOT = re.compile(r'<footer class="aside">.*?</footer>', re.DOTALL)
_MARK = "<!-- the foot of index.html -->"
_SHOWN_LINES = 40


def pages() -> dict[str, str]:
    """Return the site's pages by file name, the shared foot kept in the front page only."""
    book = book_of(CONTENT / "example-farm", DAY)
    found = {
        name: content.decode()
        for name, content in files(book.screens or book)
        if name.endswith(".html")
    }
    foot = _FOOT.search(found["index.html"])
    assert foot is not None
    return {
        name: text if name == "index.html" else text.replace(foot[0], _MARK)
        for name, text in found.items()
    }


def refresh() -> None:
    """Write the pages as they are now in place of the expected ones."""
    shutil.rmtree(EXPECTED, ignore_errors=True)
    EXPECTED.mkdir(parents=True)
    for name, text in pages().items():
        (EXPECTED / name).write_bytes(text.encode())


@pytest.fixture(scope="module")
def now() -> dict[str, str]:
    """Return the pages as they are now."""
    return pages()


def test_the_pages_are_those_expected(now: dict[str, str]) -> None:
    """None more, none fewer."""
    assert set(now) == {path.name for path in EXPECTED.iterdir()}


def test_every_page_is_as_expected(now: dict[str, str]) -> None:
    """Each byte; of the pages that differ the lines are shown."""
    lines: list[str] = []
    for name, text in now.items():
        path = EXPECTED / name
        before = path.read_bytes().decode() if path.exists() else ""
        if text != before:
            old, new = before.splitlines(), text.splitlines()
            lines += difflib.unified_diff(
                old, new, f"expected {name}", f"now {name}", "", "", 0
            )
    shown = "\n".join(line[:200] for line in lines[:_SHOWN_LINES])
    assert not lines, f"changed on purpose? sh script/refresh-expected\n{shown}"


def test_no_page_hangs_on_the_order_of_a_set() -> None:
    """Two processes that hash texts differently write the same pages."""
    command = (
        "import hashlib; from tests.test_expected import pages; "
        "print(hashlib.sha256(repr(sorted(pages().items())).encode()).hexdigest())"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", command],
            check=True,
            capture_output=True,
            cwd=Path(__file__).resolve().parent.parent,
            env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(told) == 1


if __name__ == "__main__":
    refresh()
    sys.stdout.write(f"{len(list(EXPECTED.iterdir()))} pages in {EXPECTED}\n")
