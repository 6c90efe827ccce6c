"""Values of CSS: most are plain, and plain ones need none of what is done for the others."""

from __future__ import annotations

from typing import Any

from weasyprint import css
from weasyprint.css import functions
from weasyprint.css.computed_values import PHYSICAL_FUNCTIONS
from weasyprint.css.properties import INHERITED, INITIAL_NOT_COMPUTED, INITIAL_VALUES

from binder.output.quick.place import put_in_place

_check_math = functions.check_math
_missing = css.ComputedStyle.__missing__
_NEVER_MATH = (str, float, int, type(None))
# What the library looks at in its own way, whether a rule names it or not.
_SINGULAR = frozenset({"float", "display", "position", "page"})


def _plain(key: str) -> bool:
    return key not in _SINGULAR and not key.startswith("text_decoration_")


# Inherited ones; those whose first value is as good as worked out.
_FROM_PARENT = frozenset(key for key in INHERITED if _plain(key))
_FIRST = {
    key: value
    for key, value in INITIAL_VALUES.items()
    if key not in INHERITED and key not in INITIAL_NOT_COMPUTED and _plain(key)
}
# `margin_left` -> what a rule may call it by the direction of the text instead.
_OTHER_NAMES = {
    key: tuple(named(block="ttb", inline=inline) for inline in ("ltr", "rtl"))
    for key, named in PHYSICAL_FUNCTIONS.items()
}


def check_math(token: Any) -> Any:
    """Return whether a value has a formula in it."""
    if isinstance(token, _NEVER_MATH):
        return False
    return _check_math(token)


def missing(style: Any, key: str) -> Any:
    """Return a property of an element that was not asked for before."""
    cascaded = style.cascaded
    if key not in cascaded and not (
        key in _OTHER_NAMES and any(name in cascaded for name in _OTHER_NAMES[key])
    ):
        if key in _FIRST:
            value = style[key] = _FIRST[key]
            return value
        if key in _FROM_PARENT and style.parent_style is not None:
            value = style.parent_style[key]
            if not check_math(value):
                style[key] = value
                return value
    return _missing(style, key)


def install() -> None:
    """Use them."""
    put_in_place(_check_math, check_math)
    css.ComputedStyle.__missing__ = missing
