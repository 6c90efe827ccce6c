"""What the sheets are made from that look over the whole binder: the cover, the sources."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from binder.figures.finding import Finding
    from binder.pages.page import Tab
    from binder.pages.views import FarmView, PenView


@dataclass(frozen=True, slots=True)
class Whole:
    """The farm and its pens ready to print, and what the other sheets hold.

    Attributes:
        farm: the farm itself.
        pens: its pens, in the order of their numbers.
        outdated: the owner's protocols that are older than the maintained ones.
        tabs: those that screens show something of.
        sources: ids that the other sheets rest on.
    """

    farm: FarmView
    pens: tuple[PenView, ...]
    outdated: tuple[Finding, ...] = ()
    tabs: tuple[Tab, ...] = ()
    sources: tuple[str, ...] = ()

    def pen(self, pen_id: str) -> PenView:
        """Return a pen ready to print.

        Raises:
            KeyError: there is no such pen.
        """
        found = {pen.id: pen for pen in self.pens}
        return found[pen_id]
