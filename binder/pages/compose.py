"""Step 4, compose: figures and protocols into the pages of one book."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from binder.farm.model.public import amounts_differ
from binder.pages import cards, facts, front, numbers, pen_facts, pens
from binder.pages.art.pictures import pocket, ready
from binder.pages.assemble import page_of_protocol, page_of_sheet, shown_pictures
from binder.pages.bands import finder_table, heat_sheets
from binder.pages.context import Context
from binder.pages.day import day_sheet
from binder.pages.page import PRINT_ONLY, Book, Foot, Page, Tab
from binder.pages.plan import TABS, choose, numbers_of, outdated, plan_of
from binder.pages.rounds import log_sheets
from binder.pages.tags import tags
from binder.pages.text import names, words
from binder.pages.text.protocol_file import Protocol
from binder.problems import Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

    from binder.figures.day.farm_day import Day
    from binder.figures.figures import Figures
    from binder.figures.stays.stay_plan import StayPlan
    from binder.pages.text.words import Words


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
    plan = plan_of(figures, outdated(owner_texts))
    context = Context(figures, said, numbers_of(figures, plan, protocols, whole), shown_tags)
    farm_view = facts.farm_view(context)
    pen_views = pen_facts.pens(context)
    known = names.names(context, farm_view, pen_views)
    tab_names = {letter: said.text(f"tab.{letter}") for letter in TABS}
    made = [
        *(planned.make(context) for planned in plan),
        *heat_sheets.charts(context),
        *log_sheets.logs(context),
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
    shown = ready(pictures, shown_pictures("".join(page.body for page in pages)))
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
        finder=finder_table.table(context, pen_views),
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
    """Return the sheet of one day as a small book: what is printed, and what screens may show.

    Args:
        figures: worked out for that very day.
        day: its hours.
        stay: whose visits are made on it, None for nobody's.

    Returns:
        The book; its `screens` have no page where the place itself is private, since the day by
        the hour tells where the sun rises.

    Raises:
        ProblemsError: words that are missing.
    """
    numbered = _day_numbers(figures)
    whole = _day_book(figures, day, stay, numbered)
    shown = figures.shown
    if shown is None:
        return whole
    seen_stay = None if stay is None else shown.stays.get(stay.stay.id)
    screens = _day_book(shown, shown.day.day, seen_stay, numbered)
    partial = amounts_differ(figures.farm, shown.farm)
    return replace(whole, screens=replace(screens, partial=partial))


def _day_book(
    figures: Figures, day: Day | None, stay: StayPlan | None, numbered: Mapping[str, str]
) -> Book:
    """Return the sheets of a day; none without its hours.

    `numbered` are the sheets of the whole farm, whose ids the sheets of its public part keep.
    """
    said = words.load("en", figures.farm.about.units)
    ids = {slug: numbered.get(slug, sheet) for slug, sheet in _day_numbers(figures).items()}
    context = Context(figures, said, ids, tags(figures.farm, figures.herd))
    made = () if day is None else day_sheet.sheets(context, day, stay)
    letter = day_sheet.NUMBER[0]
    return Book(
        name=figures.farm.about.name,
        date=figures.on.isoformat(),
        paper=figures.farm.about.paper,
        language=said.language,
        tabs=(Tab(letter, said.text(f"tab.{letter}"), 0),),
        pages=tuple(page_of_sheet(context, sheet) for sheet in made),
        foot=_foot(context),
        labels=_labels(said),
    )


def _day_numbers(figures: Figures) -> Mapping[str, str]:
    """Return slug -> sheet id of what a day's sheets may name, themselves included."""
    protocols = choose({}, tags(figures.farm, figures.herd))
    named = numbers_of(figures, plan_of(figures, ()), protocols, None)
    own = {day_sheet.SLUG: day_sheet.NUMBER, day_sheet.BACK_SLUG: day_sheet.BACK_NUMBER}
    return {**named, **own}


def _foot(context: Context) -> Foot:
    """Return the foot of every sheet: whom to call, and the 911 address."""
    calls: list[tuple[str, str]] = []
    for role in front.FIRST_ROLES:
        for contact in context.contacts(role)[:1]:
            ext = f" {context.w('contacts.ext', ext=contact.ext)}" if contact.ext else ""
            calls.append((context.w(f"foot.{role}"), f"{contact.phone}{ext}"))
    return Foot(
        trouble=context.w("foot.trouble"),
        address=str(context.or_missing(context.farm.about.place.address)),
        calls=tuple(calls),
    )
