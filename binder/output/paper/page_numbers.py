"""The number of each page of a joined file, in a box in the foot beside the sheet's id.

It is put on when sheets are joined, so that a drawn sheet stays as it is when it moves. It is
no part of what is read aloud: an artifact (ISO 32000-1, 14.8.2.2).
"""

from __future__ import annotations

from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name

from binder.letters import digit_shapes

_NAME = "/FileNumber"
_SIZE = 9.0  # [pt], as the foot
_PAD, _LINE = 2.5, 0.7  # round the digits; of the box
_MM = 72 / 25.4
_OUTER_MM = 17.0  # the outer margin, as in print.css
_GAP = 4.0  # from the text's edge [pt]
_BASE = 21.7  # of the foot's second line, above the paper's edge [pt]
_UNITS = 1000  # of a letter's width in a PDF (ISO 32000-1, 9.2.4)


def number_pages(out: pikepdf.Pdf, letters: Any, *, two_sided: bool) -> None:
    """Stamp every page with its number, counted from 1, but for the empty backs of leaves.

    Args:
        out: the joined file.
        letters: the stream of the whole bold font in it.
        two_sided: even pages have the outer margin on the left.
    """
    font = out.make_indirect(_font(letters))
    for number, page in enumerate(out.pages, 1):
        if "/StructParents" not in page.obj:
            continue
        wide = _width(str(number))
        right_edge = float(page.mediabox[2]) - _OUTER_MM * _MM
        left = two_sided and number % 2 == 0
        x = _OUTER_MM * _MM - _GAP - _PAD - wide if left else right_edge + _GAP + _PAD
        page.obj.Resources.Font[_NAME] = font
        page.contents_add(b"q\n", prepend=True)
        page.contents_add(_stamp(str(number), x, wide))


def _stamp(text: str, x: float, wide: float) -> bytes:
    box = f"{x - _PAD:.2f} {_BASE - _PAD:.2f} {wide + 2 * _PAD:.2f} {_SIZE + 1:.2f} re S"
    return (
        "\nQ\n/Artifact <</Type /Pagination /Subtype /Footer>> BDC\n"
        f"q 0 g 0 G {_LINE} w {box}\n"
        f"BT {_NAME} {_SIZE:g} Tf {x:.2f} {_BASE:.2f} Td ({text}) Tj ET Q\nEMC\n"
    ).encode()


def _width(text: str) -> float:
    """Return how wide digits are in print [pt]."""
    widths = digit_shapes().widths
    return sum(widths[int(digit)] for digit in text) / _UNITS * _SIZE


def _font(letters: Any) -> Dictionary:
    """Return the bold font for digits alone (ISO 32000-1, 9.6.3 and 9.8)."""
    shapes = digit_shapes()
    return Dictionary(
        Type=Name.Font,
        Subtype=Name.TrueType,
        BaseFont=Name("/" + shapes.name),
        FirstChar=ord("0"),
        LastChar=ord("9"),
        Widths=Array(list(shapes.widths)),
        Encoding=Name.WinAnsiEncoding,
        FontDescriptor=Dictionary(
            Type=Name.FontDescriptor,
            FontName=Name("/" + shapes.name),
            Flags=32,  # letters of the Latin alphabet (table 123)
            FontBBox=Array(list(shapes.box)),
            ItalicAngle=0,
            Ascent=shapes.box[3],
            Descent=shapes.box[1],
            CapHeight=shapes.cap_height,
            StemV=shapes.stem,
            FontFile2=letters,
        ),
    )
