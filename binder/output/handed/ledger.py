"""The ledger: which revision of each sheet is out, in whose binder, since when.

It lives in the farm folder as `ledger.yaml`; `ledger_file` reads and writes it.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from binder.problems import Place, Problem, ProblemsError

if TYPE_CHECKING:
    from collections.abc import Mapping

FILE = "ledger.yaml"


@dataclass(frozen=True, slots=True)
class Revision:
    """One state of a sheet that was handed over: number, day, id, title, and its mark.

    `kind` is that of a card or chart which hangs outside the binder, empty for a sheet in it.
    """

    number: int
    date: str
    sheet: str
    title: str
    content: str
    kind: str = ""


@dataclass(frozen=True, slots=True)
class HandOver:
    """One binder given to somebody.

    Attributes:
        name: to whom.
        date: the day.
        edition: what they got: sitter, helper, owner, vet, or empty for every sheet.
        foot: mark of the foot its sheets carry.
        sheets: slug -> revision of each sheet in it.
        returned: the day it came back, or empty while it is out.
        by_pen: whether few short values are corrected on its paper.
        paper: slug -> revision printed on the paper of a sheet that the pen brought up to the
            one in `sheets`.
        own_stays: whether of the sheets of stays it holds only those of `name`.
    """

    name: str
    date: str
    edition: str
    foot: str
    sheets: Mapping[str, int]
    returned: str = ""
    by_pen: bool = True
    paper: Mapping[str, int] = field(default_factory=dict)
    own_stays: bool = False

    @property
    def only(self) -> str:
        """Return the sitter whose stays alone are in it; empty where all stays are."""
        return self.name if self.own_stays else ""


@dataclass(frozen=True, slots=True)
class Ledger:
    """Every revision of every sheet, oldest first, and every hand-over, in the order made."""

    revisions: Mapping[str, tuple[Revision, ...]] = field(default_factory=dict)
    hand_overs: tuple[HandOver, ...] = ()

    def last(self, slug: str) -> Revision | None:
        """Return the latest revision of a sheet, or None before its first."""
        known = self.revisions.get(slug, ())
        return known[-1] if known else None

    def revision(self, slug: str, number: int) -> Revision:
        """Return one revision of a sheet.

        Raises:
            KeyError: the ledger does not know it.
        """
        for each in self.revisions.get(slug, ()):
            if each.number == number:
                return each
        raise KeyError(slug, number)

    def binder_of(self, name: str) -> HandOver | None:
        """Return what `name` has now, or None: never given, or given back."""
        of_name = [each for each in self.hand_overs if same_name(each.name, name)]
        return of_name[-1] if of_name and not of_name[-1].returned else None

    def out(self) -> tuple[HandOver, ...]:
        """Return the binders that are out: the last of each name, unless it came back."""
        latest = {one_name(each.name): each for each in self.hand_overs}
        return tuple(each for each in latest.values() if not each.returned)


def one_name(name: str) -> str:
    """Return what all spellings of a name have in common: case and spaces do not count."""
    return " ".join(name.split()).casefold()


def same_name(one: str, other: str) -> bool:
    """Return whether two names mean one person."""
    return one_name(one) == one_name(other)


def with_return(ledger: Ledger, name: str, date: str) -> Ledger:
    """Return the ledger with the binder of `name` marked as back.

    Raises:
        ProblemsError: nobody of that name has one.
    """
    found = ledger.binder_of(name)
    if found is None:
        names = ", ".join(each.name for each in ledger.out()) or "nobody"
        message = f'no binder is out with "{name}"; out with: {names}'
        raise ProblemsError([Problem(Place(FILE), "", message)])
    rest = tuple(
        replace(each, returned=date) if each is found else each for each in ledger.hand_overs
    )
    return replace(ledger, hand_overs=rest)
