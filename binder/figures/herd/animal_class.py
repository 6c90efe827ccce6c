"""Class on a date: what an animal is today for heat, water and feed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, get_args

from binder.farm.model import SPECIES, Purpose, Sex
from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, Step, merge_sources, step
from binder.figures.herd.breeding import Records, Stage, gestation, stage
from binder.figures.published import Row, row, rows
from binder.figures.rules import quantity
from binder.problems import did_you_mean
from binder.science import gestation as pregnancy
from binder.units import Amount

if TYPE_CHECKING:
    import datetime as dt


@dataclass(frozen=True, slots=True)
class Known:
    """What a class is decided by; None where the owner left it out."""

    species: str
    sex: str | None
    age_days: int | None
    weight_kg: float | None
    purpose: str | None
    stage: Stage


def class_figure(known: Known, on: dt.date, subject: str = "") -> Figure:
    """Return the class with the rule that decided it.

    Args:
        known: what is recorded of the animal.
        on: the day asked about.
        subject: the animal's name.

    References:
        `content/published/herd/class_rules.csv`; water-1 (pig weights), husbandry-79 (weaning),
        husbandry-69 (late gestation); all other limits are our choice.
    """
    rule = next(each for each in rows("class_rules") if _fits(each, known))
    about = {"species": known.species, "date": on.isoformat()}
    working = [
        step("animal", sex=known.sex, **about) if known.sex else step("animal_no_sex", **about)
    ]
    working += _stage_steps(known, on)
    if known.age_days is not None:
        working.append(step("age", days=known.age_days))
    if known.weight_kg is not None:
        working.append(step("weight", weight=Amount(known.weight_kg, "kg")))
    working += _limit_steps(rule)
    working.append(step("class", cls=rule.text("class")))
    cautions = ("birth-not-recorded",) if known.stage.expected else ()
    sources = merge_sources(rule.sources, known.stage.sources)
    return Figure("class", rule.text("class"), tuple(working), sources, cautions, subject)


def _fits(rule: Row, known: Known) -> bool:
    asked = (
        (rule.text("species"), known.species),
        (rule.text("state"), known.stage.state),
        (rule.text("purpose"), known.purpose),
    )
    if any(wanted and wanted != given for wanted, given in asked):
        return False
    if rule.has("sex") and known.sex not in rule.text("sex").split():
        return False
    return _within(rule, "age", known.age_days) and _within(rule, "weight", known.weight_kg)


def _within(rule: Row, what: str, value: float | None) -> bool:
    """Return whether `value` is at or over `from` and under `below`; unknown fits no limit."""
    low, below = _limits(rule, what)
    if low is None and below is None:
        return True
    if value is None or (low is not None and value < low):
        return False
    return below is None or value < below


@lru_cache(maxsize=1024)  # asked for each animal on each day
def _limits(rule: Row, what: str) -> tuple[float | None, float | None]:
    kind = {"age": "number", "weight": "weight"}[what]
    low, below = (
        quantity(rule, f"{side}_{what}", kind) if rule.has(f"{side}_{what}") else None
        for side in ("from", "below")
    )
    return low, below


def _stage_steps(known: Known, on: dt.date) -> list[Step]:
    state = known.stage.state
    limits = gestation(known.species)
    if not state or limits is None:
        return []
    day = known.stage.day(on)
    if state in {"late", "bred"}:
        steps = [step("bred", day=day, term=int(limits.number("days")))]
        if limits.has("late_from"):
            steps.append(step("late-from", day=int(limits.number("late_from"))))
        return steps
    if state == "nursing":
        key = "expected" if known.stage.expected else "nursing"
        return [step(key, day=day, most=int(limits.number("nursing_days")))]
    return [step(state)]


def _limit_steps(rule: Row) -> list[Step]:
    steps = []
    for what in ("age", "weight"):
        for side, limit in zip(("from", "below"), _limits(rule, what), strict=True):
            if limit is not None:
                part = int(limit) if what == "age" else Amount(limit, "kg")
                steps.append(step(f"{side}-{what}", limit=part))
    return steps


def class_on(
    species: str,
    sex: str,
    born: dt.date | None,
    date: dt.date,
    weight: float | None = None,
    bred: dt.date | None = None,
    farrowed: dt.date | None = None,
    purpose: str | None = None,
    weaned: dt.date | None = None,
    litter: int | None = None,
) -> Figure:
    """Return the class of an animal on a date, asked for by name.

    Args:
        species: one of the farm model's species.
        sex: a word that fits the species.
        born: birthday; None where unknown.
        date: the day asked about, not before the birthday.
        weight: live weight on that day [kg].
        bred: day of the last mating.
        farrowed: day of the last birth.
        purpose: what it is kept for.
        weaned: day the litter (or this young animal) was weaned.
        litter: young at the side.

    Raises:
        ValueError: a sex word of another species, or a day before the birthday.
    """
    sexes = row("sex_words", species=species).text("sexes").split()
    if sex not in sexes:
        message = f'"{sex}" is not said of a {species}{did_you_mean(sex, sexes)}'
        raise ValueError(message)
    known = Known(
        species=species,
        sex=sex,
        age_days=pregnancy.age_days(born, date) if born else None,
        weight_kg=weight,
        purpose=purpose,
        stage=stage(species, date, Records(bred, farrowed, weaned, litter)),
    )
    return class_figure(known, date)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "class",
        (
            Argument("species", "text", choices=SPECIES),
            Argument("sex", "text", choices=get_args(Sex)),
            Argument("born", "date", optional=True),
            Argument("date", "date"),
            Argument("weight", "weight", optional=True),
            Argument("bred", "date", optional=True),
            Argument("farrowed", "date", optional=True),
            Argument("purpose", "text", optional=True, choices=get_args(Purpose)),
            Argument("weaned", "date", optional=True),
            Argument("litter", "whole", optional=True),
        ),
        class_on,
    ),
)
