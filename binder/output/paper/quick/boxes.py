"""Sizes of boxes: most are given in pixels, and so are the same wherever the box stands."""

from __future__ import annotations

from typing import Any

from weasyprint.formatting_structure import boxes
from weasyprint.layout import percent

from binder.output.paper.quick.place import put_in_place

_resolve_percentages = percent.resolve_percentages
_percentage = percent.percentage
_SIDES = ("left", "right", "top", "bottom")
_SPACES = tuple(f"{kind}_{side}" for kind in ("margin", "padding") for side in _SIDES)
_WIDTHS = ("width", "min_width", "max_width")
_HEIGHTS = ("height", "min_height", "max_height")
_BORDERS = tuple(f"border_{side}_width" for side in ("top", "right", "bottom", "left"))
_KEPT = "_binder_sizes"
_NOT = object()  # the style has a size that depends on where the box stands


def percentage(value: Any, computed: Any, refer_to: Any) -> Any:
    """Return a size in pixels, whatever it was given in, or the word that stands for it."""
    if value is None or value == "auto":
        return value
    if getattr(value, "unit", None) == "px":
        return value.value
    return _percentage(value, computed, refer_to)


def resolve_percentages(box: Any, containing_block: Any) -> None:
    """Give a box its sizes in pixels."""
    style = box.style
    kept = style.__dict__.get(_KEPT)
    if kept is None:
        kept = _sizes(style)
        style.__dict__[_KEPT] = kept
    if kept is _NOT:
        _resolve_percentages(box, containing_block)
        return
    sizes, collapse = kept
    own = box.__dict__
    own.update(sizes)
    for name in _BORDERS:
        if not (collapse and hasattr(box, name)):
            own[name] = style[name]
    if style["box_sizing"] != "content-box":
        percent.adjust_box_sizing(box, "width")
        percent.adjust_box_sizing(box, "height")


def _sizes(style: Any) -> Any:
    found: dict[str, Any] = {}
    for name in (*_SPACES, *_WIDTHS, *_HEIGHTS):
        value = style[name]
        if value == "auto":
            found[name] = 0 if name in ("min_width", "min_height") else value
        elif getattr(value, "unit", None) == "px":
            found[name] = value.value
        else:
            return _NOT
    return found, style["border_collapse"] == "collapse"


def in_normal_flow(box: Any) -> bool:
    """Return whether a box is neither floated nor placed on its own."""
    style = box.style
    position = style["position"]
    return not (
        style["float"] != "none"
        or position in ("absolute", "fixed")
        or position[0] in ("running()", "note()")
    )


def install() -> None:
    """Use them."""
    put_in_place(_resolve_percentages, resolve_percentages)
    put_in_place(_percentage, percentage)
    boxes.Box.is_in_normal_flow = in_normal_flow
