"""One plan: what used to be said in two ways is said in one (the contradictions once found).

A reader held the print of the example farm only; each test names what two sheets disagreed on.
"""

from __future__ import annotations

import datetime as dt
import html
import math
import re
from typing import TYPE_CHECKING

import pytest

from binder.build import checked, figures_of
from binder.figures.rounds.pen_care import is_guarded
from binder.pages.compose import compose
from tests.pages.conftest import EXAMPLE

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.figures import Figures
    from binder.figures.stays import Plan
    from binder.pages.page import Book

BEFORE, DURING = dt.date(2026, 6, 1), dt.date(2026, 7, 12)
Sheets = dict[str, str]


def read(on: dt.date) -> tuple[Figures, Sheets]:
    """Return the figures of the example farm on a day, and the words of its sheets."""
    owner, farm = checked(EXAMPLE, on)
    figures = figures_of(owner, farm, on)
    book = compose(figures, owner.protocols, owner.pictures_folder)
    return figures, {one.slug: words(one.body) for one in book.pages}


def words(body: str) -> str:
    """Return the words of a sheet, single spaces between."""
    plain = html.unescape(re.sub(r"<[^>]+>", " ", body)).replace("\N{NO-BREAK SPACE}", " ")
    return " ".join(plain.split())


@pytest.fixture(scope="module")
def before() -> tuple[Figures, Sheets]:
    """Return the binder printed in June, before the animals move."""
    return read(BEFORE)


@pytest.fixture(scope="module")
def during() -> tuple[Figures, Sheets]:
    """Return the binder printed inside the July stay."""
    return read(DURING)


def test_clementine_is_in_one_place(during: tuple[Figures, Sheets]) -> None:
    """P6 said the creek, A2, B1, E5 and R20 the stall: since 3 July all say the stall."""
    figures, sheets = during
    (sow,) = [one for one in figures.herd.groups if one.animal.called == "Clementine"]
    assert sow.pen == "stall-2"
    assert "Clementine" in sheets["pen-stall-2"]
    assert "Clementine" not in sheets["pen-creek"]
    for slug in ("calendar", "sow-farrowing-in-heat", "evening-look"):
        for place in re.findall(r"Clementine[^.;]{0,40}Creek paddock", sheets[slug]):
            pytest.fail(f"{slug}: {place}")


def test_before_she_moves_each_sheet_says_where_she_will_be(
    before: tuple[Figures, Sheets],
) -> None:
    """The pen's sheet names the move; what is due in July stands in the pen of July."""
    figures, sheets = before
    assert "moves to Barn stall 2 and its run on 3 July" in sheets["pen-creek"]
    assert re.search(r"Clementine in Barn stall 2 and its run", sheets["evening-look"])
    (plan, *_) = figures.stays.values()
    assert {one.pen for day in plan.days for one in day.living if one.name == "Clementine"} == {
        "stall-2"
    }


def plans(figures: Figures) -> Mapping[str, Plan]:
    """Return the plans of the stays, and that of an ordinary day."""
    return {**figures.stays, "ordinary": figures.plan}


def test_a_lone_sitter_never_goes_in_where_nobody_goes_in_alone(
    before: tuple[Figures, Sheets],
) -> None:
    """B2 said never go in alone, P6 press each drinker; two people against a lone sitter."""
    figures, sheets = before
    for plan in plans(figures).values():
        guarded = {one.pen for one in plan.herd.groups if is_guarded(one)}
        for visit in plan.visits:
            for pen, tasks in (*visit.tasks.items(), *visit.asked.items()):
                assert {task.who for task in tasks} <= {"alone"}
                if pen in guarded:
                    assert {task.where for task in tasks} <= {"outside"}
    assert "Try each waterer" not in sheets["pen-creek"]
    assert "Look at each waterer from outside" in sheets["pen-creek"]


def test_one_walking_order(before: tuple[Figures, Sheets]) -> None:
    """R5, the cards and the looks: by need at that hour, in one order."""
    figures, sheets = before
    day = figures.day.day
    assert day is not None
    order = figures.plan.basis.order_at(day.air.peak_h)
    names = ", ".join(figures.farm.pen(pen).name for pen in order)
    assert names in sheets["midday-look"]
    for plan in plans(figures).values():
        for visit in plan.visits:
            assert visit.order == plan.basis.order_at(visit.hour)


def test_a_meal_goes_out_at_the_time_of_its_visit(before: tuple[Figures, Sheets]) -> None:
    """5:55, 6:00 and 6:05 for one meal; soaked feed that stood overnight."""
    for plan in plans(before[0]).values():
        for visit in plan.visits:
            for meal in visit.meals:
                assert meal.out_h == visit.hour
                assert (meal.clear_after_h is not None) is meal.soaked
                if meal.clear_after_h is not None:
                    assert meal.clear_after_h <= 1.0


def test_the_paper_has_the_number_of_the_days_peak(before: tuple[Figures, Sheets]) -> None:
    """A2 said 3, the phone 4 at the same reading: the hottest hour has its peak's number."""
    for plan in plans(before[0]).values():
        for load in plan.loads.values():
            assert load.day is not None
            peak_h = load.day.air.peak_h
            for pen, numbers in plan.numbers.items():
                if load.key == "hot":
                    assert numbers.most == max(load.worst[pen])
            hottest = max(hour.temp_c for hour in load.day.hours)
            assert load.day.air.air_at(peak_h).temp_c >= hottest


def test_what_is_wrong_with_the_farm_is_not_on_the_sitters_paper(
    before: tuple[Figures, Sheets],
) -> None:
    """The owner's list names it once, with the looks that mending it would buy."""
    figures, sheets = before
    for key, plan in figures.stays.items():
        assert "would mend" not in sheets[f"stay-{key}"]
        for pen, count in plan.buys.items():
            name = figures.farm.pen(pen).name
            assert re.search(rf"{name}: looked at more often", sheets["readiness"])
            assert f"{count} looks fewer" in sheets["readiness"]


def test_each_look_is_one_persons(during: tuple[Figures, Sheets]) -> None:
    """R20 gave the 4 pm look to the sitter and, a line below, to the neighbor.

    The lines under the table name exactly the looks that the table gives to somebody else.
    """
    figures, sheets = during
    for key, plan in figures.stays.items():
        called = {
            (load, hour) for call in plan.calls for load in call.loads for hour in call.looks
        }
        assert called == {
            (load, look.hour)
            for load, watch in plan.watches.items()
            for look in watch.looks
            if look.by != "sitter"
        }
        for call in plan.calls:
            assert not set(call.own) & set(call.looks)
        for slug in (f"stay-{key}", f"looks-{key}"):
            assert "Nobody is here" not in sheets[slug]
            assert "or more, phone" not in sheets[slug]
    assert "1 pm to 8 pm: phone Barnaby Quill" in sheets["stay-july"]


def test_the_july_stay_is_livable(during: tuple[Figures, Sheets]) -> None:
    """Nine to twelve short looks a day were asked for: now five, all of them the sitter's.

    Up to five is our choice; on a typical and a hot day they are the same, on full hours.
    """
    figures, sheets = during
    plan = figures.stays["july"]
    own = {
        key: [look.hour for look in watch.looks if look.by == "sitter"]
        for key, watch in plan.watches.items()
    }
    assert own["typical"] == own["hot"] == [9, 11, 15, 17, 19]
    assert [key for key, watch in plan.watches.items() if watch.holds] == ["typical", "hot"]
    assert {look.by for look in plan.watches["typical"].looks} == {"sitter"}
    assert len([look for look in plan.watches["hot"].looks if look.by != "sitter"]) == 1
    assert "Typical day 9 am, 11 am, 3 pm, 5 pm and 7 pm" in sheets["stay-july"]


def test_a_time_agreed_is_kept_where_one_can_work(during: tuple[Figures, Sheets]) -> None:
    """R23 was called 7 pm and said to start at 8:45 pm "if you can": nobody knew which."""
    figures, sheets = during
    for visit in figures.stays["july"].visits:
        assert all(fit.start_h == visit.hour for fit in visit.fits.values())
    assert not any("if you can" in said for slug, said in sheets.items() if "visit-" in slug)
    for plan in figures.stays.values():
        for key, watch in plan.watches.items():  # a moved visit moves the looks around it
            starts = [visit.fits[key].start_h for visit in plan.visits]
            if starts == sorted(set(starts)):
                assert [gap.start_h for gap in watch.gaps] == starts


def test_each_row_says_how_much(during: tuple[Figures, Sheets]) -> None:
    """Waterers to fill said how many, not how much; a birth's feed was not written down."""
    _, sheets = during
    for slug in ("visit-july-0630", "visit-july-1300", "visit-july-2045", "pen-hen-run"):
        assert "2 of 3 gal each, emptied first" in sheets[slug], slug
    for slug in ("visit-july-0630", "visit-july-2045"):
        assert "From the day after the birth, instead: Clementine 6.5 lb" in sheets[slug]
        assert "not written down" not in sheets[slug]
    assert "not written down" not in sheets["stay-july"]


def test_hens_are_counted_in_and_somebody_shuts_the_door(
    during: tuple[Figures, Sheets],
) -> None:
    """No card had a row for dusk; who shuts the small door stood in a note of another sheet."""
    _, sheets = during
    row = "At dusk: count them in, see that the door is shut 45 head Iris Tack from across the"
    assert row in sheets["visit-july-2045"]
    assert row not in sheets["visit-july-0630"]
    assert sheets["visit-july-0630"].count("eggs") == 1  # one row, at the hens
    assert "Collect the eggs" not in sheets["visit-july-2045"]


def test_soaked_feed_is_cleared_after_it_is_there(during: tuple[Figures, Sheets]) -> None:
    """R21 cleared by 7:30 am what its walk brought to the woods at about 7:40."""
    _, sheets = during
    assert "clear what is left within 1 hour, from outside" in sheets["visit-july-0630"]
    assert "Clear what is left by" not in sheets["visit-july-0630"]


def test_inside_a_stay_feed_sheets_and_cards_agree(during: tuple[Figures, Sheets]) -> None:
    """F1 and P7 said 6 1/4 scoops and 7:10 pm, the cards 6 1/2 scoops and 7:05 pm."""
    figures, sheets = during
    plan = figures.stays["july"]
    assert figures.day.meals == plan.meals
    (sheet,) = [one for one in figures.feed.groups if one.group.animal.called == "Growers"]
    (card,) = [one for one in plan.feed.groups if one.group.animal.called == "Growers"]
    assert (sheet.morning, sheet.evening) == (card.morning, card.evening)
    for slug in ("feed-today", "soaking-feed", "when-to-feed", "pen-woods", "visit-july-0630"):
        assert "6 1/4 scoops" not in sheets[slug], slug
        assert "6 1/2 scoops" in sheets[slug], slug
    assert "7:10 pm" not in sheets["feed-today"]
    assert "Amounts are as of 19 July" in sheets["feed-today"]


def test_a_card_leads_with_the_minutes_to_expect(during: tuple[Figures, Sheets]) -> None:
    """R22 said 62 minutes on top and 77, for the numbers it expects, at its foot."""
    figures, sheets = during
    (visit,) = [one for one in figures.stays["july"].visits if one.hour == 13.0]
    assert visit.fits["hot"].need_min > visit.work.amount.value
    need = math.ceil(visit.fits["hot"].need_min)
    assert f"About {need} min of work at the numbers of a hot day" in sheets["visit-july-1300"]
    for slug in ("stay-july", "visit-july-0630"):
        assert "the day after the birth" in sheets[slug]
        assert "overdue from" not in sheets[slug]


def test_a_flush_fills_the_tub_they_drink_from(during: tuple[Figures, Sheets]) -> None:
    """W2 lets them drink from a tub between rounds; no card filled one."""
    figures, sheets = during
    for visit in figures.stays["july"].visits:
        assert any(task.hose for todo in visit.tasks.values() for task in todo)
        slug = f"visit-july-{visit.clock.replace(':', '')}"
        assert "After each flush fill their heavy tub in the shade" in sheets[slug]


def test_a_sitter_need_not_weigh_whose_choice_a_time_is(books: Mapping[str, Book]) -> None:
    """Off the sitter's paper; N3 lists each sentence that is our choice, with its sheet."""
    for book in books.values():
        marked = [
            page.sheet
            for page in book.pages
            if "sitter" in page.editions and "(our choice)" in page.body
        ]
        assert marked == []
    n3 = next(page.body for page in books["example"].pages if page.sheet == "N3")
    assert "Q9: Run it under that load for half an hour" in n3


def test_each_dated_sheet_says_that_cards_win_in_a_stay(before: tuple[Figures, Sheets]) -> None:
    """Sheets of 1 June lay beside cards of July, and nothing said which of them was right."""
    _, sheets = before
    head = "In a stay its plan and cards are right: see A2"
    dated = ("pen-creek", "card-creek", "feed-today", "water-today", "wallows", "calendar",
             "who-is-who", "shade-and-air", "when-to-feed", "soaking-feed")  # fmt: skip
    for slug in dated:
        assert head in sheets[slug], slug
    for slug in ("stay-july", "visit-july-0630", "reading-the-air", "contacts"):
        assert head not in sheets[slug], slug
    assert "its plan says who is where" in sheets["start-here"]
    assert "R20 , cards R21" in sheets["start-here"], "where the others send to"
