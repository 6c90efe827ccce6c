"""A small invented binder, made by hand: what the output step is given."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

import pytest

from binder import yamlfile
from binder.cache import Cache
from binder.output.print import PrintOptions, PrintResult, render_book
from binder.pages.page import EVERYWHERE, PRINT_ONLY, Book, Foot, Page, Tab

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

ROOT = Path(__file__).resolve().parents[2]
BOOK = Path(__file__).resolve().parent / "book"

TABS = (
    ("A", "At the front"),
    ("E", "Emergencies"),
    ("H", "Heat"),
    ("R", "Rounds"),
    ("P", "Pens"),
    ("W", "Water"),
    ("M", "Wallows"),
    ("B", "Breeding and calendar"),
    ("C", "People"),
    ("K", "Keys and codes"),
    ("L", "Logs"),
    ("N", "Numbers"),
)

PAGES = (
    ("cover", "A1", "Heat binder", "cover"),
    ("start-here", "A2", "Start here", "start"),
    ("hand-over-sheet", "A3", "Hand-over", "form"),
    ("pig-in-heat-trouble", "E1", "A pig is in heat trouble", "emergency"),
    ("bleach-accident", "E2", "Bleach went wrong", "emergency"),
    ("pig-chart", "H1", "How dangerous is the air for pigs?", "chart"),
    ("hot-day", "H2", "What a hot day is like here", "figures"),
    ("pen-creek", "P1", "Creek paddock", "pen"),
    ("pen-woods", "P2", "Woods", "pen"),
    ("water", "W1", "How much they drink", "figures"),
    ("due-dates", "B1", "Who is due, and when", "figures"),
    ("contacts", "C1", "Whom to call", "figures"),
    ("gate-codes", "K1", "Gates and keys", "private"),
    ("round-log", "L1", "Round log", "log"),
    ("workings", "N1", "How each number was worked out", "numbers"),
    ("card-creek", "P1", "Creek paddock", "card"),
)
PAPER_ONLY = frozenset({"private", "card"})
ALL = frozenset({"owner", "sitter", "helper", "vet"})
FEW = frozenset({"owner", "sitter"})


def body(slug: str) -> str:
    """Return the body of one invented sheet."""
    if slug == "pig-chart":
        return _body_file(slug).replace("<!-- grid -->", grid())
    if slug == "round-log":
        return _body_file(slug).replace("<!-- rows -->", BLANK_ROW * 16)
    if slug == "pen-woods":
        other = _body_file("pen-creek").replace("Clementine (sow", "Growers (eight")
        return other.replace("2 pigs", "8 pigs").replace("Both pigs", "All eight")
    return _body_file(slug)


BLANK_ROW = '<tr><th scope="row"> </th><td></td><td></td><td></td><td></td><td></td></tr>'


def _body_file(slug: str) -> str:
    return (BOOK / f"{slug}.html").read_text(encoding="utf-8")


def grid() -> str:
    """Return a grid of bands; its numbers are placeholders, taken from no table."""
    columns = range(20, 95, 5)
    heads = "".join(f'<th scope="col">{humidity}%</th>' for humidity in columns)
    rows = []
    for air in range(110, 72, -2):
        scores = [air + humidity * (air - 58) / 160 for humidity in columns]
        cells = "".join(
            "<td></td>" if score > 138 else f'<td class="b{band(score)}">{band(score)}</td>'
            for score in scores
        )
        rows.append(f'<tr><th scope="row">{air}°</th>{cells}</tr>')
    return (
        f'<table class="bands"><thead><tr><th scope="col">Air °F</th>{heads}</tr></thead>'
        f"<tbody>{''.join(rows)}</tbody></table>"
    )


def band(score: float) -> int:
    """Return a placeholder band."""
    return sum(score >= limit for limit in (88, 97, 107, 119))


def labels() -> dict[str, str]:
    """Return the words of content/words/en/print.yaml under dotted names."""
    tree = yamlfile.read(ROOT / "content/words/en/print.yaml").data

    def walk(node: object, name: str) -> Iterator[tuple[str, str]]:
        if isinstance(node, dict):
            for key, below in node.items():
                yield from walk(below, f"{name}.{key}" if name else key)
        else:
            yield name, str(node)

    return dict(walk(tree, ""))


def make_book(changed: Mapping[str, str] | None = None, without: tuple[str, ...] = ()) -> Book:
    """Return the invented binder, with some bodies changed or sheets left out."""
    changed = changed or {}
    pages = tuple(
        Page(
            slug,
            number,
            number[0],
            title,
            changed.get(slug) or body(slug),
            where=PRINT_ONLY if kind in PAPER_ONLY else EVERYWHERE,
            kind=kind,
            editions=FEW if kind == "private" else ALL,
        )
        for slug, number, title, kind in PAGES
        if slug not in without
    )
    return Book(
        name="Sallow Branch Farm",
        date="2026-06-01",
        paper="letter",
        language="en",
        tabs=tuple(Tab(letter, name, at) for at, (letter, name) in enumerate(TABS)),
        pages=pages,
        foot=Foot(
            "Trouble?",
            "2260 Sallow Branch Road, blue gate",
            (("Owner", "555-0104"), ("Vet", "555-0117, nights 555-0119")),
        ),
        labels=labels() | {"print.place": "911 address:"},
    )


class MakeBook(Protocol):
    """Makes the invented binder, a little different."""

    def __call__(
        self, changed: Mapping[str, str] | None = None, without: tuple[str, ...] = ()
    ) -> Book:
        """Return it with some bodies changed or sheets left out."""


@pytest.fixture(scope="session")
def made() -> MakeBook:
    """Return the function that makes the invented binder."""
    return make_book


@pytest.fixture
def book() -> Book:
    """Return the invented binder."""
    return make_book()


@pytest.fixture
def cache(tmp_path: Path) -> Cache:
    """Return an empty cache."""
    return Cache(tmp_path / "cache")


@dataclass(frozen=True)
class Printed:
    """The invented binder on paper, printed once for all tests, and the cache it filled."""

    result: PrintResult
    cache: Cache


@pytest.fixture(scope="session")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Printed:
    """Return the printed binder: every sheet, 12 pt, one side, before any hand-over."""
    folder = tmp_path_factory.mktemp("print")
    cache = Cache(folder / "cache")
    return Printed(render_book(make_book(), folder, options=PrintOptions(cache=cache)), cache)
