"""The phone file: one file, in flight mode, as good as the site."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import unquote, urlsplit

import pytest

from tests.browser.conftest import PHONE, visit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Page

    from tests.browser.conftest import Built, Visit

pytestmark = pytest.mark.browser

SHOWN = (
    "() => [...document.querySelectorAll('.view')].filter(v => v.checkVisibility())"
    ".map(v => v.id)"
)


@pytest.fixture
def flight(browser: Browser) -> Iterator[Visit]:
    """Return a page in flight mode."""
    with visit(browser, viewport=PHONE, offline=True, has_touch=True) as visited:
        yield visited


def test_it_is_one_small_file(example: Built) -> None:
    """Below 3 MB, and nothing lies beside it."""
    path = Path(unquote(urlsplit(example.phone).path))
    assert path.stat().st_size < 3_000_000
    assert [each.name for each in path.parent.iterdir()] == ["binder.html"]


def test_every_page_shows_alone(example: Built, flight: Visit) -> None:
    """Each address behind # shows its page and no other; nothing is asked of anybody."""
    page = flight.page
    page.goto(example.phone)
    assert page.evaluate(SHOWN) == ["index"]
    for sheet in example.book.pages:
        if "phone" not in sheet.where:
            continue
        page.goto(f"{example.phone}#{sheet.slug}")
        assert page.evaluate(SHOWN) == [sheet.slug]
        assert page.locator("h1:visible").count() == 1
    assert flight.heard.faults == []
    assert {url.split("#")[0] for url in flight.heard.asked if "data:" not in url} == {
        example.phone
    }


def test_links_move_inside_the_file(example: Built, flight: Visit) -> None:
    """The bar, a sheet's link, the back key: title, place and focus follow."""
    page = flight.page
    page.goto(example.phone)
    page.get_by_role("link", name="Pens", exact=True).first.tap()
    assert page.evaluate(SHOWN) == ["pens"]
    page.locator("#pens").get_by_role("link", name="Creek paddock").tap()
    assert page.evaluate(SHOWN) == ["pen-creek"]
    assert page.title().endswith("Creek paddock · Ninebark Bottom Farm")
    assert page.evaluate("() => [window.scrollY, document.activeElement.tagName]") == [0, "H1"]
    page.locator("#pen-creek a.sheet:visible").first.tap()
    assert page.evaluate(SHOWN) != ["pen-creek"]
    page.go_back()
    assert page.evaluate(SHOWN) == ["pen-creek"]


def test_every_link_leads_into_the_file(example: Built, flight: Visit) -> None:
    """Each # address is there, once."""
    flight.page.goto(example.phone)
    links, ids = flight.page.evaluate(
        "() => [[...document.querySelectorAll('a[href^=\"#\"]')].map(a =>"
        " decodeURIComponent(a.getAttribute('href').slice(1))),"
        " [...document.querySelectorAll('[id]')].map(e => e.id)]"
    )
    assert set(links) <= set(ids)
    assert len(ids) == len(set(ids))


def find_and_search(page: Page) -> None:
    """Use the finder, then the search."""
    page.locator("#temp").fill("102")
    page.locator("#humidity").fill("50")
    assert page.locator("#now .band").first.inner_text() in "34"
    page.get_by_role("link", name="Find", exact=True).first.click()
    page.get_by_label("Find a sheet").fill("pant")
    page.locator("#results a").first.click()
    assert page.evaluate(SHOWN) not in (["find"], ["index"])


def test_finder_and_search_work_in_flight(example: Built, flight: Visit) -> None:
    """Both come inside the file, and its own policy lets them run."""
    flight.page.goto(example.phone)
    find_and_search(flight.page)
    assert flight.heard.faults == []


def test_a_number_opens_its_working(example: Built, flight: Visit) -> None:
    """And its working on the Numbers sheet can be reached."""
    page = flight.page
    page.goto(f"{example.phone}#pen-creek")
    page.locator("#pen-creek button.number").first.tap()
    assert page.locator("[popover]:popover-open").count() == 1


def test_it_works_without_script(example: Built, browser: Browser) -> None:
    """The style alone shows the page that the address names."""
    with visit(browser, viewport=PHONE, offline=True, java_script_enabled=False) as visited:
        page = visited.page
        page.goto(example.phone)
        assert page.locator("h1:visible").inner_text() == "What is it like now?"
        page.get_by_role("link", name="Emergency", exact=True).first.click()
        page.locator("#emergencies").get_by_role("link", name="A pig is in heat").click()
        assert page.locator("h1:visible").inner_text() == "A pig is in heat trouble"


def test_a_stranger_is_at_the_emergency_in_one_tap(example: Built, flight: Visit) -> None:
    """On the first screen, above the bar, stands the way to a pig in heat trouble."""
    page = flight.page
    page.goto(example.phone)
    link = page.locator("#index .signs a", has_text="A pig is in heat trouble")
    box = link.bounding_box()
    assert box is not None
    assert box["y"] + box["height"] < PHONE["height"] - 64
    link.tap()
    assert page.evaluate(SHOWN) == ["pig-in-heat-trouble"]
