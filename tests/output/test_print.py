"""The printed binder as a reader's software sees it: text, bookmarks, links, labels, fonts."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pikepdf
import pypdfium2 as pdfium
import pytest
from PIL import Image

from binder.cache import Cache
from binder.output.paper.sheet import LABELS, Setting, SheetAge
from binder.output.print import PrintOptions, render_book
from binder.pages.page import Page
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from pathlib import Path

    from binder.pages.page import Book
    from tests.output.conftest import MakeBook, Printed

MM_PER_POINT = 25.4 / 72  # a PDF's unit is 1/72 in: ISO 32000-1, 8.3.2.3


def texts(path: Path) -> list[str]:
    """Return the text of each page."""
    with pdfium.PdfDocument(path) as document:
        return [page.get_textpage().get_text_bounded() for page in document]


def one_sheet(book: Book, body: str, **more: str) -> Book:
    """Return a book of a single sheet."""
    page = Page("only", "E1", "E", "Only", body, **more)  # type: ignore[arg-type]
    return replace(book, pages=(page,))


def test_each_sheet_starts_where_the_list_says(printed: Printed) -> None:
    """The page that the list of sheets names holds the sheet's title."""
    pages = texts(printed.result.file)
    for line in printed.result.lines:
        title = "Sallow Branch Farm" if line.slug == "cover" else line.title
        assert title in pages[line.start - 1], line


def test_list_of_sheets_names_every_sheet(printed: Printed) -> None:
    """The list holds the id of every sheet but its own, and the page it begins on."""
    listed = next(text for text in texts(printed.result.file) if "List of sheets" in text)
    for line in printed.result.lines:
        assert line.sheet in listed
    assert [line.start for line in printed.result.lines][:4] == [1, 2, 3, 5]


def test_foot_says_whom_to_call_on_every_page(printed: Printed) -> None:
    """Trouble, the 911 address, the sheet and its pages stand on all pages."""
    for text in texts(printed.result.file):
        assert "Trouble? Owner 555-0104 · Vet 555-0117, nights 555-0119" in text
        assert "911 address: 2260 Sallow Branch Road, blue gate" in text
        assert "page 1 of 1" in text


def test_foot_counts_the_pages_of_its_own_sheet(
    book: Book, cache: Cache, tmp_path: Path
) -> None:
    """A sheet of two pages says 1 of 2 and 2 of 2, and the next begins at 1 again."""
    long = "<p>line</p>" * 60
    result = render_book(one_sheet(book, long), tmp_path, options=PrintOptions(cache=cache))
    feet = [re.findall(r"page (\d of \d)", text) for text in texts(result.file)]
    assert feet == [["1 of 2"], ["2 of 2"], ["1 of 1"]]


def test_revision_and_draft_stand_in_the_foot(book: Book, cache: Cache, tmp_path: Path) -> None:
    """A fixed sheet shows its number and day; a changed one says that it is a draft."""
    marks = {
        "pen-creek": SheetAge(3, "2026-05-02"),
        "pen-woods": SheetAge(2, "2026-06-01", draft=True),
        "water": SheetAge(0, "2026-06-01", draft=True),
    }
    wanted = tuple(page for page in book.pages if page.slug in marks)
    small = replace(book, pages=wanted)
    result = render_book(small, tmp_path, options=PrintOptions(cache=cache), marks=marks)
    creek, woods, listed, water = texts(result.file)
    assert "P1 · revision 3 · 2026-05-02 · page 1 of 1" in creek
    assert "P2 · draft after revision 2 · 2026-06-01" in woods
    assert "W1 · draft, never handed over" in water
    assert "2*" in listed


def test_bookmarks_lead_to_tabs_and_sheets(printed: Printed) -> None:
    """Each tab is a bookmark with its sheets below it, and each opens its sheet's page."""
    starts = {line.sheet: line.start for line in printed.result.lines}
    with pdfium.PdfDocument(printed.result.file) as document:
        marks = [
            (mark.level, mark.get_title(), mark.get_dest().get_index() + 1)
            for mark in document.get_toc(max_depth=3)
        ]
    assert (0, "E  Emergencies", starts["E1"]) in marks
    assert (1, "E1  A pig is in heat trouble", starts["E1"]) in marks
    assert (1, "E2  Bleach went wrong", starts["E2"]) in marks
    assert sum(level == 1 for level, _, _ in marks) == len(printed.result.lines) + 1


def test_links_between_sheets_jump_within_the_file(printed: Printed) -> None:
    """No link of ours is left as an address; `B1` on sheet E1 opens sheet B1."""
    starts = {line.sheet: line.start for line in printed.result.lines}
    with pikepdf.open(printed.result.file) as file:
        numbers = {page.obj.objgen: at for at, page in enumerate(file.pages, start=1)}
        links = [
            (at, str(link.Contents), numbers[link.Dest[0].objgen])
            for at, page in enumerate(file.pages, start=1)
            for link in page.obj.get("/Annots", [])
        ]
    assert (starts["E1"], "B1 Who is due, and when", starts["B1"]) in links
    assert (starts["A2"], "P2 Woods", starts["P2"]) in links
    # Each number jumps to its working: one on E1, two on each pen, one on W1; so does the list.
    assert sum(name == "N1 How each number was worked out" for _, name, _ in links) == 7


def test_number_without_working_is_plain_text(printed: Printed) -> None:
    """A number whose working stands in no sheet of the file has no link; the others have."""
    creek = next(line.start for line in printed.result.lines if line.slug == "pen-creek")
    with pikepdf.open(printed.result.file) as file:
        links = [str(link.Contents) for link in file.pages[creek - 1].obj.Annots]
    assert links.count("N1 How each number was worked out") == 2


def test_readers_show_the_sheet_as_page_number(printed: Printed) -> None:
    """A page's label is the id of its sheet (ISO 32000-1, 12.4.2)."""
    with pikepdf.open(printed.result.file) as file:
        labels = [page.label for page in file.pages]
    assert [labels[line.start - 1] for line in printed.result.lines] == [
        line.sheet for line in printed.result.lines
    ]


def test_only_the_binders_own_fonts_are_embedded(printed: Printed) -> None:
    """Every font is Atkinson Hyperlegible and its file is inside."""
    for path in printed.result.files:
        with pikepdf.open(path) as file:
            fonts = [each for each in file.objects if is_font(each)]
            assert fonts
            for font in fonts:
                assert "Atkinson-Hyperlegible" in str(font.FontName)
                assert "/FontFile2" in font
            assert len({font.FontFile2.objgen for font in fonts}) == 2, "each stored once"


def is_font(thing: object) -> bool:
    """Return whether a PDF object describes a font."""
    return isinstance(thing, pikepdf.Dictionary) and thing.get("/Type") == "/FontDescriptor"


def test_gate_cards_are_a_file_of_their_own(printed: Printed) -> None:
    """Cards are to be laminated: they stand in cards.pdf and nowhere in the ring binder."""
    assert [path.name for path in printed.result.files] == ["binder.pdf", "cards.pdf"]
    assert len(texts(printed.result.files[1])) == 1
    assert all(line.slug != "card-creek" for line in printed.result.lines)


def test_edition_leaves_sheets_out(book: Book, printed: Printed, tmp_path: Path) -> None:
    """The vet's edition has no gate codes; links to them would keep their words."""
    options = PrintOptions(edition="vet", cache=printed.cache)
    result = render_book(book, tmp_path, options=options)
    everything = "\n".join(texts(result.file))
    assert "4471" not in everything
    assert "4471" in "\n".join(texts(printed.result.file))
    assert result.drawn == 1, "only the list of sheets differs"


def test_private_sheets_are_printed(printed: Printed) -> None:
    """Gate codes are for paper."""
    assert any("4471 then the bell sign" in text for text in texts(printed.result.file))


@pytest.mark.parametrize(
    ("paper", "width_mm", "height_mm"),
    [("letter", 215.9, 279.4), ("a4", 210.0, 297.0)],  # ANSI/ASME Y14.1; ISO 216
)
def test_paper_has_its_size(
    book: Book, cache: Cache, tmp_path: Path, paper: str, width_mm: float, height_mm: float
) -> None:
    """Letter and A4 come out to within a tenth of a millimetre."""
    small = replace(one_sheet(book, "<p>x</p>"), paper=paper)
    result = render_book(small, tmp_path, options=PrintOptions(cache=cache))
    with pdfium.PdfDocument(result.file) as document:
        width, height = document[0].get_size()
    assert width * MM_PER_POINT == pytest.approx(width_mm, abs=0.1)
    assert height * MM_PER_POINT == pytest.approx(height_mm, abs=0.1)


@pytest.mark.parametrize(("large", "points"), [(False, 12.0), (True, 18.0)])
def test_body_text_has_its_size(
    book: Book, cache: Cache, tmp_path: Path, points: float, *, large: bool
) -> None:
    """Body text is 12 pt, in large print 18 pt: common practice, no source."""
    options = PrintOptions(setting=Setting(large=large), cache=cache)
    result = render_book(one_sheet(book, "<p>Bodytext</p>"), tmp_path, options=options)
    with pikepdf.open(result.file) as file:
        sizes = {
            float(each.operands[1]) * 0.75  # WeasyPrint draws in CSS pixels, 1/96 in
            for each in pikepdf.parse_content_stream(file.pages[0])
            if str(each.operator) == "Tf"
        }
    assert any(size == pytest.approx(points, abs=0.01) for size in sizes), sizes


def test_two_sided_sheets_start_on_a_front(
    book: Book, printed: Printed, tmp_path: Path
) -> None:
    """On two sides every sheet begins on an odd page, so that it can be replaced alone."""
    options = PrintOptions(setting=Setting(two_sided=True), cache=printed.cache)
    result = render_book(book, tmp_path, options=options)
    assert all(line.start % 2 == 1 for line in result.lines)
    pages = texts(result.file)
    assert len(pages) % 2 == 0
    assert sum(text.strip() == "" for text in pages) == 16


def test_two_sided_gutter_changes_sides(book: Book, cache: Cache, tmp_path: Path) -> None:
    """Text keeps the wide margin on the side of the holes: left on fronts, right on backs."""
    options = PrintOptions(setting=Setting(two_sided=True), cache=cache)
    result = render_book(one_sheet(book, "<p>line</p>" * 60), tmp_path, options=options)
    with pdfium.PdfDocument(result.file) as document:
        front, back = (left_edge(document[at]) for at in (0, 1))
    assert front - back == pytest.approx((22 - 17) / MM_PER_POINT, abs=0.5)


def left_edge(page: pdfium.PdfPage) -> float:
    """Return where the word `line` begins [pt]."""
    found = page.get_textpage().search("line").get_next()
    assert found
    return float(page.get_textpage().get_charbox(found[0])[0])


def test_letter_outside_the_print_font_stops_the_build(
    book: Book, cache: Cache, tmp_path: Path
) -> None:
    """A letter that only some machine's font has is named, with its sheet."""
    with pytest.raises(ProblemsError) as caught:
        render_book(
            one_sheet(book, "<p>Go \u5317 there</p>"),
            tmp_path,
            options=PrintOptions(cache=cache),
        )
    assert "E1 Only" in str(caught.value)
    assert "\u5317" in str(caught.value)
    assert not (tmp_path / "binder.pdf").exists()


@pytest.mark.parametrize(
    ("body", "words"),
    [
        ('<img src="https://example.org/x.png" alt="x">', "https://example.org/x.png"),
        ('<img src="file:///etc/hostname" alt="x">', "file:///etc/hostname"),
        ('<img src="picture:none.png" alt="x">', "picture:none.png"),
        ('<p style="colr: red">x</p>', "colr"),
        ('<a href="#nowhere">x</a>', "nowhere"),
    ],
)
def test_what_weasyprint_complains_of_stops_the_build(
    book: Book, cache: Cache, tmp_path: Path, body: str, words: str
) -> None:
    """Nothing outside the book is fetched, no warning passes, all sheets' come together."""
    first = one_sheet(book, body).pages[0]
    second = replace(first, slug="second", sheet="E2", body='<p style="nope: 1">y</p>')
    with pytest.raises(ProblemsError) as caught:
        render_book(
            replace(book, pages=(first, second)), tmp_path, options=PrintOptions(cache=cache)
        )
    assert words in str(caught.value)
    assert "nope" in str(caught.value)


def test_pictures_come_from_the_book(book: Book, cache: Cache, tmp_path: Path) -> None:
    """A picture of the farm's own is printed, and another of the same name is another sheet."""
    page = one_sheet(book, '<img src="picture:gate.png" alt="The blue gate">')
    options = PrintOptions(cache=cache)
    for shade in (0, 255):
        with_picture = replace(page, pictures={"gate.png": png(shade)})
        result = render_book(with_picture, tmp_path, options=options)
        assert result.drawn == 2 if shade == 0 else 1
        with pikepdf.open(result.file) as file:
            assert len(file.pages[0].get_images()) == 1


def png(shade: int) -> bytes:
    """Return a tiny grey picture."""
    made = io.BytesIO()
    Image.new("L", (4, 4), shade).save(made, "PNG")
    return made.getvalue()


def test_two_builds_give_the_same_bytes(book: Book, printed: Printed, tmp_path: Path) -> None:
    """Nothing of the clock, the order of processes or the cache gets into the file."""
    options = PrintOptions(cache=Cache(tmp_path / "fresh"), workers=1)
    again = render_book(book, tmp_path, options=options)
    assert again.drawn > 0
    for first, second in zip(printed.result.files, again.files, strict=True):
        assert first.read_bytes() == second.read_bytes()


def test_unchanged_sheets_are_not_drawn_again(
    book: Book, made: MakeBook, printed: Printed, tmp_path: Path
) -> None:
    """A second build draws nothing; one changed word draws that sheet."""
    options = PrintOptions(cache=printed.cache)
    assert render_book(book, tmp_path, options=options).drawn == 0
    creek = next(page.body for page in book.pages if page.slug == "pen-creek")
    changed = made({"pen-creek": creek.replace("420 lb", "421 lb")})
    assert render_book(changed, tmp_path, options=options).drawn == 1


def test_file_says_what_it_is(printed: Printed) -> None:
    """Title, language and the day it was made for; the title is what readers show."""
    with pikepdf.open(printed.result.file) as file:
        assert str(file.docinfo["/Title"]) == "Sallow Branch Farm · 2026-06-01"
        assert str(file.docinfo["/CreationDate"]).startswith("D:20260601")
        assert str(file.Root.Lang) == "en"
        assert bool(file.Root.ViewerPreferences.DisplayDocTitle)


def test_missing_words_are_named(book: Book, tmp_path: Path) -> None:
    """A label that the words lack stops the build with its name."""
    labels = {name: "x" for name in LABELS if name != "print.place"}
    with pytest.raises(ProblemsError, match=r"print\.place"):
        render_book(replace(book, labels=labels), tmp_path)


def test_progress_reaches_the_end(book: Book, printed: Printed, tmp_path: Path) -> None:
    """Progress ends at all sheets of all sheets."""
    told: list[tuple[str, int, int]] = []
    options = PrintOptions(cache=printed.cache)
    render_book(book, tmp_path, lambda *step: told.append(step), options)
    assert ("Printing sheets", 16, 16) in told
