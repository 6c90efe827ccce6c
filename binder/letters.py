"""Which letters can be printed: those of the binder's two typefaces, and signs without a mark.

A letter from another font of the machine would look otherwise on another machine, or be an
empty box; on a farm that is a missing instruction. The spare typeface is there for names in
Greek, Cyrillic or Vietnamese letters, which the binder's own lacks.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import fontpkg_atkinson_hyperlegible as own
import fontpkg_fira_sans as spare

from binder.problems import quotable

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

WEIGHTS = {400: "Regular", 700: "Bold"}
OWN_FAMILY, SPARE_FAMILY = own.FAMILY, spare.FAMILY
# CSS weight -> the file that holds the letters.
OWN_FILES: dict[int, Path] = {
    weight: own.ROOT / "files" / f"AtkinsonHyperlegible-{word}.ttf"
    for weight, word in WEIGHTS.items()
}
BOLD = "Atkinson-Hyperlegible-Bold"
# The letters' files by what a PDF calls them.
PDF_FILES = {"Atkinson-Hyperlegible": OWN_FILES[400], BOLD: OWN_FILES[700]}
SPARE_FILES: dict[int, Path] = {
    weight: spare.ROOT / "files" / f"FiraSans-{word}.ttf" for weight, word in WEIGHTS.items()
}
_SHOWN = 8  # letters named in a message: our choice
_LAST_OF_LATIN_1 = "\xff"  # the font has all of them: a test looks
# Format signs and spaces leave no ink, so no letter of another font comes to the paper (Unicode
# general categories, UAX #44, table 12); variation selectors only choose a letter's shape.
# What parts lines and paragraphs is no letter either, and refused elsewhere.
_WITHOUT_INK = frozenset({"Cf", "Zs", "Zl", "Zp"})
_SELECTORS = range(0xFE00, 0xFE10)


def lacking(text: str) -> tuple[str, ...]:
    """Return the letters of a text that no print font has, each once, in their order."""
    unknown = _not_in(text, OWN_FILES.values())
    return _not_in("".join(unknown), SPARE_FILES.values()) if unknown else ()


def wants_spare(text: str) -> bool:
    """Return whether a text has letters that the binder's own typeface lacks."""
    return bool(_not_in(text, OWN_FILES.values()))


def _not_in(text: str, files: Iterable[Path]) -> tuple[str, ...]:
    if text.isascii() or max(text) <= _LAST_OF_LATIN_1:
        return ()
    known = _known(tuple(files))
    return tuple(
        dict.fromkeys(
            sign
            for sign in unicodedata.normalize("NFC", text)
            if sign > _LAST_OF_LATIN_1 and ord(sign) not in known and not _inkless(sign)
        )
    )


def told_lacking(letters: tuple[str, ...]) -> str:
    """Return what to say of letters that cannot be printed."""
    shown = ", ".join(
        f"{quotable(letter)} (U+{ord(letter):04X})" for letter in letters[:_SHOWN]
    )
    more = f" and {len(letters) - _SHOWN} more" if len(letters) > _SHOWN else ""
    return f"holds letters that the print font lacks: {shown}{more}; write it with others"


def _inkless(sign: str) -> bool:
    return unicodedata.category(sign) in _WITHOUT_INK or ord(sign) in _SELECTORS


@lru_cache(maxsize=2)
def _known(files: tuple[Path, ...]) -> frozenset[int]:
    """Return the letters that all of these files have."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415 -- few farms write a letter to look up

    known: list[frozenset[int]] = []
    for path in files:
        with TTFont(path, lazy=True) as font:
            known.append(frozenset(font.getBestCmap()))
    return known[0].intersection(*known)


@dataclass(frozen=True, slots=True)
class DigitShapes:
    """The digits of the bold typeface, in thousandths of their size.

    Attributes:
        name: of the font, as a PDF calls it.
        widths: of 0 to 9.
        box: left, bottom, right and top round every letter.
        cap_height: of a capital letter.
        stem: of an upright stroke; the format wants one, readers do not draw by it.
    """

    name: str
    widths: tuple[int, ...]
    box: tuple[int, int, int, int]
    cap_height: int
    stem: int = 140


@lru_cache(maxsize=1)
def digit_shapes() -> DigitShapes:
    """Return the digits' sizes, from the font file."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415 -- a file already joined needs none

    with TTFont(OWN_FILES[700], lazy=True) as font:
        head, letters, widths = font["head"], font.getBestCmap(), font["hmtx"]

        def scaled(size: float) -> int:
            return round(float(size * 1000 / head.unitsPerEm))

        box = (head.xMin, head.yMin, head.xMax, head.yMax)
        return DigitShapes(
            name=BOLD,
            widths=tuple(scaled(widths[letters[ord(digit)]][0]) for digit in "0123456789"),
            box=tuple(map(scaled, box)),  # type: ignore[arg-type] # four of them
            cap_height=scaled(font["OS/2"].sCapHeight),
        )
