"""The example farm on paper, printed once for all tests of this folder.

`few` has the sheets that must fit one side and of the others those that have every structure
among them; `every` has all.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.cache import Cache, default_folder
from binder.output.print import PrintOptions, PrintResult, render_book
from tests.structures import EVERY, FEW, few_of

if TYPE_CHECKING:
    from binder.pages.page import Book
    from tests.conftest import Once

EXAMPLE = Path(__file__).resolve().parents[2] / "content" / "example-farm"
DAY = dt.date(2026, 6, 1)


@dataclass(frozen=True)
class Example:
    """The example farm's book and its print."""

    book: Book
    result: PrintResult


@pytest.fixture(scope="session", params=[FEW, pytest.param(EVERY, marks=pytest.mark.every)])
def example(request: pytest.FixtureRequest, once: Once) -> Example:
    """Return the example farm, composed and printed."""
    extent: str = request.param
    return once(f"example-print-{extent}", partial(_printed, extent))


def _printed(extent: str, folder: Path) -> Example:
    cache = Cache(default_folder())
    book = book_of(EXAMPLE, DAY)
    some = book if extent == EVERY else few_of(book)
    return Example(book, render_book(some, folder, options=PrintOptions(cache=cache)))
