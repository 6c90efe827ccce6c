"""What a field says of itself beside its type: what it names, and what it tells strangers.

Said here once, on the field. The check of names (`references`), the public part of a farm
(`public`) and the list of what happened (`happened`) follow from it.
"""

from __future__ import annotations

from dataclasses import dataclass


class Refers:
    """The field holds the name of something else on the farm, or a tuple of such names.

    A thing that is private takes its name with it: where the field may be empty it is emptied
    on screens, a list loses that name, and a thing that cannot do without goes too.

    Attributes:
        kinds: the lists in which the name may stand, by the key the owner writes.
        must_exist: whether the name has to stand there; a sire may belong to a neighbor.
    """

    __slots__ = ("kinds", "must_exist")

    def __init__(self, *kinds: str, must_exist: bool = True) -> None:
        """Name the lists; a field without any names nothing."""
        self.kinds = kinds
        self.must_exist = must_exist


@dataclass(frozen=True, slots=True)
class Withheld:
    """What stands in the field on screens where the thing it belongs to is private.

    Attributes:
        instead: a stand-in; None keeps the value, which then says nothing of the farm.
    """

    instead: str | None = None


@dataclass(frozen=True, slots=True)
class Prose:
    """The field holds the owner's own words, which a ` #` without quotes would cut short."""


@dataclass(frozen=True, slots=True)
class Vital:
    """Words whose loss can hurt an animal: a dose, a task."""


@dataclass(frozen=True, slots=True)
class Happened:
    """The field holds the day of something that has happened."""
