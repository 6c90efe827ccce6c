"""How a pack stands alone: whatever its sheets lead to is in it, or is not named at all."""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING

from binder.pages import slugs

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from binder.pages.page import Page

CALL, NUMBERS = "stay-call", "stay-numbers"
FEED, WATER, WALLOWS, BIRTHS = "stay-feed", "stay-water", "stay-wallows", "stay-births"
PEOPLE, LOG = "work-and-rest", "stay-log"
BREATHS = "counting-breaths"  # with the short looks, where there are any

# Sheets of the ring binder that a sheet of a pack may name, and the page of the pack that tells
# the same. What is told nowhere in a pack has no line here: protocols then leave it out.
_TOLD_ON: Mapping[str, str] = MappingProxyType(
    {
        "cover": CALL,
        "contacts": CALL,
        "equipment": CALL,
        "reading-the-air": NUMBERS,
        "what-each-band-asks": NUMBERS,
        "water-today": WATER,
        "hoses": WATER,
        "flushing-a-hose": WATER,
        "feed-today": FEED,
        "when-to-feed": FEED,
        "wallows": WALLOWS,
        "algae": WALLOWS,
        "young-and-weaning": BIRTHS,
        "round-log": LOG,
        "medicine-log": LOG,
        "loss-log": LOG,
    }
)
_ONLY_LED = re.compile(r':\s*<a class="sheet" href="sheet:([^"#]+)[^"]*">[^<]*</a>(?=\.|<)')
_LINK = re.compile(r'<a class="sheet" href="sheet:([^"#]+)([^"]*)">(.*?)</a>', re.DOTALL)


def targets(own: Collection[str], charts: Iterable[str], log: str) -> dict[str, str]:
    """Return, for sheets that a pack lacks, the slug of its page that tells the same.

    Args:
        own: slugs of the sheets in the pack.
        charts: slugs of the air charts, all of which stand on the page of numbers.
        log: slug of the stay's log.
    """
    told = {**_TOLD_ON, **dict.fromkeys(charts, NUMBERS)}
    told[BREATHS] = next((slug for slug in own if slugs.is_looks(slug)), NUMBERS)
    if WALLOWS not in own:
        told["algae"] = WATER  # green water in a tank or a trough
    found = {slug: log if target == LOG else target for slug, target in told.items()}
    return {slug: target for slug, target in found.items() if target in own and slug not in own}


def led(
    body: str, leads: Mapping[str, str], known: Collection[str], not_here: str, own: str = ""
) -> str:
    """Return the HTML of a page whose links lead to where the pack tells the same.

    Where a sentence only ends with where to read on, and no page of the pack tells that or
    this page itself does, the end is left out; what else names such a sheet is said to be in
    the owner's binder.

    Args:
        body: of the page.
        leads: slug of a sheet -> slug of the page of the pack that tells the same.
        known: slugs of all that the pack tells.
        not_here: the words for the owner's binder.
        own: slug of the page itself.
    """

    def link(found: re.Match[str]) -> str:
        slug, place, said = found.groups()
        if slug not in known:
            return not_here
        return f'<a class="sheet" href="sheet:{leads.get(slug, slug)}{place}">{said}</a>'

    def only_led(found: re.Match[str]) -> str:
        here = own and leads.get(found[1], found[1]) == own
        return "" if here or found[1] not in known else found[0]

    return _LINK.sub(link, _ONLY_LED.sub(only_led, body))


def strangers(pages: Collection[Page]) -> dict[str, tuple[str, ...]]:
    """Return, by sheet, what a page leads to that is not in the pack; empty as it should be."""
    known = {page.slug for page in pages}
    found = {
        page.sheet: tuple(one[0] for one in _LINK.findall(page.body) if one[0] not in known)
        for page in pages
    }
    return {sheet: slugs for sheet, slugs in found.items() if slugs}
