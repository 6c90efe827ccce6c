"""How a page says what it is given: times, days, spans, names, lists, links in sentences."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.farm.model import Contact
from binder.figures.figures import work_out
from binder.pages.context import Context
from binder.pages.text import words
from binder.pages.text.farm_names import in_order
from binder.pages.text.rich import Link, rich
from tests import farm_data

DAY = dt.date(2026, 6, 1)


@pytest.fixture(scope="module")
def context() -> Context:
    """Return what composing knows of the example farm."""
    owner = read_folder(farm_data.EXAMPLE)
    figures = work_out(check(owner), DAY, owner.weather)
    return Context(figures, words.load("en", "us"), {"hoses": "W2"}, frozenset({"pig"}))


@pytest.mark.parametrize(
    ("hours", "said"),
    [
        (0.0, "12 am"),
        (0.49, "12:30 am"),
        (6.0, "6 am"),
        (11.95, "11:55 am"),
        (11.97, "12 pm"),
        (12.0, "12 pm"),
        (17.5, "5:30 pm"),
        (23.99, "12 am"),
    ],
)
def test_clock_reads_as_people_say_it(context: Context, hours: float, said: str) -> None:
    """Noon is 12 pm, midnight 12 am, and nothing is said to the minute."""
    assert context.clock(hours) == said


@pytest.mark.parametrize(
    ("hours", "said"),
    [(0.5, "30 minutes"), (1.0, "1 hour"), (1.5, "1\u00a01/2 hours"), (12.0, "12 hours")],
)
def test_spans(context: Context, hours: float, said: str) -> None:
    """Half an hour is minutes; one and a half is said as a fraction."""
    assert context.span(hours) == said


def test_days(context: Context) -> None:
    """12 July 2026 is a Sunday; a window names its month once."""
    day = dt.date(2026, 7, 12)
    assert context.day(day) == "12 July 2026"
    assert context.weekday(day) == "Sunday 12 July"
    assert context.window(day, dt.date(2026, 7, 18)) == "12 to 18 July"
    assert context.window(day, dt.date(2026, 8, 1)) == "12 July to 1 August"
    assert context.window(day, day) == "12 July"


def test_names_stand_for_ids(context: Context) -> None:
    """Pens, hoses, wallows, fans, breakers and bands are known by their names."""
    assert context.named("creek") == "Creek paddock"
    assert context.named("creek hot") == "Creek paddock, Hot"
    assert context.named("w1 filling") == "Wallow, Creek paddock, filling"
    assert context.named("h1") == "Long hose to the creek paddock"
    assert context.named("barn-fans") == "the breaker marked FANS"
    assert context.named("stall-1 lactating sow") == "Barn stall 1, sow with piglets"
    assert context.named("Clementine, morning") == "Clementine, morning"


def test_lists_have_an_and(context: Context) -> None:
    """One, two, three: a; a and b; a, b and c."""
    assert str(context.listed(["a"])) == "a"
    assert str(context.listed(["a", "b"])) == "a and b"
    assert str(context.listed(["a", "b", "c"])) == "a, b and c"


def test_links_stand_inside_sentences(context: Context) -> None:
    """A link goes where its name stands; farm text beside it stays text, whatever it holds."""
    said = context.say("waterneed.dry", sheet=context.sheet("hoses"))
    assert str(said).endswith("W2 says how much they get.")
    assert Link("W2", "sheet:hoses") in said.parts
    odd = context.say(
        "feed.line.twice", who="@ {amount} %", amount=rich(Link("3", "working:x"))
    )
    assert str(odd).startswith("@ {amount} %: 3,")


def test_an_owners_sign_is_no_place_for_a_link(context: Context) -> None:
    """An @ of the owner stays where it stands, also in a text out of a list of words."""
    line = context.put("{who}: {one}", who="Ann @ the gate", one=context.sheet("hoses"))
    assert str(line) == "Ann @ the gate: W2"
    assert [part for part in line.parts if not isinstance(part, str)] == list(
        context.sheet("hoses").parts
    )


def test_phone_numbers_can_be_dialed(context: Context) -> None:
    """What is not a digit stays in sight and out of the link."""
    assert context.phone("912-555-0110").parts == (Link("912-555-0110", "tel:9125550110"),)
    assert context.phone("ask at the gate").parts == ("ask at the gate",)


def test_an_extension_is_said_and_not_dialed(context: Context) -> None:
    """RFC 3966 would dial digits that a switchboard has to ask for; other numbers follow."""
    office = Contact.model_validate(
        {
            "name": "Office", "role": "vet", "phone": "912-555-0132", "ext": "12",
            "more_phones": ["912-555-0133"],
        }
    )  # fmt: skip
    assert context.phones(office).parts == (
        Link("912-555-0132", "tel:9125550132"),
        " ",
        "ext. 12",
        ", ",
        Link("912-555-0133", "tel:9125550133"),
    )


def test_an_owners_numbers_win(context: Context) -> None:
    """`emergency_number` and `poison_line` stand before those of the country."""
    own = {"emergency_number": "062", "poison_line": "0800 555 0100"}
    farm = context.farm
    about = farm.about.model_copy(update=own)
    figures = replace(context.figures, farm=farm.model_copy(update={"about": about}))
    asked = replace(context, figures=figures)
    assert (context.emergency, context.poison_line[:14]) == ("911", "1-800-222-1222")
    assert (asked.emergency, asked.poison_line) == ("062", "0800 555 0100")


def test_missing_says_so(context: Context) -> None:
    """Nothing prints as blank."""
    assert context.number(None) == context.number_both(None) == "not recorded"
    assert context.or_missing(None) == context.or_missing("") == "not recorded"
    assert context.call("shearer") == "not recorded"
    assert context.pen_name("nowhere") == "not recorded"


def test_pens_keep_their_numbers_whatever_the_way(context: Context) -> None:
    """In the order of pens.yaml: who walks another way prints no pen's sheet anew."""
    numbered = [pen.id for pen in in_order(context.farm)]
    assert numbered == [
        "stall-1",
        "stall-2",
        "goat-lot",
        "hen-run",
        "tractor",
        "creek",
        "woods",
    ]
    back = tuple(
        pen.model_copy(update={"route": 8 - (pen.route or 0)}) for pen in context.farm.pens
    )
    farm = context.farm.model_copy(update={"pens": back})
    assert [pen.id for pen in in_order(farm)] == numbered
