"""The metric example abroad: no US measure, number, body or clock on anything that one reads.

Every sheet, card, site page and the phone file of `content/example-finca` are read as text.
What is cited on the sheet of sources keeps its own title, so that sheet is left out.
"""

from __future__ import annotations

import datetime as dt
import html
import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder import packs
from binder.build import book_of, checked
from binder.output.screens.phone import write_phone
from binder.output.screens.site import write_site

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book
    from tests.conftest import Once

FINCA = Path(__file__).resolve().parents[2] / "content" / "example-finca"
DAY = dt.date(2026, 7, 12)
SOURCES = "sources"
# What a reader in Spain must never meet. A unit stands after a number, with or without a space.
FOREIGN = {
    "US measure": r"\d[\s\xa0]?(?:gal|gallons?|°F|F|ft|lbs?|oz|psi|cfm|mph|qt|tsp|Tbsp|acres?"
    r"|miles?|cups?|sq[\s\xa0]ft|cu[\s\xa0]ft|fl[\s\xa0]oz|AWG)\b|\d\xa0in\b"
    r"|\b(?:gallons?|inch(?:es)?|quarts?|pounds?|Fahrenheit|AWG)\b|°F|\bpsi\b",
    "US number to call": r"\b911\b|\b811\b|1-800-",
    "US body or law": r"GFCI|\bOSHA\b|\bUSDA\b|\bNEC\b|\bFEMA\b|US Poison|\b[Cc]ounty\b"
    r"|State vet|State rules|Extension office|National Weather Service",
    "12-hour clock": r"\b\d{1,2}(?::\d\d)?[\s\xa0]?(?:am|pm)\b",
    "US spelling": r"\b(?:[Nn]eighbors?|[Ll]abor|[Cc]olors?|[Gg]ray|[Mm]oldy?)\b",
    "decimal point": r"(?<![\d.])\d{1,3}\.\d{1,2}(?![\d.])[\s\xa0]"
    r"(?:L|mL|kg|g|m|cm|mm|bar|h|min)\b",
}  # fmt: skip


def read(markup: str) -> str:
    """Return what one reads of a page: scripts and styles are not."""
    seen = re.sub(r"<(script|style)\b.*?</\1>", " ", markup, flags=re.DOTALL)
    labels = " ".join(re.findall(r'(?:aria-label|title|alt|content)="([^"]*)"', seen))
    return html.unescape(f"{re.sub(r'<[^>]+>', ' ', seen)} {labels}")


def foreign(text: str) -> list[str]:
    """Return what is of another country, each with a few words round it."""
    return [
        f"{sort}: …{text[max(0, found.start() - 40) : found.end() + 20]}…"
        for sort, pattern in FOREIGN.items()
        for found in re.finditer(pattern, text)
    ]


@pytest.fixture(scope="session")
def finca(once: Once) -> Book:
    """Return the binder of the finca."""
    return once("finca", lambda _: book_of(FINCA, DAY))


@pytest.fixture(scope="session")
def screens(once: Once, finca: Book) -> Mapping[str, str]:
    """Return the pages of the finca's site and its phone file, text by name."""

    def written(folder: Path) -> dict[str, str]:
        shown = finca.screens or finca
        write_site(shown, folder)
        write_phone(shown, folder)
        return {path.name: path.read_text("utf-8") for path in sorted(folder.rglob("*.html"))}

    return once("finca-screens", written)


def test_nothing_foreign_on_any_sheet_or_card(finca: Book) -> None:
    """Sheets, gate cards and workings alike."""
    assert len(finca.pages) > 100
    found = {
        page.sheet: strange
        for page in finca.pages
        if page.slug != SOURCES and (strange := foreign(f"{page.title}\n{read(page.body)}"))
    }
    assert found == {}


def test_nothing_foreign_in_any_working(finca: Book) -> None:
    """The boxes that open over a number."""
    found = {
        key: strange for key, body in finca.workings.items() if (strange := foreign(read(body)))
    }
    assert found == {}


def test_nothing_foreign_on_the_site_and_the_phone(
    finca: Book, screens: Mapping[str, str]
) -> None:
    """Every page; of the phone file all but its sheet of sources."""
    (of_sources,) = (page for page in finca.pages if page.slug == SOURCES)
    found = {}
    for name, markup in screens.items():
        if name == f"{of_sources.slug}.html":
            continue
        cut = re.sub(rf'<(article|section)[^>]*id="{SOURCES}".*?</\1>', " ", markup, flags=re.S)
        if strange := foreign(read(cut)):
            found[name] = strange
    assert found == {}


def test_nothing_foreign_in_the_papers_of_a_stay() -> None:
    """The sitter's pack and pocket."""
    papers = packs.named(*checked(FINCA, DAY), DAY, "july")
    assert len(papers) > 1
    found = {
        (paper.stem, page.sheet): strange
        for paper in papers
        for page in paper.book.pages
        if (strange := foreign(f"{page.title}\n{read(page.body)}"))
    }
    assert found == {}


def test_the_finca_calls_its_own_country(finca: Book) -> None:
    """112, the poison line of Spain and the duty under the Animal Health Law (extra-103)."""
    (called,) = (read(page.body) for page in finca.pages if page.slug == "contacts")
    assert "112" in called
    assert "91 562 04 20" in called
    assert "By law" in called
    assert finca.paper == "a4"
    assert finca.labels["print.place"] == "112 address:"


def test_mains_water_has_no_pump(finca: Book) -> None:
    """No water: the water company is called, and nobody looks for a pump."""
    pages = {page.slug: read(page.body) for page in finca.pages}
    assert "Water works of Villar del Tarajal" in pages["no-water-now"]
    assert [slug for slug, text in pages.items() if re.search(r"\bthe pump\b", text)] == []


def test_a_donkey_is_a_donkey(finca: Book) -> None:
    """She drinks as a horse of her size or 20 L, whichever is more (extra-126, extra-129)."""
    text = " ".join(read(page.body) for page in finca.pages)
    assert "1 donkey" in text
    assert not re.search(r"\b1 horse\b", text)


def test_the_words_are_caught_where_they_are() -> None:
    """The net has no holes: each sort is found in a sentence that has it."""
    caught = [
        "57\xa0L (15\xa0gal)", "12\xa0in deep", "Call 911", "a GFCI outlet", "at 5:30 pm",
        "a neighbor", "1.5\xa0L",
    ]  # fmt: skip
    assert [text for text in caught if not foreign(text)] == []
    clean = "1,5\xa0L, 30 cm, 17:30, in 3 hours, the neighbour, 4 in all"
    assert foreign(clean) == []
