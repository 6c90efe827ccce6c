"""Bleach: true strength, doses, mixes, what is left after a time in store.

Arithmetic, not permission: the label decides.
"""

from __future__ import annotations

from binder.figures.bleach import bleach_age, cleaning, doses
from binder.figures.bleach.cleaning_plan import CleaningFigures, for_farm

__all__ = ["ENTRIES", "CleaningFigures", "for_farm"]

ENTRIES = (*doses.ENTRIES, *bleach_age.ENTRIES, *cleaning.ENTRIES)
