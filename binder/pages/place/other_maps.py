"""A map that is not drawn to scale: marks over the owner's picture, and the way alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from binder.pages.art.palette import ACCENT, HAIR, INK, PAPER
from binder.pages.place.layout import WIDTH
from binder.pages.place.map_drawing import MARK_SIZE, NAME_SIZE, linked, text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from binder.pages.place.map_drawing import Pin

_ROUND = 13  # of a mark on a picture, a little larger than its letters
ACROSS, BOX, DEEP, GAP = 3, 180.0, 58.0, 60.0  # boxes of the way: in a row, wide, high, apart
ROW = DEEP + 34
LINE = 24  # letters that a box has room for
_WHOLE = 100


def pinned(picture: str, pins: Sequence[Pin], alt: str, marks_said: str) -> Markup:
    """Return the owner's picture with the marks over it.

    Args:
        picture: its file in pictures/.
        pins: marks in percent of it, from the lower left corner.
        alt: the picture in words.
        marks_said: the marks in words.
    """
    marks = "".join(_over(pin) for pin in pins)
    return Markup(  # noqa: S704 -- numbers, and texts escaped one by one
        f'<div class="pinned"><img src="picture:{escape(picture)}" alt="{escape(alt)}">'
        f'<svg xmlns="http://www.w3.org/2000/svg" class="pins" role="group" '
        f'aria-label="{escape(marks_said)}">{marks}</svg></div>'
    )


def _over(pin: Pin) -> str:
    """Return a mark in percent, so that it stands right however large the picture is shown."""
    x, y = pin.at[0], _WHOLE - pin.at[1]
    back, front = (INK, PAPER) if pin.slug else (PAPER, INK)
    return linked(
        pin.slug,
        f'<circle cx="{x:g}%" cy="{y:g}%" r="{_ROUND}" fill="{back}" stroke="{front}" '
        f'stroke-width="1.6"/><text x="{x:g}%" y="{y:g}%" dy="4.4" '
        f'font-size="{MARK_SIZE - 1:g}" font-weight="bold" '
        f'text-anchor="middle" fill="{front}">{escape(pin.label)}</text>',
    )


def way(stops: Sequence[tuple[str, str, str]], description: str) -> Markup:
    """Return the way past the pens as boxes in a row, where nothing says how they lie.

    Args:
        stops: label, name and sheet of each, in the order of the round.
        description: the drawing in words.
    """
    rows = (len(stops) + ACROSS - 1) // ACROSS
    height = rows * ROW - (ROW - DEEP) + 4
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {height:.0f}" '
            f'role="group" aria-label="{escape(description)}" class="map">'
        ),
        *_arrows(len(stops)),
        *(_box(place, *stop) for place, stop in enumerate(stops)),
        "</svg>",
    ]
    return Markup("".join(parts))  # noqa: S704 -- numbers, and texts escaped one by one


def _corner(place: int) -> tuple[float, float]:
    """Return the upper left corner of a box: rows run to and fro, like one walks."""
    row, column = divmod(place, ACROSS)
    column = ACROSS - 1 - column if row % 2 else column
    return column * (BOX + GAP), 2 + row * ROW


def _arrows(count: int) -> Iterator[str]:
    for place in range(count - 1):
        (x, y), (to_x, to_y) = _corner(place), _corner(place + 1)
        if y != to_y:
            middle = x + BOX / 2
            yield _arrow(middle, y + DEEP, middle, to_y)
        elif to_x > x:
            yield _arrow(x + BOX, y + DEEP / 2, to_x, y + DEEP / 2)
        else:
            yield _arrow(x, y + DEEP / 2, to_x + BOX, y + DEEP / 2)


def _arrow(x: float, y: float, to_x: float, to_y: float) -> str:
    turn = 90 if to_y > y else 180 if to_x < x else 0
    return (
        f'<path d="M{x:.1f} {y:.1f}L{to_x:.1f} {to_y:.1f}" stroke="{ACCENT}" '
        'stroke-width="2.2" fill="none"/>'
        f'<path d="M0 0L-12 -6L-12 6Z" fill="{ACCENT}" '
        f'transform="translate({to_x:.1f} {to_y:.1f}) rotate({turn})"/>'
    )


def _box(place: int, label: str, name: str, slug: str) -> str:
    x, y = _corner(place)
    lines = _broken(name)
    said = "".join(
        text(x + 46, y + DEEP / 2 + 4.4 + (at - (len(lines) - 1) / 2) * 15, line, NAME_SIZE,
             INK, "start")
        for at, line in enumerate(lines)
    )  # fmt: skip
    return linked(
        slug,
        f'<rect x="{x + 0.8:.1f}" y="{y}" width="{BOX - 1.6}" height="{DEEP}" rx="6" '
        f'fill="{PAPER}" stroke="{HAIR}" stroke-width="1.4"/>'
        f'<rect x="{x + 6:.1f}" y="{y + DEEP / 2 - 11}" width="34" height="22" rx="11" '
        f'fill="{INK}"/>{text(x + 23, y + DEEP / 2 + 4.6, label, MARK_SIZE, PAPER)}{said}',
    )


def _broken(name: str) -> list[str]:
    """Return a name on as many lines as it needs, three at most; the table has it whole."""
    lines = [""]
    for word in name.split():
        longer = f"{lines[-1]} {word}".strip()
        if len(longer) > LINE - 5 and lines[-1]:
            lines.append(word)
        else:
            lines[-1] = longer
    return [line[: LINE - 5] for line in lines[:3]]
