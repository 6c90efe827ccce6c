"""Animals that should not share a pen, or a feed, told from the herd (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.finding import Finding, finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.herd.groups import Group
    from binder.figures.results import Results

AREA = "ready"
TABLE = "company"
WETHER = "wether"


def of_company(figures: Results) -> Iterator[Finding]:
    """Yield the pens where one animal is a danger to another, or eats what harms it.

    References:
        company.csv (our choice, common practice).
    """
    for pen in figures.farm.pens:
        inside = figures.herd.in_pen(pen.id)
        yield from _apart(pen.id, inside)
        yield from _wethers(pen.id, inside)


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
