"""Bands stay apart in colour, on a grey copy and on one in black and white alone."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest

from binder.cache import Cache
from binder.output.print import PrintOptions, render_book
from binder.pages.page import Page

if TYPE_CHECKING:
    from PIL.Image import Image

    from tests.output.conftest import MakeBook

TOKENS = Path(__file__).resolve().parents[2] / "templates" / "tokens.css"
DOTS_PER_POINT = 300 / 72  # as an office copier


def token(name: str) -> tuple[float, ...]:
    """Return a colour of tokens.css as shares of red, green, blue."""
    found = re.search(rf"--{name}: #([0-9a-f]{{6}})", TOKENS.read_text(encoding="utf-8"))
    assert found, name
    return tuple(int(found[1][at : at + 2], 16) / 255 for at in (0, 2, 4))


def test_every_color_is_named_once() -> None:
    """In tokens.css; a dark screen renames them in one place, drawings read them there."""
    root = TOKENS.parents[1]
    color = re.compile(r"""(?:#[0-9a-f]{3}|#[0-9a-f]{6})(?=[\s;"',)])""", re.IGNORECASE)
    typed = [
        f"{path.relative_to(root)}: {line.strip()}"
        for path in (*TOKENS.parent.glob("*.css"), *(root / "binder").rglob("*.py"))
        for line in path.read_text(encoding="utf-8").splitlines()
        if color.search(line) and not line.strip().startswith("--")
    ]
    assert typed == []


def luminance(colour: tuple[float, ...]) -> float:
    """Return the relative luminance (WCAG 2.1, definition of relative luminance)."""
    parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
    return sum(
        part * weight for part, weight in zip(parts, (0.2126, 0.7152, 0.0722), strict=True)
    )


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two tokens (WCAG 2.1, definition of contrast ratio)."""
    light, dark = sorted((luminance(token(one)), luminance(token(other))), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize(
    ("text", "ground"),
    [
        *((f"on-band-{band}", f"band-{band}") for band in range(5)),
        ("ink", "paper"),
        ("soft", "paper"),
        ("accent", "paper"),
        ("ink", "wash"),
    ],
)
def test_text_stands_out_from_its_ground(text: str, ground: str) -> None:
    """Every text has the contrast that WCAG 2.1 asks of body text, 4.5 to 1 (1.4.3)."""
    assert contrast(text, ground) >= 4.5


@pytest.fixture(scope="module")
def swatches(made: MakeBook, tmp_path_factory: pytest.TempPathFactory) -> list[Image]:
    """Return the five cells of a chart, printed, as a grey copier sees them at 300 dpi."""
    cells = "".join(f'<td class="b{band}">{band}</td>' for band in range(5))
    more = '<td class="b0"></td>' * 10  # cells as wide as in a chart
    body = f'<table class="bands"><tbody><tr>{cells}{more}</tr></tbody></table>'
    folder = tmp_path_factory.mktemp("bands")
    book = replace(made(), pages=(Page("bands", "H1", "H", "Bands", body),))
    result = render_book(book, folder, options=PrintOptions(cache=Cache(folder / "cache")))
    with pdfium.PdfDocument(result.file) as document:
        page = document[0]
        text = page.get_textpage()
        image = page.render(scale=DOTS_PER_POINT, grayscale=True).to_pil().convert("L")
        found = re.search(r"0\s*1\s*2\s*3\s*4", text.get_text_range())
        assert found
        boxes = [text.get_charbox(found.start() + found[0].index(digit)) for digit in "01234"]
        height = page.get_height()
    middles = [((box[0] + box[2]) / 2, height - (box[1] + box[3]) / 2) for box in boxes]
    step = middles[1][0] - middles[0][0]
    return [cell(image, x, y, step) for x, y in middles]


def cell(image: Image, x: float, y: float, step: float) -> Image:
    """Return the cell round a digit, less its edges."""
    half_w, half_h = step * 0.44, 8.0
    box = (x - half_w, y - half_h, x + half_w, y + half_h)
    return image.crop(tuple(round(edge * DOTS_PER_POINT) for edge in box))  # type: ignore[arg-type]


def darkness(image: Image) -> float:
    """Return how dark an image is on the whole, 0 to 1."""
    histogram = image.histogram()
    return (
        1 - sum(value * count for value, count in enumerate(histogram)) / sum(histogram) / 255
    )


def test_each_band_is_darker_than_the_one_below(swatches: list[Image]) -> None:
    """On a grey copy the steps are plain to see, a tenth of the whole range at least."""
    shades = [darkness(image) for image in swatches]
    assert all(b - a > 0.1 for a, b in pairwise(shades)), shades


def test_patterns_survive_pure_black_and_white(swatches: list[Image]) -> None:
    """Without greys: white, some dots, many lines, white lines on black, black."""
    black = [darkness(image.point(lambda v: 255 if v > 127 else 0)) for image in swatches]
    assert all(b - a > 0.02 for a, b in pairwise(black)), black
    assert black[1] < 0.25 < black[3], "light grounds carry dark marks, dark ones light marks"
