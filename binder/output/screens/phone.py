"""Step 5 in a pocket: every page in one file that opens with no network at all.

The same pages as the site. Which one shows is said by the address behind `#`, and the style
alone obeys it; scripts only add the finder, the search and the title.
"""

from __future__ import annotations

import base64
import hashlib
from html import escape
from typing import TYPE_CHECKING
from urllib.parse import quote

from binder.data import TEMPLATES
from binder.output.screens import finder_form, fonts, frame, says, search, style
from binder.output.screens.screen import Screen, own_name
from binder.output.screens.site import SHARED_SCRIPTS, menu_pages, script, template
from binder.pages.page import PHONE
from binder.writing import write_inside

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from binder.pages.page import Book

FILE = "binder.html"
# Nothing from anywhere; of scripts only the one that is in the file.
_POLICY = (
    "default-src 'none'; base-uri 'none'; form-action 'none'; img-src data:; font-src data:; "
    "style-src 'unsafe-inline'; script-src 'sha256-{digest}'"
)


def write_phone(book: Book, new: Path) -> None:
    """Write the phone file into the folder `phone` below `new`.

    Args:
        book: what to write; sheets that do not stand on the phone are left out.
        new: an existing folder.
    """
    folder = new / "phone"
    folder.mkdir()
    write_inside(folder, FILE, phone_file(book).encode())


def phone_file(book: Book) -> str:
    """Return the whole file."""
    screen = Screen(book, PHONE, _address, lambda name: _picture(name, book))
    keys: dict[str, None] = {}
    views = "".join(_views(screen, keys))
    code = _script(screen)
    digest = base64.b64encode(hashlib.sha256(code.encode()).digest()).decode()
    packed = fonts.files()
    return template("phone.html").substitute(
        language=escape(book.language),
        policy=_POLICY.format(digest=digest),
        title=escape(book.name),
        icon=_icon(),
        style=style.style(lambda name: _data("font/woff2", packed[name])),
        skip=screen.say("skip"),
        top=frame.top(screen),
        views=views,
        foot=frame.foot(screen),
        workings="".join(screen.working(key) for key in keys),
        script=code,
    )


def _address(name: str, place: str) -> str:
    return f"#{_inside(name, place)}" if place else f"#{name}"


def _inside(name: str, place: str) -> str:
    """Return the id in this file of a place on a page."""
    return f"{name}--{place}"


def _views(screen: Screen, keys: dict[str, None]) -> Iterator[str]:
    """Yield every page; `keys` fills with the workings that they show."""
    for name, title, main in menu_pages(screen):
        yield _view(name, title, "menu", _own_ids(name, main))
    for page in screen.pages:
        body = screen.bodies[page.slug]
        keys.update(dict.fromkeys(body.keys))
        main = f"{frame.heading(screen, page)}{body.html}\n{frame.neighbours(screen, page)}"
        yield _view(own_name(page.slug), f"{page.sheet} {page.title}", page.kind, main)


def _own_ids(name: str, main: str) -> str:
    """Return a page of ours with the places that other pages lead to named for this file."""
    return main.replace('id="tab-', f'id="{_inside(name, "tab-")}')


def _view(name: str, title: str, kind: str, main: str) -> str:
    return (
        f'<article class="view {escape(kind)}" id="{escape(name)}" '
        f'data-title="{escape(title)}">\n{main}\n</article>\n'
    )


def _script(screen: Screen) -> str:
    """Return every script of the file, one after the other."""
    parts = (
        'document.documentElement.classList.add("scripted");\n',
        says.words_script(screen),
        says.agenda_script(screen),
        finder_form.data_script(screen),
        search.index_script(screen),
        *(script(name) for name in (*SHARED_SCRIPTS, "phone.js")),
    )
    return "".join(parts)


def _picture(name: str, book: Book) -> str:
    content = (book.small_pictures or book.pictures)[name]
    return _data("image/png" if content.startswith(b"\x89PNG") else "image/jpeg", content)


def _data(kind: str, content: bytes) -> str:
    return f"data:{kind};base64,{base64.b64encode(content).decode()}"


def _icon() -> str:
    drawn = (TEMPLATES / "site" / "icon.svg").read_text(encoding="utf-8").strip()
    return f"data:image/svg+xml,{quote(drawn, safe=' =:/')}".replace('"', "%22")
