"""Step 5 on paper: pages drawn as sheets, in parallel, kept, and joined into the binder.

Each sheet is drawn on its own, so that an untouched one is the very sheet that was handed over.
Only `render` knows weasyprint; it runs in processes of its own.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from importlib.metadata import version
from typing import TYPE_CHECKING

from binder.cache import Cache, default_folder, key_of
from binder.letters import PDF_FILES, wants_spare
from binder.output.handed.change_page import change_page
from binder.output.handed.changes import Changes
from binder.output.handed.given import for_edition
from binder.output.paper.join import Numbered, Piece, join
from binder.output.paper.paper_style import spare_letters, stylesheet
from binder.output.paper.sheet import CARDS, PrintSheet, Setting, SheetAge, check_labels, sheet
from binder.output.paper.sheet_list import LIST, Line, list_page, place_of_list, usual_pages
from binder.output.paper.workers import PrintJob, Workers
from binder.problems import Place, Problem, ProblemsError
from binder.writing import write_inside

if TYPE_CHECKING:
    from pathlib import Path

    from binder.pages.page import Book, Page, Paper

Progress = Callable[[str, int, int], None]
WORKERS = 2  # our choice: more gain little below a hundred sheets
POCKET = "pocket"  # kind of page: folded, so its pages are not counted
NONE_STAY: Mapping[str, SheetAge] = {}
_TURNS = 6  # of drawing the list of sheets until it fits its own length
_LAYOUT = "4"  # counts up when this module puts other things on a sheet than before


def silent(_step: str, _done: int, _of: int) -> None:
    """Show no progress."""


@dataclass(frozen=True, slots=True)
class PrintOptions:
    """How to print: for whom, how large, on one side or two, and with what help.

    Attributes:
        edition: sitter, helper, owner or vet; empty for every sheet.
        setting: type size and sides.
        workers: processes; 0 for as many as there are processors, at most `WORKERS`.
        cache: where drawn sheets are kept; None for the system's place.
        only: as for `for_edition`.
    """

    edition: str = ""
    setting: Setting = field(default_factory=Setting)
    workers: int = 0
    cache: Cache | None = None
    only: str = ""


@dataclass(frozen=True, slots=True)
class PrintResult:
    """What was written.

    Attributes:
        file: the ring binder.
        pages: its pages.
        lines: its sheets with their pages, as in the list of sheets.
        files: every file written.
        others: those besides the binder and the change sets, each with its pages.
        drawn: how many sheets were drawn anew; the others came from the cache.
    """

    file: Path
    pages: int
    lines: tuple[Line, ...]
    files: tuple[Path, ...]
    drawn: int
    others: tuple[tuple[Path, int], ...] = ()


def render_book(
    book: Book,
    to: Path,
    progress: Progress = silent,
    options: PrintOptions | None = None,
    marks: Mapping[str, SheetAge] | None = None,
    changes: Sequence[Changes] = (),
) -> PrintResult:
    """Write `binder.pdf` into the folder `to`, with it `cards.pdf`, papers, `changes-NAME.pdf`.

    Args:
        book: what to print.
        to: an existing folder.
        progress: told the step's word, sheets done, sheets in all.
        options: for whom and how; every sheet, 12 pt, one side by default.
        marks: slug -> revision of the sheet; sheets without one show the book's date only.
        changes: what to change in the binders that are out, a file each.

    Raises:
        ProblemsError: sheets that cannot be printed as they are, all of them together.
    """
    options = options or PrintOptions()
    pages = for_edition(book.pages, options.edition, options.only)
    cards = [page for page in pages if page.kind in CARDS]
    ring = [page for page in pages if page.kind not in CARDS]
    with Workers(options.workers or min(WORKERS, os.cpu_count() or 1)) as workers:
        printer = _Printer(book, options, marks or {}, progress, workers)
        printer.draw([*ring, *cards])
        files = [write_inside(to, each.file_name, printer.changed(each)) for each in changes]
        papers = _papers(book.papers, options, workers)
        joined, lines = printer.bind(ring)
        if cards:
            title = f"{book.name}: {book.labels['print.cards']}"
            papers.insert(0, ("cards.pdf", printer.join(cards, title)))
    others = tuple((write_inside(to, name, each.pdf), each.pages) for name, each in papers)
    file = write_inside(to, "binder.pdf", joined.pdf)
    printer.cache.trim()
    written = (file, *(path for path, _ in others), *files)
    return PrintResult(file, joined.pages, lines, written, printer.drawn, others)


def render_papers(
    papers: Sequence[Paper], options: PrintOptions
) -> dict[str, tuple[bytes, int]]:
    """Return each short book drawn: name of its file -> the file, and its pages.

    Raises:
        ProblemsError: sheets that cannot be printed as they are.
    """
    with Workers(options.workers or min(WORKERS, os.cpu_count() or 1)) as workers:
        drawn = _papers(papers, options, workers)
    return {name: (each.pdf, each.pages) for name, each in drawn}


def _papers(
    papers: Sequence[Paper], options: PrintOptions, workers: Workers
) -> list[tuple[str, _Drawing]]:
    """Draw short books, all their sheets in their own order and without a list."""
    drawn = []
    for paper in papers:
        printer = _Printer(paper.book, options, {}, silent, workers)
        printer.draw(paper.book.pages)
        numbered = paper.book.pages[0].kind != POCKET
        file = printer.join(paper.book.pages, paper.title, numbered=numbered)
        drawn.append((f"{paper.stem}.pdf", file))
    return drawn


def render_loose(book: Book, options: PrintOptions | None = None) -> tuple[bytes, int]:
    """Return a few sheets in one file, without a list of sheets, and its pages.

    Raises:
        ProblemsError: sheets that cannot be printed as they are, all of them together.
    """
    with Workers(1) as workers:
        printer = _Printer(book, options or PrintOptions(), {}, silent, workers)
        printer.draw(book.pages)
    joined = printer.join(book.pages, f"{book.name} · {book.date}")
    return joined.pdf, joined.pages


class _Printer:
    """Draws the sheets of one book and joins them; remembers what it has drawn."""

    def __init__(
        self,
        book: Book,
        options: PrintOptions,
        marks: Mapping[str, SheetAge],
        progress: Progress,
        workers: Workers,
    ) -> None:
        check_labels(book.labels)
        self.book = book
        self.options = options
        self.marks = marks
        self.progress = progress
        self.workers = workers
        self.cache = options.cache or Cache(default_folder())
        self.css = stylesheet(book.paper)
        self.pages: dict[str, _Drawing] = {}
        self.drawn = 0

    def draw(self, pages: Sequence[Page]) -> None:
        """Draw the sheets that are not in the cache, the others come from there.

        Raises:
            ProblemsError: what is wrong with any of them.
        """
        sheets = {page.slug: self._sheet(page) for page in pages}
        keys = {slug: self._key(each) for slug, each in sheets.items()}
        missing = []
        for slug, key in keys.items():
            kept = self.cache.get(key)
            if kept is None:
                missing.append(slug)
            else:
                self.pages[slug] = _Drawing.from_bytes(key, kept)
        done = len(sheets) - len(missing)
        word = self.book.labels["print.step"]
        self.progress(word, done, len(sheets))
        problems: list[Problem] = []
        jobs = {
            s: PrintJob(s, sheets[s].html, self._css(sheets[s]), sheets[s].pictures)
            for s in missing
        }
        for slug, drawn in self.workers.draw(jobs):
            done += 1
            self.progress(word, done, len(sheets))
            place = Place(f"{sheets[slug].sheet} {sheets[slug].title}".strip())
            problems += [Problem(place, "", fault) for fault in drawn.faults]
            if not drawn.faults:
                drawing = _Drawing(keys[slug], drawn.pages, drawn.pdf)
                self.pages[slug] = drawing
                self.cache.put(drawing.key, drawing.to_bytes())
        if problems:
            raise ProblemsError(problems)
        self.drawn += len(missing)

    def bind(self, ring: Sequence[Page]) -> tuple[_Drawing, tuple[Line, ...]]:
        """Return the ring binder with its list of sheets, which is drawn last."""
        pages, lines = self._listed(ring)
        self.workers.dismiss()
        title = f"{self.book.name} · {self.book.date}"
        return self.join(pages, title, numbered=True), lines

    def changed(self, changes: Changes) -> bytes:
        """Return a change set: what to do, the new list of sheets, new sheets, new cards."""
        given = for_edition(self.book.pages, changes.edition, changes.only)
        ring = [page for page in given if page.kind not in CARDS]
        first = change_page(changes, self.book)
        self.draw([first])
        pages = [first]
        if not changes.whole:
            wanted = {line.slug for line in changes.sheets if line.put}
            cards = [page for page in given if page.kind in CARDS and page.slug in wanted]
            self.draw([page for page in (*ring, *cards) if page.slug not in self.pages])
            listed, _ = self._listed(ring, changes.stay)
            new = [page for page in listed if page.slug in wanted]
            pages += [*(page for page in listed if page.kind == LIST), *new, *cards]
        return self.join(pages, f"{first.title} · {self.book.date}").pdf

    def _listed(
        self, ring: Sequence[Page], stay: Mapping[str, SheetAge] = NONE_STAY
    ) -> tuple[list[Page], tuple[Line, ...]]:
        """Return the sheets with their list among them; its own length moves what follows.

        `stay` are the papers of one binder that are older than those printed today.
        """
        at, given = place_of_list(ring)
        rest = [page for page in ring if page is not given]
        guess, turn = usual_pages(len(ring)), 0
        while True:
            lines = tuple(
                replace(line, mark=stay.get(line.slug, line.mark))
                for line in self._lines(rest, at, guess)
            )
            page = list_page(lines, self.book, at, given)
            self.draw([page])
            sides, turn = self._sides(page.slug), turn + 1
            # A list that its own count makes longer and shorter in turn never settles.
            if sides == guess or turn == _TURNS:
                return [*rest[:at], page, *rest[at:]], lines
            guess = sides

    def join(self, pages: Sequence[Page], title: str, *, numbered: bool = False) -> _Drawing:
        """Return one file of drawn sheets, from the cache where the same was joined before."""
        sides = Numbered.TWO_SIDED if self.options.setting.two_sided else Numbered.ONE_SIDED
        count = sides if numbered else Numbered.NO
        tabs = {tab.letter: f"{tab.letter}  {tab.name}" for tab in self.book.tabs}
        pieces = [
            Piece(
                page.slug,
                page.sheet,
                page.title,
                tabs.get(page.tab, ""),
                self.pages[page.slug].pdf,
                blank_after=self._sides(page.slug) > self.pages[page.slug].pages,
            )
            for page in pages
        ]
        about = (title, self.book.language, self.book.date)
        said = [
            part for each in pieces for part in (each.slug, each.label, each.title, each.group)
        ]
        drawn = [f"{self.pages[each.slug].key} {each.blank_after}" for each in pieces]
        key = key_of("join", _LAYOUT, version("pikepdf"), count.name, *about, *said, *drawn)
        kept = self.cache.get(key)
        if kept is not None:
            return _Drawing.from_bytes(key, kept)
        joined = join(
            pieces,
            title=title,
            language=self.book.language,
            date=self.book.date,
            fonts={name: file.read_bytes() for name, file in PDF_FILES.items()},
            numbered=count,
        )
        file = _Drawing(key, joined.pages, joined.pdf)
        self.cache.put(key, file.to_bytes())
        return file

    def _sheet(self, page: Page) -> PrintSheet:
        mark = self.marks.get(page.slug, SheetAge(date=self.book.date))
        return sheet(page, self.book, mark, self.options.setting)

    def _key(self, each: PrintSheet) -> str:
        pictures = [part for pair in sorted(each.pictures.items()) for part in pair]
        return key_of(_LAYOUT, _engine(), each.slug, self._css(each), each.html, *pictures)

    def _css(self, each: PrintSheet) -> str:
        """Return the style of a sheet; few need the spare letters, which take time to load."""
        return spare_letters() + self.css if wants_spare(each.html) else self.css

    def _lines(self, pages: Sequence[Page], at: int, list_pages: int) -> tuple[Line, ...]:
        lines, start = [], 1
        for index, page in enumerate(pages):
            start += list_pages if index == at else 0
            mark = self.marks.get(page.slug, SheetAge(date=self.book.date))
            count = self.pages[page.slug].pages
            lines.append(Line(page.slug, page.sheet, page.title, page.tab, mark, count, start))
            start += self._sides(page.slug)
        return tuple(lines)

    def _sides(self, slug: str) -> int:
        """Return how many pages of the file a sheet takes: whole leaves on two sides."""
        pages = self.pages[slug].pages
        return pages + pages % 2 if self.options.setting.two_sided else pages


@dataclass(frozen=True, slots=True)
class _Drawing:
    """A drawn sheet, or a file of many, under the name by which the cache knows it."""

    key: str
    pages: int
    pdf: bytes

    def to_bytes(self) -> bytes:
        return f"{self.pages}\n".encode() + self.pdf

    @classmethod
    def from_bytes(cls, key: str, raw: bytes) -> _Drawing:
        pages, _, pdf = raw.partition(b"\n")
        return cls(key, int(pages), pdf)


@lru_cache(maxsize=1)
def _engine() -> str:
    """Return what besides the sheet decides its look: the library and the letters' shapes."""
    parts = ("weasyprint", "pydyf", "fontpkg-atkinson-hyperlegible", "fontpkg-fira-sans")
    return key_of(*(version(part) for part in parts))
