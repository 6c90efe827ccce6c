"""The site in a real browser: it opens from the disk, asks nobody, and works with a thumb."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import DESK, PHONE, build_screens, visit

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

    from tests.browser.conftest import Built, Visit
    from tests.conftest import FarmFolder

pytestmark = pytest.mark.browser

WIDER = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
# Controls, not links inside a line of text: those are excepted by WCAG 2.2, 2.5.8 (inline).
# A box is ticked by its label.
SMALL = """(least) => [...document.querySelectorAll(
    '.bar a, .farm, button:not(.number), input:not([type=checkbox]), select, ' +
    '.row, .tiles a, .tabs a, .turn a, ' +
    '.all-emergencies a, .trouble a, .offer a, .phrase, .open, .tickable, .check, ' +
    '.reading a')]
  .filter(each => each.checkVisibility({visibilityProperty: true}))
  .map(each => [each.outerHTML.slice(0, 80), each.getBoundingClientRect()])
  .filter(([, box]) => box.height > 0 && (box.height < least - 0.5 || box.width < least - 0.5))
  .map(([text, box]) => `${text} ${box.width}x${box.height}`)"""
HEADINGS = """() => [...document.querySelectorAll('h1, h2, h3, h4, h5, h6')]
  .filter(each => each.closest('[popover]') === null)
  .map(each => Number(each.tagName[1]))"""

# Numbers to call that stand as plain text, and the tab of emergencies named without a link.
PLAIN = """() => {
  const text = [...document.querySelectorAll('main, header, footer')].map(part => {
    const copy = part.cloneNode(true);
    copy.querySelectorAll('a, svg, script').forEach(each => each.remove());
    return copy.textContent;
  }).join(' ');
  return [...text.matchAll(/\\b\\d{3}-\\d{3}-\\d{4}\\b|\\b911\\b(?! address)|\\btab E\\b/g)]
    .map(found => found[0]);
}"""
# Whole addresses; the `href` of a link in a drawing is no text.
LINKS = """() => [...document.querySelectorAll('a[href]')]
  .map(each => new URL(each.getAttribute('href'), document.baseURI).href)"""
IDS = "() => [...document.querySelectorAll('[id]')].map(each => each.id)"
SHOWN_LINKS = """() => [...document.querySelectorAll('a')]
  .filter(each => each.checkVisibility()).map(each => each.getAttribute('href'))"""


def outside(visited: Visit) -> list[str]:
    """Return the requests that were for anything but a file on this disk."""
    return [url for url in visited.heard.asked if not url.startswith(("file:", "data:"))]


@dataclass(frozen=True)
class Walk:
    """What every page of the site had to show on one screen, by name where it is of pages."""

    faults: list[str]
    outside: list[str]
    wide: dict[str, int]
    wide_in_large_text: dict[str, int]
    small: dict[str, list[str]]
    headings: dict[str, list[int]]
    shown_links: dict[str, set[str]]
    plain: dict[str, list[str]]
    links: set[str]
    ids: dict[str, set[str]]


@pytest.fixture(scope="module", params=[PHONE, DESK], ids=["phone", "desk"])
def walk(request: pytest.FixtureRequest, example: Built, browser: Browser) -> Walk:
    """Return what a walk over every page finds; each is opened once for all tests."""
    found = Walk([], [], {}, {}, {}, {}, {}, {}, set(), {})
    how = {"has_touch": True, "is_mobile": True} if request.param == PHONE else {}
    with visit(browser, viewport=request.param, **how) as visited:
        page = visited.page
        for name in example.names:
            page.goto(example.url(name))
            found.wide[name] = page.evaluate(WIDER)
            found.small[name] = page.evaluate(SMALL, 48)
            found.headings[name] = page.evaluate(HEADINGS)
            found.shown_links[name] = set(page.evaluate(SHOWN_LINKS))
            found.plain[name] = page.evaluate(PLAIN)
            found.links.update(page.evaluate(LINKS))
            found.ids[name] = set(page.evaluate(IDS))
            page.add_style_tag(content="html { font-size: 212.5% !important; }")
            found.wide_in_large_text[name] = page.evaluate(WIDER)
        found.faults.extend(visited.heard.faults)
        found.outside.extend(outside(visited))
    return found


def test_every_page_opens_without_a_fault(walk: Walk) -> None:
    """No error in the console, no request to any other place, nothing wider than the screen."""
    assert walk.faults == []
    assert walk.outside == []
    assert {name: over for name, over in walk.wide.items() if over} == {}
    assert len(walk.wide) > 100


@pytest.mark.parametrize("walk", [PHONE], ids=["phone"], indirect=True)
def test_large_text_fits(walk: Walk) -> None:
    """At twice the size (WCAG 2.2, 1.4.4) no page of a phone grows wider than its screen."""
    assert {name: over for name, over in walk.wide_in_large_text.items() if over} == {}


@pytest.mark.parametrize("walk", [PHONE], ids=["phone"], indirect=True)
def test_a_thumb_can_hit_everything(walk: Walk) -> None:
    """Every control is 48 px high and wide or more, on every page."""
    assert {name: small for name, small in walk.small.items() if small} == {}


@pytest.mark.parametrize("walk", [PHONE], ids=["phone"], indirect=True)
def test_every_number_to_call_is_a_link(walk: Walk) -> None:
    """No page makes anybody type a number off the screen, or look for a tab by hand."""
    assert {name: plain for name, plain in walk.plain.items() if plain} == {}


def test_headings_go_down_one_step_at_a_time(walk: Walk) -> None:
    """One h1, first; no level is skipped on the way down."""
    for name, levels in walk.headings.items():
        assert levels[0] == 1, name
        assert levels.count(1) == 1, name
        assert all(b - a <= 1 for a, b in itertools.pairwise(levels)), (name, levels)


def test_every_page_links_to_every_emergency(example: Built, walk: Walk) -> None:
    """Each page links straight to each emergency sheet."""
    wanted = {f"{page.slug}.html" for page in example.book.pages if page.tab == "E"}
    assert wanted
    assert [name for name, links in walk.shown_links.items() if not wanted <= links] == []


def test_an_emergency_is_one_tap_away(example: Built, phone: Visit) -> None:
    """The link at the foot of a page leads to the sheet."""
    phone.page.goto(example.url("pen-creek"))
    phone.page.get_by_role("link", name="A pig is in heat trouble").last.tap()
    phone.page.wait_for_url("**/pig-in-heat-trouble.html")


def test_every_link_leads_somewhere(example: Built, walk: Walk) -> None:
    """Every address inside the site is a page, and every place on it exists."""
    root = (example.folder / "site").as_uri()
    for link in sorted(walk.links):
        if link.startswith("tel:"):
            assert re.fullmatch(r"tel:\+?\d+", link)
        elif link.startswith(root):
            name, _, place = link.removeprefix(f"{root}/").partition("#")
            assert (example.folder / "site" / name).is_file(), link
            assert not place or place in walk.ids[name.removesuffix(".html")], link
        else:
            assert link.startswith((example.phone, "http")), link


def test_the_owner_is_a_tap_away(example: Built, phone: Visit) -> None:
    """The numbers to call stand under every page as `tel:` links."""
    for name in ("index", "pen-creek", "emergencies"):
        phone.page.goto(example.url(name))
        links = phone.page.eval_on_selector_all(
            ".trouble a", "all => all.map(a => a.getAttribute('href'))"
        )
        assert links[:2] == ["tel:911", "tel:9125550110"]


def open_working(page: Page) -> None:
    """Open the working of the first number of a page."""
    page.locator("main button.number").first.click()


def test_a_number_opens_its_working(example: Built, desk: Visit) -> None:
    """The box opens by click and by key, says sources, and Escape closes it."""
    page = desk.page
    page.goto(example.url("pen-creek"))
    box = page.locator("[popover]:popover-open")
    open_working(page)
    assert box.count() == 1
    assert "husbandry-" in box.inner_text() or "water-" in box.inner_text()
    page.keyboard.press("Escape")
    assert box.count() == 0
    page.keyboard.press("Enter")
    assert box.count() == 1


def test_a_working_opens_without_script(example: Built, browser: Browser) -> None:
    """The browser itself opens the box."""
    with visit(browser, viewport=PHONE, java_script_enabled=False) as visited:
        visited.page.goto(example.url("pen-creek"))
        open_working(visited.page)
        assert visited.page.locator("[popover]:popover-open").count() == 1


def test_the_site_works_without_script(example: Built, browser: Browser) -> None:
    """The finder gives way to links to the charts; all sheets are listed; the bar works."""
    with visit(browser, viewport=PHONE, java_script_enabled=False) as visited:
        page = visited.page
        page.goto(example.url("index"))
        assert not page.locator("#finder").is_visible()
        assert page.locator(".without a").count() >= 3
        assert page.locator("#now a").first.is_visible()
        page.get_by_role("navigation", name="Main menu").get_by_text("Find").click()
        listed = sum("site" in sheet.where for sheet in example.book.pages)
        expect(page.locator("#all li")).to_have_count(listed)
        page.get_by_role("navigation", name="Main menu").get_by_text("Pens").click()
        page.get_by_role("link", name="Creek paddock").first.click()
        expect(page.locator("h1")).to_have_text("Creek paddock")


def test_keys_alone_reach_everything(example: Built, desk: Visit) -> None:
    """Tab goes to skip link, farm, bar, then the finder's fields in order; none traps."""
    page = desk.page
    page.goto(example.url("index"))
    seen = []
    for _ in range(40):
        page.keyboard.press("Tab")
        seen.append(
            page.evaluate(
                "() => { const e = document.activeElement;"
                " return e.id || e.dataset.for || e.className || e.textContent.trim(); }"
            )
        )
    assert seen[0] == "skip"
    assert seen[1] == "farm"
    assert seen[2:7] == ["index", "emergencies", "pens", "rounds", "find"]
    at = seen.index("temp")  # after the signs and the visit that is on
    fields = ["temp", "temp", "temp", "damp", "humidity", "humidity", "humidity"]
    assert seen[at : at + 7] == fields
    page.goto(example.url("pen-creek"))
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("() => document.activeElement.id") == "main"


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("pant", "pig-in-heat-trouble"),
        ("clementine", "pen-creek"),
        ("E7", "no-water-now"),
        ("bleach", "mixing-bleach"),
        ("paddok", "pen-creek"),
    ],
)
def test_search_finds(example: Built, phone: Visit, typed: str, first: str) -> None:
    """Typing shows the sheet meant near the top, also with a letter missing."""
    phone.page.goto(example.url("find"))
    phone.page.get_by_label("Find a sheet").fill(typed)
    shown = phone.page.eval_on_selector_all("#results li", "a => a.map(l => l.dataset.sheet)")
    assert first in shown[:4]


def test_search_says_when_nothing_fits(example: Built, phone: Visit) -> None:
    """No list, and a word instead; emptied, the whole list is back."""
    phone.page.goto(example.url("find"))
    box = phone.page.get_by_label("Find a sheet")
    box.fill("xyzzy")
    assert phone.page.locator("#found").inner_text() == "Nothing found"
    assert not phone.page.locator("#results").is_visible()
    box.fill("")
    assert phone.page.locator("#all").is_visible()


def test_the_dark_is_dark(example: Built, browser: Browser) -> None:
    """At night the ground of every page is dark, the letters light."""
    with visit(browser, viewport=PHONE, color_scheme="dark") as visited:
        visited.page.goto(example.url("pen-creek"))
        ground = visited.page.evaluate("() => getComputedStyle(document.body).backgroundColor")
        assert max(int(part) for part in re.findall(r"\d+", ground)[:3]) < 40


def test_no_motion_for_those_who_want_none(example: Built, browser: Browser) -> None:
    """The box of a working does not move where reduced motion is asked for."""
    with visit(browser, viewport=PHONE, reduced_motion="reduce") as visited:
        visited.page.goto(example.url("pen-creek"))
        open_working(visited.page)
        name = visited.page.eval_on_selector(
            "[popover]:popover-open", "box => getComputedStyle(box).animationName"
        )
        assert name == "none"


def test_printing_a_page_prints_the_sheet(example: Built, desk: Visit) -> None:
    """Bar, search and lists of other sheets stay on the screen."""
    desk.page.goto(example.url("pen-creek"))
    desk.page.emulate_media(media="print")
    assert not desk.page.locator(".bar").is_visible()
    assert not desk.page.locator(".all-emergencies").is_visible()
    assert desk.page.locator("h1").is_visible()


SMALL_FARMS = {
    "one of each": "- {name: Ada, species: pig, pen: a}\n- {name: Bea, species: goat, pen: a}\n"
    "- {group: Hens, species: chicken, count: 4, pen: a}\n",
    "only chicks": "- {group: Chicks, species: chicken, count: 4, pen: a, born: 2026-05-29}\n",
    "nobody in a pen": "- {name: Ada, species: pig}\n",
}


@pytest.mark.parametrize("animals", SMALL_FARMS.values(), ids=SMALL_FARMS.keys())
def test_a_small_farm_has_a_site(
    tmp_path: Path, farm_folder: FarmFolder, browser: Browser, animals: str
) -> None:
    """Name, place, animals, one pen, one phone number: every page opens, in metric too."""
    farm = farm_folder(
        {
            "farm.yaml": "name: Quiet Acre\nplace: 12 Example Road\nunits: metric\n",
            "animals.yaml": animals,
            "pens.yaml": "- {id: a, name: Back lot, kind: pasture}\n",
            "contacts.yaml": "- {name: Ann Example, role: owner, phone: 555-0101}\n",
        }
    )
    built = build_screens(farm, tmp_path)
    with visit(browser, viewport=PHONE) as visited:
        wide = {}
        for name in built.names:
            visited.page.goto(built.url(name))
            if over := visited.page.evaluate(WIDER):
                wide[name] = over
        assert visited.heard.faults == []
        assert wide == {}
        visited.page.goto(built.url("index"))
        assert visited.page.locator("h1").count() == 1
