"""Weight on a date: the last weighing carried on by the owner's gain, else a published one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, NotPublishedError, step
from binder.figures.published import row, rows
from binder.figures.rules import quantity
from binder.science.gestation import age_days
from binder.science.growth import weight_kg
from binder.units import Amount

if TYPE_CHECKING:
    import datetime as dt

    from binder.farm.model import Animal
    from binder.figures.published import Row

_GROWN_SEX = "sow"
_NOT_FATTENED = ("pet", "guard", "work")


def weight_on(
    weight: float,
    weighed: dt.date,
    gain: float | None,
    date: dt.date,
    species: str = "pig",
    subject: str = "",
) -> Figure:
    """Return live weight on a date [kg], carried on from the last weighing.

    Args:
        weight: at the last weighing [kg].
        weighed: day of that weighing.
        gain: the owner's own daily gain [kg/day]; None takes the published one.
        date: the day asked about, not before the weighing.
        species: decides the published gain and the adult weight a forecast stops at.
        subject: the animal's name.

    Raises:
        NotPublishedError: no gain given and none published for the species at that weight, or a
            day before the weighing.

    References:
        husbandry-70: weight = start + days x daily gain; 50 lb + 106 d x 1.6 = 220 lb.
    """
    days = (date - weighed).days
    if days < 0:
        message = f"{date} is before the weighing of {weighed}: no weight is reckoned backwards"
        raise NotPublishedError(message)
    growth = row("growth", species=species)
    if gain is None:
        gain, most = _published(growth, weight), quantity(growth, "gain_to", "weight")
        origin = step(
            "published",
            low=Amount(quantity(growth, "low", "gain"), "kg/day"),
            high=Amount(quantity(growth, "high", "gain"), "kg/day"),
            most=Amount(most, "kg"),
        )
    else:
        most = quantity(growth, "adult", "weight")
        origin = step("own", gain=Amount(gain, "kg/day"))
    unchecked = weight_kg(weight, days, gain)
    reached = min(unchecked, max(most, weight))
    working = [origin, step("sum", start=Amount(weight, "kg"), weighed=weighed.isoformat(),
                            days=days, gain=Amount(gain, "kg/day"),
                            weight=Amount(unchecked, "kg"))]  # fmt: skip
    if reached < unchecked:
        working.append(step("stops", weight=Amount(reached, "kg")))
    return Figure(
        "weight-on", Amount(reached, "kg"), tuple(working), growth.sources, subject=subject
    )


def _published(growth: Row, weight: float) -> float:
    species = growth.text("species")
    if not growth.has("usual"):
        message = f"no daily gain is published here for {species}; give the farm's own gain"
        raise NotPublishedError(message)
    low, high = quantity(growth, "gain_from", "weight"), quantity(growth, "gain_to", "weight")
    if not low <= weight <= high:
        message = (
            f"daily gain of a {species} is published from {low:.0f} to {high:.0f} kg only; "
            "give the farm's own gain"
        )
        raise NotPublishedError(message)
    return quantity(growth, "usual", "gain")


def weight_of(animal: Animal, on: dt.date) -> Figure | None:
    """Return the weight of an animal (or of one head of a group) on a day [kg].

    None where it was never weighed, or where it was still growing when weighed, too long ago,
    and neither the owner nor a source gives a gain.
    """
    if animal.weight_kg is None:
        return None
    growth = row("growth", species=animal.species)
    if animal.weighed is None:
        return _as_weighed(animal, "undated", ())
    if on <= animal.weighed:
        return _as_weighed(animal, "weighed", ())
    grown_at = growth.number("grown_at")
    age = age_days(animal.born, animal.weighed) if animal.born else None
    young = age is None or age < grown_at
    if animal.gain_kg_day is not None or (young and _is_fattened(animal, growth)):
        return weight_on(
            animal.weight_kg,
            animal.weighed,
            animal.gain_kg_day,
            on,
            animal.species,
            animal.called,
        )
    if age is None or age >= grown_at:
        return _as_weighed(animal, "grown", growth.sources)
    if (on - animal.weighed).days <= growth.number("holds"):
        return _as_weighed(animal, "holds", growth.sources)
    return None


def _is_fattened(animal: Animal, growth: Row) -> bool:
    """Return whether the published gain of growing pigs applies to a young animal."""
    if not growth.has("usual") or animal.weight_kg is None:
        return False
    low, high = quantity(growth, "gain_from", "weight"), quantity(growth, "gain_to", "weight")
    mother = animal.sex == _GROWN_SEX or animal.bred is not None or animal.farrowed is not None
    within = low <= animal.weight_kg < high
    return within and not mother and animal.purpose not in _NOT_FATTENED


def _as_weighed(animal: Animal, how: str, sources: tuple[str, ...]) -> Figure:
    assert animal.weight_kg is not None  # noqa: S101 -- asked for only where it was weighed
    weight = Amount(animal.weight_kg, "kg")
    working = (
        step(how, weight=weight, weighed=animal.weighed.isoformat() if animal.weighed else ""),
    )
    return Figure("weight-on", weight, working, sources, subject=animal.called)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "weight-on",
        (
            Argument("weight", "weight"),
            Argument("weighed", "date"),
            Argument("gain", "gain", optional=True),
            Argument("date", "date"),
            Argument(
                "species", "text", optional=True, default="pig",
                choices=tuple(each.text("species") for each in rows("growth")),
            ),
        ),
        weight_on,
    ),
)  # fmt: skip
