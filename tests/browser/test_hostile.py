"""Whatever the owner's files hold, on a screen it is text: nothing runs, nothing is loaded."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest

from tests import farm_data
from tests.browser.conftest import PHONE, Built, build_screens, visit

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = [pytest.mark.browser, pytest.mark.slow]

# Markup, script, template and Markdown signs, letters from right to left, and what JSON inside
# a script may trip over. Control characters and marks that turn text around are refused when
# the farm is read (tests/farm).
HOSTILE = (
    "<img src=x onerror=window.hurt=1><script>window.hurt=1</script>",
    "\"' onmouseover=window.hurt=1 x='</title></style></textarea><svg onload=window.hurt=1>",
    "[tap](javascript:window.hurt=1) **b** # h {{ 7*7 }} {% if 1 %} ${1} <!-- ]]> &lt; \\u003c",
    "</script><script>window.hurt=1</script> \u200fŁódź `x` <b>bold</b> {{farm.name}} %s {0}",
)


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Built:
    """Return the screens of a farm whose every free text ends in a hostile one."""
    folder = tmp_path_factory.mktemp("hostile")
    data = json.loads(json.dumps(farm_data.read()))
    changed = 0
    for name, tree in data.items():
        for path, text in list(farm_data.leaves(tree)):
            if farm_data.is_free(name, path):
                farm_data.put(tree, path, f"{text[:20]} {HOSTILE[changed % len(HOSTILE)]}")
                changed += 1
    assert changed > 60
    return build_screens(farm_data.write(data, folder / "farm"), folder)


# Elements and attributes that no page of ours has.
STRANGE = """() => [...document.querySelectorAll('*')].flatMap(each => [
    ...[...each.attributes].filter(a => a.name.startsWith('on') ||
      /^\\s*javascript:/i.test(a.value)).map(a => `${each.tagName} ${a.name}=${a.value}`),
    ...(each.matches('iframe, object, embed, base, svg[onload], img[src="x"]')
      ? [each.outerHTML.slice(0, 80)] : []),
    ...(each.matches('script:not([src])') && !document.body.matches('.phone-file')
      ? [each.outerHTML.slice(0, 80)] : []),
  ]).concat(window.hurt ? ['hurt'] : [])"""


@dataclass(frozen=True)
class Walk:
    """What the pages had to show: by name, together, and what they asked for."""

    strange: dict[str, list[str]]
    wide: dict[str, int]
    text: str
    faults: list[str]
    asked: list[str]


WIDER = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"


@pytest.fixture(scope="module")
def walk(hostile: Built, browser: Browser) -> Walk:
    """Return what a walk over every page finds; each is opened once for all tests."""
    strange, wide, texts = {}, {}, []
    with visit(browser, viewport=PHONE) as visited:
        page = visited.page
        for name in hostile.names:
            page.goto(hostile.url(name))
            strange[name] = page.evaluate(STRANGE)
            wide[name] = page.evaluate(WIDER)
            texts.append(page.locator("main").inner_text())
        page.goto(hostile.phone)
        strange["phone"] = page.evaluate(STRANGE)
        return Walk(strange, wide, "".join(texts), visited.heard.faults, visited.heard.asked)


def test_no_page_is_hurt(walk: Walk) -> None:
    """No script of the farm's text runs, no element of it exists, nothing is asked outside."""
    assert {name: found for name, found in walk.strange.items() if found} == {}
    assert len(walk.strange) > 100
    assert walk.faults == []
    assert all(url.startswith(("file:", "data:")) for url in walk.asked)
    assert not any(url.endswith("/x") for url in walk.asked)


def test_the_text_is_shown_as_written(hostile: Built, browser: Browser, walk: Walk) -> None:
    """Pages and search show the signs themselves; templates and Markdown see none."""
    assert [text for text in HOSTILE if text not in walk.text] == []
    with visit(browser, viewport=PHONE) as visited:
        page = visited.page
        page.goto(hostile.url("find"))
        page.get_by_label("Find a sheet").fill("onerror")
        assert page.locator("#results li").count() > 0
        assert page.evaluate(STRANGE) == []


def test_no_page_grows_wider(walk: Walk) -> None:
    """Nor does a long word push a page past the edge of a phone."""
    assert {name: over for name, over in walk.wide.items() if over > 0} == {}


def test_the_finder_shows_names_as_text(hostile: Built, browser: Browser) -> None:
    """What the script writes into the page is text too, spoken words included."""
    with visit(browser, viewport=PHONE) as visited:
        page = visited.page
        page.goto(hostile.url("index"))
        page.locator("#temp").fill("99")
        page.locator("#humidity").fill("60")
        page.wait_for_function("() => document.getElementById('worst').textContent !== ''")
        assert "hurt" in str(page.locator("#worst").text_content())
        assert page.evaluate(STRANGE) == []
