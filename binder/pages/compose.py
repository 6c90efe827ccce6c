"""Step 4, compose: figures and protocols into the pages of one book."""

from __future__ import annotations

import html
import re
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from binder.data import CONTENT
from binder.farm.model.public import amounts_differ
from binder.pages import (
    calendar,
    cards,
    day_sheet,
    equipment,
    facts,
    feed,
    finder,
    front,
    heat,
    helper,
    logs,
    names,
    numbers,
    pen_facts,
    pens,
    readiness,
    shade,
    stays,
    wallows,
    water,
    words,
)
from binder.pages.assemble import page_of_protocol, page_of_sheet
from binder.pages.context import Context, in_order
from binder.pages.numbering import other_numbers, refuse_clashes
from binder.pages.page import PRINT_ONLY, Book, Foot, Page, Tab
from binder.pages.pictures import pocket, ready
from binder.pages.protocol import Protocol, load_folder, load_texts
from binder.pages.tags import tags
from binder.problems import Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from pathlib import Path

    from binder.figures.farm_day import Day
    from binder.figures.figures import Figures
    from binder.figures.finding import Finding
    from binder.figures.stays import StayPlan
    from binder.pages.sheet import Sheet
    from binder.pages.words import Words

_PICTURE = re.compile(r'src="picture:([^"]+)"')
TABS = "AEHRPWMSFBQCKLN"
MAINTAINED = "content/protocols/en"


@dataclass(frozen=True, slots=True)
class Planned:
    """A computed sheet: its slug, its fixed number, and the function that makes it."""

    slug: str
    number: str
    make: Callable[[Context], Sheet | None]


def _plan(figures: Figures, changed: tuple[Finding, ...]) -> tuple[Planned, ...]:
    """Return the computed sheets of this farm; a number is never given to another sheet."""
    farm = figures.farm
    has_wallow = any(pen.wallow for pen in farm.pens)
    has_bleach = any(product.kind != "other" for product in farm.equipment.products)
    has_due = any(group.dates for group in figures.herd.groups)
    private = farm.codes or any(contact.private for contact in farm.contacts)
    every: tuple[tuple[bool, str, str, Callable[[Context], Sheet | None]], ...] = (
        (True, "hand-over", "A4", logs.hand_over),
        (True, readiness.SLUG, readiness.NUMBER, partial(readiness.sheet, more=changed)),
        (True, "what-each-band-asks", heat.ASKS, heat.what_each_band_asks),
        (True, "typical-days", heat.TYPICAL, heat.typical_days),
        (True, "water-today", "W1", water.today),
        (bool(farm.equipment.hoses), "hoses", "W2", water.hoses),
        (has_wallow, "wallows", "M1", wallows.wallows),
        (has_bleach or has_wallow, "mixing-bleach", "M2", wallows.mixing_bleach),
        (True, "shade-and-air", "S1", shade.shade_and_air),
        (True, "feed-today", "F1", feed.today),
        (has_due, "calendar", "B1", calendar.calendar),
        (True, "equipment", "Q1", equipment.equipment),
        (True, "contacts", "C1", front.contacts),
        (True, "work-and-rest", "C7", helper.work_and_rest),
        (bool(private), "keys-and-codes", "K1", front.keys_and_codes),
        (True, "numbers", "N1", numbers.introduction),
        (True, "open-points", "N3", numbers.open_points),
    )
    made = [(slug, number, make) for shown, slug, number, make in every if shown]
    return tuple(Planned(*one) for one in (*made, *stays.planned(figures)))


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


def compose(figures: Figures, owner_texts: Mapping[str, str], pictures: Path) -> Book:
    """Return the whole binder of a farm: what is printed, and what screens may show of it.

    Args:
        figures: the result of step 3.
        owner_texts: the farm's own protocols, text by file name.
        pictures: the farm's folder of pictures; only those that a page shows are read.

    Raises:
        ProblemsError: a protocol that names what is not there, or words that are missing.
    """
    whole = _book(figures, owner_texts, pictures)
    if figures.shown is None:
        return whole
    screens = _book(figures.shown, owner_texts, pictures, whole)
    partial = amounts_differ(figures.farm, figures.shown.farm)
    return replace(whole, screens=replace(screens, partial=partial))


def _book(
    figures: Figures,
    owner_texts: Mapping[str, str],
    pictures: Path,
    whole: Book | None = None,
) -> Book:
    """Return one book of these figures.

    `whole` is the binder of the whole farm, where `figures` are of its public part alone: pens
    keep its numbers, and an owner's protocol that names something private stays out.
    """
    farm = figures.farm
    said = words.load("en", farm.about.units)
    shown_tags = tags(farm, figures.herd)
    protocols = choose(owner_texts, shown_tags)
    plan = _plan(figures, outdated(owner_texts))
    context = Context(figures, said, _sheets(figures, plan, protocols, whole), shown_tags)
    farm_view = facts.farm_view(context)
    pen_views = pen_facts.pens(context)
    known = names.names(context, farm_view, pen_views)
    tab_names = {letter: said.text(f"tab.{letter}") for letter in TABS}
    made = [
        *(planned.make(context) for planned in plan),
        *heat.charts(context),
        *logs.logs(context),
        *numbers.workings(context),
    ]
    sheets = [sheet for sheet in made if sheet is not None]
    named = [
        *(one for sheet in sheets for one in sheet.sources),
        *(one for each in protocols for one in each.sources),
    ]
    sheets.append(numbers.sources(context, named))
    pages = [
        *(page_of_sheet(context, sheet) for sheet in sheets),
        *(pens.page(context, view) for view in pen_views),
        *_protocol_pages(context, protocols, known, lenient=whole is not None),
    ]
    pages += [*cards.gate_cards(context, pen_views), *cards.wall_charts(pages)]
    used_letters = {page.tab for page in pages} | {"A"}
    tabs = tuple(
        Tab(letter, tab_names[letter], order)
        for order, letter in enumerate(TABS)
        if letter in used_letters
    )
    pages += [
        front.cover(context, _on_screen(tabs, pages), farm_view),
        front.start_here(context, pen_views, farm_view, pens.today(context, pen_views)),
    ]
    shown = ready(pictures, _shown_pictures(pages))
    return Book(
        name=farm.about.name,
        date=figures.on.isoformat(),
        paper=farm.about.paper,
        language=said.language,
        tabs=tabs,
        pages=tuple(
            replace(page, editions=_editions(page)) for page in sorted(pages, key=_in_order)
        ),
        foot=_foot(context),
        workings=numbers.popups(context),
        finder=finder.table(context, pen_views),
        labels={
            **_labels(said),
            "site.made": context.day(figures.on),
            "site.emergency_number": context.w("contacts.emergency"),
        },
        pictures=shown,
        small_pictures=pocket(shown),
        site_address=farm.about.site_address or "",
    )


def _on_screen(tabs: Iterable[Tab], pages: Iterable[Page]) -> tuple[Tab, ...]:
    """Return the tabs that have more than printed sheets."""
    letters = {page.tab for page in pages if page.where != PRINT_ONLY} | {"A"}
    return tuple(tab for tab in tabs if tab.letter in letters)


def _shown_pictures(pages: Iterable[Page]) -> tuple[str, ...]:
    """Return the names of the pictures that pages show, each once."""
    names = (html.unescape(name) for page in pages for name in _PICTURE.findall(page.body))
    return tuple(dict.fromkeys(names))


def _labels(said: Words) -> dict[str, str]:
    """Return every word that output itself shows, under dotted keys: `print.changes.title`."""
    found: dict[str, str] = {}

    def walk(prefix: str, tree: Mapping[str, object]) -> None:
        for key, value in tree.items():
            if isinstance(value, dict):
                walk(f"{prefix}{key}.", value)
            else:
                found[f"{prefix}{key}"] = str(value)

    walk("", said.section("labels"))
    walk("print.", said.section("print"))
    walk("site.", said.section("site"))
    return found


def _editions(page: Page) -> frozenset[str]:
    """Return who gets a sheet: what it says itself, less what its tab keeps from some."""
    kept = {"K": {"helper", "vet"}, "N": {"sitter", "helper"}, "Q": {"vet"}, "R": {"vet"}}
    only_sitter = {"hand-over": {"helper", "vet"}, "hand-back": {"helper", "vet"}}
    return page.editions - kept.get(page.tab, set()) - only_sitter.get(page.slug, set())


def _in_order(page: Page) -> tuple[int, int]:
    return TABS.index(page.tab), int(page.sheet[1:])


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
    return readiness.changed(own, load_folder(CONTENT / "protocols" / "en", MAINTAINED))


def _sheets(
    figures: Figures, plan: Iterable[Planned], protocols: Iterable[Protocol], whole: Book | None
) -> Mapping[str, str]:
    """Return slug -> sheet id of everything this binder shows."""
    numbered = {page.slug: page.sheet for page in whole.pages} if whole else {}
    found = dict(_FIXED)
    found |= {one.slug: numbered.get(one.slug, one.number) for one in plan}
    found |= {heat.slug(name): heat.CHARTS[name] for name in figures.bands.charts}
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


def _protocol_pages(
    context: Context,
    protocols: Iterable[Protocol],
    known: Mapping[str, object],
    *,
    lenient: bool,
) -> list[Page]:
    """Return the pages of the protocols; the mistakes of all of them are told together.

    Where `lenient`, an owner's protocol with a mistake is left out instead.
    """
    pages: list[Page] = []
    problems: list[Problem] = []
    for one in protocols:
        try:
            pages.append(page_of_protocol(context, one, known))
        except ProblemsError as error:
            if not (lenient and one.owner_version):
                problems.extend(error.problems)
    if problems:
        raise ProblemsError(problems)
    return pages


def day_book(figures: Figures, day: Day, stay: StayPlan | None) -> Book:
    """Return the sheet of one day as a small book of its own.

    Args:
        figures: worked out for that very day.
        day: its hours.
        stay: whose visits are made on it, None for nobody's.

    Raises:
        ProblemsError: words that are missing.
    """
    said = words.load("en", figures.farm.about.units)
    shown_tags = tags(figures.farm, figures.herd)
    sheets = _sheets(figures, _plan(figures, ()), choose({}, shown_tags), None)
    own = {day_sheet.SLUG: day_sheet.NUMBER, day_sheet.BACK_SLUG: day_sheet.BACK_NUMBER}
    context = Context(figures, said, {**sheets, **own}, shown_tags)
    made = day_sheet.sheets(context, day, stay)
    letter = day_sheet.NUMBER[0]
    return Book(
        name=figures.farm.about.name,
        date=figures.on.isoformat(),
        paper=figures.farm.about.paper,
        language=said.language,
        tabs=(Tab(letter, said.text(f"tab.{letter}"), 0),),
        pages=tuple(page_of_sheet(context, one) for one in made),
        foot=_foot(context),
        labels=_labels(said),
    )


def _foot(context: Context) -> Foot:
    """Return the foot of every sheet: whom to call, and the 911 address."""
    calls: list[tuple[str, str]] = []
    for role in front.FIRST_ROLES:
        for contact in context.contacts(role)[:1]:
            calls.append((context.w(f"foot.{role}"), contact.phone))
    return Foot(
        trouble=context.w("foot.trouble"),
        address=str(context.or_missing(context.farm.about.place.address)),
        calls=tuple(calls),
    )
