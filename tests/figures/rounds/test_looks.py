"""Short looks: the fewest that leave nothing overdue, held against every other choice."""

from __future__ import annotations

from itertools import combinations, pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from binder.figures.rounds.looks import (
    NOBODY,
    SITTER,
    People,
    candidates,
    looks_in,
    plan_looks,
)
from binder.figures.rounds.visits import Gap, overdue_h

ALL_DAY = People(((0.0, 24.0),), 9, (), 0)
NOON_ONLY = People(((11.0, 13.0),), 9, ("Ann",), 9)


def holds(gap: Gap, times: tuple[float, ...], allowed: list[float]) -> bool:
    """Return whether a pen is nowhere overdue with looks at these times."""
    edges = (gap.start_h, *times, gap.end_h)
    return all(overdue_h(Gap(*pair), allowed) is None for pair in pairwise(edges))


def fewest(gap: Gap, allowed: list[float]) -> int:
    """Return the fewest looks that hold, found by trying all of them."""
    times = candidates(gap)
    return next(
        count
        for count in range(len(times) + 1)
        if any(holds(gap, chosen, allowed) for chosen in combinations(times, count))
    )


@settings(deadline=None)
@given(
    start=st.integers(0, 40), length=st.integers(1, 10),
    allowed=st.lists(st.sampled_from([0.5, 1.0, 1.5, 2.0, 4.0]), min_size=24, max_size=24),
)  # fmt: skip
def test_no_choice_of_times_needs_fewer_looks(
    start: int, length: int, allowed: list[float]
) -> None:
    """Against all choices of quarter hours in gaps up to two and a half hours."""
    gap = Gap(start / 4, (start + length) / 4)
    found = looks_in(gap, {"pen": allowed}, ALL_DAY)
    assert holds(gap, found, allowed)
    assert len(found) == fewest(gap, allowed)


def test_looks_lie_evenly_where_several_choices_hold() -> None:
    """Four hours allowed in a gap of six: one look, in the middle."""
    assert looks_in(Gap(8.0, 14.0), {"pen": [4.0] * 24}, ALL_DAY) == (11.0,)


def test_a_look_passes_only_the_pens_that_need_it() -> None:
    """One hour for the hens, two for the goats: every second look leaves the goats out."""
    needs = {"hens": [1.0] * 24, "goats": [2.0] * 24}
    looks = plan_looks([(Gap(9.0, 13.0), needs)], ALL_DAY)
    assert [look.hour for look in looks] == [10.0, 11.0, 12.0]
    assert [look.pens for look in looks] == [("hens",), ("hens", "goats"), ("hens",)]
    assert {look.by for look in looks} == {SITTER}


def test_the_sitter_goes_first_then_helpers_then_nobody() -> None:
    """Nobody is asked more often than agreed; what is left is nobody's, and said so."""
    needs = {"pen": [1.0] * 24}
    people = People(((9.0, 13.0),), 1, ("Ann",), 1)
    looks = plan_looks([(Gap(9.0, 13.0), needs)], people)
    assert [look.by for look in looks] == [SITTER, "Ann", NOBODY]


def test_a_time_at_which_the_sitter_is_there_is_chosen_before_a_helper_is_called() -> None:
    """One look between nine and three, every three to four hours: at noon, not at 12:15."""
    allowed = [4.0] * 24
    (at,) = looks_in(Gap(9.0, 15.0), {"pen": allowed}, NOON_ONLY)
    assert 11.0 <= at <= 13.0


def test_nothing_is_added_where_visits_are_enough() -> None:
    """No look too many, and none where no pen has a number."""
    assert looks_in(Gap(9.0, 10.0), {"pen": [1.0] * 24}, ALL_DAY) == ()
    assert looks_in(Gap(9.0, 20.0), {}, ALL_DAY) == ()
