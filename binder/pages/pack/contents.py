"""What stands in a pack, in the order in which it is used."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from binder.pages import front, slugs
from binder.pages.book.registry import FIRST_LOG, FIRST_STAY, SHEETS_A_STAY, Planned
from binder.pages.herd import who_sheet
from binder.pages.pack import (
    call_page,
    care_pages,
    days_page,
    numbers_page,
    pen_page,
)
from binder.pages.pack.alone import (
    BIRTHS,
    BREATHS,
    CALL,
    FEED,
    NUMBERS,
    PEOPLE,
    WALLOWS,
    WATER,
)
from binder.pages.people import work_sheet
from binder.pages.place import map_sheet
from binder.pages.rounds import log_sheets
from binder.pages.stays import log_page, looks_page, visit_page
from binder.pages.text.farm_names import in_order

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.figures import Figures
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.pack.told import Told
    from binder.pages.sheet import Filled, Sheet
    from binder.pages.whole import Whole


@dataclass(frozen=True, slots=True)
class Beside:
    """What pages of a pack are made from besides the context.

    Attributes:
        plan: of the stay.
        whole: farm and pens, ready to print.
        told: the instructions to take parts from.
        listed: slug and short name of the parts, in order of use.
    """

    plan: Plan
    whole: Whole
    told: Told
    listed: tuple[tuple[str, str], ...]


def before(figures: Figures, plan: Plan, place: int) -> tuple[Planned, ...]:
    """Return the sheets that stand before the emergencies.

    Args:
        figures: `of_stay`.
        plan: of that stay.
        place: where the stay stands in the owner's list, from 0; tells its numbers.
    """
    first = FIRST_STAY + place * SHEETS_A_STAY
    return tuple(row for row in _before(figures, plan, first) if row.when(figures))


def _before(figures: Figures, plan: Plan, first: int) -> Iterator[Planned]:
    yield Planned(CALL, "A20")
    yield Planned("map", "A6", map_sheet.sheet, when=map_sheet.has)
    yield Planned("who-is-who", "A7", who_sheet.sheet, when=who_sheet.has)
    yield Planned(slugs.stay(plan), f"R{first}", partial(days_page.page, plan=plan))
    for at, visit in enumerate(plan.visits, first + 1):
        make = partial(visit_page.page, plan=plan, visit=visit)
        yield Planned(slugs.visit(plan, visit), f"R{at}", make)
    if plan.has_looks:
        number = f"R{first + SHEETS_A_STAY - 1}"
        yield Planned(slugs.looks(plan), number)
    yield Planned(NUMBERS, "H20")
    for at, pen in enumerate(_round(figures), 1):
        yield Planned(slugs.pen(pen), f"P{at}")


def _round(figures: Figures) -> tuple[str, ...]:
    """Return the pens in the order in which the binder numbers them."""
    return tuple(pen.id for pen in in_order(figures.farm))


def after(figures: Figures, plan: Plan, place: int) -> tuple[Planned, ...]:
    """Return the sheets that stand behind the emergencies."""
    return tuple(_after(figures, plan, place))


def _after(figures: Figures, plan: Plan, place: int) -> Iterator[Planned]:
    yield Planned(FEED, "F20", partial(care_pages.feed, plan=plan))
    yield Planned(WATER, "W20")
    if any(pen.wallow for pen in figures.farm.pens):
        yield Planned(WALLOWS, "M20")
    if care_pages.has_births(figures):
        yield Planned(BIRTHS, "B20")
    yield Planned(PEOPLE, "C7", work_sheet.work_and_rest)
    make = partial(log_page.page, plan=plan)
    yield Planned(slugs.stay_log(plan), f"L{FIRST_LOG + place}", make)
    yield Planned("hand-back", "L4", log_sheets.hand_back)
    if figures.farm.codes or any(contact.private for contact in figures.farm.contacts):
        yield Planned("keys-and-codes", "K1", front.keys_and_codes)


def made(context: Context, planned: Planned, beside: Beside) -> Sheet | Filled:
    """Return a sheet of the pack."""
    plan, whole, told = beside.plan, beside.whole, beside.told
    if planned.make is not None:
        return planned.make(context)
    if planned.slug == CALL:
        return call_page.page(context, plan, beside.listed)
    if planned.slug == slugs.looks(plan):
        return looks_page.page(context, plan, told.parts(BREATHS))
    if planned.slug == NUMBERS:
        return numbers_page.page(context, plan, whole, told)
    if planned.slug == WATER:
        return care_pages.water(context, plan, whole, told)
    if planned.slug == WALLOWS:
        return care_pages.wallows(context, plan, told)
    if planned.slug == BIRTHS:
        return care_pages.births(context, plan, told)
    pens = {view.slug: view for view in whole.pens}
    return pen_page.page(context, plan, pens[planned.slug])
