"""What composing hands to output: pages, and the book they make. No animal or farm here."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from binder.pages.claims.claim import Claim

SITE, PRINT, PHONE = "site", "print", "phone"
EVERYWHERE = frozenset({SITE, PRINT, PHONE})
PRINT_ONLY = frozenset({PRINT})
SCREENS = frozenset({SITE, PHONE})
FINDER = "finder"  # stands for a sheet's number where the finder states something
SITTER = "sitter"
EDITIONS = (SITTER, "helper", "owner", "vet")  # whom a printed binder can be for


def working_anchor(key: str) -> str:
    """Return the id that the working of a number has on the Numbers sheet."""
    return "w-" + "".join(sign if sign.isalnum() else "-" for sign in key.lower())


@dataclass(frozen=True, slots=True)
class Tab:
    """A divider: its letter, its word, and its place down the page edge (from 0)."""

    letter: str
    name: str
    order: int


@dataclass(frozen=True, slots=True)
class Page:
    """One sheet.

    Attributes:
        slug: stable id, also the file name on the site: `pig-in-heat-trouble`.
        sheet: number inside its tab, `E1`. Front matter has the letter `0`.
        tab: letter of its tab.
        title: as the reader would say it.
        body: HTML that stands in site and print alike. Links to other sheets are written
            `<a href="sheet:SLUG">`; a number whose working is known is written
            `<a class="number" href="working:KEY">15 gal</a>`; pictures are `picture:NAME`.
        where: in which outputs it stands; private sheets are `PRINT_ONLY`.
        summary: one plain sentence for lists and search.
        words: more words a reader might search for.
        kind: a CSS class: `emergency`, `protocol`, `pen`, `chart`, `log`, `card`, `cover`...
        editions: who gets the sheet: sitter, helper, owner, vet.
        reader: the sitter for whose stay it is, by name; empty for whoever has the edition.
        owner_version: True where the farm's own text stands for a maintained one.
        claims: what it states; not printed.
    """

    slug: str
    sheet: str
    tab: str
    title: str
    body: str
    where: frozenset[str] = EVERYWHERE
    summary: str = ""
    words: str = ""
    kind: str = "protocol"
    editions: frozenset[str] = frozenset(EDITIONS)
    reader: str = ""
    owner_version: bool = False
    claims: tuple[Claim, ...] = ()


@dataclass(frozen=True, slots=True)
class Foot:
    """The foot of every sheet: whom to call and where they must come. Never changes place."""

    trouble: str
    address: str
    calls: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Paper:
    """A short book with a file of its own, complete in itself.

    Attributes:
        stem: name of its file without its ending: `stay-july`.
        title: of the file, as readers show it.
        book: its pages, in the order in which they are used.
    """

    stem: str
    title: str
    book: Book


@dataclass(frozen=True, slots=True)
class Book:
    """The whole binder, ready to be written.

    Attributes:
        name: the farm's name.
        date: the day it was made for, `2026-06-01`.
        paper: `letter` or `a4`.
        language: of the words, `en`.
        tabs: dividers in order.
        pages: every sheet in binder order.
        foot: whom to call.
        workings: key of a number -> HTML of its working and sources (for the site's pop-ups).
        finder: the table of the band finder, plain data (JSON on the site); empty if the farm
            has nothing to find.
        agenda: the plans of stays and of an ordinary day, by the hour (plain data).
        ways_to_ask: words to drop and words that mean the same, for the search.
        labels: every word output itself shows (button texts, `page`, `of`...), from the words.
        pictures: name -> file bytes; names are `NAME.png` or `.jpg`.
        small_pictures: the same for the phone file, which carries them inside.
        site_address: where the farm hosts the site, or empty.
        screens: the same binder without what the owner keeps private: all that site and phone
            get to see. None where this one holds nothing private but codes.
        partial: whether this one leaves animals or things out of its amounts.
        finder_claims: what `finder` states.
        papers: short books that are printed by themselves beside it.
    """

    name: str
    date: str
    paper: str
    language: str
    tabs: tuple[Tab, ...]
    pages: tuple[Page, ...]
    foot: Foot
    workings: Mapping[str, str] = field(default_factory=dict)
    finder: Mapping[str, object] = field(default_factory=dict)
    agenda: tuple[Mapping[str, object], ...] = ()
    ways_to_ask: Mapping[str, object] = field(default_factory=dict)
    labels: Mapping[str, str] = field(default_factory=dict)
    pictures: Mapping[str, bytes] = field(default_factory=dict)
    small_pictures: Mapping[str, bytes] = field(default_factory=dict)
    site_address: str = ""
    screens: Book | None = None
    partial: bool = False
    finder_claims: tuple[Claim, ...] = ()
    papers: tuple[Paper, ...] = ()

    def claims(self) -> Iterator[tuple[str, Claim]]:
        """Yield what its sheets and its finder state, each with the sheet's number."""
        for page in self.pages:
            yield from ((page.sheet, one) for one in page.claims)
        yield from ((FINDER, one) for one in self.finder_claims)
