"""The registry: one slug, one number, one row a sheet, whatever a farm has."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.figures import work_out
from binder.pages.book.registry import ALL, CHARTS, TABS, WORKINGS, sheets_of
from binder.pages.numbers import SHEETS
from tests.pages.conftest import DAY, EXAMPLE

if TYPE_CHECKING:
    from binder.figures.figures import Figures


@pytest.fixture(scope="module")
def figures() -> Figures:
    """Return what is worked out for the example farm, on the day of its binder here."""
    owner = read_folder(EXAMPLE)
    return work_out(check(owner), DAY, owner.weather)


def test_no_two_sheets_share_a_name_or_number(figures: Figures) -> None:
    """On the example farm, which has nearly everything; copies for paper and walls aside."""
    rows = sheets_of(figures)
    assert max(Counter(row.slug for row in rows).values()) == 1
    assert max(Counter(row.number for row in rows if not row.copy).values()) == 1
    numbers = {row.number for row in rows if not row.copy}
    assert all(row.number in numbers for row in rows if row.copy)


def test_a_sheet_is_made_in_one_way(figures: Figures) -> None:
    """Only what output lists has no maker here, and it is the list of sheets."""
    rows = sheets_of(figures)
    assert [row.slug for row in rows if not (row.make or row.survey)] == ["list-of-sheets"]
    assert not [row.slug for row in rows if row.make and row.survey]


def test_every_sheet_of_the_registry_is_in_the_binder(figures: Figures) -> None:
    """And under the registry's number, in its tab, for its readers."""
    pages = {page.slug: page for page in book_of(EXAMPLE, DAY).pages}
    for row in sheets_of(figures):
        if row.slug == "list-of-sheets":
            continue
        page = pages[row.slug]
        assert (page.sheet, page.tab, page.where) == (row.number, row.number[0], row.where)
        assert page.editions == TABS[row.tab] & row.readers


def test_every_chart_and_area_has_its_number_for_good() -> None:
    """Numbers are told apart, and the tab is that of the part of the binder."""
    assert len(set(CHARTS.values())) == len(CHARTS)
    assert {number[0] for number in CHARTS.values()} == {"H"}
    assert tuple(WORKINGS) == SHEETS
    assert {number[0] for number in WORKINGS.values()} == {"N"}


def test_a_tab_keeps_what_it_must_from_some() -> None:
    """Codes stay with owner and sitter; workings with owner and vet (our choice)."""
    assert TABS["K"] == {"sitter", "owner"}
    assert TABS["N"] == {"owner", "vet"}
    assert TABS["A"] == ALL
