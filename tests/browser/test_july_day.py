"""A day of the July stay on a small phone without a network: open, read, do, tick, share."""

from __future__ import annotations

import csv
import datetime as dt
import io
from typing import TYPE_CHECKING

import pytest

from binder.pages.art.qr import qr_svg
from tests.browser.conftest import PHONE, visit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Page

    from tests.browser.conftest import Built, Visit

pytestmark = pytest.mark.browser

DAY = dt.date(2026, 7, 12)


@pytest.fixture
def july(example: Built, browser: Browser) -> Iterator[Visit]:
    """Return the phone file in flight mode, at five past one on a day of the stay."""
    with visit(
        browser, viewport=PHONE, offline=True, has_touch=True, is_mobile=True
    ) as visited:
        visited.page.clock.install(time=f"{DAY}T13:05:00")
        visited.page.goto(example.phone)
        yield visited


def plan(built: Built) -> dict[str, object]:
    """Return the plan of the July stay as the screens have it."""
    return next(dict(one) for one in built.book.agenda if one["id"] == "july")


def read(page: Page) -> None:
    """Give a reading."""
    page.locator("#temp").fill("95")
    page.locator("#humidity").fill("55")


def test_it_opens_with_the_hour(example: Built, july: Visit) -> None:
    """The visit that is on, its stops in order, what is due, the next meal and visit."""
    page = july.page
    assert page.locator("h1:visible").inner_text() == "Now: 1 pm visit"
    said = page.locator("#hour").inner_text()
    stay = plan(example)
    names = {one["id"]: one["name"] for one in stay["pens"]}  # type: ignore[attr-defined]
    one_pm = next(one for one in stay["visits"] if one["h"] == 13)  # type: ignore[attr-defined]
    shown = page.locator("ol.stops li").all_inner_texts()
    assert shown == [names[pen] for pen in one_pm["stops"]]
    for line in stay["days"][DAY.isoformat()]:  # type: ignore[index]
        assert line in said
    assert "Next meal:" in said
    assert "Next visit:" in said
    page.get_by_role("link", name="Open the card").tap()
    assert page.locator("h1:visible").inner_text() == "Visit at 1 pm"


def test_between_visits_it_says_when_to_be_back(example: Built, july: Visit) -> None:
    """At ten past four: no visit is on; the last reading says back by when, and where first."""
    page = july.page
    page.clock.set_fixed_time(f"{DAY}T16:10:00")
    page.goto(f"{example.phone}#pens")
    page.goto(f"{example.phone}#index")
    assert page.locator("h1:visible").inner_text() == "Now: between visits"
    read(page)
    said = page.locator("#hour").inner_text().replace("\u00a0", " ")
    assert "Back by " in said
    assert "number 3." in said


def test_outside_a_stay_it_is_the_farms_own_round(example: Built, browser: Browser) -> None:
    """On 2 June nobody is away: the farm's rounds, and when the next stay begins."""
    with visit(browser, viewport=PHONE) as visited:
        page = visited.page
        page.clock.install(time="2026-06-02T06:35:00")
        page.goto(example.url("index"))
        own = next(one for one in example.book.agenda if not one["first"])
        assert own["visits"]
        assert page.locator("h1").inner_text().startswith("Now: ")
        assert page.locator("ol.stops li").count() == len(own["pens"])  # type: ignore[arg-type]
        said = page.locator("#hour").inner_text()
        assert "Next stay: Marisol Quade, Friday, July 10" in said


def test_what_is_ticked_stays(example: Built, july: Visit) -> None:
    """A tap on a task ticks it; it is there after the page is left, and gone the next day."""
    page = july.page
    page.get_by_role("link", name="Open the card").tap()
    card = page.locator(".view:visible")
    first = card.locator("label.tickable").first
    box = first.bounding_box()
    assert box is not None
    assert box["height"] >= 48
    first.tap()
    assert card.locator(".ticked").inner_text().startswith("1 of ")
    page.goto(f"{example.phone}#index")
    assert "Ticked on it: 1" in page.locator("#hour").inner_text()
    page.reload()
    page.get_by_role("link", name="Open the card").tap()
    assert page.locator(".view:visible input.tick-box").first.is_checked()
    page.clock.set_fixed_time(f"{DAY + dt.timedelta(days=1)}T13:05:00")
    page.reload()
    assert page.locator(".view:visible input.tick-box:checked").count() == 0


def test_a_look_is_ticked_too(example: Built, july: Visit) -> None:
    """The card of the short looks has a box for each, kept for the day like a visit's."""
    page = july.page
    page.goto(f"{example.phone}#looks-july")
    card = page.locator(".view:visible")
    assert card.locator("label.tickable").count() > 2
    card.locator("label.tickable").first.tap()
    assert card.locator(".ticked").inner_text().startswith("1 of ")
    page.reload()
    assert page.locator(".view:visible input.tick-box").first.is_checked()
    assert july.heard.faults == []


@pytest.mark.parametrize("name", ["visit-july-1300", "looks-july"])
def test_boxes_are_kept_on_the_site_too(name: str, example: Built, phone: Visit) -> None:
    """Its pages load what counts and keeps the ticks."""
    page = phone.page
    page.clock.install(time=f"{DAY}T13:05:00")
    page.goto(example.url(name))
    page.locator("label.tickable").first.tap()
    assert page.locator(".ticked").inner_text().startswith("1 of ")
    page.reload()
    assert page.locator("input.tick-box").first.is_checked()


def test_a_line_for_each_pen_goes_out_as_text_and_csv(example: Built, july: Visit) -> None:
    """Number, counted, breathing, water, notes, initials; nothing is sent by itself."""
    page = july.page
    read(page)
    page.get_by_role("link", name="Write down what you saw").first.tap()
    assert "nothing is sent by itself" in page.locator(".view:visible").inner_text()
    page.get_by_label("Your initials").fill("MQ")
    creek = page.locator(".pen-log", has_text="Creek paddock")
    assert creek.get_by_label("Number, 0 to 4").input_value() == "3"
    creek.get_by_label("Counted").fill("1")
    creek.get_by_label("Breathing").select_option("open-mouth")
    assert creek.get_by_role("link", name="tab E").count() == 1
    creek.get_by_label("Water").select_option("failed")
    creek.get_by_label("Notes").fill('=left, "quiet"')
    text = page.locator("#log-text").input_value()
    assert "Creek paddock: number 3, 1 of 1, breathing mouth open, water weak or dry" in text
    with page.expect_download() as given:
        page.get_by_role("button", name="Save as CSV").tap()
    assert given.value.suggested_filename == f"july-{DAY}.csv"
    table = given.value.path().read_text(encoding="utf-8")
    (row,) = csv.DictReader(io.StringIO(table))
    assert row == {
        "date": DAY.isoformat(), "visit": "13:00", "written": "13:05", "pen": "creek",
        "number": "3", "air": "95°F 55%", "counted": "1", "of": "1",
        "breathing": "open-mouth", "water": "failed", "notes": "'=left, \"quiet\"",
        "initials": "MQ",
    }  # fmt: skip
    page.reload()
    assert creek.get_by_label("Notes").input_value() == '=left, "quiet"'
    page.get_by_role("button", name="Share as text").tap()
    assert page.locator("#log-said").inner_text() != ""
    assert july.heard.faults == []
    assert {url.split("#")[0] for url in july.heard.asked if "data:" not in url} == {
        example.phone
    }


def test_it_says_how_old_it_is(example: Built, browser: Browser) -> None:
    """Made on 1 June: 41 days later it asks for a new one; on its day it says no age."""
    with visit(browser, viewport=PHONE, offline=True) as visited:
        page = visited.page
        for now, said in (
            ("2026-06-01T08:00:00", "made 1 June 2026"),
            ("2026-06-03T08:00:00", "made 1 June 2026, 2 days ago"),
            ("2026-07-12T13:05:00", "made 1 June 2026, 41 days ago: ask for a new one"),
        ):
            page.clock.install(time=now)
            page.goto(example.phone)
            assert page.locator(".made").inner_text() == said


def test_without_scripts_it_says_what_still_works(example: Built, browser: Browser) -> None:
    """It asks for a browser, and shows charts, sheets and numbers to call all the same."""
    with visit(browser, viewport=PHONE, offline=True, java_script_enabled=False) as visited:
        page = visited.page
        page.goto(example.phone)
        assert page.locator(".open-in").inner_text().startswith("Open this file in a browser")
        page.goto(f"{example.phone}#chart-pigs")
        assert page.locator(".view:visible table.bands td").count() > 50
        assert page.locator(".aside .trouble a[href^='tel:']").first.is_visible()


def test_the_site_offers_the_file_to_save(example: Built, phone: Visit) -> None:
    """A download link with the farm's name, and a line for each sort of phone."""
    page = phone.page
    page.goto(example.url("index"))
    link = page.locator(".offer a")
    assert link.get_attribute("download") == "ninebark-bottom-farm.html"
    assert page.locator(".offer li").count() == 3


def test_the_square_code_on_the_cover_leads_to_the_file(example: Built, phone: Visit) -> None:
    """It is the address of the home page, which offers the file that the host serves there."""
    (cover,) = (page for page in example.book.pages if page.kind == "cover")
    assert example.book.site_address.startswith("http://")
    assert qr_svg(example.book.site_address) in cover.body
    page = phone.page
    page.goto(example.url("index"))  # what an address without a name opens
    offered = page.locator(".offer a").get_attribute("href")
    assert offered is not None
    assert (example.folder / "site" / offered).resolve() == (
        example.folder / "phone" / "binder.html"
    )
