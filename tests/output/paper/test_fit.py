"""Sheets are brought onto fewer pages by room first, then by type, within limits."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from binder.data import TEMPLATES
from binder.output.paper.fit import STEPS
from binder.output.paper.paper_style import stylesheet
from binder.output.paper.render import draw
from binder.output.paper.workers import PrintJob

if TYPE_CHECKING:
    from collections.abc import Iterator

LEAST_PT, LEAST_LARGE_PT = 9.5, 18.0  # our choice, as the style sheet says
PT = 0.75  # a CSS pixel [pt]: the drawing is scaled by it
ROOT_PT = {"": 12.0, "snug": 12.0, "small": 11.0, "smaller": 10.0, "smallest": 9.5}


def drawn(lines: int, kind: str = "protocol", size: str = "usual") -> pypdfium2.PdfDocument:
    """Return a sheet of so many lines of text, as it is printed."""
    text = "".join(f"<p>Line {number} of the sheet</p>" for number in range(lines))
    html = (
        f'<!doctype html><html lang="en" class="{size} {kind}"><title>t</title>'
        f'<body class="sheet {kind}"><main><h1>A sheet</h1>{text}</main>'
    )
    result = draw(PrintJob("x", html, stylesheet("letter"), {}))
    assert result.faults == ()
    return pypdfium2.PdfDocument(io.BytesIO(result.pdf))


def sizes(document: pypdfium2.PdfDocument) -> Iterator[float]:
    """Yield the size of every letter [pt]."""
    for page in document:
        text = page.get_textpage()
        for at in range(text.count_chars()):
            if chr(pdfium.FPDFText_GetUnicode(text, at)).isalnum():
                yield pdfium.FPDFText_GetFontSize(text, at) * PT


def test_a_line_too_many_is_taken_in_by_space_alone() -> None:
    """The letters stay as large as they were; a short sheet is not touched."""
    short, long = drawn(20), drawn(31)
    assert len(short) == 1
    assert len(long) == 1
    assert max(sizes(long)) == pytest.approx(max(sizes(short)), abs=0.01)


def test_smaller_type_only_where_it_saves_a_page() -> None:
    """A third of a page goes in, in smaller type; two full pages stay as they are."""
    squeezed, whole = drawn(38), drawn(58)
    assert len(squeezed) == 1
    assert min(sizes(squeezed)) >= LEAST_PT
    assert min(sizes(squeezed)) < ROOT_PT[""]
    assert len(whole) == 2
    assert min(sizes(whole)) == pytest.approx(ROOT_PT[""], abs=0.01)


def test_forms_keep_their_room() -> None:
    """Where something is written in, lines stay apart."""
    assert len(drawn(40, kind="log")) == 2


def test_large_print_keeps_its_letters() -> None:
    """Only space may go there."""
    assert min(sizes(drawn(22, size="large"))) >= LEAST_LARGE_PT


@pytest.mark.parametrize("step", STEPS)
def test_no_type_falls_under_the_limit(step: str) -> None:
    """Every size of the scale, in each step of fitting, is 9.5 pt or more."""
    scale = re.findall(r"--(type-[a-z]+): ([\d.]+)rem", (TEMPLATES / "tokens.css").read_text())
    style = (TEMPLATES / "print.css").read_text()
    now = dict(scale)
    for rule in re.findall(rf"html\.{step} {{([^}}]*)}}", style):
        now |= dict(re.findall(r"--(type-[a-z]+): ([\d.]+)rem", rule))
    assert len(now) > 8
    too_small = {
        name: float(size) * ROOT_PT[step]
        for name, size in now.items()
        if float(size) * ROOT_PT[step] < LEAST_PT - 1e-9 and step != "snug"
    }
    assert too_small == {}
