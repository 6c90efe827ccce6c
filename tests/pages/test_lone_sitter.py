"""What a sitter with the pack and the pocket alone could not answer surely.

Each test is a question that a reader of the example's July paper had to guess at. What counts
as answered is our choice where no source is named; the farm and its people are invented.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest

from binder import packs
from binder.build import checked
from binder.clock import MINUTES_IN_HOUR
from binder.figures.figures import of_stay
from binder.figures.stays.visit_card import LEFTOVERS
from binder.pages.text.protocol import plain_text
from tests.pages.conftest import EXAMPLE

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.figures.rounds.round_tasks import Task
    from binder.figures.stays.plan import Fit, Plan, Visit

JUNE = dt.date(2026, 6, 20)


@dataclass(frozen=True)
class Paper:
    """The July pack and pocket as words by sheet, and the plan that they are views of."""

    sheets: dict[str, str]
    bodies: dict[str, str]
    pocket: dict[str, str]
    plan: Plan


@pytest.fixture(scope="module")
def july() -> Paper:
    """Return the example's July paper, made in June."""
    owner, farm = checked(EXAMPLE, JUNE)
    pack, pocket = packs.named(owner, farm, JUNE, "july")
    said = {page.sheet: " ".join(plain_text(page.body).split()) for page in pack.book.pages}
    return Paper(
        said,
        {page.sheet: page.body for page in pack.book.pages},
        {page.slug: " ".join(plain_text(page.body).split()) for page in pocket.book.pages},
        of_stay(farm, farm.stays[0], owner.weather).stays["july"],
    )


# --- soaked feed -----------------------------------------------------------------------------


def test_the_pocket_says_soaked_or_dry_of_each_meal(july: Paper) -> None:
    """The evening meal after a birth is dry; the pocket sent to the soaked one at dawn."""
    rounds = july.pocket["pocket-3"]
    assert (
        "Feed Clementine 3/4 scoop, soaked (from the day after the birth 2 1/4 scoops, dry)"
        in (rounds)
    )
    assert "(from the day after the birth 2 1/4 scoops, soaked)" in rounds
    assert "Feed Marigold 2 1/4 scoops, dry" in rounds


def test_soaked_feed_has_one_rule(july: Paper) -> None:
    """Mixed when, given when, cleared when: the same on F20, on each card and in the pocket."""
    for words in ("as the round begins", "when you come to its pen", "from outside"):
        for sheet in ("F20", "R21", "R23"):
            assert words in july.sheets[sheet], (sheet, words)
        assert words in july.pocket["pocket-3"]
    for sheet in ("F20", "R21", "R23"):
        assert "ithin 1 hour" in july.sheets[sheet]
        for other in ("1 hour later", "mix it first", "Mix soaked feed first"):
            assert other not in july.sheets[sheet]


def test_how_long_feed_soaks_is_the_owners_own_time(july: Paper) -> None:
    """F20 asked the owner for it; the example's owner has it written down (invented)."""
    assert "Sow pellets, 10 minutes; Grower pellets, 15 minutes" in july.sheets["F20"]
    assert "ask the owner" not in july.sheets["F20"]
    assert "not recorded" not in july.sheets["F20"]


def test_no_soaked_feed_lies_longer_than_the_hour(july: Paper) -> None:
    """Our choice (stay_rules.csv): one hour. R21 gave it at 6:45 and cleared it after 8 am."""
    found = 0
    for visit in july.plan.visits:
        soaked = sorted(meal.pen for meal in visit.meals if meal.soaked)
        for fit in visit.fits.values():
            given, cleared = _fed_and_cleared(visit, fit)
            assert sorted(cleared) == soaked
            for pen in soaked:
                assert cleared[pen] - given[pen] <= MINUTES_IN_HOUR, (visit.clock, pen)
                found += 1
    assert found >= 12
    assert "Go back to Barn stall 1 and Barn stall 2 and its run: clear" in july.sheets["R21"]


def _fed_and_cleared(visit: Visit, fit: Fit) -> tuple[dict[str, float], dict[str, float]]:
    """Return when each pen is come to and when its leftovers are gone [min], walks left out."""
    given: dict[str, float] = {}
    cleared: dict[str, float] = {}
    now = 0.0
    for part in fit.parts:
        now = max(now, (part.start_h - fit.start_h) * MINUTES_IN_HOUR)
        for pen in part.pens:
            given[pen] = now
            now += sum(task.minutes for task in visit.tasks[pen])
            now += visit.feed_min * (pen in visit.fed)
            cleared |= _clears(visit.tasks[pen], now)
    return given, cleared | _clears(visit.last, now)


def _clears(tasks: Iterable[Task], now: float) -> dict[str, float]:
    return {pen: now for task in tasks if task.key == LEFTOVERS for pen in task.pens}
