"""The maintained words: one test for each rule that a protocol has to keep.

The rules are the project's own; where one has an origin outside it, the test names it.
"""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace
from typing import TYPE_CHECKING, get_args

import pytest
import textstat

from binder.data import CONTENT
from binder.farm.model import SPECIES
from binder.farm.model.pens import PenKind
from binder.figures.published import rows
from binder.output.print import render_book
from binder.pages.book.registry import TABS
from binder.pages.page import SITE
from binder.pages.text.protocol import SIGNALS
from binder.pages.text.protocol_file import load_folder
from binder.sources import all_sources
from tests.pages.reading import actions, reading

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from binder.pages.page import Book, Page
    from binder.pages.text.protocol_file import Protocol

FOLDER = CONTENT / "protocols" / "en"
PROTOCOLS = load_folder(FOLDER, "content/protocols/en")
EMERGENCIES = [one for one in PROTOCOLS if one.kind == "emergency"]
OTHERS = [one for one in PROTOCOLS if one.kind != "emergency"]
FARMS = ("example", "least", "every kind")

# EPA's advice for most texts is about grade 6, for steps 4 to 6: husbandry-118.
MOST_GRADE = 7
MOST_WORDS_IN_A_STEP = 20
MOST_STEPS = 7  # a checklist has 5 to 9 items: husbandry-110
WORDS = range(120, 261)  # our choice: one or two printed pages
# Our choice, found by printing: this many words of see, do and call still fill one Letter page
# at 14.5 pt. The slow test at the end prints them.
MOST_WORDS_IN_AN_EMERGENCY = 210
OLDEST_REVIEW = dt.timedelta(days=2 * 365)


def by_slug(one: Protocol) -> str:
    """Return how a test names a protocol."""
    return one.slug


def pages(book: Book) -> Iterator[Page]:
    """Return the pages that are protocols."""
    slugs = {one.slug for one in PROTOCOLS}
    return (page for page in book.pages if page.slug in slugs)


def shown_page(books: Mapping[str, Book], one: Protocol) -> Page:
    """Return a protocol as the example farm shows it, or else the farm that has one of each."""
    for farm in ("example", "every kind"):
        for page in books[farm].pages:
            if page.slug == one.slug:
                return page
    raise AssertionError(one.slug)


def known_tags() -> frozenset[str]:
    """Return every tag that a farm can have."""
    classes = {row.text("class") for row in rows("class_rules")}
    drinkers = {"nipple", "bowl", "trough", "bell", "tank", "bucket"}
    things = {
        "poultry", "litter", "due", "soaked feed", "wallow", "fan", "hose", "generator", "cord",
        "circuit", "stay", "eggs", "well", "tap", "spring", "pond", "hauled", "bleach",
        "peroxide",
    }  # fmt: skip
    return frozenset({*SPECIES, *classes, *get_args(PenKind), *drinkers, *things})


@pytest.mark.parametrize("one", PROTOCOLS, ids=by_slug)
def test_front_matter_is_complete(one: Protocol) -> None:
    """A protocol says when one needs it, its words for search, its sources, whom it is for."""
    assert one.when
    assert one.words
    assert one.sources
    assert one.summary.endswith(".")
    assert (one.kind == "emergency") == (one.sheet[0] == "E")
    assert set(one.tags) | set(one.needs) <= known_tags()


@pytest.mark.parametrize("one", PROTOCOLS, ids=by_slug)
def test_review_is_not_older_than_two_years(one: Protocol) -> None:
    """Somebody has read every protocol within 24 months, and nobody in the future."""
    today = dt.datetime.now(tz=dt.UTC).date()
    assert today - OLDEST_REVIEW <= one.reviewed <= today + dt.timedelta(days=1)


@pytest.mark.parametrize("one", PROTOCOLS, ids=by_slug)
def test_sources_exist(one: Protocol) -> None:
    """Each source has an entry, none is named twice, and one of grade A or B carries it."""
    known = all_sources()
    assert set(one.sources) <= set(known)
    assert len(set(one.sources)) == len(one.sources)
    assert {known[name].grade for name in one.sources} & {"A", "B"}


@pytest.mark.parametrize("one", PROTOCOLS, ids=by_slug)
def test_grade_is_seven_or_below(one: Protocol, books: Mapping[str, Book]) -> None:
    """Flesch-Kincaid by textstat on the sheet as a farm's reader gets it, tables left out."""
    text = reading(shown_page(books, one).body).text
    assert textstat.flesch_kincaid_grade(text) <= MOST_GRADE


@pytest.mark.parametrize("one", OTHERS, ids=by_slug)
def test_sheet_is_neither_thin_nor_long(one: Protocol, books: Mapping[str, Book]) -> None:
    """A sheet has 120 to 260 words outside its tables."""
    assert len(reading(shown_page(books, one).body).text.split()) in WORDS


@pytest.mark.parametrize("farm", FARMS)
def test_steps_are_short(farm: str, books: Mapping[str, Book]) -> None:
    """A step's own line has at most 20 words, whatever the farm's names are."""
    long = [
        (page.sheet, step)
        for page in pages(books[farm])
        for step in reading(page.body).steps
        if len(step.split()) > MOST_WORDS_IN_A_STEP
    ]
    assert long == []


@pytest.mark.parametrize("farm", FARMS)
def test_steps_ask_for_one_thing(farm: str, books: Mapping[str, Book]) -> None:
    """A step's own line asks for exactly one action; more belongs into the detail below it."""
    wrong = [
        (page.sheet, step)
        for page in pages(books[farm])
        for step in reading(page.body).steps
        if actions(step) != 1
    ]
    assert wrong == []


@pytest.mark.parametrize(
    ("step", "asked"),
    [
        ("Stop. Do not drive, chase or lift the pig.", 1),
        ("Never spray piglets with water.", 1),
        ("Dog: cool it first, before you drive.", 1),
        ("Fill it, and watch that all get some.", 2),
        ("Make shade. Wet the ground.", 2),
        ("Skin: rinse it, then call.", 2),
        ("The vet knows.", 0),
    ],
)
def test_counting_actions_counts_actions(step: str, asked: int) -> None:
    """The rule above tells one action from two and from none."""
    assert actions(step) == asked


@pytest.mark.parametrize("one", EMERGENCIES, ids=by_slug)
@pytest.mark.parametrize("farm", FARMS)
def test_emergency_is_see_do_call(farm: str, one: Protocol, books: Mapping[str, Book]) -> None:
    """Exactly see, do and call, in that order, with at most seven steps, and short enough."""
    for page in books[farm].pages:
        if page.slug != one.slug:
            continue
        assert re.findall(r"<h2>(\w+)</h2>", page.body) == ["See", "Do", "Call"]
        assert re.findall(r'<section class="(\w+)">', page.body) == ["see", "do", "call"]
        assert page.body.count("<ol") == 1
        read = reading(page.body)
        assert 1 <= len(read.steps) <= MOST_STEPS
        assert len(read.text.split()) <= MOST_WORDS_IN_AN_EMERGENCY


@pytest.mark.parametrize("one", OTHERS, ids=by_slug)
def test_answer_comes_first(one: Protocol, books: Mapping[str, Book]) -> None:
    """A sheet begins with its answer in one to three sentences (CDC index: husbandry-117)."""
    body = shown_page(books, one).body
    answer = re.search(r'</h1>\s*<div class="answer"><p>(.*?)</p>\s*</div>', body, re.DOTALL)
    assert answer
    assert 1 <= len(re.findall(r"[.!?](?:\s|$)", re.sub(r"<[^>]+>", "", answer[1]))) <= 3


@pytest.mark.parametrize("one", PROTOCOLS, ids=by_slug)
def test_signal_words_are_the_four(one: Protocol) -> None:
    """Cautions carry one of the four signal words of ANSI Z535 (husbandry-115), and a text."""
    assert set(re.findall(r"(?m)^!!! *(\S*)", one.text)) <= set(SIGNALS)
    assert not re.findall(r"(?m)^!!! .*\n(?! {4}\S)", one.text)


def test_sheets_named_exist(books: Mapping[str, Book]) -> None:
    """Every sheet that a protocol may point to is one of this binder's."""
    known = {one.slug for one in PROTOCOLS} | {page.slug for page in books["every kind"].pages}
    named = {
        (one.file, slug)
        for one in PROTOCOLS
        for slug in re.findall(r"(?:sheet|shows)\(['\"]([^'\"]+)['\"]\)", one.text)
    }
    assert {(file, slug) for file, slug in named if slug not in known} == set()


@pytest.mark.parametrize("farm", FARMS)
def test_links_lead_to_sheets_of_the_same_binder(farm: str, books: Mapping[str, Book]) -> None:
    """What a reader can tap on or turn to is there."""
    book = books[farm]
    slugs = {page.slug for page in book.pages} | {"list-of-sheets"}
    for page in pages(book):
        assert set(re.findall(r'href="sheet:([^"]+)"', page.body)) <= slugs, page.sheet


def test_sheet_numbers_are_fixed() -> None:
    """A file name says the sheet; no number is used twice; each stands in a tab that exists."""
    numbers = [one.sheet for one in PROTOCOLS]
    assert len(set(numbers)) == len(numbers)
    for one in PROTOCOLS:
        letter, digits = one.sheet[0], int(one.sheet[1:])
        assert one.file.rpartition("/")[2] == f"{letter.lower()}{digits:02d}-{one.slug}.md"
        assert letter in TABS


@pytest.mark.parametrize("farm", FARMS)
def test_no_two_sheets_share_a_number(farm: str, books: Mapping[str, Book]) -> None:
    """Computed sheets and written ones keep out of each other's numbers.

    Gate cards and wall charts bear the number of the sheet that they repeat.
    """
    numbers = [page.sheet for page in books[farm].pages if SITE in page.where]
    assert sorted(set(numbers)) == sorted(numbers)


@pytest.mark.parametrize("farm", FARMS)
def test_nothing_prints_blank_or_broken(farm: str, books: Mapping[str, Book]) -> None:
    """No blank cell, item or line, no left-over markup, no doubled stop, on any farm."""
    broken = re.compile(
        r"<pre|<code|None|Undefined|\{\{|\{%|!!!|<(td|th|p|li|strong)[^>]*>\s*</\1>"
        r"|\.\.|\s[.,;:](?:\s|<)|[,;:]\s*[.,;](?:\s|<)|\(\s*\)"
    )
    found = [
        (page.sheet, page.body[max(0, hit.start() - 40) : hit.end() + 20])
        for page in pages(books[farm])
        for hit in [broken.search(page.body)]
        if hit
    ]
    assert found == []


def test_every_protocol_is_shown_by_some_farm(books: Mapping[str, Book]) -> None:
    """So that no protocol escapes the tests above."""
    shown = {page.slug for book in books.values() for page in pages(book)}
    assert shown == {one.slug for one in PROTOCOLS}


def test_least_farm_shows_only_what_it_has(books: Mapping[str, Book]) -> None:
    """A farm with three pigs and nothing else gets no sheet about fans, hoses or hens."""
    shown = {page.slug for page in pages(books["least"])}
    unfit = {"fan-failed", "flushing-a-hose", "bird-down", "stall-fans", "boar-rules"}
    assert not shown & unfit
    assert {"pig-in-heat-trouble", "no-water-now", "the-round", "medicines"} <= shown


def test_no_looked_up_source_is_unused() -> None:
    """Pages looked up for the protocols alone are named by one of them."""
    named = {name for one in PROTOCOLS for name in one.sources}
    assert {"extra-1", "extra-2", "extra-3", "extra-4"} <= named


@pytest.mark.slow
@pytest.mark.parametrize("farm", FARMS)
def test_each_emergency_prints_on_one_page(
    farm: str, books: Mapping[str, Book], tmp_path: Path
) -> None:
    """Readable at arm's length and nothing to turn over, on every farm."""
    slugs = {one.slug for one in EMERGENCIES}
    sheets = tuple(page for page in books[farm].pages if page.slug in slugs)
    printed = render_book(replace(books[farm], pages=sheets), tmp_path)
    assert {line.sheet: line.pages for line in printed.lines if line.slug in slugs} == {
        page.sheet: 1 for page in sheets
    }
