"""Which letters can be printed: those of the binder's own font, and signs that leave no mark.

A letter from another font of the machine would look otherwise on another machine, or be an
empty box; on a farm that is a missing instruction.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache

import fontpkg_atkinson_hyperlegible as fontpkg

_SHOWN = 8  # letters named in a message: our choice
_FACES = ("Regular", "Bold")
_LAST_OF_LATIN_1 = "\xff"  # the font has all of them: a test looks
# Format signs and spaces leave no ink, so no letter of another font comes to the paper (Unicode
# general categories, UAX #44, table 12); variation selectors only choose a letter's shape.
# What parts lines and paragraphs is no letter either, and refused elsewhere.
_WITHOUT_INK = frozenset({"Cf", "Zs", "Zl", "Zp"})
_SELECTORS = range(0xFE00, 0xFE10)


def lacking(text: str) -> tuple[str, ...]:
    """Return the letters of a text that the print font lacks, each once, in their order."""
    if text.isascii() or max(text) <= _LAST_OF_LATIN_1:
        return ()
    known = _known()
    return tuple(
        dict.fromkeys(
            sign
            for sign in unicodedata.normalize("NFC", text)
            if sign > _LAST_OF_LATIN_1 and ord(sign) not in known and not _inkless(sign)
        )
    )


def told_lacking(letters: tuple[str, ...]) -> str:
    """Return what to say of letters that cannot be printed."""
    shown = ", ".join(f"{letter} (U+{ord(letter):04X})" for letter in letters[:_SHOWN])
    more = f" and {len(letters) - _SHOWN} more" if len(letters) > _SHOWN else ""
    return f"holds letters that the print font lacks: {shown}{more}; write it with others"


def _inkless(sign: str) -> bool:
    return unicodedata.category(sign) in _WITHOUT_INK or ord(sign) in _SELECTORS


@lru_cache(maxsize=1)
def _known() -> frozenset[int]:
    """Return the letters that both faces have."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415 -- few farms write a letter to look up

    known: list[frozenset[int]] = []
    for face in _FACES:
        path = fontpkg.ROOT / "files" / f"AtkinsonHyperlegible-{face}.ttf"
        with TTFont(path, lazy=True) as font:
            known.append(frozenset(font.getBestCmap()))
    return known[0].intersection(*known)
