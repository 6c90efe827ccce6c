"""Lists that are too long for a binder."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.farm.conftest import Checked, Said

STAY = "- {{id: s{n}, from: 2026-07-10, to: 2026-07-19, sitter: Sam}}\n"


def test_the_most_is_still_taken(checked: Checked, said: Said) -> None:
    """30 stays are, 31 are not; the place is the first that is too many."""
    assert (
        len(checked({"stays.yaml": "".join(STAY.format(n=n) for n in range(30))}).stays) == 30
    )
    found = said({"stays.yaml": "".join(STAY.format(n=n) for n in range(31))})
    assert found == [
        "stays.yaml:31:3  holds 31 items; 30 are the most: take out those that are over"
    ]


@pytest.mark.parametrize(
    ("name", "text", "expected"),
    [
        (
            "equipment.yaml",
            "buckets:\n" + "".join(f"  - {{id: b{n}}}\n" for n in range(201)),
            "equipment.yaml:202:5  buckets: holds 201 items; 200 are the most: ",
        ),
        (
            "pens.yaml",
            "- id: creek\n  tasks:\n" + "    - x\n" * 201,
            "pens.yaml:203:7  creek > tasks: holds 201 items; 200 are the most: ",
        ),
    ],
)
def test_a_list_inside_may_be_too_long_too(
    said: Said, name: str, text: str, expected: str
) -> None:
    """However deep it stands; nothing else is said of the farm until it is shorter."""
    found = said({name: text})
    assert len(found) == 1
    assert found[0].startswith(expected)
