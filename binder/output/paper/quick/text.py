"""Lines of text: the same words in the same type are measured once, not every time.

A table's cell is measured for its narrowest and its widest, then laid out; a sheet that is
tried tighter, and a column that is balanced, all of it again. What is kept hangs on the fonts'
own record, so it goes when they go.
"""

from __future__ import annotations

import re
from copy import copy
from typing import Any

from weasyprint.text import line_break
from weasyprint.text.ffi import FROM_UNITS, ffi, gobject, pango

from binder.output.paper.quick.place import put_in_place

_Layout = line_break.Layout
_setup, _set_text = _Layout.setup, _Layout.set_text
_split_first_line = line_break.split_first_line
_strut = line_break.strut
_MOST = 60_000  # lines kept: some 40 MB, our choice
_LINES, _TYPES = "_binder_lines", "_binder_types"
_TYPE, _STRUT = "_binder_type", "_binder_strut"
# Everything by which two styles may set the same words differently.
_SETS_TEXT = (
    "font_family",
    "font_style",
    "font_stretch",
    "font_weight",
    "font_size",
    "font_kerning",
    "font_variant_ligatures",
    "font_variant_position",
    "font_variant_caps",
    "font_variant_numeric",
    "font_variant_alternates",
    "font_variant_east_asian",
    "font_feature_settings",
    "font_variation_settings",
    "font_language_override",
    "lang",
    "direction",
    "text_decoration_line",
    "letter_spacing",
    "word_spacing",
    "overflow_wrap",
    "word_break",
    "white_space",
    "hyphens",
    "hyphenate_character",
    "hyphenate_limit_chars",
    "hyphenate_limit_zone",
    "tab_size",
)
_BREAKS = frozenset({"anywhere", "break-word"})
# A word, a space, a letter: where such a line may end does not hang on what follows.
_ONE_WORD = re.compile(r"\S*[\w.,;:%)°] [\w(]")
# Letters are wider than this share of their size, about: so many may fit into a line.
_NARROW = 0.4
_SOFT_HYPHEN = "\xad"
_SPECIAL = re.compile("[\n\t\r\0\xad\u2028\u2029]")
_INFINITE = 2**21  # as the text library takes it
_NO = False
_extents = ffi.new("PangoRectangle *")


class _Type:
    """How one style sets text, worked out once."""

    def __init__(self, style: Any) -> None:
        self.plain = not (
            style["word_spacing"]
            or style["letter_spacing"] != "normal"
            or style["overflow_wrap"] in _BREAKS
        )
        self.wraps = style["white_space"] in ("normal", "pre-wrap", "pre-line")
        # Whether the narrowest line is the first word, whatever comes after it.
        self.by_word = (
            self.wraps
            and style["hyphens"] != "auto"
            and style["overflow_wrap"] not in _BREAKS
            and style["word_break"] != "break-all"
            and bool(style["font_size"])
        )
        self.pango: Any = None


def _type_of(style: Any) -> _Type:
    own = style.__dict__
    found = own.get(_TYPE)
    if found is None:
        types = style.font_config.__dict__.setdefault(_TYPES, {})
        key = tuple(_hashable(style[name]) for name in _SETS_TEXT)
        found = types.get(key)
        if found is None:
            found = types[key] = _Type(style)
        own[_TYPE] = found
    return found  # type: ignore[no-any-return]


def _hashable(value: Any) -> Any:
    if isinstance(value, (set, frozenset)):
        return tuple(sorted(value))
    return tuple(value) if isinstance(value, list) else value


def split_first_line(
    text: str,
    style: Any,
    context: Any,
    max_width: Any,
    justification_spacing: Any,
    is_line_start: bool = True,  # noqa: FBT001, FBT002 -- as the library calls it
    minimum: bool = False,  # noqa: FBT001, FBT002
) -> Any:
    """Return the first line of a text: layout, length, where the next begins, sizes."""
    lines = style.font_config.__dict__.setdefault(_LINES, {})
    type_ = _type_of(style)
    if (
        type_.wraps
        and max_width is not None
        and 0 < max_width < _INFINITE
        and not _SPECIAL.search(text)
        and (whole := _whole(text, style, type_, lines, context, max_width)) is not None
    ):
        layout = copy(whole[0])
        layout.max_width, layout.justification_spacing = max_width, justification_spacing
        return (layout, *whole[1:])
    known = text
    if max_width == 0 and type_.by_word and _SOFT_HYPHEN not in text:
        space = text.find(" ")
        short = text[: space + 2]
        if 0 < space < len(text) - 2 and _ONE_WORD.fullmatch(short):
            known = short
    asked = (max_width, justification_spacing, is_line_start, minimum)
    key = (known, known is text, type_, *asked)
    found = lines.get(key)
    if found is None:
        if len(lines) > _MOST:
            lines.clear()
        found = lines[key] = _split_first_line(text, style, context, *asked)
    return (copy(found[0]), *found[1:])


_OWN = object()  # attributes that are changed for each text
_DECORATION = (
    "ascent",
    "underline_position",
    "strikethrough_position",
    "underline_thickness",
    "strikethrough_thickness",
)


def _whole(text: str, style: Any, type_: _Type, lines: Any, context: Any, room: float) -> Any:
    """Return a text in one line, where it fits: as long in every room that is wide enough."""
    key = (text, type_)
    found = lines.get(key)
    if found is None:
        if len(text) * style["font_size"] * _NARROW > room:
            return None
        found = lines[key] = _split_first_line(text, style, context, None, 0)
    return found if found[3] <= room else None


def setup(layout: Any, style: Any) -> None:
    """Make the text library's object for a piece of text in a style."""
    type_ = _type_of(style)
    if type_.pango is None:
        _setup(layout, style)
        type_.pango = _kept(layout, style, plain=type_.plain)
        return
    context, description, language, attributes, decoration = type_.pango
    if attributes is _OWN or (attributes is not None and layout.justification_spacing):
        _setup(layout, style)
        return
    layout.style = style
    layout.first_line_direction = 0
    layout.language = language
    layout.layout = ffi.gc(pango.pango_layout_new(context), gobject.g_object_unref)
    pango.pango_layout_set_auto_dir(layout.layout, _NO)
    pango.pango_layout_set_font_description(layout.layout, description)
    layout.__dict__.update(decoration)
    if attributes is not None:
        pango.pango_layout_set_attributes(layout.layout, attributes)


def _kept(layout: Any, style: Any, *, plain: bool) -> Any:
    """Return what other layouts in the same type can share with one that was set up."""
    attributes = pango.pango_layout_get_attributes(layout.layout)
    shared = None if attributes == ffi.NULL else attributes if plain else _OWN
    own = layout.__dict__
    decoration = {name: own[name] for name in _DECORATION if name in own}
    description = line_break.get_font_description(style)
    return _context(layout, style), description, layout.language, shared, decoration


def _context(layout: Any, style: Any) -> Any:
    context = ffi.gc(
        pango.pango_font_map_create_context(style.font_config.font_map), gobject.g_object_unref
    )
    pango.pango_context_set_round_glyph_positions(context, _NO)
    direction = line_break.PANGO_DIRECTION[style["direction"]]
    pango.pango_context_set_base_dir(context, direction)
    if style["font_language_override"] != "normal" or style["lang"]:
        pango.pango_context_set_language(context, layout.language)
    return context


def set_text(layout: Any, text: str, justify: bool = False) -> None:  # noqa: FBT001, FBT002
    """Give a layout its text; no more than a line is wanted of it."""
    spaced = justify and layout.justification_spacing
    if spaced or "\t" in text or "\0" in text or not _type_of(layout.style).plain:
        _set_text(layout, text, justify)
        return
    end = text.find("\n")
    if end != -1:
        text = text[: end + 2]  # and a letter, so that there is a second line
    layout.text = text
    pango.pango_layout_set_text(layout.layout, text.encode(), -1)


def line_size(line: Any, style: Any) -> tuple[float, float]:
    """Return the width and height of a line that was set [px]."""
    pango.pango_layout_line_get_extents(line, ffi.NULL, _extents)
    width = _extents.width * FROM_UNITS
    if style["letter_spacing"] != "normal":
        width += style["letter_spacing"]
    return width, _extents.height * FROM_UNITS


def strut(style: Any) -> Any:
    """Return a style's line height and baseline."""
    own = style.__dict__
    found = own.get(_STRUT)
    if found is None:
        found = own[_STRUT] = _strut(style)
    return found


def install() -> None:
    """Use them."""
    put_in_place(_split_first_line, split_first_line)
    put_in_place(line_break.line_size, line_size)
    put_in_place(_strut, strut)
    _Layout.setup, _Layout.set_text = setup, set_text
