"""The other way to print: every sheet in one document, drawn by one process in one go."""

from __future__ import annotations

import base64
import re
from pathlib import Path
from typing import TYPE_CHECKING

import fontpkg_atkinson_hyperlegible as fontpkg

from binder.output.paper.paper_style import stylesheet
from binder.output.paper.sheet import Setting, SheetAge, sheet

if TYPE_CHECKING:
    from binder.pages.page import Book

_STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)
_BODY = re.compile(r'<body class="([^"]*)">(.*)</body>', re.DOTALL)
_PICTURE = re.compile(r'src="picture:([^"]+)"')


def document(book: Book) -> str:
    """Return one HTML document of the same sheets, each on pages of its own kind.

    Fonts and pictures are inside it as data, so that a browser needs nothing else.
    """
    setting, styles, parts = Setting(), [_fonts(stylesheet(book.paper))], []
    for at, page in enumerate(book.pages):
        html = sheet(page, book, SheetAge(date=book.date), setting).html
        style, body = _STYLE.search(html), _BODY.search(html)
        assert style
        assert body
        name = f"sheet{at}"
        styles.append(style[1].replace("@page {", f"@page {name} {{"))
        parts.append(
            f'<div class="{body[1]} {name}" style="page: {name}; break-before: page">'
            f"{body[2]}</div>"
        )
    whole = f'<html lang="{book.language}"><meta charset="utf-8">'
    whole += f"<title>{book.name}</title>"
    whole += f"<style>{chr(10).join(styles)}</style><body>{''.join(parts)}</body></html>"
    return _PICTURE.sub(lambda found: f'src="{_data(book.pictures[found[1]])}"', _once(whole))


def _once(html: str) -> str:
    """Return the document with each id once, though two sheets may share one."""
    seen: set[str] = set()

    def keep(found: re.Match[str]) -> str:
        if found[1] in seen:
            return ""
        seen.add(found[1])
        return found[0]

    return re.sub(r' id="([^"]+)"', keep, html)


def _fonts(css: str) -> str:
    folder = Path(fontpkg.ROOT) / "files"

    def inside(found: re.Match[str]) -> str:
        raw = base64.b64encode((folder / found[1]).read_bytes()).decode()
        return f"url(data:font/ttf;base64,{raw})"

    return re.sub(r"url\(font:([^)]+)\)", inside, css)


def _data(picture: bytes) -> str:
    kind = "png" if picture.startswith(b"\x89PNG") else "jpeg"
    return f"data:image/{kind};base64,{base64.b64encode(picture).decode()}"
