"""Tables on a narrow screen: charts move sideways, facts stand one below the other.

Each cell then carries the head of its column, and says by its role what it is, since some
browsers forget that of a cell that is drawn as a block.
"""

from __future__ import annotations

from html import escape

from binder.pages.text.tree import Element

_WHOLE = frozenset({"bands", "log", "asks"})  # read across: a chart, a form, the five numbers
_STACKED_FROM = 3  # columns: our choice; two stand side by side on any phone
_FEW = 2  # columns that fit any screen, so that keys need not stop there


def movable(table: Element, name: str) -> Element:
    """Return a table so that it fits a narrow screen.

    Args:
        table: as pages write it; it is changed.
        name: what to call a table that moves sideways.
    """
    heads = [cell for head in table.all("thead") for cell in head.all("th", "td")]
    if _can_stack(table, len(heads)):
        _stack(table, [head.escaped.replace('"', "&quot;") for head in heads])
        return table
    row = next(table.all("tr"), None)
    narrow = row is not None and len(list(row.all("th", "td"))) <= _FEW
    more = "" if narrow else f' tabindex="0" role="group" aria-label="{escape(name)}"'
    return Element("div", f'<div class="scroll"{more}>', children=[table])


def _can_stack(table: Element, columns: int) -> bool:
    rows = [row for head in table.all("thead") for row in head.all("tr")]
    regular = len(rows) == 1 and not any(
        {"colspan", "rowspan", "span"} & part.given.keys() for part in table.everything
    )
    return columns >= _STACKED_FROM and regular and not table.classes & _WHOLE


def _stack(table: Element, labels: list[str]) -> None:
    """Give each part of a table its role, and each cell its column's head."""
    for row in table.all("tr"):
        row.first('role="row"')
        cells = list(row.all("th", "td"))
        for place, cell in enumerate(cells):
            cell.first(f'role="{"cell" if cell.name == "td" else "rowheader"}"')
            if place and cell.name == "td":
                cell.last(f'data-label="{labels[place]}"')
    for part in table.all("thead", "tbody"):
        part.first('role="rowgroup"')
    for head in table.all("thead"):
        for cell in head.all("th"):
            cell.start = cell.start.replace('"rowheader"', '"columnheader"', 1)
    others = {name: value for name, value in table.given.items() if name != "class"}
    more = "".join(f' {name}="{escape(value)}"' for name, value in others.items())
    classes = f"{table.given.get('class', '')} stack"
    table.start = f'<table role="table" class="{classes}"{more}>'
