"""Which sheets a binder has, and their numbers, which are never given to another sheet."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from binder.data import CONTENT
from binder.pages import front, numbers, pens
from binder.pages.bands import heat_sheets
from binder.pages.context import in_order
from binder.pages.feed import feed_sheet
from binder.pages.herd import calendar_sheet
from binder.pages.housing import shade_sheet
from binder.pages.numbering import other_numbers, refuse_clashes
from binder.pages.people import contacts_sheet, work_sheet
from binder.pages.power import equipment_sheet
from binder.pages.readiness import readiness_sheet
from binder.pages.rounds import log_sheets
from binder.pages.stays import stay_sheet
from binder.pages.text.protocol_file import Protocol, load_folder, load_texts
from binder.pages.wallows import wallow_sheets
from binder.pages.water import water_sheets
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from binder.figures.figures import Figures
    from binder.figures.finding import Finding
    from binder.pages.context import Context
    from binder.pages.page import Book
    from binder.pages.sheet import Sheet

TABS = "AEHRPWMSFBQCKLN"
MAINTAINED = "content/protocols/en"


@dataclass(frozen=True, slots=True)
class Planned:
    """A computed sheet: its slug, its fixed number, and the function that makes it."""

    slug: str
    number: str
    make: Callable[[Context], Sheet | None]


def plan_of(figures: Figures, changed: tuple[Finding, ...]) -> tuple[Planned, ...]:
    """Return the computed sheets of this farm; a number is never given to another sheet."""
    farm = figures.farm
    has_wallow = any(pen.wallow for pen in farm.pens)
    has_bleach = any(product.kind != "other" for product in farm.equipment.products)
    has_due = any(group.dates for group in figures.herd.groups)
    private = farm.codes or any(contact.private for contact in farm.contacts)
    every: tuple[tuple[bool, str, str, Callable[[Context], Sheet | None]], ...] = (
        (True, "hand-over", "A4", log_sheets.hand_over),
        (
            True,
            readiness_sheet.SLUG,
            readiness_sheet.NUMBER,
            partial(readiness_sheet.sheet, more=changed),
        ),
        (True, "what-each-band-asks", heat_sheets.ASKS, heat_sheets.what_each_band_asks),
        (True, "typical-days", heat_sheets.TYPICAL, heat_sheets.typical_days),
        (True, "water-today", "W1", water_sheets.today),
        (bool(farm.equipment.hoses), "hoses", "W2", water_sheets.hoses),
        (has_wallow, "wallows", "M1", wallow_sheets.wallows),
        (has_bleach or has_wallow, "mixing-bleach", "M2", wallow_sheets.mixing_bleach),
        (True, "shade-and-air", "S1", shade_sheet.shade_and_air),
        (True, "feed-today", "F1", feed_sheet.today),
        (has_due, "calendar", "B1", calendar_sheet.calendar),
        (True, "equipment", "Q1", equipment_sheet.equipment),
        (True, "contacts", "C1", contacts_sheet.contacts),
        (True, "work-and-rest", "C7", work_sheet.work_and_rest),
        (bool(private), "keys-and-codes", "K1", front.keys_and_codes),
        (True, "numbers", "N1", numbers.introduction),
        (True, "open-points", "N3", numbers.open_points),
    )
    made = [(slug, number, make) for shown, slug, number, make in every if shown]
    return tuple(Planned(*one) for one in (*made, *stay_sheet.planned(figures)))


_FIXED = (
    ("cover", "A1"),
    ("start-here", "A2"),
    ("list-of-sheets", "A3"),
    ("round-log", "L1"),
    ("medicine-log", "L2"),
    ("loss-log", "L3"),
    ("hand-back", "L4"),
    ("sources", "N2"),
)


def choose(owner_texts: Mapping[str, str], shown_tags: frozenset[str]) -> tuple[Protocol, ...]:
    """Return the protocols of this farm: maintained ones that fit, the owner's own in place.

    Raises:
        ProblemsError: a mistake in any front matter, or an owner's sheet that takes the number
            of a maintained one under another name.
    """
    maintained = {
        one.slug: one for one in load_folder(CONTENT / "protocols" / "en", MAINTAINED)
    }
    own = {one.slug: one for one in load_texts(owner_texts, owner=True)}
    problems = other_numbers(own.values(), maintained)
    if problems:
        raise ProblemsError(problems)
    both = maintained | own
    return tuple(one for one in both.values() if one.owner_version or one.shown(shown_tags))


def outdated(owner_texts: Mapping[str, str]) -> tuple[Finding, ...]:
    """Return the owner's protocols that are older than the maintained ones they stand for.

    Raises:
        ProblemsError: a mistake in any front matter.
    """
    own = tuple(load_texts(owner_texts, owner=True))
    if not own:
        return ()
    return readiness_sheet.changed(own, load_folder(CONTENT / "protocols" / "en", MAINTAINED))


def numbers_of(
    figures: Figures, plan: Iterable[Planned], protocols: Iterable[Protocol], whole: Book | None
) -> Mapping[str, str]:
    """Return slug -> sheet id of everything this binder shows.

    Args:
        figures: of the farm.
        plan: its computed sheets.
        protocols: those that it has.
        whole: the binder of the whole farm where this is its public part, to keep its numbers.

    Raises:
        ProblemsError: two sheets of one number.
    """
    numbered = {page.slug: page.sheet for page in whole.pages} if whole else {}
    found = dict(_FIXED)
    found |= {one.slug: numbered.get(one.slug, one.number) for one in plan}
    found |= {heat_sheets.slug(name): heat_sheets.CHARTS[name] for name in figures.bands.charts}
    found |= numbers.planned(figures)
    found |= {
        pens.slug(pen.id): numbered.get(pens.slug(pen.id), f"P{place}")
        for place, pen in enumerate(in_order(figures.farm), 1)
    }
    chosen = tuple(protocols)
    refuse_clashes(chosen, found, TABS)
    found |= {one.slug: one.sheet for one in chosen}
    return dict(
        sorted(found.items(), key=lambda item: (TABS.index(item[1][0]), int(item[1][1:])))
    )
