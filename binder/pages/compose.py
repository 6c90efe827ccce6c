"""Step 4, compose: figures and protocols into the pages of one book."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from binder.farm.model.public import amounts_differ
from binder.pages import facts, front, numbers, pen_facts
from binder.pages.art.pictures import pocket, ready
from binder.pages.bands import finder_table
from binder.pages.book import names
from binder.pages.book.assemble import dead_links, page_of, page_of_protocol, shown_pictures
from binder.pages.book.our_choice import apart
from binder.pages.book.plan import NONE, outdated, place, plan_of
from binder.pages.book.registry import TABS, sheets_of_day
from binder.pages.context import Context
from binder.pages.page import PRINT_ONLY, Book, Foot, Page, Tab
from binder.pages.sheet import Sheet
from binder.pages.stays import agenda
from binder.pages.tags import tags
from binder.pages.text import words
from binder.pages.text.protocol_file import Protocol
from binder.pages.whole import Whole
from binder.problems import Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

    from binder.figures.day.farm_day import Day
    from binder.figures.figures import Figures
    from binder.figures.stays.plan import Plan
    from binder.pages.book.plan import Contents
    from binder.pages.book.registry import Planned


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
    said = words.of(farm)
    shown_tags = tags(farm, figures.herd)
    numbered = {page.slug: page.sheet for page in whole.pages} if whole else NONE
    plan = plan_of(figures, owner_texts, shown_tags, numbered)
    context = Context(figures, said, plan.numbers, shown_tags)
    seen = Whole(facts.farm_view(context), pen_facts.pens(context), outdated(owner_texts))
    pages = apart(context, _pages(context, plan, seen, lenient=whole is not None))
    workings = numbers.popups(context)
    if whole is None:
        _refuse_dead_links(plan, pages, workings)
    shown = ready(pictures, shown_pictures("".join(page.body for page in pages)))
    return Book(
        name=farm.about.name,
        date=figures.on.isoformat(),
        paper=farm.about.paper,
        language=said.language,
        tabs=tabs_of(context, pages),
        pages=tuple(sorted(pages, key=lambda page: place(page.sheet))),
        foot=foot_of(context),
        workings=workings,
        finder=finder_table.table(context, seen.pens),
        finder_claims=finder_table.claims(context, seen.pens),
        agenda=agenda.agenda(context),
        ways_to_ask=said.section("search"),
        labels={
            **labels_of(context),
            "site.begins_before_h": str(agenda.begins_before_h()),
            "site.binder_old_days": str(agenda.binder_old_days()),
            "site.made": context.day(figures.on),
            "site.am": "" if said.clock_24 else context.w("date.am"),
            "site.pm": "" if said.clock_24 else context.w("date.pm"),
        },
        pictures=shown,
        small_pictures=pocket(shown),
        site_address=farm.about.site_address or "",
    )


def _pages(context: Context, plan: Contents, seen: Whole, *, lenient: bool) -> list[Page]:
    """Return every page; what looks over the whole binder is made when the rest is."""
    made = [(one, one.make(context)) for one in plan.made if one.make is not None]
    known = names.names(context, seen.farm, seen.pens)
    protocols = _protocol_pages(context, plan.protocols, known, lenient=lenient)
    pages = [*(page_of(context, *pair) for pair in made), *protocols]
    rest = [one for one in plan.made if one.survey is not None]
    whole = replace(
        seen,
        tabs=tabs_of(context, (*(page for page in pages if page.where != PRINT_ONLY), *rest)),
        sources=(
            *(
                source
                for _, sheet in made
                if isinstance(sheet, Sheet)
                for source in sheet.sources
            ),
            *(source for one in plan.protocols for source in one.sources),
        ),
    )
    surveys = [(one, one.survey(context, whole)) for one in rest if one.survey is not None]
    return [*pages, *(page_of(context, *pair) for pair in surveys)]


def tabs_of(context: Context, pages: Iterable[Page | Planned]) -> tuple[Tab, ...]:
    """Return the tabs that these sheets need."""
    letters = {page.tab for page in pages}
    return tuple(
        Tab(letter, context.w(f"tab.{letter}"), order)
        for order, letter in enumerate(TABS)
        if letter in letters
    )


def labels_of(context: Context) -> dict[str, str]:
    """Return every word that output itself shows, under dotted keys: `print.changes.title`."""
    found: dict[str, str] = {}

    def walk(prefix: str, tree: Mapping[str, object]) -> None:
        for key, value in tree.items():
            if isinstance(value, dict):
                walk(f"{prefix}{key}.", value)
            else:
                found[f"{prefix}{key}"] = str(value)

    said = context.words
    walk("", said.section("labels"))
    walk("print.", said.section("print"))
    walk("site.", said.section("site"))
    found["site.emergency_number"] = context.emergency
    found["print.aged.months"] = "|".join(context.words.section("date")["months"])
    found["print.aged.noon"] = f"{context.w('date.am')}|{context.w('date.pm')}"
    found["print.place"] = context.emergency_said("address")
    found["site.place"] = context.emergency_said("place")
    return found


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


def _refuse_dead_links(plan: Contents, pages: Iterable[Page], workings: Iterable[str]) -> None:
    """Refuse links of the owner's protocols that lead nowhere, in the binder of the whole farm.

    Raises:
        ProblemsError: each with its line.
    """
    bodies = {page.slug: page.body for page in pages}
    problems = [
        problem
        for one in plan.protocols
        if one.owner_version and one.slug in bodies
        for problem in dead_links(one, bodies[one.slug], plan.numbers, workings)
    ]
    if problems:
        raise ProblemsError(problems)


def day_book(figures: Figures, day: Day, stay: Plan | None) -> Book:
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
    whole = _day_book(figures, day, stay)
    shown = figures.shown
    if shown is None:
        return whole
    numbered = plan_of(figures, {}, tags(figures.farm, figures.herd)).numbers
    seen_stay = None if stay is None else shown.stays.get(stay.stay.id)
    screens = _day_book(shown, shown.day.day, seen_stay, numbered)
    partial = amounts_differ(figures.farm, shown.farm)
    return replace(whole, screens=replace(screens, partial=partial))


def _day_book(
    figures: Figures,
    day: Day | None,
    stay: Plan | None,
    numbered: Mapping[str, str] = NONE,
) -> Book:
    """Return the sheets of a day; none without its hours.

    `numbered` are the sheets of the whole farm, whose ids the sheets of its public part keep.
    """
    said = words.of(figures.farm)
    shown_tags = tags(figures.farm, figures.herd)
    planned = () if day is None else sheets_of_day(day, stay)
    numbers_of = dict(plan_of(figures, {}, shown_tags, numbered).numbers)
    numbers_of |= {one.slug: one.number for one in planned}
    context = Context(figures, said, numbers_of, shown_tags)
    pages = tuple(
        page_of(context, one, one.make(context)) for one in planned if one.make is not None
    )
    return Book(
        name=figures.farm.about.name,
        date=figures.on.isoformat(),
        paper=figures.farm.about.paper,
        language=said.language,
        tabs=tabs_of(context, pages),
        pages=pages,
        foot=foot_of(context),
        labels=labels_of(context),
    )


def foot_of(context: Context) -> Foot:
    """Return the foot of every sheet: whom to call, and the address to say."""
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
