"""The screens' own pages: the front with the band finder, and the lists behind the bar."""

from __future__ import annotations

import re
from html import escape
from typing import TYPE_CHECKING

from binder.output.screens import finder_form
from binder.output.screens.frame import EMERGENCY_TAB, calls
from binder.output.screens.screen import EMERGENCIES, FIND, FRONT, LOG, PENS, ROUNDS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.output.screens.screen import Screen
    from binder.pages.page import Page, Tab

# How to save the phone file: a line each.
_PHONES = ("android", "iphone", "try")
PEN_TAB, ROUND_TAB, LOG_TAB, FRONT_TAB = "P", "R", "L", "A"


def front(screen: Screen, phone_file: str = "") -> str:
    """Return the front page: the finder, what to do now, whom to call, all tabs.

    Args:
        screen: the screen.
        phone_file: address of the phone file, empty where it is not offered.
    """
    offer = _offer(screen, phone_file) if phone_file else ""
    head = finder_form.finder(screen) or f"<h1>{escape(screen.book.name)}</h1>\n"
    first = screen.tab(FRONT_TAB)
    return f"{head}{rows(screen, first)}{_tabs(screen)}{offer}"


def _offer(screen: Screen, phone_file: str) -> str:
    """Return the phone file to save, and how, for each sort of phone."""
    name = re.sub(r"[^a-z0-9]+", "-", screen.book.name.lower()).strip("-") or "binder"
    how = "".join(f"<li>{screen.say(f'site.save.{key}')}</li>" for key in _PHONES)
    return (
        f'<section class="offer"><h2>{screen.say("site.phone_file")}</h2>\n'
        f'<p><a class="open" href="{escape(phone_file)}" download="{escape(name)}.html">'
        f"{screen.say('site.phone_link')}</a></p>\n<ul>{how}</ul></section>\n"
    )


def _tabs(screen: Screen) -> str:
    """Return a link to every tab in the list of sheets."""
    items = "".join(
        f'<li><a href="{escape(screen.at(FIND, f"tab-{tab.letter}"))}">'
        f'<span class="letter">{escape(tab.letter)}</span> {escape(tab.name)}</a></li>'
        for tab in _shown_tabs(screen)
    )
    return f'<h2>{screen.say("site.sheets")}</h2>\n<ul class="tabs">{items}</ul>\n'


def _shown_tabs(screen: Screen) -> tuple[Tab, ...]:
    letters = {page.tab for page in screen.pages}
    return tuple(tab for tab in screen.book.tabs if tab.letter in letters)


def emergencies(screen: Screen) -> str:
    """Return the page behind Emergency: whom to call, then every emergency sheet."""
    return (
        f"<h1>{screen.say('site.emergencies.title')}</h1>\n{calls(screen)}\n"
        f"<h2>{screen.say('site.emergencies.nav')}</h2>\n"
        f"{rows(screen, screen.tab(EMERGENCY_TAB))}"
    )


def pens(screen: Screen) -> str:
    """Return the page behind Pens."""
    return f"<h1>{screen.say('site.pens.title')}</h1>\n{rows(screen, screen.tab(PEN_TAB))}"


def rounds(screen: Screen) -> str:
    """Return the page behind Rounds: its sheets, the pens in order, the logs."""
    parts = [f"<h1>{screen.say('site.rounds.title')}</h1>\n"]
    own = screen.tab(ROUND_TAB)
    if own:
        parts.append(rows(screen, own))
    for key, letter in (("pens", PEN_TAB), ("logs", LOG_TAB)):
        if screen.tab(letter):
            parts.append(f"<h2>{screen.say(f'site.rounds.{key}')}</h2>\n")
            parts.append(rows(screen, screen.tab(letter)))
    if screen.book.agenda:
        parts.insert(
            1,
            f'<p class="with"><a class="open" href="{escape(screen.at(LOG, ""))}">'
            f"{screen.say('site.log.write_down')}</a></p>\n",
        )
    return "".join(parts)


def log(screen: Screen) -> str:
    """Return the page to write on: a script fills it, and without one paper is the place."""
    logs = rows(screen, screen.tab(LOG_TAB)) if screen.tab(LOG_TAB) else ""
    return (
        f"<h1>{screen.say('site.log.title')}</h1>\n"
        f'<div class="caution notice"><strong>{screen.say("site.log.notice")}</strong>'
        f"<p>{screen.say('site.log.paper')}</p></div>\n"
        f'<p class="without">{screen.say("site.log.without")}</p>\n'
        f'<div class="with" id="log"></div>\n{logs}'
    )


def find(screen: Screen) -> str:
    """Return the page behind Find: search as you type, and the list of all sheets."""
    lists = "".join(
        f'<h2 id="tab-{escape(tab.letter)}"><span class="letter">{escape(tab.letter)}</span> '
        f"{escape(tab.name)}</h2>\n{rows(screen, screen.tab(tab.letter))}"
        for tab in _shown_tabs(screen)
    )
    return (
        f"<h1>{screen.say('site.find.title')}</h1>\n"
        f'<form class="search with" role="search"><label for="search">{screen.say("search")}'
        f'</label><input id="search" type="search" placeholder="{screen.say("search_hint")}" '
        f'autocomplete="off" autocapitalize="off" spellcheck="false">'
        f'<p id="found" role="status" data-found="{screen.say("site.find.count")}" '
        f'data-nothing="{screen.say("nothing")}"></p></form>\n'
        f'<ul class="rows" id="results" hidden></ul>\n<div id="all">{lists}</div>'
    )


def rows(screen: Screen, pages: Iterable[Page]) -> str:
    """Return sheets as a list of wide links."""
    items = "".join(
        f'<li data-sheet="{escape(page.slug)}"><a class="row" '
        f'href="{escape(screen.sheet(page.slug))}"><span class="id">{escape(page.sheet)}</span>'
        f"<span><b>{escape(page.title)}</b>{_summary(page)}</span></a></li>\n"
        for page in pages
    )
    return f'<ul class="rows">\n{items}</ul>\n'


def _summary(page: Page) -> str:
    return f" <small>{escape(page.summary)}</small>" if page.summary else ""


MENU_PAGES = {
    EMERGENCIES: ("site.emergencies.title", emergencies),
    PENS: ("site.pens.title", pens),
    ROUNDS: ("site.rounds.title", rounds),
    FIND: ("site.find.title", find),
    LOG: ("site.log.title", log),
}
__all__ = ["FRONT", "MENU_PAGES", "front", "rows"]
