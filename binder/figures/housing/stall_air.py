"""Air in closed stalls against need, fans, and when moving air stops helping."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.entry import Argument, Entry, renamed
from binder.figures.figure import FROM_MEMORY, Figure, NotPublishedError, merge_sources, step
from binder.figures.finding import Finding, falls_short, finding
from binder.figures.housing import cooling
from binder.figures.housing.cooling import dirty_fan, drip_cycles, fan_limits
from binder.figures.published import rows
from binder.figures.rules import quantity, rule
from binder.problems import did_you_mean
from binder.units import Amount

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Fan, Farm, Pen
    from binder.figures.herd.groups import Group, Herd
    from binder.figures.published import Row

AREA = "air"
RULES = "air_rules"
CLOSED = "stall"
SEASONS = ("hot", "mild", "cold")


@dataclass(frozen=True, slots=True)
class StallAir:
    """The air of one closed stall.

    Attributes:
        pen: as the owner wrote it.
        need: air for all animals in hot weather [m3/h]; None where none is published. With the
            caution `from-memory` pages print the safe wording in its place.
        have: what the fans move when clean [m3/h]; None where no fan's air is recorded.
        dirty: what is left of it when the fans are dirty [m3/h]; None with `have`.
        findings: what is missing or wrong, `air-findings` in the words.
    """

    pen: Pen
    need: Figure | None
    have: Figure | None
    dirty: Figure | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class FarmAir:
    """The air on the farm on one date.

    Attributes:
        stalls: by pen id; stalls without animals are left out.
        limits: air temperature above which a fan stops helping [C], by species and `people`.
        drip: minutes on and off of drip cooling, coolest air first; empty without pigs.
    """

    stalls: Mapping[str, StallAir]
    limits: Mapping[str, Figure]
    drip: tuple[Figure, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Return the findings of all stalls, in their order."""
        return tuple(found for stall in self.stalls.values() for found in stall.findings)


def for_farm(farm: Farm, herd: Herd) -> FarmAir:
    """Return the air of `farm` for the herd of one date."""
    stalls = {
        pen.id: _stall_air(farm, pen, herd.in_pen(pen.id), herd.on)
        for pen in farm.pens
        if pen.kind == CLOSED and herd.in_pen(pen.id)
    }
    species = tuple(dict.fromkeys(group.animal.species for group in herd.groups))
    drip = drip_cycles() if "pig" in species else ()
    return FarmAir(stalls, fan_limits(species), drip)


def airflow_need(
    cls: str,
    count: int,
    weight_kg: float | None = None,
    season: str = "hot",
    subject: str = "",
) -> Figure:
    """Return the air so many head of a class need in a closed barn [m3/h].

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        count: head.
        weight_kg: of one [kg]; birds need it.
        season: `hot`, `mild` or `cold`.
        subject: what on the farm it is about.

    Raises:
        NotPublishedError: nothing was read for the class, weight or season.

    References:
        husbandry-20 (12 pigs of 150-260 lb, hot: 1,440 cfm), husbandry-21 (24 sows with
        litters, hot: 12,000 cfm), husbandry-23; rows from memory carry the caution
        `from-memory`.
    """
    found = _row(cls, weight_kg)
    if not found.has(season):
        message = (
            f"no {season} rate is published here for a {cls}; there is one for hot weather"
        )
        raise NotPublishedError(message)
    rate = Amount(quantity(found, season, "air flow"), "m3/h")
    each = rate
    working = []
    if found.text("weight") == "per kg":
        if weight_kg is None:
            message = f"air for a {cls} is published by weight; give its weight"
            raise NotPublishedError(message)
        each = Amount(rate.value * weight_kg, "m3/h")
        working.append(step("per-kg", rate=rate, weight=Amount(weight_kg, "kg"), each=each))
    else:
        working.append(step("each", cls=cls, each=each))
    need = Amount(each.value * count, "m3/h")
    working.append(step("head", count=count, each=each, need=need))
    cautions = (*found.text("cautions").split(), "barn-rate")
    old = ("cold-outdated",) if season == "cold" else ()
    return Figure(
        "airflow-need", need, tuple(working), found.sources, (*cautions, *old), subject
    )


def _row(cls: str, weight_kg: float | None) -> Row:
    of_class = [each for each in rows("airflow") if each.text("class") == cls]
    if not of_class:
        names = tuple(dict.fromkeys(each.text("class") for each in rows("airflow")))
        message = f'no barn air is published here for "{cls}"{did_you_mean(cls, names)}'
        raise NotPublishedError(message)
    for each in of_class:
        if _fits(each, weight_kg):
            return each
    low, high = (
        round(quantity(each, name, "weight"))
        for each, name in ((of_class[0], "from_weight"), (of_class[-2], "below_weight"))
    )
    message = f"barn air for a {cls} is published from {low} to {high} kg only"
    raise NotPublishedError(message)


def _fits(each: Row, weight_kg: float | None) -> bool:
    if each.text("weight") == "between":
        low, below = (
            quantity(each, name, "weight") for name in ("from_weight", "below_weight")
        )
        return weight_kg is not None and low <= weight_kg < below
    return weight_kg is None or each.text("weight") != "unknown"


def _need(pen: Pen, groups: Sequence[Group]) -> Figure | None:
    """Return the air for all animals of a stall [m3/h], of those for whom it is published."""
    parts = []
    for group in groups:
        called = group.animal.called
        try:
            parts.append(airflow_need(group.cls, group.count, group.weight_kg, subject=called))
        except NotPublishedError:
            continue
    return _sum("stall-airflow-need", pen.id, parts)


def _sum(name: str, subject: str, parts: Sequence[Figure]) -> Figure | None:
    if not parts:
        return None
    total = Amount(sum(part.amount.value for part in parts), "m3/h")
    lines = tuple(step("part", who=part.subject, air=part.amount) for part in parts)
    sources = merge_sources(*(part.sources for part in parts))
    cautions = tuple(dict.fromkeys(key for part in parts for key in part.cautions))
    return Figure(name, total, (*lines, step("sum", total=total)), sources, cautions, subject)


def _have(pen: Pen) -> Figure | None:
    recorded = [
        Figure("fan-air", Amount(fan.air_m3_h, "m3/h"), (), (), subject=fan.id)
        for fan in pen.fans
        if fan.air_m3_h is not None
    ]
    return _sum("stall-air", pen.id, recorded)


def _stall_air(farm: Farm, pen: Pen, groups: Sequence[Group], on: dt.date) -> StallAir:
    need, have = _need(pen, groups), _have(pen)
    dirty = None if have is None else dirty_fan(have.amount.value, pen.id)
    last = farm.about.last_fan_cleaning
    findings = (
        *_fan_findings(pen),
        *(found for fan in pen.fans for found in _cleaning(fan, last, on)),
        *_air_findings(pen, need, have, dirty),
    )
    return StallAir(pen, need, have, dirty, findings)


def _fan_findings(pen: Pen) -> list[Finding]:
    least = int(rule(RULES, "fans for a farrowing stall", "number").value)
    if pen.farrowing and len(pen.fans) < least:
        return [finding(AREA, "no-fan", pen.id, pen=pen.name)]
    unknown = ", ".join(fan.id for fan in pen.fans if fan.air_m3_h is None)
    return [finding(AREA, "air-unknown", pen.id, pen=pen.name, fans=unknown)] if unknown else []


def _cleaning(fan: Fan, last_on_farm: dt.date | None, on: dt.date) -> list[Finding]:
    """Return whether a fan is due for cleaning; the farm's last cleaning is for all fans."""
    dates = [date for date in (fan.cleaned, last_on_farm) if date is not None]
    if not dates:
        return [finding(AREA, "cleaning-unknown", fan.id, fan=fan.id)]
    most = int(rule(RULES, "days between cleanings", "number").value)
    days = (on - max(dates)).days
    if days <= most:
        return []
    return [finding(AREA, "not-cleaned", fan.id, fan=fan.id, days=days, most=most)]


def _air_findings(
    pen: Pen, need: Figure | None, have: Figure | None, dirty: Figure | None
) -> list[Finding]:
    if need is None or have is None or dirty is None:
        return []
    if not falls_short(dirty.amount, need.amount):
        return []
    if FROM_MEMORY in need.cautions:
        return [finding(AREA, "ask-engineer", pen.id, need, have, pen=pen.name)]
    key = "short" if falls_short(have.amount, need.amount) else "short-when-dirty"
    return [
        finding(
            AREA,
            key,
            pen.id,
            need,
            have,
            dirty,
            pen=pen.name,
            need=need.amount,
            have=have.amount,
            dirty=dirty.amount,
        )
    ]


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "airflow-need",
        (
            Argument(
                "class", "text",
                choices=tuple(dict.fromkeys(each.text("class") for each in rows("airflow"))),
            ),
            Argument("count", "whole"),
            Argument("weight", "weight", optional=True),
            Argument("season", "text", optional=True, choices=SEASONS, default="hot"),
        ),
        renamed(airflow_need, **{"class": "cls", "weight": "weight_kg"}),
    ),
    *cooling.ENTRIES,
)  # fmt: skip
