"""Drawings of our own: the day as a timeline, the bands as a grid. Draws what it is given."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from binder.clock import HOURS_IN_DAY
from binder.pages.art.palette import ACCENT, DIGITS, FILLS, HAIR, INK, MARKS, NIGHT

if TYPE_CHECKING:
    from collections.abc import Sequence

WIDTH, LEFT, RIGHT = 660.0, 124.0, 12.0  # LEFT: the longest label at STRIP_SIZE
STRIP_SIZE = 10.0  # of the letters beside a strip
TOP, CURVE_HEIGHT, MARK_HEIGHT, STRIP, GAP = 46.0, 150.0, 26.0, 22.0, 5.0


@dataclass(frozen=True, slots=True)
class Strip:
    """A row under the curve: whose it is, and the band of each hour (None: not banded)."""

    label: str
    bands: tuple[int | None, ...]


@dataclass(frozen=True, slots=True)
class Mark:
    """Something that happens at an hour: `meal`, `round` or `sun`."""

    hour: float
    label: str
    kind: str


@dataclass(frozen=True, slots=True)
class Timeline:
    """A day to draw, already in the reader's units and words."""

    temperatures: tuple[float, ...]
    degree: str
    strips: tuple[Strip, ...]
    marks: tuple[Mark, ...]
    sunrise_h: float | None
    sunset_h: float | None
    clock: tuple[str, ...]
    description: str


def _x(hour: float) -> float:
    return LEFT + hour / HOURS_IN_DAY * (WIDTH - LEFT - RIGHT)


def timeline(day: Timeline) -> Markup:
    """Return the day as an SVG: curve on top, marks, then a strip of bands for each class."""
    height = TOP + CURVE_HEIGHT + MARK_HEIGHT + len(day.strips) * (STRIP + GAP) + 8
    frame = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {height:.0f}" '
        f'role="img" aria-label="{escape(day.description)}" class="timeline">'
    )
    parts = [
        frame,
        patterns(),
        *_night(day, height),
        *_grid(day),
        _curve(day),
        *_marks(day),
        *_strips(day),
        "</svg>",
    ]
    return Markup("".join(parts))  # noqa: S704 -- numbers, and texts escaped one by one


# What lies on the fill of bands 1 to 3: size of the tile, and the marks in it.
_MARKS = {
    1: (5, f'<circle cx="2.5" cy="2.5" r=".7" fill="{MARKS[1]}"/>'),
    2: (6, f'<path d="M0 6L6 0" stroke="{MARKS[2]}" stroke-width=".9"/>'),
    3: (6, f'<path d="M0 6L6 0M0 0L6 6" stroke="{MARKS[3]}" stroke-width=".6"/>'),
}


def patterns() -> str:
    """Return the hatches; ids are the same in every drawing, and so are the patterns."""
    tiles = (
        f'<pattern id="p{band}" width="{size}" height="{size}" patternUnits="userSpaceOnUse">'
        f'<rect width="{size}" height="{size}" fill="{FILLS[band]}"/>{marks}</pattern>'
        for band, (size, marks) in _MARKS.items()
    )
    return f"<defs>{''.join(tiles)}</defs>"


def fill(band: int) -> str:
    """Return what a band is filled with in a drawing that has `patterns`."""
    return f"url(#p{band})" if band in _MARKS else FILLS[band]


def _night(day: Timeline, height: float) -> list[str]:
    """Return grey fields before sunrise and after sunset."""
    if day.sunrise_h is None or day.sunset_h is None:
        return []
    return [
        f'<rect x="{_x(a):.1f}" y="{TOP:.1f}" width="{_x(b) - _x(a):.1f}" '
        f'height="{CURVE_HEIGHT:.1f}" fill="{NIGHT}"/>'
        for a, b in ((0.0, day.sunrise_h), (day.sunset_h, float(HOURS_IN_DAY)))
        if height
    ]


def _scale(temperatures: Sequence[float]) -> tuple[float, float]:
    low = min(temperatures) // 5 * 5
    high = -(-max(temperatures) // 5) * 5
    return low, max(high, low + 5)


def _y(value: float, low: float, high: float) -> float:
    return TOP + CURVE_HEIGHT * (1 - (value - low) / (high - low))


def _text(
    x: float, y: float, text: str, anchor: str = "middle", size: float = 11, more: str = ""
) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" text-anchor="{anchor}" '
        f'fill="{INK}" {more}>{escape(text)}</text>'
    )


def _grid(day: Timeline) -> list[str]:
    low, high = _scale(day.temperatures)
    parts = []
    steps = 5 if high - low <= 40 else 10  # noqa: PLR2004 -- lines far enough apart to read
    value = low
    while value <= high:
        y = _y(value, low, high)
        parts.append(
            f'<path d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}" stroke="{HAIR}" stroke-width=".4"/>'
        )
        parts.append(_text(LEFT - 6, y + 4, f"{value:.0f}{day.degree}", "end"))
        value += steps
    for hour in range(0, HOURS_IN_DAY + 1, 3):
        x = _x(hour)
        parts.append(
            f'<path d="M{x:.1f} {TOP}V{TOP + CURVE_HEIGHT}" stroke="{HAIR}" stroke-width=".4"/>'
        )
        parts.append(_text(x, TOP + CURVE_HEIGHT + 15, day.clock[hour // 3], _anchor(x)))
    return parts


def _curve(day: Timeline) -> str:
    low, high = _scale(day.temperatures)
    points = " ".join(
        f"{_x(hour):.1f},{_y(value, low, high):.1f}"
        for hour, value in enumerate((*day.temperatures, day.temperatures[0]))
    )
    return f'<polyline points="{points}" fill="none" stroke="{INK}" stroke-width="2.4"/>'


def _marks(day: Timeline) -> list[str]:
    parts = []
    for index, mark in enumerate(sorted(day.marks, key=lambda one: one.hour)):
        x, y = _x(mark.hour), 12.0 + 15 * (index % 2)
        dash = ' stroke-dasharray="3 3"' if mark.kind == "round" else ""
        parts.append(
            f'<path d="M{x:.1f} {y + 4:.1f}V{TOP + CURVE_HEIGHT:.1f}" stroke="{ACCENT}" '
            f'stroke-width="1.2"{dash}/>'
        )
        parts.append(_text(x, y, mark.label, _anchor(x), 10.5, 'font-weight="bold"'))
    return parts


def _anchor(x: float) -> str:
    """Return where a label hangs, so that none runs off the paper."""
    if x < LEFT + 40:
        return "start"
    return "end" if x > WIDTH - 60 else "middle"


def _strips(day: Timeline) -> list[str]:
    parts = []
    y = TOP + CURVE_HEIGHT + MARK_HEIGHT
    for strip in day.strips:
        parts.append(_text(LEFT - 6, y + STRIP - 7, strip.label, "end", STRIP_SIZE))
        for begin, end, band in runs(strip.bands):
            parts += _cell(_x(begin), _x(end), y, band)
        y += STRIP + GAP
    return parts


def runs(bands: Sequence[int | None]) -> list[tuple[int, int, int]]:
    """Return stretches of equal bands as (first hour, hour after, band)."""
    found: list[tuple[int, int, int]] = []
    for hour, band in enumerate(bands):
        if band is None:
            continue
        if found and found[-1][1] == hour and found[-1][2] == band:
            found[-1] = (found[-1][0], hour + 1, band)
        else:
            found.append((hour, hour + 1, band))
    return found


def _cell(left: float, right: float, y: float, band: int) -> list[str]:
    """Return a stretch of one band; its digit stands on a plain plate in the pattern."""
    middle = (left + right) / 2
    ground = (
        f'<rect x="{left:.1f}" y="{y:.1f}" width="{right - left:.1f}" height="{STRIP:.0f}" '
        f'fill="{fill(band)}" stroke="{HAIR}" stroke-width=".5"/>'
    )
    parts = [ground]
    if band in _MARKS:
        parts.append(
            f'<rect x="{middle - 7:.1f}" y="{y + 3:.1f}" width="14" height="{STRIP - 6:.0f}" '
            f'fill="{FILLS[band]}"/>'
        )
    parts.append(
        f'<text x="{middle:.1f}" y="{y + STRIP - 6.5:.1f}" font-size="12" font-weight="bold" '
        f'text-anchor="middle" fill="{DIGITS[band]}">{band}</text>'
    )
    return parts


def bands_table(
    corner: str,
    columns: Sequence[str],
    rows: Sequence[tuple[str, Sequence[int | None]]],
    framed: frozenset[tuple[int, int]] | None = None,
) -> Markup:
    """Return a grid of bands as a table: humidity across, temperature down, hottest on top.

    A None cell is air that does not occur, and stays empty. `framed` are cells by row and
    place, from 0, that get a frame.
    """
    head = "".join(f'<th scope="col">{escape(column)}</th>' for column in columns)
    lines = []
    for row, (label, cells) in enumerate(rows):
        body = "".join(
            "<td></td>"
            if band is None
            else f'<td class="b{band}{" framed" if framed and (row, at) in framed else ""}">'
            f"{band}</td>"
            for at, band in enumerate(cells)
        )
        lines.append(f'<tr><th scope="row">{escape(label)}</th>{body}</tr>')
    top = f'<thead><tr><th scope="col">{escape(corner)}</th>{head}</tr></thead>'
    return Markup(  # noqa: S704 -- labels escaped, bands are whole numbers
        f'<table class="bands">{top}<tbody>{"".join(lines)}</tbody></table>'
    )
