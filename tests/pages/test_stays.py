"""The papers of a stay, readiness and the day: what stands on them and where they lead."""

from __future__ import annotations

import datetime as dt
import html
import re
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest
import textstat

from binder.build import book_of
from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.figures import work_out
from binder.figures.finding import finding
from binder.figures.published import rows
from binder.figures.readiness import Readiness
from binder.figures.readiness.ranking import Severity, Shortfall
from binder.pages import facts, findings
from binder.pages.compose import day_book
from binder.pages.context import Context
from binder.pages.day import day_sheet
from binder.pages.herd import calendar_sheet
from binder.pages.page import PHONE
from binder.pages.readiness import readiness_sheet
from binder.pages.text import words
from binder.pages.whole import Whole
from binder.units import Amount
from tests.pages.conftest import EXAMPLE

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from binder.figures.figures import Figures
    from binder.pages.page import Book, Page
    from tests.conftest import FarmFolder

JULY = dt.date(2026, 7, 10)


@pytest.fixture(scope="module")
def figures() -> Figures:
    """Return the figures of the example farm on the first day of its July stay."""
    return work_out(check(read_folder(EXAMPLE)), JULY)


@pytest.fixture(scope="module")
def context(figures: Figures) -> Context:
    """Return what pages know of it."""
    return Context(figures, words.load(), {}, frozenset())


def page(books: Mapping[str, Book], slug: str) -> Page:
    """Return a sheet of the example farm."""
    return next(one for one in books["example"].pages if one.slug == slug)


def text_of(one: Page) -> str:
    """Return the words of a page, single spaces between."""
    plain = html.unescape(re.sub(r"<[^>]+>", " ", one.body))
    return " ".join(plain.split())


# --- which sheets there are ----------------------------------------------------------------


def test_each_stay_has_a_plan_a_card_for_each_visit_and_a_log(
    books: Mapping[str, Book],
) -> None:
    """July: R20 and three cards, L10; August: R40 and seven cards, L11."""
    numbers = {one.sheet: one.slug for one in books["example"].pages}
    assert numbers["R20"] == "stay-july"
    assert [numbers[f"R{n}"] for n in (21, 22, 23)] == [
        "visit-july-0630", "visit-july-1300", "visit-july-2045",
    ]  # fmt: skip
    assert numbers["L10"] == "log-july"
    assert numbers["R40"] == "stay-august-weekend"
    assert "R47" in numbers
    assert "R48" not in numbers
    assert (numbers["R39"], numbers["R59"]) == ("looks-july", "looks-august-weekend")
    assert numbers["L11"] == "log-august-weekend"


def test_a_farm_without_stays_has_none_of_it(books: Mapping[str, Book]) -> None:
    """And readiness all the same."""
    slugs = {one.slug for one in books["least"].pages}
    assert "readiness" in slugs
    assert not [slug for slug in slugs if slug.startswith(("stay-", "visit-", "log-"))]


def test_a_stay_that_is_over_leaves_its_numbers_free() -> None:
    """On 1 August the August stay still has R40."""
    numbers = {one.slug: one.sheet for one in book_of(EXAMPLE, dt.date(2026, 8, 1)).pages}
    assert "stay-july" not in numbers
    assert numbers["stay-august-weekend"] == "R40"


def test_the_vet_gets_no_papers_of_a_stay(books: Mapping[str, Book]) -> None:
    """Sitter, helper and owner do; readiness is for the owner alone, and not on the phone."""
    for slug in ("stay-july", "visit-july-0630", "log-july"):
        assert page(books, slug).editions == {"sitter", "helper", "owner"}
    ready = page(books, "readiness")
    assert ready.editions == {"owner"}
    assert PHONE not in ready.where
    assert ready.sheet == "A5"


# --- the plan ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "wanted",
    [
        "Visits at 6:30 am, 1 pm and 8:45 pm",
        "912-555-0141",
        "you cannot do it alone. Whom to phone stands with the short looks.",
        "here in 15 minutes) at 8:45 pm, who looks at 3 am",
        "Nobody goes in alone with a boar, a sow or grown pigs.",
        "From the owner: Clementine is due in this stay.",
        "Friday 10 July",
        "Sunday 19 July",
        "Clementine: due to farrow, 11 to 16 July",
        "Creek paddock: drain and fill the wallow",
        "Catch water at each waterer",
        "look again by",
        "14 gal a day after",
        "To lay in before it begins",
        "Household bleach, for boots and waterers",
    ],
)
def test_the_plan_says_what_a_sitter_asks(books: Mapping[str, Book], wanted: str) -> None:
    """Times, days, what is due, whether it holds, what to buy."""
    assert wanted in text_of(page(books, "stay-july")).replace("\N{NO-BREAK SPACE}", " ")


def changed(folder: Path, **edits: Callable[[str], str]) -> Path:
    """Return a copy of the example farm with some of its files changed."""
    folder.mkdir()
    for path in EXAMPLE.glob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        new = edits[path.stem](text) if path.stem in edits else text
        assert path.stem not in edits or new != text
        without = [line for line in new.splitlines() if "picture:" not in line]
        (folder / path.name).write_text("\n".join(without), encoding="utf-8")
    return folder


def stay_page(folder: Path) -> str:
    """Return the words of the July plan of a farm."""
    book = book_of(folder, JULY)
    return text_of(next(one for one in book.pages if one.slug == "stay-july"))


def test_a_stay_without_times_or_telephone(tmp_path: Path) -> None:
    """Both are left out of the sentence; the days stand all the same."""

    def edit(text: str) -> str:
        return text.replace('  visits: ["06:30", "13:00", "20:45"]\n', "").replace(
            "  phone: 912-555-0141\n", ""
        )

    said = stay_page(changed(tmp_path / "farm", stays=edit))
    assert "No visit times are recorded." in said
    assert "Ask the owner when to come." in said
    assert "stays.yaml" not in said
    assert "Friday" in said


def test_a_stay_whose_telephone_is_not_written(tmp_path: Path) -> None:
    """No number, no sentence about one."""
    said = stay_page(
        changed(
            tmp_path / "farm", stays=lambda text: text.replace("  phone: 912-555-0141\n", "")
        )
    )
    assert "Visits at 6:30 am, 1 pm and 8:45 pm." in said
    assert "to reach" not in said


def test_a_farm_without_a_place_has_days_without_sun(tmp_path: Path) -> None:
    """And no word of being overdue."""

    def edit(text: str) -> str:
        return re.sub(r"  (latitude|longitude|timezone): \S+\n", "", text)

    said = stay_page(changed(tmp_path / "farm", farm=edit))
    assert "sun 6:" not in said
    assert "overdue from" not in said
    assert "nobody knows the hours of heat. Ask the owner." in said
    assert "farm.yaml" not in said


def test_a_plan_that_holds_says_so(tmp_path: Path) -> None:
    """One goat, much water, cool weather, an hour's work in two: nothing stands against it."""
    files = {
        "farm": "name: Quiet Acre\nplace: {address: Somewhere, latitude: 31.5, "
        "longitude: -82.1, timezone: America/New_York}\nround_intervals: {fine: 12 h}\n"
        "hot_day: {high: 60 F, low: 45 F, dew_point: 44 F}\n",
        "animals": "- {name: Clover, species: goat, weight: 120 lb, pen: lot}\n",
        "pens": "- {id: lot, name: Goat lot, kind: run, "
        "shade: [{kind: trees, area: 700 sqft}], "
        "drinkers: [{id: d1, kind: trough, holds: 50 gal, count: 2}]}\n",
        "contacts": "- {name: Ann Example, role: owner, phone: 555-0100}\n",
        "stays": "- {id: july, from: 2026-07-10, to: 2026-07-12, sitter: Sam, minutes: 120, "
        'visits: ["06:30", "13:00", "19:00"]}\n',
    }
    for name, text in files.items():
        (tmp_path / f"{name}.yaml").write_text(text, encoding="utf-8")
    said = stay_page(tmp_path)
    assert "With the visits and the short looks no pen goes unseen for too long." in said
    assert "phone " not in said
    assert "To lay in" not in said


# --- the cards -----------------------------------------------------------------------------


def test_cards_and_looks_walk_the_pens_in_the_order_of_the_plan(
    books: Mapping[str, Book], context: Context
) -> None:
    """1 to 7, each with its name, at noon the hens first; the looks in the same order."""
    plan = context.figures.stays["july"]
    for visit in plan.visits:
        said = page(books, f"visit-july-{visit.clock.replace(':', '')}").body
        found = re.findall(r'<th scope="col" colspan="2">(\d) ([^<]+?) <', said)
        assert [number for number, _ in found] == list("1234567")
        assert [name for _, name in found] == [
            context.farm.pen(pen).name for pen in visit.order
        ]
    assert plan.visits[1].order[0] == "hen-run"
    for watch in plan.watches.values():
        for look in watch.looks:
            order = plan.basis.order_at(look.hour % 24)
            assert list(look.pens) == [pen for pen in order if pen in look.pens]


def test_every_task_has_its_box(books: Mapping[str, Book]) -> None:
    """Rows and boxes are as many, but for walking and the sum; pens begin with seeing them."""
    body = page(books, "visit-july-0630").body
    tables = re.findall(r'<table class="tasks">.*?<tbody>(.*?)</table>', body, re.S)
    assert len(tables) == 8
    for table in tables:
        rest = 2 if table is tables[-1] else 0  # walking, the sum with the numbers
        assert table.count("<tr>") == table.count('<span class="tick"></span>') + rest
    assert all("drink" in table.split("</tr>")[0] for table in tables[:-1])


def test_feed_goes_out_in_the_morning_and_in_the_evening(books: Mapping[str, Book]) -> None:
    """And not at noon."""
    morning, noon, evening = (
        text_of(page(books, f"visit-july-{time}")) for time in ("0630", "1300", "2045")
    )
    assert "The morning feed goes out." in morning
    assert "The evening feed goes out." in evening
    assert "No feed at this visit." in noon
    assert "Feed Growers" in morning
    assert "Feed Growers" not in noon
    assert "Feed Laying hens" not in evening  # their hopper is filled once a day
    assert "Clear what is left of the soaked feed" in morning
    assert "Clear what is left" not in noon


def test_a_card_tells_the_numbers_to_expect(
    books: Mapping[str, Book], context: Context
) -> None:
    """Three beside each pen: typical, hot, severe, as the plan has them at that hour."""
    plan = context.figures.stays["july"]
    body = page(books, "visit-july-1300").body
    found = [
        re.findall(r"band b(\d)", heading)
        for heading in re.findall(r'<th scope="col" colspan="2">\d.*?</th>', body)
    ]
    assert found == [
        [str(load.worst[pen][13]) for load in plan.loads.values()]
        for pen in plan.visits[1].order
    ]


def test_a_wallow_is_topped_up_by_its_share(
    books: Mapping[str, Book], context: Context
) -> None:
    """A third of the day's water at each of three visits."""
    plan = context.figures.stays["july"]
    both = context.both(plan.top_ups["w1"].amount).replace("\N{NO-BREAK SPACE}", " ")
    share = both.partition(" (")[0]  # a card has one measure, the sheet of wallows both
    said = text_of(page(books, "visit-july-1300")).replace("\N{NO-BREAK SPACE}", " ")
    assert f"Top up the wallow {share}" in said


# --- the log -------------------------------------------------------------------------------


def test_the_log_has_a_line_for_each_visit_of_each_day(
    books: Mapping[str, Book], context: Context
) -> None:
    """Ten days, three visits and a free line; looks are ticked on their own sheet."""
    log, looked = page(books, "log-july"), page(books, "looks-july")
    (visits,) = re.findall(r"<table.*?</table>", log.body, re.DOTALL)
    assert visits.count("<tr>") == 1 + 10 * (3 + 1)
    assert "Fri 10 6:30 am" in text_of(log)
    assert "Sun 19 8:45 pm" in text_of(log)
    watches = context.figures.stays["july"].watches.values()
    boxes = sum(len(look.pens) for watch in watches for look in watch.looks)
    assert looked.body.count('<span class="tick"></span>') == boxes > 0


# --- readiness -----------------------------------------------------------------------------


def test_readiness_numbers_its_lines_worst_first(books: Mapping[str, Book]) -> None:
    """From 1 on through all four parts, as many as the answer says."""
    ready = page(books, "readiness")
    tables = re.findall(r'<table class="wide plain">(.*?)</table>', ready.body, re.DOTALL)
    numbers = [int(n) for t in tables for n in re.findall(r'<th scope="row">(\d+)</th>', t)]
    assert numbers == list(range(1, len(numbers) + 1))
    assert f"{len(numbers)} things to mend." in text_of(ready)


def test_the_bar_says_in_words_what_it_draws(context: Context) -> None:
    """Its description counts each part; a part that is empty is not drawn."""
    one = finding("ready", "no-vet", "")
    drawn = str(
        readiness_sheet.bar(
            context, [Shortfall(Severity.HOURS, one), Shortfall(Severity.WEEK, one)]
        )
    )
    assert 'aria-label="hours 1, week 1"' in drawn
    assert drawn.count("<rect") == 2


def test_what_fails_first_stands_in_the_order_of_the_clock(books: Mapping[str, Book]) -> None:
    """The nipples of the example farm are dry at first light, before it is hot."""
    said = text_of(page(books, "readiness"))
    dry, hot = said.index("No water at all:"), said.index("Hot begins:")
    assert said.index("What fails first") < dry < hot


def with_figures(context: Context, **changed: Any) -> Context:
    """Return what pages know, some of the figures being others."""
    return replace(context, figures=replace(context.figures, **changed))


def test_the_next_morning_is_said_to_be_the_next(context: Context) -> None:
    """An hour past midnight carries its day."""
    (late, *_) = context.figures.readiness.fails
    moved = Readiness((), (replace(late, hour=26.0),))
    _, table = readiness_sheet.fails(with_figures(context, readiness=moved))
    assert "2 am next day" in str(table)


def test_a_farm_in_order_has_an_empty_sheet(context: Context) -> None:
    """It says that nothing is missing, and draws no bar."""
    in_order = with_figures(context, readiness=Readiness((), ()))
    sheet = readiness_sheet.sheet(in_order, Whole(facts.farm_view(context), ()))
    assert sheet.answer == ("Nothing is missing that this binder can see.",)
    assert not [one for one in sheet.blocks if one.block == "drawing"]


def test_a_farm_without_a_place_has_no_hours_to_fail_in(context: Context) -> None:
    """And the sheet says so."""
    nowhere = replace(context.figures.day, day=None)
    (line,) = readiness_sheet.fails(with_figures(context, day=nowhere))
    assert "not recorded" in str(line)


# --- findings in words ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"late_clock": 9.75}, "9:45 am"),
        ({"looks_clocks": "09:45 16:00"}, "9:45 am and 4 pm"),
        ({"first_date": "2026-07-11"}, "11 July"),
        ({"pens": "creek woods"}, "Creek paddock and Woods paddock"),
        ({"pens": "*"}, "every pen"),
        ({"hoses": "h1"}, "Long hose to the creek paddock"),
        ({"bands": "hot severe"}, "Hot and Severe"),
        ({"classes": "boar; laying hen"}, "boars and laying hens"),
        ({"load": "hot"}, "a hot day"),
        ({"what": "farrowing"}, "due to farrow"),
        ({"what": "fan-1, fan-2"}, "fan at Barn stall 1 and fan at Barn stall 2 and its run"),
        ({"what": "something"}, "something"),
        ({"job": "weaning"}, "wean her young"),
        ({"minutes": "20/40"}, "20 minutes of work and 40 of rest in each hour"),
        ({"minutes": "Normal"}, "no extra rest"),
        ({"pen": "creek"}, "Creek paddock"),
        ({"count": 3}, 3),
    ],
)
def test_values_are_said_as_people_say_them(
    context: Context, values: dict[str, Any], said: object
) -> None:
    """Hours as a clock, ids as names, words of the program as words."""
    found = findings.values(context, finding("stay", "round", "july", **values))
    assert list(found.values()) == [said]


def sample(area: str, key: str) -> dict[str, Any]:
    """Return a value for every name that the words of a finding use."""
    lexicon = words.load()
    patterns = [lexicon.section(f"{area}-findings")[key]]
    patterns.append(lexicon.section("readiness-effects")[area][key])
    if area == "stay":
        patterns.append(lexicon.section("stay-fixes")[key])
    names = re.findall(r"\{(\w+)", " ".join(patterns))
    known = {
        "pens": "creek", "hoses": "h1", "band": "hot", "bands": "hot", "load": "hot",
        "what": "farrowing", "minutes": "20/40", "classes": "boar", "job": "weaning",
        "lacks": "shade water", "helper": "Barnaby Quill", "sitter": "Marisol Quade",
        "no_address": "No address is recorded.", "dig_first": "Call before you dig.",
    }  # fmt: skip
    ends = {"clock": 9.0, "clocks": "09:00 10:00", "date": "2026-07-11"}
    made: dict[str, Any] = {}
    for name in names:
        end = name.rpartition("_")[2]
        made[name] = known.get(name, ends.get(end if "_" in name else "", Amount(2, "h")))
    return made


SHORTFALLS = [(row.text("area"), row.text("key")) for row in rows("readiness_rules")]


@pytest.mark.parametrize(("area", "key"), SHORTFALLS)
def test_every_shortfall_can_be_told(context: Context, area: str, key: str) -> None:
    """What is wrong, the fix, the effect: no name is left unfilled; short plain sentences."""
    subject = "july" if area == "stay" else "creek"
    found = finding(area, key, subject, **sample(area, key))
    said = findings.told(context, found)
    assert findings.effect(context, found)
    assert "{" not in said
    assert said.endswith(".")
    assert said.startswith("10 to 19 July: ") is (area == "stay")


def test_the_words_of_shortfalls_read_at_grade_seven_or_below(context: Context) -> None:
    """All of them together (husbandry-118: about grade 6 for most texts, 4 to 6 for steps)."""
    lines = [
        findings.told(
            context,
            finding(area, key, "july" if area == "stay" else "creek", **sample(area, key)),
        )
        for area, key in SHORTFALLS
        if area in ("ready", "stay")
    ]
    assert textstat.flesch_kincaid_grade(" ".join(lines)) <= 7


# --- the day -------------------------------------------------------------------------------


def test_the_day_has_two_sheets_and_leads_nowhere_else(figures: Figures) -> None:
    """R10 and R11 in a small book of their own."""
    day = figures.day.day
    assert day is not None
    book = day_book(figures, day, figures.stays["july"])
    assert [one.sheet for one in book.pages] == ["R10", "R11"]
    assert book.date == "2026-07-10"
    assert [tab.letter for tab in book.tabs] == ["R"]


def test_a_day_that_is_nobodys_has_no_visits(figures: Figures) -> None:
    """No stay, no rounds, no word on whether they are enough."""
    day = figures.day.day
    assert day is not None
    said = text_of(day_book(figures, day, None).pages[0])
    assert "Visits at" not in said
    assert "Where the visits are too few" not in said


def test_a_mild_day_says_that_nobody_is_in_danger(tmp_path: Path) -> None:
    """60 F: all Normal, and the night is cool."""
    folder = changed(
        tmp_path / "farm",
        farm=lambda text: re.sub(
            r"hot_day: .*", "hot_day: {high: 60 F, low: 45 F, dew_point: 44 F}", text
        ),
    )
    cool = work_out(check(read_folder(folder)), JULY)
    day = cool.day.day
    assert day is not None
    said = text_of(day_book(cool, day, None).pages[0])
    assert "No animal here is in danger on this day." in said
    assert "The night is cool enough to recover in." in said


@pytest.mark.parametrize(
    ("bands", "said"),
    [
        ([2] * 24, "day and night"),
        ([1] * 8 + [2] * 4 + [1] * 12, "8 am to 12 pm"),
        ([2] * 2 + [1] * 6 + [3] * 4 + [1] * 6 + [2] * 6, "8 am to 12 pm, 6 pm to 12 am"),
        ([1] * 24, "–"),
    ],
)
def test_when_a_pen_is_in_danger(context: Context, bands: list[int], said: str) -> None:
    """Each stretch of the day; what is left of the night before is not counted."""
    assert day_sheet._stretch(context, bands) == said


def test_a_hot_spell_on_record_is_told_of_the_boar() -> None:
    """Ten hot days to 20 May: until 15 July, eight weeks on (husbandry-94)."""
    days = [dt.date(2026, 5, 11) + dt.timedelta(days=n) for n in range(10)]
    lines = [f"{day} {hour:02d}:00,92,75" for day in days for hour in range(24)]
    record = "\n".join(["time,temperature (F),dew_point (F)", *lines])
    found = work_out(check(read_folder(EXAMPLE)), dt.date(2026, 6, 1), record)
    context = Context(found, words.load(), {}, frozenset({"boar"}))
    said = " ".join(str(block) for block in calendar_sheet.calendar(context).blocks)
    assert "Do not count on his matings until 15 July." in said
    assert "boar-fertility.Hector" in said


STAY_FARM = {
    "farm.yaml": """\
        name: Small Place
        place: {address: 1 A Road, latitude: 31.5, longitude: -82.1, timezone: America/New_York}
        """,
    "pens.yaml": "- {id: lot, name: The lot, kind: pasture}\n",
    "contacts.yaml": "- {name: Ann Example, role: owner, phone: 555-0100}\n",
}


def test_young_that_have_a_number_by_the_end_of_a_stay_have_their_chart(
    farm_folder: FarmFolder,
) -> None:
    """Piglets have none today, growers in August do: the cards of the stay lead to it."""
    folder = farm_folder({
        **STAY_FARM,
        "animals.yaml": "- {group: Piglets, count: 5, species: pig, pen: lot, "
        "born: 2026-05-20}\n",
        "stays.yaml": "- {id: s, from: 2026-08-01, to: 2026-08-02, sitter: Sam, "
        "visits: ['07:00']}\n",
    })  # fmt: skip
    book = book_of(folder, dt.date(2026, 6, 1))
    assert {"chart-pigs", "wall-chart-pigs"} <= {page.slug for page in book.pages}
    card = next(page for page in book.pages if page.slug.startswith("visit-"))
    assert "sheet:chart-pigs" in card.body


def test_a_day_on_which_nobody_may_leave_has_its_sheet_without_a_short_look(
    farm_folder: FarmFolder,
) -> None:
    """A cold place with one day of 120 F in mind: somebody stays, and no look is planned."""
    folder = farm_folder({
        **STAY_FARM,
        "farm.yaml": """\
            name: Small Place
            place: {latitude: 21.7, longitude: -96.9, timezone: America/Mexico_City}
            hot_day: {high: 32.5 F, low: -12.3 F, dew_point: -7.8 F}
            extreme_day: {high: 49 C, low: 44 C, dew_point: 44 C}
            round_intervals: {fine: 17 h}
            """,
        "animals.yaml": "- {name: Ned, species: mule, pen: lot}\n",
        "stays.yaml": "- {id: s, from: 2051-12-14, to: 2051-12-28, sitter: Sam, "
        "visits: ['09:41', '22:36']}\n",
    })  # fmt: skip
    book = book_of(folder, dt.date(2051, 11, 20))
    assert "looks-s" in {page.slug for page in book.pages}
