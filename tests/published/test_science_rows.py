"""Every formula gives what its source prints.

The rows were retyped from the source by somebody other than the writer of the formulas; rows
worked out by hand from a printed formula say "derived" in their note.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

import pytest

from binder.sources import all_sources

if TYPE_CHECKING:
    from collections.abc import Mapping


def test_science_row(science_row: Mapping[str, str]) -> None:
    """The formula, called with the row's numbers, gives the printed value."""
    assert science_row["source"] in all_sources()
    module, name = science_row["function"].split(".")
    formula = getattr(import_module(f"binder.science.{module}"), name)
    found = formula(*(float(number) for number in science_row["args"].split(",")))
    expected, tolerance = float(science_row["expected"]), float(science_row["tolerance"])
    assert found == pytest.approx(expected, abs=tolerance)
