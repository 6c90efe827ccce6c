"""What the farm lacks, worst first, and what fails first on a hot day.

Reads all the other areas.
"""

from __future__ import annotations

from binder.figures.readiness.fails_first import Failure
from binder.figures.readiness.farm_readiness import Readiness, for_farm
from binder.figures.readiness.ranking import Severity, Shortfall

__all__ = ["Failure", "Readiness", "Severity", "Shortfall", "for_farm"]
