"""A line of text with links, written once, shown in HTML pages and Markdown protocols alike."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

_MARK = "\N{NULL}"  # the check of the farm folder lets none through
# Every sign that Markdown could take for its own.
_MARKDOWN = re.compile(r"[\\`*_{}\[\]()<>#+\-.!|~=:^$@/&\"']")


def inert(text: object) -> str:
    """Return farm text that neither HTML nor Markdown will read as its own, on one line.

    Each sign becomes a numeric entity; `protocol.to_html` turns the harmless ones back.
    """
    line = " ".join(str(text).split())
    return _MARKDOWN.sub(lambda sign: f"&#{ord(sign[0])};", line)


@dataclass(frozen=True, slots=True)
class Link:
    """Words that lead somewhere: `sheet:SLUG`, `working:KEY`, `tel:NUMBER` or a web address."""

    text: str
    href: str


@dataclass(frozen=True, slots=True)
class Rich:
    """Text and links in a row."""

    parts: tuple[str | Link, ...]

    def __html__(self) -> Markup:
        """Return it as HTML; Jinja and `Markup.format` ask for this."""
        return Markup("").join(_html(part) for part in self.parts)

    def __markdown__(self) -> str:
        """Return it as Markdown."""
        return "".join(_markdown(part) for part in self.parts)

    def __str__(self) -> str:
        """Return the words alone."""
        return "".join(part if isinstance(part, str) else part.text for part in self.parts)

    def __add__(self, other: Rich | str) -> Rich:
        """Return both, one after the other."""
        return Rich(self.parts + (other.parts if isinstance(other, Rich) else (other,)))


# What a sheet prints: words (markup is words too), or words with links.
Text = str | Rich


def rich(*parts: Rich | Link | str) -> Rich:
    """Return the parts as one line."""
    flat: list[str | Link] = []
    for part in parts:
        flat.extend(part.parts if isinstance(part, Rich) else (part,))
    return Rich(tuple(flat))


def joined(items: Iterable[Rich | Link | str], between: str = ", ") -> Rich:
    """Return the items in a row with `between` between them."""
    parts: list[Rich | Link | str] = []
    for item in items:
        if parts:
            parts.append(between)
        parts.append(item)
    return rich(*parts)


def link_class(href: str) -> str:
    """Return the CSS class of a link by where it leads."""
    return {"sheet": "sheet", "working": "number", "tel": "phone"}.get(
        href.partition(":")[0], "out"
    )


def _html(part: str | Link) -> Markup:
    if isinstance(part, str):
        return escape(part)
    return Markup('<a class="{}" href="{}">{}</a>').format(
        link_class(part.href), part.href, part.text
    )


def _markdown(part: str | Link) -> str:
    if isinstance(part, str):
        lead = "&#32;" if part[:1] == " " else ""
        tail = "&#32;" if part[-1:] == " " and part.strip() else ""
        return f"{lead}{inert(part)}{tail}"
    return f"[{inert(part.text)}](<{part.href}>)"


def linked(fill: Callable[..., str], values: Mapping[str, object]) -> Rich:
    """Return a sentence that `fill` makes of `values`, with the links among them put in."""
    links = {name: one for name, one in values.items() if isinstance(one, Rich)}
    marks = {name: f"{_MARK}{name}{_MARK}" for name in links}
    parts = fill(**{**values, **marks}).split(_MARK)
    return rich(*(links[part] if at % 2 else part for at, part in enumerate(parts)))
