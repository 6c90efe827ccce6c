"""The site's files: what is in them, what is not, and that they come out the same each time."""

from __future__ import annotations

import io
import json
import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from binder import yamlfile
from binder.cache import Cache
from binder.output.screens import fonts, frame
from binder.output.screens.finder_form import as_script
from binder.output.screens.links import Links, apart, resolve, working_id
from binder.output.screens.phone import phone_file
from binder.output.screens.screen import MENUS, own_name
from binder.output.screens.site import files, write_site
from binder.output.screens.style import squeeze
from binder.output.screens.ticks import tickable
from binder.pages.page import PRINT_ONLY, Page
from binder.pages.text.tree import read

if TYPE_CHECKING:
    from binder.pages.page import Book
    from tests.output.conftest import MakeBook

ROOT = Path(__file__).resolve().parents[3]
PNG = b"\x89PNG\r\n\x1a\n picture of a gate"


def labels() -> dict[str, str]:
    """Return the words that screens show, as the pages step hands them on."""
    words = ROOT / "content/words/en"
    found: dict[str, str] = {}

    def walk(tree: Any, name: str) -> None:
        for key, below in tree.items():
            if isinstance(below, dict):
                walk(below, f"{name}{key}.")
            else:
                found[f"{name}{key}"] = str(below)

    things: Any = yamlfile.read(words / "pages.yaml").data
    site: Any = yamlfile.read(words / "site.yaml").data
    walk(things["labels"], "")
    walk(site["site"], "site.")
    given = {"made": "1 June 2026", "emergency_number": "911", "am": "am", "pm": "pm"}
    given |= {"begins_before_h": "0.5", "binder_old_days": "14"}
    return found | {f"site.{key}": text for key, text in given.items()}


@pytest.fixture
def screens(made: MakeBook) -> Book:
    """Return the invented binder with what screens need besides."""
    extra = '<img src="picture:gate one.png" alt="The gate">'
    number = '<a class="number" href="working:pen-water.creek">12 gal</a>'
    unknown = '<a class="number" href="working:nobody">3</a>'
    hidden = '<a class="sheet" href="sheet:gate-codes">K1</a>'
    text = f"<p>{number} {unknown} {hidden}</p>{extra}"
    book = made({"water": f"<h1>Water</h1>{text}"})
    return replace(
        book,
        labels={**book.labels, **labels()},
        workings={
            "pen-water.creek": "<h2>Water</h2><p>2 x 6 gal</p>",
            "pen-water.other": "<h2>Other</h2><p>Other</p>",
        },
        pictures={"gate one.png": PNG, "unused.png": PNG},
    )


def site(book: Book) -> dict[str, bytes]:
    """Return the site's files by name."""
    return dict(files(book))


def page(book: Book, name: str) -> str:
    """Return one page of the site."""
    return site(book)[f"{name}.html"].decode()


class Checker(HTMLParser):
    """Notes which elements stay open and which ids come twice."""

    EMPTY = frozenset(
        ["meta", "link", "br", "img", "input", "hr", "path", "circle", "rect", "line", "col"]
    )

    def __init__(self) -> None:
        """Begin with nothing open."""
        super().__init__()
        self.open: list[str] = []
        self.faults: list[str] = []
        self.ids: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element that opens."""
        self.ids += [value or "" for key, value in attrs if key == "id"]
        if tag not in self.EMPTY:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """Note an element that closes, or one that was never open."""
        if tag in self.EMPTY:
            return
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}> at {self.getpos()}")


def faults(html: str) -> list[str]:
    """Return what is wrong with the shape of a page."""
    checker = Checker()
    checker.feed(html)
    twice = {each for each in checker.ids if checker.ids.count(each) > 1}
    return [*checker.faults, *checker.open, *sorted(twice)]


def test_every_page_is_well_formed(screens: Book) -> None:
    """Every element is closed in its turn and no id comes twice, on site and phone."""
    for name, content in files(screens):
        if name.endswith(".html"):
            assert faults(content.decode()) == [], name
    assert faults(phone_file(screens)) == []


def test_every_sheet_for_screens_has_a_page(screens: Book) -> None:
    """One file a sheet under its slug, and the screens' own pages; none for print alone."""
    names = {name.removesuffix(".html") for name in site(screens) if name.endswith(".html")}
    shown = {sheet.slug for sheet in screens.pages if sheet.where != PRINT_ONLY}
    assert names == shown | set(MENUS)
    assert "gate-codes" not in names


def test_print_only_sheets_leave_no_trace(screens: Book) -> None:
    """Neither body, title nor slug of a sheet for print alone is anywhere on a screen."""
    secret = Page(
        "secret-slug", "K2", "K", "SecretTitle", "<p>SecretBody</p>", where=PRINT_ONLY,
        summary="SecretSummary", words="SecretWords",
    )  # fmt: skip
    book = replace(screens, pages=(*screens.pages, secret))
    everything = b"".join(content for _, content in files(book)) + phone_file(book).encode()
    assert b"secret" not in everything.lower().replace(b"gate-codes", b"")


def test_links_lead_to_pages_or_are_none(screens: Book) -> None:
    """A sheet shown is linked; one for print alone and an unknown number are plain text."""
    html = page(screens, "water")
    assert '<span class="sheet">K1</span>' in html
    assert '<span class="number">3</span>' in html
    assert "sheet:" not in html
    assert "working:" not in html
    assert "picture:" not in html
    assert "working:" not in page(screens, "hot-day")


def test_a_page_carries_only_its_own_workings(screens: Book) -> None:
    """The working of a number stands on the pages that show it, once."""
    assert page(screens, "water").count("2 x 6 gal") == 1
    assert "2 x 6 gal" not in page(screens, "index")
    assert not any(
        b"Other" in content for name, content in files(screens) if name != "style.css"
    )


def test_only_shown_pictures_are_written(screens: Book) -> None:
    """A picture that no page of the site shows stays at home."""
    written = site(screens)
    assert written["pictures/gate one.png"] == PNG
    assert "pictures/unused.png" not in written
    assert 'src="pictures/gate%20one.png"' in page(screens, "water")


def test_two_builds_are_the_same(screens: Book, tmp_path: Path) -> None:
    """Every byte, with a fresh cache too."""
    assert site(screens) == site(screens)
    assert phone_file(screens) == phone_file(screens)
    first = fonts.files(Cache(tmp_path / "one"))
    assert first == fonts.files(Cache(tmp_path / "two"))


def test_it_is_written_where_told(screens: Book, tmp_path: Path) -> None:
    """Into `site` below the folder, and nowhere else."""
    write_site(screens, tmp_path)
    written = {path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*.*")}
    assert written == {f"site/{name}" for name in site(screens)}


def test_no_page_names_another_place(screens: Book) -> None:
    """No address outside the folder but the phone file beside it, and none that is absolute."""
    for name, content in files(screens):
        if not name.endswith((".html", ".css", ".js")):
            continue
        text = content.decode()
        found = re.findall(r'(?:href|src|url\()\s*=?\s*["\']?(https?:|//|/)', text)
        assert found == [], name
        assert set(re.findall(r'"(\.\./[^"]*)"', text)) <= {"../phone/binder.html"}, name


def test_searchers_are_kept_out(screens: Book) -> None:
    """robots.txt and every page say so."""
    assert site(screens)["robots.txt"] == b"User-agent: *\nDisallow: /\n"
    for name, content in files(screens):
        if name.endswith(".html"):
            assert b'<meta name="robots" content="noindex, nofollow, noarchive">' in content


def test_names_from_the_farm_are_text(screens: Book) -> None:
    """Markup in the farm's name, a title, a summary or the foot is shown, not obeyed."""
    bad = '<script>alert("1")</script>&\u2028'
    pages = tuple(replace(each, title=bad, summary=bad, words=bad) for each in screens.pages)
    foot = replace(screens.foot, trouble=bad, address=bad, calls=((bad, "555-0104"),))
    book = replace(screens, name=bad, pages=pages, foot=foot)
    for name, content in files(book):
        if name.endswith((".html", ".js")):
            assert b"<script>alert" not in content, name
            assert "\u2028" not in content.decode() or name.endswith(".html")
    assert "<script>alert" not in phone_file(book)


@pytest.mark.parametrize("slug", MENUS)
def test_a_sheet_named_like_a_page_of_ours_steps_aside(screens: Book, slug: str) -> None:
    """An owner's sheet called `find` does not overwrite the search."""
    own = Page(slug, "W9", "W", "The owner's own", "<h1>The owner's own</h1>")
    book = replace(screens, pages=(*screens.pages, own))
    assert "The owner" in page(book, own_name(slug))
    assert page(book, slug) != page(book, own_name(slug))


def test_the_search_knows_titles_summaries_and_headings(screens: Book) -> None:
    """Each sheet is in the index once, with its words, none for print alone."""
    text = site(screens)["sheets.js"].decode()
    lines = text.splitlines()[0]
    index = json.loads(lines.removeprefix("window.binderSheets=").removesuffix(";"))
    assert {slug for slug, *_ in index} == {
        each.slug for each in screens.pages if each.where != PRINT_ONLY
    }
    titles = {slug: title for slug, title, *_ in index}
    assert titles["pig-in-heat-trouble"] == "E1 A pig is in heat trouble"


def test_the_fonts_are_the_packages_own() -> None:
    """Both weights, WOFF2, with the letters and the name of the package's files."""
    for name, content in fonts.files().items():
        assert content[:4] == b"wOF2", name
        with TTFont(io.BytesIO(content)) as font:
            assert font["name"].getDebugName(1) == "Atkinson Hyperlegible"
            assert set(map(ord, "0Oil°½×–’éñ")) <= set(font.getBestCmap())


# --- the small parts --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("css", "short"),
    [
        ("a { b: c; }", "a{b:c}"),
        ("/* x */ a{b:c}", "a{b:c}"),
        ('a::after{content:"/* { x } */  y"}', 'a::after{content:"/* { x } */  y"}'),
        ("a{width:calc(1px + 2px)}", "a{width:calc(1px + 2px)}"),
        ("a >  b,\n c {d:e}", "a>b,c{d:e}"),
        ("@media (a: b)  and (c: d) { e { f: g } }", "@media (a:b) and (c:d){e{f:g}}"),
        ("a :hover { b: c }", "a :hover{b:c}"),
        ('a{b:url("data:x,y z: w; }")}', 'a{b:url("data:x,y z: w; }")}'),
    ],
)
def test_squeezing_changes_no_meaning(css: str, short: str) -> None:
    """Comments and spaces go; texts in quotes and the spaces that count stay."""
    assert squeeze(css).replace("\n", "") == short


keys = st.text(min_size=1, max_size=12)


@given(first=keys, second=keys)
def test_two_numbers_never_share_a_box(first: str, second: str) -> None:
    """Ids of boxes differ where keys do, and hold nothing that HTML or CSS would trip over."""
    assert (working_id(first) == working_id(second)) == (first == second)
    assert re.fullmatch(r"[A-Za-z0-9_-]+", working_id(first))


@given(st.recursive(st.text(), st.lists, max_leaves=5))
def test_data_in_a_script_reads_back(data: object) -> None:
    """It is the same data, and holds no sign that could end the script or the line."""
    text = as_script(data)
    assert json.loads(text) == data
    assert not set(text) & set("<>&\u2028\u2029")


NO_LINKS = Links(lambda _: "", lambda _: "", {}, lambda _: ("", ""), "Table")


def resolved(body: str, links: Links) -> tuple[str, tuple[str, ...]]:
    """Return a body as a screen shows it, and its workings."""
    tree = read(body)
    keys = resolve(tree, links)
    return tree.html, keys


def test_empty_heads_become_cells() -> None:
    """A blank line of a log has no head that names nothing."""
    body, _ = resolved('<table><tr><th scope="row"> </th><td></td></tr></table>', NO_LINKS)
    assert "<th" not in body


HEADS = "<thead><tr>" + "<th>A &amp; b</th>" * 4 + "</tr></thead>"
CELLS = '<tr><th scope="row">x</th><td>1</td><td class="amount">2</td><td><b>3</b></td></tr>'


def test_facts_stand_one_below_the_other() -> None:
    """A table of four columns tells each cell its column's head and every part its role."""
    table = f'<table class="facts">{HEADS}<tbody>{CELLS}</tbody></table>'
    body, _ = resolved(table, NO_LINKS)
    assert '<table role="table" class="facts stack">' in body
    assert '<th role="rowheader" scope="row">x</th>' in body
    assert '<td role="cell" class="amount" data-label="A &amp; b">2</td>' in body
    assert '<th role="columnheader">A &amp; b</th>' in body


@pytest.mark.parametrize("kind", ["bands", "log", "facts asks"])
def test_charts_and_forms_stay_whole(kind: str) -> None:
    """What is read across moves sideways instead."""
    body, _ = resolved(f'<table class="{kind}">{HEADS}<tbody>{CELLS}</tbody></table>', NO_LINKS)
    assert "stack" not in body
    assert body.startswith('<div class="scroll" tabindex="0"')


def test_a_number_in_running_text_can_be_dialled() -> None:
    """A toll-free number becomes a link, once, and not inside a link or an attribute."""
    body, _ = resolved(
        '<p title="1-800-222-1222">Call 1-800-222-1222. '
        '<a href="tel:18002221222">1-800-222-1222</a> 21-800-222-12223</p>',
        NO_LINKS,
    )
    assert body.count("href=") == 2
    assert '<a class="phone" href="tel:18002221222">1-800-222-1222</a>. ' in body


def test_every_number_to_call_can_be_dialled() -> None:
    """Those of the book and of an emergency; no amount, no address, no longer number."""
    links = replace(
        NO_LINKS,
        phones=frozenset({"912-555-0110", "912-555-0110 ext. 4"}),
        emergency="911",
        places={"tab E": "emergencies.html"},
    )
    body, _ = resolved(
        "<p>Call 911 or 912-555-0110 ext. 4. Not 1912-555-01101, not the 911 address, "
        "not 911 lb, 9.911 or 911.5. Panting: tab E.</p><button>911</button>",
        links,
    )
    assert body.count("tel:911") == 1
    assert '<a class="phone" href="tel:9125550110">912-555-0110 ext. 4</a>. Not 1912' in body
    assert '<a class="sheet" href="emergencies.html">tab E</a>.' in body
    assert body.count("<a ") == 3


def test_tables_move_sideways() -> None:
    """Wide ones can be reached by key, narrow ones need not."""
    wide, _ = resolved("<table><tr><td></td><td></td><td></td></tr></table>", NO_LINKS)
    narrow, _ = resolved("<table><tr><td></td><td></td></tr></table>", NO_LINKS)
    assert 'tabindex="0"' in wide
    assert narrow.startswith('<div class="scroll"><table>')


TASK = (
    '<th scope="row"><span class="tick"></span> Fill the <b>tub</b>, '
    '<span class="much"><a href="working:x">9 gal</a></span> at once</th>'
)


def test_a_task_has_a_box_and_its_amount_stands_apart() -> None:
    """What is tapped to tick holds no link; a task that is one is left as it is."""
    tree = read(f"<tr>{TASK}</tr>")
    tickable(tree, "card visit")
    assert tree.html == (
        '<tr><th scope="row"><label class="tickable"><input type="checkbox" class="tick-box" '
        'autocomplete="off"><span>Fill the <b>tub</b>,</span></label><span class="much">'
        '<a href="working:x">9 gal</a></span> at once</th></tr>'
    )
    linked = '<tr><th><span class="tick"></span><a href="x.html">Look</a></th></tr>'
    for body, kind in ((linked, "visit"), (f"<tr>{TASK}</tr>", "log")):
        tree = read(body)
        tickable(tree, kind)
        assert tree.html == body


def test_a_look_is_named_by_its_hour_and_its_pen() -> None:
    """A cell without a box, where nobody looks, stays."""
    tree = read(
        '<table><tr><th scope="col">At</th><th scope="col">Creek</th><th scope="col">Barn</th>'
        '</tr><tr><th scope="row">2 pm</th><td><span class="tick"></span></td><td>-</td></tr>'
        "</table>"
    )
    tickable(tree, "pack looks")
    boxes = [one.given["aria-label"] for one in read(tree.html).all("input")]
    assert boxes == ["2 pm, Creek"]
    assert "<td>-</td>" in tree.html


def test_ids_of_one_sheet_are_set_apart() -> None:
    """Patterns and labels of a drawing follow their ids; other addresses stay."""
    body = (
        '<svg aria-labelledby="t"><title id="t">x</title><pattern id="p"/>'
        '<rect fill="url(#p)"/><a href="#p"></a><a href="#other"></a></svg>'
    )
    tree = read(body)
    apart(tree, "sheet")
    assert tree.html == (
        '<svg aria-labelledby="sheet--t"><title id="sheet--t">x</title>'
        '<pattern id="sheet--p"/><rect fill="url(#sheet--p)"/><a href="#sheet--p"></a>'
        '<a href="#other"></a></svg>'
    )


@pytest.mark.parametrize(
    ("number", "dialed"),
    [("912-555-0132 ext. 12", "9125550132"), ("+1 (912) 555-0132", "+19125550132")],
)
def test_the_foot_dials_the_number_alone(number: str, dialed: str) -> None:
    """Whoever taps it reaches the office, and then keys in the extension."""
    assert f'href="tel:{dialed}">' in frame._phone(number)
