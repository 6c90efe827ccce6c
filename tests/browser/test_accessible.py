"""Every page against axe-core (4.12, WCAG 2.2 A and AA and its best practices)."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING, Any

import pytest

from tests.browser.conftest import DESK, PHONE, visit

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

    from tests.browser.conftest import Built

pytestmark = [pytest.mark.browser, pytest.mark.slow]

AXE = files("axe_playwright_python") / "axe.min.js"
RUN = """() => axe.run(document, {resultTypes: ['violations']}).then(found =>
  found.violations.map(each => `${each.id}: ` +
    each.nodes.slice(0, 3).map(node => `${node.target} ${node.failureSummary}`).join(' | ')))"""


def violations(page: Page) -> list[str]:
    """Return what axe-core says is wrong with the page as it stands."""
    found: list[str] = page.evaluate(RUN)
    return found


@pytest.mark.parametrize("colours", ["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_no_page_has_a_violation(
    example: Built, browser: Browser, size: dict[str, int], colours: Any
) -> None:
    """axe-core finds nothing on any page, on a phone and at a desk, by day and at night."""
    found = {}
    with visit(browser, viewport=size, color_scheme=colours, bypass_csp=True) as visited:
        visited.page.add_init_script(path=str(AXE))
        for name in example.names:
            visited.page.goto(example.url(name))
            if wrong := violations(visited.page):
                found[name] = wrong
    assert found == {}


def test_open_boxes_have_no_violation(example: Built, browser: Browser) -> None:
    """The working of a number, open, is sound too; so is the list of found sheets."""
    with visit(browser, viewport=PHONE, reduced_motion="reduce") as visited:
        visited.page.add_init_script(path=str(AXE))
        visited.page.goto(example.url("pen-creek"))
        visited.page.locator("main button.number").first.click()
        assert violations(visited.page) == []
        visited.page.goto(example.url("find"))
        visited.page.get_by_label("Find a sheet").fill("water")
        assert violations(visited.page) == []


def test_the_phone_file_has_no_violation(example: Built, browser: Browser) -> None:
    """The single file is sound on its front, on a sheet and in its list."""
    with visit(browser, viewport=PHONE, bypass_csp=True) as visited:
        visited.page.add_init_script(path=str(AXE))
        for place in ("", "#pig-in-heat-trouble", "#pen-creek", "#find", "#chart-pigs"):
            visited.page.goto(example.phone + place)
            assert violations(visited.page) == [], place


def test_a_violation_would_be_found(example: Built, browser: Browser) -> None:
    """A button without a name and pale letters are reported: the check can fail."""
    with visit(browser, viewport=PHONE) as visited:
        visited.page.add_init_script(path=str(AXE))
        visited.page.goto(example.url("index"))
        visited.page.evaluate(
            "() => document.querySelector('main').insertAdjacentHTML('beforeend',"
            " '<button></button><p style=\"color:#bbb;background:#fff\">pale</p>')"
        )
        ids = " ".join(violations(visited.page))
        assert "button-name" in ids
        assert "color-contrast" in ids
