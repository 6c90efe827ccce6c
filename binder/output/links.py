"""The links in a sheet's body, made into those of a screen.

Pages write `sheet:SLUG`, `working:KEY` and `picture:NAME`; a screen says where these are. A
link to what it does not show becomes plain text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import escape, unescape
from typing import TYPE_CHECKING

from binder.output.tables import movable

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

_SHEET = re.compile(r'<a\b[^>]*\bhref="sheet:([^"#]+)[^>]*>(.*?)</a>', re.DOTALL)
_WORKING = re.compile(r'<a\b[^>]*\bhref="working:([^"]+)"[^>]*>(.*?)</a>', re.DOTALL)
_PICTURE = re.compile(r'\bsrc="picture:([^"]+)"')
_DRAWING = re.compile(r'<figure class="drawing">(?=<svg[^>]*\bclass="(?:timeline|map)")')
# As printed on US poison and safety lines: the protocols name them in running text.
_TOLL_FREE = re.compile(r"(?<![\w-])1-8\d\d-\d{3}-\d{4}(?![\w-])")
_LINK_OR_TAG = re.compile(r"(<a\b.*?</a>|<[^>]*>)", re.DOTALL)
_EMPTY_HEAD = re.compile(r'<th scope="row">\s*</th>')
_ID = re.compile(r'\bid="([^"]+)"')
_FROM_ID = re.compile(
    r'\b(?:aria-labelledby|aria-describedby|for|href|xlink:href)="#?([^"#]+)"'
)


@dataclass(frozen=True, slots=True)
class Links:
    """Where things are on one screen.

    Attributes:
        sheet: gives the address of a sheet by its slug, empty where it is not shown.
        picture: gives the address of a picture by its name.
        workings: key -> HTML of each number's working.
        numbers: gives the address of a working in the Numbers tab and the id of its sheet, both
            empty without one.
        table: what to call a table that moves sideways.
    """

    sheet: Callable[[str], str]
    picture: Callable[[str], str]
    workings: Mapping[str, str]
    numbers: Callable[[str], tuple[str, str]]
    table: str


def working_id(key: str) -> str:
    """Return the id of the box that shows a working; two keys never share one."""
    return "of-" + "".join(
        sign if sign.isalnum() and sign.isascii() else f"_{ord(sign):x}_" for sign in key
    )


def resolve(body: str, links: Links) -> tuple[str, tuple[str, ...]]:
    """Return a body whose links all lead somewhere, and the keys of the workings it shows."""
    keys: dict[str, None] = {}

    def sheet(found: re.Match[str]) -> str:
        address = links.sheet(unescape(found[1]))
        if not address:
            return f'<span class="sheet">{found[2]}</span>'
        return f'<a class="sheet" href="{escape(address)}">{found[2]}</a>'

    def working(found: re.Match[str]) -> str:
        key = unescape(found[1])
        if key not in links.workings:
            return f'<span class="number">{found[2]}</span>'
        keys[key] = None
        return _button(key, found[2], links)

    def picture(found: re.Match[str]) -> str:
        return f'loading="lazy" src="{escape(links.picture(unescape(found[1])))}"'

    text = _SHEET.sub(sheet, body)
    text = _WORKING.sub(working, text)
    text = _PICTURE.sub(picture, text)
    text = _EMPTY_HEAD.sub("<td></td>", text)
    if "<h2" not in text:  # no level of headings may be left out on the way down
        text = text.replace("<h3>", '<h2 class="minor">').replace("</h3>", "</h2>")
    text = movable(_dialled(text), links.table)
    text = _DRAWING.sub(
        f'<figure class="drawing scroll" tabindex="0" role="group" aria-label="{links.table}">',
        text,
    )
    return text, tuple(keys)


def _button(key: str, text: str, links: Links) -> str:
    """Return a number that opens its working, and the link for browsers without pop-ups."""
    address, sheet = links.numbers(key)
    more = f'<a class="at" href="{escape(address)}">{escape(sheet)}</a>' if address else ""
    return (
        f'<button type="button" class="number" popovertarget="{working_id(key)}">'
        f"{text}</button>{more}"
    )


def _dialled(body: str) -> str:
    """Return a body whose toll-free numbers a phone can dial."""
    if not _TOLL_FREE.search(body):
        return body
    return "".join(
        part if part.startswith("<") else _TOLL_FREE.sub(lambda found: _dial(found[0]), part)
        for part in _LINK_OR_TAG.split(body)
    )


def _dial(number: str) -> str:
    return f'<a class="phone" href="tel:{number.replace("-", "")}">{number}</a>'


def apart(body: str, prefix: str) -> str:
    """Return a body whose ids cannot meet those of other sheets in the same file."""
    ids = set(_ID.findall(body))
    if not ids:
        return body
    text = _ID.sub(lambda found: f'id="{prefix}--{found[1]}"', body)
    text = re.sub(
        r"url\(#([^)]+)\)",
        lambda found: f"url(#{prefix}--{found[1]})" if found[1] in ids else found[0],
        text,
    )
    return _FROM_ID.sub(
        lambda found: (
            found[0].replace(found[1], f"{prefix}--{found[1]}") if found[1] in ids else found[0]
        ),
        text,
    )
