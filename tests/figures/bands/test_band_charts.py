"""The charts of bands, and the table of the finder."""

from __future__ import annotations

import pytest
from CoolProp.HumidAirProp import HAPropsSI

from binder.figures.bands.band_charts import chart, finder_table
from binder.figures.bands.band_rule import (
    band,
    people_band,
)
from binder.figures.figure import NotPublishedError
from tests.figures.bands.banded import BANDED, CLASSES, D
from tests.figures.written import celsius


def test_a_chart_holds_the_band_of_each_cell() -> None:
    """Rows 110 to 74 F by 2, columns 20 to 90 % by 5, hottest first."""
    found = chart("cattle", ["beef cow"])
    assert found.temps == tuple(range(110, 72, -2))
    assert found.humidities == tuple(range(20, 101, 5))
    row, column = found.temps.index(86), found.humidities.index(60)
    assert found.cells[row][column] is D  # heat-17
    assert found.temps_c[row] == pytest.approx(30)


def test_a_metric_chart_counts_degrees_celsius() -> None:
    """43 to 23 C."""
    found = chart("cattle", ["beef cow"], system="metric")
    assert found.temps == tuple(range(43, 22, -1))
    assert found.temps_c == tuple(float(each) for each in range(43, 22, -1))


def test_a_chart_shows_the_worst_class_of_its_group() -> None:
    """A group's chart is never milder than any class of it."""
    whole = chart("poultry")
    hens = chart("poultry", ["laying hen", "chick", "finisher"])
    assert hens.classes == ("laying hen",)
    for worst, own in zip(whole.cells, hens.cells, strict=True):
        assert all(a is b is None or (a is not None and b is not None and a >= b)
                   for a, b in zip(worst, own, strict=True))  # fmt: skip


def test_a_cell_is_blank_where_air_is_never_that_damp() -> None:
    """Dew point above 30 C by CoolProp, an independent library, within 0.3 C of the limit."""
    found = chart("people")
    for temp_c, cells in zip(found.temps_c, found.cells, strict=True):
        for rh, cell in zip(found.humidities, cells, strict=True):
            dew_c = HAPropsSI("D", "T", temp_c + 273.15, "R", rh / 100, "P", 101325) - 273.15
            if abs(dew_c - found.dampest_c) > 0.3:
                assert (cell is None) is (dew_c > found.dampest_c)
            assert cell is None or cell is people_band(temp_c, rh)


def test_a_chart_that_nobody_is_read_from_is_refused() -> None:
    """The nearest chart is offered; so is one without a class of the farm."""
    with pytest.raises(NotPublishedError, match="did you mean cattle"):
        chart("catle")
    with pytest.raises(NotPublishedError, match="no class here"):
        chart("horses", ["finisher"])


def test_the_finder_answers_as_the_rule_does() -> None:
    """Every cell of every table, so that script and print cannot differ."""
    found = finder_table([*CLASSES, "finisher"], 88)
    temps, humidity = found["temps_f"], found["humidities"]
    tables, table_of = found["tables"], found["classes"]
    assert isinstance(temps, list)
    assert isinstance(humidity, list)
    assert isinstance(tables, list)
    assert isinstance(table_of, dict)
    assert set(table_of) == set(BANDED)
    for cls, number in table_of.items():
        for degrees in (60, 75, 79, 85, 98, 120):
            for rh in (5, 50, 100):
                cell = tables[number][temps.index(degrees)][humidity.index(rh)]
                assert cell == band(cls, celsius(degrees), rh, 88)
    assert tables[0][temps.index(96)][humidity.index(65)] == people_band(celsius(96), 65)
    assert (temps[0], temps[-1]) == (60, 120)  # our choice
    assert found["people"] == 0


def test_the_finder_reads_a_dew_point_as_the_next_damper_column() -> None:
    """Dew point 70 F: 93 % at 72 F, 72 % at 80, 52 % at 90, 38 % at 100 (heat-64, computed)."""
    found = finder_table([])
    temps, dews = found["temps_f"], found["dew_points_f"]
    columns, humidity = found["columns_by_dew_point"], found["humidities"]
    assert isinstance(temps, list)
    assert isinstance(dews, list)
    assert isinstance(columns, list)
    assert isinstance(humidity, list)
    at_70 = dews.index(70)
    assert (dews[0], dews[-1]) == (20, 90)  # our choice
    for degrees, expected in ((70, 100), (72, 95), (80, 75), (90, 55), (100, 40)):
        assert humidity[columns[temps.index(degrees)][at_70]] == expected
    assert columns[temps.index(69)][at_70] == -1  # cannot be
