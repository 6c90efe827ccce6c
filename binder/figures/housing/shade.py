"""Shade and shelter: what each pen needs, what it has, what is wrong with it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures.entry import Argument, Entry, renamed
from binder.figures.figure import Figure, NotPublishedError, Step, merge_sources, step
from binder.figures.finding import Finding, falls_short, finding
from binder.figures.housing import shelter
from binder.figures.published import row, rows
from binder.figures.rules import quantity, rule
from binder.science import growth
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm, Pen
    from binder.figures.herd.groups import Group, Herd
    from binder.figures.published import Row

AREA = "shade"
RULES = "shade_rules"
INDOORS = ("stall",)


@dataclass(frozen=True, slots=True)
class PenShade:
    """Shade and shelter of one pen with animals in it.

    Attributes:
        pen: as the owner wrote it.
        need: shade for all of them [m2]; None where none is published for them, or where the
            range of birds is not recorded.
        have: shade there is [m2]; in a stall its roof counts. None where nothing is recorded.
        shelter_need: floor for all of them to lie inside [m2]; None where none is published.
        shelter_have: floor of the shelter [m2]; None where not recorded.
        findings: what is missing or wrong, `shade-findings` in the words.
    """

    pen: Pen
    need: Figure | None
    have: Figure | None
    shelter_need: Figure | None
    shelter_have: Figure | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class FarmShade:
    """Shade and shelter of the farm on one date.

    Attributes:
        pens: by pen id; pens without animals are left out.
    """

    pens: Mapping[str, PenShade]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Return the findings of all pens, in their order."""
        return tuple(found for pen in self.pens.values() for found in pen.findings)


def for_farm(farm: Farm, herd: Herd) -> FarmShade:
    """Return shade and shelter of `farm` for the herd of one date."""
    return FarmShade(
        {
            pen.id: _pen_shade(pen, herd.in_pen(pen.id))
            for pen in farm.pens
            if herd.in_pen(pen.id)
        }
    )


def shade_need(
    cls: str,
    count: int,
    weight_kg: float | None = None,
    range_m2: float | None = None,
    litter: int = 0,
    subject: str = "",
) -> Figure:
    """Return the shade for so many head of a class [m2].

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        count: head.
        weight_kg: of one [kg]; growing pigs need the room to lie clear of others.
        range_m2: the range of birds [m2], whose shade is published as a share of it.
        litter: young at the side of each.
        subject: what on the farm it is about.

    Raises:
        NotPublishedError: nothing was read for the class, or the range of birds is missing.

    References:
        husbandry-1 (10 mature pigs: 200 sq ft), husbandry-15 (growing pigs), husbandry-11
        (birds on range); `shade.csv` row by row.
    """
    need = row("shade", **{"class": cls})
    if need.has("share"):
        return _share_of_range(need, range_m2, subject)
    if not need.has("each"):
        message = (
            f"no shade is published here for a {cls}; all of them must fit in it lying down"
        )
        raise NotPublishedError(message)
    each_m2, first = _each(need, weight_kg, litter)
    total = Amount(each_m2 * count, "m2")
    working = [first, step("head", count=count, each=Amount(each_m2, "m2"), need=total)]
    if need.has("floor"):
        least = Amount(quantity(need, "floor", "area") * count, "m2")
        working.append(step("floor", least=least))
    return Figure("shade-need", total, tuple(working), need.sources, subject=subject)


def _share_of_range(need: Row, range_m2: float | None, subject: str) -> Figure:
    cls = need.text("class")
    if range_m2 is None:
        message = f"shade for a {cls} is published as a share of its range; give the range"
        raise NotPublishedError(message)
    share = quantity(need, "share", "share")
    total = Amount(range_m2 * share / 100, "m2")
    working = (
        step(
            "range", cls=cls, share=Amount(share, "%"), range=Amount(range_m2, "m2"), need=total
        ),
    )
    return Figure("shade-need", total, working, need.sources, subject=subject)


def _each(need: Row, weight_kg: float | None, litter: int) -> tuple[float, Step]:
    """Return the shade of one head [m2] and the line that says why."""
    cls = need.text("class")
    if need.text("by") and weight_kg is not None and weight_kg <= growth.HEAVIEST_LYING_KG:
        lying_kg = max(weight_kg, growth.LIGHTEST_LYING_KG)
        each_m2 = growth.lying_area_m2(lying_kg)
        return each_m2, step(
            "lying", weight=Amount(weight_kg, "kg"), row=Amount(lying_kg, "kg"),
            each=Amount(each_m2, "m2"),
        )  # fmt: skip
    if need.text("by") and weight_kg is not None:
        # Heavier than the table of growing pigs: as any mature pig.
        each_m2 = quantity(row("shade", **{"class": "dry sow"}), "each", "area")
        return each_m2, step("each", cls=cls, each=Amount(each_m2, "m2"))
    if litter and need.has("with_young"):
        each_m2 = quantity(need, "with_young", "area")
        return each_m2, step("with-young", cls=cls, each=Amount(each_m2, "m2"))
    each_m2 = quantity(need, "each", "area")
    return each_m2, step("each", cls=cls, each=Amount(each_m2, "m2"))


def pen_need(pen: Pen, groups: Sequence[Group]) -> Figure | None:
    """Return the shade for all animals of a pen [m2], of those for whom it is published.

    A range of birds counts once, however many groups share it.
    """
    parts: list[Figure] = []
    ranged = False
    for group in groups:
        shared = row("shade", **{"class": group.cls}).has("share")
        if shared and ranged:
            continue
        ranged = ranged or shared
        called = group.animal.called
        try:
            parts.append(
                shade_need(
                    group.cls, group.count, group.weight_kg, pen.area_m2, group.litter, called
                )
            )
        except NotPublishedError:
            continue
    return sum_of_areas("pen-shade-need", pen.id, parts)


def sum_of_areas(name: str, subject: str, parts: Sequence[Figure]) -> Figure | None:
    """Return the sum of areas [m2] with each part named, None where there is none."""
    if not parts:
        return None
    total = Amount(sum(part.amount.value for part in parts), "m2")
    lines = tuple(step("part", who=part.subject, area=part.amount) for part in parts)
    sources = merge_sources(*(part.sources for part in parts))
    cautions = tuple(dict.fromkeys(key for part in parts for key in part.cautions))
    return Figure(name, total, (*lines, step("sum", total=total)), sources, cautions, subject)


def pen_have(pen: Pen) -> Figure | None:
    """Return the shade a pen has [m2]; None where nothing is recorded.

    In a stall the roof is shade; where shade is written as well, the larger of the two counts,
    since both may be the same roof.
    """
    lines = [
        step("place", kind=each.kind, area=Amount(each.area_m2, "m2")) for each in pen.shade
    ]
    total_m2 = sum(each.area_m2 for each in pen.shade)
    if pen.kind in INDOORS and pen.shelter is not None and pen.shelter.area_m2 > total_m2:
        total_m2 = pen.shelter.area_m2
        lines = [step("roof", area=Amount(total_m2, "m2"))]
    if not lines:
        return None
    total = Amount(total_m2, "m2")
    return Figure("shade-have", total, (*lines, step("sum", total=total)), (), subject=pen.id)


def _pen_shade(pen: Pen, groups: Sequence[Group]) -> PenShade:
    need, have = pen_need(pen, groups), pen_have(pen)
    floor_parts = shelter.parts(groups)
    floor = sum_of_areas("pen-shelter-need", pen.id, floor_parts)
    floor_have = shelter.have(pen)
    findings = (
        *_shade_findings(pen, groups, need, have),
        *shelter.findings(pen, groups, floor, floor_have),
    )
    return PenShade(pen, need, have, floor, floor_have, findings)


def _shade_findings(
    pen: Pen, groups: Sequence[Group], need: Figure | None, have: Figure | None
) -> list[Finding]:
    found = []
    birds = any(row("shade", **{"class": group.cls}).has("share") for group in groups)
    if birds and pen.area_m2 is None:
        found.append(finding(AREA, "no-range", pen.id, pen=pen.name))
    if have is None:
        found.append(finding(AREA, "none", pen.id, pen=pen.name))
        return found
    if need is not None and falls_short(have.amount, need.amount):
        found.append(
            finding(AREA, "short", pen.id, need, have, pen=pen.name, need=need.amount,
                    have=have.amount)
        )  # fmt: skip
    if pen.kind not in INDOORS:
        found += _placing(pen, groups, need, have)
    return found


def _placing(
    pen: Pen, groups: Sequence[Group], need: Figure | None, have: Figure
) -> list[Finding]:
    """Return what is wrong with where the shade stands."""
    times = rule(RULES, "single place is wide enough at times the need", "number").value
    enough = None if need is None else Amount(times * need.amount.value, need.amount.unit)
    wide = enough is not None and not falls_short(have.amount, enough)
    places = rule(RULES, "places of shade", "number").value
    if all(each.over_wallow for each in pen.shade):
        return [finding(AREA, "only-over-wallow", pen.id, pen=pen.name)]
    if len(pen.shade) < places and not wide and sum(group.count for group in groups) > 1:
        return [finding(AREA, "single-place", pen.id, pen=pen.name)]
    return []


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "shade-need",
        (
            Argument(
                "class", "text", choices=tuple(each.text("class") for each in rows("classes"))
            ),
            Argument("count", "whole"),
            Argument("weight", "weight", optional=True),
            Argument("range", "area", optional=True),
            Argument("litter", "whole", optional=True, default="0"),
        ),
        renamed(shade_need, **{"class": "cls", "weight": "weight_kg", "range": "range_m2"}),
    ),
    *shelter.ENTRIES,
)
