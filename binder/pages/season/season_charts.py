"""Drawings of a season: its calendar, the longest hot spell, a bar for each mend."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from binder.clock import HOURS_IN_DAY
from binder.pages.art.palette import ACCENT, DIGITS, FILLS, HAIR, INK, PAPER
from binder.pages.bands.charts import fill, patterns, runs

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

WIDTH, LEFT = 660.0, 70.0
DAYS, HOUR, GAP, TOP = 31, 4.0, 26.0, 14.0
COLUMN = (WIDTH - LEFT) / DAYS
FLAG = 6.0  # the mark under a day that went wrong
DIGIT_FROM = 3  # hours of one number that have room for its digit
TICKS = (0, 6, 12, 18)


@dataclass(frozen=True, slots=True)
class CalendarDay:
    """A day of a month: number of each hour, None off the record; whether it went wrong."""

    day: int
    bands: tuple[int | None, ...]
    wrong: bool


@dataclass(frozen=True, slots=True)
class CalendarMonth:
    """A month to draw: its name and its days."""

    name: str
    days: tuple[CalendarDay, ...]


def calendar(months: Sequence[CalendarMonth], clock: Sequence[str], description: str) -> Markup:
    """Return months as an SVG: days across, hours down, a flag under days that went wrong.

    Args:
        months: in order.
        clock: what stands beside the hours of `TICKS`.
        description: the alternative text.
    """
    tall = HOURS_IN_DAY * HOUR + GAP + FLAG
    parts = [patterns()]
    for place, month in enumerate(months):
        parts += _month(month, TOP + place * tall, clock)
    return _svg(TOP + len(months) * tall, parts, description)


def _month(month: CalendarMonth, top: float, clock: Sequence[str]) -> list[str]:
    bottom = top + HOURS_IN_DAY * HOUR
    parts = [_text(0, top - 3, month.name, weight="bold", size=12)]
    for tick, said in zip(TICKS, clock, strict=True):
        y = top + tick * HOUR
        parts.append(_text(LEFT - 4, y + 8, said, anchor="end", size=9))
        parts.append(_line(LEFT, y, LEFT + DAYS * COLUMN, y))
    parts.append(_line(LEFT, bottom, LEFT + DAYS * COLUMN, bottom))
    for day in month.days:
        x = LEFT + (day.day - 1) * COLUMN
        parts.append(_text(x + COLUMN / 2, top - 3, str(day.day), anchor="middle", size=9))
        for begin, end, band in runs(day.bands):
            if band:
                parts += _stretch(x, top + begin * HOUR, (end - begin) * HOUR, band)
        if day.wrong:
            parts.append(
                f'<path d="M{x + COLUMN / 2:.1f} {bottom + 1:.1f}l4 {FLAG:.0f}h-8z" '
                f'fill="{ACCENT}"/>'
            )
    return parts


def _stretch(x: float, y: float, height: float, band: int) -> list[str]:
    parts = [
        (
            f'<rect x="{x + 0.5:.1f}" y="{y:.1f}" width="{COLUMN - 1:.1f}" '
            f'height="{height:.1f}" fill="{fill(band)}" stroke="{HAIR}" stroke-width=".3"/>'
        )
    ]
    if height >= DIGIT_FROM * HOUR:
        middle = y + height / 2
        parts.append(
            f'<rect x="{x + COLUMN / 2 - 4.5:.1f}" y="{middle - 5:.1f}" width="9" height="10" '
            f'fill="{FILLS[band]}"/>'
        )
        parts.append(
            f'<text x="{x + COLUMN / 2:.1f}" y="{y + height / 2 + 3.5:.1f}" font-size="10" '
            f'font-weight="bold" text-anchor="middle" fill="{DIGITS[band]}">{band}</text>'
        )
    return parts


@dataclass(frozen=True, slots=True)
class SpellRow:
    """A pen through a hot spell: its name, number and whether it went wrong in each hour."""

    name: str
    bands: tuple[int, ...]
    wrong: tuple[bool, ...]


def spell(
    rows: Sequence[SpellRow], days: Sequence[tuple[int, str]], description: str
) -> Markup:
    """Return a hot spell as an SVG: a strip of numbers for each pen, black below what lacked.

    Args:
        rows: the pens; all of one length.
        days: the hour at which each day begins, and its name.
        description: the alternative text.
    """
    left, strip, gap, top = 150.0, 18.0, 16.0, 18.0
    hours = max((len(row.bands) for row in rows), default=1)
    wide = (WIDTH - left) / hours
    height = top + len(rows) * (strip + gap)
    parts = [patterns()]
    for begin, name in days:
        x = left + begin * wide
        parts.append(_text(x + 2, top - 6, name, size=9))
        parts.append(f'<path d="M{x:.1f} {top - 4:.1f}V{height:.1f}" stroke="{HAIR}"/>')
    for place, row in enumerate(rows):
        y = top + place * (strip + gap)
        parts.append(_text(left - 6, y + 13, row.name, anchor="end", size=10))
        for begin, end, band in runs(row.bands):
            x, long = left + begin * wide, (end - begin) * wide
            parts.append(
                f'<rect x="{x:.1f}" y="{y:.1f}" width="{long:.1f}" height="{strip:.0f}" '
                f'fill="{fill(band)}" stroke="{HAIR}" stroke-width=".3"/>'
            )
        for begin, end, lacks in runs([int(each) for each in row.wrong]):
            if lacks:
                x, long = left + begin * wide, (end - begin) * wide
                parts.append(
                    f'<rect x="{x:.1f}" y="{y + strip + 1:.1f}" width="{long:.1f}" '
                    f'height="6" fill="{INK}"/>'
                )
    return _svg(height, parts, description)


def bars(rows: Iterable[tuple[str, int]], description: str) -> Markup:
    """Return a bar for each mend as an SVG, the longest first, its number at its end."""
    found = list(rows)
    most = max((value for _, value in found), default=0) or 1
    tall, long = 30.0, WIDTH - 90
    parts = []
    for place, (name, value) in enumerate(found):
        y = place * tall
        wide = max(2.0, long * value / most)
        parts.append(_text(0, y + 10, name, size=11))
        parts.append(
            f'<rect x="0" y="{y + 14:.1f}" width="{wide:.1f}" height="11" fill="{ACCENT}" '
            f'stroke="{INK}" stroke-width=".5"/>'
        )
        parts.append(_text(wide + 6, y + 24, f"{value:,}", size=11, weight="bold"))
    return _svg(len(found) * tall + 4, parts, description)


def _text(
    x: float, y: float, text: str, anchor: str = "start", size: float = 10,
    weight: str = "normal",
) -> str:  # fmt: skip
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" font-weight="{weight}" '
        f'text-anchor="{anchor}" fill="{INK}">{escape(text)}</text>'
    )


def _line(x: float, y: float, to_x: float, to_y: float) -> str:
    return (
        f'<path d="M{x:.1f} {y:.1f}L{to_x:.1f} {to_y:.1f}" stroke="{HAIR}" stroke-width=".5"/>'
    )


def _svg(height: float, parts: Iterable[str], description: str) -> Markup:
    return Markup(  # noqa: S704 -- numbers, and texts escaped one by one
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {height:.0f}" '
        f'role="img" aria-label="{escape(description)}" class="season">'
        f'<rect width="{WIDTH:.0f}" height="{height:.0f}" fill="{PAPER}"/>'
        f"{''.join(parts)}</svg>"
    )
