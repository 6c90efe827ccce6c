"""Handing over and changing sheets: each sheet's revision, what to pull, what to put in."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pikepdf
import pypdfium2 as pdfium
import pytest

from binder.output.handed import ledger_file
from binder.output.handed.change_page import change_page
from binder.output.handed.changes import Changes, all_changes, changes, marks
from binder.output.handed.fingerprint import fingerprints
from binder.output.handed.given import given_sheets
from binder.output.handed.hand_over import hand_over, take_back, undone_if_it_fails
from binder.output.paper.sheet import SheetAge
from binder.output.print import PrintOptions, render_book
from binder.pages.page import Foot
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from pathlib import Path

    from binder.cache import Cache
    from binder.pages.page import Book
    from tests.output.conftest import MakeBook

# Sheets that only take time where the whole binder is not the question.
SLOW = (
    "cover",
    "start-here",
    "hand-over-sheet",
    "pig-in-heat-trouble",
    "bleach-accident",
    "pig-chart",
    "hot-day",
    "round-log",
)
MAY, JUNE, JULY = dt.date(2026, 5, 1), dt.date(2026, 6, 1), dt.date(2026, 7, 1)


def body(book: Book, slug: str) -> str:
    """Return the body of one sheet."""
    return next(page.body for page in book.pages if page.slug == slug)


def heavier_sow(book: Book) -> Book:
    """Return the book after a sow put on weight: it shows on her pen's sheet alone."""
    pages = tuple(
        replace(page, body=page.body.replace("420 lb", "431 lb"))
        if page.slug == "pen-creek"
        else page
        for page in book.pages
    )
    return replace(book, pages=pages)


@pytest.fixture
def heavier(book: Book) -> Book:
    """Return the invented binder after a sow put on weight."""
    return heavier_sow(book)


def pulled_and_put(found: Changes | None) -> list[tuple[str, int, str, int, bool]]:
    """Return the lines of a change set, short."""
    assert found is not None
    return [
        (line.pulled, line.pulled_revision, line.put, line.mark.revision, line.mark.draft)
        for line in found.lines
    ]


def test_first_hand_over_fixes_revision_one(tmp_path: Path, book: Book) -> None:
    """Every sheet of the edition gets revision 1 of that day; the owner's own stay out."""
    given = hand_over(tmp_path, book, "Dana", MAY, "vet")
    assert given.changes is None
    now = marks(ledger_file.load(tmp_path), book)
    assert now["pen-creek"] == SheetAge(1, "2026-05-01")
    assert now["gate-codes"] == SheetAge(0, "2026-06-01", draft=True)
    assert set(given.hand_over.sheets) == {page.slug for page in given_sheets(book, "vet")}
    assert given.hand_over.sheets["card-creek"] == 1, "it hangs at the gate, and grows old too"


def test_before_any_hand_over_sheets_have_no_age(tmp_path: Path, book: Book) -> None:
    """Without a ledger nothing is called a draft."""
    assert marks(ledger_file.load(tmp_path), book) == {}


def test_changed_sheet_is_a_draft_until_the_next_hand_over(
    tmp_path: Path, book: Book, heavier: Book
) -> None:
    """A changed sheet is a draft of today; handing it over makes it revision 2."""
    hand_over(tmp_path, book, "Dana", MAY)
    before = ledger_file.load(tmp_path)
    assert marks(before, heavier)["pen-creek"] == SheetAge(1, "2026-06-01", draft=True)
    assert pulled_and_put(changes(before, heavier, "Dana")) == [("P1", 1, "P1", 1, True)]
    given = hand_over(tmp_path, heavier, "Dana", JUNE)
    assert pulled_and_put(given.changes) == [("P1", 1, "P1", 2, False)]
    now = marks(ledger_file.load(tmp_path), heavier)
    assert now["pen-creek"] == SheetAge(2, "2026-06-01")
    assert now["pen-woods"] == SheetAge(1, "2026-05-01"), (
        "an untouched sheet keeps its revision"
    )
    assert changes(ledger_file.load(tmp_path), heavier, "Dana") is not None
    assert all_changes(ledger_file.load(tmp_path), heavier) == ()


def test_several_binders_with_different_days_are_out(
    tmp_path: Path, book: Book, heavier: Book, made: MakeBook
) -> None:
    """Each binder is compared with what its own owner was given."""
    hand_over(tmp_path, book, "Dana", MAY)
    hand_over(tmp_path, heavier, "Bo", JUNE)
    third = made(
        {
            "pen-creek": body(heavier, "pen-creek"),
            "water": body(book, "water").replace("140&nbsp;gal", "150&nbsp;gal"),
        }
    )
    ledger = ledger_file.load(tmp_path)
    dana, bo = all_changes(ledger, third)
    assert (dana.name, dana.since, bo.name, bo.since) == (
        "Dana",
        "2026-05-01",
        "Bo",
        "2026-06-01",
    )
    assert pulled_and_put(dana) == [("P1", 1, "P1", 2, False), ("W1", 1, "W1", 1, True)]
    assert pulled_and_put(bo) == [("W1", 1, "W1", 1, True)]
    take_back(tmp_path, "Dana", JULY)
    assert [each.name for each in all_changes(ledger_file.load(tmp_path), third)] == ["Bo"]


def test_sold_and_new_are_pulled_and_put(tmp_path: Path, made: MakeBook) -> None:
    """A sheet that is gone is only pulled, one that is new is only put in."""
    before = made(without=("pen-woods",))
    hand_over(tmp_path, before, "Dana", MAY)
    after = made(without=("due-dates",))
    found = changes(ledger_file.load(tmp_path), after, "Dana")
    assert pulled_and_put(found) == [("", 0, "P2", 0, True), ("B1", 1, "", 0, False)]


def test_a_sheet_with_another_id_is_another_sheet_of_paper(tmp_path: Path, book: Book) -> None:
    """Its id stands on the paper, so the old paper is pulled under its old id."""
    hand_over(tmp_path, book, "Dana", MAY)
    pages = tuple(
        replace(page, sheet="P3") if page.slug == "pen-woods" else page for page in book.pages
    )
    found = changes(ledger_file.load(tmp_path), replace(book, pages=pages), "Dana")
    assert pulled_and_put(found) == [("P2", 1, "P3", 1, True)]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("<h2>Every visit</h2>", '<h2  id="visit" >Every\n visit</h2>'),
        ('href="sheet:bleach-accident"', 'href="sheet:bleach-accident#do"'),
        ("working:water-creek", "working:water-farm"),
        ("</table>", "</table><!-- changed -->"),
        ("<h2>What", '<p class="passing">Made on <b>any</b> day<br></p><h2>What'),
    ],
)
def test_what_shows_on_no_sheet_makes_no_revision(
    tmp_path: Path, book: Book, made: MakeBook, old: str, new: str
) -> None:
    """Spaces, ids, where links lead, comments and passing parts change no revision."""
    hand_over(tmp_path, book, "Dana", MAY)
    creek = body(book, "pen-creek")
    assert old in creek
    changed = made({"pen-creek": creek.replace(old, new)})
    assert all_changes(ledger_file.load(tmp_path), changed) == ()


@pytest.mark.parametrize(
    ("slug", "old", "new"),
    [
        ("pen-creek", "red ear tag 14", "red ear tag 41"),
        ("start-here", 'band b1">1', 'band b2">2'),
        ("start-here", 'class="band b1"', 'class="band b2"'),
        ("hot-day", "450,32", "450,44"),
        ("water", '<div class="caution">', '<div class="caution danger">'),
    ],
)
def test_what_shows_makes_a_revision(
    tmp_path: Path, book: Book, made: MakeBook, slug: str, old: str, new: str
) -> None:
    """Words, patterns, curves and the weight of a caution do."""
    hand_over(tmp_path, book, "Dana", MAY)
    assert old in body(book, slug)
    changed = made({slug: body(book, slug).replace(old, new)})
    (found,) = all_changes(ledger_file.load(tmp_path), changed)
    assert [line.slug for line in found.lines] == [slug]


def test_another_picture_of_the_same_name_makes_a_revision(book: Book) -> None:
    """The picture counts, not its name."""
    page = replace(book.pages[0], body='<img src="picture:gate.png" alt="x">')
    marks_of = [
        fingerprints(replace(book, pages=(page,), pictures={"gate.png": picture}))["cover"]
        for picture in (b"one", b"two")
    ]
    assert marks_of[0] != marks_of[1]


@pytest.mark.parametrize(("count", "whole"), [(9, False), (10, True)])
def test_many_changes_ask_for_a_whole_binder(
    tmp_path: Path, book: Book, made: MakeBook, count: int, *, whole: bool
) -> None:
    """Up to 60 % of the sheets are changed one by one, more are a new binder: our choice."""
    hand_over(tmp_path, book, "Dana", MAY)
    slugs = [page.slug for page in given_sheets(book, "")]
    assert len(slugs) == 16
    changed = made({slug: body(book, slug) + "<p>New.</p>" for slug in slugs[:count]})
    (found,) = all_changes(ledger_file.load(tmp_path), changed)
    assert len(found.lines) == count
    assert found.whole is whole


def test_a_new_foot_asks_for_a_whole_binder(tmp_path: Path, book: Book) -> None:
    """Whom to call stands on every sheet: an old number may not stay in a binder."""
    hand_over(tmp_path, book, "Dana", MAY)
    foot = Foot(book.foot.trouble, book.foot.address, (("Owner", "555-0199"),))
    (found,) = all_changes(ledger_file.load(tmp_path), replace(book, foot=foot))
    assert (found.lines, found.foot, found.whole) == ((), True, True)


def test_the_same_day_again_mends_the_hand_over(
    tmp_path: Path, book: Book, heavier: Book
) -> None:
    """A second hand-over to one name on one day replaces the first; the last day counts."""
    hand_over(tmp_path, book, "Dana", MAY)
    hand_over(tmp_path, heavier, "Dana", JUNE)
    again = hand_over(tmp_path, heavier, "dana", JUNE)
    assert pulled_and_put(again.changes) == [("P1", 1, "P1", 2, False)]
    assert len(ledger_file.load(tmp_path).hand_overs) == 2


@pytest.mark.parametrize("name", ["", "  ", "///"])
def test_a_name_must_be_one(tmp_path: Path, book: Book, name: str) -> None:
    """A name without letters is refused and nothing is written."""
    with pytest.raises(ProblemsError, match="is no name"):
        hand_over(tmp_path, book, name, MAY)
    assert list(tmp_path.iterdir()) == []


def test_names_that_would_share_a_file_are_refused(tmp_path: Path, book: Book) -> None:
    """Two people never overwrite each other's change set."""
    hand_over(tmp_path, book, "Al B", MAY)
    with pytest.raises(ProblemsError, match='too like "Al B"'):
        hand_over(tmp_path, book, "Al-B", MAY)


def printed_texts(path: Path) -> list[str]:
    """Return the text of each page."""
    with pdfium.PdfDocument(path) as document:
        return [page.get_textpage().get_text_bounded() for page in document]


def test_change_set_tells_and_brings_only_what_changed(
    tmp_path: Path, book: Book, made: MakeBook, cache: Cache
) -> None:
    """First page: pull and put; then the new list of sheets; then the new sheets, no others."""
    farm, out = tmp_path / "farm", tmp_path / "out"
    farm.mkdir()
    out.mkdir()
    hand_over(farm, made(without=SLOW), "Dana Quill", MAY, "sitter")
    more = {"water": body(book, "water").replace("140&nbsp;gal", "150&nbsp;gal")}
    after = made(more, without=(*SLOW, "due-dates"))
    ledger = ledger_file.load(farm)
    result = render_book(
        after,
        out,
        options=PrintOptions(cache=cache),
        marks=marks(ledger, after),
        changes=all_changes(ledger, after),
    )
    assert [path.name for path in result.files][-1] == "changes-Dana-Quill.pdf"
    first, listed, water = printed_texts(out / "changes-Dana-Quill.pdf")
    assert "Changes to the binder of Dana Quill" in first
    assert "handed over on 2026-05-01" in first
    assert "W1 revision 1" in first
    assert "W1 draft after revision 1" in first
    assert "B1 revision 1" in first
    assert "drafts" in first
    assert "List of sheets" in listed
    assert "B1" not in listed
    assert "150\xa0gal" in water
    with pikepdf.open(out / "changes-Dana-Quill.pdf") as file:
        assert "/StructTreeRoot" in file.Root


def test_a_card_that_changed_is_taken_down_and_hung_up(
    tmp_path: Path, made: MakeBook, book: Book, cache: Cache
) -> None:
    """When the boar moves next door, the gate's card is named, and the new one printed."""
    farm, out = tmp_path / "farm", tmp_path / "out"
    farm.mkdir()
    out.mkdir()
    hand_over(farm, made(without=SLOW), "Dana", MAY, "sitter")
    card = body(book, "card-creek") + "<p>The boar lives next door.</p>"
    after = made({"card-creek": card}, without=SLOW)
    ledger = ledger_file.load(farm)
    (found,) = all_changes(ledger, after)
    assert pulled_and_put(found) == [("P1", 1, "P1", 1, True)]
    result = render_book(
        after, out, options=PrintOptions(cache=cache), marks=marks(ledger, after),
        changes=(found,),
    )  # fmt: skip
    first, listed, new = printed_texts(result.files[-1])
    assert "Card P1 revision 1" in first
    assert "Card P1 draft after revision 1" in first
    assert "take the old ones down" in " ".join(first.split())
    assert "Card P1" not in listed
    assert "The boar lives next door." in new


def test_a_card_of_an_empty_pen_is_taken_down(tmp_path: Path, made: MakeBook) -> None:
    """The ledger remembers that it was a card, for the sheet of its pen has the same number."""
    hand_over(tmp_path, made(), "Dana", MAY)
    ledger = ledger_file.load(tmp_path)
    after = made(without=("card-creek",))
    (found,) = all_changes(ledger, after)
    assert pulled_and_put(found) == [("P1", 1, "", 0, False)]
    page = change_page(found, after)
    assert "Card P1 revision 1" in page.body


def test_whole_binder_is_said_on_one_page(tmp_path: Path, made: MakeBook, cache: Cache) -> None:
    """When most sheets changed the change set is a page that says: hand over a new one."""
    farm, out = tmp_path / "farm", tmp_path / "out"
    farm.mkdir()
    out.mkdir()
    book = made(without=SLOW)
    hand_over(farm, book, "Dana", MAY)
    changed = {page.slug: page.body + "<p>New.</p>" for page in given_sheets(book, "")}
    after, ledger = made(changed, without=SLOW), ledger_file.load(farm)
    render_book(
        after, out, options=PrintOptions(cache=cache), changes=all_changes(ledger, after)
    )
    (only,) = printed_texts(out / "changes-Dana.pdf")
    assert "Hand over a whole new binder" in only
    assert "8 of its 8 sheets changed" in only


def test_untouched_sheet_is_the_very_one_handed_over(
    tmp_path: Path, made: MakeBook, cache: Cache
) -> None:
    """After a change elsewhere, a month later, an untouched sheet draws byte for byte alike."""
    farm, first, second = (tmp_path / name for name in ("farm", "first", "second"))
    for folder in (farm, first, second):
        folder.mkdir()
    book = made(without=SLOW)
    ledger = hand_over(farm, book, "Dana", MAY).ledger
    old = render_book(book, first, options=PrintOptions(cache=cache), marks=marks(ledger, book))
    later = replace(heavier_sow(book), date="2026-07-01")
    new = render_book(
        later, second, options=PrintOptions(cache=cache), marks=marks(ledger, later)
    )
    assert new.drawn == 2, "the pen's sheet and the list"
    before, after = drawings(old.file), drawings(new.file)
    starts = {line.slug: line.start - 1 for line in new.lines}
    for slug, at in starts.items():
        same = before[at] == after[at]
        assert same is (slug != "pen-creek"), slug


def drawings(path: Path) -> list[bytes]:
    """Return what each page of a file draws."""
    with pikepdf.open(path) as file:
        return [b"".join(part.read_bytes() for part in streams(page)) for page in file.pages]


def streams(page: pikepdf.Page) -> list[pikepdf.Object]:
    """Return the content streams of a page."""
    contents = page.obj.Contents
    return list(contents) if isinstance(contents, pikepdf.Array) else [contents]


@pytest.mark.parametrize("name", ["Dan\x7fa", "Dan\ufffea", "Dan\ud800a"])
def test_a_name_that_cannot_be_printed_is_refused(
    name: str, tmp_path: Path, book: Book
) -> None:
    """Written into the ledger it would keep the farm from ever being built again."""
    with pytest.raises(ProblemsError, match="cannot be printed"):
        hand_over(tmp_path, book, name, dt.date(2026, 6, 1))
    assert not (tmp_path / "ledger.yaml").exists()


def test_a_hand_over_whose_print_fails_never_was(tmp_path: Path, book: Book) -> None:
    """The ledger is as it was before: with the first hand-over, without the second."""
    hand_over(tmp_path, book, "Dana", dt.date(2026, 6, 1))
    before = (tmp_path / "ledger.yaml").read_text(encoding="utf-8")

    def printed_by_nobody() -> None:
        with undone_if_it_fails(tmp_path, "Eli"):
            hand_over(tmp_path, book, "Eli", dt.date(2026, 6, 2))
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        printed_by_nobody()
    assert [each.name for each in ledger_file.load(tmp_path).hand_overs] == ["Dana"]
    assert "Dana" in before


def with_cards(book: Book, whose: dict[str, str]) -> Book:
    """Return a book with a card for each slug, of the stay of the sitter named."""
    (like,) = (page for page in book.pages if page.slug == "water")
    cards = tuple(
        replace(like, slug=slug, sheet=f"R{at}", title=slug, reader=who)
        for at, (slug, who) in enumerate(whose.items(), start=20)
    )
    return replace(book, pages=(*book.pages, *cards))


def test_a_sitter_gets_the_cards_of_their_own_stays(tmp_path: Path, book: Book) -> None:
    """A card that another sitter needs is not theirs to keep up to date."""
    stays = with_cards(book, {"visit-july": "Marisol Quade", "visit-august": "Theo Brannock"})
    hand_over(tmp_path, stays, "marisol quade", MAY, "sitter")
    ledger = ledger_file.load(tmp_path)
    (given,) = ledger.hand_overs
    assert given.only
    assert {"visit-july", "water"} <= set(given.sheets)
    assert "visit-august" not in given.sheets
    assert all_changes(ledger, stays) == ()
    # Her stay is over, another begins: still nothing of it is hers.
    later = with_cards(book, {"visit-august": "Theo Brannock", "visit-fall": "Bo Lark"})
    (told,) = all_changes(ledger, later)
    assert [(line.slug, line.put) for line in told.lines] == [("visit-july", "")]
    again = hand_over(tmp_path, later, "Marisol Quade", JUNE, "sitter")
    assert not {"visit-august", "visit-fall"} & set(again.hand_over.sheets)


@pytest.mark.parametrize(
    ("name", "edition"), [("Dana", "sitter"), ("Marisol Quade", "owner"), ("Barnaby", "helper")]
)
def test_whoever_is_no_sitter_of_a_stay_gets_all_cards(
    tmp_path: Path, book: Book, name: str, edition: str
) -> None:
    """A binder that lies in the barn, an owner, a helper who looks in each stay."""
    stays = with_cards(book, {"visit-july": "Marisol Quade", "visit-august": "Theo Brannock"})
    given = hand_over(tmp_path, stays, name, MAY, edition).hand_over
    assert {"visit-july", "visit-august"} <= set(given.sheets)


@pytest.mark.parametrize("gone", [False, True])
def test_a_started_log_is_kept(tmp_path: Path, book: Book, gone: bool) -> None:  # noqa: FBT001 -- a case
    """A new log, or none any more: the page says to keep what somebody wrote on."""
    hand_over(tmp_path, book, "Dana", MAY)
    pages = [
        replace(page, body=f"<h1>Other</h1>{page.body * 2}")
        if page.slug == "round-log"
        else page
        for page in book.pages
        if not (gone and page.slug == "round-log")
    ]
    after = replace(book, pages=tuple(pages))
    ledger = ledger_file.load(tmp_path)
    (found,) = all_changes(ledger, after)
    (line,) = found.lines
    assert (line.kind, line.pens) == ("log", ())
    said = change_page(found, after).body
    assert book.labels["print.changes.keep-log"].partition("{sheet}")[2].strip() in said
