"""Whatever power has to say is said in words, and rests on a source."""

from __future__ import annotations

import pytest

from binder import sources
from binder.figures.entry import read_arguments
from binder.figures.figure import Figure
from binder.figures.power.farm_power import ENTRIES
from binder.figures.published import rows
from binder.pages.text import words
from tests.figures.power.wired import (
    CORD,
    GENERATOR,
    HEN,
    SOW,
    powered,
)


def said(figure: Figure) -> None:
    """Check that a figure's words and sources are there."""
    lexicon = words.load()
    assert lexicon.title(figure)
    assert lexicon.value(figure)
    assert all(lexicon.working(figure))
    assert len(lexicon.cautions(figure)) == len(figure.cautions)
    assert set(figure.sources) <= set(sources.all_sources())


def test_all_of_it_can_be_said() -> None:
    """Every figure of a farm."""
    found = powered(SOW, HEN, cords=[CORD], generators=[GENERATOR])
    used, generator = found.cords["cord-1"], found.generators["gen"]
    figures = [used.current, used.needed, used.drop]
    figures += [generator.running, generator.starting, generator.hours]
    for circuit in found.circuits.values():
        figures += [circuit.limit, *([circuit.draw] if circuit.draw else [])]
    for figure in (*figures, *found.barn_minutes.values()):
        assert figure is not None
        said(figure)


ASKED = {
    "circuit-load": {"breaker": "15A", "volts": "120V"},
    "breaker-needed": {"continuous": "9A", "other": "3A"},
    "cord": {"amps": "10A", "length": "50ft"},
    "voltage-drop": {"amps": "10A", "length": "100ft", "gauge": "16"},
    "starting-load": {"running": "450W"},
    "fuel-hours": {"fuel": "16gal", "rate": "0.65gal/h"},
    "barn-minutes": {"who": "birds"},
}


def test_every_figure_is_asked_for_by_name() -> None:
    """Every entry computes and has its words."""
    assert {entry.name for entry in ENTRIES} == set(ASKED)
    for entry in ENTRIES:
        found = entry.compute(**read_arguments(entry, ASKED[entry.name]))
        assert found.name == entry.name
        assert words.load().text(f"{entry.name}.help")
        said(found)


@pytest.mark.parametrize("table", ["cords", "wire", "power_rules", "barn_minutes"])
def test_every_row_names_listed_sources(table: str) -> None:
    """No row stands on a source that is not listed."""
    for each in rows(table):
        assert each.sources
        assert set(each.sources) <= set(sources.all_sources())
