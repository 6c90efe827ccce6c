"""Writing all of it: site, print and phone into one folder, with the farm's ledger beside."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from binder.output import write as writing
from binder.output.handed.hand_over import hand_over
from binder.output.print import silent
from binder.output.write import Options, print_binder, write
from binder.pages.page import Page
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from pathlib import Path

    from binder.pages.page import Book

MAY, JUNE = dt.date(2026, 5, 1), dt.date(2026, 6, 1)


@pytest.fixture
def small(book: Book) -> Book:
    """Return a binder of two plain sheets."""
    pages = (
        Page("one", "A1", "A", "One", "<p>first</p>"),
        Page("two", "E1", "E", "Two", "<p>second</p>"),
        Page("three", "E2", "E", "Three", "<p>third</p>"),
    )
    return replace(book, pages=pages)


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep out of the cache of whoever runs the tests; leave screens to their own tests."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setattr(writing, "_SCREENS", (lambda _book, new: (new / "site").mkdir(),))


@pytest.fixture
def farm(tmp_path: Path) -> Path:
    """Return an empty farm folder: output looks for nothing in it but the ledger."""
    folder = tmp_path / "farm"
    folder.mkdir()
    return folder


def changed(book: Book, text: str) -> Book:
    """Return the book with another third sheet."""
    pages = (*book.pages[:2], replace(book.pages[2], body=f"<p>{text}</p>"))
    return replace(book, pages=pages)


def test_everything_lands_in_one_folder(small: Book, farm: Path, tmp_path: Path) -> None:
    """Site and print stand side by side; what is returned says where, and how many pages."""
    written = write(small, tmp_path / "build", farm, Options(), silent)
    assert written.site == tmp_path / "build" / "site"
    assert written.print_file == tmp_path / "build" / "print" / "binder.pdf"
    assert written.print_file.is_file()
    assert written.print_pages == 4
    assert written.remarks == ()
    assert list(farm.iterdir()) == [], "nothing is written into the farm folder"


def test_site_only_leaves_print_as_it_was(small: Book, farm: Path, tmp_path: Path) -> None:
    """The printed binder of the last build is carried over untouched."""
    to = tmp_path / "build"
    write(small, to, farm, Options(), silent)
    before = (to / "print" / "binder.pdf").read_bytes()
    written = write(changed(small, "new"), to, farm, Options(site_only=True), silent)
    assert written.print_file is None
    assert (to / "print" / "binder.pdf").read_bytes() == before


def test_a_sheet_that_cannot_be_printed_leaves_the_last_binder(
    small: Book, farm: Path, tmp_path: Path
) -> None:
    """Nothing of a failed build is seen."""
    to = tmp_path / "build"
    write(small, to, farm, Options(), silent)
    before = (to / "print" / "binder.pdf").read_bytes()
    with pytest.raises(ProblemsError, match="E2 Three"):
        write(changed(small, "\u5317"), to, farm, Options(), silent)
    assert (to / "print" / "binder.pdf").read_bytes() == before


def test_build_tells_which_binders_have_sheets_to_change(
    small: Book, farm: Path, tmp_path: Path
) -> None:
    """A changed sheet makes a change set for the binder that is out, and a remark."""
    hand_over(farm, small, "Dana", MAY)
    written = write(changed(small, "new"), tmp_path / "build", farm, Options(), silent)
    assert (tmp_path / "build" / "print" / "changes-Dana.pdf").is_file()
    (remark,) = written.remarks
    assert (
        "The binder of Dana, out since 2026-05-01: sheets to change: 0, to correct by pen: 1."
        in remark
    )
    assert 'binder hand-over FARM --to "Dana"' in remark


def test_build_asks_for_nothing_when_only_days_passed(
    small: Book, farm: Path, tmp_path: Path
) -> None:
    """An amount that drifted a little makes no pack; the farm of that day is asked."""
    then = changed(replace(small, date=MAY.isoformat()), "Poppy weighs 420 lb")
    hand_over(farm, then, "Dana", MAY)
    words = {"months": "May", "noon": "am|pm", "units": "lb"}
    labels = {f"print.aged.{key}": word for key, word in words.items()}
    today = replace(small, date=JUNE.isoformat(), labels={**small.labels, **labels})
    now = changed(today, "Poppy weighs 431 lb")
    options = Options(as_of=lambda _day: then)
    assert write(now, tmp_path / "build", farm, options, silent).remarks == ()
    assert write(now, tmp_path / "build", farm, Options(), silent).remarks != ()


def test_a_second_hand_over_prints_what_it_changes(
    small: Book, farm: Path, tmp_path: Path
) -> None:
    """Whoever has a binder gets the changed sheets, fixed, in the same run."""
    hand_over(farm, small, "Dana", MAY)
    new = changed(small, "new")
    given = hand_over(farm, new, "Dana", JUNE)
    assert given.changes is not None
    options = Options(changes=(given.changes,))
    result, told = print_binder(new, tmp_path, farm, options, silent)
    assert [path.name for path in result.files] == ["binder.pdf", "changes-Dana-2026-06-01.pdf"]
    assert [each.drafts for each in told] == [False]


def test_the_pack_of_a_hand_over_stays_until_the_next(
    small: Book, farm: Path, tmp_path: Path
) -> None:
    """A build leaves it where it is: the sheets in it may not be in their binder yet."""
    to = tmp_path / "build"
    hand_over(farm, small, "Dana", MAY)
    given = hand_over(farm, changed(small, "new"), "Dana", JUNE)
    assert given.changes is not None
    write(changed(small, "new"), to, farm, Options(changes=(given.changes,)), silent)
    pack = to / "print" / "changes-Dana-2026-06-01.pdf"
    was = pack.read_bytes()
    write(changed(small, "newer"), to, farm, Options(), silent)
    assert pack.read_bytes() == was
    assert (to / "print" / "changes-Dana.pdf").is_file(), "what is new since has its own"
    hand_over(farm, changed(small, "newer"), "Dana", dt.date(2026, 7, 1))
    write(changed(small, "newer"), to, farm, Options(), silent)
    assert not pack.exists()
