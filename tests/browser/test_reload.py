"""`binder host` as a sitter meets it: the page tells that there is a newer one."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest

from tests.browser.conftest import EXAMPLE, PHONE, visit

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture
def farm(tmp_path: Path) -> Path:
    """Return a copy of the example farm."""
    return shutil.copytree(EXAMPLE, tmp_path / "farm")


@pytest.fixture
def address(farm: Path, tmp_path: Path) -> Iterator[str]:
    """Return where `binder host` serves that farm, on a free port of this machine alone."""
    command = [
        sys.executable, "-m", "binder", "host", str(farm), "--port", "0",
        "--only-this-machine", "--to", str(tmp_path / "build"), "--date", "2026-06-01",
    ]  # fmt: skip
    quiet = {**os.environ, "PYTHONUNBUFFERED": "1"}
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=quiet) as host:
        assert host.stdout is not None
        found = next(
            match[0]
            for line in host.stdout
            if (match := re.search(r"http://127\.0\.0\.1:\d+/", line))
        )
        yield found
        host.send_signal(signal.SIGINT)
        rest = host.stdout.read()
        assert host.wait(timeout=20) in (0, 130), rest


def change(farm: Path, old: str, new: str) -> None:
    """Save a change in farm.yaml, as an editor does."""
    path = farm / "farm.yaml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_open_pages_hear_of_changes(farm: Path, address: str, browser: Browser) -> None:
    """A change: tap to reload. A mistake: the last good version stands. Mended: all is well."""
    with visit(browser, viewport=PHONE) as visited:
        page = visited.page
        page.goto(address)
        assert page.locator(".farm").inner_text() == "Ninebark Bottom Farm"

        change(farm, "Ninebark Bottom Farm", "Ninebark Hollow")
        page.get_by_role("button", name="New version. Tap to reload").click(timeout=30_000)
        page.wait_for_function("() => document.querySelector('.farm').textContent[9] === 'H'")
        assert page.locator(".news").count() == 0

        change(farm, "units: us", "units: furlongs")
        page.locator('.news[data-says="failed"]').wait_for(timeout=30_000)
        page.goto(f"{address}pen-creek.html")
        assert page.locator("h1").inner_text() == "Creek paddock"

        change(farm, "units: furlongs", "units: us")
        page.locator('.news[data-says="failed"]').wait_for(state="detached", timeout=30_000)
        assert visited.heard.faults == []
        assert all(url.startswith((address, "data:")) for url in visited.heard.asked)


def test_a_page_says_when_nobody_answers(address: str, browser: Browser) -> None:
    """Out of reach of the farm's computer it says so, stays open, and still answers."""
    with visit(browser, viewport=PHONE) as visited:
        visited.page.goto(address)
        with visited.page.expect_download() as given:
            visited.page.locator(".offer a").click()
        assert given.value.suggested_filename == "ninebark-bottom-farm.html"
        visited.page.context.set_offline(True)
        visited.page.locator('.news[data-says="gone"]').wait_for(timeout=40_000)
        visited.page.get_by_role("link", name="Pens", exact=True).click()
        visited.page.locator("#temp").fill("97")
        visited.page.locator("#humidity").fill("55")
        assert visited.page.locator("#now .band:visible").count() > 0
        assert visited.page.url == address
        visited.page.context.set_offline(False)
        visited.page.locator(".news").wait_for(state="detached", timeout=30_000)
