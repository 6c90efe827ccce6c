"""A sitter's pack: it stands alone, is in the order of use, and says what the plan says."""

from __future__ import annotations

import datetime as dt
import html
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest

from binder import packs
from binder.build import book_of, checked
from binder.figures.figures import of_stay
from binder.figures.stays.stay_days import WALLOW
from binder.output.paper.sheet import CARDS
from binder.pages import slugs
from binder.pages.claims.claim import disagreeing
from binder.pages.pack import alone
from binder.problems import ProblemsError
from tests.pages.conftest import EXAMPLE

if TYPE_CHECKING:
    from binder.figures.figures import Figures
    from binder.figures.stays import Plan
    from binder.pages.page import Book

# Before the animals move: sheets of this day would say other things.
JUNE = dt.date(2026, 6, 20)
NUMBER = re.compile(r"\b[A-Z]\d{1,2}\b")


@dataclass(frozen=True)
class Read:
    """The example's July pack, and what it is made from."""

    book: Book
    figures: Figures

    @property
    def plan(self) -> Plan:
        """Return the plan of its stay."""
        return self.figures.stays["july"]

    def words(self, slug: str) -> str:
        """Return the words of a sheet, single spaces between."""
        (body,) = [page.body for page in self.book.pages if page.slug == slug]
        plain = html.unescape(re.sub(r"<[^>]+>", " ", body)).replace("\N{NO-BREAK SPACE}", " ")
        return " ".join(plain.split())


@pytest.fixture(scope="module")
def july() -> Read:
    """Return the example's July pack, made in June."""
    owner, farm = checked(EXAMPLE, JUNE)
    paper = packs.named(owner, farm, JUNE, "july")[0]
    assert paper.stem == "stay-july"
    return Read(paper.book, of_stay(farm, farm.stays[0], owner.weather))


def test_it_stands_alone(july: Read) -> None:
    """Nothing in it leads to a sheet that is not in it, and no number of one is even named."""
    assert alone.strangers(july.book.pages) == {}
    mine = {number for page in july.book.pages for number in page.sheet.split()}
    named = {
        number
        for page in july.book.pages
        for number in NUMBER.findall(july.words(page.slug))
        if number not in mine and number != "N95"  # a sort of mask, in E14
    }
    assert named == set()


def test_a_number_is_one_sheet_in_pack_and_binder(july: Read) -> None:
    """Owner and sitter speak of one sheet on the phone; a gate card bears its pen's number."""
    ring = [page for page in book_of(EXAMPLE, JUNE).pages if page.kind not in CARDS]
    binder = {page.sheet: page.slug for page in ring if page.sheet}
    pack = {page.sheet: page.slug for page in july.book.pages if page.sheet}
    other = {number: (slug, binder[number]) for number, slug in pack.items()
             if number in binder and binder[number] != slug}  # fmt: skip
    assert len(pack.keys() & binder.keys()) > 20
    assert other == {}


def test_it_is_in_the_order_of_use(july: Read) -> None:
    """Call, map, faces, days, visits, looks, numbers, pens, emergencies, care, people, log."""
    order = [page.slug for page in july.book.pages]
    firsts = [
        "stay-call", "map", "who-is-who", "stay-july", "visit-july-0630", "visit-july-1300",
        "visit-july-2045", "looks-july", "stay-numbers", "pen-stall-1", "pig-in-heat-trouble",
        "stay-feed", "stay-water", "stay-wallows", "stay-births", "work-and-rest", "log-july",
        "hand-back",
    ]  # fmt: skip
    places = [order.index(slug) for slug in firsts]
    assert places == sorted(places)
    emergencies = " ".join(page.sheet for page in july.book.pages if page.tab == "E").split()
    assert emergencies == [f"E{number}" for number in range(1, 25)]


def test_workings_sources_and_other_stays_are_not_in_it(july: Read) -> None:
    """What only the owner reads is left to the owner's binder."""
    assert not any(page.tab == "N" or page.slug == "readiness" for page in july.book.pages)
    everything = " ".join(july.words(page.slug) for page in july.book.pages)
    assert "Rests on sources" not in everything
    assert "Theo Brannock" not in everything
    assert "August" not in everything


def test_every_sheet_says_one_thing(july: Read) -> None:
    """No two sheets of the pack state one thing in two ways."""
    claims: dict[str, list[object]] = {}
    for page in july.book.pages:
        claims.setdefault(page.sheet, []).extend(page.claims)
    assert disagreeing(claims) == {}  # type: ignore[arg-type]


def test_amounts_are_those_of_the_plan(july: Read) -> None:
    """Water, feed and heads of its sheets are the plan's, not those of the day of the build."""
    plan, figures = july.plan, july.figures
    assert {k: one.value for k, one in figures.water.pens.items()} == {
        k: one.value for k, one in plan.water.pens.items()
    }
    for mine, planned in zip(figures.feed.groups, plan.feed.groups, strict=True):
        assert mine.morning == planned.morning
        assert mine.evening == planned.evening
    for pen in plan.pens:
        assert figures.rounds.pens[pen].head == plan.rounds.pens[pen].head


def test_animals_are_where_they_are_on_those_days(july: Read) -> None:
    """Clementine moves into the barn on 3 July: in June P6 shows her, in the pack P2 does."""
    assert "Clementine" in july.words("pen-stall-2")
    assert "Clementine" not in july.words("pen-creek")
    assert "Poppy" in july.words("pen-woods")


def test_a_birth_is_told_with_its_days_before_and_after(july: Read) -> None:
    """The pen, the births and my days name one window and both amounts of water."""
    (birth,) = july.plan.births
    assert birth.before is not None
    assert birth.after is not None
    assert birth.before.value != birth.after.value
    for slug in ("pen-stall-2", "stay-births", "stay-water"):
        assert "before she gives birth" in july.words(slug), slug
    assert "11 to 16 July" in july.words("pen-stall-2")
    assert "11 to 16 July" in july.words("pig-in-heat-trouble")


def test_feed_after_a_birth_is_the_same_wherever_it_stands(july: Read) -> None:
    """Visits gave 2 1/4 scoops from the day after, the page of feed and the pen 3/4 alone."""
    visit = slugs.visit(july.plan, july.plan.visits[0])
    for slug in (visit, alone.FEED, "pen-stall-2"):
        said = july.words(slug)
        assert "rom the day after the birth" in said, slug
        assert "2 1/4 scoops" in said[said.index("rom the day after the birth") :][:200]


def test_soaked_feed_says_when_it_is_ready_and_meals_are_at_visits(july: Read) -> None:
    """No source says how long pellets soak: ready is what falls apart (our choice)."""
    said = july.words(alone.FEED)
    assert "a pellet falls apart" in said
    assert "6:30 am and 8:45 pm" in said
    assert "eaten by" not in said
    assert "Birds keep their feed day and night" in said
    assert "Hay hay only" in said


def test_numbers_tell_breaths_help_and_the_order_of_water(july: Read) -> None:
    """P1 asks for breaths; nothing told how. At 4 no helper was named, or signal (R3)."""
    looks = july.words(slugs.looks(july.plan))
    assert "Count each rise of the flank for 15 seconds" in looks
    assert "Grown pig ____ 8 to 18" in july.words(alone.NUMBERS)
    assert "How to count breaths: R39" in july.words(alone.NUMBERS)
    assert "legs and belly first" in july.words(alone.NUMBERS)
    for slug in (alone.NUMBERS, "pen-woods"):
        said = july.words(slug)
        assert "in this order until one comes: Barnaby Quill" in said
        assert "Then tell the owner, Odalys Fenwick" in said
        assert "Phone before you stay" in said


def test_the_map_leaves_the_order_to_the_visits(july: Read) -> None:
    """A6 said the order of the numbers, each visit another one."""
    assert "each visit has an order of its own" in july.words("map")


def test_each_wallow_has_its_days(july: Read) -> None:
    """Those on which the plan drains and fills it, with who comes to help."""
    told = july.words("stay-wallows")
    for day in july.plan.days:
        for due in day.due:
            if due.key == WALLOW:
                assert f"{day.on.day} July" in told
    assert "Barnaby Quill does it" in told


def test_visits_have_every_task_of_the_plan(july: Read) -> None:
    """A row with its box for each task, each meal and what a number asks; none is lost."""
    for visit in july.plan.visits:
        (page,) = [
            one for one in july.book.pages if one.slug.endswith(visit.clock.replace(":", ""))
        ]
        told = july.words(page.slug)
        for pen in visit.order:
            assert next(one.name for one in july.figures.farm.pens if one.id == pen) in told
            assert july.plan.rounds.pens[pen].head >= 1
        for meal in visit.meals:
            assert f"Feed {meal.fed.group.animal.called}" in told
        for task in (task for found in visit.tasks.values() for task in found):
            if task.text:
                assert " ".join(task.text.split()) in told
        assert told.count("From ") >= len(visit.asked)


def test_somebody_who_moves_within_the_stay_is_told() -> None:
    """Sheets show the last day; until a move the card, the days and both pens say where."""
    owner, farm = checked(EXAMPLE, JUNE)
    moved = [
        one.model_copy(
            update={"moves": (one.moves[0].model_copy(update={"on": dt.date(2026, 7, 12)}),)}
        )
        if one.called == "Poppy"
        else one
        for one in farm.animals
    ]
    farm = farm.model_copy(update={"animals": tuple(moved)})
    book = packs.named(owner, farm, JUNE, "july")[0].book
    read = Read(book, of_stay(farm, farm.stays[0], owner.weather))
    line = "Poppy: 10 to 11 July in Barn stall 2 and its run, then in Woods paddock"
    for slug in ("pen-woods", "pen-stall-2", "stay-july", "visit-july-0630"):
        assert line in read.words(slug), slug
    assert line not in read.words("pen-creek")


def test_a_stay_that_is_not_there_is_refused_with_the_nearest() -> None:
    """One line: the option, what was typed, and the name that it is most like."""
    owner, farm = checked(EXAMPLE, JUNE)
    with pytest.raises(ProblemsError, match="jly") as refused:
        packs.named(owner, farm, JUNE, "jly")
    (problem,) = refused.value.problems
    assert "--stay" in str(problem)
    assert "did you mean july?" in str(problem)


@pytest.mark.parametrize(
    ("on", "due"),
    [("2026-06-09", []), ("2026-06-10", ["july"]), ("2026-07-19", ["july", "august-weekend"])],
)
def test_a_pack_is_due_from_thirty_days_before(on: str, due: list[str]) -> None:
    """And as long as its stay lasts; the 30 days are those of the issue."""
    day = dt.date.fromisoformat(on)
    owner, farm = checked(EXAMPLE, day)
    found = [one.stem for one in packs.due(owner, farm, day)]
    assert [stem for stem in found if stem.startswith("stay-")] == [f"stay-{d}" for d in due]


@pytest.fixture(scope="module")
def pocket() -> tuple[str, ...]:
    """Return the words of the four sides for the pocket."""
    owner, farm = checked(EXAMPLE, JUNE)
    paper = packs.named(owner, farm, JUNE, "july")[1]
    assert paper.stem == "pocket-july"
    plain = (
        html.unescape(re.sub(r"<[^>]+>", " ", page.body)).replace("\N{NO-BREAK SPACE}", " ")
        for page in paper.book.pages
    )
    return tuple(" ".join(words.split()) for words in plain)


def test_the_pocket_says_what_each_number_asks_for_every_pen(
    pocket: tuple[str, ...], july: Read
) -> None:
    """And whom to phone, on its first side."""
    for pen in july.plan.pens:
        assert next(one.name for one in july.figures.farm.pens if one.id == pen) in pocket[0]
    for number in ("912-555-0110", "912-555-0121", "912-555-0132", "912-555-0133", "911"):
        assert number in pocket[0]


def test_the_pocket_has_all_rounds_in_one_table(pocket: tuple[str, ...], july: Read) -> None:
    """Every visit, every pen with its head, every meal; and when to look in between."""
    for visit, time in zip(july.plan.visits, ("6:30 am", "1 pm", "8:45 pm"), strict=True):
        assert time in pocket[2]
        for meal in visit.meals:
            assert meal.fed.group.animal.called in pocket[2]
    for pen in july.plan.pens:
        assert f"{july.plan.rounds.pens[pen].head} to count" in pocket[2]
    assert "Hot day, above 92°F up to 95°F: 9 am" in pocket[2]


def test_the_pocket_has_a_line_for_each_emergency(pocket: tuple[str, ...], july: Read) -> None:
    """What one sees, what to do first, and the sheet that the pack has of it."""
    for page in july.book.pages:
        for number in page.sheet.split() if page.tab == "E" else ():
            assert f"{number} " in pocket[3]
    assert "E2 The boar stands or walks in the heat" in pocket[3]
    assert "Today:" in pocket[3]


def test_no_code_is_in_the_pocket(pocket: tuple[str, ...], july: Read) -> None:
    """Gate codes are in the pack, on a sheet to keep out of sight; a pocket is easily lost."""
    assert [page.slug for page in july.book.pages][-1] == "keys-and-codes"
    for code in july.figures.farm.codes:
        assert code.code in july.words("keys-and-codes")
        assert code.code not in " ".join(pocket)
        assert not any(
            code.code in july.words(page.slug) for page in july.book.pages if page.tab != "K"
        )
