"""Farms in the cold, in the dark, under the midnight sun: a binder, or a place and line."""

from __future__ import annotations

import datetime as dt
import re
from textwrap import dedent
from typing import TYPE_CHECKING, Protocol

import pytest

from binder.build import book_of
from binder.problems import ProblemsError
from tests.pages.conftest import EVERY_KIND

if TYPE_CHECKING:
    from binder.pages.page import Book
    from tests.conftest import FarmFolder

    class Made(Protocol):
        """Composes the farm of every kind with other files."""

        def __call__(self, on: dt.date = ..., **files: str) -> Book:
            """Return the binder; files without `.yaml`."""


JANUARY = dt.date(2026, 1, 14)
STAY = "- {{id: away, from: {first}, to: {last}, sitter: Sam, visits: [{visits}]}}\n"
OSLO = (59.91, 10.75, "Europe/Oslo")
HAMAR = (60.9, 10.9, "Europe/Oslo")
TROMSO = (69.65, 18.96, "Europe/Oslo")
COLD_DAY = "{high: 14 F, low: -10 F, dew_point: -12 F}"
BITTER_DAY = "{high: -13 F, low: -40 F, dew_point: -40 F}"
HOT_DAY = "{high: 88 F, low: 60 F, dew_point: 55 F}"


def about(where: tuple[float, float, str], *climate: str, hot: str = HOT_DAY) -> str:
    """Return a `farm.yaml` of a place, with typical days of months."""
    latitude, longitude, zone = where
    place = f"{{address: x, latitude: {latitude}, longitude: {longitude}, timezone: {zone}}}"
    months = f"climate: {{{', '.join(climate)}}}\n" if climate else ""
    return f"name: North Farm\nplace: {place}\nhot_day: {hot}\n{months}"


def stays(*visits: str, first: str = "2026-01-10", last: str = "2026-01-19") -> str:
    """Return a `stays.yaml` of one stay."""
    return STAY.format(first=first, last=last, visits=", ".join(f"'{one}'" for one in visits))


@pytest.fixture
def made(farm_folder: FarmFolder) -> Made:
    """Return a function that composes the farm of every kind with other files."""

    def compose(on: dt.date = JANUARY, **files: str) -> Book:
        texts = {name: dedent(text) for name, text in EVERY_KIND.items()}
        changed = {f"{name}.yaml": text for name, text in files.items()}
        return book_of(farm_folder(texts | changed), on)

    return compose


@pytest.mark.parametrize("january", [COLD_DAY, BITTER_DAY])
@pytest.mark.parametrize("visits", [("06:30",), ("06:30", "13:00", "19:00"), ("23:30",)])
def test_a_sitter_may_come_on_a_frosty_morning(
    made: Made, january: str, visits: tuple[str, ...]
) -> None:
    """Minneapolis's latitude; a January of -25 to -40 C is the Yukon's (from memory)."""
    where = (44.98, -93.27, "America/Chicago")
    book = made(farm=about(where, f"january: {january}"), stays=stays(*visits))
    assert [page.sheet for page in book.pages if page.slug.startswith("visit-away-")]


def test_a_extreme_day_may_begin_in_frost(made: Made) -> None:
    """What fails first is worked out by the hour, the night's too."""
    hot = "{high: 50 F, low: -30 F, dew_point: -31 F}"
    made(farm=about(OSLO, hot=hot), stays=stays("06:30"))


def test_a_well_gives_no_ice(made: Made) -> None:
    """Water freezes at 32 F by the definition of the scale; at that it still runs."""
    gear = dedent(EVERY_KIND["equipment.yaml"])
    well = "kind: well, temperature: {degrees}, "
    made(equipment=gear.replace("kind: well, ", well.format(degrees="32 F")))
    with pytest.raises(ProblemsError) as caught:
        made(equipment=gear.replace("kind: well, ", well.format(degrees="-25 C")))
    assert str(caught.value) == (
        'equipment.yaml:2:53  water_sources > well > temperature: "-25 C" is out of range; '
        "write 0°C or more, and 60°C at most"
    )


@pytest.mark.parametrize(
    ("where", "hit"), [(HAMAR, ()), (TROMSO, ("farm.yaml:2:31  place > latitude",))]
)
def test_a_stay_in_the_dark_is_told_or_planned(
    made: Made, where: tuple[float, float, str], hit: tuple[str, ...]
) -> None:
    """Hamar has over 5 h of day then; Tromso has no sun around Christmas (from memory)."""
    farm = about(where)
    stay = stays("09:00", first="2026-12-18", last="2026-12-24")
    found: tuple[str, ...] = ()
    try:
        made(dt.date(2026, 9, 20), farm=farm, stays=stay)
    except ProblemsError as error:
        found = tuple(str(problem) for problem in error.problems)
    assert len(found) == len(hit)
    for said, start in zip(found, hit, strict=True):
        assert said.startswith(start)
        assert "it stays down all day; expected a latitude from -60 to 60" in said


def test_without_a_position_a_farm_in_the_dark_has_its_binder(made: Made) -> None:
    """As the message says: no day is drawn by the hour then."""
    bare = f"name: North Farm\nplace: x\nhot_day: {HOT_DAY}\n"
    stay = stays("09:00", first="2026-12-18", last="2026-12-24")
    assert made(dt.date(2026, 12, 20), farm=bare, stays=stay).pages


def test_a_last_day_without_sun_is_told_without_it(made: Made) -> None:
    """The plan is drawn for the middle day; in Tromso the sun is gone from 27 November."""
    stay = stays("09:00", first="2026-10-20", last="2026-12-01")
    book = made(dt.date(2026, 9, 20), farm=about(TROMSO), stays=stay)
    plan = next(page for page in book.pages if page.slug == "stay-away")
    told = len(re.findall(r"\bsun\W+\d", plan.body))
    assert 0 < told < 40  # of 43 days, of which the sun is not up on the last five


def test_months_in_the_dark_are_named_and_left_out(made: Made) -> None:
    """A climate of all months must not keep a farm in the far north from its binder."""
    days = [f"{month}: {COLD_DAY}" for month in ("january", "march", "september", "december")]
    book = made(dt.date(2026, 9, 20), farm=about(TROMSO, *days))
    (page,) = (page for page in book.pages if "in the middle of the month" in page.body)
    assert "January and December." in page.body
    assert "March" in page.body


def test_a_zone_by_whose_clock_there_is_no_day_is_told(made: Made) -> None:
    """Where the sun rises at 21:40 by the clock and sets at noon, the zone is wrong."""
    farm = about((31.1, -97.3, "Etc/GMT+12"))
    with pytest.raises(ProblemsError, match=r"farm.yaml:2:\d+  place > timezone: .*expected a"):
        made(dt.date(2026, 5, 15), farm=farm)


def test_two_stays_of_many_visits_share_no_number(made: Made) -> None:
    """18 visits a day and the card of looks fill a stay's twenty numbers."""
    times = [f"{hour:02}:{minute:02}" for hour in range(6, 15) for minute in (0, 30)]
    two = stays(*times) + stays(*times).replace("id: away", "id: later")
    book = made(stays=two)
    copies = ("card-", "wall-")
    numbers = [page.sheet for page in book.pages if not page.slug.startswith(copies)]
    assert len(numbers) == len(set(numbers))
    assert {"R20", "R21", "R38", "R40", "R58"} <= set(numbers)
    assert not {"R60"} & set(numbers)
