"""Step 5 on a screen: the site, a folder of plain pages that open from the disk.

Every page works without script; scripts add the band finder, the search and the word that there
is a newer version. Nothing is asked of any other place.
"""

from __future__ import annotations

from functools import lru_cache
from html import escape
from string import Template
from typing import TYPE_CHECKING
from urllib.parse import quote

from binder.data import TEMPLATES
from binder.output.screens import finder_form, fonts, frame, menus, says, search, style, ticks
from binder.output.screens.screen import FIND, FRONT, LOG, Screen, own_name
from binder.pages.page import SITE
from binder.writing import write_inside

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from binder.pages.page import Book

# What site and phone file run alike, in this order.
SHARED_SCRIPTS = (
    "kept.js",
    "reading.js",
    "now.js",
    "band_finder.js",
    "ticks.js",
    "log.js",
    "find_sheet.js",
)
PHONE_FILE = "../phone/binder.html"
# Scripts of every page, in order, and those of one page.
_EVERYWHERE = ("site.js", "kept.js", "finder-data.js", "reading.js")
_DAY = ("agenda.js", "now.js")
_SCRIPTS = {
    FRONT: (*_DAY, "band_finder.js"),
    FIND: ("sheets.js", "find_sheet.js"),
    LOG: (*_DAY, "log.js"),
}
_TICKED = (*_DAY, "ticks.js")
_ROBOTS = "User-agent: *\nDisallow: /\n"


def write_site(book: Book, new: Path) -> None:
    """Write the site into the folder `site` below `new`.

    Args:
        book: what to write; sheets that do not stand on the site are left out.
        new: an existing folder.
    """
    folder = new / "site"
    folder.mkdir()
    for name, content in files(book):
        write_inside(folder, name, content)


def files(book: Book) -> Iterator[tuple[str, bytes]]:
    """Yield every file of the site: its name with `/`, its content."""
    used: dict[str, None] = {}

    def picture(name: str) -> str:
        used[name] = None
        return f"pictures/{quote(name)}"

    yield from _files(Screen(book, SITE, _address, picture))
    for name in used:
        yield f"pictures/{name}", book.pictures[name]


def _address(name: str, place: str) -> str:
    return f"{name}.html#{place}" if place else f"{name}.html"


def _files(screen: Screen) -> Iterator[tuple[str, bytes]]:
    for name, text in (*_pages(screen), *_scripts(screen)):
        yield name, text.encode()
    yield "style.css", style.style(lambda name: f"fonts/{name}").encode()
    for name, content in fonts.files().items():
        yield f"fonts/{name}", content
    yield "icon.svg", (TEMPLATES / "site" / "icon.svg").read_bytes()
    yield "robots.txt", _ROBOTS.encode()


def _pages(screen: Screen) -> Iterator[tuple[str, str]]:
    yield from (
        (f"{name}.html", _page(screen, name, title, "menu", main))
        for name, title, main in menu_pages(screen, PHONE_FILE)
    )
    for page in screen.pages:
        body = screen.bodies[page.slug]
        main = f"{frame.heading(screen, page)}{body.html}\n{frame.neighbours(screen, page)}"
        title = f"{page.sheet} {page.title}"
        name = own_name(page.slug)
        yield f"{name}.html", _page(screen, name, title, page.kind, main, body.keys)


def menu_pages(screen: Screen, phone_file: str = "") -> Iterator[tuple[str, str, str]]:
    """Yield name, title and content of the screens' own pages."""
    yield FRONT, screen.book.labels["now"], menus.front(screen, phone_file)
    for name, (label, make) in menus.MENU_PAGES.items():
        yield name, screen.book.labels[label], make(screen)


def _page(
    screen: Screen, name: str, title: str, kind: str, main: str, keys: Iterable[str] = ()
) -> str:
    of_kind = _TICKED if ticks.has_boxes(kind) else ()
    scripts = "".join(
        f'<script src="{file}" defer></script>\n'
        for file in (*_EVERYWHERE[1:], *_SCRIPTS.get(name, of_kind))
    )
    return template("page.html").substitute(
        language=escape(screen.book.language),
        title=escape(f"{title} · {screen.book.name}"),
        scripts=scripts,
        kind=escape(kind),
        name=escape(name),
        skip=screen.say("skip"),
        top=frame.top(screen, name),
        main=main,
        foot=frame.foot(screen, name),
        workings="".join(screen.working(key) for key in keys),
    )


def _scripts(screen: Screen) -> Iterator[tuple[str, str]]:
    for name in SHARED_SCRIPTS:
        yield name, script(name)
    yield "site.js", f"{says.words_script(screen)}{script('site.js')}"
    yield "finder-data.js", finder_form.data_script(screen)
    yield "agenda.js", says.agenda_script(screen)
    yield "sheets.js", search.index_script(screen)


@lru_cache(maxsize=8)
def script(name: str) -> str:
    """Return one of our scripts."""
    return (TEMPLATES / name).read_text(encoding="utf-8")


@lru_cache(maxsize=4)
def template(name: str) -> Template:
    """Return one of the screens' templates."""
    return Template((TEMPLATES / "site" / name).read_text(encoding="utf-8"))
