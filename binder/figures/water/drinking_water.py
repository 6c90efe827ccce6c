"""Drinking water of each class by temperature; per head, pen and farm (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from binder import units
from binder.figures import published
from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, NotPublishedError, merge_sources, step
from binder.figures.rules import at_least, quantity, rule
from binder.science.growth import interpolate
from binder.science.ranges import require_positive
from binder.units import Amount

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping

    from binder.farm.model import Farm
    from binder.figures.figure import Step
    from binder.figures.herd.groups import Group, Herd
    from binder.figures.published import Row
    from binder.figures.weather.hot_days import DayWeather

RULES = "water_rules"
ALONE = "weight alone"  # the weight's figure stands at every temperature


@dataclass(frozen=True, slots=True)
class Rise:
    """How much more is drunk at a temperature than in cool weather.

    Attributes:
        ratio: times the cool figure, 1 or more.
        hottest_c: the hottest published temperature [C].
        held: whether it is hotter than that, so that the last ratio stands.
        sources: ids the ratio rests on.
    """

    ratio: float
    hottest_c: float
    held: bool
    sources: tuple[str, ...]


def rise(line: str, temperature_c: float) -> Rise:
    """Return the rise of one line of `water_rise.csv` at an air temperature.

    Args:
        line: name of the line.
        temperature_c: air temperature [C]; cooler than the first row of the line gives that
            row, hotter than the last gives the last.

    References:
        Row by row in the table; straight lines between the published points.
    """
    points = [
        (quantity(row, "temperature", "temperature"), row.number("drinks"), row.sources)
        for row in published.rows("water_rise")
        if row.text("line") == line
    ]
    hottest_c, most, sources = points[-1]
    cool = points[0][1]
    held = temperature_c > hottest_c
    ratio = most / cool
    if temperature_c <= points[0][0]:
        ratio, sources = 1.0, points[0][2]
    for (low_c, low, below), (high_c, high, above) in pairwise(points):
        if low_c < temperature_c <= high_c:
            share = (temperature_c - low_c) / (high_c - low_c)
            ratio = (low + share * (high - low)) / cool
            sources = merge_sources(below, above)
    return Rise(ratio, hottest_c, held, sources)


def _cool(row: Row, weight_kg: float | None) -> tuple[float, Step]:
    """Return litres a head a day in cool weather, and the line of working that says why."""
    cls = row.text("class")
    each_l = quantity(row, "each", "volume") if row.has("each") else None
    by_weight_l = None
    if weight_kg is not None and row.has("by_weight"):
        amount_l = quantity(row, "by_weight", "volume")
        per_kg = quantity(row, "per_weight", "weight")
        by_weight_l = amount_l * weight_kg / per_kg
        if row.text("rule") != "larger" or each_l is None or by_weight_l > each_l:
            return by_weight_l, step(
                "weight",
                cls=cls,
                weight=Amount(weight_kg, "kg"),
                amount=Amount(amount_l, "L/day"),
                per=Amount(per_kg, "kg"),
                cool=Amount(by_weight_l, "L/day"),
            )
    if each_l is None:
        message = f"water for a {cls} is published by weight only; give its weight"
        raise NotPublishedError(message)
    return each_l, step("cool", cls=cls, cool=Amount(each_l, "L/day"))


def by_age_l(line: str, age_days: float) -> float:
    """Return what one head drinks in cool air at an age, by a line of water_by_age.csv [L/day].

    Younger than the first row drinks as that, older than the last as the last.
    """
    points = [
        (row.number("age"), quantity(row, "drinks", "volume"))
        for row in published.rows("water_by_age")
        if row.text("line") == line
    ]
    ages, litres = zip(*points, strict=True)
    return interpolate(min(max(age_days, ages[0]), ages[-1]), ages, litres)


def _by_age(cls: str, age_days: int) -> tuple[float, Step]:
    line = published.row("water_need", **{"class": cls}).text("by_age")
    litres = by_age_l(line, age_days)
    return litres, step("age", cls=cls, age=age_days, cool=Amount(litres, "L/day"))


def _require_published_air(temperature_c: float) -> None:
    coldest_c = rule(RULES, "coldest air", "temperature").value
    hottest_c = rule(RULES, "hottest air", "temperature").value
    if not (at_least(temperature_c, coldest_c) and at_least(hottest_c, temperature_c)):
        asked, low, high = (
            units.show_both(Amount(value, "degC"), "us")
            for value in (temperature_c, coldest_c, hottest_c)
        )
        message = (
            f"no drinking figure is published for air of {asked}; the range is {low} to {high}"
        )
        raise NotPublishedError(message)


def water_need(
    cls: str,
    count: int,
    temperature_c: float,
    weight_kg: float | None = None,
    subject: str = "",
    age_days: int | None = None,
) -> Figure:
    """Return the drinking water for so many head of a class [L/day].

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        count: head.
        temperature_c: the day's highest air temperature [C], -60 to 50.
        weight_kg: of one [kg], more than 0; None where not known.
        subject: what on the farm it is about.
        age_days: of one [days], where it is known; birds that grow fast drink by it.

    Raises:
        NotPublishedError: no such class, its weight is needed, or air outside the range.
        ValueError: a weight that is not above 0.

    References:
        Row by row in `water_need.csv` and `water_rise.csv`.
    """
    _require_published_air(temperature_c)
    if weight_kg is not None:
        require_positive(weight_kg, "weight", "kg")
    row = published.row("water_need", **{"class": cls})
    cool_l, first = _cool(row, weight_kg)
    if row.has("by_age") and age_days is not None:
        cool_l, first = max((cool_l, first), _by_age(cls, age_days), key=lambda it: it[0])
    working, sources, cautions = [first], row.sources, row.text("cautions").split()
    each_l = cool_l
    if not (first.key == "weight" and row.text("rule") == ALONE):
        more = rise(row.text("rise"), temperature_c)
        each_l = cool_l * more.ratio
        working += _heat(more, temperature_c, each_l)
        sources = merge_sources(sources, more.sources)
        cautions += row.text("in_heat").split() if more.ratio > 1 else []
        cautions += ["held"] if more.held else []
    each, need = Amount(each_l, "L/day"), Amount(each_l * count, "L/day")
    working.append(step("head", count=count, each=each, need=need))
    if row.has("reserve") and each_l > cool_l:
        ratio = row.number("reserve")
        store = Amount(cool_l * ratio * count, "L/day")
        working.append(step("store", ratio=ratio, store=store))
    return Figure("water-need", need, tuple(working), sources, tuple(cautions), subject)


def _heat(more: Rise, temperature_c: float, each_l: float) -> list[Step]:
    """Return the lines of working for hot weather, none in cool."""
    if more.ratio == 1:
        return []
    air, each = Amount(temperature_c, "degC"), Amount(each_l, "L/day")
    lines = [step("rise", temperature=air, ratio=more.ratio, each=each)]
    if more.held:
        lines.append(step("held", hottest=Amount(more.hottest_c, "degC")))
    return lines


@dataclass(frozen=True, slots=True)
class WaterFigures:
    """Drinking water on the farm's hot day.

    Attributes:
        temperature_c: the high it is worked out for [C].
        assumed: whether that high is assumed, not the owner's.
        groups: `water-need` by the name of the animal or group; a litter at the side stands
            under `NAME litter`.
        pens: `pen-water` by pen id; only pens whose animals all have a figure.
        farm: `farm-water`, all groups that have one; None without animals. Its working says who
            of `unknown` is not in it.
        unknown: names for which nothing is published without their weight.
    """

    temperature_c: float
    assumed: bool
    groups: Mapping[str, Figure]
    pens: Mapping[str, Figure]
    farm: Figure | None
    unknown: tuple[str, ...]


def for_farm(farm: Farm, herd: Herd, hot: DayWeather) -> WaterFigures:
    """Return the drinking water of every group, pen and the farm on a hot day."""
    groups: dict[str, Figure] = {}
    unknown: list[str] = []
    for group in herd.groups:
        name = group.animal.called
        try:
            groups[name] = water_need(
                group.cls, group.count, hot.high_c, group.weight_kg, name, _age(group, herd.on)
            )
        except NotPublishedError:
            unknown.append(name)
        if group.litter and group.animal.species == "pig":
            litter = f"{name} litter"
            groups[litter] = water_need(
                "suckling piglet", group.litter, hot.high_c, None, litter
            )
    pens: dict[str, Figure] = {}
    for pen in farm.pens:
        inside = herd.in_pen(pen.id)
        if inside and not {group.animal.called for group in inside} & set(unknown):
            pens[pen.id] = _total("pen-water", pen.id, _of(inside, groups))
    total = _total("farm-water", "", groups.values(), unknown) if groups else None
    return WaterFigures(hot.high_c, hot.assumed, groups, pens, total, tuple(unknown))


def _age(group: Group, on: dt.date) -> int | None:
    return (on - group.animal.born).days if group.animal.born else None


def _of(inside: Iterable[Group], groups: Mapping[str, Figure]) -> list[Figure]:
    """Return the figures of the groups in a pen, their litters included."""
    names = [group.animal.called for group in inside]
    return [groups[key] for name in names for key in (name, f"{name} litter") if key in groups]


def _total(
    name: str, subject: str, parts: Iterable[Figure], without: Iterable[str] = ()
) -> Figure:
    """Return the sum of drinking figures, each a line of its working, and who is not in it."""
    each = list(parts)
    need = Amount(sum(part.amount.value for part in each), "L/day")
    lines = tuple(step("part", who=part.subject, need=part.amount) for part in each)
    sources = merge_sources(*(part.sources for part in each))
    left_out = ", ".join(without)
    last = [step("without", names=left_out)] if left_out else []
    return Figure(name, need, (*lines, step("sum", need=need), *last), sources, subject=subject)


def _asked_need(
    count: int, temperature: float, weight: float | None, age: int | None, **given: str
) -> Figure:
    return water_need(given["class"], count, temperature, weight, "", age)


_CLASSES = tuple(each.text("class") for each in published.rows("water_need"))
ENTRIES: tuple[Entry, ...] = (
    Entry(
        "water-need",
        (
            Argument("class", "text", known=_CLASSES),
            Argument("count", "whole"),
            Argument("temperature", "temperature"),
            Argument("weight", "weight", optional=True),
            Argument("age", "whole", optional=True),
        ),
        _asked_need,
    ),
)
