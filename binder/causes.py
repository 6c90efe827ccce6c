"""What the parser of YAML complains of, and what the owner of a farm can do about it."""

from __future__ import annotations

# What the parser says (in either of its two versions) -> what the owner can do about it.
_CAUSES = (
    ("tab character", "a tab stands where YAML wants spaces; indent with spaces only"),
    (
        "mapping values",
        'has a colon too many or a wrong indent; put text with a colon in it in "quotes"',
    ),
    (
        "or '}'",
        'a comma or a } is missing; put text with a comma, colon or bracket in it in "quotes"',
    ),
    (
        "or ']'",
        'a comma or a ] is missing; put text with a comma, colon or bracket in it in "quotes"',
    ),
    ("expected ':'", "a colon is missing; write it like key: value"),
    ("end of stream", "the closing quote of this text is missing"),
    ("escape", 'holds a \\ that means something else inside "quotes"; leave it out'),
    ("any token", 'begins with a sign that YAML keeps for itself; put the value in "quotes"'),
    ("directive", 'begins with a sign that YAML keeps for itself; put the value in "quotes"'),
)
_ANY_CAUSE = (
    "does not fit what stands above it; begin the keys of one item in the same column, "
    "and check quotes and brackets"
)


def cause(complaint: str) -> str:
    """Return our sentence for a complaint of the parser."""
    return next((sentence for sign, sentence in _CAUSES if sign in complaint), _ANY_CAUSE)
