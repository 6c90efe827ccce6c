"""Sheets that once contradicted each other, each pair held together.

Found by reading the printed binder as a lone sitter does, on a day inside the July stay of the
example farm (invented). What other tests hold already is not repeated here: the order of meals
and soaked feed (`test_true_and_safe`), the rows of a card (`test_visits`).
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from binder.pages.text.protocol import plain_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book

CARDS = ("R21", "R22", "R23")


def said(books: Mapping[str, Book], sheet: str, farm: str = "example") -> str:
    """Return the words of a sheet, single plain spaces between."""
    page = next(
        one
        for one in books[farm].pages
        if one.sheet == sheet and one.kind not in {"card", "wall"}
    )
    return " ".join(plain_text(page.body).split())


@pytest.mark.parametrize("sheet", ["A2", "F1", "R20"])
def test_the_sow_lives_in_one_place(sheet: str, books: Mapping[str, Book]) -> None:
    """Clementine once stood in the creek paddock (P6) and in the barn (A2, B1, E5, R20)."""
    text = said(books, sheet)
    near = re.findall(r"(?:Barn stall 2 and its run|Creek paddock)(?= P\d Clementine)", text)
    assert set(near) <= {"Barn stall 2 and its run"}
    assert "Clementine" in said(books, "P2")
    assert "Clementine" not in said(books, "P6")
    assert "Clementine" in text


def test_feeding_times_are_said_once(books: Mapping[str, Book]) -> None:
    """5:55, 6:00 and 6:05 stood on three sheets; 7:00, 7:05 and 8:35 on three more."""
    for farm in ("example", "every kind"):
        times: dict[tuple[str, str], set[str]] = {}
        for _, claim in books[farm].claims():
            if claim.quantity in {"feed by", "feed from"}:
                times.setdefault((claim.quantity, claim.condition), set()).add(claim.value)
        assert times
        assert [found for found in times.values() if len(found) > 1] == []
    f1 = said(books, "F1")
    for sheet, words in (("R21", "no feed before"), ("R23", "On a hot day not before")):
        evening = re.findall(rf"{words} (\d+:?\d* [ap]m)", said(books, sheet))
        assert evening
        assert all(time in f1 for time in evening)


def test_cards_say_why_their_amounts_differ_from_the_feed_sheet(
    books: Mapping[str, Book],
) -> None:
    """6 1/4 scoops on F1 today, 6 1/2 on a card: inside a stay F1 has those of the cards."""
    assert "Amounts are as of 19 July, the last day of the stay" in said(books, "F1")
    assert "Amounts are as of 19 July, the stay's last day" in said(books, "R21")
    assert "In a stay feed by its cards" not in said(books, "F1", "least")


def test_a_late_wallow_waits_for_the_day_of_the_plan(books: Mapping[str, Book]) -> None:
    """P6 and M1 said due in May, do it now, while R20 gave it a day in July."""
    assert "Creek paddock: drain and fill the wallow" in said(books, "R20")
    for sheet in ("P6", "M1", "M3"):
        text = said(books, sheet)
        assert re.search(r"In a stay, on the days that R20\b.*? names", text), sheet
        assert "Do it now" not in text
    alone = said(books, "M1", "every kind")  # nobody stays there
    assert "never a sitter alone" in alone
    assert "In a stay" not in alone


def test_water_in_store_is_told_pen_by_pen(books: Mapping[str, Book]) -> None:
    """275 gal for 3 1/2 days on one sheet, 328 for 4 1/2 on another: now one list of pens."""
    assert "how long each pen has water W7" in said(books, "W1")
    for sheet in ("W7", "Q1"):
        text = said(books, sheet)
        assert re.search(r"Hen run\W+30 h", text), sheet
        assert re.search(r"Goat lot\W+4 1/2 days", text), sheet
        assert "3 1/2 days" not in text


def test_a_hose_is_warm_in_minutes_and_says_so_beside_its_hours(
    books: Mapping[str, Book],
) -> None:
    """Flushed every 2 h though warm after 5 min: so each flush fills a tub (water-31)."""
    w4 = said(books, "W4")
    assert "for minutes only" in w4
    assert "That tub is what they drink until you are back" in w4


def test_a_waterer_is_caught_for_one_time(books: Mapping[str, Book]) -> None:
    """20 s on one sheet, 30 s on another; the time of water-10 and of W5 is 30 s."""
    for page in books["example"].pages:
        if page.tab == "N":  # workings have seconds of their own
            continue
        text = " ".join(plain_text(page.body).split())
        for found in re.findall(r"(?:cup|waterer|Press)[^.]{0,60}?(\d+) (?:s|seconds)\b", text):
            assert found == "30", page.sheet


def test_a_valve_to_flush_is_not_the_valve_that_shuts_off(books: Mapping[str, Book]) -> None:
    """Brass valve: where a hose is let run. Red lever: what shuts the whole line off."""
    p6 = said(books, "P6")
    assert "Where: flush tap at its end, on the creek gate post" in p6
    assert "All water: red lever" in p6


def test_a_bird_that_is_down_is_carried(books: Mapping[str, Book]) -> None:
    """H5 forbids to carry birds in the heat; E3 says that this one is carried (heat-43)."""
    assert "Do not chase or carry" in said(books, "H5")
    assert "This one you carry, on any hot day" in said(books, "E3")


@pytest.mark.parametrize("sheet", [*CARDS, "P6"])
def test_nobody_alone_tries_the_boars_waterer_inside(
    sheet: str, books: Mapping[str, Book]
) -> None:
    """B2: never go in alone. P6 once said to press each waterer."""
    text = said(books, sheet)
    assert re.search(r"Look at each (?:drinker|waterer) from outside", text)
    assert "Press" not in text
    assert "Alone, never go in" in said(books, "B2")


@pytest.mark.parametrize("sheet", ["E6", "B5"])
def test_who_is_alone_stays_out_of_the_litters_stall(
    sheet: str, books: Mapping[str, Book]
) -> None:
    """P1 says stay out; E6 and B5 work from outside too, or with two (husbandry-83)."""
    assert "stay out of the stall" in said(books, "P1")
    assert "outside" in said(books, sheet)
    two = {"E6": "Alone, do only what you reach from outside", "B5": "Two people, one board"}
    assert two[sheet] in said(books, sheet)


def test_no_lone_sitter_is_given_work_for_two(books: Mapping[str, Book]) -> None:
    """A wallow is drained by two: it stands on the plan with a helper, on no card."""
    for sheet in CARDS:
        assert not re.search(r"[Dd]rain and fill|[Tt]wo people", said(books, sheet))
    assert "Not yours" in said(books, "R20") or "Barnaby Quill" in said(books, "R20")


def test_the_hottest_hour_has_one_number(books: Mapping[str, Book]) -> None:
    """A2 said 3 where the phone said 4: both read the hottest air of the hot day."""
    for book in books.values():
        numbers: dict[str, set[str]] = {}
        for _, claim in book.claims():
            if claim.condition == "hot day, at its hottest":
                numbers.setdefault(claim.subject, set()).add(claim.value)
        assert [pen for pen, found in numbers.items() if len(found) > 1] == []
    assert any(
        claim.condition == "hot day, at its hottest" for claim in books["example"].finder_claims
    )
