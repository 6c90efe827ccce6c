"""Every figure gives what its published table prints.

The tables were retyped by somebody other than the writer of the figures; the program never
reads them. A value that disagrees is a finding about one of the two; the row is never bent.
What `expected` may hold: a number in the unit that `units` prints, an hour of a day's curve
(`15h 95.0`), a time of day (tolerance in minutes), `refused` where the source says do not, or
a word or date that must be met exactly.
"""

from __future__ import annotations

import datetime as dt
import re
import shlex
from typing import TYPE_CHECKING

import pytest

from binder import units
from binder.figures import catalogue
from binder.problems import ProblemsError
from binder.sources import all_sources

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.display import System
    from binder.figures.figure import Figure

NUMBER = re.compile(r"(?:(?P<hour>\d+)h )?(?P<number>-?\d+(?:\.\d+)?)")
REFUSED = "refused"
CLOCK = re.compile(r"\d\d:\d\d")


def _minutes(text: str) -> int:
    clock = dt.time.fromisoformat(text)
    return clock.hour * 60 + clock.minute


def _amount(figure: Figure, hour: str | None) -> units.Amount:
    """Return the figure's amount, or that of one hour where the figure is a day's curve."""
    if hour is None:
        return figure.amount
    assert isinstance(figure.value, tuple)
    return figure.value[int(hour)]


def test_published_row(figure_row: Mapping[str, str]) -> None:
    """The figure, asked for as on the command line, gives the printed value."""
    assert figure_row["source"] in all_sources()
    given = dict(word.split("=", 1) for word in shlex.split(figure_row["args"]))
    expected, tolerance = figure_row["expected"], float(figure_row["tolerance"])
    if expected == REFUSED:
        with pytest.raises(ProblemsError):
            catalogue.compute(figure_row["figure"], given)
        return
    figure = catalogue.compute(figure_row["figure"], given)
    if number := NUMBER.fullmatch(expected):
        system: System = "metric" if figure_row["units"] == "metric" else "us"
        found = units.convert(_amount(figure, number["hour"]), system)
        relative = float(figure_row.get("relative") or 0)
        assert found == pytest.approx(float(number["number"]), abs=tolerance, rel=relative)
    elif CLOCK.fullmatch(expected):
        assert isinstance(figure.value, str)
        assert _minutes(figure.value) == pytest.approx(_minutes(expected), abs=tolerance)
    else:
        assert figure.value == expected
