"""The example farm on paper, printed once for all tests of this folder."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of
from binder.output.cache import Cache
from binder.output.print import PrintOptions, PrintResult, render_book

if TYPE_CHECKING:
    from binder.pages.page import Book

EXAMPLE = Path(__file__).resolve().parents[2] / "content" / "example-farm"
DAY = dt.date(2026, 6, 1)


@dataclass(frozen=True)
class Example:
    """The example farm's book and its print."""

    book: Book
    result: PrintResult
    cache: Cache


@pytest.fixture(scope="session")
def example(tmp_path_factory: pytest.TempPathFactory) -> Example:
    """Return the example farm, composed and printed."""
    folder = tmp_path_factory.mktemp("example-print")
    cache = Cache(folder / "cache")
    book = book_of(EXAMPLE, DAY)
    return Example(book, render_book(book, folder, options=PrintOptions(cache=cache)), cache)
