"""The colors of `templates/tokens.css` for drawings, which have to carry theirs with them."""

from __future__ import annotations

import re

from binder.data import TEMPLATES

_TOKEN = re.compile(r"^\s*--([\w-]+): (#[0-9a-f]{6});", re.MULTILINE)
_TOKENS = dict(_TOKEN.findall((TEMPLATES / "tokens.css").read_text(encoding="utf-8")))
_BANDS = range(5)

INK, ACCENT, HAIR = _TOKENS["ink"], _TOKENS["accent"], _TOKENS["hairline"]
PAPER, NIGHT = _TOKENS["paper"], _TOKENS["night"]
# Of a map.
GROUND, BUILT, WATER = _TOKENS["wash"], _TOKENS["faint"], _TOKENS["water"]
# Fill and digit of each band, and the marks on the fills of 1 to 3: darkness carries the order,
# the pattern carries it again on a copier, and the digit says it outright.
FILLS = tuple(_TOKENS[f"band-{band}"] for band in _BANDS)
DIGITS = tuple(_TOKENS[f"on-band-{band}"] for band in _BANDS)
MARKS = {band: _TOKENS[f"band-{band}-mark"] for band in _BANDS[1:4]}
