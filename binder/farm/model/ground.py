"""`map:` in `farm.yaml`, and the points and lines that things have on it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from binder import units
from binder.farm import tables
from binder.farm.model.refers import Withheld
from binder.farm.model.thing import Thing
from binder.farm.model.values import Line
from binder.problems import quotable

# A comma between two measures stands after a unit or before a space; that of 1,200 ft does not.
_BETWEEN = re.compile(r"(?<=[^\d\s])\s*,\s*|,\s+|\s*;\s*")
_FORM = "write two measures, to the right and up, like 120 ft, 80 ft"
_WHOLE_PCT = 100.0

PlaceKind = Literal[
    "gate", "road gate", "meeting place", "house", "barn", "shed", "feed room", "thermometer",
    "first aid", "fire extinguisher", "fuel", "phone signal", "other",
]  # fmt: skip
LineKind = Literal["fence", "road", "path", "stream", "other"]
Compass = Literal[
    "north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"
]


@dataclass(frozen=True, slots=True)
class Point:
    """A point of the map, from its lower left corner.

    Attributes:
        right: to the right [m], or [%] of the width of a picture.
        up: up [m], or [%] of its height.
        percent: which of the two.
    """

    right: float
    up: float
    percent: bool = False


def point(value: object) -> Point:
    """Return a point written `120 ft, 80 ft` or `62 %, 40 %`, or as a list of the two.

    Raises:
        ValueError: it is no such pair, or lies outside what a farm may measure.
    """
    texts = value if isinstance(value, list) else []
    if isinstance(value, str):
        texts = _BETWEEN.split(value.strip())
    whole = ", ".join(text for text in texts if isinstance(text, str))
    if len(texts) != 2 or not all(isinstance(text, str) for text in texts):
        what = f'"{quotable(whole)}"' if whole else "a list or mapping"
        message = f"{what} is no point of the map; {_FORM}"
        raise ValueError(message)
    shares = [text.rstrip().endswith("%") for text in texts]
    if any(shares) and not all(shares):
        message = f'"{quotable(whole)}" is half in percent; {_FORM}, or 62 %, 40 %'
        raise ValueError(message)
    percent = all(shares)
    right, up = (_measure(text, whole, percent=percent) for text in texts)
    return Point(right, up, percent)


def _measure(text: str, whole: str, *, percent: bool) -> float:
    number = units.parse(text, "share" if percent else "length")
    if percent and not 0 <= number <= _WHOLE_PCT:
        message = f'"{quotable(whole)}" lies outside the picture; write 0 % to 100 %'
        raise ValueError(message)
    limit = tables.by("field_limits", "field")["map"]
    least, most = (units.parse(limit[key], limit["kind"]) for key in ("least", "most"))
    if not percent and not least <= number <= most:
        message = (
            f'"{quotable(whole)}" is out of range; write {limit["least"]} or more, '
            f"and {limit['most']} at most"
        )
        raise ValueError(message)
    return number


MapPoint = Annotated[
    Point,
    BeforeValidator(point),
    WithJsonSchema(
        {
            "type": ["string", "array"],
            "pattern": "^[^,;]+[,;].+$",
            "items": {"type": "string"},
            "minItems": 2,
            "maxItems": 2,
            "examples": ["120 ft, 80 ft"],
        }
    ),
]


class MapPlace(Thing):
    """Something on the map that stands in no other list: a gate, the house, a meeting place."""

    kind: PlaceKind = Field(description="What it is.")
    name: Line | None = Field(
        default=None, description="What people call it.", examples=["Gate at the road"]
    )
    at: MapPoint | None = Field(default=None, description="Where: to the right, and up.")
    corners: tuple[MapPoint, ...] = Field(
        default=(), description="The corners of a building, one after the other."
    )


class MapLine(Thing):
    """A line on the map: a fence, a road, a stream."""

    kind: LineKind = Field(description="What it is.")
    name: Line | None = Field(
        default=None, description="What people call it.", examples=["Road to the barn"]
    )
    along: tuple[MapPoint, ...] = Field(description="Its points, from one end to the other.")


class FarmMap(Thing):
    """The map: places and lines beside those that pens, tanks and hoses say themselves.

    With a `picture` every point of the farm is in percent of it.
    """

    up: Annotated[Compass | None, Withheld()] = Field(
        default=None, description="Which way up is on the map."
    )
    places: tuple[MapPlace, ...] = Field(
        default=(), description="Gates, house, thermometer, meeting place for an ambulance."
    )
    lines: tuple[MapLine, ...] = Field(default=(), description="Fences, roads, streams.")
