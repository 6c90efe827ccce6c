"""Tables on a narrow screen: charts move sideways, facts stand one below the other.

Each cell then carries the head of its column, and says by its role what it is, since some
browsers forget that of a cell that is drawn as a block.
"""

from __future__ import annotations

import re
from html import escape

_TABLE = re.compile(r"<table\b([^>]*)>(.*?)</table>", re.DOTALL)
_ROW = re.compile(r"<tr\b([^>]*)>(.*?)</tr>", re.DOTALL)
_CELL = re.compile(r"<(td|th)\b([^>]*)>(.*?)</\1>", re.DOTALL)
_MARKED = re.compile(r"<[^>]*>")
_CLASS = re.compile(r'\bclass="([^"]*)"')
_WHOLE = frozenset({"bands", "log", "asks"})  # read across: a chart, a form, the five numbers
_STACKED_FROM = 3  # columns: our choice; two stand side by side on any phone
_FEW = 2  # columns that fit any screen, so that keys need not stop there


def movable(body: str, name: str) -> str:
    """Return a body whose tables fit a narrow screen.

    Args:
        body: HTML as pages write it.
        name: what to call a table that moves sideways.
    """
    return _TABLE.sub(lambda found: _table(found[0], found[1], found[2], name), body)


def _table(whole: str, attributes: str, inner: str, name: str) -> str:
    head, _, rest = inner.partition("</thead>")
    labels = [_plain(text) for _, _, text in _CELL.findall(head)] if rest else []
    if _can_stack(attributes, head, rest, len(labels)):
        return _stacked(attributes, head, rest, labels)
    row = _ROW.search(inner)
    if row and len(_CELL.findall(row[2])) <= _FEW:
        return f'<div class="scroll">{whole}</div>'
    return (
        f'<div class="scroll" tabindex="0" role="group" aria-label="{escape(name)}">'
        f"{whole}</div>"
    )


def _can_stack(attributes: str, head: str, rest: str, columns: int) -> bool:
    named = _CLASS.search(attributes)
    classes = set(named[1].split()) if named else set()
    regular = head.count("<tr") == 1 and "span=" not in head + rest
    return columns >= _STACKED_FROM and regular and not classes & _WHOLE


def _stacked(attributes: str, head: str, rest: str, labels: list[str]) -> str:
    """Return a table with a role on each part and its column's head on each cell."""
    named = _CLASS.search(attributes)
    classes = f'class="{named[1] if named else ""} stack"'
    others = _CLASS.sub("", attributes).rstrip()
    top = _ROW.sub(lambda row: _row(row, []), head)
    rows = _ROW.sub(lambda row: _row(row, labels), rest)
    parts = f"{top}</thead>{rows}".replace("<thead", '<thead role="rowgroup"')
    parts = parts.replace("<tbody", '<tbody role="rowgroup"')
    return f'<table role="table" {classes}{others}>{parts}</table>'


def _row(row: re.Match[str], labels: list[str]) -> str:
    """Return a row with its roles; `labels` are the heads of its cells, none for a head row."""
    places = iter(range(len(labels)))

    def cell(found: re.Match[str]) -> str:
        kind, attributes, text = found.groups()
        place = next(places, None)
        role = "cell" if kind == "td" else "rowheader" if labels else "columnheader"
        label = f' data-label="{labels[place]}"' if place and kind == "td" else ""
        return f'<{kind} role="{role}"{attributes}{label}>{text}</{kind}>'

    return f'<tr role="row"{row[1]}>{_CELL.sub(cell, row[2])}</tr>'


def _plain(text: str) -> str:
    """Return the words of a head, still escaped, fit to stand in an attribute."""
    return " ".join(_MARKED.sub(" ", text).split()).replace('"', "&quot;")
