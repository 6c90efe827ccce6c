"""All charts of a farm on one sheet of paper: nothing is lost, each under its own number."""

from __future__ import annotations

import re
from datetime import date

import pytest

from binder.build import book_of
from binder.figures.bands.band_charts import chart, damper_columns
from binder.pages import slugs
from binder.pages.bands.joint_charts import alike, grid
from binder.pages.page import PRINT, SITE
from tests.pages.conftest import DAY, EXAMPLE


@pytest.fixture(scope="module")
def joint() -> str:
    """Return the body of the example's sheet of all charts."""
    return next(page.body for page in book_of(EXAMPLE, DAY).pages if page.slug == slugs.CHARTS)


def test_paper_has_one_sheet_and_screens_have_each_chart(joint: str) -> None:
    """What leads to a chart finds it on both: by its page, or by its place on the sheet."""
    pages = book_of(EXAMPLE, DAY).pages
    alone = [page for page in pages if slugs.is_chart(page.slug)]
    assert len(alone) == 7
    assert all(SITE in page.where and PRINT not in page.where for page in alone)
    for page in alone:
        assert f'id="{page.slug}"' in joint
        assert f'<b class="id">{page.sheet}</b>' in joint


def test_charts_whose_cells_agree_are_one(joint: str) -> None:
    """Goats and dogs have the same limits today: seven charts are six grids."""
    assert joint.count("<table") == 6
    assert re.search(r'id="chart-goats-and-sheep".*?id="chart-dogs".*?</h3>', joint)


def test_the_grid_shows_every_row_and_the_dampest_column() -> None:
    """Every cell of the grid is the chart's own."""
    one = chart("pigs")
    cells = str(grid(one, rows=1))
    rows = re.findall(r'<tr><th scope="row">(\d+)°</th>(.*?)</tr>', cells)
    assert [int(temp) for temp, _ in rows] == list(one.temps)
    for (_, row), own in zip(rows, one.cells, strict=True):
        shown = re.findall(r"<td[^>]*>(\d?)</td>", row)
        assert shown == ["" if band is None else str(int(band)) for band in own[::-2][::-1]]
    assert alike([one, one]) == [[one, one]]


def test_a_dew_point_is_framed_where_it_lies() -> None:
    """At 30 °C a dew point of 20 °C is 55 % (Magnus, Alduchov and Eskridge 1996: 55.1 %)."""
    columns = damper_columns((30.0, 20.0, 15.0), 20.0, (40, 50, 60, 100))
    assert columns == (2, 3, None)


def test_no_mixed_pen_is_silent_about_what_counts() -> None:
    """Goats with a dog: each one's chart, and the worst counts; sow and boar: one for both."""
    before_birth = date(2026, 6, 1)  # a bred sow and a boar share the creek paddock
    pages = {page.slug: page.body for page in book_of(EXAMPLE, before_birth).pages}
    lot, creek = (re.sub(r"<[^>]+>", "", pages[f"pen-{pen}"]) for pen in ("goat-lot", "creek"))
    assert "H6 (goats and sheep), H10 (dogs): the worst number counts" in lot
    assert "H4, for all of them: it warns soonest" in creek
