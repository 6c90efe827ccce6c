"""What the tests of bands share."""

from __future__ import annotations

from hypothesis import strategies as st

from binder.figures.bands.band_rule import (
    Band,
    is_banded,
)
from binder.figures.published import rows

N, A, D, E, H = Band

CLASSES = tuple(row.text("class") for row in rows("classes"))

BANDED = tuple(cls for cls in CLASSES if is_banded(cls))

humidities = st.floats(0, 100)
