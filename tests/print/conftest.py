"""The example farm on paper, printed once for all tests of this folder."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.output.cache import Cache, default_folder
from binder.output.print import PrintOptions, PrintResult, render_book

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
    cache: Cache


@pytest.fixture(scope="session")
def example(once: Once) -> Example:
    """Return the example farm, composed and printed."""
    return once("example-print", _printed)


def _printed(folder: Path) -> Example:
    cache = Cache(default_folder())
    book = book_of(EXAMPLE, DAY)
    return Example(book, render_book(book, folder, options=PrintOptions(cache=cache)), cache)
