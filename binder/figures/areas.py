"""The areas of the program, each a folder of one name in every layer, in their order.

An area may know those before it and none after. The import law (`tests/test_layers.py`), the
list of `binder figure` and the Numbers tab all read this list.
"""

AREAS = (
    "weather",
    "place",
    "herd",
    "bands",
    "people",
    "day",
    "water",
    "hoses",
    "wallows",
    "bleach",
    "supply",
    "housing",
    "feed",
    "power",
    "rounds",
    "stays",
    "season",
    "readiness",
)
