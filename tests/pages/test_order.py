"""What a stranger at the gate stumbled over: the order of a sheet, and sheets that disagree."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import fontpkg_atkinson_hyperlegible as fontpkg
import pytest
from fontTools.ttLib import TTFont

from binder.data import CONTENT
from binder.figures.limits import limits
from binder.pages.bands import charts
from binder.pages.text import words
from binder.pages.text.protocol import plain_text
from binder.units import Amount, measure, measure_both, parse, show

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book, Page

FARMS = ("example", "least", "every kind")
GALLON_L = 3.785411784  # NIST SP 811, appendix B
_FACE = fontpkg.ROOT / "files" / "AtkinsonHyperlegible-Regular.ttf"
_BLOCK = re.compile(r'<h2>|<ol\b|<div class="caution (danger|warning|caution)">')


def page(book: Book, slug: str) -> Page:
    """Return a page of a book."""
    return next(one for one in book.pages if one.slug == slug)


def text(book: Book, slug: str) -> str:
    """Return the words of a page, every space a plain one."""
    return plain_text(page(book, slug).body).replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize("farm", FARMS)
def test_warnings_stand_before_their_steps(farm: str, books: Mapping[str, Book]) -> None:
    """ANSI Z535.6: before the step. Danger comes before any step of the sheet at all."""
    wrong = []
    for one in books[farm].pages:
        if one.kind not in {"protocol", "emergency"}:
            continue
        stepped = stepped_here = False
        for block in _BLOCK.finditer(one.body):
            if block[0] == "<h2>":
                stepped_here = False
            elif block[0] == "<ol":
                stepped = stepped_here = True
            elif stepped_here or (block[1] == "danger" and stepped):
                wrong.append((one.sheet, block[1]))
            elif stepped and "<ol" not in one.body[block.end() :]:
                wrong.append((one.sheet, f"{block[1]} after the last step"))
    assert wrong == []


@pytest.mark.parametrize("slug", ["mixing-bleach", "wallows", "hoses"])
def test_computed_sheets_warn_first_too(slug: str, books: Mapping[str, Book]) -> None:
    """Dangers and warnings stand above the first table."""
    body = page(books["every kind"], slug).body
    last = max(body.rfind(f'caution {signal}"') for signal in ("danger", "warning"))
    assert 0 < last < body.index("<table")


@pytest.mark.parametrize("slug", ["reading-the-air", "first-hot-spell", "several-hot-nights"])
def test_numbers_do_not_add_up(slug: str, books: Mapping[str, Book]) -> None:
    """Sun, first heat and a warm night together are one number higher: our choice (N3)."""
    said = text(books["example"], slug)
    assert re.search(r"(one number(, not two| in all)|only one number higher)", said)


def test_hot_nights_say_one_thing(books: Mapping[str, Book]) -> None:
    """The box asks for no more than the table does."""
    body = page(books["example"], "several-hot-nights").body
    box = plain_text(body[: body.index("</div>")])
    assert "From the third such day look in through the night" in box
    assert "as the worst" not in box


@pytest.mark.parametrize(
    ("slug", "said"),
    [
        ("midday-look", "Come before the hottest hour. See to water"),
        ("daily-water-care", "Ask where the shade will be at the hottest hour."),
        ("several-hot-nights", "just before sunrise."),
    ],
)
def test_an_hour_that_nobody_knows_is_left_out(
    slug: str, said: str, books: Mapping[str, Book]
) -> None:
    """Without a place or its hours; where they are known they are said."""
    assert said in plain_text(page(books["least"], slug).body)
    assert said not in plain_text(page(books["example"], slug).body)


@pytest.mark.parametrize("slug", ["wetting-animals", "fan-failed", "power-out", "chart-pigs"])
def test_hot_animals_are_wetted_alike(slug: str, books: Mapping[str, Book]) -> None:
    """Upright: neck, back and legs. In trouble: legs and belly first (heat-81, heat-82).

    Without power a sow may lie with her piglets: then neck and legs, for all under the roof.
    """
    said = text(books["example"], slug).lower()
    which = "neck and legs" if slug == "power-out" else "neck, back and legs"
    assert f"wet {which}" in said or slug == "chart-pigs"
    for trouble in ("pig-in-heat-trouble", "other-animal-in-heat-trouble"):
        assert (
            "legs and belly first, then neck and back"
            in text(books["example"], trouble).lower()
        )


def test_fence_is_switched_on_again(books: Mapping[str, Book]) -> None:
    """What was switched off for a loose animal does not stay off."""
    said = text(books["example"], "animal-out")
    assert said.index("Switch the fence power off") < said.index("Switch the fence on again")


def test_farrowing_stalls_lose_their_fan_last(books: Mapping[str, Book]) -> None:
    """Common practice, no source: a penned sow cannot leave. The electrician decides."""
    said = text(books["example"], "stall-fans")
    order = [
        said.index(part) for part in ("cools nobody", "go out to shade", "farrowing stall on")
    ]
    assert order == sorted(order)
    assert "Call the electrician the same day" in said


@pytest.mark.parametrize(
    ("slug", "said"),
    [
        ("pig-in-heat-trouble", "Then a second person: Barnaby Quill"),
        ("wallow-rotation", "Two people do this, never a sitter alone"),
    ],
)
def test_second_person_is_fetched(slug: str, said: str, books: Mapping[str, Book]) -> None:
    """Where one alone gets hurt, the sheet asks for two."""
    assert said in text(books["example"], slug)


def test_one_cup_on_both_sheets(books: Mapping[str, Book]) -> None:
    """Heat-6: a cup each 15 to 20 minutes, at most 48 oz in an hour, in the same measure."""
    for slug in ("your-own-heat", "work-and-rest"):
        said = text(books["example"], slug)
        assert "1 cup (237 mL) every 15 to 20 minutes" in said
        assert "4 cups (946 mL) an hour, never more than 6 cups (1.4 L)" in said


def test_first_page_leads_to_every_plan(books: Mapping[str, Book]) -> None:
    """A sitter is sent to the plan of the stay and to its cards."""
    book = books["example"]
    start = page(book, "start-here").body
    plans = [one.slug for one in book.pages if one.slug.startswith("stay-")]
    assert plans
    assert all(f'href="sheet:{slug}"' in start for slug in plans)
    assert "visit cards" in start
    assert "visit cards" not in page(books["least"], "start-here").body


def test_each_pen_stands_on_a_chart(books: Mapping[str, Book]) -> None:
    """On the wall, where no pen's sheet is at hand; the binder's leave it to one sheet."""
    book = books["example"]
    pens = {
        one.slug
        for one in book.pages
        if one.kind == "pen"
        and f"card-{one.slug.removeprefix('pen-')}" in {p.slug for p in book.pages}
    }
    linked: dict[str, set[str]] = {}
    for one in book.pages:
        place = one.kind if one.kind == "wall" else one.slug
        linked.setdefault(place, set()).update(
            re.findall(r'href="sheet:(pen-[^"]+)"', one.body)
        )
    assert linked["wall"] == pens
    assert linked["reading-the-air"] == pens


def test_calendar_goes_as_far_as_the_stays(books: Mapping[str, Book]) -> None:
    """What a stay counts on after a birth to come stands on the calendar, marked."""
    said = text(books["example"], "calendar")
    assert "12 August to 2 September" in said  # 15 July + 28 and + 49 days: husbandry-79
    assert "the owner weans her young, no sitter does, if the birth comes on its day" in said


def test_weak_sources_are_named_beside_bleach(books: Mapping[str, Book]) -> None:
    """Strengths rest on wallow-8 and wallow-10, grade C: said before the mixes are used."""
    body = page(books["example"], "mixing-bleach").body
    assert body.index("grade C") < body.index("How to use each mix")


@pytest.mark.parametrize("farm", FARMS)
def test_degrees_have_one_form(farm: str, books: Mapping[str, Book]) -> None:
    """80°F: never 80 F, never 80 °F. Titles of other people's works keep theirs."""
    odd = re.compile(r"\d[\s\u00a0]?(?:°[\s\u00a0]|[\s\u00a0]°|[\s\u00a0])[FC]\b")
    found = [
        (one.sheet, hit[0])
        for one in books[farm].pages
        if one.slug != "sources" and one.tab != "N"
        for hit in [odd.search(plain_text(one.body))]
        if hit
    ]
    assert found == []


@pytest.mark.parametrize("farm", FARMS)
def test_amounts_can_be_measured(farm: str, books: Mapping[str, Book]) -> None:
    """No 0.78 gal: below ten gallons a sheet counts quarts, quarters and halves."""
    a_day = r"(?:[\s\u00a0]\([^)]*\))?[\s\u00a0]a[\s\u00a0]day"
    odd = re.compile(rf"\b\d(?:\.\d+)[\s\u00a0]gal(?!{a_day})")
    found = [
        (one.sheet, hit[0])
        for one in books[farm].pages
        if one.tab != "N"
        for hit in [odd.search(plain_text(one.body))]
        if hit
    ]
    assert found == []


@pytest.mark.parametrize(
    ("gallons", "said"),
    [
        (0.78, "3 qt"),
        (0.96, "3 3/4 qt"),
        (1.6, "1 1/2 gal"),
        (5.7, "5 1/2 gal"),
        (17, "17 gal"),
    ],
)
def test_measures(gallons: float, said: str) -> None:
    """4 quarts a gallon; a working keeps its digits."""
    amount = Amount(gallons * GALLON_L, "L")
    assert measure(amount, "us").replace("\N{NO-BREAK SPACE}", " ") == said
    assert show(amount, "us").startswith(f"{gallons:g}")
    poured = measure_both(amount, "metric").replace("\N{NO-BREAK SPACE}", " ")
    assert parse(poured, "volume") == pytest.approx(amount.value, rel=0.125)  # steps of a can


def test_limits_are_not_typed() -> None:
    """The gate and the harm of the chlorine table come from it (wallow-24)."""
    known = limits()
    assert (known["gate"].value, known["harm"].value) == pytest.approx((0.5, 2.11))
    for path in (CONTENT / "words" / "en").glob("*.yaml"):
        typed = re.findall(r"(?:0\.5|2\.11?)[\s\u00a0]?ppm", path.read_text(encoding="utf-8"))
        assert not typed, path.name


def test_labels_of_the_day_fit_their_room() -> None:
    """Measured with the advance widths of the very font; nothing is cut at the left."""
    font = TTFont(_FACE)
    glyphs, widths = font.getBestCmap(), font["hmtx"]
    em = font["head"].unitsPerEm
    for label in words.load().section("asks.head").values():
        units = sum(widths[glyphs[ord(sign)]][0] for sign in str(label))
        assert units / em * charts.STRIP_SIZE <= charts.LEFT - 6, label
