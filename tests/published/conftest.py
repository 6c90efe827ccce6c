"""Reads the retyped published rows beside it, for the two tests that run them all."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

HERE = Path(__file__).parent
HEAD_LINES = ("source", "table", "rows", "date", "tolerance", "checks")


def _head(lines: list[str], name: str) -> dict[str, str]:
    """Return the `# key: words` lines at the top of a file; all of them must stand there."""
    head = dict(re.findall(r"^# (\w+): (.+)$", "\n".join(lines), flags=re.MULTILINE))
    missing = [key for key in HEAD_LINES if key not in head]
    assert not missing, f"{name}: the head does not name {missing}"
    return head


def _words(row: dict[str, str], *, named: bool) -> list[str]:
    """Return what tells a row from its neighbours: figure, arguments, hour, system."""
    parts = [row.get("figure") or row["function"]] if named else []
    parts.append(re.sub(r"\w+=", "", row["args"]))
    parts += re.findall(r"^\d+h(?= )", row["expected"])
    parts += [row["units"]] if row.get("units") == "metric" else []
    return re.findall(r"[\w.]+(?:-[\w.]+)*", " ".join(parts))


def _rows(path: Path) -> list[dict[str, str]]:
    """Return the rows of one file, each with the `id` its test runs under."""
    lines = path.read_text(encoding="utf-8").splitlines()
    head = _head([line for line in lines if line.startswith("#")], path.name)
    rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    called = {row.get("figure") or row["function"] for row in rows}
    for row in rows:
        row["source"] = row.get("source") or head["source"]
        row["id"] = "-".join([row["source"], head["rows"], *_words(row, named=len(called) > 1)])
    return rows


def published_rows(*, science: bool) -> list[dict[str, str]]:
    """Return the rows of all files for the figures, or of all for the formulas behind them."""
    return [
        row
        for path in sorted(HERE.glob("*.csv"))
        if path.name.startswith("science_") == science
        for row in _rows(path)
    ]


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Give a test that asks for `figure_row` or `science_row` every row of that sort."""
    for name, science in (("figure_row", False), ("science_row", True)):
        if name in metafunc.fixturenames:
            rows = published_rows(science=science)
            metafunc.parametrize(name, rows, ids=[row["id"] for row in rows])
