"""What one could type for an argument of a figure, so that their list can be tried as it is.

Plausible on a hot day on a small farm; none is a figure to farm by.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

# Name of the argument -> what to type. Where one name is asked for in two kinds: (name, kind).
BY_NAME: Mapping[str | tuple[str, str], str] = MappingProxyType(
    {
        "longitude": "-82.1", "timezone": "America/New_York", "visits": "06:30,13:00,19:00",
        "humidity": "65%", "high": "95F", "low": "75F", "dew_point": "74F",
        "storage_temperature": "95F", "source": "70F", "altitude": "700ft", "wind": "5mph",
        ("sun", "text"): "full", "born": "2026-02-20", "bred": "2026-03-22",
        "farrowed": "2026-05-28",
        "weaned": "2026-05-10", "weighed": "2026-05-18", "last": "2026-07-05", "gauge": "12",
        "hot_spell_ended": "2026-07-05", "litter": "9", "day": "3", "hours": "3h",
        "caught": "2cups", "seconds": "30", "inside": "3/4in", "length": "30ft",
        "width": "9ft", "depth": "10in", "slope": "6", "diameter": "36in", "distance": "150ft",
        "target": "50ppm", "stored_for": "8weeks", "reading": "0.5ppm", "product": "1cup",
        "stored": "275gal", "holds": "275gal", "days": "3", "time": "20h", "range": "2400sqft",
        "ration": "5lb/day", "dry": "5lb", "feed": "6.5lb", "scoop": "3lb", "bucket": "5gal",
        "continuous": "12A", "other": "3A", "amps": "10A", "running": "1100W", "fuel": "4gal",
        ("water", "volume"): "3gal", ("air", "temperature"): "96F",
        ("volume", "volume"): "50gal",
        ("age", "whole"): "200", ("age", "time"): "8weeks", ("ratio", "ratio"): "1.5",
        ("weight", "weight"): "420lb",
    }
)  # fmt: skip
# Preferred where a choice is asked for, in this order; else the first of the choices.
CHOSEN = ("lactating sow", "weaned pig", "pigs", "hot")
