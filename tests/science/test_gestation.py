"""Breeding dates against published counts of days."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.science.gestation import (
    age_days,
    day_of_gestation,
    due_date,
    due_window,
)

MAY_DAY = date(2026, 5, 1)

# Published rows -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("days", "expected"),
    [
        (115, date(2026, 8, 24)),  # sow, husbandry-66
        (104, date(2026, 8, 13)),  # sow, no transport from here, husbandry-95
        (145, date(2026, 9, 23)),  # doe, husbandry-76
        (150, date(2026, 9, 28)),  # doe, husbandry-76
        (155, date(2026, 10, 3)),  # doe, husbandry-76
    ],
)
def test_the_due_date_after_a_may_day_service(days: int, expected: date) -> None:
    """Served on 1 May."""
    assert due_date(MAY_DAY, days) == expected


def test_the_sows_window() -> None:
    """111 to 120 days after 1 May: 20 to 29 August [husbandry-66]."""
    assert due_window(MAY_DAY, 111, 120) == (date(2026, 8, 20), date(2026, 8, 29))


def test_earliest_weaning_by_age() -> None:
    """Born 1 May: 28 days on 29 May, 21 on 22 May [husbandry-79]."""
    assert age_days(MAY_DAY, date(2026, 5, 29)) == 28
    assert age_days(MAY_DAY, date(2026, 5, 22)) == 21


# Our own edges ------------------------------------------------------------------------------


@given(bred=st.dates(date(2000, 1, 1), date(2100, 1, 1)), days=st.integers(0, 400))
def test_date_and_day_undo_each_other(bred: date, days: int) -> None:
    """Leap years included."""
    assert day_of_gestation(bred, due_date(bred, days)) == days
    assert age_days(bred, due_date(bred, days)) == days


def test_a_leap_day_counts() -> None:
    """From 28 February to 1 March are 2 days in 2028, 1 in 2027."""
    assert age_days(date(2028, 2, 28), date(2028, 3, 1)) == 2
    assert age_days(date(2027, 2, 28), date(2027, 3, 1)) == 1


def test_the_day_itself_is_day_0() -> None:
    """Of service and of birth alike."""
    assert day_of_gestation(MAY_DAY, MAY_DAY) == 0
    assert age_days(MAY_DAY, MAY_DAY) == 0
    assert due_date(MAY_DAY, 0) == MAY_DAY
    assert due_date(MAY_DAY, 400) == date(2027, 6, 5)  # 365 days, then 35


@pytest.mark.parametrize("days", [-1, 401])
def test_no_pregnancy_is_that_long(days: int) -> None:
    """0 to 400 days (our choice)."""
    said = f"days from breeding {days} days is outside the range 0 to 400 days"
    with pytest.raises(ValueError, match=said):
        due_date(MAY_DAY, days)


def test_a_window_runs_forward() -> None:
    """One day is a window; the last before the first is not."""
    assert due_window(MAY_DAY, 115, 115) == (date(2026, 8, 24), date(2026, 8, 24))
    with pytest.raises(ValueError, match=r"longest pregnancy 114 days is .* 115 to 400 days"):
        due_window(MAY_DAY, 115, 114)
    with pytest.raises(ValueError, match="longest pregnancy 401 days"):
        due_window(MAY_DAY, 115, 401)
    with pytest.raises(ValueError, match="days from breeding -1 days"):
        due_window(MAY_DAY, -1, 115)


def test_nothing_is_older_than_its_beginning() -> None:
    """A date before the service or the birth is refused by name."""
    before = date(2026, 4, 30)
    with pytest.raises(ValueError, match=r"2026-04-30 .* not before the service on 2026-05-01"):
        day_of_gestation(MAY_DAY, before)
    with pytest.raises(ValueError, match=r"2026-04-30 .* not before the birth on 2026-05-01"):
        age_days(MAY_DAY, before)
