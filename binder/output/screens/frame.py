"""What stands round every sheet on a screen: the head, the bar at the thumb, whom to call."""

from __future__ import annotations

import re
from html import escape
from typing import TYPE_CHECKING

from binder.output.screens.screen import EMERGENCIES, FIND, FRONT, PENS, ROUNDS

if TYPE_CHECKING:
    from binder.output.screens.screen import Screen
    from binder.pages.page import Page

EMERGENCY_TAB = "E"
_NUMBER = re.compile(r"\+?[0-9(][0-9 ().-]*")
_BAR = (
    (FRONT, "site.now"),
    (EMERGENCIES, "emergency"),
    (PENS, "pens"),
    (ROUNDS, "rounds"),
    (FIND, "find"),
)


def top(screen: Screen, here: str = "") -> str:
    """Return the farm's name, the day of the book, and the bar.

    Args:
        screen: the screen.
        here: name of the page that is shown, empty where several share one head.
    """
    book = screen.book
    links = "".join(
        f'<li><a class="{name}" href="{escape(screen.at(name, ""))}"{_current(name, here)}>'
        f"{screen.say(label)}</a></li>"
        for name, label in _BAR
    )
    return (
        f'<header class="top"><a class="farm" href="{escape(screen.at(FRONT, ""))}"'
        f"{_current(FRONT, here)}>{escape(book.name)}</a>"
        f'<span class="made">{_made(screen)}</span>{_reading(screen)}'
        f"{'' if here else _open_in_browser(screen)}</header>\n"
        f'<nav class="bar" aria-label="{screen.say("site.menu")}"><ul>{links}</ul></nav>'
    )


def _made(screen: Screen) -> str:
    return screen.say("site.made_on", day=screen.book.labels["site.made"])


def _open_in_browser(screen: Screen) -> str:
    """Return what the phone file says where it is looked at without scripts."""
    return f'<p class="without open-in">{screen.say("site.open_in_browser")}</p>'


def _reading(screen: Screen) -> str:
    """Return the line of the last reading, which scripts fill; a way to the finder."""
    if not screen.book.finder:
        return ""
    address = escape(screen.at(FRONT, ""))
    return f'<p class="reading with" id="reading" hidden><a href="{address}"></a></p>'


def _current(name: str, here: str) -> str:
    return ' aria-current="page"' if name == here else ""


def foot(screen: Screen, here: str = "") -> str:
    """Return whom to call and every emergency sheet, one tap away.

    Args:
        screen: the screen.
        here: name of the page that is shown; the page of all emergencies needs no second list.
    """
    partial = f'<p class="partial">{screen.say("site.partial")}</p>\n'
    return (
        f'<footer class="aside">\n{partial if screen.book.partial else ""}'
        f"{calls(screen)}\n{_emergencies(screen) if here != EMERGENCIES else ''}</footer>"
    )


def calls(screen: Screen, level: int = 2) -> str:
    """Return the numbers to call and the address to say."""
    found = screen.book.foot
    life = (screen.say("site.life"), screen.book.labels["site.emergency_number"])
    lines = "".join(
        f"<li>{escape(who)} {_phone(number)}</li>"
        for who, number in (life, *found.calls)
        if number
    )
    return (
        f'<section class="trouble"><h{level}>{escape(found.trouble)}</h{level}>'
        f"<ul>{lines}</ul>"
        f"<p><b>{screen.say('site.place')}</b> {escape(found.address)}</p></section>"
    )


def _phone(number: str) -> str:
    head = _NUMBER.match(number)  # an extension behind it is said, not dialled
    digits = "".join(sign for sign in head[0] if sign.isdigit() or sign == "+") if head else ""
    shown = escape(number)
    return f'<a class="phone" href="tel:{digits}">{shown}</a>' if digits else shown


def _emergencies(screen: Screen) -> str:
    items = "".join(
        f'<li><a href="{escape(screen.sheet(page.slug))}">'
        f'<span class="id">{escape(page.sheet)}</span> {escape(page.title)}</a></li>'
        for page in screen.tab(EMERGENCY_TAB)
    )
    if not items:
        return ""
    title = screen.say("site.emergencies.nav")
    return f'<nav class="all-emergencies"><h2>{title}</h2><ul>{items}</ul></nav>\n'


def neighbours(screen: Screen, page: Page) -> str:
    """Return links to the sheets before and after one, in binder order."""
    place = screen.pages.index(page)
    around = (
        ("earlier", screen.pages[place - 1] if place else None),
        ("later", screen.pages[place + 1] if place + 1 < len(screen.pages) else None),
    )
    links = "".join(
        f'<a class="{key}" href="{escape(screen.sheet(other.slug))}">'
        f"<small>{screen.say(f'site.{key}')}</small> "
        f"{escape(other.sheet)} {escape(other.title)}</a>"
        for key, other in around
        if other is not None
    )
    return f'<nav class="turn" aria-label="{screen.say("site.sheets")}">{links}</nav>'


def heading(screen: Screen, page: Page) -> str:
    """Return eyebrow and title of a sheet that does not bring its own."""
    if "<h1" in page.body:
        return ""
    names = {tab.letter: tab.name for tab in screen.book.tabs}
    eyebrow = " · ".join(part for part in (page.sheet, names.get(page.tab, "")) if part)
    return f'<p class="eyebrow">{escape(eyebrow)}</p>\n<h1>{escape(page.title)}</h1>\n'
