"""Pictures behind boxes: one that stands in many, as a pattern on a chart, is drawn once.

The library draws it anew for each of a chart's five hundred cells, each a layer of the size of
the page. Here every box shows the one drawing: it looks the same, and a printer has less to do.
"""

from __future__ import annotations

from typing import Any

from weasyprint import draw

_draw_background_image = draw.draw_background_image
_DRAWN = "_binder_drawn"
_ONCE = ("no-repeat", "no-repeat")


def draw_background_image(stream: Any, layer: Any, style: Any) -> None:
    """Draw one picture behind a box."""
    if layer.image is None or 0 in layer.size or layer.unbounded or layer.repeat != _ONCE:
        _draw_background_image(stream, layer, style)
        return
    left, top, *_ = layer.positioning_area
    x, y = layer.position
    with stream.artifact(), stream.stacked():
        stream.rectangle(*layer.painting_area)
        stream.clip()
        stream.end()
        stream.transform(e=x + left, f=y + top)
        stream.draw_x_object(_drawn(stream, layer.image, layer.size, style))


def _drawn(stream: Any, picture: Any, size: tuple[float, float], style: Any) -> str:
    """Return the name that a page knows a picture by."""
    known = stream._resources.__dict__.setdefault(_DRAWN, {})
    key = (id(picture), *size)
    if key not in known:
        group = stream.add_group(0, 0, *size)
        picture.draw(group, *size, style)
        known[key] = group.id
    name: str = known[key]
    return name


def install() -> None:
    """Use it."""
    draw.draw_background_image = draw_background_image
