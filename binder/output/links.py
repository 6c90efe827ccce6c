"""The links in a sheet's body, made into those of a screen.

Pages write `sheet:SLUG`, `working:KEY` and `picture:NAME`; a screen says where these are. A
link to what it does not show becomes plain text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
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
# What text is not turned into a link in: links, controls and drawings, and tags themselves.
_LINK_OR_TAG = re.compile(
    r"(<a\b.*?</a>|<button\b.*?</button>|<svg\b.*?</svg>|<title\b.*?</title>|<[^>]*>)",
    re.DOTALL,
)
# What goes wrong at a pen, each phrase with its sheet: the whole phrase leads there.
_PHRASE = re.compile(r'<span>([^<]*)<a class="sheet" href="([^"]+)">(.*?)</a></span>')
# A number to call in an emergency is short: no amount, and not the name of an address.
_NO_AMOUNT = r"(?![\w-])(?!\.\d)(?!\s*(?:address|lb|gal|kg|g|L|ft|in|W|A|min|h|%)\b)"
_NUMBER = re.compile(r"\+?[0-9(][0-9 ().-]*")
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
        phones: every phone number of the book, as it is shown.
        emergency: the number to call where life is in danger, empty without one.
        places: addresses of places that running text names, such as `tab E`.
    """

    sheet: Callable[[str], str]
    picture: Callable[[str], str]
    workings: Mapping[str, str]
    numbers: Callable[[str], tuple[str, str]]
    table: str
    phones: frozenset[str] = frozenset()
    emergency: str = ""
    places: Mapping[str, str] = field(default_factory=dict)

    @property
    def named(self) -> re.Pattern[str]:
        """Return what finds, in running text, all that leads somewhere."""
        parts = [_TOLL_FREE.pattern]
        parts += [
            rf"(?<![\w-]){re.escape(one)}(?![\w-])"
            for one in sorted(self.phones, key=len)[::-1]
        ]
        if self.emergency:
            parts.append(rf"(?<![\w.,$-]){re.escape(self.emergency)}{_NO_AMOUNT}")
        parts += [rf"\b{re.escape(name)}\b" for name in self.places]
        return re.compile("|".join(parts))


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
    text = _PHRASE.sub(r'<a class="sheet phrase" href="\2">\1\3</a>', text)
    text = _EMPTY_HEAD.sub("<td></td>", text)
    if "<h2" not in text:  # no level of headings may be left out on the way down
        text = text.replace("<h3>", '<h2 class="minor">').replace("</h3>", "</h2>")
    text = movable(_led(text, links), links.table)
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


def _led(body: str, links: Links) -> str:
    """Return a body in which every phone number can be dialled and every named place tapped."""
    named = links.named
    if not named.search(body):
        return body

    def link(found: re.Match[str]) -> str:
        address = links.places.get(found[0])
        if address:
            return f'<a class="sheet" href="{escape(address)}">{found[0]}</a>'
        return _dial(found[0])

    return "".join(
        part if part.startswith("<") else named.sub(link, part)
        for part in _LINK_OR_TAG.split(body)
    )


def _dial(number: str) -> str:
    head = _NUMBER.match(number)  # an extension behind it is said, not dialled
    digits = "".join(sign for sign in head[0] if sign.isdigit() or sign == "+") if head else ""
    return f'<a class="phone" href="tel:{digits}">{number}</a>'


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
