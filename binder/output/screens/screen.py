"""What the site and the phone file show alike: which sheets, in what order and where."""

from __future__ import annotations

from dataclasses import astuple, dataclass
from functools import cache, cached_property
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

from binder.cache import kept, key_of
from binder.output.screens import links, tables, ticks
from binder.output.screens.links import Links, apart, resolve, working_id
from binder.output.screens.ticks import tickable
from binder.pages.page import PHONE, working_anchor
from binder.pages.text import tree
from binder.pages.text.tree import read

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from binder.pages.page import Book, Page

# The screens' own pages. A sheet of such a name steps aside.
FRONT, EMERGENCIES, PENS, ROUNDS, FIND = "index", "emergencies", "pens", "rounds", "find"
LOG = "write-down"
MENUS = (FRONT, EMERGENCIES, PENS, ROUNDS, FIND, LOG)
LIST_OF_SHEETS = "list-of-sheets"  # printed from the finished pages; here it is `FIND`
NUMBERS = "numbers"
_TEL, _PICTURE = "tel:", "picture:"


@dataclass(frozen=True, slots=True)
class Body:
    """A sheet's body as a screen shows it.

    Attributes:
        html: what the screen shows.
        keys: of the workings that it shows.
        headings: its headings, as pages write them.
    """

    html: str
    keys: tuple[str, ...]
    headings: tuple[str, ...]


@dataclass(frozen=True)
class Screen:
    """A book as one screen shows it.

    Attributes:
        book: the whole book.
        where: `site` or `phone`: sheets that do not stand there are unknown to it.
        at: gives the address of a page by its name, and of a place on it by its id.
        picture: gives the address of a picture by its name.
    """

    book: Book
    where: str
    at: Callable[[str, str], str]
    picture: Callable[[str], str]

    @cached_property
    def pages(self) -> tuple[Page, ...]:
        """Return the sheets that stand here, in binder order."""
        return tuple(page for page in self.book.pages if self.where in page.where)

    @cached_property
    def by_slug(self) -> Mapping[str, Page]:
        """Return the sheets by slug."""
        return {page.slug: page for page in self.pages}

    def tab(self, letter: str) -> tuple[Page, ...]:
        """Return the sheets of a tab."""
        return tuple(page for page in self.pages if page.tab == letter)

    def sheet(self, slug: str) -> str:
        """Return the address of a sheet, empty where it does not stand here."""
        if slug == LIST_OF_SHEETS:
            return self.at(FIND, "")
        return self.at(own_name(slug), "") if slug in self.by_slug else ""

    def say(self, key: str, **values: str) -> str:
        """Return a word of the screens, with values put in, as HTML.

        Raises:
            KeyError: there is no such word.
        """
        text = self.book.labels[key]
        for name, value in values.items():
            text = text.replace(f"{{{name}}}", value)
        return escape(text)

    @cached_property
    def links(self) -> Links:
        """Return where everything is that a body may lead to."""

        def number(key: str) -> tuple[str, str]:
            return self._anchors.get(working_anchor(key), ("", ""))

        return Links(
            sheet=self.sheet,
            picture=self.picture,
            workings=self.book.workings,
            numbers=number,
            table=self.say("site.table"),
            phones=self._phones,
            emergency=self._emergency,
            places={self.book.labels["site.reading.tab_e"]: self.at(EMERGENCIES, "")},
        )

    @cached_property
    def _anchors(self) -> Mapping[str, tuple[str, str]]:
        """Return address and sheet of each working in the Numbers tab, by its id."""
        return {
            anchor: (self.at(own_name(page.slug), anchor), page.sheet)
            for page in self.by_slug.values()
            if page.kind == NUMBERS
            for anchor in _told(_ids, page.body)
        }

    @cached_property
    def bodies(self) -> Mapping[str, Body]:
        """Return what each sheet shows here, by its slug."""
        return {page.slug: self._body(page) for page in self.pages}

    @cached_property
    def _surroundings(self) -> str:
        """Return a name for all that a body's links depend on beside the body itself."""
        shown = self.links
        addresses = {slug: self.sheet(slug) for slug in (LIST_OF_SHEETS, *self.by_slug)}
        text = (sorted(shown.phones), shown.emergency, shown.table, dict(shown.places))
        numbers = (self._anchors, sorted(shown.workings))
        return key_of(repr((self.where, addresses, numbers, text)))

    def _body(self, page: Page) -> Body:
        """Return what a sheet shows, kept from the last build where nothing in it changed."""
        if _PICTURE in page.body:  # which of them a screen shows is noted while it is made
            return self._made(page)
        parts = (self._surroundings, page.slug, page.kind, page.body)
        html, keys, headings = kept(_made_by(), parts, lambda: list(astuple(self._made(page))))
        return Body(html, tuple(keys), tuple(headings))

    def _made(self, page: Page) -> Body:
        body = read(page.body)
        headings = tuple(heading.words for heading in body.all("h2", "h3"))
        keys = resolve(body, self.links)
        tickable(body, page.kind)
        if self.where == PHONE:  # all sheets in one file
            apart(body, own_name(page.slug))
        return Body(body.html, keys, headings)

    @cached_property
    def _phones(self) -> frozenset[str]:
        """Return every number of the book as it is shown: of the foot, and of links."""
        linked = {
            number
            for page in self.pages
            if _TEL in page.body
            for number in _told(_numbers, page.body)
        }
        return frozenset({*(number for _, number in self.book.foot.calls), *linked} - {""})

    @property
    def _emergency(self) -> str:
        """Return the number for life in danger, empty where words stand for it."""
        number = self.book.labels["site.emergency_number"]
        return number if number.isascii() and number.isdigit() else ""

    def working(self, key: str) -> str:
        """Return the box that opens beside a number."""
        box, name = working_id(key), self.say("working")
        inner = (
            self.book.workings[key].replace("<h2>", '<p class="what">').replace("</h2>", "</p>")
        )
        return (
            f'<div popover class="working" id="{box}" role="dialog" aria-label="{name}">'
            f'{inner}<button type="button" popovertarget="{box}" '
            f'popovertargetaction="hide">{self.say("close")}</button></div>\n'
        )


def _ids(body: str) -> list[str]:
    return [one.given["id"] for one in read(body).everything if one.given.get("id")]


def _numbers(body: str) -> list[str]:
    """Return the phone numbers of a body, as it shows them."""
    links = read(body).all("a")
    return [link.inner for link in links if link.given.get("href", "").startswith(_TEL)]


def _told(by: Callable[[str], list[str]], body: str) -> list[str]:
    """Return what a function tells of a body, kept from the last time."""
    return kept(_made_by(), (by.__name__, body), lambda: by(body))


@cache
def _made_by() -> str:
    """Return a name for the code that makes bodies."""
    modules = (links.__file__, tables.__file__, ticks.__file__, tree.__file__, __file__)
    return key_of(*(Path(name).read_bytes() for name in modules))


def own_name(slug: str) -> str:
    """Return the name of a sheet's page: its slug, unless a page of ours has that name."""
    return f"sheet-{slug}" if slug in MENUS else slug
