"""The plan of a stay: its days, visits and whether it holds.

What a sitter is asked, day by day.
"""

from __future__ import annotations

from binder.figures.stays.stay_check import StayCheck
from binder.figures.stays.stay_days import StayDay
from binder.figures.stays.stay_plan import ENTRIES, StayPlan
from binder.figures.stays.visit_card import Visit

__all__ = ["ENTRIES", "StayCheck", "StayDay", "StayPlan", "Visit"]
