"""Every figure gives what its published table prints.

The tables were retyped by somebody other than the writer of the figures; the program never
reads them. A value that disagrees is a finding about one of the two; the row is never bent.
"""

from __future__ import annotations

import datetime as dt
import shlex
from typing import TYPE_CHECKING

import pytest

from binder import units
from binder.figures import catalogue

if TYPE_CHECKING:
    from collections.abc import Mapping


def _is_number(text: str) -> bool:
    return text.replace(".", "", 1).replace("-", "", 1).isdigit()


def _minutes(text: str) -> int:
    clock = dt.time.fromisoformat(text)
    return clock.hour * 60 + clock.minute


def test_published_row(figure_row: Mapping[str, str]) -> None:
    """The figure, asked for as on the command line, gives the printed value."""
    given = dict(word.split("=", 1) for word in shlex.split(figure_row["args"]))
    figure = catalogue.compute(figure_row["figure"], given)
    expected = figure_row["expected"]
    tolerance = float(figure_row["tolerance"])
    relative = float(figure_row.get("relative") or 0)
    if _is_number(expected):
        system: units.System = "metric" if figure_row["units"] == "metric" else "us"
        found = units.convert(figure.amount, system)
        assert found == pytest.approx(float(expected), abs=tolerance, rel=relative)
    elif tolerance:  # a time of day, tolerance in minutes
        assert isinstance(figure.value, str)
        assert _minutes(figure.value) == pytest.approx(_minutes(expected), abs=tolerance)
    else:
        assert figure.value == expected
