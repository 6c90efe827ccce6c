"""What one head is fed a day: published rations, treats, a dog's energy."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.entry import Argument, Entry, renamed
from binder.figures.figure import (
    Figure,
    NotPublishedError,
    merge_sources,
    step,
)
from binder.figures.rules import quantity, rule
from binder.science import growth
from binder.science.ranges import require_not_negative
from binder.units import Amount

if TYPE_CHECKING:
    from typing import TypeGuard

    from binder.figures.figure import Step
    from binder.figures.published import Row

RULES = "feed_rules"
FORMULAS = "feed_formulas"


def ration(
    cls: str, weight_kg: float | None = None, litter: int | None = None, subject: str = ""
) -> Figure:
    """Return the published feed a day of one head [kg/day].

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        weight_kg: live weight [kg]; growing pigs need it, goats and sheep may give it.
        litter: young at her side; a lactating sow needs it.
        subject: whose ration it is.

    Raises:
        NotPublishedError: no ration was read for the class, or the weight or litter it depends
            on is missing or outside the published range.

    References:
        husbandry 3a, row by row in `ration.csv` and `feed_by_weight.csv`.
    """
    row = published.row("ration", **{"class": cls})
    if row.text("by") and weight_kg is not None and not _lighter_than_table(weight_kg, row):
        kg_day, working, rests_on = _by_weight(cls, weight_kg)
    elif row.has("share") and weight_kg is not None:
        share = quantity(row, "share", "share")
        kg_day, rests_on = share / 100 * weight_kg, row.sources
        working = [step("share", share=Amount(share, "%"), weight=Amount(weight_kg, "kg"),
                        ration=Amount(kg_day, "kg/day"))]  # fmt: skip
    elif row.has("per_young"):
        kg_day, working = _with_litter(row, litter)
        rests_on = row.sources
    else:
        kg_day, rests_on = _each(row), row.sources
        working = [step("each", cls=cls, ration=Amount(kg_day, "kg/day"))]
    if row.has("low"):
        low, most = (Amount(quantity(row, name, "gain"), "kg/day") for name in ("low", "most"))
        working.append(step("range", low=low, most=most))
    value = Amount(kg_day, "kg/day")
    return Figure("ration", value, tuple(working), rests_on, cautions(cls), subject)


def cautions(cls: str) -> tuple[str, ...]:
    """Return the keys of what must be said beside any ration of a class."""
    return tuple(published.row("ration", **{"class": cls}).text("cautions").split())


def sources(cls: str) -> tuple[str, ...]:
    """Return the ids the rations of a class rest on."""
    return published.row("ration", **{"class": cls}).sources


def meals_a_day(cls: str) -> int:
    """Return how many times a day a class is fed."""
    return int(published.row("ration", **{"class": cls}).number("meals"))


def is_late_and_dry(cls: str) -> bool:
    """Return whether a class gets its evening meal dry and late, to eat from all night.

    References:
        extra-34: nursing sows with a meal at 22:00 ate more, and their litters grew heavier.
        Dry, as soaked feed sours over night: our choice.
    """
    return published.row("ration", **{"class": cls}).text("late") == "dry"


def _each(row: Row) -> float:
    if row.has("each"):
        return quantity(row, "each", "gain")
    cls = row.text("class")
    if row.text("by"):
        message = f"feed for a {cls} is published by weight only; give its weight"
    else:
        message = f"no ration is published here for a {cls}; the owner's own figure decides"
    raise NotPublishedError(message)


def _with_litter(row: Row, litter: int | None) -> tuple[float, list[Step]]:
    if litter is None:
        message = f"feed for a {row.text('class')} is published by her litter; give the litter"
        raise NotPublishedError(message)
    base, each = quantity(row, "each", "gain"), quantity(row, "per_young", "gain")
    kg_day = base + litter * each
    return kg_day, [
        step("litter", base=Amount(base, "kg/day"), litter=litter, each=Amount(each, "kg/day"),
             ration=Amount(kg_day, "kg/day"))
    ]  # fmt: skip


def _lighter_than_table(weight_kg: float, row: Row) -> bool:
    """Return whether a weight lies below the table by weight and the row has another figure."""
    first = published.rows("feed_by_weight")[0]
    return row.has("each") and weight_kg < quantity(first, "weight", "weight")


def _by_weight(cls: str, weight_kg: float) -> tuple[float, list[Step], tuple[str, ...]]:
    table = published.rows("feed_by_weight")
    weights = [quantity(row, "weight", "weight") for row in table]
    feeds = [quantity(row, "feed", "gain") for row in table]
    if not weights[0] <= weight_kg <= weights[-1]:
        span = f"{weights[0]:.0f} to {weights[-1]:.0f} kg"
        message = (
            f"feed for a {cls} is published from {span} only; the owner's own figure decides"
        )
        raise NotPublishedError(message)
    kg_day = growth.interpolate(weight_kg, weights, feeds)
    low, high = next(
        (before, after)
        for before, after in pairwise(zip(weights, feeds, strict=True))
        if before[0] <= weight_kg <= after[0]
    )
    working = step(
        "weight",
        weight=Amount(weight_kg, "kg"),
        low_weight=Amount(low[0], "kg"),
        low=Amount(low[1], "kg/day"),
        high_weight=Amount(high[0], "kg"),
        high=Amount(high[1], "kg/day"),
        ration=Amount(kg_day, "kg/day"),
    )
    return kg_day, [working], table[0].sources


def treats_cap(ration_kg_day: float, count: int, subject: str = "") -> Figure:
    """Return the most treats a day for so many head [kg/day].

    Args:
        ration_kg_day: daily feed of one head [kg/day], 0 or more.
        count: head.
        subject: the group.

    References:
        husbandry-64: 5 % in a guide for hens; other pages print 10 %. husbandry-65: no kitchen
        waste. husbandry-78: avocado.
    """
    require_not_negative(ration_kg_day, "ration", "kg/day")
    share = rule(RULES, "treats share", "share")
    fed = ration_kg_day * count
    most = fed * share.value / 100
    working = (
        step("cap", fed=Amount(fed, "kg/day"), share=Amount(share.value, "%"),
             most=Amount(most, "kg/day")),
    )  # fmt: skip
    rests_on = merge_sources(share.sources, published.formula(FORMULAS, "treats-cap"))
    said = ("no-scraps", "avocado")
    return Figure("treats-cap", Amount(most, "kg/day"), working, rests_on, said, subject)


def is_dog_weight(weight_kg: float | None) -> TypeGuard[float]:
    """Return whether the published energy of a dog goes for that weight [kg]."""
    least, most = growth.LIGHTEST_DOG_KG, growth.HEAVIEST_DOG_KG
    return weight_kg is not None and least <= weight_kg <= most


def dog_energy(weight_kg: float, subject: str = "") -> Figure:
    """Return a dog's energy at rest a day [kcal].

    Args:
        weight_kg: body weight [kg], 1 to 100.
        subject: the dog's name.

    Raises:
        ValueError: the weight is outside the range.

    References:
        husbandry-76: 70 x kg^0.75, 662 kcal at 20 kg; the owner's measured scoop wins.
    """
    kcal = growth.resting_energy_kcal(weight_kg)
    working = (step("rest", weight=Amount(weight_kg, "kg"), energy=Amount(kcal, "kcal")),)
    value = Amount(kcal, "kcal")
    sources = published.formula(FORMULAS, "dog-energy")
    return Figure("dog-energy", value, working, sources, ("own-scoop",), subject)


CLASS_NAMES = tuple(row.text("class") for row in published.rows("classes"))

ENTRIES: tuple[Entry, ...] = (
    Entry(
        "ration",
        (
            Argument("class", "text", choices=CLASS_NAMES),
            Argument("weight", "weight", optional=True),
            Argument("litter", "whole", optional=True),
        ),
        renamed(ration, **{"class": "cls", "weight": "weight_kg"}),
    ),
    Entry(
        "treats-cap",
        (
            Argument("ration", "gain"),
            Argument("count", "whole", optional=True, default="1"),
        ),
        renamed(treats_cap, ration="ration_kg_day"),
    ),
    Entry(
        "dog-energy",
        (Argument("weight", "weight", shown="60lb"),),
        renamed(dog_energy, weight="weight_kg"),
    ),
)
