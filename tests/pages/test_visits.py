"""The card of a visit and the log of a stay, as a stranger reads them at the gate."""

from __future__ import annotations

import html
import math
import re
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from tests.pages.conftest import EXAMPLE
from tests.pages.test_stays import JULY, changed, page, text_of

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from binder.pages.page import Book, Page

CARDS = [f"visit-july-{time}" for time in ("0630", "1300", "2045")]
CARDS += [f"visit-august-weekend-{time}" for time in ("0600", "1200", "2030")]


def rows(one: Page) -> list[list[str]]:
    """Return the cells of every row of a card's tables, in words."""
    found = []
    for row in re.findall(r"<tr>(.*?)</tr>", one.body, re.DOTALL):
        cells = re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row, re.DOTALL)
        plain = (html.unescape(re.sub(r"<[^>]+>", " ", cell)) for cell in cells)
        found.append([" ".join(cell.split()) for cell in plain])
    return found


def row_of(one: Page, what: str) -> list[str]:
    """Return the row of a card that begins with these words."""
    (found,) = [row for row in rows(one) if row[0].startswith(what)]
    return found


def number(text: str) -> Fraction:
    """Return `1 1/2` as a number; a dash stands where the row above has the minutes."""
    return sum((Fraction(part) for part in text.replace("–", "0").split()), Fraction())


# --- columns and minutes -------------------------------------------------------------------


@pytest.mark.parametrize("slug", CARDS)
def test_every_table_of_a_card_has_a_head(books: Mapping[str, Book], slug: str) -> None:
    """A pen's name with its place in the walk, over the whole of its table."""
    tables = re.findall(r"<table.*?</table>", page(books, slug).body, re.DOTALL)
    assert len(tables) == 8
    for place, table in enumerate(tables, 1):
        (head,) = re.findall(r'<th scope="col" colspan="2">(.*?)</th>', table)
        assert head.startswith(f"{place} " if place < 8 else "When the round is done")


MORE = "With all that higher numbers ask"


@pytest.mark.parametrize("slug", CARDS)
def test_the_rows_add_up_to_the_minutes_in_the_box(
    books: Mapping[str, Book], slug: str
) -> None:
    """Walking, feed, eggs and leftovers are rows of their own; the box has whole minutes."""
    card = page(books, slug)
    told = text_of(card)
    first = re.search(r"About ([\d /]+) min of work", told)
    without = re.search(r"([\d /]+) min without what the numbers ask", told)
    box = without or first
    assert first is not None
    assert box is not None
    body = [row for row in rows(card) if len(row) > 1 and row[0] != MORE]
    always = [row for row in body if not row[1].startswith("+")]
    total = sum(number(row[1]) for row in always)
    assert math.ceil(total) == number(box[1])
    more = [number(row[1].removeprefix("+")) for row in body if row[1].startswith("+")]
    most = [number(row[1]) for row in rows(card) if row[0] == MORE]
    assert number(box[1]) <= number(first[1]) <= math.ceil(total + sum(more))
    # What the box says is not said again, so that a card changes in one place.
    assert most == (
        [] if number(first[1]) == math.ceil(total + sum(more)) else [total + sum(more)]
    )
    assert number(row_of(card, "Walking and gates")[1]) == 7 * 3  # 3 min to each of 7 pens


# --- feed ----------------------------------------------------------------------------------


def test_who_gets_nothing_on_record_says_ask_the_owner(tmp_path: Path) -> None:
    """Hay and notes on feed stand in the row; an amount that nobody wrote down is asked for."""
    folder = changed(
        tmp_path / "farm",
        animals=lambda text: (
            text.replace("3 lb/day\n  feed: dog-food", "")
            .replace("  ration: \n", "")
            .replace("6 lb/day\n  feed: sow-feed", "6 lb/day")
        ),
    )
    card = next(one for one in book_of(folder, JULY).pages if one.slug == CARDS[0])
    assert row_of(card, "Feed Bramble")[0] == (
        "Feed Bramble Ask the owner: no amount is written down Which feed: ask the owner"
    )
    hector = row_of(card, "Feed Hector")[0]
    assert hector.endswith("never feed him by hand. Which feed: ask the owner")
    pepper = row_of(card, "Feed Pepper")[0]
    assert "Hay, always there" in pepper
    assert pepper.endswith("Hay is all he needs.")
    assert "Friendly" not in hector  # a note that is not about feed


def test_every_group_of_the_farm_stands_on_a_card_with_a_meal(
    books: Mapping[str, Book],
) -> None:
    """Twelve entries of animals.yaml, twelve rows in the morning."""
    fed = [row[0] for row in rows(page(books, CARDS[0])) if row[0].startswith("Feed ")]
    assert len({row.split()[1] + row.split()[2] for row in fed}) == len(fed) == 12
    assert all(re.search(r" [\d.]+ lb | Hay, always there", row) for row in fed)


def test_a_card_with_a_meal_says_when_there_is_none(books: Mapping[str, Book]) -> None:
    """One time for the evening meal; nothing above 2 before it; at noon no word of it."""
    morning, noon, evening = (page(books, slug) for slug in CARDS[:3])
    rule = (
        "Above number 2 of the chart itself, not one higher, no feed before 7:05 pm; who pants "
        "gets none. Panting then? Wait for sunset, 8:35 pm."
    )
    assert rule in text_of(morning)
    assert rule not in text_of(evening)  # 8:45 pm, the sun is down
    assert "Feed at any number: the sun is down." in text_of(evening)
    assert rule not in text_of(noon)
    assert "Birds keep their feed, day and night." in text_of(morning)
    assert "Birds keep" not in text_of(evening)  # nobody fills a hopper then
    assert row_of(evening, "Feed Pepper")[0] == (  # hay is never taken away
        "Feed Pepper Hay, always there Hay is all he needs."
    )
    assert row_of(morning, "Feed Poppy")[0] == (
        "Feed Poppy 2.5 lb = 3/4 scoop Sow pellets, Red scoop"
    )


def test_a_morning_card_says_that_it_comes_too_late(books: Mapping[str, Book]) -> None:
    """06:30 in July is after first light, 06:00; 06:00 in August is before 06:20."""
    late = text_of(page(books, "visit-july-0630"))
    assert "Feed as you come to each pen." in late
    assert "it is eaten by" not in late
    early = text_of(page(books, "visit-august-weekend-0600"))
    assert "it is eaten by 6:20 am." in early
    assert "as you come to each pen" not in early


def test_what_is_wrong_with_the_farm_is_for_its_owner(books: Mapping[str, Book]) -> None:
    """The late meal and its fix stand on the owner's list and not on the sitter's paper."""
    said = text_of(page(books, "readiness")).replace("\N{NO-BREAK SPACE}", " ")
    assert "The morning feed goes out at 6:30 am. On a hot day it should be eaten" in said
    assert "Come by 6 am" in said
    for slug in ("stay-july", "stay-august-weekend"):
        told = text_of(page(books, slug))
        assert "The morning feed goes out" not in told
        assert "What does not hold" not in told


# --- heads, amounts, tasks -----------------------------------------------------------------


def test_piglets_are_counted(books: Mapping[str, Book]) -> None:
    """Marigold and nine: ten head; who may be born in the stay is named."""
    card = page(books, CARDS[0])
    assert row_of(card, "See all 10; see the grown ones drink")[0].endswith(
        "10 head, 9 of them young"
    )
    assert (
        "Young may be born in this stay: Clementine. Before: 1 head in her pen; after: 11"
        in text_of(card)
    )
    august = text_of(page(books, "visit-august-weekend-0600"))
    assert "Young may be born" not in august


@pytest.mark.parametrize("slug", CARDS)
def test_a_card_says_of_which_day_its_amounts_are(books: Mapping[str, Book], slug: str) -> None:
    """The last of the stay."""
    day = "19 July" if "july" in slug else "16 August"
    assert f"Amounts are as of {day}, the stay's last day" in text_of(page(books, slug))


def test_the_owners_tasks_stand_on_one_card(books: Mapping[str, Book]) -> None:
    """The hay rack in the morning only; the eggs in the morning and at noon, as written."""
    told = [text_of(page(books, slug)) for slug in CARDS[:3]]
    assert ["Fill the hay rack" in text for text in told] == [True, False, False]
    assert ["In the morning and at noon, into" in text for text in told] == [
        True, True, False,
    ]  # fmt: skip
    assert all("our choice" not in text for text in told)


# --- the log and the card agree ------------------------------------------------------------


def test_the_log_has_what_the_card_asks_for(
    books: Mapping[str, Book],
) -> None:
    """A column for each pen, and over it how many there should be."""
    assert "Write on L10" in text_of(page(books, CARDS[0]))
    (pens,) = re.findall(r"<table.*?</table>", page(books, "log-july").body, re.DOTALL)
    heads = re.findall(r'<th scope="col"[^>]*>(.*?)</th>', pens)
    assert heads[1:-4] == [
        "Barn stall 1: 10", "Barn stall 2 and its run: 1", "Goat lot: 7",
        "Hen run: 45", "Meat bird tractor: 25", "Creek paddock: 1",
        "Woods paddock: 10",
    ]  # fmt: skip
    assert "Barn stall 2 and its run, once she has given birth: 11." in text_of(
        page(books, "log-july")
    )
    assert heads[-4:] == ["Air °F", "Humid %", "Water, feed, notes", "By"]


def test_many_pens_take_several_tables(tmp_path: Path) -> None:
    """A tenth pen begins a second table, with the times again."""
    more = {"orchard": 8, "lane": 9, "meadow": 10}

    def pens(text: str) -> str:
        new = (
            f"- {{id: {one}, name: The {one}, kind: run, route: {n}}}\n"
            for one, n in more.items()
        )
        return f"{text}\n{''.join(new)}"

    def animals(text: str) -> str:
        new = (f"- {{name: {one.title()}, species: goat, pen: {one}}}\n" for one in more)
        return f"{text}\n{''.join(new)}"

    book = book_of(changed(tmp_path / "farm", pens=pens, animals=animals), JULY)
    log = next(one for one in book.pages if one.slug == "log-july")
    tables = re.findall(r"<table.*?</table>", log.body, re.DOTALL)
    beside = 1 + 4  # the time; air, humidity, notes, who
    assert [table.count('<th scope="col"') for table in tables] == [beside + 9, beside + 1]


# --- words a sitter can read ---------------------------------------------------------------


def test_no_id_and_no_file_stands_on_the_papers_of_a_stay(books: Mapping[str, Book]) -> None:
    """Every id of pens.yaml and equipment.yaml that is no plain word, and every file name."""
    text = (EXAMPLE / "pens.yaml").read_text() + (EXAMPLE / "equipment.yaml").read_text()
    ids = {found for found in re.findall(r"\bid: ([\w-]+)", text) if re.search(r"[-\d]", found)}
    assert {"fan-2", "cord-1", "barn-fans", "w1", "h1"} <= ids
    papers = [
        one
        for one in books["example"].pages
        if one.slug.startswith(("stay-", "visit-", "log-")) or one.slug.startswith("card-")
    ]
    assert len(papers) >= 14
    for one in papers:
        said = text_of(one)
        assert ".yaml" not in said, one.slug
        assert not {each for each in ids if re.search(rf"(?<![\w-]){each}(?![\w-])", said)}


def test_the_owners_list_still_names_the_file(books: Mapping[str, Book]) -> None:
    """The August stay has no minutes: which file it is, the owner is told."""
    assert "File: stays.yaml." in text_of(page(books, "readiness"))


def test_days_that_say_the_same_share_a_row(books: Mapping[str, Book]) -> None:
    """12 to 16 July bring nothing but the sow that may farrow."""
    said = text_of(page(books, "stay-july")).replace("\N{NO-BREAK SPACE}", " ")
    assert "Sunday 12 July to Thursday 16 July" in said
    assert "Tuesday 14 July" not in said


def test_a_plan_does_not_ask_for_two_things_that_exclude_each_other(
    books: Mapping[str, Book],
) -> None:
    """She is in the stall since 3 July, so nobody walks her there; each wallow once a week."""
    said = text_of(page(books, "stay-july")).replace("\N{NO-BREAK SPACE}", " ")
    assert "walks her to where she gives birth" not in said
    assert "no trailer for her, 4 to 20 July" in said
    assert "move her to the stall" not in said
    assert said.count("Creek paddock: drain and fill the wallow") == 2  # the 10th and the 17th
