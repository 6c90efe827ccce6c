"""How soon to be back at each pen, and what to do there.

Visits of a day, and the gaps between them.
"""

from __future__ import annotations

from binder.figures.rounds.farm_rounds import ENTRIES, PenRound, RoundFigures, Task, for_farm

__all__ = ["ENTRIES", "PenRound", "RoundFigures", "Task", "for_farm"]
