"""One full stop where the owner's and the sheet's meet."""

from __future__ import annotations

import pytest

from binder.pages.text.stops import one_stop


@pytest.mark.parametrize(
    ("html", "read"),
    [
        ("Pull the pin.. Then lift.", "Pull the pin. Then lift."),
        ("Look!. Go", "Look! Go"),
        ("Which?.</p>", "Which?</p>"),
        ("and so on…. Go", "and so on… Go"),
        ("<b>Pull.</b>. Go", "<b>Pull.</b> Go"),
        ("not recorded. . Go", "not recorded. Go"),
        ("wait.... Go", "wait... Go"),
    ],
)
def test_one_is_left(html: str, read: str) -> None:
    """A line of the owner that ends in its own sign, before the stop of the sheet."""
    assert one_stop(html) == read


@pytest.mark.parametrize(
    "html", ["wait... Go", "2.5 gal. 3", "v1..2", "</b>. Go", "A.B. of C", "<p>.</p>"]
)
def test_others_stay(html: str) -> None:
    """Three dots, decimals and abbreviations are as they were."""
    assert one_stop(html) == html
