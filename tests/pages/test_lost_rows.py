"""A row that a table of ours has lost stops the build; it is never the owner's fault."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.figures import published
from binder.figures.figure import NotPublishedError
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from binder.figures.published import Row
    from tests.conftest import FarmFolder

DAY = dt.date(2026, 6, 1)
GROWER = "- {group: Shoats, species: pig, sex: mixed, count: 6, weight: 90 lb, pen: lot}"
BULL = "- {name: Rex, species: cattle, sex: bull, pen: lot}"


@pytest.fixture
def lose(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[str, str], None]]:
    """Return a function that takes the rows that start with a word out of a table."""
    whole = published.rows

    def taken(table: str, first: str) -> None:
        def rows(name: str) -> tuple[Row, ...]:
            return tuple(
                one
                for one in whole(name)
                if name != table or next(iter(one.cells.values())) != first
            )

        monkeypatch.setattr(published, "rows", rows)
        published.row.cache_clear()

    yield taken
    published.row.cache_clear()


@pytest.mark.parametrize(
    ("table", "file"),
    [
        ("water_need", "content/published/water/water_need.csv"),
        ("drinkers", "content/published/water/drinkers.csv"),
        ("ration", "content/published/feed/ration.csv"),
        ("shade", "content/published/housing/shade.csv"),
        ("class_ladders", "content/published/bands/class_ladders.csv"),
    ],
)
def test_a_lost_class_stops_the_build(
    farm_folder: FarmFolder,
    least: dict[str, str],
    lose: Callable[[str, str], None],
    table: str,
    file: str,
) -> None:
    """With the table's name, and no binder that leaves the growers out of its sums."""
    lose(table, "grower")
    with pytest.raises(ProblemsError, match='has no row for class "grower"') as caught:
        book_of(farm_folder(least | {"animals.yaml": GROWER}), DAY)
    assert [problem.place.file for problem in caught.value.problems] == [file]


def test_a_formula_or_sheet_without_its_sources_is_a_lost_row() -> None:
    """Nothing is printed that rests on nothing."""
    with pytest.raises(ProblemsError, match='has no row for formula "hose-mood"') as caught:
        published.formula("hose_formulas", "hose-mood")
    files = [problem.place.file for problem in caught.value.problems]
    assert files == ["content/published/hoses/hose_formulas.csv"]
    with pytest.raises(ProblemsError, match='has no row for sheet "nowhere"'):
        published.rests_on("nowhere")


def test_a_word_that_nobody_knows_is_no_lost_row() -> None:
    """One may type it at the command line; the nearest is named."""
    with pytest.raises(NotPublishedError, match="did you mean grower"):
        published.row("water_need", **{"class": "grover"})


def test_a_total_says_whom_it_leaves_out(
    farm_folder: FarmFolder, least: dict[str, str]
) -> None:
    """In the same sentence: water of a bull is published by weight only (water-60)."""
    book = book_of(farm_folder(least | {"animals.yaml": f"{GROWER}\n{BULL}"}), DAY)
    pages = {page.slug: page.body for page in book.pages}
    assert "the animals drink" in pages["water-today"]
    assert "together, not counting Rex: no weight recorded." in pages["water-today"]
    assert "all animals together" not in pages["water-today"]
    assert "wetting, not counting Rex" in pages["water-today"]
    assert "Not counted, their weight is not recorded: Rex" in pages["numbers-water"]
    assert "not counting Rex: no weight recorded" in pages["readiness"]
