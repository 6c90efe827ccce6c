"""What a reader sees of a laid-out sheet's tables: lines in each cell, and where they end."""

from __future__ import annotations

import itertools
import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from binder.output.paper.paper_style import stylesheet
from binder.output.paper.render import layout
from binder.output.paper.sheet import SheetAge, sheet
from binder.output.print import PrintOptions

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.pages.page import Book, Page

FEW = 6  # words of a cell: with fewer a narrow column does no harm; our choice
WORDS_A_LINE = 1.7  # our choice: a column of one word a line cannot be read
_BROKEN = re.compile(r"\d-$")


@dataclass
class Cell:
    """The lines of a cell; of running text where it has no box."""

    right: float
    lines: list[tuple[str, float]] = field(default_factory=list)


def complaints(page: Page, book: Book) -> list[str]:
    """Return what cannot be read on a sheet as it is printed: `kind: words`."""
    printed = sheet(page, book, SheetAge(date=book.date), PrintOptions().setting)
    document = layout(printed.html, stylesheet(book.paper), printed.pictures)
    found = []
    for paper in document.pages:
        box = paper._page_box
        edge = box.content_box_x() + box.width
        parts = [part for part in box.children if type(part).__name__ != "MarginBox"]
        for cell in (cell for part in parts for cell in cells(part, Cell(edge))):
            found += [f"{kind}: {cell.lines[0][0]}" for kind in faults(cell, edge)]
    return found


def faults(cell: Cell, edge: float) -> Iterator[str]:
    """Yield the kinds of fault of a cell: past the edge, past its column, narrow, broken."""
    texts = [text for text, _ in cell.lines if text]
    words = sum(len(text.split()) for text in texts)
    if any(end > edge + 1 for _, end in cell.lines):
        yield "past the page's edge"
    if any(end > cell.right + 1 for _, end in cell.lines):
        yield "past its column"
    if cell.right != edge and words >= FEW and words / len(texts) < WORDS_A_LINE:
        yield f"{words} words in {len(texts)} lines"
    for before, after in itertools.pairwise(texts):
        if _BROKEN.search(before) and after[:1].isdigit():
            yield "a broken number"


def cells(box: Any, cell: Cell) -> Iterator[Cell]:
    """Yield the cells below a box, and the running text as one."""
    own = cell
    if type(box).__name__ == "TableCellBox":
        own = Cell(box.position_x + box.margin_width())
    for child in getattr(box, "children", ()):
        if type(child).__name__ == "LineBox":
            ends = [part.position_x + part.margin_width() for part in child.children]
            own.lines.append((said(child).strip(), max(ends, default=0.0)))
        else:
            yield from cells(child, own)
    whole = own is not cell or box.element_tag == "html"
    if whole and own.lines:
        yield own


def said(box: Any) -> str:
    """Return the text of a box."""
    text: str | None = getattr(box, "text", None)
    return text if text is not None else "".join(map(said, getattr(box, "children", ())))
