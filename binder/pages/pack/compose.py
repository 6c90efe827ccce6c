"""A pack as a book of its own: composed for the days of its stay, and complete in itself."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from binder.pages import facts, pen_facts, slugs
from binder.pages.art.pictures import ready
from binder.pages.book import names
from binder.pages.book.assemble import page_of, page_of_protocol, shown_pictures
from binder.pages.book.our_choice import unmarked
from binder.pages.book.plan import plan_of
from binder.pages.compose import foot_of, labels_of, tabs_of
from binder.pages.context import Context
from binder.pages.pack import alone, contents, pair, pocket
from binder.pages.pack.contents import Beside
from binder.pages.pack.told import Told
from binder.pages.page import Book, Page, Paper
from binder.pages.tags import tags
from binder.pages.text import words
from binder.pages.whole import Whole
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from binder.figures.figures import Figures
    from binder.figures.stays.plan import Plan
    from binder.pages.book.plan import Contents
    from binder.pages.page import Page
    from binder.pages.text.protocol_file import Protocol
    from binder.pages.text.words import Words

_SOURCES = re.compile(r'<p class="sources">.*?</p>\n?', re.DOTALL)
EMERGENCIES = "E"


def papers(
    figures: Figures, place: int, date: str, owner_texts: Mapping[str, str], pictures: Path
) -> tuple[Paper, ...]:
    """Return what is printed for one stay: its pack, and two leaves for the pocket.

    Args:
        figures: `figures.of_stay`: of that stay alone.
        place: where the stay stands in the owner's list, from 0; tells its numbers.
        date: the day of the build, for the foot.
        owner_texts: the farm's own protocols, text by file name.
        pictures: the farm's folder of pictures.

    Raises:
        ProblemsError: a protocol that names what is not there, or words that are missing.
    """
    room = _room(figures, place, owner_texts)
    book = _pack(room, date, pictures)
    stay = room.plan.stay.id
    sides = pocket.sides(
        room.context, room.plan, room.whole.pens,
        tuple(zip(room.urgent, room.emergencies, strict=True)),
    )  # fmt: skip
    leaves = replace(book, tabs=(), pages=sides, pictures={})
    what = f"{book.name} · {book.pages[0].summary}"
    return (Paper(f"stay-{stay}", what, book), Paper(f"pocket-{stay}", what, leaves))


@dataclass(frozen=True, slots=True)
class _Room:
    """What every page of a stay's papers is made from."""

    place: int
    context: Context
    plan: Plan
    whole: Whole
    told: Told
    own: Mapping[str, str]
    elsewhere: Mapping[str, str]
    urgent: tuple[Protocol, ...]
    emergencies: tuple[Page, ...]


def spoken(figures: Figures, language: str) -> Figures:
    """Return figures of a farm whose binder is in another language."""
    about = figures.farm.about.model_copy(update={"language": language})
    return replace(figures, farm=figures.farm.model_copy(update={"about": about}))


def _room(figures: Figures, place: int, owner_texts: Mapping[str, str]) -> _Room:
    plan = next(iter(figures.stays.values()))
    if plan.stay.language:
        figures = spoken(figures, plan.stay.language)
    farm = figures.farm
    said = words.of(farm)
    shown_tags = tags(farm, figures.herd)
    binder = plan_of(figures, owner_texts, shown_tags)
    urgent = tuple(one for one in binder.protocols if one.sheet[0] == EMERGENCIES)
    own = {row.slug: row.number for row in contents.before(figures, plan, place)}
    own |= {one.slug: one.sheet for one in urgent}
    own |= {row.slug: row.number for row in contents.after(figures, plan, place)}
    charts = tuple(slug for slug in binder.numbers if slugs.is_chart(slug))
    elsewhere = alone.targets(own, charts, slugs.stay_log(plan))
    numbers = own | {slug: own[target] for slug, target in elsewhere.items()}
    context = Context(figures, said, numbers, shown_tags)
    whole = Whole(facts.farm_view(context), pen_facts.pens(context))
    told = _told(context, binder, whole)
    emergencies = _emergencies(context, urgent, whole, told)
    return _Room(place, context, plan, whole, told, own, elsewhere, urgent, emergencies)


def _pack(room: _Room, date: str, pictures: Path) -> Book:
    context, plan, farm = room.context, room.plan, room.context.farm
    figures = context.figures
    beside = Beside(plan, room.whole, room.told, _listed(context, plan, room.own))
    first = contents.before(figures, plan, room.place)
    last = contents.after(figures, plan, room.place)
    pages = (
        *(page_of(context, row, contents.made(context, row, beside)) for row in first),
        *pair.paired(room.emergencies),
        *(page_of(context, row, contents.made(context, row, beside)) for row in last),
    )
    leads = {**room.elsewhere, **pair.leads(room.emergencies)}
    finished = tuple(_finished(page, leads, room.own, context.words) for page in pages)
    shown = ready(pictures, shown_pictures("".join(page.body for page in finished)))
    return Book(
        name=farm.about.name,
        date=date,
        paper=farm.about.paper,
        language=context.words.language,
        tabs=tabs_of(context, finished),
        pages=finished,
        foot=foot_of(context),
        labels=labels_of(context),
        pictures=shown,
    )


def _emergencies(
    context: Context, urgent: Sequence[Protocol], whole: Whole, told: Told
) -> tuple[Page, ...]:
    """Return every emergency; one that names what no pack holds is made as for the binder."""
    known = names.names(context, whole.farm, whole.pens)
    pages = []
    for one in urgent:
        try:
            pages.append(page_of_protocol(context, one, known))
        except ProblemsError:
            pages.append(page_of_protocol(told.context, one, told.known))
    return tuple(pages)


def _told(context: Context, binder: Contents, whole: Whole) -> Told:
    """Return the instructions in a context that knows every sheet: parts of them are taken."""
    every = replace(context, sheets={**binder.numbers, **context.sheets})
    known = names.names(every, whole.farm, whole.pens)
    return Told(every, {one.slug: one for one in binder.protocols}, known)


def _finished(
    page: Page, leads: Mapping[str, str], own: Mapping[str, str], said: Words
) -> Page:
    """Return a page without its sources, whatever it leads to within the pack."""
    body = unmarked(said, _SOURCES.sub("", page.body))
    kind = page.kind if page.kind.startswith("pack") else f"pack {page.kind}"
    known = own.keys() | leads.keys()
    body = alone.led(body, leads, known, said.text("pack.not_here"), page.slug)
    return replace(page, body=body, kind=kind)


def _listed(
    context: Context, plan: Plan, own: Mapping[str, str]
) -> tuple[tuple[str, str], ...]:
    """Return what the call page lists: each part of the pack with its first sheet."""
    found = [
        (slug, context.w(f"pack.parts_said.{key}"))
        for slug, key in (
            ("map", "map"), ("who-is-who", "who"), (slugs.stay(plan), "days"),
            *((slugs.visit(plan, visit), "visit") for visit in plan.visits[:1]),
            (slugs.looks(plan), "looks"), (alone.NUMBERS, "numbers"),
            *((slugs.pen(pen), "pens") for pen in plan.pens[:1]),
            *((slug, "emergencies") for slug in [s for s in own if own[s].startswith("E")][:1]),
            (alone.FEED, "feed"), (alone.WATER, "water"), (alone.WALLOWS, "wallows"),
            (alone.BIRTHS, "births"), (alone.PEOPLE, "people"), (slugs.stay_log(plan), "log"),
            ("hand-back", "hand_back"),
        )
        if slug in own
    ]  # fmt: skip
    return tuple(found)
