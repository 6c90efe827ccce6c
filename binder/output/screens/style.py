"""The style of the screens: tokens, sheets, and what only screens have, in one text."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from binder.data import TEMPLATES
from binder.output.screens.fonts import FAMILY, WEIGHTS, name

if TYPE_CHECKING:
    from collections.abc import Callable

_PARTS = ("tokens.css", "sheet.css", "screen.css", "today.css")
# A quoted text (kept as it is), a comment (dropped), or white space (made short).
_PIECE = re.compile(r"""("(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*')|/\*.*?\*/|\s+""", re.DOTALL)
_AROUND = re.compile(r"""("(?:[^"\\]|\\.)*")|\s*([{};,>])\s*|(:)\s+""")


def style(font: Callable[[str], str]) -> str:
    """Return the whole style.

    Args:
        font: gives the address of a font file by its name.
    """
    faces = "".join(
        f'@font-face{{font-family:"{FAMILY}";font-weight:{weight};font-display:swap;'
        f'src:url("{font(name(weight))}") format("woff2")}}\n'
        for weight in WEIGHTS
    )
    return faces + _body()


@lru_cache(maxsize=1)
def _body() -> str:
    return squeeze("\n".join((TEMPLATES / part).read_text(encoding="utf-8") for part in _PARTS))


def squeeze(css: str) -> str:
    """Return the same style without comments and needless white space, a rule a line.

    >>> squeeze("a  { b: c; /* d */ } e {}").splitlines()
    ['a{b:c}', 'e{}']
    """
    short = _PIECE.sub(lambda found: found[1] or " ", css)
    tight = _AROUND.sub(lambda found: found[1] or found[2] or found[3], short)
    return tight.replace(";}", "}").replace("}", "}\n").strip() + "\n"
