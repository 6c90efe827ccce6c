"""The example farm's site, built once, and a real browser to open it with."""

from __future__ import annotations

import contextlib
import datetime as dt
import os
import shutil
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import sync_playwright

from binder.build import book_of
from binder.output.screens.phone import write_phone
from binder.output.screens.site import write_site
from tests.conftest import CACHES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, BrowserContext, Page

    from binder.pages.page import Book
    from tests.conftest import Once

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "content" / "example-farm"
DAY = dt.date(2026, 6, 1)
_BROWSERS = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
PHONE = {"width": 360, "height": 740}
DESK = {"width": 1280, "height": 900}


@dataclass(frozen=True)
class Built:
    """A farm's binder as screens show it, and where it is."""

    book: Book
    folder: Path

    @property
    def names(self) -> tuple[str, ...]:
        """Return the names of all pages of the site."""
        return tuple(sorted(path.stem for path in (self.folder / "site").glob("*.html")))

    def texts(self) -> dict[str, str]:
        """Return name -> HTML of every page of the site."""
        site = self.folder / "site"
        return {name: (site / f"{name}.html").read_text("utf-8") for name in self.names}

    def url(self, name: str) -> str:
        """Return the address of a page of the site on the disk."""
        page, _, place = name.partition("#")
        address = (self.folder / "site" / f"{page}.html").as_uri()
        return f"{address}#{place}" if place else address

    @property
    def phone(self) -> str:
        """Return the address of the phone file on the disk."""
        return (self.folder / "phone" / "binder.html").as_uri()


def build_screens(farm: Path, to: Path) -> Built:
    """Build site and phone file of a farm folder into an existing folder."""
    book = book_of(farm, DAY)
    shown = book.screens or book
    write_site(shown, to)
    write_phone(shown, to)
    return Built(shown, to)


@pytest.fixture(scope="session")
def example(once: Once) -> Built:
    """Return the example farm's screens."""
    return once("example-screens", lambda folder: build_screens(EXAMPLE, folder))


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return the Chromium that script/prepare found, the system's or playwright's own."""
    named = os.environ.get("BINDER_CHROMIUM")
    program = named or next(
        (found for name in _BROWSERS if (found := shutil.which(name))), None
    )
    with pytest.MonkeyPatch.context() as patch:
        # Where playwright keeps its own: not in the cache of this run (`drawn_once`).
        if CACHES is None:
            patch.delenv("XDG_CACHE_HOME", raising=False)
        else:
            patch.setenv("XDG_CACHE_HOME", CACHES)
        started = sync_playwright().start()
    opened = started.chromium.launch(executable_path=program, args=["--no-sandbox"])
    yield opened
    opened.close()
    started.stop()


@dataclass(frozen=True)
class Heard:
    """What pages complained of and asked for."""

    faults: list[str] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)

    def listen(self, context: BrowserContext) -> None:
        """Note errors and requests of every page of a context."""
        # Not the method itself: playwright leaves a mark on its object, and this one is frozen.
        context.on("page", lambda page: self._page(page))  # noqa: PLW0108

    def _page(self, page: Page) -> None:
        page.on("pageerror", lambda error: self.faults.append(f"{page.url}: {error}"))
        page.on(
            "console",
            lambda message: (
                self.faults.append(f"{page.url}: {message.text}")
                if message.type in ("error", "warning")
                else None
            ),
        )
        page.on("dialog", lambda dialog: self.faults.append(f"dialog: {dialog.message}"))
        page.on("request", lambda request: self.asked.append(request.url))


@dataclass(frozen=True)
class Visit:
    """An open page, with what it complained of."""

    page: Page
    heard: Heard


@pytest.fixture
def phone(browser: Browser) -> Iterator[Visit]:
    """Return a page of the size of a small phone, with touch."""
    with visit(browser, viewport=PHONE, has_touch=True, is_mobile=True) as visited:
        yield visited


@pytest.fixture
def desk(browser: Browser) -> Iterator[Visit]:
    """Return a page of the size of a desk's screen."""
    with visit(browser, viewport=DESK) as visited:
        yield visited


@contextlib.contextmanager
def visit(browser: Browser, **how: object) -> Iterator[Visit]:
    """Yield a page in a context of its own, closed at the end."""
    context = browser.new_context(**how)  # type: ignore[arg-type] # one call, many kinds
    heard = Heard()
    heard.listen(context)
    yield Visit(context.new_page(), heard)
    context.close()
