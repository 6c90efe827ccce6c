"""Letters that the print font lacks are told by `check`, where they are typed."""

from __future__ import annotations

import datetime as dt
import io
from typing import TYPE_CHECKING

import pikepdf
import pytest

from binder.build import book_of
from binder.day import shortfalls
from binder.letters import lacking, told_lacking, wants_spare
from binder.output.paper.paper_style import spare_letters, stylesheet
from binder.output.paper.render import draw
from binder.output.paper.workers import PrintJob
from binder.problems import ProblemsError
from tests.test_writing import LEAST, OWN

if TYPE_CHECKING:
    from tests.conftest import FarmFolder

DAY = dt.date(2026, 6, 1)
# Letters of many kinds; whether one prints is asked of the printing library, not of us.
SIGNS = (
    "\u00ad\u200b\u200c\u200d\u2060\ufe0f\ufeff\u00a0\u202f\u2009\u2003\u200e\u3000\u0301\u0323\ufb01"
    "\u0141\u0178\u0149\u2011\u2010\u2013\u2019\u2212\u02bc\u03b1\u0416\u1ea1\u2116\u2153\u00bd\u2192"
    "\u2713\u20ac\u2026\u0111\u01a1\u05d0\u0627\u4e2d\U0001f437\ufffd\u00b0\u00d7\u2022"
)


@pytest.mark.parametrize("sign", SIGNS, ids=lambda sign: f"U+{ord(sign):04X}")
def test_what_is_called_lacking_is_what_print_refuses(sign: str) -> None:
    """Our word on a letter and that of the printing library (weasyprint 70) agree."""
    html = f"<!doctype html><html lang=en><title>t</title><body><p>ab {sign}cd <b>{sign}"
    spare = spare_letters() if wants_spare(html) else ""
    faults = draw(PrintJob("x", html, spare + stylesheet("letter"), {})).faults
    assert bool(lacking(f"ab {sign}cd")) == bool(faults), faults


def test_all_of_latin_1_is_there() -> None:
    """The short way for plain text passes nothing that print refuses."""
    signs = "".join(map(chr, [*range(32, 127), *range(0xA1, 0xAD), *range(0xAE, 0x100)]))
    html = f"<!doctype html><html lang=en><title>t</title><body><p>{signs.replace('<', '')}"
    assert (
        draw(PrintJob("x", html.replace("&", "&amp;"), stylesheet("letter"), {})).faults == ()
    )
    assert lacking(signs) == ()


def test_letters_joined_from_parts_are_looked_at_whole() -> None:
    """An e and an accent are an accented e; a ringed x is in no font of ours."""
    assert lacking("e\u0301") == ()
    assert lacking("x\u20dd\u4e2d\u20dd") == ("\u20dd", "\u4e2d")


def test_many_letters_are_told_in_short() -> None:
    """Eight of them, and how many more."""
    said = told_lacking(lacking("".join(map(chr, range(0x4E2D, 0x4E39)))))
    assert said.startswith("holds letters that the print font lacks: \u4e2d (U+4E2D), ")
    assert "and 4 more" in said


@pytest.mark.parametrize(
    "name",
    [
        "\u0394\u03b9\u03bf\u03bd\u03cd\u03c3\u03b7\u03c2",  # Greek, with a marked vowel
        "\u042e\u043b\u0456\u044f \u0401\u0436",  # Ukrainian and Russian
        "\u0110\u1ed7 Th\u1ecb Nguy\u1ec7t",  # Vietnamese
    ],
)
def test_names_in_common_scripts_are_printed(name: str) -> None:
    """In the spare typeface, on sheets that need it; without it the sheet is refused."""
    assert lacking(name) == ()
    assert wants_spare(name)
    html = f"<!doctype html><html lang=en><title>t</title><body><p>{name} <b>{name}"
    style = stylesheet("letter")
    assert draw(PrintJob("x", html, style, {})).faults
    drawn = draw(PrintJob("x", html, spare_letters() + style, {}))
    assert drawn.faults == ()
    with pikepdf.open(io.BytesIO(drawn.pdf)) as pdf:
        fonts = {str(font.BaseFont) for font in pdf.pages[0].Resources.Font.as_dict().values()}
    assert any("Fira" in font for font in fonts), fonts


HAN = "\u4e2d\u6587"


@pytest.mark.parametrize(
    ("files", "place"),
    [
        (
            {"pens.yaml": f"# ours\n- {{id: creek, name: {HAN}, kind: run}}\n"},
            "pens.yaml:2:",
        ),
        (
            {"pens.yaml": f"- id: creek\n  name: Creek\n  kind: run\n  notes: {HAN}\n"},
            "pens.yaml:4:",
        ),
        ({"protocols/ours.md": f"{OWN}\n{HAN}\n"}, "protocols/ours.md:10:"),
        ({"protocols/ours.md": f"{OWN}\n&#20013;\n"}, "protocols/ours.md:10:"),
        ({"protocols/ours.md": f"{OWN}\n&angmsd;\n"}, "protocols/ours.md:10:"),
        ({"protocols/ours.md": f"{OWN}{{{{ '\\u4e2d' }}}}\n"}, "protocols/ours.md:7:"),
        ({"protocols/ours.md": OWN.replace("Ours", "\U0001f437", 1)}, "protocols/ours.md:2:"),
    ],
)
def test_check_tells_what_build_refuses(
    farm_folder: FarmFolder, files: dict[str, str], place: str
) -> None:
    """One message from each, the same, with file and line."""
    folder = farm_folder(LEAST | files)
    said = []
    for call in (shortfalls, book_of):
        with pytest.raises(ProblemsError, match="that the print font lacks: ") as caught:
            call(folder, DAY)
        said.append([str(each) for each in caught.value.problems])
    assert said[0] == said[1]
    assert len(said[0]) == 1
    assert said[0][0].startswith(place)


def test_a_name_of_a_picture_is_not_printed(farm_folder: FarmFolder) -> None:
    """It may have any letters: only that it is missing is told."""
    folder = farm_folder(
        LEAST | {"pens.yaml": f"- {{id: creek, name: Creek, kind: run, picture: {HAN}.png}}\n"}
    )
    with pytest.raises(ProblemsError, match="is not in pictures/") as caught:
        book_of(folder, DAY)
    assert len(caught.value.problems) == 1


def test_check_tells_the_mistakes_of_protocols(farm_folder: FarmFolder) -> None:
    """What a build refuses in a protocol, `check` refuses."""
    folder = farm_folder(LEAST | {"protocols/ours.md": f"{OWN}{{{{ nosuch }}}}\n"})
    with pytest.raises(ProblemsError, match=r"protocols/ours\.md:9:1  'nosuch' is undefined"):
        shortfalls(folder, DAY)
