"""What somebody who has nothing but the printed sheets can do, alone, at the hour they name.

Each test is a place where a reader of the example's paper had to guess. What counts as
settled is our choice where no source is named.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

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
    assert "No lamp? Tell the owner." in e5


@pytest.mark.parametrize("farm", ["example", "least", "every kind"])
@pytest.mark.parametrize(
    "words",
    ["up and drinking", "in all (our choice)", "card at the gate", "Gather the eggs."],
)
def test_no_sheet_says_what_nobody_says(
    farm: str, words: str, books: Mapping[str, Book]
) -> None:
    """Common practice, no source: words that somebody new to the farm understands."""
    assert [p.sheet for p in books[farm].pages if words in plain_text(p.body)] == []


def test_a_late_wallow_tells_no_sitter_to_drain_it(books: Mapping[str, Book]) -> None:
    """The rule of M4, two people and never a sitter alone, stands wherever a day is past."""
    late = [
        plain_text(page.body)
        for page in books["example"].pages
        if page.tab in {"P", "M"} and "was due for draining" in plain_text(page.body)
    ]
    assert late
    for text in late:
        assert text.count("was due for draining") == text.count("Two people do it, never")


def test_what_the_owner_does_is_not_asked_of_a_sitter(books: Mapping[str, Book]) -> None:
    """The card of the day gives the fans' cleaning to the owner, and so does S4."""
    assert "Each week: the owner, not a sitter" in said(books, "S4")
    assert "A boar is moved out first, never by a sitter" in said(books, "M4")


def test_growers_without_a_figure_are_compared(books: Mapping[str, Book]) -> None:
    """No figure for growers is published that we trust: mouth open, or twice the others."""
    r3 = said(books, "R3")
    assert "mouth open at any count, or twice as fast as the others" in r3
    assert "Compare it with the others that rest" in r3


def test_the_round_leaves_order_and_log_to_the_cards(books: Mapping[str, Book]) -> None:
    """One order and one list of what is written down: those of the plan."""
    r1 = said(books, "R1")
    assert "in the order of the card" in r1
    assert "Its columns say what else" in r1
    assert "Come at the midday visit or look on your card" in said(books, "R5")


def test_a_generator_is_meant_for_nothing_it_cannot_run(books: Mapping[str, Book]) -> None:
    """Q1 says that it cannot run the well: Q2 and Q9 name only what is left."""
    assert "Well behind the barn alone needs" in said(books, "Q1")
    fans = "fan at Barn stall 1, fan at Barn stall 2 and its run."
    for sheet in ("Q2", "Q9"):
        assert f"Put on it only: {fans}" in said(books, sheet)


def test_the_nearest_valve_comes_before_the_one_for_all_water(
    books: Mapping[str, Book],
) -> None:
    """Q1 lists the valves; a pen's sheet sends there and names the lever for all water."""
    for sheet in ("P5", "P6", "P7"):
        text = said(books, sheet)
        assert "Other valves: Q1" in text, text[-1500:]
        assert "Shut-off for the whole line" not in text


def test_a_slow_waterer_is_named_on_its_pen_sheet(books: Mapping[str, Book]) -> None:
    """1.5 L/min for a sow with piglets (water-9), 2 cups for growers (water-1): P1 and P7."""
    assert "gives less than they need" in said(books, "P1")
    assert "gives less than they need" in said(books, "P7")
    assert "gives less than they need" not in said(books, "P6")


def test_at_number_four_nobody_is_alone(books: Mapping[str, Book]) -> None:
    """H12 and the pens said `Stay with them`, C8 that nobody works alone outdoors at 4."""
    for sheet in ("H12", "P1", "P4", "P6"):
        for row in said(books, sheet).split("4 All hands")[1:]:
            if "Stay with" in row[:160]:
                assert "Get help first" in row[: row.index("Stay with")]
    assert "4 All hands Somebody stays, never one alone" in said(books, "H12")
    assert "At number 4 nobody works here alone outdoors" in said(books, "C8")


def test_a_sitter_knows_which_chart_and_which_pens(books: Mapping[str, Book]) -> None:
    """H1 gave the creek the chart of the sow who leaves it; no sheet named the guarded pens."""
    assert "Creek paddock 0 1 1 H3" in said(books, "R21")
    assert "So alone you stay outside here: Barn stall 1, " in said(books, "R20")
    assert "Barnaby Quill (912-555-0121, here in 15 minutes)" in said(books, "R20")
    assert "Here in 15 minutes" in said(books, "C1")


def test_a_fan_goes_off_at_a_number(books: Mapping[str, Book]) -> None:
    """`Until the barn is cool` left a sitter to guess when."""
    assert "day and night, until the number is 0 again" in said(books, "S4")
    assert "until the number is 0" in said(books, "R6")
    assert "barn is cool" not in said(books, "S4") + said(books, "R6")


def test_light_work_at_one_has_its_minutes(books: Mapping[str, Book]) -> None:
    """heat-7 has light work in shade; C7 left it out, and R22 its minutes."""
    assert "Light work in shade needs no extra rest up to 98°F." in said(books, "C7")
    assert "Light work in shade needs no extra rest up to 98°F; hotter: C7." in said(
        books, "R22"
    )


def test_inside_a_stay_meals_are_at_its_visits(books: Mapping[str, Book]) -> None:
    """F1 to F3 had feed eaten by 6 am, half an hour before the first visit."""
    for sheet in ("F1", "F2", "F3", "R6", "H14"):
        text = said(books, sheet)
        assert "Both meals go out at the visits of the cards: 6:30 am and 8:45 pm." in text
        assert "eaten by 6 am" not in text


def test_the_calendar_and_the_cards_word_weaning_alike(books: Mapping[str, Book]) -> None:
    """`Wean between` asked a sitter for what the plan says no sitter does."""
    assert "the owner weans her young, no sitter does" in said(books, "B1")
    assert "leave her young with her, no sitter weans them" in said(books, "R20")
    assert "Here: Marigold's 9, born on 28 May" in said(books, "B5")


def test_a_hose_that_is_warm_in_minutes_is_not_mended_by_a_flush(
    books: Mapping[str, Book],
) -> None:
    """A5 let the hose run every 2 h though its water is too warm again after 5 min (W2)."""
    a5 = said(books, "A5")
    assert "let it run every" not in a5.replace("if nobody lets it run every", "")
    assert "fill a tub in the shade at each flush" in a5


def test_the_waterer_of_the_neediest_is_judged(books: Mapping[str, Book]) -> None:
    """4 cups do for a boar, not for a sow with piglets (water-9): W5 says so."""
    w5 = said(books, "W5")
    assert "the one that needs most decides" in w5
    assert "Barn stall 1: 2 nipples, 4 cups a minute each. It gives less than they need." in w5
