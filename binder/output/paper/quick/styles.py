"""Values of CSS: most are plain, and plain ones need none of what is done for the others."""

from __future__ import annotations

from typing import Any

from weasyprint import css
from weasyprint.css import functions
from weasyprint.css.computed_values import COMPUTER_FUNCTIONS, PHYSICAL_FUNCTIONS
from weasyprint.css.properties import INHERITED, INITIAL_NOT_COMPUTED, INITIAL_VALUES

from binder.output.paper.quick.place import put_in_place

_check_math = functions.check_math
_missing = css.ComputedStyle.__missing__
_NEVER_MATH = (str, float, int, type(None))
_DECORATION = "text_decoration_"
_NAMED = "__"  # a name of the style's own, `--space-2`
# What the library looks at in its own way, whether a rule names it or not.
_SINGULAR = frozenset({"float", "display", "position", "page"})
_AFTER = {"float": "position", "display": "float"}  # worked out after another
_DEFERRED = frozenset({"inherit", "initial"})


def _plain(key: str) -> bool:
    return key not in _SINGULAR and not key.startswith(_DECORATION)


# Inherited ones; those whose first value is as good as worked out; those whose is not.
_FROM_PARENT = frozenset(key for key in INHERITED if _plain(key))
_OWN = {key: value for key, value in INITIAL_VALUES.items() if key not in INHERITED}
_FIRST = {
    key: value for key, value in _OWN.items() if key not in INITIAL_NOT_COMPUTED and _plain(key)
}
_WORKED_OUT = {
    key: value
    for key, value in _OWN.items()
    if key in INITIAL_NOT_COMPUTED and key in COMPUTER_FUNCTIONS and _plain(key)
}
_PLACED = {key: _OWN[key] for key in ("position", "float") if key not in INITIAL_NOT_COMPUTED}
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
    if key in _OTHER_NAMES and any(name in cascaded for name in _OTHER_NAMES[key]):
        return _missing(style, key)
    value = _given(style, key, cascaded[key][0]) if key in cascaded else _first(style, key)
    if value is _LEFT:
        return _missing(style, key)
    style[key] = value
    return value


_LEFT = object()  # to the library


def _given(style: Any, key: str, value: Any) -> Any:
    """Return the value that a rule gives, if there is nothing special about it."""
    if (
        isinstance(value, css.Pending)
        or (isinstance(value, str) and value in _DEFERRED)
        or not _plain(key)
        or key.startswith(_NAMED)
        or check_math(value)
    ):
        return _LEFT
    compute = COMPUTER_FUNCTIONS.get(key)
    return value if compute is None else compute(style, key, value)


def _first(style: Any, key: str) -> Any:
    """Return the value of a property that no rule gives, if there is nothing special to it."""
    if key in _FIRST:
        return _FIRST[key]
    if key in _WORKED_OUT:
        return COMPUTER_FUNCTIONS[key](style, key, _WORKED_OUT[key])
    if key in _PLACED:
        if key in _AFTER:
            style[_AFTER[key]]
        value = style.specified[key] = _PLACED[key]
        return value
    return _LEFT if style.parent_style is None else _from_parent(style.parent_style, key)


def _from_parent(parent: Any, key: str) -> Any:
    if key in _FROM_PARENT:
        value = parent[key]
        return _LEFT if check_math(value) else value
    if key == "page" or key.startswith(_NAMED):
        return parent[key]
    if key.startswith(_DECORATION):
        return css.text_decoration(key, INITIAL_VALUES[key], parent[key], cascaded=False)
    return _LEFT


def install() -> None:
    """Use them."""
    put_in_place(_check_math, check_math)
    css.ComputedStyle.__missing__ = missing
