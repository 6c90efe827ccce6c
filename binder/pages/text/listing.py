"""Small turns of text and markup that several pages share."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

if TYPE_CHECKING:
    from binder.figures.bands.farm_bands import Band
    from binder.pages.text.rich import Rich


def upper_first(text: str) -> str:
    """Return `text` with a capital in front."""
    return text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """Return `text` with a small letter in front, for the middle of a sentence."""
    return text[:1].lower() + text[1:]


def sentences(text: str) -> tuple[str, ...]:
    """Return the sentences of a text, each with its full stop."""
    return tuple(part.strip() for part in re.findall(r"[^.]+\.", text))


def chip(band: Band, word: str) -> Markup:
    """Return a band as number, pattern and word."""
    return Markup('<span class="band b{0}">{0}</span> <b>{1}</b>').format(
        int(band), escape(word)
    )


def with_more(first: Rich | str, more: Rich | str) -> Markup:
    """Return the head of a row with a second, lighter line under it where there is one."""
    if not str(more):
        return Markup("{}").format(first)
    return Markup('{} <span class="more">{}</span>').format(first, more)


def unbroken(text: str) -> str:
    """Return `text` with spaces at which no line breaks."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def sentence(text: str) -> str:
    """Return a line of the owner's with a full stop behind it, if it ends without a sign."""
    line = text.strip()
    return f"{line}." if line and line[-1] not in ".!?" else line
