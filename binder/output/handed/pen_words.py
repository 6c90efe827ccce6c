"""The words in which two texts differ, cut so that a pen finds them on the paper."""

from __future__ import annotations

import re
from difflib import SequenceMatcher
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

LONGEST = 40  # characters of one value, old or new: our choice, what fits between two lines
_NEAR = 3  # our choice: words between two changed ones that make them one value


def values(old: str, new: str) -> Iterator[tuple[str, str]]:
    """Yield the values in which two texts of one cell differ; a short cell is one value."""
    if max(len(old), len(new)) <= LONGEST:
        yield old, new
        return
    was, now = old.split(), new.split()
    spans: list[list[int]] = []
    for change, *span in SequenceMatcher(None, was, now, autojunk=False).get_opcodes():
        if change == "equal":
            continue
        if spans and span[0] - spans[-1][1] <= _NEAR:
            spans[-1][1], spans[-1][3] = span[1], span[3]
        else:
            spans.append(span)
    for first, last, start, end in _whole_brackets(spans, was, now):
        # A word on each side shows where: a value that comes or goes has no other place.
        lead = 1 if first else 0
        tail = 1 if last < len(was) else 0
        yield (
            " ".join(was[first - lead : last + tail]),
            " ".join(now[start - lead : end + tail]),
        )


def _whole_brackets(
    spans: Sequence[Sequence[int]], was: Sequence[str], now: Sequence[str]
) -> list[list[int]]:
    """Return the spans, grown until none begins or ends inside a bracket.

    Whoever writes `22 gal (83` has to look for the rest of it.
    """
    found: list[list[int]] = []
    for span in spans:
        first, last, start, end = span
        while _opens(was[first:last]) and last < len(was) and end < len(now):
            last, end = last + 1, end + 1
        while _closes(was[first:last]) and first and start:
            first, start = first - 1, start - 1
        if found and first < found[-1][1]:
            found[-1][1], found[-1][3] = max(last, found[-1][1]), max(end, found[-1][3])
        else:
            found.append([first, last, start, end])
    return found


def _cut(words: Sequence[str]) -> bool:
    """Return whether some words begin or end inside a bracket."""
    return _opens(words) or _closes(words)


def _opens(words: Sequence[str]) -> bool:
    """Return whether a bracket opens in some words and does not close in them."""
    return _left_open(words, "(", ")")


def _closes(words: Sequence[str]) -> bool:
    """Return whether a bracket closes in some words that did not open in them."""
    return _left_open(words[::-1], ")", "(")


def _left_open(words: Sequence[str], opens: str, closes: str) -> bool:
    depth = 0
    for word in words:
        depth = max(0, depth + word.count(opens) - word.count(closes))
    return depth > 0


def bare(old: str, new: str) -> tuple[str, str]:
    """Return the words that differ: `10 head` and `all 10 stand` are one value, 10."""
    was, now = old.split(), new.split()
    if not now:
        return old, ""
    while was and now and was[0] == now[0] and not _cut(was[1:]):
        was, now = was[1:], now[1:]
    while was and now and was[-1] == now[-1] and not _cut(was[:-1]):
        was, now = was[:-1], now[:-1]
    words = any(any(sign.isalpha() for sign in word) for word in was)
    if not was or not (now or words):  # without its neighbours nobody knows where, or how much
        return old, new
    return " ".join(was), " ".join(now)


def times(text: str, words: str) -> int:
    """Return how often whole words stand in a text."""
    return len(re.findall(rf"(?<!\S){re.escape(words)}(?!\S)", text))
