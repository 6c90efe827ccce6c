"""How a function of ours comes into the place of one of the library's."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from weasyprint import css, images, layout
from weasyprint.css import computed_values, functions, tokens
from weasyprint.layout import (
    absolute,
    background,
    block,
    column,
    flex,
    float,  # noqa: A004 -- the library calls it so
    grid,
    inline,
    min_max,
    page,
    percent,
    preferred,
    replaced,
    table,
)
from weasyprint.text import line_break

if TYPE_CHECKING:
    from collections.abc import Callable

# Those that know each other's functions by name.
_MODULES = (
    *(css, computed_values, functions, tokens, images, layout, absolute, background, block),
    *(column, flex, float, grid, inline, min_max, page, percent, preferred, replaced, table),
    line_break,
)


def put_in_place(old: Callable[..., Any], new: Callable[..., Any]) -> None:
    """Let every module of the library that knows `old` by a name know `new` under it."""
    for module in _MODULES:
        for key, value in list(vars(module).items()):
            if value is old:
                setattr(module, key, new)
