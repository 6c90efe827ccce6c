"""What a second review found that would hurt a person or an animal if a lone sitter did it.

The source of each statement stands beside it and in `content/sources.yaml`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder.pages.text.protocol import plain_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book


def said(books: Mapping[str, Book], sheet: str, farm: str = "example") -> str:
    """Return the words of a sheet as a farm prints it."""
    return next(
        plain_text(page.body)
        for page in books[farm].pages
        if page.sheet == sheet and page.kind not in {"card", "wall"}
    )


@pytest.mark.parametrize("sheet", ["E9", "Q2", "Q9"])
def test_no_generator_feeds_a_breaker_without_a_transfer_switch(
    sheet: str, books: Mapping[str, Book]
) -> None:
    """husbandry-36 (CPSC), husbandry-37: current that goes back into the lines kills.

    Q2 told the sitter to put on it "the breaker marked FANS", with no transfer switch there.
    """
    text = said(books, sheet)
    if sheet == "E9":
        assert "Start the generator only as Q2 says" in text
        return
    told = text.split("Put on it only:")[1][:200]
    assert "breaker" not in told
    assert "Each by a cord of its own, its plug out of the wall" in told
    if sheet == "Q2":
        assert "What is wired in needs a transfer switch" in text


def test_a_sick_animal_is_treated_in_the_heat_too(books: Mapping[str, Book]) -> None:
    """A hot spell forbids hauling, mating and weaning, not the vet's work: common practice."""
    for sheet in ("H14", "R5"):
        assert "treating" not in said(books, sheet)
    for sheet in ("H14", "H15"):
        assert "as the vet says" in said(books, sheet)


def test_a_boar_and_a_sow_part_when_the_stall_is_ready(books: Mapping[str, Book]) -> None:
    """One week on B2 as on B3, where she is moved: due from 11 July, moved on 3 July."""
    assert "part a week or more before she is due" in said(books, "B2")
    assert "ready a week before she is due, alone, with no boar" in said(books, "B3")


def test_whoever_buries_a_hose_calls_first(books: Mapping[str, Book]) -> None:
    """extra-33 (Common Ground Alliance): 811 in the US."""
    assert "in the US 811, free" in said(books, "W4")


def test_where_the_phone_works_stands_with_a_loose_animal(books: Mapping[str, Book]) -> None:
    """The owner's `phone_signal` (invented): E16 begins with two calls."""
    assert "At the barn and on the road" in said(books, "E16")
