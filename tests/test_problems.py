"""How mistakes are said."""

from __future__ import annotations

import pytest

from binder.problems import (
    LONGEST_QUOTED,
    Place,
    Problem,
    ProblemsError,
    did_you_mean,
    nearest,
    quotable,
)


def test_a_problem_is_one_line() -> None:
    """Place, two spaces, path, colon, sentence; what is not known is left out."""
    place = Place("pens.yaml", 14, 11)
    assert str(Problem(place, "creek > kind", "is empty")) == (
        "pens.yaml:14:11  creek > kind: is empty"
    )
    assert str(Problem(Place("pens.yaml"), "", "is missing")) == "pens.yaml  is missing"


def test_problems_are_sorted_and_said_once() -> None:
    """By file, line and column, so that the owner goes through each file from the top."""
    first, second = Problem(Place("a.yaml", 2, 1), "", "x"), Problem(Place("a.yaml", 10, 1))
    other = Problem(Place("b.yaml", 1, 1), "", "y")
    error = ProblemsError([other, second, first, first])
    assert error.problems == (first, second, other)
    assert str(error).splitlines() == [str(first), str(second), str(other)]
    assert error.exit_code == 1


@pytest.mark.parametrize(
    ("word", "expected"),
    [("crek", "creek"), ("Creek", "creek"), ("wods", "woods"), ("zebra", None), ("", None)],
)
def test_the_nearest_is_found_whatever_its_case(word: str, expected: str | None) -> None:
    """A letter lost, doubled or large is near; another word is not."""
    assert nearest(word, ["creek", "woods", "stall-1"]) == expected


def test_likeness_can_be_asked_for() -> None:
    """Where a wrong hint would mislead, only almost the same will do."""
    assert nearest("crek", ["creek"], likeness=0.95) is None


def test_no_nearest_is_sought_for_a_whole_page() -> None:
    """Comparing long texts takes long and helps nobody."""
    assert nearest("creek" * 1_000, ["creek" * 1_000]) is None


def test_the_owner_learns_what_would_do() -> None:
    """The nearest where there is one, else all, else the first two dozen of many."""
    assert did_you_mean("crek", ["creek", "woods"]) == "; did you mean creek?"
    assert did_you_mean("zebra", ["creek", "woods"]) == "; expected one of creek, woods"
    assert did_you_mean("zebra", []) == ""
    many = did_you_mean("zebra", [f"pen-{number}" for number in range(10_000)])
    assert many.endswith("pen-23 and 9,976 more")


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain", "plain"),
        ("two\nlines\there", "two lines here"),
        ("red \x1b[31m", "red [U+001B][31m"),
        ("\u202e0010-555", "[U+202E]0010-555"),
        ("Łoś 农场", "Łoś 农场"),
        ("a" * 61, "a" * LONGEST_QUOTED + "..."),
        ("\ud800", "[U+D800]"),
    ],
)
def test_quoted_text_does_nothing_to_a_terminal(text: str, shown: str) -> None:
    """One line, short, printable: codes are spelt out."""
    assert quotable(text) == shown
    assert quotable(text).isprintable()
