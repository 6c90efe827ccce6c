"""Animals that should not share a pen, or a feed, told from the herd (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.finding import Finding, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.model import Farm
    from binder.figures.herd.groups import Group, Herd
    from binder.figures.results import Results

AREA = "ready"
TABLE = "company"
PIG, WETHER = "pig", "wether"


def of_company(figures: Results) -> Iterator[Finding]:
    """Yield the pens where one animal is a danger to another, or eats what harms it.

    References:
        company.csv (our choice, common practice).
    """
    yield from _in_herd(figures.farm, figures.herd, ())


def of_stays(figures: Results) -> Iterator[Finding]:
    """Yield the same for the last day of each stay, and for births in it, but told only once.

    References:
        company.csv (our choice, common practice).
    """
    told = {_told(each) for each in of_company(figures)}
    for plan in figures.stays.values():
        births = tuple(birth.name for birth in plan.births)
        for each in _in_herd(figures.farm, plan.herd, births):
            if _told(each) not in told:
                told.add(_told(each))
                yield each


def _told(found: Finding) -> tuple[object, ...]:
    return found.key, found.subject, tuple(found.values)


def _in_herd(farm: Farm, herd: Herd, births: tuple[str, ...]) -> Iterator[Finding]:
    for pen in farm.pens:
        inside = herd.in_pen(pen.id)
        yield from _apart(pen.id, inside)
        yield from _wethers(pen.id, inside)
        if pen.wallow is not None:
            yield from _litters(pen.id, inside, births)


def _litters(pen: str, inside: tuple[Group, ...], births: tuple[str, ...]) -> Iterator[Finding]:
    """Yield mothers whose young are, or are born, where there is a wallow."""
    mothers = [
        one.animal.called
        for one in inside
        if one.animal.species == PIG and (one.litter or one.animal.called in births)
    ]
    if mothers:
        yield finding(AREA, "litter-wallow", pen, pens=pen, who=", ".join(mothers))


def _apart(pen: str, inside: tuple[Group, ...]) -> Iterator[Finding]:
    for row in published.rows(TABLE):
        who, others = (
            [one.animal.called for one in inside if one.cls in row.text(side).split(";")]
            for side in ("who", "with")
        )
        if who and others:
            yield finding(
                AREA, row.text("key"), pen, pens=pen, who=", ".join(who),
                others=", ".join(others),
            )  # fmt: skip


def _wethers(pen: str, inside: tuple[Group, ...]) -> Iterator[Finding]:
    """Yield wethers that get pellets, or live with one that does: they get at them too."""
    wethers = [one for one in inside if one.animal.sex == WETHER]
    species = {one.animal.species for one in wethers}
    fed = [
        one.animal.called
        for one in inside
        if one.animal.species in species and one.animal.ration_kg_day
    ]
    if wethers and fed:
        who = ", ".join(one.animal.called for one in wethers)
        yield finding(AREA, "wether-pellets", pen, pens=pen, who=who, others=", ".join(fed))
