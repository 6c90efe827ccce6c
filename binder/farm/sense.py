"""What is written rightly and cannot be so: dates, numbers and words that contradict each other."""

from __future__ import annotations

import zoneinfo
from typing import TYPE_CHECKING

from binder.problems import Problem, did_you_mean, quotable
from binder.yamlfile import named

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from binder.farm.load import Written
    from binder.farm.model import Animal, FarmFile, Pen, Stay, Weather
    from binder.yamlfile import Path_

Contradiction = tuple["Path_", str]

# The trade's words for sex, by species (common practice, no source). `female`, `male` and
# `mixed` go with all of them.
SEXES: dict[str, tuple[str, ...]] = {
    "pig": ("sow", "gilt", "boar", "barrow"),
    "chicken": ("hen", "pullet", "rooster"),
    "turkey": ("hen", "tom"),
    "duck": ("hen", "drake"),
    "goat": ("doe", "buck", "wether"),
    "sheep": ("ewe", "ram", "wether"),
    "cattle": ("cow", "heifer", "bull", "steer"),
    "horse": ("mare", "stallion", "gelding"),
    "rabbit": ("doe", "buck"),
    "dog": (),
}
ANY_SEX = ("female", "male", "mixed")


def problems(
    written: Written,
    about: FarmFile | None,
    animals: Mapping[int, Animal],
    pens: Mapping[int, Pen],
    stays: Mapping[int, Stay],
) -> list[Problem]:
    """Return every contradiction in the parts of the farm that fit their models."""
    found: dict[str, list[Contradiction]] = {
        "farm.yaml": list(_about(about)) if about else [],
        "animals.yaml": [
            ((number, *path), message)
            for number, animal in animals.items()
            for path, message in _animal(animal)
        ],
        "pens.yaml": [
            ((number, *path), message)
            for number, pen in pens.items()
            for path, message in _pen(pen)
        ],
        "stays.yaml": [
            ((number, *path), message)
            for number, stay in stays.items()
            for path, message in _stay(stay)
        ],
    }
    return [
        Problem(document.place(path), named(document.data, path), message)
        for name, contradictions in found.items()
        if (document := written.documents.get(name))
        for path, message in contradictions
    ]


def _about(about: FarmFile) -> Iterator[Contradiction]:
    place = about.place
    if (place.latitude is None) != (place.longitude is None):
        given, other = ("latitude", "longitude") if place.longitude is None else (
            "longitude", "latitude")  # fmt: skip
        yield ("place", given), f"stands alone; write {other} too, or neither"
    if place.timezone is not None:
        known = zoneinfo.available_timezones()
        if place.timezone not in known:
            hint = did_you_mean(place.timezone, sorted(known))
            hint = hint if hint.startswith("; did") else "; write it like America/New_York"
            yield ("place", "timezone"), f'"{quotable(place.timezone)}" is not a time zone{hint}'
    for month, weather in about.climate.items():
        yield from _weather(("climate", month), weather)
    for key, day in (("hot_day", about.hot_day), ("severe_day", about.severe_day)):
        if day is not None:
            yield from _weather((key,), day)


def _weather(path: Path_, day: Weather) -> Iterator[Contradiction]:
    if day.low_c > day.high_c:
        yield (*path, "low"), "is warmer than the high of the same day"
    if day.dew_point_c > day.high_c:
        yield (*path, "dew_point"), "is warmer than the high; air never holds that much water"


def _animal(animal: Animal) -> Iterator[Contradiction]:
    if animal.name is None and animal.group is None:
        yield (), "has neither name nor group; write name: for one animal, group: for several"
    if animal.name is not None and animal.group is not None:
        yield ("group",), "stands beside a name; write name: for one animal, group: for several"
    if animal.name is None and animal.group is not None and animal.count is None:
        yield (), "count is missing; write how many there are, like count: 8"
    if animal.name is not None and animal.group is None and (animal.count or 1) > 1:
        yield ("count",), "a name is for one animal; write group: in place of name:"
    fitting = SEXES[animal.species]
    if animal.sex is not None and animal.sex not in (*fitting, *ANY_SEX):
        words = ", ".join((*fitting, *ANY_SEX))
        yield ("sex",), f'"{animal.sex}" is not a word for a {animal.species}; write {words}'
    if animal.born is not None:
        for key in ("weighed", "bred", "farrowed", "weaned"):
            day: dt.date | None = getattr(animal, key)
            if day is not None and day < animal.born:
                yield (key,), f"{day} lies before the day it was born, {animal.born}"


def _pen(pen: Pen) -> Iterator[Contradiction]:
    wallow = pen.wallow
    if wallow and wallow.dug and wallow.last_refreshed and wallow.last_refreshed < wallow.dug:
        message = f"{wallow.last_refreshed} lies before the day it was dug, {wallow.dug}"
        yield ("wallow", "last_refreshed"), message


def _stay(stay: Stay) -> Iterator[Contradiction]:
    if stay.last < stay.first:
        yield ("to",), f"{stay.last} lies before the first day, {stay.first}"
