"""What the lines of the logs come to, pen by pen: who panted at which number, what failed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.farm.logbook.entries import FAILED, FAST, OPEN_MOUTH, WARM

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from binder.farm.logbook.entries import Noted

SHORT = "short"
# What is told, gravest first, and which lines say so.
_SIGNS: dict[str, Callable[[Noted], bool]] = {
    OPEN_MOUTH: lambda one: one.breathing == OPEN_MOUTH,
    FAILED: lambda one: one.water == FAILED,
    SHORT: lambda one: one.counted is not None and one.of is not None and one.counted < one.of,
    FAST: lambda one: one.breathing == FAST,
    WARM: lambda one: one.water == WARM,
}


@dataclass(frozen=True, slots=True)
class Learned:
    """One thing that a pen's lines say.

    Attributes:
        sign: `open-mouth`, `failed`, `short`, `fast` or `warm`.
        pen: pen id.
        lines: the lines that say so, in order; never none.
        numbers: the numbers written on them, each once, in order.
        of: how many lines the pen has in all.
    """

    sign: str
    pen: str
    lines: tuple[Noted, ...]
    numbers: tuple[int, ...]
    of: int


def learned(found: Sequence[Noted]) -> tuple[Learned, ...]:
    """Return what the logs say, gravest first; nothing where all was well."""
    told: list[Learned] = []
    for sign, says_so in _SIGNS.items():
        for pen in dict.fromkeys(one.pen for one in found):
            of_pen = [one for one in found if one.pen == pen]
            lines = tuple(filter(says_so, of_pen))
            numbers = sorted({one.number for one in lines if one.number is not None})
            if lines:
                told.append(Learned(sign, pen, lines, tuple(numbers), len(of_pen)))
    return tuple(told)
