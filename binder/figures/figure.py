"""A number that knows its unit, its working and its sources."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable

# What stands in place of a source where nobody published the number.
OWNER_RECORD = "owner-record"  # measured, counted or decided by the owner, or typed in
OUR_CHOICE = "our-choice"
DERIVED = "derived"  # worked out here
COMMON_PRACTICE = "common-practice"
FROM_MEMORY = "from-memory"

Part = Amount | str | int | float
Value = Amount | str | tuple[Amount, ...]


class NotPublishedError(ValueError):
    """Science is silent on what was asked; the message names the published range.

    A row that a table of ours has lost is no silence: that is `published.MissingRowError`.
    """


@dataclass(frozen=True, slots=True)
class Step:
    """One line of working: a key into the words, and the numbers put into it.

    The words for figure `water-need`, step `head` stand in `content/words/en/` under
    `water-need: working: head:`; amounts print in the reader's units.
    """

    key: str
    values: tuple[tuple[str, Part], ...] = ()


def step(key: str, **values: Part) -> Step:
    """Return a line of working with its numbers named."""
    return Step(key, tuple(values.items()))


@dataclass(frozen=True, slots=True)
class Figure:
    """One computed number.

    Attributes:
        name: what it is, a name of `binder figure` such as `water-need`.
        value: the unrounded amount, a printed word (a band, `07:12`), or hourly amounts.
        working: how it came about, numbers put in.
        sources: ids of `content/sources.yaml`; `our-choice`, `derived` among them where true.
        cautions: keys into the words under this figure's `cautions`.
        subject: what on the farm it is about (a pen, an animal, a hose id), else empty.
    """

    name: str
    value: Value
    working: tuple[Step, ...]
    sources: tuple[str, ...]
    cautions: tuple[str, ...] = ()
    subject: str = ""

    def __post_init__(self) -> None:
        """Name the owner's own record where nothing published stands behind the number."""
        if not self.sources:
            object.__setattr__(self, "sources", (OWNER_RECORD,))

    @property
    def amount(self) -> Amount:
        """Return the value where it is a single amount.

        Raises:
            TypeError: the value is a word or a list.
        """
        if not isinstance(self.value, Amount):
            message = f"{self.name} is not a single amount"
            raise TypeError(message)
        return self.value

    @property
    def key(self) -> str:
        """Return the id its working is found by: name and subject."""
        return f"{self.name}.{self.subject}" if self.subject else self.name


def merge_sources(*groups: Iterable[str]) -> tuple[str, ...]:
    """Return the ids of all groups, first mention first, each once."""
    return tuple(dict.fromkeys(source for group in groups for source in group))
