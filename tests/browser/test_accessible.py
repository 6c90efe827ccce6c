"""Every page against axe-core (4.12, WCAG 2.2 A and AA and its best practices)."""

from __future__ import annotations

import re
from importlib.resources import files
from typing import TYPE_CHECKING

import pytest

from binder.data import TEMPLATES
from tests.browser.conftest import DESK, PHONE, visit
from tests.structures import EXTENTS, cover

if TYPE_CHECKING:
    from collections.abc import Sequence

    from playwright.sync_api import Browser, Page

    from tests.browser.conftest import Built

pytestmark = [pytest.mark.browser, pytest.mark.slow]

AXE = files("axe_playwright_python") / "axe.min.js"
# The rules of axe-core that look at colours (its tag `cat.color`), those it leaves off aside.
OF_COLOUR = ("color-contrast", "link-in-text-block")
OF_LOOK = re.compile(r"--[a-z0-9-]+|color-scheme|background|border-top|padding")
RUN = """([rules, without]) => axe.run(document, {resultTypes: ['violations'],
    ...(rules.length ? {runOnly: {type: 'rule', values: rules}} : {}),
    rules: Object.fromEntries(without.map(rule => [rule, {enabled: false}]))}).then(found =>
  found.violations.map(each => `${each.id}: ` +
    each.nodes.slice(0, 3).map(node => `${node.target} ${node.failureSummary}`).join(' | ')))"""


def violations(page: Page, rules: Sequence[str] = (), without: Sequence[str] = ()) -> list[str]:
    """Return what axe-core, or some of its rules, says is wrong with the page as it stands."""
    found: list[str] = page.evaluate(RUN, [list(rules), list(without)])
    return found


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
@EXTENTS
def test_no_page_has_a_violation(
    example: Built, browser: Browser, size: dict[str, int], extent: str
) -> None:
    """axe-core finds nothing on a page, on a phone and at a desk, by day and at night.

    `few` are pages that have every structure of all pages among them. Night changes colours and
    nothing else, so at night the rules that look at colours are asked again, on the same page.
    They take most of the time: at a desk, where the frame and the kinds of sheet have colours
    of their own and the words have none, they are asked on the pages without a sheet and on one
    sheet of each kind.
    """
    found = {}
    kinds = {page.slug: page.kind for page in example.book.pages}
    names = example.names if extent == "every" else cover(example.texts())
    firsts = {kinds[name]: name for name in names if name in kinds}
    coloured = {name for name in names if name not in kinds or size == PHONE}
    coloured |= set(firsts.values())
    with visit(browser, viewport=size, bypass_csp=True) as visited:
        page = visited.page
        page.add_init_script(path=str(AXE))
        for name in names:
            page.goto(example.url(name))
            wrong = violations(page, without=() if name in coloured else OF_COLOUR)
            if name in coloured:
                page.emulate_media(color_scheme="dark")
                wrong += [f"at night: {each}" for each in violations(page, OF_COLOUR)]
                page.emulate_media(color_scheme="light")
            if wrong:
                found[name] = wrong
    assert found == {}


def test_night_changes_looks_alone() -> None:
    """Under the night's rule of our style sheets stand colours and edges: see above."""
    text = re.sub(
        r"/\*.*?\*/", "", (TEMPLATES / "screen.css").read_text("utf-8"), flags=re.DOTALL
    )
    _, night = text.split("prefers-color-scheme: dark) {\n")
    night = night[: night.index("\n}\n")]
    named = re.findall(r"[;{]\s*([\w-]+):", night)
    assert len(named) > 20
    assert [name for name in named if not OF_LOOK.fullmatch(name)] == []


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
        of_colour = " ".join(violations(visited.page, OF_COLOUR))
        assert "color-contrast" in of_colour
        assert "button-name" not in of_colour
