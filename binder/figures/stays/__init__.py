"""The plan of a stay, or of an ordinary day: its days, visits, looks, and whether it holds.

What a sitter is asked, day by day.
"""

from __future__ import annotations

from binder.figures.stays.plan import Plan, Visit
from binder.figures.stays.stay_check import StayCheck
from binder.figures.stays.stay_days import StayDay
from binder.figures.stays.visits.visit_gap import ENTRIES

__all__ = ["ENTRIES", "Plan", "StayCheck", "StayDay", "Visit"]
