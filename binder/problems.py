"""What is wrong with a farm folder or the content, and how it is said.

Every step collects all it finds and raises one `ProblemsError`; the command line prints it and
ends with exit code 1. A problem always names the place, what was read and what was expected.
"""

from __future__ import annotations

import difflib
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ParamSpec, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable


_P = ParamSpec("_P")
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something was read: file as the owner knows it, line and column counted from 1."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        """Return `pens.yaml:14:11`, or the file alone where no line is known."""
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One mistake: its place, the path of keys to it, a sentence that says what would do."""

    place: Place
    path: str = ""
    message: str = field(default="")

    def __str__(self) -> str:
        """Return the line that is printed."""
        where = f"{self.path}: " if self.path else ""
        return f"{self.place}  {where}{self.message}"


class ProblemsError(Exception):
    """All the problems of one step, sorted by file and line. The command ends with code 1."""

    exit_code = 1

    def __init__(self, problems: Iterable[Problem]) -> None:
        """Keep the problems without repeats, in the order a reader would mend them."""
        self.problems = tuple(sorted(set(problems)))
        super().__init__(str(self))

    def __str__(self) -> str:
        """Return one line a problem."""
        return "\n".join(str(problem) for problem in self.problems)


class Faults:
    """Gathers the problems of several things that can be read apart."""

    def __init__(self) -> None:
        """Begin without any."""
        self.problems: list[Problem] = []

    def of(self, read: Callable[_P, _T], *args: _P.args, **named: _P.kwargs) -> _T | None:
        """Return what `read` returns; None where it raises problems, which are kept."""
        try:
            return read(*args, **named)
        except ProblemsError as error:
            self.problems.extend(error.problems)
        return None


# Of a short word two letters in common are soon found ("age" in "name"): our choice.
SHORT, SHORT_LIKENESS = 4, 0.66
LISTED = 24  # choices that a message lists at most: our choice
LONGEST_QUOTED = 60  # characters of the owner's text in a message: our choice


def quotable(text: str, longest: int = LONGEST_QUOTED) -> str:
    """Return `text` on one line, short, with nothing a terminal would act on."""
    shown = text if len(text) <= longest else f"{text[:longest]}..."
    if shown.isascii() and shown.isprintable():
        return shown
    return "".join(
        character if character.isprintable() else f"[U+{ord(character):04X}]"
        for character in " ".join(shown.split())
    )


def nearest(word: str, choices: Iterable[str], likeness: float = 0.55) -> str | None:
    """Return the choice most like `word`, or None when nothing is near enough to suggest.

    `likeness` is the share of letters in common that is near enough, from 0 to 1: our choice.
    """
    if len(word) > LONGEST_QUOTED:
        return None
    if len(word) <= SHORT:
        likeness = max(likeness, SHORT_LIKENESS)
    lowered = {choice.lower(): choice for choice in choices}
    found = difflib.get_close_matches(word.lower(), list(lowered), n=1, cutoff=likeness)
    if not found and len(word) > 2:  # a short word for a longer name: "hen" for "laying hen"
        found = [choice for choice in lowered if word.lower() in choice.split()][:1]
    return lowered[found[0]] if found else None


def did_you_mean(word: str, choices: Iterable[str]) -> str:
    """Return `; did you mean creek?`, else the list: a reader must learn what would do."""
    names = tuple(choices)
    near = nearest(word, names)
    if near is not None:
        return f"; did you mean {quotable(near)}?"
    if not names:
        return ""
    more = f" and {len(names) - LISTED:,} more" if len(names) > LISTED else ""
    listed = ", ".join(quotable(name) for name in names[:LISTED])
    return f"; expected one of {listed}{more}"
