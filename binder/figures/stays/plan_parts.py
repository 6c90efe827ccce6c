"""What a plan says beside its visits: numbers of a pen, calls, jobs, births (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

    from binder.figures.feed.farm_feed import GroupFeed
    from binder.figures.figure import Figure


@dataclass(frozen=True, slots=True)
class Numbers:
    """The numbers of a pen on the hot day, and the one thing that moves them.

    Attributes:
        least, most: lowest and highest number of the hours with the sun up.
        modifier: `warm-night` where a warm night makes it one higher; empty where it is
            at 3 or 4 already, as a 4 comes from the chart alone.
        limit_c: coolest air of a night from which the modifier holds [C]; None without one.
    """

    least: int
    most: int
    modifier: str = ""
    limit_c: float | None = None

    @property
    def modified(self) -> int:
        """Return the highest number where the modifier holds."""
        return self.most + 1 if self.modifier else self.most


@dataclass(frozen=True, slots=True)
class Call:
    """Who looks between two visits of a sort of day, where the sitter does not do it all.

    Attributes:
        start_h, end_h: the two visits [h].
        loads: keys of the sorts of day that ask for the same.
        own: when the sitter looks [h].
        looks: when somebody else looks [h].
        who: whom to call, empty where the farm has nobody: then the owner decides.
    """

    start_h: float
    end_h: float
    loads: tuple[str, ...]
    own: tuple[float, ...]
    looks: tuple[float, ...]
    who: str


@dataclass(frozen=True, slots=True)
class Job:
    """Work that is not the sitter's alone: the owner's before day one, or an appointment.

    Attributes:
        key: a key of `task_who.csv`.
        pen: pen id, None where it is about no pen.
        who: `two` or `owner`.
        on: its day; None where it is done before the stay begins.
        helper: who comes to it, a contact's name; empty where nobody is recorded.
        minutes: work in all [min].
        runs_min: how long water runs by itself for it [min].
    """

    key: str
    pen: str | None
    who: str
    on: dt.date | None
    helper: str
    minutes: float
    runs_min: float = 0.0


@dataclass(frozen=True, slots=True)
class Birth:
    """A birth that falls into a plan, with what holds before and after it, never both.

    Attributes:
        name: the mother.
        pen: where she is on the first of its days.
        first, last: its days, those on which it would be late among them.
        due_last: the last day on which it is not late yet.
        before, after: `water-need` of her pen on a hot day [L/day]; None where not published.
        head_before, head_after: head to count in the pen, young at the side with them.
        fed: what she is fed from the day after; None where it is not published.
        slow_after: whether a waterer of her pen gives too little once the young are there.
    """

    name: str
    pen: str | None
    first: dt.date
    last: dt.date
    due_last: dt.date
    before: Figure | None
    after: Figure | None
    head_before: int
    head_after: int
    fed: GroupFeed | None = None
    slow_after: bool = False
