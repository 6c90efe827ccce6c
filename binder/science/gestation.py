"""Dates of breeding and birth. The day of breeding is day 0."""

from datetime import date, timedelta

from binder.science.ranges import require_within

LONGEST_DAYS = 400  # our choice: past the longest pregnancy of any farm animal


def due_date(bred: date, days: int) -> date:
    """Return the date on which birth is due.

    Args:
        bred: Date of first service.
        days: Length of pregnancy [days], 0 to 400: sow 115, ewe 147, doe 150, cow 279.

    Returns:
        The date.

    Raises:
        ValueError: The length is outside 0 to 400 days.

    References:
        husbandry-66 (sow), husbandry-71 (ewe, cow), husbandry-76 (doe).

    Example:
        >>> due_date(date(2026, 5, 1), 115)
        datetime.date(2026, 8, 24)
    """
    require_within(days, 0, LONGEST_DAYS, "days from breeding", "days")
    return bred + timedelta(days=days)


def due_window(bred: date, first: int, last: int) -> tuple[date, date]:
    """Return the first and last date of a normal birth.

    Args:
        bred: Date of first service.
        first: Shortest normal pregnancy [days], 0 to 400: sow 111.
        last: Longest normal pregnancy [days], from `first` to 400: sow 120.

    Returns:
        The two dates.

    Raises:
        ValueError: A length is outside its range.

    References:
        husbandry-66: 111 to 120 days.

    Example:
        >>> [f"{day:%d %b}" for day in due_window(date(2026, 5, 1), 111, 120)]
        ['20 Aug', '29 Aug']
    """
    require_within(last, first, LONGEST_DAYS, "longest pregnancy", "days")
    return due_date(bred, first), due_date(bred, last)


def day_of_gestation(bred: date, on: date) -> int:
    """Return the day of pregnancy on a date [days].

    Args:
        bred: Date of first service, day 0.
        on: The date asked about, not before.

    Returns:
        Whole days since service [days].

    Raises:
        ValueError: The date is before the service.

    References:
        Counting of days; husbandry-95: day 104 after 1 May is 13 August.

    Example:
        >>> day_of_gestation(date(2026, 5, 1), date(2026, 8, 13))
        104
    """
    if on < bred:
        msg = f"{on:%Y-%m-%d} is outside its range: not before the service on {bred:%Y-%m-%d}"
        raise ValueError(msg)
    return (on - bred).days


def age_days(born: date, on: date) -> int:
    """Return the age on a date [days].

    Args:
        born: Date of birth, day 0.
        on: The date asked about, not before.

    Returns:
        Whole days since birth [days].

    Raises:
        ValueError: The date is before the birth.

    References:
        Counting of days; husbandry-79: 28 days after 1 May is 29 May.

    Example:
        >>> age_days(date(2026, 5, 1), date(2026, 5, 29))
        28
    """
    if on < born:
        msg = f"{on:%Y-%m-%d} is outside its range: not before the birth on {born:%Y-%m-%d}"
        raise ValueError(msg)
    return (on - born).days
