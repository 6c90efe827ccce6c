"""Whatever feed has to say is said in words, and rests on a source."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder import sources
from binder.figures.entry import read_arguments
from binder.figures.feed import farm_feed
from binder.figures.feed.farm_feed import ENTRIES, FarmFeed
from binder.figures.published import rows
from binder.pages.text import words
from tests.figures.feed.fed import (
    CLEMENTINE,
    DOG,
    GROWERS,
    HENS,
    MEAT,
    fed,
)

if TYPE_CHECKING:
    from binder.figures.figure import Figure


def all_figures(found: FarmFeed) -> list[Figure]:
    """Return every figure of a farm's feed."""
    figures: list[Figure | None] = []
    for each in found.groups:
        figures += [each.ration, each.total, each.treats, each.energy]
        for meal in (each.morning, each.evening):
            if meal is not None:
                figures += [meal.feed, meal.scoops, meal.water, meal.batches]
    for item in found.stock:
        figures += [item.need, item.short]
    return [figure for figure in figures if figure is not None]


def test_all_of_it_can_be_said() -> None:
    """Words for every figure, line, caution and finding; sources are listed ones."""
    lexicon = words.load()
    nursing = {"name": "M", "species": "pig", "sex": "sow", "farrowed": "2026-07-01"}
    goat = {"name": "G", "species": "goat", "sex": "doe", "weight": "130 lb"}
    found = fed(CLEMENTINE, GROWERS, HENS, MEAT, DOG, nursing, goat)
    for each in found.findings:
        assert lexicon.text(each.words, **dict(each.values))
    for figure in all_figures(found):
        assert lexicon.title(figure)
        assert lexicon.value(figure)
        assert all(lexicon.working(figure))
        assert len(lexicon.cautions(figure)) == len(figure.cautions)
        assert set(figure.sources) <= set(sources.all_sources())
    for row in rows("ration"):
        for key in row.text("cautions").split():
            assert lexicon.text(f"ration.cautions.{key}")


ASKED = {
    "ration": {"class": "lactating sow", "litter": "10"},
    "treats-cap": {"ration": "5lb/day"},
    "dog-energy": {"weight": "20kg"},
    "soak": {"dry": "1lb"},
    "scoops": {"feed": "2.5lb", "scoop": "3lb"},
    "soak-batches": {"dry": "8lb", "water": "1gal", "bucket": "5gal"},
    "feed-stock": {"ration": "5lb/day", "count": "8", "days": "10"},
}


def test_every_figure_is_asked_for_by_name() -> None:
    """Every entry computes, has its words, and rests on listed sources."""
    assert {entry.name for entry in farm_feed.ENTRIES} == set(ASKED)
    lexicon = words.load()
    for entry in ENTRIES:
        found = entry.compute(**read_arguments(entry, ASKED[entry.name]))
        assert found.name == entry.name
        assert lexicon.title(found)
        assert all(lexicon.working(found))
        assert lexicon.text(f"{entry.name}.help")
        assert set(found.sources) <= set(sources.all_sources())


@pytest.mark.parametrize("table", ["ration", "feed_by_weight", "feed_rules"])
def test_every_row_names_listed_sources(table: str) -> None:
    """No row stands on a source that is not listed; every class has a row."""
    for each in rows(table):
        assert each.sources
        assert set(each.sources) <= set(sources.all_sources())
    listed = [each.text("class") for each in rows("classes")]
    assert [each.text("class") for each in rows("ration")] == listed
