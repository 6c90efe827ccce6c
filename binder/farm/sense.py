"""What cannot be so although each part is written rightly: dates and words that contradict."""

from __future__ import annotations

import datetime as dt
from functools import lru_cache
from typing import TYPE_CHECKING

from binder import units
from binder.farm import tables, zones
from binder.farm.model.people import MOST_VISITS
from binder.problems import Problem
from binder.yamlfile import named, value_at

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from binder.farm.load import Written
    from binder.farm.model import Animal, FarmFile, Pen, Spot, Stay, Weather
    from binder.yamlfile import Path_

    Contradiction = tuple[Path_, str]

# The range of the livestock index [heat-97]; beyond it no band can be given.
COLDEST_C, HOTTEST_C = -20.0, 50.0
COLDEST, HOTTEST = "-4 F (-20 C)", "122 F (50 C)"
# Our choice: between solar noon and sunset of a hot day, whatever the time zone.
EARLIEST, LATEST = dt.time(11), dt.time(20)
LONGEST_STAY_DAYS = 92  # our choice: each day has its sheet, and a year is a slip of the pen
DATES_OF_A_LIFE = ("weighed", "bred", "farrowed", "weaned")
RECORDS_OF_A_MOTHER = ("bred", "bred_to", "farrowed", "litter")
MALES = frozenset(
    {"boar", "barrow", "rooster", "buck", "wether", "ram", "bull", "steer", "stallion",
     "gelding", "jack", "john", "tom", "drake", "male"}
)  # fmt: skip


@lru_cache(maxsize=1)
def sexes() -> Mapping[str, tuple[str, ...]]:
    """Return the trade's words for sex that fit each species."""
    rows = tables.rows("sex_words")
    return {row["species"]: tuple(row["sexes"].split()) for row in rows}


def problems(
    written: Written,
    about: FarmFile | None,
    animals: Mapping[int, Animal],
    pens: Mapping[int, Pen],
    stays: Mapping[int, Stay],
) -> list[Problem]:
    """Return every contradiction in what fits the models, whatever else is wrong beside it."""
    found: dict[str, Iterable[Contradiction]] = {
        "farm.yaml": _about(about) if about else (),
        "animals.yaml": _numbered(
            (n, _animal(animal, _raw(written, "animals.yaml", n)))
            for n, animal in animals.items()
        ),
        "pens.yaml": _numbered((n, _pen(pen)) for n, pen in pens.items()),
        "stays.yaml": _numbered((n, _stay(stay)) for n, stay in stays.items()),
    }
    return [
        Problem(document.place(path), named(document.data, path), message)
        for name, document in written.documents.items()
        for path, message in found.get(name, ())
    ]


def _raw(written: Written, name: str, number: int) -> frozenset[str]:
    """Return the keys that stand in an item, those with a wrong value too."""
    item = value_at(written.documents[name].data, (number,))
    held = item.items() if isinstance(item, dict) else ()
    return frozenset(key for key, value in held if value is not None)


def _numbered(
    items: Iterable[tuple[int, Iterator[Contradiction]]],
) -> Iterator[Contradiction]:
    """Yield contradictions with the number of the item they stand in before their path."""
    for number, contradictions in items:
        for path, message in contradictions:
            yield (number, *path), message


def _about(about: FarmFile) -> Iterator[Contradiction]:
    place = about.place
    if place.latitude is not None and place.longitude is None:
        yield ("place", "latitude"), "stands alone; write longitude too, or neither"
    if place.longitude is not None and place.latitude is None:
        yield ("place", "longitude"), "stands alone; write latitude too, or neither"
    yield from _zone(place)
    for month, weather in about.climate.items():
        yield from _weather(("climate", month), weather)
    for key, day in (("hot_day", about.hot_day), ("extreme_day", about.extreme_day)):
        if day is not None:
            yield from _weather((key,), day)


def _zone(place: Spot) -> Iterator[Contradiction]:
    if place.timezone is None or place.latitude is None or place.longitude is None:
        return
    wrong = zones.too_far(place.timezone, place.latitude, place.longitude)
    if wrong:
        message = (
            f"does not go with {place.timezone}, which lies about "
            f"{zones.position(place.timezone)}; check both, "
            "and the sign: south and west are below nought"
        )
        yield ("place", wrong), message


def _weather(path: Path_, day: Weather) -> Iterator[Contradiction]:
    if day.high_c > HOTTEST_C:
        yield (*path, "high"), f"is beyond the scale of danger for animals; {HOTTEST} at most"
    elif day.high_c < COLDEST_C and path[0] != "climate":
        yield (*path, "high"), f"is no hot day; write {COLDEST} or more"
    if day.hottest_at is not None and not EARLIEST <= day.hottest_at <= LATEST:
        message = (
            f"is no hour of the hottest air; write one from {EARLIEST:%H:%M} to {LATEST:%H:%M}"
        )
        yield (*path, "hottest_at"), message
    if day.low_c > day.high_c:
        yield (*path, "low"), "is warmer than the high of the same day"
    if day.dew_point_c > day.high_c:
        yield (*path, "dew_point"), "is warmer than the high; air cannot hold that much water"


def _animal(animal: Animal, keys: frozenset[str]) -> Iterator[Contradiction]:
    yield from _name_and_count(animal, keys)
    words = sexes()[animal.species]
    if animal.sex is not None and animal.sex not in words:
        message = (
            f'"{animal.sex}" is not a word for a {animal.species}; write {", ".join(words)}'
        )
        yield ("sex",), message
    if animal.sex in MALES:
        for key in RECORDS_OF_A_MOTHER:
            if getattr(animal, key) is not None:
                yield (key,), f"does not go with {animal.sex}; write it with the mother"
    yield from _beyond(animal)
    for key in DATES_OF_A_LIFE:
        day = getattr(animal, key)
        if animal.born is not None and day is not None and day < animal.born:
            yield (key,), f"{day} lies before the day of birth, {animal.born}"
    yield from _moves(animal)


def _moves(animal: Animal) -> Iterator[Contradiction]:
    days: set[object] = set()
    for place, move in enumerate(animal.moves):
        if move.on in days:
            yield ("moves", place, "on"), f"{move.on} has two moves; write the last of them"
        days.add(move.on)


def _beyond(animal: Animal) -> Iterator[Contradiction]:
    """Yield what no animal of its species weighs, rears or eats."""
    most = tables.by("animal_limits", "species")[animal.species]
    weight, ration = animal.weight_kg, animal.ration_kg_day
    least_kg, most_kg = (units.parse(most[key], "weight") for key in ("lightest", "heaviest"))
    if weight is not None and not least_kg <= weight <= most_kg:
        heavy = f"weighs {most['lightest']} to {most['heaviest']}"
        yield (
            ("weight",),
            f"is no weight of one {animal.species}, which {heavy}; check the unit",
        )
    if animal.litter is not None and animal.litter > int(most["litter"]):
        message = f"{animal.litter:,} are more than one mother rears; {most['litter']} at most"
        yield ("litter",), message
    if ration is not None and ration > units.parse(most["ration"], "gain"):
        message = f"is more than one {animal.species} eats; {most['ration']} at most, for one"
        yield ("ration",), message


def _name_and_count(animal: Animal, keys: frozenset[str]) -> Iterator[Contradiction]:
    """Yield what is wrong with how an animal is called; what was refused is not missing too."""
    if animal.name is None and animal.group is None:
        if keys & {"name", "group"}:
            return
        yield (), "has neither name nor group; write name: for one animal, group: for several"
    elif animal.name is not None and animal.group is not None:
        yield ("group",), "stands beside a name; write name: for one animal, group: for several"
    elif animal.group is not None and animal.count is None and "count" not in keys:
        yield (), "count is missing; write it like count: 8"
    elif animal.name is not None and animal.head > 1:
        yield ("count",), "is more than 1, but a name is for one animal; write group: instead"


def _pen(pen: Pen) -> Iterator[Contradiction]:
    wallow = pen.wallow
    if wallow and wallow.dug and wallow.last_refreshed and wallow.last_refreshed < wallow.dug:
        message = f"{wallow.last_refreshed} lies before the day it was dug, {wallow.dug}"
        yield ("wallow", "last_refreshed"), message


def _stay(stay: Stay) -> Iterator[Contradiction]:
    if stay.last < stay.first:
        yield ("to",), f"{stay.last} lies before the first day, {stay.first}"
    elif (stay.last - stay.first).days >= LONGEST_STAY_DAYS:
        days = (stay.last - stay.first).days + 1
        message = f"makes {days:,} days; {LONGEST_STAY_DAYS} are the most, so write two stays"
        yield ("to",), message
    times = len(set(stay.visits))
    if times > MOST_VISITS:
        message = f"has {times} times; {MOST_VISITS} visits a day are the most"
        yield ("visits",), message
