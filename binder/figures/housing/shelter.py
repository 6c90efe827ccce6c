"""Shelter: the floor for all to lie inside, open ends, bedding in heat."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.entry import Argument, Entry, renamed
from binder.figures.figure import Figure, Step, step
from binder.figures.finding import Finding, falls_short, finding
from binder.figures.published import row_if_told, rows
from binder.figures.rules import quantity, rule
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.farm.model import Pen, Shelter
    from binder.figures.herd.groups import Group
    from binder.figures.published import Row

AREA = "shade"
RULES = "shade_rules"
INDOORS = ("stall",)
# They build a nest before and lie in it after farrowing: straw stays.
NESTING = ("late-gestation sow", "lactating sow", "suckling piglet")
HUTTED = "pig"  # what was read of open ends is about pig huts
ROOFS = ("roof", "hut")  # shade that is a shelter too
LITTERED = ("coop",)  # litter on a hen house floor is no bedding to take out


def shelter_need(
    cls: str,
    count: int,
    weight_kg: float | None = None,
    together: int | None = None,
    subject: str = "",
) -> Figure:
    """Return the shelter floor for so many head of a class [m2], all of them inside.

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        count: head.
        weight_kg: of one [kg]; growing pigs are published by weight.
        together: sows and gilts that share the shelter; None takes `count`.
        subject: what on the farm it is about.

    Raises:
        NotPublishedError: nothing was read for the class.

    References:
        husbandry-16 (growing pigs, gilt, sow, boar), husbandry-15 (sow and litter),
        husbandry-13 (hens).
    """
    need = row_if_told("shelter", **{"class": cls})
    each_m2, first = _each(need, weight_kg)
    working = [first]
    small = rule(RULES, "small group below", "number").value
    if need.has("small_group") and (count if together is None else together) < small:
        more = quantity(need, "small_group", "share")
        each_m2 *= 1 + more / 100
        working.append(
            step("small-group", more=Amount(more, "%"), below=Amount(small, "count"),
                 each=Amount(each_m2, "m2"))
        )  # fmt: skip
    total = Amount(each_m2 * count, "m2")
    working.append(step("head", count=count, each=Amount(each_m2, "m2"), need=total))
    return Figure(
        "shelter-need", total, tuple(working), need.sources, ("indoor-minimum",), subject
    )


def _each(need: Row, weight_kg: float | None) -> tuple[float, Step]:
    cls = need.text("class")
    if not need.text("by") or weight_kg is None:
        each_m2 = quantity(need, "each", "area")
        return each_m2, step("each", cls=cls, each=Amount(each_m2, "m2"))
    found = next(
        each
        for each in rows("shelter_by_weight")
        if not each.has("up_to") or weight_kg <= quantity(each, "up_to", "weight")
    )
    each_m2 = quantity(found, "area", "area")
    return each_m2, step("weight", weight=Amount(weight_kg, "kg"), each=Amount(each_m2, "m2"))


def parts(groups: Sequence[Group]) -> list[Figure]:
    """Return the floor of each group of a pen, of those for whom it is published [m2]."""
    table = {each.text("class"): each for each in rows("shelter")}
    known = [group for group in groups if group.cls in table]
    together = sum(group.count for group in known if table[group.cls].has("small_group"))
    return [
        shelter_need(group.cls, group.count, group.weight_kg, together, group.animal.called)
        for group in known
    ]


def have(pen: Pen) -> Figure | None:
    """Return the floor of a pen's shelter [m2]; None where not recorded."""
    if pen.shelter is None:
        return None
    area = Amount(pen.shelter.area_m2, "m2")
    return Figure("shelter-have", area, (step("recorded", area=area),), (), subject=pen.id)


def findings(
    pen: Pen, groups: Sequence[Group], need: Figure | None, floor: Figure | None
) -> list[Finding]:
    """Return what is missing or wrong with the shelter of a pen."""
    if pen.shelter is None or floor is None:
        roofed = any(each.kind in ROOFS for each in pen.shade)
        return [] if roofed else [finding(AREA, "no-shelter", pen.id, pen=pen.name)]
    found = []
    if need is not None and falls_short(floor.amount, need.amount):
        found.append(
            finding(AREA, "shelter-short", pen.id, need, floor, pen=pen.name,
                    need=need.amount, have=floor.amount)
        )  # fmt: skip
    hutted = any(group.animal.species == HUTTED for group in groups)
    if hutted and pen.kind not in INDOORS:
        found += _open_ends(pen, pen.shelter)
    nesting = any(group.cls in NESTING for group in groups)
    most = rule(RULES, "bedding in heat at most", "length").value
    deep = pen.shelter.bedding_m is not None and pen.shelter.bedding_m > most
    if deep and not nesting and pen.kind not in LITTERED:
        found.append(finding(AREA, "bedding", pen.id, pen=pen.name))
    return found


def _open_ends(pen: Pen, shelter: Shelter) -> list[Finding]:
    if shelter.open_ends is None:
        return [finding(AREA, "open-ends-unknown", pen.id, pen=pen.name)]
    least = int(rule(RULES, "open ends", "number").value)
    if shelter.open_ends >= least:
        return []
    return [finding(AREA, "closed", pen.id, pen=pen.name, ends=shelter.open_ends, least=least)]


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "shelter-need",
        (
            Argument(
                "class", "text", choices=tuple(each.text("class") for each in rows("shelter"))
            ),
            Argument("count", "whole"),
            Argument("weight", "weight", optional=True),
        ),
        renamed(shelter_need, **{"class": "cls", "weight": "weight_kg"}),
    ),
)
