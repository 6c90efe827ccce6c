"""What somebody who has nothing but the printed sheets can do, alone, at the hour they name.

Each test is a place where a reader of the example's paper had to guess. What counts as
settled is our choice where no source is named.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages.text.protocol import plain_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book


def said(books: Mapping[str, Book], sheet: str, farm: str = "example") -> str:
    """Return the words of a ring sheet as a farm prints it."""
    return next(
        plain_text(page.body)
        for page in books[farm].pages
        if page.sheet == sheet and page.kind not in {"card", "wall"}
    )


def test_scum_asks_one_person_only_for_what_one_can_do(books: Mapping[str, Book]) -> None:
    """The rule of C3, never alone among boars or grown pigs, holds on E11."""
    e11 = said(books, "E11")
    assert "Get all animals out" not in e11
    for words in (
        "clean water at the far side, from outside",
        "Call for hands",
        "Alone, never",
    ):
        assert words in e11
    assert e11.index("Call for hands") < e11.index("Close the water off")


def test_a_stopped_fan_has_one_interval(books: Mapping[str, Book]) -> None:
    """E9 and E10 say the same, and ask nobody to walk all pens within 15 minutes."""
    for sheet in ("E9", "E10"):
        assert "Look every 15 minutes where a fan stands still" in said(books, sheet)
        assert "All other pens as often as their own sheets ask" in said(books, sheet)
    assert "every pen each 15" not in said(books, "E9")
    assert "every 30 minutes" not in said(books, "E10")


def test_dry_animals_get_water_before_the_walk_to_the_signal(books: Mapping[str, Book]) -> None:
    """The owner's `phone_signal` (invented): none in the woods. Water comes first."""
    e8 = said(books, "E8")
    assert e8.index("Set small drinks") < e8.index("call the vet")
    assert "walk there, call, come straight back" in e8
    assert "Lines 1 and 2" not in e8
    assert "Carry water first" in said(books, "E7")


def test_a_birth_is_looked_at_every_30_minutes_from_the_nest(books: Mapping[str, Book]) -> None:
    """husbandry-66, husbandry-67: every 30 to 60 minutes; the shorter from nest building on."""
    for sheet in ("B3", "R7", "E5"):
        assert "every 30 minutes" in said(books, sheet).lower()
        assert "30 to 60" not in said(books, sheet)
    e5 = said(books, "E5")
    assert "Owner, as soon as she nests" in e5
    assert "Do not go in to hang one" in e5
