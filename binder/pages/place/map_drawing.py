"""The map as a drawing to scale: ground, lines, the way past the pens, marks, a scale."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import atan2, degrees, dist, hypot
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from binder.pages.art.palette import ACCENT, BUILT, GROUND, HAIR, INK, PAPER, WATER
from binder.pages.place.layout import WIDTH, Board, frame, moved

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from binder.pages.place.layout import XY, Frame

NAME_SIZE, MARK_SIZE = 12.5, 13.0
LETTER = 0.56  # width of a letter by its size, the wide ones of the typeface
PILL_HEIGHT, SQUARE = 22.0, 20.0
FREE = 6.0  # around a mark
FOOT, ROW = 40.0, 20.0  # under the ground, for scale and key; a row more of the key
SHORTEST_LEG, SAMPLE = (
    30.0,
    34.0,
)  # of the way, with room for an arrow head; of a line in the key
# Told apart without colour: by width, by dashes, by a light core.
STROKES = {
    "fence": ((INK, 1.0, ""), (INK, 4.5, "1 9")),
    "road": ((HAIR, 9.0, ""), (PAPER, 6.5, "")),
    "path": ((HAIR, 2.0, "7 5"),),
    "stream": ((WATER, 7.0, ""),),
    "other": ((HAIR, 1.5, ""),),
    "hose": ((INK, 3.6, ""), (PAPER, 1.4, "")),
    "buried pipe": ((INK, 2.2, "2 4"),),
}
UNDER = ("stream", "road", "path")  # what one walks on or over lies below the rest
COMPASS = {
    "north": 0, "northeast": 45, "east": 90, "southeast": 135, "south": 180, "southwest": 225,
    "west": 270, "northwest": 315,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Pin:
    """A mark on the map.

    Attributes:
        label: what stands in it: a pen's sheet, `P6`, or a letter.
        name: written beside it where there is room, empty for none.
        at: where, as the owner measured [m or %].
        slug: the sheet that it leads to, empty for none.
    """

    label: str
    name: str
    at: XY
    slug: str = ""

    @property
    def size(self) -> XY:
        """Return width and height of the mark."""
        return (_wide(self.label, MARK_SIZE) + 14, PILL_HEIGHT) if self.slug else (SQUARE,) * 2


@dataclass(frozen=True, slots=True)
class Drawn:
    """A map to draw, already in the reader's words.

    Attributes:
        surfaces: corners [m], whether built, whether its outline is known.
        lines: kind, name (may be empty) and points [m].
        way: stops of the walk [m].
        pins: pens first.
        bar: length of the scale [m] and what it is called.
        kinds: what each kind of line is called, in the order of the key.
        way_said: what the way is called in the key.
        up: which way up is, empty where nobody says; `north` what stands at the arrow.
        description: the drawing in words.
    """

    surfaces: Sequence[tuple[Sequence[XY], bool, bool]]
    lines: Sequence[tuple[str, str, Sequence[XY]]]
    way: Sequence[XY]
    pins: Sequence[Pin]
    bar: tuple[float, str]
    kinds: Sequence[tuple[str, str]]
    way_said: str
    up: str
    north: str
    description: str

    @property
    def points(self) -> list[XY]:
        """Return every point [m]."""
        found = [*self.way, *(pin.at for pin in self.pins)]
        found += [corner for corners, *_ in self.surfaces for corner in corners]
        return found + [point for *_, along in self.lines for point in along]


def drawing(one: Drawn) -> Markup:
    """Return the map as an SVG whose pens lead to their sheets."""
    laid = frame(one.points)
    board = Board(laid.height)
    if one.up:
        board.put((WIDTH - 24, 26), 40, 44)
    lines = [(kind, _points(laid, along)) for kind, _, along in one.lines]
    foot, height = _foot(one, laid)
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} '
            f'{height:.0f}" role="group" aria-label="{escape(one.description)}" '
            'class="map">'
        ),
        *(_stroked(*line) for line in lines if line[0] in UNDER),
        *(_surface(laid, *surface) for surface in one.surfaces),
        *(_stroked(*line) for line in lines if line[0] not in UNDER),
        *_way([laid.at(stop) for stop in one.way]),
        *_pins(laid, board, one.pins),
        *([_north(one.up, one.north)] if one.up else []),
        *_names(laid, board, one.lines),
        *foot,
        "</svg>",
    ]
    return Markup("".join(parts))  # noqa: S704 -- numbers, and texts escaped one by one


def _wide(text: str, size: float) -> float:
    return len(text) * size * LETTER


def _points(laid: Frame, points: Iterable[XY]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in map(laid.at, points))


def _surface(laid: Frame, corners: Iterable[XY], built: bool, known: bool) -> str:  # noqa: FBT001 -- unpacked
    fill = BUILT if built else GROUND
    dash = "" if known else ' stroke-dasharray="5 4"'
    return (
        f'<polygon points="{_points(laid, corners)}" fill="{fill}" stroke="{INK}" '
        f'stroke-width="{1.8 if built else 1.1}" stroke-linejoin="round"{dash}/>'
    )


def _stroked(kind: str, points: str) -> str:
    return "".join(
        f'<polyline points="{points}" fill="none" stroke="{colour}" stroke-width="{width}" '
        f'stroke-linejoin="round"{_dash(dash)}/>'
        for colour, width, dash in STROKES[kind]
    )


def _dash(dash: str) -> str:
    return f' stroke-dasharray="{dash}"' if dash else ""


def _way(stops: Sequence[XY]) -> Iterator[str]:
    """Yield the way from stop to stop, with an arrow head where a leg has room for one."""
    for (x, y), (to_x, to_y) in pairwise(stops):
        yield (
            f'<path d="M{x:.1f} {y:.1f}L{to_x:.1f} {to_y:.1f}" stroke="{ACCENT}" '
            'stroke-width="2.2" stroke-dasharray="9 4"/>'
        )
        if hypot(to_x - x, to_y - y) > SHORTEST_LEG:
            yield _head((x + to_x) / 2, (y + to_y) / 2, degrees(atan2(to_y - y, to_x - x)))


def _head(x: float, y: float, turn: float) -> str:
    return (
        f'<path d="M7 0L-6 -6L-6 6Z" fill="{ACCENT}" stroke="{PAPER}" stroke-width="1" '
        f'transform="translate({x:.1f} {y:.1f}) rotate({turn:.0f})"/>'
    )


def _pins(laid: Frame, board: Board, pins: Iterable[Pin]) -> Iterator[str]:
    """Yield the marks; one that had to move is joined to its point by a line."""
    placed = [(pin, laid.at(pin.at)) for pin in pins]
    points = [at for _, at in placed]
    stood = [(pin, at, board.put(at, *_apart(pin), points)) for pin, at in placed]
    for _, at, mark in stood:
        if moved(at, mark):
            yield (
                f'<path d="M{at[0]:.1f} {at[1]:.1f}L{mark[0]:.1f} {mark[1]:.1f}" '
                f'stroke="{INK}" stroke-width="1"/>'
                f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="2.4" fill="{INK}"/>'
            )
    for pin, _, mark in stood:
        yield _pin(board, pin, mark)


def _apart(pin: Pin) -> XY:
    """Return the room of a mark with some free around it, so that lines show between two."""
    return pin.size[0] + FREE, pin.size[1] + FREE


def _pin(board: Board, pin: Pin, at: XY) -> str:
    width, height = pin.size
    back, front = (INK, PAPER) if pin.slug else (PAPER, INK)
    shape = (
        f'<rect x="{at[0] - width / 2:.1f}" y="{at[1] - height / 2:.1f}" '
        f'width="{width:.1f}" height="{height}" rx="{11 if pin.slug else 3}" fill="{back}" '
        f'stroke="{PAPER if pin.slug else INK}" stroke-width="1.4"/>'
        f"{text(at[0], at[1] + 4.6, pin.label, MARK_SIZE, front)}{_name(board, pin, at)}"
    )
    return linked(pin.slug, shape)


def linked(slug: str, inner: str) -> str:
    """Return part of a drawing that leads to a sheet; on paper nothing is tapped."""
    return f'<a href="sheet:{escape(slug)}">{inner}</a>' if slug else inner


def _name(board: Board, pin: Pin, at: XY) -> str:
    if not pin.name:
        return ""
    return _beside(board, pin.name, at, _apart(pin))


def _names(
    laid: Frame, board: Board, lines: Iterable[tuple[str, str, Sequence[XY]]]
) -> Iterator[str]:
    """Yield the names of roads and streams, each beside the longest part of it."""
    for kind, name, along in lines:
        if name and kind in UNDER:
            ends = max(pairwise(map(laid.at, along)), key=lambda two: dist(*two))
            middle = (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2
            yield _beside(board, name, middle, (8.0, 8.0))


def _beside(board: Board, name: str, at: XY, mark: XY) -> str:
    """Return a name beside what it names, nothing where there is no room."""
    size = _wide(name, NAME_SIZE), NAME_SIZE + 2
    spot = board.beside(at, mark, size)
    if spot is None:
        return ""
    x, y = spot
    plate = (
        f'<rect x="{x - size[0] / 2:.1f}" y="{y - size[1] / 2:.1f}" width="{size[0]:.1f}" '
        f'height="{size[1]}" fill="{PAPER}" fill-opacity="0.8"/>'
    )
    return plate + text(x, y + 4.4, name, NAME_SIZE, INK)


def text(x: float, y: float, said: str, size: float, fill: str, anchor: str = "middle") -> str:
    """Return a line of bold letters; `y` is where they stand."""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" font-weight="bold" '
        f'text-anchor="{anchor}" fill="{fill}">{escape(said)}</text>'
    )


def _north(up: str, said: str) -> str:
    """Return an arrow that points north, where `up` is what lies up on the map."""
    x, y = WIDTH - 24, 26
    return (
        f'<path d="M0 -18L7 12L0 6L-7 12Z" fill="{INK}" '
        f'transform="translate({x} {y}) rotate({-COMPASS[up]})"/>'
        f"{text(x - 14, y + 4, said, NAME_SIZE, INK, 'end')}"
    )


def _foot(one: Drawn, laid: Frame) -> tuple[list[str], float]:
    """Return the scale and a sample of each kind of line with its name, and where they end."""
    length, said = one.bar
    y, end = laid.height + 24, 8 + length * laid.scale
    parts = [
        (
            f'<path d="M8 {y - 5:.1f}V{y + 5:.1f}M8 {y:.1f}H{end:.1f}M{end:.1f} {y - 5:.1f}'
            f'V{y + 5:.1f}" stroke="{INK}" stroke-width="2" fill="none"/>'
        ),
        text(8, y - 9, said, NAME_SIZE, INK, "start"),
    ]
    first = x = max(end, 8 + _wide(said, NAME_SIZE)) + 22
    for kind, name in (("", one.way_said), *one.kinds):
        if x + SAMPLE + 6 + _wide(name, NAME_SIZE) > WIDTH:
            x, y = first, y + ROW
        ends = (x, y), (x + SAMPLE, y)
        sample = _stroked(kind, f"{x:.1f},{y:.1f} {x + SAMPLE:.1f},{y:.1f}") if kind else None
        parts += [sample] if sample else _way(ends)
        parts.append(text(x + SAMPLE + 6, y + 4.4, name, NAME_SIZE, INK, "start"))
        x += SAMPLE + 6 + _wide(name, NAME_SIZE) + 14
    return parts, y + FOOT - 24
