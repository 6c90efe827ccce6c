"""What cannot be on a map although each point of it is written rightly."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from math import dist
from statistics import median
from typing import TYPE_CHECKING

from binder.farm import tables
from binder.farm.model import Thing
from binder.farm.model.ground import Point
from binder.problems import Problem
from binder.yamlfile import named

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from binder.farm.load import Written
    from binder.farm.model import EquipmentFile, FarmFile, Pen
    from binder.yamlfile import Path_

    Spot = tuple[str, Path_, Point]  # file, path, point

_LEAST_POINTS = 6  # our choice: among fewer, none can be told to be far from the others
_LEAST_CORNERS, _LEAST_ENDS = 3, 2  # of a surface and of a line, by geometry


def problems(
    written: Written,
    about: FarmFile | None,
    pens: Mapping[int, Pen],
    equipment: EquipmentFile | None,
) -> list[Problem]:
    """Return what does not fit on one map: units mixed, points astray, lines too long."""
    spots = [
        *_points("farm.yaml", (), about),
        *(each for n, pen in pens.items() for each in _points("pens.yaml", (n,), pen)),
        *_points("equipment.yaml", (), equipment),
    ]
    has_picture = bool(about and about.map and about.map.picture)
    found = [
        *_units(spots, has_picture=has_picture),
        *_astray([each for each in spots if not each[2].percent]),
        *_too_few(spots),
        *_one_on_another(pens),
        *_hoses(equipment),
    ]
    return [
        Problem(document.place(path), named(document.data, path), message)
        for name, document in written.documents.items()
        for file, path, message in found
        if file == name
    ]


def _points(file: str, path: Path_, value: object) -> Iterator[Spot]:
    """Yield every point in a thing, however deep, with its path."""
    if isinstance(value, Point):
        yield file, path, value
    elif isinstance(value, tuple):
        for number, each in enumerate(value):
            yield from _points(file, (*path, number), each)
    elif isinstance(value, Thing):
        for name, field in type(value).model_fields.items():
            yield from _points(file, (*path, field.alias or name), getattr(value, name))


def _units(spots: Iterable[Spot], *, has_picture: bool) -> Iterator[tuple[str, Path_, str]]:
    for file, path, point in spots:
        if has_picture and not point.percent:
            yield (
                file,
                path,
                (
                    "is a distance, but the map is a picture; write percent of its "
                    "width and height from the lower left corner, like 62 %, 40 %"
                ),
            )
        elif point.percent and not has_picture:
            yield (
                file,
                path,
                (
                    "is in percent, but map: in farm.yaml has no picture: to measure; "
                    "name one, or write distances like 120 ft, 80 ft"
                ),
            )


def _astray(spots: list[Spot]) -> Iterator[tuple[str, Path_, str]]:
    """Yield points so far from all others that a digit too many is likely."""
    if len(spots) < _LEAST_POINTS:
        return
    middle = median(p.right for *_, p in spots), median(p.up for *_, p in spots)
    away = [dist((p.right, p.up), middle) for *_, p in spots]
    most = float(tables.by("check_rules", "rule")["stray point"]["most"]) * median(away)
    for (file, path, _), far in zip(spots, away, strict=True):
        if far > most > 0:
            yield file, path, "lies far from everything else on the map; check both numbers"


def _too_few(spots: Iterable[Spot]) -> Iterator[tuple[str, Path_, str]]:
    lists = Counter(
        (file, path[:-1])
        for file, path, _ in spots
        if len(path) > 1 and path[-2] in {"corners", "along"}
    )
    for (file, path), count in lists.items():
        least = _LEAST_CORNERS if path[-1] == "corners" else _LEAST_ENDS
        if count < least:
            yield file, path, f"has {count} of the {least} points that it needs at least"


def _one_on_another(pens: Mapping[int, Pen]) -> Iterator[tuple[str, Path_, str]]:
    seen: dict[Point, str] = {}
    for number, pen in pens.items():
        if pen.at is None:
            continue
        if pen.at in seen:
            message = f"is the same point as that of {seen[pen.at]}; two pens cannot share it"
            yield "pens.yaml", (number, "at"), message
        seen.setdefault(pen.at, pen.name)


def _hoses(equipment: EquipmentFile | None) -> Iterator[tuple[str, Path_, str]]:
    """Yield hoses that would have to be longer than they are."""
    slack = float(tables.by("check_rules", "rule")["hose on the map"]["most"])
    for number, hose in enumerate(equipment.hoses if equipment else ()):
        if any(each.percent for each in hose.along):
            continue
        ends = pairwise((each.right, each.up) for each in hose.along)
        drawn = sum(dist(one, other) for one, other in ends)
        if drawn > hose.length_m * slack:
            share = round(drawn / hose.length_m * 100)
            yield (
                "equipment.yaml",
                ("hoses", number, "along"),
                f"measures {share} % of the hose's length; check the points, or the length",
            )
