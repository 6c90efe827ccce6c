"""What an animal weighs on a date, held against published tables of growth."""

from __future__ import annotations

import datetime as dt

import pytest

from binder import units
from binder.figures.figure import NotPublishedError
from binder.figures.herd.weight import weight_on
from tests.figures.herd.animals import DAY, LB, days_before, figure, on
from tests.figures.written import printed


def test_50_lb_and_106_days_make_220_lb() -> None:
    """50 + 106 x 1.6 = 219.6, printed 220 (husbandry-70)."""
    start = dt.date(2026, 1, 1)
    found = weight_on(50 * LB, start, 1.6 * LB, start + dt.timedelta(days=106), "pig")
    assert units.convert(found.amount, "us") == pytest.approx(219.6, abs=0.01)


def test_a_pig_without_a_gain_grows_at_the_published_one() -> None:
    """Published 1.5-1.8 lb a day, 1.6 in the example (husbandry-70): 62 + 55 x 1.6 = 150 lb."""
    found = weight_on(62 * LB, dt.date(2026, 5, 20), None, DAY, "pig")
    assert units.convert(found.amount, "us") == pytest.approx(150, abs=0.01)
    low, high = (dict(found.working[0].values)[name] for name in ("low", "high"))
    assert isinstance(low, units.Amount)
    assert isinstance(high, units.Amount)
    assert units.convert(low, "us") == pytest.approx(1.5)
    assert units.convert(high, "us") == pytest.approx(1.8)


def test_the_published_gain_stops_where_it_was_measured() -> None:
    """Heritage crosses followed to 275 lb (husbandry-74); no forecast goes on from there."""
    found = weight_on(200 * LB, days_before(100), None, DAY, "pig")
    assert units.convert(found.amount, "us") == pytest.approx(275)
    assert found.working[-1].key == "stops"


def test_an_own_gain_stops_at_an_adult_weight() -> None:
    """440 lb for a pig (our choice), but no animal shrinks to it."""
    grown = weight_on(300 * LB, days_before(300), 1.5 * LB, DAY, "pig")
    assert units.convert(grown.amount, "us") == pytest.approx(440)
    heavy = weight_on(510 * LB, days_before(300), 0.5 * LB, DAY, "pig")
    assert units.convert(heavy.amount, "us") == pytest.approx(510)


@pytest.mark.parametrize(
    ("weight", "species", "words_expected"),
    [
        (39.9, "pig", "published from 18 to 125 kg only"),
        (275.1, "pig", "published from 18 to 125 kg only"),
        (60.0, "goat", "no daily gain is published here for goat"),
    ],
)
def test_no_gain_is_made_up(weight: float, species: str, words_expected: str) -> None:
    """Outside the published range the farm's own gain is asked for."""
    with pytest.raises(NotPublishedError, match=words_expected):
        weight_on(weight * LB, days_before(10), None, DAY, species)


@pytest.mark.parametrize("weight", [40.0, 275.0])
def test_the_published_range_includes_its_ends(weight: float) -> None:
    """40 lb (husbandry-70) and 275 lb (husbandry-74) are inside."""
    kg = units.parse(f"{weight:g} lb", "weight")
    assert weight_on(kg, DAY, None, DAY).amount.value == pytest.approx(weight * LB)


def test_no_weight_is_reckoned_backwards() -> None:
    """A day before the weighing is refused."""
    with pytest.raises(NotPublishedError, match="before the weighing"):
        weight_on(62 * LB, DAY, None, days_before(1))


@pytest.mark.parametrize(
    ("fields", "pounds", "how"),
    [
        ({"weight": "420 lb", "sex": "sow"}, 420, "undated"),
        ({"weight": "62 lb", "weighed": "2026-07-14"}, 62, "weighed"),
        ({"weight": "62 lb", "weighed": "2026-07-20"}, 62, "weighed"),
        ({"weight": "62 lb", "weighed": "2026-07-04", "gain": "1 lb/day"}, 72, "own"),
        ({"weight": "62 lb", "weighed": "2026-07-04"}, 78, "published"),
        ({"weight": "40 lb", "weighed": "2026-07-04"}, 56, "published"),  # husbandry-70
        ({"weight": "400 lb", "weighed": "2026-01-04", "sex": "sow"}, 400, "grown"),
        ({"weight": "90 lb", "weighed": "2026-01-04", "purpose": "pet"}, 90, "grown"),
        ({"weight": "90 lb", "weighed": "2026-01-04", "born": "2024-01-04"}, 90, "grown"),
        ({"weight": "90 lb", "weighed": "2026-01-04", "farrowed": "2026-01-01"}, 90, "grown"),
        ({"weight": "12 lb", "weighed": "2026-06-30", "born": "2026-05-20"}, 12, "holds"),
        ({"weight": "30 lb", "species": "goat", "weighed": "2026-06-14", "born": "2026-03-01"},
         30, "holds"),
    ],
)  # fmt: skip
def test_weight_is_carried_on_as_far_as_it_may(
    fields: dict[str, str], pounds: float, how: str
) -> None:
    """The owner's gain, else the published one, else a weighing while it holds."""
    found = on(**fields)
    assert found.weight_kg == pytest.approx(pounds * LB)
    assert figure(found, "weight-on").working[0].key == how
    assert printed(found.figures)


@pytest.mark.parametrize(
    "fields",
    [
        {},
        {"weight": "12 lb", "weighed": "2026-06-29", "born": "2026-05-20"},
        {"weight": "30 lb", "species": "goat", "weighed": "2026-06-13", "born": "2026-03-01"},
    ],
)
def test_an_unknown_weight_stays_unknown(fields: dict[str, str]) -> None:
    """Never weighed, or weighed too long ago while growing: no weight."""
    found = on(**fields)
    assert found.weight_kg is None
    assert all(each.name != "weight-on" for each in found.figures)
