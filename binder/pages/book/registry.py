"""Every sheet in one place: slug, number, tab, who gets it, when there is one, who makes it.

A number means one sheet, on paper for years: it is given once and never to another. To add a
sheet, write its maker in the area it belongs to and a row here.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from binder.farm.model.people import MOST_VISITS
from binder.pages import cards, front, numbers, pens, slugs
from binder.pages.bands import heat_sheets, joint_charts
from binder.pages.day import day_sheet
from binder.pages.feed import feed_sheet
from binder.pages.herd import calendar_sheet, who_sheet
from binder.pages.housing import shade_sheet
from binder.pages.page import EDITIONS, EVERYWHERE, PRINT, PRINT_ONLY, SCREENS, SITE
from binder.pages.people import contacts_sheet, work_sheet
from binder.pages.place import map_sheet
from binder.pages.power import equipment_sheet
from binder.pages.readiness import readiness_sheet
from binder.pages.rounds import log_sheets
from binder.pages.season import season_sheets
from binder.pages.stays import log_page, looks_page, stay_sheet, visit_page
from binder.pages.text.farm_names import in_order
from binder.pages.wallows import wallow_sheets
from binder.pages.water import water_sheets

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from binder.figures.day.farm_day import Day
    from binder.figures.figures import Figures
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.sheet import Filled, Sheet
    from binder.pages.whole import Whole

    Made = Sheet | Filled

ALL, OWNER = frozenset(EDITIONS), frozenset({"owner"})
# The tabs in their order, and who gets one at all; a row may keep its sheet from more.
TABS: Mapping[str, frozenset[str]] = {
    "A": ALL,
    "E": ALL,
    "H": ALL,
    "R": ALL - {"vet"},
    "P": ALL,
    "W": ALL,
    "M": ALL,
    "S": ALL,
    "F": ALL,
    "B": ALL,
    "Q": ALL - {"vet"},
    "C": ALL,
    "K": ALL - {"helper", "vet"},
    "L": ALL,
    "N": ALL - {"sitter", "helper"},
}


@dataclass(frozen=True, slots=True)
class Planned:
    """A sheet that a binder may have.

    Attributes:
        slug: what it is called, for good: the file's name on the site.
        number: what it is called on paper, for good; its letter is the tab.
        make: makes it from what the farm is.
        survey: makes it from that and from what the other sheets hold.
        when: whether a farm has it.
        where: in which outputs it stands.
        readers: who gets it, of those who get its tab.
        reader: the sitter for whose stay it is, by name; empty for all of `readers`.
        copy: whether it shows once more what stands elsewhere, to hang outside the binder or
            several on one sheet of paper, under a number given already: nothing leads to it.
        dated: whether it says another thing on another day, and so says for which it holds.

    A row with neither maker is made by output, which alone knows what it lists.
    """

    slug: str
    number: str
    make: Callable[[Context], Made] | None = None
    survey: Callable[[Context, Whole], Made] | None = None
    when: Callable[[Figures], bool] = lambda _: True
    where: frozenset[str] = EVERYWHERE
    readers: frozenset[str] = ALL
    reader: str = ""
    copy: bool = False
    dated: bool = False

    @property
    def tab(self) -> str:
        """Return the letter of its tab."""
        return self.number[0]

    @property
    def editions(self) -> frozenset[str]:
        """Return who gets it."""
        return TABS[self.tab] & self.readers


def _has_wallow(figures: Figures) -> bool:
    return any(pen.wallow for pen in figures.farm.pens)


def _mixes(figures: Figures) -> bool:
    products = figures.farm.equipment.products
    return _has_wallow(figures) or any(product.kind != "other" for product in products)


def _has_dates(figures: Figures) -> bool:
    return any(group.dates for group in figures.herd.groups)


def _has_secrets(figures: Figures) -> bool:
    farm = figures.farm
    return bool(farm.codes) or any(contact.private for contact in farm.contacts)


_SHEETS = (
    Planned("cover", "A1", survey=front.cover),
    Planned("start-here", "A2", survey=front.start_here),
    Planned("list-of-sheets", "A3"),
    Planned("hand-over", "A4", log_sheets.hand_over, readers=frozenset({"sitter", "owner"})),
    Planned("readiness", "A5", survey=readiness_sheet.sheet,
            where=frozenset({SITE, PRINT}), readers=frozenset({"owner"})),
    Planned("who-is-who", "A7", who_sheet.sheet, when=who_sheet.has, dated=True),
    Planned("what-happened", "A8", front.happened),
    Planned("map", "A6", map_sheet.sheet, when=map_sheet.has),
    Planned("what-each-band-asks", "H12", heat_sheets.what_each_band_asks),
    Planned("typical-days", "H13", heat_sheets.typical_days),
    Planned("season", "H30", season_sheets.calendar,
            when=season_sheets.has_calendar, readers=OWNER, dated=True),
    Planned("season-by-month", "H31", season_sheets.by_month, when=season_sheets.has,
            readers=OWNER, dated=True),
    Planned("season-mends", "H32", season_sheets.mends, when=season_sheets.has_mends,
            readers=OWNER, dated=True),
    Planned("water-today", "W1", water_sheets.today, dated=True),
    Planned("hoses", "W2", water_sheets.hoses,
            when=lambda figures: bool(figures.farm.equipment.hoses)),
    Planned("wallows", "M1", wallow_sheets.wallows, when=_has_wallow, dated=True),
    Planned("mixing-bleach", "M2", wallow_sheets.mixing_bleach, when=_mixes),
    Planned("shade-and-air", "S1", shade_sheet.shade_and_air, dated=True),
    Planned("feed-today", "F1", feed_sheet.today, dated=True),
    Planned("calendar", "B1", calendar_sheet.calendar, when=_has_dates, dated=True),
    Planned("equipment", "Q1", equipment_sheet.equipment),
    Planned("contacts", "C1", contacts_sheet.contacts),
    Planned("work-and-rest", "C7", work_sheet.work_and_rest),
    Planned("keys-and-codes", "K1", front.keys_and_codes, when=_has_secrets, where=PRINT_ONLY),
    Planned("round-log", "L1", log_sheets.round_log),
    Planned("medicine-log", "L2", log_sheets.medicine_log),
    Planned("loss-log", "L3", log_sheets.loss_log),
    Planned("hand-back", "L4", log_sheets.hand_back, readers=frozenset({"sitter", "owner"})),
    Planned("numbers", "N1", numbers.introduction),
    Planned("sources", "N2", survey=numbers.sources),
    Planned("open-points", "N3", numbers.open_points),
)  # fmt: skip

# A chart keeps its number whatever animals come and go.
CHARTS: Mapping[str, str] = {
    "pigs": "H2",
    "sows and boars": "H3",
    "sows with young or due": "H4",
    "poultry": "H5",
    "goats and sheep": "H6",
    "cattle": "H7",
    "horses": "H8",
    "rabbits": "H9",
    "dogs": "H10",
    "people": "H11",
}
FIRST_CHART = "H2"
WORKINGS: Mapping[str, str] = {
    "herd": "N4",
    "heat": "N5",
    "water": "N6",
    "hoses": "N7",
    "wallows": "N8",
    "shade": "N9",
    "feed": "N10",
    "power": "N11",
    "rounds": "N12",
    "stays": "N13",
}
# A stay keeps its numbers: plan and cards R20, R40..., log L10, L11..., in the owner's order.
# A stay has room for its plan, its cards and the card of looks, and reaches into no other.
FIRST_STAY, SHEETS_A_STAY, FIRST_LOG = 20, 1 + MOST_VISITS + 1, 10
_OF_A_STAY = ALL - {"vet"}


def _charts(figures: Figures) -> Iterator[Planned]:
    """Yield the air charts of the farm: one sheet on paper, for screens and walls each alone.

    The sheet of paper has the numbers of all of them, and stands at the first.
    """
    yield Planned(slugs.CHARTS, FIRST_CHART, joint_charts.sheet, where=PRINT_ONLY, copy=True)
    for name in figures.bands.charts:
        make = partial(heat_sheets.air_chart, name=name)
        yield Planned(slugs.chart(name), CHARTS[name], make, where=SCREENS)
        wall = partial(_wall, name=name)
        yield Planned(slugs.wall(name), CHARTS[name], wall, where=PRINT_ONLY, copy=True)


def _wall(context: Context, name: str) -> Sheet:
    return replace(heat_sheets.air_chart(context, name, hung=True), kind="wall")


def _pens(figures: Figures) -> Iterator[Planned]:
    """Yield the sheet of each pen, in the order of pens.yaml, and a card for its gate."""
    for place, pen in enumerate(in_order(figures.farm), 1):
        number = f"P{place}"
        yield Planned(
            slugs.pen(pen.id), number, survey=partial(_pen, pen_id=pen.id), dated=True
        )
        if figures.herd.in_pen(pen.id):
            card = partial(_card, pen_id=pen.id)
            yield Planned(
                slugs.card(pen.id), number, survey=card, where=PRINT_ONLY, copy=True, dated=True
            )


def _pen(context: Context, whole: Whole, pen_id: str) -> Filled:
    return pens.sheet(context, whole.pen(pen_id))


def _card(context: Context, whole: Whole, pen_id: str) -> Filled:
    return cards.gate_card(context, whole.pen(pen_id))


def _stays(figures: Figures) -> Iterator[Planned]:
    """Yield the plan, the cards and the log of each stay that is not over."""
    for place, stay in enumerate(figures.farm.stays):
        plan = figures.stays.get(stay.id)
        if plan is None:
            continue
        who = stay.sitter or ""
        first = FIRST_STAY + place * SHEETS_A_STAY
        make: Callable[[Context], Sheet] = partial(stay_sheet.stay_plan, plan=plan)
        yield Planned(slugs.stay(plan), f"R{first}", make, readers=_OF_A_STAY, reader=who)
        for at, visit in enumerate(plan.visits, first + 1):
            make = partial(visit_page.page, plan=plan, visit=visit, amounts=True)
            yield Planned(
                slugs.visit(plan, visit), f"R{at}", make, readers=_OF_A_STAY, reader=who
            )
        if plan.has_looks:
            make = partial(looks_page.page, plan=plan)
            number = f"R{first + SHEETS_A_STAY - 1}"
            yield Planned(slugs.looks(plan), number, make, readers=_OF_A_STAY, reader=who)
        if plan.visits:
            make = partial(log_page.page, plan=plan)
            number = f"L{FIRST_LOG + place}"
            yield Planned(slugs.stay_log(plan), number, make, readers=_OF_A_STAY, reader=who)


def _workings(figures: Figures) -> Iterator[Planned]:
    """Yield a sheet for each area that has figures."""
    for area, found in numbers.areas(figures).items():
        make = partial(numbers.workings, area=area, found=found)
        yield Planned(slugs.workings(area), WORKINGS[area], make)


def sheets_of(figures: Figures) -> tuple[Planned, ...]:
    """Return every sheet that the program makes for a farm."""
    fixed = (row for row in _SHEETS if row.when(figures))
    families = (_charts, _pens, _stays, _workings)
    return (*fixed, *(row for family in families for row in family(figures)))


def sheets_of_day(day: Day, stay: Plan | None) -> tuple[Planned, ...]:
    """Return the sheets of one day, which are printed by themselves.

    Args:
        day: its hours.
        stay: whose visits are made on it, None for nobody's.
    """
    return (
        Planned("day-sheet", "R10", partial(day_sheet.front, day=day, stay=stay)),
        Planned("day-amounts", "R11", partial(day_sheet.back, day=day)),
    )
