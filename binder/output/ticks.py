"""The boxes of a visit card, as a thumb can tick them; a script keeps what is ticked."""

from __future__ import annotations

import re

KIND = "visit"  # of the pages whose boxes are ticked once a visit
_HEAD = re.compile(r'(<th\b[^>]*>)<span class="tick"></span>\s*(.*?)</th>', re.DOTALL)
_MUCH = '<span class="much">'  # an amount, which leads to its working
_INSIDE = re.compile(r"<(?:a|button)\b")  # what must not stand inside a label


def tickable(body: str, kind: str) -> str:
    """Return a body in which each task of a visit card has a checkbox, its whole cell to tap.

    Args:
        body: HTML as a screen shows it.
        kind: the page's kind; only visit cards have such boxes.
    """
    return _HEAD.sub(_box, body) if KIND in kind.split() else body


def _box(found: re.Match[str]) -> str:
    head, words = found[1], found[2]
    what, much, rest = words.partition(_MUCH)
    if _INSIDE.search(what):
        return found[0]
    return (
        f'{head}<label class="tickable"><input type="checkbox" class="tick-box" '
        f'autocomplete="off"><span>{what.strip()}</span></label>{much}{rest}</th>'
    )
