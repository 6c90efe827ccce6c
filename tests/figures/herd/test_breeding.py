"""Dates of breeding: published ones, the source beside each."""

from __future__ import annotations

import datetime as dt

import pytest

from binder.figures.figure import NotPublishedError
from binder.figures.herd.breeding import boar_fertility, due_date, return_check, weaning
from tests.figures.herd.animals import DAY, on


def test_a_sow_mated_on_1_may_is_due_on_24_august() -> None:
    """115 days on, normal from 20 to 29 August (husbandry-66)."""
    found = due_date("pig", dt.date(2026, 5, 1))
    assert found.value == "2026-08-24"
    assert dict(found.working[1].values)["first"] == "2026-08-20"
    assert dict(found.working[1].values)["last"] == "2026-08-29"


@pytest.mark.parametrize(
    ("species", "due", "first", "last"),
    [
        ("goat", "2026-09-28", "2026-09-23", "2026-10-03"),  # husbandry-76: 150 (145-155)
        ("sheep", "2026-09-25", "2026-09-22", "2026-09-30"),  # extra-9: 147 (144-152)
        ("cattle", "2027-02-04", "2027-01-26", "2027-02-14"),  # husbandry-71: 279 (270-289)
    ],
)
def test_other_mothers_are_due_when_published(
    species: str, due: str, first: str, last: str
) -> None:
    """Each species has its own length and window."""
    found = due_date(species, dt.date(2026, 5, 1))
    assert found.value == due
    assert dict(found.working[1].values)["first"] == first
    assert dict(found.working[1].values)["last"] == last


def test_no_due_date_is_made_up() -> None:
    """A species without a published gestation is refused, and the known ones are named."""
    with pytest.raises(NotPublishedError, match="for rabbit; there is one for pig, goat"):
        due_date("rabbit", DAY)


def test_return_to_heat_is_looked_for_18_to_24_days_on() -> None:
    """Mated 1 May: 19 to 25 May (husbandry-68); a cycle later 6 to 18 June (derived)."""
    found = return_check(dt.date(2026, 5, 1))
    assert found.value == "2026-05-19"
    assert dict(found.working[0].values)["last"] == "2026-05-25"
    assert dict(found.working[1].values) == {"first": "2026-06-06", "last": "2026-06-18"}


def test_piglets_of_1_may_are_weaned_from_29_may() -> None:
    """28 days is the earliest; organic herds wait 49 (husbandry-79)."""
    found = weaning(dt.date(2026, 5, 1))
    assert found.value == "2026-05-29"
    assert dict(found.working[1].values)["last"] == "2026-06-19"


def test_a_boar_is_doubtful_for_eight_weeks() -> None:
    """Up to eight weeks after a hot spell (husbandry-94)."""
    assert boar_fertility(dt.date(2026, 7, 1)).value == "2026-08-26"


def test_a_sow_mated_on_1_may_is_not_hauled_from_13_august() -> None:
    """Past 90 % of gestation, day 104 (husbandry-95)."""
    sow = on(dt.date(2026, 8, 1), sex="sow", bred="2026-05-01")
    dates = {name: (first, last) for name, first, last in sow.dates}
    assert dates["no transport"][0] == dt.date(2026, 8, 13)
    assert dates["farrowing"] == (dt.date(2026, 8, 20), dt.date(2026, 8, 25))  # husbandry-66
    assert dates["labor watch"][0] == dt.date(2026, 8, 18)  # our choice, day 109
    assert dates["overdue"][0] == dt.date(2026, 8, 26)  # past day 116, husbandry-97
    assert dates["move to farrowing"] == (  # 5-14 days ahead of the due date, husbandry-66
        dt.date(2026, 8, 10),
        dt.date(2026, 8, 19),
    )
    assert [first for _, first, _ in sow.dates] == sorted(first for _, first, _ in sow.dates)
    assert "return check" not in dates  # long over


def test_a_sow_is_due_or_overdue_but_never_both() -> None:
    """Due from day 111 (husbandry-66), overdue from 117 (husbandry-97), the last day 120."""
    bred = dt.date(2026, 5, 1)
    sow = on(dt.date(2026, 8, 1), sex="sow", bred="2026-05-01")
    expected = {111: "farrowing", 116: "farrowing", 117: "overdue", 120: "overdue"}
    for number, told in expected.items():
        day = bred + dt.timedelta(days=number)
        held = {name for name, first, last in sow.dates if first <= day <= last}
        assert held & {"farrowing", "overdue"} == {told}
        assert ("labor watch" in held) == (told == "farrowing")
    late = on(bred + dt.timedelta(days=118), sex="sow", bred="2026-05-01")
    assert "farrowing" not in [name for name, _, _ in late.dates]
