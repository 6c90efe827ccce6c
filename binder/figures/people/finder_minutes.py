"""The part of the band finder's look-up that is about people: work and rest (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from binder import units
from binder.figures.people.work_rest import work_rest

if TYPE_CHECKING:
    from collections.abc import Mapping

EFFORT = "moderate"
SHADE, SUN = "none", "full"


def minutes(finder: Mapping[str, Any]) -> dict[str, object]:
    """Return work/rest minutes for every cell of the finder, for moderate work.

    Args:
        finder: of `band_charts.finder_table`, whose rows and columns are taken.

    Returns:
        `minutes_words`: each word once. `minutes_shade`, `minutes_sun`: for each row and column
        the place of its word.
    """
    words: dict[str, int] = {}
    temps_c = [units.parse(f"{degrees} F", "temperature") for degrees in finder["temps_f"]]
    grids = {
        name: [
            [
                words.setdefault(
                    str(work_rest(temp_c, EFFORT, float(rh_pct), sun).value), len(words)
                )
                for rh_pct in finder["humidities"]
            ]
            for temp_c in temps_c
        ]
        for name, sun in (("minutes_shade", SHADE), ("minutes_sun", SUN))
    }
    return {"minutes_words": list(words), **grids}
