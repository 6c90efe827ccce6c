"""What the farm lacks, worst first, and what fails first on a hot day.

Reads all the other areas.
"""

from __future__ import annotations

from binder.figures.readiness.fails_first import Failure
from binder.figures.readiness.ranking import Line, Severity, for_farm

__all__ = ["Failure", "Line", "Severity", "for_farm"]
