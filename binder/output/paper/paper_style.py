"""The style of printed sheets: tokens, sheets, and what only paper has, in one text."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from binder.data import TEMPLATES
from binder.letters import OWN_FAMILY, OWN_FILES, SPARE_FAMILY, SPARE_FILES

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

PAPERS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}  # width, height [mm]
_PARTS = (
    "tokens.css",
    "sheet.css",
    "print.css",
    "print/charts.css",
    "print/tight.css",
    "print/large.css",
)
_ROOT = re.compile(r":root\s*\{(.*?)\}\s", re.DOTALL)
_GIVEN = re.compile(r"""(--[\w-]+):\s*((?:"[^"]*"|[^";{}])*);""")
_ASKED = re.compile(r"var\((--[\w-]+)\)")


@lru_cache(maxsize=len(PAPERS))
def stylesheet(paper: str) -> str:
    """Return the CSS shared by all sheets on `paper`."""
    width, height = PAPERS[paper]
    parts = [(TEMPLATES / name).read_text(encoding="utf-8") for name in _PARTS]
    faces, size = _faces(OWN_FAMILY, OWN_FILES), f"@page {{ size: {width}mm {height}mm; }}"
    return f"{faces}\n{resolved(chr(10).join(parts))}\n{size}\n"


def spare_letters() -> str:
    """Return what goes before a sheet's CSS where its text needs the spare typeface."""
    return _faces(SPARE_FAMILY, SPARE_FILES)


def resolved(css: str) -> str:
    """Return the style with each value that only the root gives put where it is asked for.

    The printing library works such names out for every element anew. What another rule gives
    again, as tight sheets do with type and space, stays a name.

    >>> resolved(":root { --a: 1px; --b: var(--a); } p { top: var(--b); }")
    ':root { --a: 1px; --b: 1px; } p { top: 1px; }'
    >>> resolved(":root { --a: 1px; } p { --a: 2px; top: var(--a); }")
    ':root { --a: 1px; } p { --a: 2px; top: var(--a); }'
    """
    root = _ROOT.search(css)
    values = dict(_GIVEN.findall(root[1])) if root else {}
    names = [name for name, _ in _GIVEN.findall(css)]
    once = {name: value for name, value in values.items() if names.count(name) == 1}
    for _ in range(len(once)):  # a name may stand for another, and so on
        done = _ASKED.sub(lambda asked: once.get(asked[1], asked[0]), css)
        if done == css:
            break
        css = done
    return css


def _faces(family: str, files: Mapping[int, Path]) -> str:
    return "".join(
        f'@font-face {{ font-family: "{family}"; font-style: normal; '
        f"font-weight: {weight}; src: url(font:{path.name}); }}\n"
        for weight, path in files.items()
    )
