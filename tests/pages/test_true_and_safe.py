"""What the printed example has to say so that nobody is hurt by following it.

One test for each finding of a review by a vet, an extension specialist and a safety engineer;
the source of each statement stands beside it and in `content/sources.yaml`.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from binder.figures.published import rows
from binder.pages.text.protocol import plain_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book


def said(books: Mapping[str, Book], sheet: str, farm: str = "example") -> str:
    """Return the words of a sheet as the example farm prints it."""
    return next(
        plain_text(page.body)
        for page in books[farm].pages
        if page.sheet == sheet and page.kind not in {"card", "wall"}
    )


def test_three_cases_of_dry_animals_stand_in_one_table(books: Mapping[str, Book]) -> None:
    """Held back only after 24 hours or with signs: water-31 (WA DPIRD), water-36 (NADIS).

    "May be less than 24 hours" is water-30 (AASV practice tip, 2023): so small drinks from 12
    hours on. That a lack of water for less than 12 hours is no danger is water-39.
    """
    e8 = said(books, "E8")
    rows = [
        "More than 24 hours Twitching, walking blind, head pressed to a wall, fits Vet first",
        "12 to 24 hours Nobody knows since when Small drinks now, often, while you phone",
        "Less than 12 hours Only not seen to drink Cool water at once",
    ]
    assert [row for row in rows if row not in e8] == []


@pytest.mark.parametrize("sheet", ["E2", "E7", "R8", "W6"])
def test_no_animal_is_kept_dry_because_nobody_saw_it_drink(
    sheet: str, books: Mapping[str, Book]
) -> None:
    """The other sheets send to the table on E8 and give water meanwhile (water-31)."""
    text = said(books, sheet)
    assert "E8" in text
    for forbidden in ("Do not open the tap", "Do not fill it", "nobody knows: E8"):
        assert forbidden not in text
    given = ("not dry", "cool water at once", "fill it at once")
    assert any(words in text for words in given)


@pytest.mark.parametrize("sheet", ["E1", "E4"])
def test_cooling_begins_before_the_call_is_over(sheet: str, books: Mapping[str, Book]) -> None:
    """Cool first, then transport: heat-89 (dogs), heat-59 (farm animals)."""
    text = said(books, sheet)
    assert text.index("cool water") < text.index("Call the vet while you cool")
    assert "phone on speaker" in text


def test_where_the_phone_works_stands_where_one_calls(books: Mapping[str, Book]) -> None:
    """The owner's `phone_signal` (invented): no signal in the woods."""
    for sheet in ("E1", "E4", "E8", "E17", "E18", "E21", "E22", "C8"):
        assert "At the barn and on the road" in said(books, sheet), sheet


def test_heat_stroke_is_cooled_in_cold_water(books: Mapping[str, Book]) -> None:
    """extra-19 (OSHA): cold water or ice bath, else ice on head, neck, armpits, groin; 911.

    Nothing to drink only when not fully awake: extra-20 (CDC), as E18 and C2 both say.
    """
    e18, c2 = said(books, "E18"), said(books, "C2")
    assert e18.index("call 911 now") < e18.index("tub of cold water, with ice")
    assert "head, neck, armpits and groin" in e18
    assert "Never leave them alone" in e18
    assert "Not fully awake: nothing to drink" in e18
    assert "911 and cold water" in c2
    assert "drink only when wide awake" in c2


def test_bites_are_washed_for_a_quarter_of_an_hour(books: Mapping[str, Book]) -> None:
    """extra-17 (WHO, rabies): 15 minutes with soap and water."""
    e17 = said(books, "E17")
    assert "wash it 15 minutes with soap" in e17
    assert "3 to 5 minutes" not in e17


def test_resuscitation_and_bleeding_have_their_lines(books: Mapping[str, Book]) -> None:
    """extra-18 (American Red Cross; American College of Surgeons)."""
    e17 = said(books, "E17")
    assert "2 in (5 cm) deep, 100 to 120 a minute" in e17
    assert "push cloth into the wound" in e17
    assert "a tight band above it; note the time" in e17


@pytest.mark.parametrize("sheet", ["W3", "W4"])
def test_a_flush_also_fills_a_shaded_tub(sheet: str, books: Mapping[str, Book]) -> None:
    """water-31 (WA DPIRD): about 30 m of pipe in the sun is too hot.

    The tub: common practice.
    """
    text = said(books, sheet)
    assert "tub" in text
    if sheet == "W4":
        assert "for minutes only" in text
        assert "Warm again after" in text
        assert "bury the hose, shade it, or let a shaded tank" in text


def test_lamp_goes_by_the_age_of_the_litter(books: Mapping[str, Book]) -> None:
    """heat-33 (Univ. of Missouri): newborn 90-100 F, best 95; 3 weeks 75-85, best 80."""
    b5 = said(books, "B5")
    assert re.search(r"First days 95°F \(35°C\) 90°F \(32°C\) 100°F", b5)
    assert re.search(
        r"3 weeks, and older up to 30 lb \(14 kg\) 80°F \(27°C\) 75°F \(24°C\) 85°F", b5
    )
    pen = next(p for p in books["example"].pages if p.slug == "pen-stall-1")
    assert "80°F" not in plain_text(pen.body).split("heat lamp")[1][:200]


def test_boar_leaves_before_she_farrows(books: Mapping[str, Book]) -> None:
    """husbandry-83 (Pork Information Gateway); a week, as on B3, is our choice."""
    assert "He and a sow part a week or more before she is due" in said(books, "B2")
    assert "alone, with no boar" in said(books, "B3")


def test_never_one_person_in_with_pigs_that_kill(books: Mapping[str, Book]) -> None:
    """husbandry-83: a boar or a sow with a litter; work from outside."""
    assert "Alone on the farm you go in with no boar, no sow with piglets" in said(books, "C3")
    assert "from outside the fence" in said(books, "M3")
    assert "never a sitter alone" in said(books, "M4")
    assert "Try his waterer" not in said(books, "B2") or "from outside" in said(books, "B2")
    assert "Stay out of her pen" in said(books, "E6")
    assert "from outside the fence, with a stick" in said(books, "W3")


def test_road_and_loose_animals(books: Mapping[str, Book]) -> None:
    """extra-16 (a bucket, a board turns a pig); off the road: common practice, no source."""
    e16 = said(books, "E16")
    assert "Stay off the road" in e16
    assert "inside the gate with a rattling feed bucket" in e16
    assert "turn a pig with boards" in e16
    assert "between the animal and the road" not in e16


def test_who_may_decide_is_printed(books: Mapping[str, Book]) -> None:
    """The owner's `may_decide` (invented)."""
    for sheet in ("E1", "E17", "E19"):
        assert "Barnaby Quill, vet bills up to $400" in said(books, sheet), sheet


def test_call_before_you_dig(books: Mapping[str, Book]) -> None:
    """extra-33 (Common Ground Alliance): 811 in the US, free."""
    assert "in the US 811, free" in said(books, "M4")


def test_all_of_a_closed_run_is_shaded_and_a_dog_is_held_along_the_spine(
    books: Mapping[str, Book],
) -> None:
    """Common practice, no source."""
    assert "Shade all of a closed run or tractor" in said(books, "E3")
    assert "Hold it along the spine, off the legs" in said(books, "E4")


def test_one_feeding_rule_and_a_dry_late_meal(books: Mapping[str, Book]) -> None:
    """extra-34 (Choi et al. 2019): a meal at 22:00 besides three by day."""
    f3, f2 = said(books, "F3"), said(books, "F2")
    assert "Nothing wet stays overnight" in f3
    assert "Give it dry, at your last look" in f3
    assert "A meal that was left out: tell" in f3
    assert "a late meal is given dry" in f2
    assert "at dawn when evenings are hot" in said(books, "B5")
    assert "F3" in said(books, "H15")


def test_never_fed_and_treats_agree(books: Mapping[str, Book]) -> None:
    """husbandry-65 (9 CFR 166): meat scraps. F5 names F4 beside F1."""
    f5 = said(books, "F5")
    assert "We do not feed it. The law forbids meat scraps fed to pigs in most cases" in f5
    assert "and the few treats on F4" in f5


def test_first_call_for_a_dead_animal_and_end_of_the_wait(books: Mapping[str, Book]) -> None:
    """One first call. The wait: the label (husbandry-99 gives the duty to report)."""
    assert "Call the owner first" in said(books, "E19")
    assert "before the day on which the wait ends" in said(books, "C6")


def test_breaths_are_compared_with_the_farms_own_dawn(books: Mapping[str, Book]) -> None:
    """heat-30 (8 to 18); extra-12 (sows at 22 and 32 C); heat-29 (54 and 91 before birth)."""
    r3 = said(books, "R3")
    assert "Here, at dawn" in r3
    assert "8 to 18 Sows indoors: 23 at 72°F (22°C), 89 at 90°F (32°C)" in r3
    assert "In trouble: twice its dawn count, still rising an hour later" in r3
    assert "54, and 91 in the last 12 hours" in r3


@pytest.mark.parametrize(
    ("sheet", "words"),
    [
        ("R9", ("Pink-white, white 4, 5 Vet today", "swelling under the jaw")),  # extra-27
        ("R10", ("call the vet the same day", "wide round the place")),  # extra-28
        ("E22", ("Do not cut, suck, tie off or ice", "below the heart")),  # extra-24, NIOSH
        ("E22", ("brush them off", "navel")),  # extra-23, Texas A&M
        ("E23", ("neck, ears and hind legs", "Killing it is not yours")),  # extra-26
        ("E24", ("Too little water is the likeliest cause",)),  # extra-22, NADIS
        ("E24", ("No afterbirth a day after",)),  # extra-21
        (
            "Q7",
            ("72 hours before the storm", "out of closed barns, on high ground"),
        ),  # extra-29
        ("E21", ("within 4 minutes; within 6", "Never go into smoke")),  # extra-30
        ("E21", ("Back to the way out", "It grows, or is empty: leave")),  # extra-31
        ("Q8", ("every 7 days", "not only for a power cut")),  # husbandry-89, DEFRA
        ("Q9", ("Run it under that load for half an hour",)),
        ("C8", ("No call within 30 minutes", "Ask for a welfare check")),  # extra-32
    ],
)
def test_new_sheets_say_it(
    sheet: str, words: tuple[str, ...], books: Mapping[str, Book]
) -> None:
    """The sheets that a practitioner expects; the source stands beside each line."""
    text = said(books, sheet)
    assert [some for some in words if some not in text] == []


def test_new_sheets_come_only_where_the_animals_are(books: Mapping[str, Book]) -> None:
    """Three pigs in a lot: no worms of goats, no fire in a barn, no generator."""
    least = {page.sheet for page in books["least"].pages}
    assert not least & {"R9", "R10", "E21", "E23", "Q8", "Q9"}
    assert {"E22", "Q7", "C8"} <= least


def test_a_broken_dial_can_be_lived_with(books: Mapping[str, Book]) -> None:
    """heat-63 (Lawrence 2005): 90 F with a dew point of 70 F is 52 %, so the column of 55 %.

    80 F with 75 F is 85 %; 100 F with 60 F is 27 %, the next damper column being 30 %.
    """
    h1 = said(books, "H1")
    assert re.search(r"90°F \(32°C\) \d+% \d+% 55% \d+% \d+%", h1)
    assert re.search(r"80°F \(27°C\) \d+% \d+% \d+% 85% 100%", h1)
    assert re.search(r"100°F \(38°C\) 30% ", h1)


def test_who_may_decide_and_where_the_phone_works_stand_on_c1(
    books: Mapping[str, Book],
) -> None:
    """The owner's words (invented); without any the sheet says that nobody is recorded."""
    c1 = said(books, "C1")
    assert "Who may decide Odalys Fenwick Everything" in c1
    assert "Where the phone works At the barn and on the road" in c1
    assert "Not recorded who may decide" in said(books, "C1", "least")
    assert "At the barn and on the road" in said(books, "A1")
    woods = next(page for page in books["example"].pages if page.slug == "pen-woods")
    assert "Phone No signal here. Walk back to the barn" in plain_text(woods.body)
    card = next(page for page in books["example"].pages if page.slug == "card-woods")
    assert "No signal here" in plain_text(card.body)


def test_logs_ask_for_the_end_of_the_wait_and_one_first_call(
    books: Mapping[str, Book],
) -> None:
    """What E19 and C6 say, the logs repeat."""
    assert "Wait ends on (meat, milk, eggs)" in said(books, "L2")
    assert "call the owner first" in said(books, "L3")
    assert "agreed when I call in" in said(books, "A4")


def test_no_sheet_tells_to_keep_the_tap_shut_by_the_hour_alone(
    books: Mapping[str, Book],
) -> None:
    """water-31: more than 24 hours. W1 and the rounds agree with E8."""
    for page in books["example"].pages:
        assert "Do not open the tap" not in plain_text(page.body), page.sheet
    assert "Dry for less than 12 hours: cool water at once" in said(books, "W1")


def test_one_time_at_a_waterer(books: Mapping[str, Book]) -> None:
    """The weekly test alone holds a clock: 30 seconds, doubled (water-9, OMAFRA)."""
    for page in books["example"].pages:
        assert "20 seconds. Feel the water" not in plain_text(page.body), page.sheet
    assert "Press it open for 30 seconds" in said(books, "W5")


def test_addresses_of_sources_stay_off_the_paper(books: Mapping[str, Book]) -> None:
    """Who, what and when is printed, and whether the page was read in part or on a copy."""
    page = next(page for page in books["example"].pages if page.sheet == "N2")
    words = plain_text(page.body)
    assert "http" not in words
    assert "read in part" in words
    assert "read on a copy" in words
    assert "medbox.iiab.me" not in page.body  # a mirror (extra-24)


def test_a_growers_breaths_rise_as_published(books: Mapping[str, Book]) -> None:
    """extra-66: 3.0 to 3.3 a minute more for each degree from 24 to 32 °C, hardly any below."""
    row = r"Growing pig ____ About (\d+) more at 90°F \(32°C\) than at 75°F \(24°C\)"
    found = re.search(row, said(books, "R3"))
    assert found is not None
    assert (32 - 24) * 3.0 <= int(found[1]) <= (32 - 24) * 3.3


def test_hauling_rests_on_the_vets_association(books: Mapping[str, Book]) -> None:
    """heat-74 (AASV): 60 F wet shavings and no straw, 80 F a coarse sprinkle, dawn or night.

    No loading from 86 F is the 30 C of husbandry-95; 85 F is our choice.
    """
    h17 = said(books, "H17")
    assert "80°F (27°C) and more Only at dawn or night" in h17
    assert "86°F (30°C) and more No." in h17
    assert "Lay wet shavings, not straw, when it is above 60°F (16°C)" in h17
    assert "Sprinkle pigs with big drops above 80°F (27°C)" in h17
    assert "Rests on sources heat-74, husbandry-95" in h17


def test_sources_print_who_what_and_when_apart(books: Mapping[str, Book]) -> None:
    """heat-5: agency, page and year, in this order; a grade that is unknown has a dash."""
    page = next(page for page in books["example"].pages if page.sheet == "N2")
    row = next(row for row in page.body.split("<tr") if ">heat-5<" in row)
    cells = [
        plain_text(cell).replace(" .", ".").rstrip(".")
        for cell in re.findall(r"<t[hd][^>]*>.*?</t[hd]>", row)
    ]
    assert cells == [
        "heat-5",
        "A",
        "CDC/NIOSH. Protect your workers from heat stress. 2018",
    ]
    ours = next(row for row in page.body.split("<tr") if ">derived<" in row)
    assert ours.count("<td>–</td>") == 1  # no grade


def test_class_lines_rest_on_the_guide_and_the_glossary() -> None:
    """heat-73 (Univ. of Missouri Extension G2099), heat-97 (AMS Glossary)."""
    found = {line.text("band"): line.sources for line in rows("livestock_bands")}
    for band in ("warm", "hot", "severe"):
        assert found[band] == ("heat-73", "heat-97")


def test_bleach_sheet_gives_one_instruction(books: Mapping[str, Book]) -> None:
    """wallow-3 (CDC): mix from bleach that has not aged. No dose, no strength."""
    m2 = said(books, "M2")
    assert "No dose" in m2
    assert "8.2 ppm" not in m2
    assert "times the bleach" not in m2
    assert m2.index("Do not mix from it. Buy a fresh bottle") < m2.index("Boot bath")


def test_one_rule_says_when_to_go_a_number_higher(books: Mapping[str, Book]) -> None:
    """The same box on the first sheet and on H1: 75 F (heat-98), to sunset, never a 4."""
    for sheet in ("A2", "H1"):
        words = said(books, sheet)
        assert "last night stayed at 75°F (24°C) or more at its coolest" in words
        assert (
            "From first light to sunset go one number higher than the chart, 3 at most" in words
        )
    assert "or treating" not in said(books, "H15")


def test_gallons_of_a_flush_are_flow_times_minutes(books: Mapping[str, Book]) -> None:
    """250 ft of 3/4 in hold 5.7 gal (water-75); at 5 gal/min for 1 min 43 s that is 8.6."""
    for sheet in ("W2", "W4"):
        words = said(books, sheet)
        assert "8 1/2 gal" in words
        assert "5 1/2 gal" not in words
    words = said(books, "W2")
    assert "a flush keeps it cool for minutes only" in words
    assert "Between rounds they drink from the tub" in words
    assert "let a shaded tank fill the trough by gravity" in words
