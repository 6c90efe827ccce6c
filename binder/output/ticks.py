"""The boxes of visits and looks, as a thumb can tick them; a script keeps what is ticked."""

from __future__ import annotations

import re

KIND = "visit"  # of the pages whose boxes are ticked once a visit
LOOKS = "looks"  # of the page of short looks: an hour a row, a pen a column
_HEAD = re.compile(r'(<th\b[^>]*>)<span class="tick"></span>\s*(.*?)</th>', re.DOTALL)
_COLUMN = re.compile(r'<th scope="col">(.*?)</th>', re.DOTALL)
_LOOK = re.compile(r'<tr><th scope="row">(.*?)</th>(.*?)</tr>', re.DOTALL)
_CELL = re.compile(r"<td>(.*?)</td>", re.DOTALL)
_EMPTY = '<span class="tick"></span>'
_MUCH = '<span class="much">'  # an amount, which leads to its working
_INSIDE = re.compile(r"<(?:a|button)\b")  # what must not stand inside a label


def has_boxes(kind: str) -> bool:
    """Return whether a page of a kind, words of its class, has boxes to tick."""
    return bool({KIND, LOOKS} & set(kind.split()))


def tickable(body: str, kind: str) -> str:
    """Return a body in which each task of a visit card has a checkbox, its whole cell to tap.

    Args:
        body: HTML as a screen shows it.
        kind: the page's kind; only visits and looks have such boxes.
    """
    if LOOKS in kind.split():
        return _looks(body)
    return _HEAD.sub(_box, body) if KIND in kind.split() else body


def _looks(body: str) -> str:
    """Return the page of looks with a checkbox for each, named by its hour and its pen."""
    columns = _COLUMN.findall(body)[1:]

    def row(found: re.Match[str]) -> str:
        clock, cells = found[1], _CELL.findall(found[2])
        boxes = (
            f'<label class="tickable"><input type="checkbox" class="tick-box" '
            f'autocomplete="off" aria-label="{clock}, {pen}"></label>'
            if cell == _EMPTY
            else cell
            for cell, pen in zip(cells, columns, strict=True)
        )
        ticked = "".join(f"<td>{cell}</td>" for cell in boxes)
        return f'<tr><th scope="row">{clock}</th>{ticked}</tr>'

    return _LOOK.sub(row, body)


def _box(found: re.Match[str]) -> str:
    head, words = found[1], found[2]
    what, much, rest = words.partition(_MUCH)
    if _INSIDE.search(what):
        return found[0]
    return (
        f'{head}<label class="tickable"><input type="checkbox" class="tick-box" '
        f'autocomplete="off"><span>{what.strip()}</span></label>{much}{rest}</th>'
    )
