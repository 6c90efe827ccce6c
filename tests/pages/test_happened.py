"""The list by what happened: every emergency can be found by what somebody sees."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import yaml

from binder.data import CONTENT

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.pages.page import Book

ROWS = [
    row
    for group in yaml.safe_load((CONTENT / "words/en/pages.yaml").read_text("utf-8"))[
        "happened"
    ]["groups"]
    for row in group["rows"]
]


def test_every_sheet_of_the_list_can_be(books: Mapping[str, Book]) -> None:
    """A slug that no sheet has would be left out of every binder without a word."""
    known = {page.slug for page in books["example"].pages}
    named = {slug for row in ROWS for slug in row["sheets"].split()}
    assert named <= known


def test_every_emergency_is_in_the_list(books: Mapping[str, Book]) -> None:
    """And where it is, it comes first, before what explains it."""
    (listed,) = (page for page in books["example"].pages if page.slug == "what-happened")
    for page in books["example"].pages:
        if page.tab == "E":
            assert f'href="sheet:{page.slug}"' in listed.body, page.title
    for row in re.findall(r"<tr>.*?</tr>", listed.body, re.DOTALL):
        tabs = [sheet[0] for sheet in re.findall(r">([A-Z])\d+</a>", row)]
        assert "E" not in tabs[1:], row
