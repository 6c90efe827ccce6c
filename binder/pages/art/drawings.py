"""Small drawings of our own: an animal of each species, and what is in store as a bar."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from binder.data import TEMPLATES
from binder.pages.art.palette import ACCENT, FILLS, INK

if TYPE_CHECKING:
    from collections.abc import Iterable

WIDTH, BAR_TOP, BAR_HEIGHT, HEIGHT = 420.0, 22.0, 26.0, 74.0
SIZE = 13.0  # of the letters
ROOM = 56.0  # what a label needs at the end of the bar


def animal(species: str, label: str) -> Markup:
    """Return a line drawing of a species; `label` is what it is called when read aloud."""
    return Markup(_file(species)).replace(  # noqa: S704 -- a file of ours
        "<svg ", Markup('<svg class="animal" role="img" aria-label="{}" ').format(label), 1
    )


@lru_cache(maxsize=32)
def _file(species: str) -> str:
    path = TEMPLATES / "drawings" / f"{species}.svg"
    return path.read_text(encoding="utf-8").strip()


@dataclass(frozen=True, slots=True)
class Store:
    """What is in store against what is used, in one unit of any kind.

    Attributes:
        held: what there is.
        a_day: what a day uses; more than 0.
        wanted: what there should be, None where nothing says so.
        days: words for 1, 2, 3... days, as many as may be marked.
        wanted_said: words at the mark of what there should be.
        description: the drawing in words.
    """

    held: float
    a_day: float
    wanted: float | None
    days: tuple[str, ...]
    wanted_said: str
    description: str


def store(one: Store) -> Markup:
    """Return a bar as long as what is held, parted into days, with a mark at what is wanted."""
    longest = max(one.held, one.wanted or 0.0, one.a_day)
    scale = (WIDTH - ROOM) / longest

    def x(value: float) -> float:
        return value * scale

    marks = [
        (x(one.a_day * (count + 1)), said)
        for count, said in enumerate(one.days)
        if one.a_day * (count + 1) <= longest
    ]
    bottom = BAR_TOP + BAR_HEIGHT
    frame = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {HEIGHT:.0f}" '
        f'role="img" aria-label="{escape(one.description)}" class="store">'
    )
    filled = (
        f'<rect x="1" y="{BAR_TOP}" width="{x(one.held):.1f}" height="{BAR_HEIGHT}" '
        f'fill="{FILLS[2]}" stroke="{INK}" stroke-width="1.6"/>'
    )
    lines = (
        f'<path d="M{at:.1f} {BAR_TOP - 4}V{bottom}" stroke="{INK}" stroke-width="1"/>'
        f"{_label(at, BAR_TOP - 9, said)}"
        for at, said in marks
    )
    parts = (frame, filled, *lines, *_wanted(one, x(one.wanted or 0)), "</svg>")
    return Markup("".join(parts))  # noqa: S704 -- numbers, and texts escaped one by one


def _wanted(one: Store, at: float) -> Iterable[str]:
    if one.wanted is None:
        return
    bottom = BAR_TOP + BAR_HEIGHT
    yield (
        f'<path d="M{at:.1f} {BAR_TOP - 4}V{bottom + 8}" stroke="{ACCENT}" stroke-width="2.4"/>'
    )
    yield _label(at, bottom + 21, one.wanted_said)


def _label(at: float, y: float, text: str) -> str:
    return (
        f'<text x="{at:.1f}" y="{y:.1f}" font-size="{SIZE:g}" text-anchor="middle" '
        f'fill="{INK}">{escape(text)}</text>'
    )
