"""What one sheet says no other contradicts: claims of all sheets, of screens and the finder.

A claim names its subject, quantity and condition; two claims of one thing have one value. That
each claim is printed is tested too, so that none is about something else than the reader sees.
`sh script/proof voice` does the same with 200 generated farms.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.pages.claims.claim import Claim, disagreeing, plain
from binder.pages.text.protocol import plain_text
from tests.pages.conftest import DAY
from tests.proof import one_voice

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from binder.pages.page import Book

FARMS = ("example", "least", "every kind")
GENERATED = (5, 23)  # of the proof's farms: a handful here, the rest in `sh script/proof`


@pytest.mark.parametrize("farm", FARMS)
def test_no_two_sheets_disagree(books: Mapping[str, Book], farm: str) -> None:
    """Of the example, of the least farm and of one that has every kind."""
    assert one_voice.disagreements(books[farm]) == []


@pytest.mark.parametrize("make", [one_voice.starter, one_voice.metric])
def test_no_two_sheets_of_a_new_or_a_metric_farm_disagree(tmp_path: Path, make: object) -> None:
    """The farm that `binder new` writes; the example as a neighbor abroad reads it."""
    assert callable(make)
    assert one_voice.disagreements(book_of(make(tmp_path / "farm"), DAY)) == []


@pytest.mark.parametrize("number", GENERATED)
def test_no_two_sheets_of_a_generated_farm_disagree(number: int) -> None:
    """With another herd, extreme values, or much left out."""
    assert one_voice.tried(one_voice.SEED, number) == []


@pytest.mark.parametrize("farm", FARMS)
def test_what_a_sheet_claims_stands_on_it(books: Mapping[str, Book], farm: str) -> None:
    """Word for word, but for the other system's units."""
    missing = [
        (page.sheet, claim)
        for page in books[farm].pages
        for claim in page.claims
        if plain(claim.value) not in plain(plain_text(page.body))
    ]
    assert missing == []


def test_sheets_of_every_area_make_claims(books: Mapping[str, Book]) -> None:
    """Feed, water, wallows, pens, log, emergencies, a stay's plan and cards, and the finder."""
    tabs = {sheet[0] for sheet, _ in books["example"].claims() if sheet != "finder"}
    assert tabs >= set("AEFHLMPQRSW")
    assert books["example"].finder_claims
    subjects = {claim.quantity for _, claim in books["example"].claims()}
    wanted = {"feed by", "feed from", "back in", "number", "head", "sunset", "cleared by"}
    assert wanted <= subjects


def test_a_sheet_that_disagrees_is_found(books: Mapping[str, Book]) -> None:
    """One hour more on the sheet of a pen, one head more on a card: each is told."""
    book = books["example"]
    for quantity in ("back in", "head", "feed by", "sunset", "figure"):
        page = next(
            page for page in book.pages if any(one.quantity == quantity for one in page.claims)
        )
        wrong = tuple(
            replace(one, value=f"{one.value} 1") if one.quantity == quantity else one
            for one in page.claims
        )
        pages = tuple(replace(one, claims=wrong) if one is page else one for one in book.pages)
        assert one_voice.disagreements(replace(book, pages=pages)), quantity


def test_other_units_beside_an_amount_are_no_disagreement() -> None:
    """`14 gal (52 L)` on one sheet, `14 gal` on another."""
    one, other = (
        Claim("p", "water", "", "14 gal (52 L) a day"),
        Claim("p", "water", "", "14 gal a day"),
    )
    assert disagreeing({"P1": [one], "R20": [other]}) == {}
