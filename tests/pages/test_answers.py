"""Forty questions a sitter would ask, each with the sheet of the example farm that answers it.

The answers are what the invented owner wrote in content/example-farm, or what the sources named
on the sheet say. A question is answered when all its words stand on that one sheet.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder.pages.text.protocol import plain_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book

QUESTIONS = (
    # Animals in trouble
    (
        "A sow pants with her mouth open at four o'clock. What first?",
        "E1",
        ("Wet it with cool water now", "Call the vet while you cool", "912-555-0132"),
    ),
    (
        "The creek drinker is dry and was full yesterday evening. May I open it?",
        "E7",
        (
            "Less than 12 hours: cool water at once",
            "Longer, nobody knows, or one acts oddly: E8 says how much",
        ),
    ),
    (
        "They had no water all night. What now?",
        "E8",
        (
            "12 to 24 hours",
            "Small drinks now, often, while you phone",
            "Take feed and salt away",
        ),
    ),
    (
        "The boar walks the fence and does not drink. Do I go in?",
        "E2",
        ("Stay outside the pen", "not dry", "through the fence"),
    ),
    ("A hen lies limp.", "E3", ("shade with moving air", "feet and legs in cool water")),
    (
        "The dog is too hot. Drive or cool?",
        "E4",
        ("Dog: cool it before you drive", "No muzzle"),
    ),
    (
        "She strains and nothing comes. When do I call?",
        "E5",
        ("She strained one hour and no piglet came", "912-555-0132", "Clementine"),
    ),
    (
        "The piglets lie in a pile and shiver.",
        "E6",
        ("Too cold: switch the lamp on", "Close the draft"),
    ),
    (
        "The lights are out and no fan runs. Where do I go first?",
        "E9",
        (
            "Birds in a house first: Hen run.",
            "Then where a fan stands still",
            "Tarrow Flats Power 912-555-0188",
        ),
    ),
    ("A pig stands on the road.", "E16", ("Call 911 first", "White switch in the feed room")),
    ("A grower is dead. Do I bury it?", "E19", ("Do not bury it yet", "gloves")),
    ("It thunders. When may I go out again?", "E15", ("30 minutes after the last thunder",)),
    # People in trouble
    ("What address do I give to 911?", "A1", ("1480 Whistling Duck Road, Tarrow Bend",)),
    (
        "Bleach got into my eye.",
        "E12",
        ("rinse with lukewarm running water for 15 minutes", "1-800-222-1222"),
    ),
    ("I feel dizzy and weak.", "E18", ("give sips of cool water", "Confused, faint or fits")),
    ("The owner does not answer. Who knows the farm?", "C1", ("Barnaby Quill", "912-555-0121")),
    ("Who has a trailer?", "C1", ("Cordell Vance", "912-555-0155", "Stock trailer")),
    # Heat
    ("Where is the thermometer?", "H1", ("North wall of the barn, under the eave",)),
    ("The number is 3. When must I be back?", "R1", ("3 severe", "2 hours", "Creek paddock")),
    ("Is it too hot to load pigs?", "H17", ("86°F (30°C) and more", "No.", "Clementine")),
    ("The nights stay warm.", "H15", ("75°F (24°C)", "one number higher")),
    ("How fast may a grown pig breathe?", "R3", ("Grown pig", "8 to 18")),
    # Water
    (
        "Where do I let the warm water out of the creek hose, and how long?",
        "W4",
        (
            "Long hose to the creek paddock",
            "Flush tap at its end, on the creek gate post",
            "1 3/4 min",
            "8 1/2 gal",
        ),
    ),
    ("How much do the growers drink a day?", "W1", ("Woods paddock", "44 gal")),
    (
        "Is there water in store, and for how long?",
        "W7",
        ("Tank on the rise", "275 gal", "30 h"),
    ),
    ("How much should a sow's drinker give?", "W5", ("Sow with piglets", "6 or more")),
    ("Where is the main water turned off?", "Q1", ("Red lever in the well house",)),
    # Wallows
    (
        "Is the green on the wallow safe?",
        "M5",
        ("When in doubt, keep them out", "No test at home can show that water is safe"),
    ),
    ("May I put bleach into the wallow?", "M2", ("No dose", "Drain and refill")),
    ("How much goes into the creek wallow each day?", "M3", ("Creek paddock", "125 L")),
    # Feed
    (
        "How much feed and water goes in which bucket for Marigold tonight, and when?",
        "F1",
        ("Marigold", "6.5 lb", "2 1/4", "3 qt", "soaking bucket", "8:45 pm"),
    ),
    ("And for the growers?", "F2", ("Growers", "19 lb", "6 1/2", "2 1/4 gal", "Rinse trough")),
    ("How much do the hens get?", "F6", ("Laying hens", "15 lb", "7 1/2", "Blue scoop")),
    (
        "May I give them what is left of lunch?",
        "F5",
        ("No kitchen scraps", "We do not feed it"),
    ),
    # Breeding, equipment, people
    ("When is Clementine due?", "B1", ("Clementine", "11 to 16 July", "watch for labor")),
    (
        "Which fan is on which breaker?",
        "S4",
        ("Barn stall 1", "Barn stall 2", "Breaker marked FANS"),
    ),
    ("Does the generator go into the shed?", "Q2", ("No tarp, no porch, no shed", "20 ft")),
    ("How do I open the creek paddock?", "P6", ("Unhook the lower wire by its handle",)),
    ("What medicine does the dog get?", "C6", ("Bramble", "Monthly heartworm chew")),
    ("What is the code of the road gate?", "K1", ("4071", "Keypad on the left cypress post")),
)


def test_there_are_forty_questions() -> None:
    """Forty, none asked twice."""
    assert len({question for question, _, _ in QUESTIONS}) == len(QUESTIONS) == 40


@pytest.mark.parametrize(
    ("question", "sheet", "words"), QUESTIONS, ids=lambda one: str(one)[:40]
)
def test_sheet_answers(
    question: str, sheet: str, words: tuple[str, ...], books: Mapping[str, Book]
) -> None:
    """The sheet holds every word of the answer."""
    texts = [
        plain_text(page.body)
        for page in books["example"].pages
        if page.sheet == sheet and page.kind not in {"card", "wall"}
    ]
    missing = [some for some in words if not any(some in text for text in texts)]
    assert missing == [], question
