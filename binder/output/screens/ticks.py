"""The boxes of visits and looks, as a thumb can tick them; a script keeps what is ticked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages.text.tree import Element

if TYPE_CHECKING:
    from binder.pages.text.tree import Node

KIND = "visit"  # of the pages whose boxes are ticked once a visit
LOOKS = "looks"  # of the page of short looks: an hour a row, a pen a column
_EMPTY = '<span class="tick"></span>'
_LABEL = '<label class="tickable">'
_BOX = '<input type="checkbox" class="tick-box" autocomplete="off"'


def has_boxes(kind: str) -> bool:
    """Return whether a page of a kind, words of its class, has boxes to tick."""
    return bool({KIND, LOOKS} & set(kind.split()))


def tickable(tree: Element, kind: str) -> None:
    """Give each task of a visit card, and each look, a checkbox with its whole cell to tap.

    Args:
        tree: a body as a screen shows it.
        kind: the page's kind; only visits and looks have such boxes.
    """
    if LOOKS in kind.split():
        _looks(tree)
    elif KIND in kind.split():
        for head in tree.all("th"):
            _task(head)


def _looks(tree: Element) -> None:
    """Give the page of looks a checkbox for each, named by its hour and its pen."""
    heads = [head for head in tree.all("th") if head.given.get("scope") == "col"]
    pens = [head.inner for head in heads[1:]]
    for row in tree.all("tr"):
        clocks = [head for head in row.all("th") if head.given.get("scope") == "row"]
        if not clocks:
            continue
        for cell, pen in zip(row.all("td"), pens, strict=True):
            if cell.inner == _EMPTY:
                named = f' aria-label="{clocks[0].inner}, {pen}"'
                cell.children = [_label(f"{_BOX}{named}>")]


def _label(box: str, *more: Node) -> Element:
    return Element("label", _LABEL, children=[box, *more])


def _task(head: Element) -> None:
    """Give a task that begins with an empty box one to tap; its amount stays apart."""
    if not head.children or _inner(head.children[0]) != _EMPTY:
        return
    words = head.children[1:]
    much = next((at for at, node in enumerate(words) if _is_amount(node)), len(words))
    what, rest = words[:much], words[much:]
    said = Element("span", "<span>", children=what)
    if any(said.all("a", "button")):  # must not stand inside a label
        return
    said.children = [said.inner.strip()]
    head.children = [_label(f"{_BOX}>", said), *rest]


def _inner(node: Node) -> str:
    return node if isinstance(node, str) else node.html


def _is_amount(node: Node) -> bool:
    """Return whether it is an amount, which leads to its working."""
    return isinstance(node, Element) and "much" in node.classes
