"""Where the marks and names of a map stand on paper, so that none covers another."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import atan2, cos, hypot, pi, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    XY = tuple[float, float]

WIDTH, TALLEST, FLATTEST = 660.0, 380.0, 200.0
EDGE = 26.0  # kept free around what is drawn, so that a mark at the rim is whole
RINGS = (0.0, 22.0, 34.0, 48.0, 64.0, 84.0, 108.0)  # how far a mark may be from its point
TURNS = 24
CROWD = 60.0  # how near other points are that a mark moves away from
GAP = 3.0  # between two things


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the drawing: its middle and its size."""

    x: float
    y: float
    width: float
    height: float

    def hits(self, other: Box) -> bool:
        """Return whether two boxes come nearer to each other than they may."""
        return (
            abs(self.x - other.x) * 2 < self.width + other.width + 2 * GAP
            and abs(self.y - other.y) * 2 < self.height + other.height + 2 * GAP
        )

    def inside(self, width: float, height: float) -> bool:
        """Return whether it lies on the drawing."""
        return (
            self.width / 2 <= self.x <= width - self.width / 2
            and self.height / 2 <= self.y <= height - self.height / 2
        )


@dataclass(frozen=True, slots=True)
class Frame:
    """How the ground is laid on the drawing: one scale both ways, up is up.

    Attributes:
        scale: units of the drawing in a metre.
        left: what lies at the left edge [m].
        top: what lies at the upper edge [m].
        height: of the drawing.
    """

    scale: float
    left: float
    top: float
    height: float

    def at(self, point: XY) -> XY:
        """Return where a point of the ground [m] lies on the drawing."""
        return (point[0] - self.left) * self.scale, (self.top - point[1]) * self.scale


def frame(points: Sequence[XY]) -> Frame:
    """Return the largest scale at which all points [m] are on the drawing."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    across, deep = max(xs) - min(xs), max(ys) - min(ys)
    room_x, room_y = WIDTH - 2 * EDGE, TALLEST - 2 * EDGE
    scale = min(room_x / across if across else room_x, room_y / deep if deep else room_y)
    height = max(deep * scale + 2 * EDGE, FLATTEST)
    left = (min(xs) + max(xs)) / 2 - WIDTH / 2 / scale
    top = (min(ys) + max(ys)) / 2 + height / 2 / scale
    return Frame(scale, left, top, height)


@dataclass(slots=True)
class Board:
    """What is on the drawing so far."""

    height: float
    taken: list[Box] = field(default_factory=list)

    def put(self, at: XY, width: float, height: float, others: Sequence[XY] = ()) -> XY:
        """Return where a mark goes: on its point, else as near as there is room.

        Args:
            at: its point.
            width: of the mark.
            height: of the mark.
            others: points of other marks: it goes to the side on which fewest of them lie, and
                covers none of them.
        """
        points = [Box(x, y, 0.0, 0.0) for x, y in others if (x, y) != at]
        away = _away(at, [(box.x, box.y) for box in points])
        boxes = [Box(at[0] + dx, at[1] + dy, width, height) for dx, dy in _offsets(away)]
        clear = [box for box in boxes if not any(box.hits(point) for point in points)]
        found = self._first(clear) or self._first(boxes)
        box = found or Box(*at, width, height)
        self.taken.append(box)
        return box.x, box.y

    def beside(self, at: XY, mark: XY, size: XY) -> XY | None:
        """Return where a name goes beside its mark, None where there is no room.

        Args:
            at: the middle of the mark.
            mark: width and height of the mark.
            size: width and height of the name.
        """
        across = (mark[0] + size[0]) / 2 + GAP + 1
        above = (mark[1] + size[1]) / 2 + GAP + 1
        found = self._first(
            Box(at[0] + dx, at[1] + dy, *size)
            for dx, dy in ((across, 0.0), (-across, 0.0), (0.0, above), (0.0, -above))
        )
        if found is None:
            return None
        self.taken.append(found)
        return found.x, found.y

    def _first(self, boxes: Iterable[Box]) -> Box | None:
        return next(
            (
                box
                for box in boxes
                if box.inside(WIDTH, self.height)
                and not any(box.hits(other) for other in self.taken)
            ),
            None,
        )


def _away(at: XY, others: Iterable[XY]) -> float:
    """Return the direction away from the points near one [rad], 0 where none is near."""
    near = [one for one in others if 0 < hypot(one[0] - at[0], one[1] - at[1]) < CROWD]
    x = sum(at[0] - one[0] for one in near)
    y = sum(at[1] - one[1] for one in near)
    return atan2(y, x) if near else 0.0


def _offsets(away: float) -> Iterator[XY]:
    """Yield how far a mark may stand from its point: nearest first, first away from others."""
    turns = sorted(range(TURNS), key=lambda turn: min(turn, TURNS - turn))
    for ring in RINGS:
        for turn in turns if ring else (0,):
            angle = away + 2 * pi * turn / TURNS
            yield ring * cos(angle), ring * sin(angle)


def moved(one: XY, other: XY) -> bool:
    """Return whether a mark stands so far from its point that a line must join them."""
    return hypot(one[0] - other[0], one[1] - other[1]) > 1
