"""How dangerous the air is for each class, as a number with its chart.

One rule, read by print, screen and command alike.
"""

from __future__ import annotations

from binder.figures.bands.band_charts import Chart
from binder.figures.bands.band_rule import Band, Rung, Verdict
from binder.figures.bands.farm_bands import ENTRIES, BandFigures, for_farm

__all__ = ["ENTRIES", "Band", "BandFigures", "Chart", "Rung", "Verdict", "for_farm"]
