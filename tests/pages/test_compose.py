"""The book as a whole: numbers that stay, links that lead somewhere, nothing blank."""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.pages.page import PRINT_ONLY, working_anchor
from binder.pages.text.protocol import plain_text
from tests import farm_data

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from binder.pages.page import Book, Page

DAY = dt.date(2026, 6, 1)
FARMS = ("example", "least", "every kind")
WRITTEN = {"protocol", "emergency"}  # kinds of page whose text a protocol holds
BLANK = {"log", "visit", "looks"}  # kinds of page that are there to be written on


def computed(book: Book) -> tuple[Page, ...]:
    """Return the pages that the program composes."""
    return tuple(page for page in book.pages if page.kind not in WRITTEN)


def sheets(book: Book) -> dict[str, str]:
    """Return slug -> sheet id."""
    return {page.slug: page.sheet for page in book.pages}


@pytest.fixture(scope="module")
def example() -> Book:
    """Return the example farm's binder on the first of June."""
    return book_of(farm_data.EXAMPLE, DAY)


def add_pig(data: farm_data.Data) -> None:
    """Add a named pig to a pen that has pigs."""
    data["animals.yaml"].append(
        {
            "name": "Truffle",
            "species": "pig",
            "sex": "barrow",
            "weight": "90 lb",
            "pen": "woods",
        }
    )


def add_horse(data: farm_data.Data) -> None:
    """Add an animal of a species that the farm did not have, with its chart."""
    data["animals.yaml"].append({"name": "Star", "species": "horse", "pen": "goat-lot"})


def add_pen(data: farm_data.Data) -> None:
    """Add a pen at the end of the round."""
    data["pens.yaml"].append({"id": "far", "name": "Far lot", "kind": "pasture", "route": "99"})


def add_product(data: farm_data.Data) -> None:
    """Add a product, a hose and a contact."""
    data["equipment.yaml"]["products"].append(
        {"id": "lye", "name": "Soap", "kind": "other", "strength": "5 %"}
    )
    data["contacts.yaml"].append({"name": "Neri Oak", "role": "fuel", "phone": "912-555-0190"})


@pytest.mark.parametrize("change", [add_pig, add_horse, add_pen, add_product])
def test_an_addition_renumbers_nothing(
    example: Book, tmp_path: Path, change: Callable[[farm_data.Data], None]
) -> None:
    """A sheet once handed out keeps its id, whatever else comes to the farm."""
    data = farm_data.read()
    change(data)
    later = sheets(book_of(farm_data.write(data, tmp_path / "farm"), DAY))
    # The farm is written out without its weather, and so without the sheets of its season.
    before = {slug: no for slug, no in sheets(example).items() if "season" not in slug}
    assert {slug: later[slug] for slug in before} == before


def test_an_animal_gone_renumbers_nothing(example: Book, tmp_path: Path) -> None:
    """Without goats their chart is gone, and the charts after it keep their numbers."""
    data = farm_data.read()
    data["animals.yaml"] = [one for one in data["animals.yaml"] if one["species"] != "goat"]
    later = sheets(book_of(farm_data.write(data, tmp_path / "farm"), DAY))
    assert "chart-goats-and-sheep" not in later
    assert later["chart-dogs"] == sheets(example)["chart-dogs"] == "H10"
    assert later["chart-people"] == "H11"


@pytest.mark.parametrize("farm", FARMS)
def test_every_number_leads_to_its_working(farm: str, books: Mapping[str, Book]) -> None:
    """A computed number opens its working on a screen, and finds it in the Numbers tab."""
    book = books[farm]
    numbers = " ".join(page.body for page in book.pages if page.tab == "N")
    keys = {
        key for page in book.pages for key in re.findall(r'href="working:([^"]+)"', page.body)
    }
    assert keys
    assert keys <= set(book.workings)
    ids = set(re.findall(r'id="([^"]+)"', numbers))
    assert {key for key in keys if working_anchor(key) not in ids} == set()


@pytest.mark.parametrize("farm", FARMS)
def test_every_working_has_a_source(farm: str, books: Mapping[str, Book]) -> None:
    """No number without something it rests on, `our choice` and the owner's record included."""
    bare = [
        key for key, html in books[farm].workings.items() if '<p class="sources"></p>' in html
    ]
    assert bare == []


@pytest.mark.parametrize("farm", FARMS)
def test_every_amount_has_a_unit(farm: str, books: Mapping[str, Book]) -> None:
    """A linked number reads as an amount: a unit, a clock time, a share, or a word after it."""
    links = re.compile(r'<a class="number" href="working:[^"]+">([^<]+)</a>([^<]{0,24})')
    bare = [
        (page.sheet, said)
        for page in computed(books[farm])
        for said, after in links.findall(page.body)
        if re.fullmatch(r"[\d.,/\s]+", said) and not re.match(r"[\s:]*[a-z(]", after)
    ]
    assert bare == []


@pytest.mark.parametrize("farm", FARMS)
def test_computed_pages_print_nothing_blank(farm: str, books: Mapping[str, Book]) -> None:
    """What is not recorded says so; a blank value is a missing instruction."""
    broken = re.compile(
        r"\bNone\b(?! is)|(?<![-\w])nan\b|Undefined|"
        r"\{\{|\{\w*\}|!!!|\x00|<(th|p|li|h1|h2|strong)[^>]*>\s*</\1>"
        r"|\.\.(?!\.)|\s[.,;:](?:\s|<)|[,;:]\s*[.,;](?:\s|<)|\(\s*\)|of not recorded"
    )
    empty_cell = re.compile(r'<td(?! class="amount")[^>]*>\s*</td>')
    found = []
    for page in computed(books[farm]):
        body = re.sub(r"<svg.*?</svg>", "", page.body, flags=re.DOTALL)
        hits = [broken.search(body)]
        if not {*BLANK, "chart", "charts", "wall"}.intersection(page.kind.split()):
            hits.append(empty_cell.search(body))
        found += [
            (page.sheet, body[max(0, hit.start() - 40) : hit.end() + 20]) for hit in hits if hit
        ]
    assert found == []


@pytest.mark.parametrize("farm", FARMS)
def test_ids_do_not_print(farm: str, books: Mapping[str, Book]) -> None:
    """Pens, hoses and bands show under their names: nobody knows a `stall-1`."""
    ids = re.compile(
        r"\b(?:stall-1|stall-2|goat-lot|hen-run|barn-fans|fan-\d|cord-\d|sow-feed|all_hands|w[123])\b"
    )
    found = [
        (page.sheet, hit[0])
        for page in computed(books[farm])
        for hit in [ids.search(plain_text(page.body))]
        if hit
    ]
    assert found == []


def test_singular_and_plural(example: Book) -> None:
    """One of a thing is one thing."""
    wrong = re.compile(
        r"(?<![\d./])1[\s\u00a0](?:scoops|nipples|open ends|days|hours|cups|buckets)\b"
    )
    found = [
        (page.sheet, hit[0])
        for page in computed(example)
        for hit in [wrong.search(plain_text(page.body))]
        if hit
    ]
    assert found == []


def test_who_gets_which_sheet(example: Book) -> None:
    """Codes never go to a helper or the vet, workings never to a sitter."""
    by_slug = {page.slug: page for page in example.pages}
    assert by_slug["keys-and-codes"].editions == {"sitter", "owner"}
    assert by_slug["numbers"].editions == {"owner", "vet"}
    assert by_slug["hand-over"].editions == {"sitter", "owner"}
    assert by_slug["equipment"].editions == {"sitter", "helper", "owner"}
    for slug in ("cover", "start-here", "pen-creek", "chart-pigs", "pig-in-heat-trouble"):
        assert by_slug[slug].editions == {"sitter", "helper", "owner", "vet"}


def test_codes_stand_in_print_alone(example: Book) -> None:
    """The gate code of private.yaml is on one page, which only paper shows."""
    with_code = [page for page in example.pages if "4071" in page.body]
    assert [page.slug for page in with_code] == ["keys-and-codes"]
    assert with_code[0].where == PRINT_ONLY
    assert all("4071" not in page.summary + page.words for page in example.pages)


def test_cards_and_wall_charts_repeat_their_sheets(example: Book) -> None:
    """A gate card has the number of its pen's sheet; each chart hangs on a wall once."""
    numbers = sheets(example)
    cards = {page.slug: page for page in example.pages if page.kind == "card"}
    assert cards["card-creek"].sheet == numbers["pen-creek"]
    charts = [page.sheet for page in example.pages if page.kind == "chart"]
    assert sorted(page.sheet for page in example.pages if page.kind == "wall") == sorted(charts)


def test_the_foot_says_whom_to_call(example: Book) -> None:
    """Owner, the one behind, the vet by day and by night, and the 911 address."""
    assert example.foot.calls == (
        ("Owner", "912-555-0110"),
        ("or", "912-555-0121"),
        ("Vet", "912-555-0132"),
        ("Vet after hours", "912-555-0133"),
    )
    assert example.foot.address == "1480 Whistling Duck Road, Tarrow Bend, Georgia"


def test_metric_farm_reads_metric_alone(tmp_path: Path) -> None:
    """A farm that measures in litres and degrees C finds no gallons and F in brackets."""
    data = farm_data.read()
    data["farm.yaml"] |= {"units": "metric", "paper": "a4"}
    book = book_of(farm_data.write(data, tmp_path / "farm"), DAY)
    assert book.paper == "a4"
    owners = {"pen", "keys", "readiness"}  # show the owner's own words, written in US units
    us = re.compile(r"\d[\s\u00a0]?(?:°F|gal|lb|fl[\s\u00a0]oz|sq[\s\u00a0]ft|cups?|in|ft)\b")
    found = []
    for page in computed(book):
        if page.kind in owners or page.tab in "NARL" or page.slug in {"sources", "contacts"}:
            continue
        found += [(page.sheet, hit) for hit in us.findall(plain_text(page.body))]
    assert found == []
    water = next(page for page in book.pages if page.slug == "water-today")
    assert "drink 280 L a day" in plain_text(water.body)


def test_composing_twice_is_the_same(example: Book) -> None:
    """Nothing depends on a clock, a random order or what was composed before."""
    again = book_of(farm_data.EXAMPLE, DAY)
    assert [(page.slug, page.body) for page in again.pages] == [
        (page.slug, page.body) for page in example.pages
    ]
    assert again.workings == example.workings
