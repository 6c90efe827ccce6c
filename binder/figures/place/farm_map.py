"""Where things stand on the map that the owner measured or marked.

Coordinates stay the owner's: to the right and up from the lower left corner, in metres or in
percent of a picture. Nothing is guessed: what has no point is not on the map.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import dist, sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from binder.farm.model import Farm, Pen, Point

    XY = tuple[float, float]

PEN = "pen"


@dataclass(frozen=True, slots=True)
class Mark:
    """Something that stands at a point.

    Attributes:
        kind: `pen`, `tank`, `water source`, `circuit`, `shut-off`, `generator`, `pen gate`, or
            the kind of a place on the map, such as `thermometer`.
        name: what people call it, empty where they gave no name.
        where: the owner's words on finding it, empty without.
        at: to the right and up [m], or [%] of a picture.
        pen: the id of its pen, for pens and their gates.
    """

    kind: str
    name: str
    where: str
    at: XY
    pen: str = ""


@dataclass(frozen=True, slots=True)
class Surface:
    """A pen or building with its corners [m or %]; `square` where only its area is known."""

    kind: str
    name: str
    corners: tuple[XY, ...]
    pen: str = ""
    square: bool = False


@dataclass(frozen=True, slots=True)
class GroundLine:
    """A hose, pipe, fence, road or stream with its points [m or %].

    Attributes:
        kind: `hose`, `buried pipe`, or the kind of a line on the map.
    """

    kind: str
    name: str
    along: tuple[XY, ...]


@dataclass(frozen=True, slots=True)
class GroundMap:
    """What the map of a farm shows.

    Attributes:
        picture: the owner's picture, empty where the map is drawn.
        up: which way up is, empty where nobody says.
        marks: pens in the order of the round, then all else.
        surfaces: pens and buildings.
        lines: hoses, fences, roads.
        way: the points of the walk past the pens, gate by gate, those that are on the map.
    """

    picture: str
    up: str
    marks: tuple[Mark, ...]
    surfaces: tuple[Surface, ...]
    lines: tuple[GroundLine, ...]
    way: tuple[XY, ...]

    @property
    def legs(self) -> tuple[float, ...]:
        """Return how far it is from each stop of the way to the next, straight across [m]."""
        return tuple(dist(one, other) for one, other in pairwise(self.way))

    @property
    def walk(self) -> float:
        """Return how long the way past the pens is, straight from gate to gate [m]."""
        return sum(self.legs)

    @property
    def points(self) -> tuple[XY, ...]:
        """Return every point, to see how far the map reaches."""
        return (
            *(mark.at for mark in self.marks),
            *(corner for one in self.surfaces for corner in one.corners),
            *(point for one in self.lines for point in one.along),
        )


def for_farm(farm: Farm) -> GroundMap | None:
    """Return the map of a farm, None where none of its pens has a place on one.

    Without a picture two pens must have a place: one alone shows no way.
    """
    about = farm.about.map
    picture = (about.picture or "") if about else ""
    pens = in_walking_order(farm.pens)
    placed = [pen for pen in pens if _middle(pen) is not None]
    if not picture and len(placed) < 2:  # noqa: PLR2004 -- a way has two ends
        return None
    return GroundMap(
        picture=picture,
        up=(about.up or "") if about else "",
        marks=(*_pen_marks(placed), *_other_marks(farm)),
        surfaces=() if picture else tuple(_surfaces(farm, placed)),
        lines=tuple(_lines(farm)),
        way=tuple(_stop(pen) for pen in placed),
    )


def in_walking_order(pens: Iterable[Pen]) -> list[Pen]:
    """Return pens in the owner's order of the round; those without a place in it come last."""
    return sorted(pens, key=lambda pen: (pen.route is None, pen.route or 0, pen.name))


def _xy(point: Point) -> XY:
    return point.right, point.up


def _all(points: Iterable[Point]) -> tuple[XY, ...]:
    return tuple(_xy(each) for each in points)


def _middle(pen: Pen) -> XY | None:
    """Return where a pen's mark stands: its point, else the mean of its corners."""
    if pen.at is not None:
        return _xy(pen.at)
    return mean(_all(pen.corners)) if pen.corners else None


def mean(points: Sequence[XY]) -> XY:
    """Return the point in the middle of some points."""
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _stop(pen: Pen) -> XY:
    """Return where the round comes to a pen: its gate, else its mark."""
    at = _middle(pen)
    if at is None:
        message = f"{pen.id} is not on the map"
        raise ValueError(message)
    return _xy(pen.gate_at) if pen.gate_at is not None else at


def _pen_marks(pens: Iterable[Pen]) -> Iterator[Mark]:
    for pen in pens:
        at = _middle(pen)
        if at is not None:
            yield Mark(PEN, pen.name, pen.gate or "", at, pen.id)


def _other_marks(farm: Farm) -> Iterator[Mark]:
    """Yield what somebody in a hurry looks for first, then the rest."""
    equipment = farm.equipment
    for place in farm.about.map.places if farm.about.map else ():
        at = _xy(place.at) if place.at else mean(_all(place.corners)) if place.corners else None
        if at is not None:
            words = place.notes or _place_words(farm, place.kind)
            yield Mark(place.kind, place.name or "", words, at)
    things: tuple[tuple[str, str, str | None, Point | None], ...] = (
        *(("shut-off", one.what, one.where, one.at) for one in farm.about.shut_offs),
        *(("circuit", c.label or c.id, c.where, c.at) for c in equipment.circuits),
        *(("water source", one.name, one.shut_off, one.at) for one in equipment.water_sources),
        *(("tank", one.name, one.where, one.at) for one in equipment.tanks),
        *(("generator", one.name, one.where, one.at) for one in equipment.generators),
    )
    for kind, name, where, point in things:
        if point is not None:
            yield Mark(kind, name, where or "", _xy(point))


def _place_words(farm: Farm, kind: str) -> str:
    """Return where a place is in the words that stand elsewhere in the farm's files."""
    words = {
        "thermometer": farm.about.thermometer,
        "phone signal": farm.about.place.phone_signal,
    }
    return words.get(kind) or ""


def _surfaces(farm: Farm, pens: Iterable[Pen]) -> Iterator[Surface]:
    """Yield pens with their corners, or as a square of their area; then buildings."""
    for pen in pens:
        at = _middle(pen)
        if pen.corners:
            yield Surface(PEN, pen.name, _all(pen.corners), pen.id)
        elif at is not None and pen.area_m2:
            yield Surface(PEN, pen.name, _square(at, pen.area_m2), pen.id, square=True)
    for place in farm.about.map.places if farm.about.map else ():
        if place.corners:
            yield Surface(place.kind, place.name or "", _all(place.corners))


def _square(middle: XY, area_m2: float) -> tuple[XY, ...]:
    """Return the corners of a square of an area [m2] about a point [m]."""
    half = sqrt(area_m2) / 2
    x, y = middle
    return (
        (x - half, y - half),
        (x + half, y - half),
        (x + half, y + half),
        (x - half, y + half),
    )


def _lines(farm: Farm) -> Iterator[GroundLine]:
    for line in farm.about.map.lines if farm.about.map else ():
        yield GroundLine(line.kind, line.name or "", _all(line.along))
    for hose in farm.equipment.hoses:
        if hose.along:
            kind = "buried pipe" if hose.runs == "buried" else "hose"
            yield GroundLine(kind, hose.name or hose.id, _all(hose.along))
