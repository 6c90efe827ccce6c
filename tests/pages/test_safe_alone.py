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


def test_no_wallow_is_drained_beside_a_sow_near_birth(books: Mapping[str, Book]) -> None:
    """Clementine farrows in stall 2 from 11 July on; a boar is led out first (our choice).

    R20 had Barnaby drain her wallow on the 10th and the 17th, while M4 told the owner, who is
    away, to move her first. A wallow itself does a nursing sow good (wallow-48, AHDB).
    """
    r20 = said(books, "R20")
    assert "Barn stall 2 and its run: drain and fill the wallow" not in r20
    assert "Creek paddock: drain and fill the wallow" in r20
    waits = "No draining beside a sow near birth or with young, only topping up"
    assert f"{waits}: Barn stall 2 and its run" in r20
    assert "A boar moves out before the draining, not by you" in r20
    m4 = said(books, "M4")
    assert "A boar is moved out first, never by a sitter" in m4
    assert "Beside a sow near birth or with piglets: only top up" in m4


def test_feed_lasts_when_the_young_come_on_the_first_day(books: Mapping[str, Book]) -> None:
    """Sow pellets, 10 days: 13 + 6 + 5 + 5 lb a day, Clementine 2 at 5 lb and 8 at 13 lb.

    3 lb and 1 lb a pig, ten pigs, is husbandry-51; the other rations are the farm's own
    (invented). Without the birth it was 340 lb, 64 lb too little.
    """
    need = 10 * (13 + 6 + 5 + 5) + 2 * 5 + 8 * (3 + 10)
    r20 = said(books, "R20")
    assert f"Sow pellets {need} lb" in r20
    assert f"{need - 300} lb" in r20  # 300 lb are on hand
    assert "That is the published amount: ask the owner first" in r20


def test_a_litter_beside_a_wallow_is_told_to_the_owner(books: Mapping[str, Book]) -> None:
    """She keeps it (wallow-48, AHDB); a guard holds piglets back (husbandry-15)."""
    a5 = said(books, "A5")
    assert "Barn stall 2 and its run: Clementine has piglets where there is a wallow" in a5
    board = "a low board across her hut\N{APOSTROPHE}s door that she steps over and they cannot"
    assert board in a5


def test_labor_is_watched_for_once(books: Mapping[str, Book]) -> None:
    """B1 had it from 9 to 10 July "if the birth comes on its day" and from 9 to 16 July."""
    b1 = said(books, "B1")
    assert b1.count("watch for labor") == 1
    assert "9 to 16 July" in b1
