"""What a reader of the July pack alone could not settle, on the sheet that should say it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.pages.test_lone_sitter import july  # noqa: F401 -- a fixture

if TYPE_CHECKING:
    from tests.pages.test_lone_sitter import Paper


@pytest.mark.parametrize(
    ("sheets", "said"),
    [
        (("A7", "P2"), "Red and black, yellow tag 14"),
        (("A20",), "On the square in Tarrow Bend. After 8: 911"),
        (
            ("A20",),
            "to end suffering, if nobody answers; Tri-Creek Large Animal Line: the same",
        ),
        (("A20",), "It goes before a dry pen."),
        (("E7",), "One down goes first; phone for the water."),
        (("H20", "P7"), "Go round together, worst first."),
        (("E10",), "Unplug all but fans; reset once only."),
        (
            ("L4",),
            "Do not leave before the owner, or who stands in for the owner, has taken over.",
        ),
        (("C7",), "The rounds count on somebody used to it."),
    ],
)
def test_the_paper_settles_it(
    july: Paper,  # noqa: F811 -- the fixture
    sheets: tuple[str, ...],
    said: str,
) -> None:
    """A sitter asked, and two sheets or none gave the answer."""
    for sheet in sheets:
        assert said in july.sheets[sheet], sheet


def test_nobody_is_sent_round_alone_at_number_4(july: Paper) -> None:  # noqa: F811
    """One page said to part, another to stay together."""
    assert not [name for name, text in july.sheets.items() if "One stays, the other" in text]
