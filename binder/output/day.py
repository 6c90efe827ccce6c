"""Step 5 for a single day: one page that opens by itself, and the same on paper."""

from __future__ import annotations

import base64
from html import escape
from string import Template
from typing import TYPE_CHECKING

from binder.data import TEMPLATES
from binder.output.print import render_loose
from binder.output.screens import fonts, style
from binder.output.screens.screen import Screen
from binder.pages.page import SITE
from binder.problems import Place, Problem, ProblemsError
from binder.writing import write_inside

if TYPE_CHECKING:
    from pathlib import Path

    from binder.output.print import PrintOptions
    from binder.pages.page import Book


def write_day(
    book: Book, to: Path, stem: str, options: PrintOptions | None = None
) -> tuple[Path | None, Path, int]:
    """Write `STEM.html` and `STEM.pdf` into the folder `to`; other files stay as they are.

    Args:
        book: the sheets of the day alone; the first file is made from its `screens`.
        to: the folder, made where it does not exist.
        stem: name of both files without its ending.
        options: how to print.

    Returns:
        Both files, and the pages of the second; None for a first one that screens must not see.

    Raises:
        ProblemsError: sheets that cannot be printed, or a folder that cannot be written.
    """
    pdf, pages = render_loose(book, options)
    shown = book.screens or book
    page = to / f"{stem}.html"
    try:
        to.mkdir(parents=True, exist_ok=True)
        if shown.pages:
            write_inside(to, page.name, html_of(shown).encode())
        else:
            page.unlink(missing_ok=True)  # of a time when it was not private yet
        paper = write_inside(to, f"{stem}.pdf", pdf)
    except OSError as error:
        message = f"cannot be written: {error.strerror or error}"
        raise ProblemsError([Problem(Place(str(to)), "", message)]) from error
    return page if shown.pages else None, paper, pages


def html_of(book: Book) -> str:
    """Return the sheets of a small book as one page with its style and letters inside."""
    screen = Screen(book, SITE, lambda _name, _place: "", lambda _name: "")
    articles = (f"<article>{body.html}</article>\n" for body in screen.bodies.values())
    packed = fonts.files()
    partial = f'<p class="partial">{screen.say("site.partial")}</p>\n' if book.partial else ""
    text = (TEMPLATES / "site" / "day.html").read_text(encoding="utf-8")
    return Template(text).substitute(
        language=escape(book.language),
        title=escape(f"{book.pages[0].title} · {book.name}"),
        style=style.style(lambda name: _data(packed[name])),
        main="".join(articles) + partial,
    )


def _data(content: bytes) -> str:
    return f"data:font/woff2;base64,{base64.b64encode(content).decode()}"
