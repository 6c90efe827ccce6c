"""One full stop where two meet: what the owner wrote has one, and the sheet adds its own."""

from __future__ import annotations

import re

_TAGS = r"(?:</?(?:a|b|em|i|span|strong)\b[^<>]*>)*"
# A sign that ends a sentence, tags that show nothing, then our stop at the end of a word. Three
# dots are one sign.
_MEET = re.compile(rf"(\.\.\.|(?<!\.)\.|[!?…])({_TAGS})\s*({_TAGS})\.(?=[\s<]|$)")
_ONE = r"\1\2\3"


def one_stop(html: str) -> str:
    """Return HTML in which no full stop follows the end of a sentence."""
    return _MEET.sub(_ONE, html)
