"""What the heat allows people: work, rest, drink, getting used to it.

The farm is cared for by people first.
"""

from __future__ import annotations

from binder.figures.people.in_heat import ENTRIES, PeopleFigures, for_farm
from binder.figures.people.work_rest import WorkRest

__all__ = ["ENTRIES", "PeopleFigures", "WorkRest", "for_farm"]
